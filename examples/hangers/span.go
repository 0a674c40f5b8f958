package main

import (
	"fmt"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/segmental"
)

const (
	length = 36.0 // m
	number = 8    // of segments
	radius = 400  // m, to the left
	depth  = 2.2  // m
)

// box is the same over the whole length.
var box = section.Box{
	Depth: depth, TopWidth: 8, RootWidth: 5, BottomWidth: 4, TopSlab: 0.25, BottomSlab: 0.22, WebThickness: 0.45, CantileverRoot: 0.40, CantileverTip: 0.22,
	TopHaunch: section.Haunch{Width: 0.5, Height: 0.15}, BottomHaunch: section.Haunch{Width: 0.3, Height: 0.15},
}

// span is the girder of match-cast segments with its bars and tendons.
func span() (stages.Girder, error) {
	shape, err := box.Shape()
	if err != nil {
		return stages.Girder{}, err
	}
	mix := concrete.EN1992{Fck: 55 * unit.Mega, Cement: concrete.ClassR}
	var segments []stages.Element
	for i := range number {
		s := stages.Element{Mark: fmt.Sprintf("S%d", i+1), Length: length / number, Section: shape, WeightTolerance: loads.PlusMinus(0.02), Concrete: mix}
		for _, b := range [][3]float64{{-3.3, depth - 0.11, 9500}, {0, depth - 0.12, 8000}, {3.3, depth - 0.11, 9500}, {-1.4, 0.11, 8000}, {-0.5, 0.11, 8000}, {0.5, 0.11, 8000}, {1.4, 0.11, 8000}} { // y, z (m), mm²
			s.Bars = append(s.Bars, stages.BondedBars{To: s.Length, At: section.Point{Y: b[0], Z: b[1]}, Area: b[2] * 1e-6})
		}
		segments = append(segments, s)
	}
	g := segmental.HungSpan("Q-4", segments...)
	g.Radius = radius
	for side, sense := range []float64{1, -1} {
		g.Tendons = append(g.Tendons, temporaryBars("LR"[side], sense)...)
		g.Tendons = append(g.Tendons, tendons("LR"[side], sense)...)
	}
	return g, nil
}

// temporaryBars are those of one side: below the top slab and above the bottom slab.
func temporaryBars(side byte, sense float64) (list []tendon.Tendon) {
	for i, at := range [][3]float64{{2.75, depth - 0.15, 2}, {0.9, 0.12, 2}} { // y, z (m), bars
		list = append(list, tendon.Tendon{
			Mark: fmt.Sprintf("B%d%c", i+1, side), Strand: tendon.Y1050H40, Strands: int(at[2]), Duct: 0.10, NoFriction: true,
			Elevation: tendon.Level(0, length, at[1]), Plan: tendon.Level(0, length, sense*at[0]),
			Approval: tendon.Approval{Reference: "invented approval EL-TB", MeanStrength: 30 * unit.Mega, AnchorSpacing: 0.25, EdgeDistance: 0.09},
		})
	}
	return list
}

// tendons are those of one side in the web: 15 strands each, from the end to the bottom
// slab.
func tendons(side byte, sense float64) (list []tendon.Tendon) {
	lean := sense * (box.WebCentre(1) - box.WebCentre(0))
	for i, z := range [][2]float64{{0.45, 0.16}, {0.85, 0.35}, {1.25, 0.54}, {1.65, 0.73}} { // at the anchor, at mid-span
		t := tendon.Tendon{Mark: fmt.Sprintf("T%d%c", i+1, side), Strand: tendon.Y1860S7x157, Strands: 15, Duct: 0.09, Friction: 0.19, Wobble: 0.005}
		t.Approval = tendon.Approval{Reference: "invented approval EL-PT", MeanStrength: 30 * unit.Mega, AnchorSpacing: 0.34, EdgeDistance: 0.165}
		t.Elevation = tendon.Drape(tendon.Point{Ordinate: z[0]}, 1.8, tendon.Point{X: 14, Ordinate: z[1]}, length)
		t.Plan = t.Elevation.Leaning(sense*box.WebCentre(0), 0, lean)
		list = append(list, t)
	}
	return list
}
