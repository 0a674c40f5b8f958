package stages_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// spread is half of the range of a reaction at rest.
func spread(p stages.Reaction) float64 { return (p.Static.Most - p.Static.Least) / 2 }

// What a level does is in proportion to it: stated anew on the same elastic supports,
// a larger one counts, a smaller one does not take back what was there. The concrete is a
// little stiffer each day.
func TestALargerLevelOnTheSameSupportsCounts(t *testing.T) {
	for name, on := range map[string][]stages.Support{
		"four pads": stages.Elastic(60e6, stages.Pads(0.2, 1, 11)...), "three in a row": stages.Elastic(60e6, stages.At(1, 6.5, 11)...),
	} {
		of := func(levels ...float64) []stages.Reaction {
			var plan stages.Plan
			for i, level := range levels {
				plan = append(plan, stages.Store{Age: 28 + float64(i), On: on, OutOfLevel: level})
			}
			r := run(t, block(), plan)
			for i := range levels { // what acts: the largest so far on these supports
				require.Equal(t, slices.Max(levels[:i+1]), r.Stages[i].Situations[0].OutOfLevel)
			}
			return r.Stages[len(levels)-1].Situations[0].Reactions
		}
		one := of(1e-4)
		for _, c := range []struct {
			levels []float64
			most   float64 // of all levels, in 1e-4 m
		}{
			{[]float64{1e-4, 1e-4}, 1}, {[]float64{1e-4, 3e-4}, 3}, {[]float64{3e-4, 1e-4}, 3}, {[]float64{1e-4, 2e-4, 4e-4}, 4}, {[]float64{2e-4, 0}, 2}, {[]float64{4e-4}, 4},
		} {
			for i, p := range of(c.levels...) {
				require.InEpsilon(t, c.most*spread(one[i]), spread(p), 2e-3, "%s, support %d, levels %v", name, i+1, c.levels)
				require.InDelta(t, one[i].Nominal, p.Nominal, 1e-6*p.Nominal)
				require.Positive(t, spread(one[i]))
			}
		}
	}
}

// Stresses as well: with four times the level the torsion of the box is four times as
// large, in the stage that states it.
func TestALargerLevelTwistsMore(t *testing.T) {
	e := stiffBox(t)
	e.Extra = nil
	on := stages.Elastic(80e6, stages.Pads(1.9, 1.6, 32.4)...)
	shear := func(levels ...float64) float64 {
		var plan stages.Plan
		for i, level := range levels {
			plan = append(plan, stages.Store{Age: 28 + float64(i), On: on, OutOfLevel: level})
		}
		return check(t, run(t, e, plan).Stages[len(levels)-1].Situations[0], limits.WebShear).Demand.Value
	}
	small, large := shear(0.001), shear(0.004)
	require.Greater(t, large, small+1e4)
	require.InEpsilon(t, large, shear(0.001, 0.004), 1e-4)
	require.InEpsilon(t, large, shear(0.004, 0.001), 1e-4)
	require.InEpsilon(t, small, shear(0.001, 0.001), 1e-4)
}

// The same supports on a slope stand anew: statics on the slope, not as before.
func TestTheSameSupportsOnASlopeStandAnew(t *testing.T) {
	on := dunnage(1, 11)
	for i := range on {
		on[i].Z, on[i].Bracket = -0.6, true
	}
	of := func(gradients ...float64) stages.Reaction {
		var plan stages.Plan
		for i, g := range gradients {
			plan = append(plan, stages.Store{Age: 28 + float64(i), On: on, Gradient: g})
		}
		return run(t, block(), plan).Stages[len(gradients)-1].Situations[0].Reactions[0]
	}
	level := of(0)
	require.InDelta(t, 0, spread(level), 1e-6)
	for _, c := range [][]float64{{0, 0.1}, {0.05, 0.1}, {0.1}} {
		p := of(c...)
		// 120 kN at 1 m above the pads moves by tan 0.1: ± 120·0.1003/10 on the pair.
		require.InDelta(t, 120e3*0.10033467/10/2, spread(p), 1, "%v", c)
	}
}
