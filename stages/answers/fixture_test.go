package answers_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// block is a plain concrete beam, 12 m long, 0.5 m wide and 0.8 m deep: 10 kN/m.
func block(t testing.TB) stages.Element {
	shape, err := section.New([]section.Outline{{{Y: -0.25, Z: 0}, {Y: 0.25, Z: 0}, {Y: 0.25, Z: 0.8}, {Y: -0.25, Z: 0.8}}}, nil)
	require.NoError(t, err)
	return stages.Element{
		Mark: "B-1", Length: 12, Section: shape, WeightTolerance: loads.PlusMinus(0),
		Concrete: concrete.EN1992{Fck: 40e6, Cement: concrete.ClassR},
		Bars:     []stages.BondedBars{{From: 0, To: 12, At: section.Point{Z: 0.05}, Area: 1500e-6}, {From: 0, To: 12, At: section.Point{Z: 0.75}, Area: 1500e-6}},
	}
}

// dunnage is a pair of pads on the left and a linked pair on the right.
func dunnage(left, right float64) []stages.Support {
	return append(stages.Pads(0.2, left), stages.Equalised("right", stages.Pads(0.2, right)...)...)
}

// loops are lift points on the axis, 0.1 m above the block.
func loops(left, right float64) []stages.Support {
	return []stages.Support{{X: left, Z: 0.9}, {X: right, Z: 0.9}}
}

// handled is the block stored, lifted and stored again.
func handled(t testing.TB) stages.Case {
	slender := stages.Slender{Sweep: 0.010, Offset: 0.015}
	return stages.Case{
		Subject: block(t), Stage: 2, Standard: limits.All(limits.EN1992{}, limits.Handling{}),
		Plan: stages.Plan{
			stages.Store{Age: 5, On: dunnage(2.4, 9.6)},
			stages.Lift{Age: 7, On: loops(2.4, 9.6), Dynamic: loads.Dynamic{Most: 1.3}, Roll: 0.05, Slender: &slender},
			stages.Store{Age: 7, On: dunnage(2.4, 9.6)},
		},
	}
}

// stressed is the block with bars where the prestress spreads, no others, and with one straight tendon without friction and draw-in.
func stressed(t testing.TB, level, stress float64) stages.Case {
	e := block(t)
	e.Bars = nil
	for _, from := range []float64{0, 10.95} {
		for _, z := range []float64{0.05, 0.75} {
			e.Bars = append(e.Bars, stages.BondedBars{From: from, To: from + 1.05, At: section.Point{Z: z}, Area: 1500e-6})
		}
	}
	e.Tendons = []tendon.Tendon{{
		Mark: "T", Strand: tendon.Y1860S7x157, Strands: 7, Duct: 0.07, NoFriction: true, NoWobble: true,
		Elevation: tendon.Level(0, 12, level), Plan: tendon.Level(0, 12, 0),
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 25e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
	}}
	return stages.Case{
		Subject: e, Stage: 2, Standard: limits.EN1992{},
		Plan: stages.Plan{
			stages.Transfer{Age: 5, On: dunnage(0.5, 11.5), Jacking: []tendon.Jacking{{Tendons: []string{"T"}, Stress: stress, Ends: tendon.LeftEnd}}},
			yard{age: 7, on: pads(dunnage(2, 10))},
		},
	}
}

func pads(list []stages.Support) []stages.Support {
	for i := range list {
		list[i].Role = stages.Pad
	}
	return list
}

// yard is the block at rest, with one limit of its own on a reaction, and a zone in which no
// support may be.
type yard struct {
	age    float64
	on     []stages.Support
	most   float64    // largest reaction, N; 0 for none
	zone   [2]float64 // m, of the first support
	action []stages.Action
}

func (y yard) Situations(stages.History) ([]stages.Situation, error) {
	return []stages.Situation{{
		Name: "yard", Age: y.age, Standing: true, Phase: limits.Storing, Supports: y.on, Actions: y.action,
		Check: func(e stages.Effects, _ limits.Standard) (list []stages.OwnCheck, _ error) {
			at := formula.Source{Document: "invented"}
			if y.most > 0 {
				limit := limits.Limit{Name: "rated load", LimitState: "WLL", Sense: limits.AtMost, Line: formula.Given(formula.Q("R_max", y.most, formula.Newton, "rated load"), at), Source: at}
				load := formula.Given(formula.Q("R_1", e.Reactions[0].Characteristic.Most, formula.Newton, "load"), formula.Mechanics)
				list = append(list, stages.NewCheck(limit, load.Result).Derived(load, limit.Line))
			}
			if x := e.Situation.Supports[0].X; x > y.zone[0] && x < y.zone[1] {
				limit := limits.Limit{Name: "duct at the lift point", LimitState: "detailing", Sense: limits.AtLeast, Line: formula.Given(formula.Q("c_min", 1, formula.Metre, "clearance"), at), Source: at}
				list = append(list, stages.NewCheck(limit, formula.Q("c", 0.5, formula.Metre, "clearance")).Derived(limit.Line))
			}
			return list, nil
		},
	}}, nil
}
