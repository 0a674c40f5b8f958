package main

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

// overLeg is a gantry of 10 kN/m, on its rear end and on a leg with a length in front of it,
// and its position.
func overLeg(length, beyond float64) (launching.Gantry, launching.Position) {
	return launching.Gantry{
			Mark: "EL-G", Length: length, Tolerance: loads.PlusMinus(0), Stiffness: []beam.Stretch{{BendingStiffness: 20e9}},
			Weights: []launching.Weight{{Mark: "girder", Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, length, 10e3)}}}},
			Legs:    []launching.Leg{{Mark: "rear", Width: 5, Capacity: 1e7}, {Mark: "main", Width: 5, Capacity: 1e7}},
		}, launching.Position{
			Name: "nose in front", Stands: []launching.Stand{{Leg: "rear", X: 0, On: "P1"}, {Leg: "main", X: length - beyond, On: "P2", Holds: true}},
		}
}

// reach is the cantilever (m) of a gantry at which its nominal factor against overturning
// forward is a given one.
func reach(length, factor float64) (float64, error) {
	return formula.Root(0.2*length, 0.7*length, func(x float64) (float64, error) {
		g, p := overLeg(length, x)
		list, err := g.Balances(p)
		if err != nil {
			return 0, err
		}
		f, _ := list[0].Simple()
		return f - factor, nil
	})
}

// selfLaunches are a uniform gantry of length L that cantilevers x: the factor is
// ((L − x)/x)², so that L = (1 + √FS)·x, and its nose sinks as an overhang.
func selfLaunches() []Check {
	row := func(name, unit string, value float64, ours func() (float64, error)) Check {
		return Check{Name: name, Package: "stages/launching", Ours: ours}.from(ClosedForm, statics).is(value, unit, same(value), floatRounding)
	}
	var rows []Check
	for _, factor := range []float64{1.25, 1.5, 2} {
		rows = append(rows, row(fmt.Sprintf("self-launch of a uniform gantry, factor %g: length over cantilever 1 + √FS", factor), "1", 1+math.Sqrt(factor), func() (float64, error) {
			x, err := reach(80, factor)
			return 80 / x, err
		}))
	}
	const a, l = 25., 35.
	return append(rows,
		row("self-launch of a uniform gantry of 160 m, factor 1.5: cantilever", "m", 160/(1+math.Sqrt(1.5)), func() (float64, error) { return reach(160, 1.5) }),
		row("nose of a uniform gantry, 25 m in front of legs 35 m apart: w·a(4a²l + 3a³ − l³)/24EI down", "m", 10e3*a*(4*a*a*l+3*a*a*a-l*l*l)/(24*20e9), func() (float64, error) {
			g, p := overLeg(a+l, a)
			return g.Nose(p)
		}))
}

// hoists are an element of 9,516 kN whose centre of gravity is 50 mm off its axis, on hooks
// 4.5 m apart: the pair that is not linked takes all the torque, W·e/s on each; four alike
// take half of it at each end.
func hoists() []Check {
	difference := func(on func([]stages.Support) []stages.Support) func() (float64, error) {
		return func() (float64, error) {
			points := stages.Pads(2.25, 3, 37)
			for i := range points {
				points[i].Z, points[i].Role = 1.127, stages.LiftPoint
			}
			reactions, err := hoisted(on(points))
			if err != nil {
				return 0, err
			}
			return (reactions[1].Nominal - reactions[0].Nominal) / 2 / 1e3, nil
		}
	}
	linked := func(points []stages.Support) []stages.Support {
		return append(points[:2:2], stages.Equalised("winches in series", points[2:]...)...)
	}
	alike := func(points []stages.Support) []stages.Support { return stages.Elastic(50e6, points...) }
	const name = "hoist of 9,516 kN, centre of gravity 50 mm off, hooks 4.5 m apart: "
	return []Check{
		closedRow(name+"three points, ± on each of the independent pair", "stages/launching", "kN", 9516*.05/4.5, difference(linked)),
		closedRow(name+"four points alike, ± on each", "stages/launching", "kN", 9516*.05/4.5/2, difference(alike)),
	}
}

// hoisted are the reactions of that element, a slab of 40 m with a weight to one side.
func hoisted(on []stages.Support) ([]stages.Reaction, error) {
	const extra = 500e3
	slab, err := section.New([]section.Outline{{{Y: -4, Z: 0}, {Y: 4, Z: 0}, {Y: 4, Z: 1.127}, {Y: -4, Z: 1.127}}}, nil)
	if err != nil {
		return nil, err
	}
	element := stages.Element{
		Mark: "EL-S", Length: 40, Section: slab, Concrete: concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR}, WeightTolerance: loads.PlusMinus(0),
		Extra: []stages.ExtraWeight{{Mark: "plant", From: 20, To: 20, Weight: extra, Y: 9516e3 * .05 / extra, Z: 0.5}},
	}
	hoist := launching.Hoist{Age: 28, On: on, Hooks: []launching.Hook{{Supports: []int{1, 2}, Rated: 10e6}, {Supports: []int{3, 4}, Rated: 10e6}}, Dynamic: loads.AtRest(), OutOfLevel: 1e-3}
	pads := stages.Pads(2.25, 3, 37)
	plan := stages.Plan{stages.Store{Age: 28, On: append(pads[:2:2], stages.Equalised("linked", pads[2:]...)...)}, hoist}
	analysis, err := plan.Analyse(element, limits.EN1992{})
	if err != nil {
		return nil, err
	}
	effects, err := analysis.Effects(2, 1)
	return effects.Reactions, err
}

// jointOfSpans is a carrier of four axles, its middle two over the bearings on both sides
// of a pier: they count in full, the outer ones by the lever of their span.
func jointOfSpans() Check {
	carrier := launching.Carrier{
		Mark: "EL-C", Wheel: 200e3, Brakes: 2, Brake: 50e3, Drag: 0.02,
		Train: loads.Train{Name: "carrier", Dynamic: 1.1, Axles: []loads.Axle{{Force: 400e3}, {Force: 400e3, Behind: 5}, {Force: 400e3, Behind: 1.4}, {Force: 400e3, Behind: 5}}},
	}
	return closedRow("carrier of four axles of 400 kN × 1.1, 5, 1.4 and 5 m apart, spans of 34 m on bearings 0.7 m from their ends: force on the pier", "stages/launching", "kN",
		1.1*400*(2+2*27.6/32.6), func() (float64, error) {
			left, _, err := launching.Ride{Carrier: carrier, Line: launching.Spans{Before: 34, After: 34, Bearings: 0.7}}.Piers(34)
			return left / 1e3, err
		})
}
