package main

import (
	"fmt"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
)

const (
	length = 28.0 // m
	depth  = 2.0  // m
)

// box is the same over the whole length.
var box = section.Box{
	Depth: depth, TopWidth: 8.6, RootWidth: 3.8, BottomWidth: 3.5, TopSlab: 0.25, BottomSlab: 0.26, WebThickness: 0.60, CantileverRoot: 0.40, CantileverTip: 0.20,
	TopHaunch: section.Haunch{Width: 0.5, Height: 0.15}, BottomHaunch: section.Haunch{Width: 0.3, Height: 0.15},
}

// span is the element beside the pumping station.
func span() (stages.Element, error) {
	shape, err := box.Shape()
	if err != nil {
		return stages.Element{}, err
	}
	size, err := shape.NotionalSize(section.AllFaces)
	test := concrete.Test{Age: 7, Strength: 57 * unit.Mega, Specimen: concrete.Cube, Specimens: 6, Statistic: concrete.Mean, Report: "invented report EL-C-0311"}
	mix := concrete.EN1992{Fck: 50 * unit.Mega, Cement: concrete.ClassN, Tests: []concrete.Test{test}, Exposure: concrete.Exposure{Humidity: 0.75, NotionalSize: size, DryingFrom: 3}}
	element := stages.Element{Mark: "PS-1", Length: length, Section: shape, WeightTolerance: loads.PlusMinus(0.03), Concrete: mix}
	for _, from := range []float64{0, length - 1} {
		element.Extra = append(element.Extra, stages.ExtraWeight{Mark: fmt.Sprintf("diaphragm at %.0f m", from), From: from, To: from + 1, Weight: 110 * unit.Kilo, Z: 0.9})
	}
	for _, b := range [][3]float64{{-2.9, depth - 0.12, 4000}, {0, depth - 0.12, 6000}, {2.9, depth - 0.12, 4000}, {-1.1, 0.12, 9000}, {1.1, 0.12, 9000}} { // y, z (m), mm²
		element.Bars = append(element.Bars, stages.BondedBars{From: 0, To: length, At: section.Point{Y: b[0], Z: b[1]}, Area: b[2] * 1e-6})
	}
	for side, sense := range []float64{1, -1} {
		element.Tendons = append(element.Tendons, tendons("LR"[side], sense)...)
	}
	return element, err
}

// tendons are those of one side: two draped in the web, one straight in the bottom slab.
func tendons(side byte, sense float64) (list []tendon.Tendon) {
	lean := sense * (box.WebCentre(1) - box.WebCentre(0))
	for i, z := range [][2]float64{{1.05, 0.16}, {1.55, 0.38}} { // at the anchor, at mid-span
		t := tendon.Tendon{Mark: fmt.Sprintf("W%d%c", i+1, side), Strand: tendon.Y1860S7x157, Strands: 16, Duct: 0.095, Friction: 0.19, Wobble: 0.005}
		t.Approval = tendon.Approval{Reference: "invented approval EL-PT", MeanStrength: 28 * unit.Mega, AnchorSpacing: 0.40, EdgeDistance: 0.20}
		t.Elevation = tendon.Drape(tendon.Point{Ordinate: z[0]}, 2, tendon.Point{X: 12.5, Ordinate: z[1]}, length)
		t.Plan = t.Elevation.Leaning(sense*box.WebCentre(0), 0, lean)
		list = append(list, t)
	}
	floor := tendon.Tendon{Mark: fmt.Sprintf("F%c", side), Strand: tendon.Y1860S7x157, Strands: 7, Duct: 0.07, Friction: 0.19, Wobble: 0.005}
	floor.Approval = tendon.Approval{Reference: "invented approval EL-PT", MeanStrength: 28 * unit.Mega, AnchorSpacing: 0.26, EdgeDistance: 0.125}
	floor.Elevation, floor.Plan = tendon.Level(0, length, 0.13), tendon.Level(0, length, sense*0.45)
	return append(list, floor)
}
