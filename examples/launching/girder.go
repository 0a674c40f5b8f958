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
	length = 34.0 // m
	depth  = 2.9  // m
)

// box is the same over the whole length.
var box = section.Box{
	Depth: depth, TopWidth: 10, RootWidth: 3.8, BottomWidth: 3.5, TopSlab: 0.22, BottomSlab: 0.26, WebThickness: 0.57, CantileverRoot: 0.38, CantileverTip: 0.20,
	TopHaunch: section.Haunch{Width: 0.5, Height: 0.15}, BottomHaunch: section.Haunch{Width: 0.3, Height: 0.15},
}

// girder is the element of the bay.
func girder() (stages.Element, error) {
	shape, err := box.Shape()
	if err != nil {
		return stages.Element{}, err
	}
	size, err := shape.NotionalSize(section.AllFaces)
	test := concrete.Test{Age: 3, Strength: 56 * unit.Mega, Specimen: concrete.Cube, Specimens: 6, Statistic: concrete.Mean, Report: "invented report EL-C-0207"}
	mix := concrete.EN1992{Fck: 60 * unit.Mega, Cement: concrete.ClassR, Tests: []concrete.Test{test}, Exposure: concrete.Exposure{Humidity: 0.75, NotionalSize: size, DryingFrom: 3}}
	element := stages.Element{Mark: "E-07", Length: length, Section: shape, WeightTolerance: loads.PlusMinus(0.03), Concrete: mix, LongTerm: mix}
	for _, from := range []float64{0.4, length - 1.4} {
		element.Extra = append(element.Extra, stages.ExtraWeight{Mark: fmt.Sprintf("diaphragm at %.1f m", from), From: from, To: from + 1, Weight: 150 * unit.Kilo, Z: 1.2})
	}
	for _, from := range []float64{0, length - 8} { // bars of both end zones: y, z (m), mm²
		for _, b := range [][3]float64{{-2.9, depth - 0.12, 8000}, {0, depth - 0.12, 10000}, {2.9, depth - 0.12, 8000}, {-0.8, 0.13, 18000}, {0.8, 0.13, 18000}} {
			element.Bars = append(element.Bars, stages.BondedBars{From: from, To: from + 8, At: section.Point{Y: b[0], Z: b[1]}, Area: b[2] * 1e-6})
		}
	}
	for side, sense := range []float64{1, -1} {
		element.Tendons = append(element.Tendons, tendons("LR"[side], sense)...)
	}
	return element, err
}

// tendons are those of one side: three draped in the web, two straight in the bottom slab.
func tendons(side byte, sense float64) (list []tendon.Tendon) {
	one := func(strands int, duct, spacing, edge float64) tendon.Tendon {
		t := tendon.Tendon{Strand: tendon.Y1860S7x157, Strands: strands, Duct: duct, Friction: 0.19, Wobble: 0.005}
		t.Approval = tendon.Approval{Reference: "invented approval EL-PT", MeanStrength: 30 * unit.Mega, AnchorSpacing: spacing, EdgeDistance: edge}
		return t
	}
	lean := sense * (box.WebCentre(1) - box.WebCentre(0))
	for i, z := range [][2]float64{{1.38, 0.15}, {1.925, 0.34}, {2.48, 0.53}} { // at the anchor, at mid-span
		t := one(15, 0.09, 0.34, 0.165)
		t.Mark = fmt.Sprintf("W%d%c", i+1, side)
		t.Elevation = tendon.Drape(tendon.Point{Ordinate: z[0]}, 2.5, tendon.Point{X: 15, Ordinate: z[1]}, length)
		t.Plan = t.Elevation.Leaning(sense*box.WebCentre(0), 0, lean)
		list = append(list, t)
	}
	for i, off := range []float64{0.45, 1.15} {
		t := one(7, 0.07, 0.26, 0.125)
		t.Mark, t.Elevation, t.Plan = fmt.Sprintf("F%d%c", i+1, side), tendon.Level(0, length, 0.13), tendon.Level(0, length, sense*off)
		list = append(list, t)
	}
	return list
}
