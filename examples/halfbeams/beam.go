package main

import (
	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
)

const (
	length = 26.0             // m
	sail   = 2 * 1.6 * length // m², with a force coefficient of 2
)

// outline is a half beam to the left of the stitch, or mirrored to its right: a web over
// a wide bottom flange, a slab that reaches farther out than in.
func outline(side float64) section.Outline {
	left := section.Outline{
		{Y: 0.70, Z: 0}, {Y: 2.00, Z: 0}, {Y: 2.00, Z: 0.25}, {Y: 1.60, Z: 0.40}, {Y: 1.60, Z: 1.16}, {Y: 1.90, Z: 1.34}, {Y: 3.10, Z: 1.40},
		{Y: 3.10, Z: 1.60}, {Y: 0.20, Z: 1.60}, {Y: 0.20, Z: 1.40}, {Y: 0.90, Z: 1.34}, {Y: 1.20, Z: 1.16}, {Y: 1.20, Z: 0.40}, {Y: 0.70, Z: 0.25},
	}
	if side > 0 {
		return left
	}
	right := make(section.Outline, len(left))
	for i, p := range left {
		right[len(left)-1-i] = section.Point{Y: -p.Y, Z: p.Z}
	}
	return right
}

// beam is a half beam with its strands and bars.
func beam(mark string, side float64) (stages.Element, error) {
	shape, err := section.New([]section.Outline{outline(side)}, nil)
	if err != nil {
		return stages.Element{}, err
	}
	concrete, err := mix(shape, 2)
	if err != nil {
		return stages.Element{}, err
	}
	layer := func(name string, z, y float64, groups ...tendon.Debonding) tendon.Pretension {
		return tendon.Pretension{
			Mark: name, Strand: tendon.Y1860S7x157, Groups: groups,
			Elevation: tendon.Level(0, length, z), Plan: tendon.Level(0, length, side*y),
		}
	}
	element := stages.Element{
		Mark: mark, Length: length, Section: shape, WeightTolerance: loads.PlusMinus(0.03), Concrete: concrete, LongTerm: concrete,
		Pretension: []tendon.Pretension{
			layer("P1"+mark[len(mark)-1:], 0.07, 1.40, tendon.Debonding{Strands: 8}, tendon.Debonding{Strands: 4, Left: 3, Right: 3}),
			layer("P2"+mark[len(mark)-1:], 0.13, 1.40, tendon.Debonding{Strands: 8}, tendon.Debonding{Strands: 2, Left: 5, Right: 5}),
			layer("P3"+mark[len(mark)-1:], 1.53, 1.60, tendon.Debonding{Strands: 4}),
		},
	}
	for _, b := range [][3]float64{{0.6, 1.50, 2500}, {1.4, 1.45, 3000}, {2.4, 1.51, 3000}, {0.95, 0.20, 1500}, {1.8, 0.20, 1500}} { // m, m, mm²
		element.Bars = append(element.Bars, stages.BondedBars{To: length, At: section.Point{Y: side * b[0], Z: b[1]}, Area: b[2] * 1e-6})
	}
	return element, nil
}

// mix is the concrete of a shape, with a test on cubes at the age of release.
func mix(shape section.Shape, tested float64) (concrete.EN1992, error) {
	size, err := shape.NotionalSize(section.AllFaces)
	return concrete.EN1992{
		Fck: 50 * unit.Mega, Cement: concrete.ClassR,
		Tests:    []concrete.Test{{Age: tested, Strength: 60 * unit.Mega, Specimen: concrete.Cube, Specimens: 6, Statistic: concrete.Mean, Report: "invented report EL-H-0112"}},
		Exposure: concrete.Exposure{Humidity: 0.75, NotionalSize: size, DryingFrom: 2},
	}, err
}

// release is all strands let off the bed at once.
func release() []stages.PretensionRelease { return released("L") }

func released(side string) []stages.PretensionRelease {
	return []stages.PretensionRelease{{
		Layers: []string{"P1" + side, "P2" + side, "P3" + side}, Stress: 1250 * unit.Mega, Jacking: 1395 * unit.Mega,
		Lengths: tendon.TransmissionLength{Basic: 0.75, Short: 0.60, Long: 0.90},
	}}
}

// across are a pair of supports about y at each x, the second pair linked.
func across(y, off float64, xs ...float64) []stages.Support {
	var list []stages.Support
	for i, x := range xs {
		pair := []stages.Support{{X: x, Y: y - off}, {X: x, Y: y + off}}
		if i > 0 {
			pair = stages.Equalised("linked pair", pair...)
		}
		list = append(list, pair...)
	}
	return list
}
