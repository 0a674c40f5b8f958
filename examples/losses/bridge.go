package main

import (
	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
)

// The two spans of the quarry curve: precast segments made continuous over the
// middle pier, eight equal tendons stressed one after another from both ends.
const (
	span     = 36.0 // m
	length   = 2 * span
	tendons  = 8     // four in each web
	weight   = 26e3  // N/m³, with reinforcement and epoxy
	stressed = 7.0   // age of the concrete, d
	month    = 28.0  // d
	life     = 36500 // d
)

var box = section.Box{
	Depth: 2.3, TopWidth: 9.0, RootWidth: 4.9, BottomWidth: 4.3,
	TopSlab: 0.20, BottomSlab: 0.20, WebThickness: 0.34, CantileverRoot: 0.35, CantileverTip: 0.16,
	TopHaunch: section.Haunch{Width: 0.5, Height: 0.15}, BottomHaunch: section.Haunch{Width: 0.3, Height: 0.15},
}

// mix is the concrete; the box dries inside and outside.
func mix(shape section.Shape) concrete.EN1992 {
	const drying = 34.0 // m, outer and inner perimeter
	return concrete.EN1992{
		Fck: 50 * unit.Mega, Cement: concrete.ClassR,
		Exposure: concrete.Exposure{Humidity: 0.75, NotionalSize: 2 * shape.Properties().Area / drying, DryingFrom: 2},
	}
}

// continuous is one of the tendons: low in the spans, high over the pier.
func continuous() (tendon.Tendon, error) {
	at := func(x, z, slope float64) tendon.Through {
		return tendon.Through{Point: tendon.Point{X: x, Ordinate: z}, Slope: slope}
	}
	elevation, err := tendon.Smooth(
		at(0, 1.30, -0.14), at(14.4, 0.25, 0), at(span, 2.05, 0), at(length-14.4, 0.25, 0), at(length, 1.30, 0.14))
	friction, wobble, lawErr := tendon.Law{Convention: tendon.WobbleEN, Friction: tendon.FrictionStrand, Wobble: 0.005}.EN()
	if err == nil {
		err = lawErr
	}
	return tendon.Tendon{
		Mark: "C1", Strand: tendon.Y1860S7x157, Strands: 12, Duct: 0.09, Elevation: elevation, Plan: tendon.Level(0, length, 0),
		Friction: friction, Wobble: wobble,
		Approval: tendon.Approval{Reference: "invented approval EL-PT-12", MeanStrength: 30 * unit.Mega, AnchorSpacing: 0.34, EdgeDistance: 0.165},
	}, err
}

// layout is the two spans on their bearings.
func layout(stiffness float64) beam.Layout {
	return beam.Layout{
		Length: length, Stiffness: []beam.Stretch{{BendingStiffness: stiffness}},
		Supports: []beam.Support{{At: 0}, {At: span}, {At: length}},
	}
}
