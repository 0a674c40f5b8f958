package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Sliding by plain sums: 120 kN on pads of μ = 0.2 and more, ± 4 % of weight. What
// lifts counts with its factor at its worse end, what presses never; pushes of one
// direction add up by magnitude, those at right angles as a resultant.
func TestSlidingOfEveryKindOfAction(t *testing.T) {
	e := block()
	e.WeightTolerance = loads.PlusMinus(0.04)
	down := func(mark string, force, least, most float64) stages.Action {
		return stages.Action{Mark: mark, Least: least, Most: most, Loads: point(5, force)}
	}
	side := func(mark string, force, least, most float64) stages.Action {
		return stages.Action{Mark: mark, Kind: stages.Wind, Direction: stages.Transverse, Z: 0.1, Least: least, Most: most, Loads: point(5, force)}
	}
	ahead := func(mark string, force, least, most float64) stages.Action {
		return stages.Action{Mark: mark, Kind: stages.Braking, Direction: stages.Along, Z: 0.1, Least: least, Most: most, Loads: point(5, force)}
	}
	for name, c := range map[string]struct {
		acts         []stages.Action
		known, lifts float64 // N, without partial factor in lifts
	}{
		"nothing":                    {},
		"a weight presses":           {[]stages.Action{down("a", 9e3, 0, 1)}, 0, 0},
		"a weight that is there":     {[]stages.Action{down("a", 9e3, 1, 1)}, 0, 0},
		"a hoist lifts":              {[]stages.Action{down("a", -9e3, 0, 1)}, 0, 9e3},
		"a hoist lifts more":         {[]stages.Action{down("a", -9e3, 0, 1.4)}, 0, 1.4 * 9e3},
		"both ways, more upwards":    {[]stages.Action{down("a", 9e3, -0.7, 1)}, 0, 0.7 * 9e3},
		"two hoists":                 {[]stages.Action{down("a", -9e3, 0, 1), down("b", -2e3, 0.5, 1)}, 0, 11e3},
		"one lifts, one presses":     {[]stages.Action{down("a", -9e3, 0, 1), down("b", 4e3, 0, 1)}, 0, 9e3},
		"wind":                       {[]stages.Action{side("a", 4e3, 0, 1)}, 1.5 * 4e3, 0},
		"wind the other way":         {[]stages.Action{side("a", 4e3, -1.3, 1)}, 1.5 * 1.3 * 4e3, 0},
		"wind from the left":         {[]stages.Action{side("a", -4e3, 0.2, 0.9)}, 1.5 * 0.9 * 4e3, 0},
		"two winds":                  {[]stages.Action{side("a", 4e3, -1, 1), side("b", -1e3, 0, 1)}, 1.5 * 5e3, 0},
		"braking":                    {[]stages.Action{ahead("a", 4e3, -0.5, 1)}, 1.35 * 4e3, 0},
		"wind and braking":           {[]stages.Action{side("a", 4e3, 0, 1), ahead("b", 3e3, 0, 1)}, math.Hypot(1.5*4e3, 1.35*3e3), 0},
		"too little to matter":       {[]stages.Action{side("a", 1e3, 0, 1)}, 1.5 * 1e3, 0},
		"braking, and a hoist lifts": {[]stages.Action{ahead("a", -4e3, 0, 1), down("b", -5e3, 0, 1)}, 1.35 * 4e3, 5e3},
	} {
		on := paired(frames(2, 1, 11))
		for i, mu := range []float64{0.45, 0.3, 0.2, 0.35} {
			on[i].Friction = mu
		}
		s := run(t, e, stages.Plan{stages.Seat{Age: 28, On: on, Actions: c.acts}}).Stages[0].Situations[0]
		got := check(t, s, limits.Sliding)
		require.InEpsilon(t, math.Max(0.025*120e3, 0.01*120e3+c.known), got.Demand.Value, 1e-9, name)
		require.InEpsilon(t, 0.2/1.2*(0.95*0.96*120e3-1.35*c.lifts), got.Limit.Value, 1e-9, name)
	}
}

// What is hauled slides with the least of its weight: dynamic factor and tolerance.
func TestSlidingWhileHauled(t *testing.T) {
	e := block()
	e.WeightTolerance = &loads.Tolerance{Under: 0.07, Over: 0.02}
	stand := paired(frames(0.4, 2, 10))
	for _, least := range []float64{0.7, 0.9, 1} {
		plan := stages.Plan{stages.Store{Age: 28, On: stand}, stages.Haul{Age: 28, On: paired(frames(0.5, 1, 11)), Gradient: 0.06, Dynamic: loads.Dynamic{Least: least, Most: 1.3}}, stages.Store{Age: 28, On: stand}}
		got := check(t, run(t, e, plan).Stages[1].Situations[0], limits.Sliding)
		require.InEpsilon(t, 0.01*120e3+120e3*math.Tan(0.06), got.Demand.Value, 1e-9)
		require.InEpsilon(t, 0.1/1.2*0.95*0.93*least*120e3, got.Limit.Value, 1e-9, "no friction stated: 0.1")
	}
}

// Friction counts of what rubs only; where nothing rubs, or nothing holds both ways,
// sliding is not evaluated and the stage does not pass.
func TestWhatDoesNotRubIsNotEvaluatedForSliding(t *testing.T) {
	of := func(change func(i int, s *stages.Support)) stages.Check {
		on := paired(frames(0.4, 1, 11))
		for i := range on {
			on[i].Friction = 0.3
			change(i, &on[i])
		}
		return check(t, run(t, block(), stages.Plan{stages.Seat{Age: 28, On: on}}).Stages[0].Situations[0], limits.Sliding)
	}
	for words, change := range map[string]func(i int, s *stages.Support){
		"no support restrains both horizontal directions; state Holds of the supports": func(i int, s *stages.Support) {
			s.Role, s.Holds = stages.Bearing, stages.HoldsAcross
			if i > 1 {
				s.Holds = stages.HoldsAlong
			}
		},
		"the supports restrain horizontally by other means than friction: their capacity must be shown": func(_ int, s *stages.Support) {
			s.Role, s.Holds = stages.Bearing, stages.HoldsBoth
		},
	} {
		c := of(change)
		require.Equal(t, stages.NotEvaluated, c.State, words)
		require.Equal(t, words, c.Note)
	}
}

// Friction carries what presses the supports that rub: beside bearings that slide it is
// their reaction alone, as little as it may be.
func TestFrictionOfTheSupportsThatRubOnly(t *testing.T) {
	e := block()
	e.WeightTolerance = loads.PlusMinus(0.04)
	of := func(rubs func(i int) bool, acts ...stages.Action) stages.Check {
		on := paired(frames(0.4, 1, 9))
		for i := range on {
			if on[i].Friction = 0.3; !rubs(i) {
				on[i].Role, on[i].Holds, on[i].Friction = stages.Bearing, stages.HoldsNeither, 0.05
			}
		}
		return check(t, run(t, e, stages.Plan{stages.Seat{Age: 28, On: on, Actions: acts}}).Stages[0].Situations[0], limits.Sliding)
	}
	left, right := func(i int) bool { return i < 2 }, func(i int) bool { return i >= 2 }
	// 120 kN at 6 m: 45 kN on the left, 75 kN on the right.
	require.InEpsilon(t, 0.3/1.2*0.95*0.96*45e3, of(left).Limit.Value, 1e-9)
	require.InEpsilon(t, 0.3/1.2*0.95*0.96*75e3, of(right).Limit.Value, 1e-9)
	require.InEpsilon(t, 0.3/1.2*0.95*0.96*45e3/2, of(func(i int) bool { return i == 0 }).Limit.Value, 1e-9, "one pad of two")
	// A load of 8 kN beyond the right line takes 8·3/8 off the left one.
	drum := stages.Action{Mark: "drum", Loads: point(12, 8e3)}
	require.InEpsilon(t, 0.3/1.2*(0.95*0.96*45e3-1.35*8e3*3/8), of(left, drum).Limit.Value, 1e-9)
	require.InEpsilon(t, 0.3/1.2*0.95*0.96*75e3, of(right, drum).Limit.Value, 1e-9)
	// What lifts all of it off leaves nothing: it fails, with no friction at all.
	big := stages.Action{Mark: "big", Loads: point(12, 160e3)}
	require.Equal(t, stages.Fail, of(left, big).State)
	require.Zero(t, of(left, big).Limit.Value)
	// Where all rub it is the self-weight.
	require.InEpsilon(t, 0.3/1.2*0.95*0.96*120e3, of(func(int) bool { return true }).Limit.Value, 1e-9)
}
