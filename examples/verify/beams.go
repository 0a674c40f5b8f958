package main

import (
	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// beams is every check on line members under loads at rest.
func beams() []Check {
	rows := singleSpans()
	rows = append(rows, overhangs()...)
	rows = append(rows, patternLoads()...)
	rows = append(rows, pickPoints()...)
	rows = append(rows, equalisedPicks()...)
	rows = append(rows, pilePicks()...)
	rows = append(rows, stiffnesses()...)
	return append(append(rows, spaces()...), gantries()...)
}

const (
	floatRounding = "closed form: rounding of float64 arithmetic"
	printRounding = "half a unit of the last printed digit"
	statics       = "equilibrium and beam theory"
)

// reading takes one number from a response.
type reading func(*beam.Response) float64

func moment(x float64) reading     { return func(r *beam.Response) float64 { return r.Moment(x) } }
func deflection(x float64) reading { return func(r *beam.Response) float64 { return r.Deflection(x) } }
func reaction(i int) reading {
	return func(r *beam.Response) float64 { return r.Reactions[i].Force }
}
func mostMoment(r *beam.Response) float64      { return r.MomentRange().Most.Value }
func mostMomentAt(r *beam.Response) float64    { return r.MomentRange().Most.At }
func leastMoment(r *beam.Response) float64     { return r.MomentRange().Least.Value }
func leastDeflection(r *beam.Response) float64 { return r.DeflectionRange().Least.Value }

// uniformBeam has length and EI = 1.
func uniformBeam(length float64, supports ...beam.Support) beam.Layout {
	return beam.Layout{Length: length, Stiffness: []beam.Stretch{{BendingStiffness: 1}}, Supports: supports}
}

func line(load loads.Line) loads.Set { return loads.Set{Lines: []loads.Line{load}} }
func point(at float64) loads.Set     { return loads.Set{Points: []loads.Point{{At: at, Force: 1}}} }

// ours solves the beam and reads the value.
func ours(layout beam.Layout, set loads.Set, read reading) func() (float64, error) {
	return func() (float64, error) {
		b, err := beam.New(layout)
		if err != nil {
			return 0, err
		}
		r, err := b.Solve(set)
		if err != nil {
			return 0, err
		}
		return read(r), nil
	}
}

// exactly is a closed form on a beam whose numbers are of the order 1: its length or
// span, its load and its EI are 1, and Unit says what they are.
func exactly(name string, layout beam.Layout, set loads.Set, value float64, unit string, read reading) Check {
	return Check{
		Name: name, Package: "beam", Source: statics, Kind: ClosedForm,
		Value: value, Unit: unit, Tolerance: 1e-9 * max(value, -value, 1e-3), Reason: floatRounding,
		Ours: ours(layout, set, read),
	}
}

// printed is a value known to the digits printed.
func printed(name, source string, kind Kind, layout beam.Layout, set loads.Set, value, half float64, unit string, read reading) Check {
	return Check{
		Name: name, Package: "beam", Source: source, Kind: kind,
		Value: value, Unit: unit, Tolerance: half, Reason: printRounding,
		Ours: ours(layout, set, read),
	}
}
