package stages_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// A support that stays with another level moves by the difference: three on springs, the
// one in the middle lowered by 2 mm, as when it was so from the beginning.
func TestASupportThatStaysMovesByTheDifference(t *testing.T) {
	on := func(middle float64) []stages.Support {
		list := stages.Elastic(60e6, stages.At(1, 6, 11)...)
		list[1].Level = middle
		return list
	}
	of := func(levels ...float64) []stages.Reaction {
		var plan stages.Plan
		for i, level := range levels {
			plan = append(plan, stages.Store{Age: 28 + 1e-3*float64(i), On: on(level), OutOfLevel: 1e-6})
		}
		return effectsOf(t, block(), plan, len(levels)).Reactions
	}
	for _, c := range [][]float64{{0, -0.0005}, {0.0004, -0.0005}, {0, 0.0003, -0.0005}} {
		want, got := of(c[len(c)-1]), of(c...)
		for i := range want {
			require.InDelta(t, want[i].Nominal, got[i].Nominal, 5, "levels %v, support %d", c, i+1)
		}
		require.Greater(t, of(0)[1].Nominal-got[1].Nominal, 1e3)
	}
}

// A jack that comes between two springs with a first force lifts the beam: it gives way by
// what it has lifted, and the others lose what it has. One with a gap stays off until the
// gap is used up.
func TestAJackThatComesWithAForceOrAGap(t *testing.T) {
	const k = 60e6
	ends := stages.Elastic(k, stages.At(1, 11)...)
	of := func(jack stages.Support) []stages.Reaction {
		jack.X, jack.Role, jack.Stiffness = 6, stages.Jack, k
		return effectsOf(t, block(), stages.Plan{stages.Store{Age: 28, On: ends}, stages.Store{Age: 28.001, On: append(ends[:2:2], jack), OutOfLevel: 1e-9}}, 2).Reactions
	}
	require.InDelta(t, 0, of(stages.Support{})[2].Nominal, 1e-6, "it only touches")
	require.Zero(t, of(stages.Support{Level: -0.001})[2].Nominal)
	// Its force F = P − k·(what the beam rises there); by proportion the level P/k has the same effect.
	pressed, raised := of(stages.Support{Preload: 30e3}), of(stages.Support{Level: 30e3 / k})
	for i := range pressed {
		require.InDelta(t, raised[i].Nominal, pressed[i].Nominal, 1e-3)
	}
	require.Less(t, pressed[2].Nominal, 20e3, "P/(1 + k·(1/2k + L³/48EI))")
	require.Greater(t, pressed[2].Nominal, 5e3)
	require.InDelta(t, 120e3, pressed[0].Nominal+pressed[1].Nominal+pressed[2].Nominal, 1e-3)
	jack := stages.Support{X: 6, Role: stages.Jack, Stiffness: k, Preload: 30e3}
	three := append(ends[:2:2], jack)
	again := effectsOf(t, block(), stages.Plan{stages.Store{Age: 28, On: ends}, stages.Store{Age: 28.001, On: three, OutOfLevel: 1e-9}, stages.Store{Age: 28.002, On: append(three[:3:3], stages.Support{X: 3, Stiffness: k, Role: stages.Pad}), OutOfLevel: 1e-9}}, 3).Reactions
	require.InDelta(t, pressed[2].Nominal, again[2].Nominal, 1, "it had its first force before")
	require.InDelta(t, 2*raised[2].Nominal, of(stages.Support{Level: 60e3 / k})[2].Nominal, 1e-3)
}

// A support that is meant to lose contact is not checked for uplift; the others are.
func TestASupportThatMayLiftIsNotCheckedForUplift(t *testing.T) {
	on := stages.Elastic(60e6, stages.At(1, 6, 11)...)
	low := slices.Clone(on)
	low[1].Level = -0.02
	of := func() stages.Check {
		return check(t, run(t, block(), stages.Plan{stages.Store{Age: 28, On: on, OutOfLevel: 1e-6}, stages.Store{Age: 28.001, On: low, OutOfLevel: 1e-6}}).Stages[1].Situations[0], limits.Uplift)
	}
	require.Equal(t, stages.Fail, of().State)
	require.InDelta(t, 6, of().X, 1e-9)
	low[1].MayLift = true
	require.Equal(t, stages.Pass, of().State)
	require.NotEqual(t, 6, of().X)
}

// Props that go one after the other: the force of the first is given to the others once, not
// again when the second goes, nor when the others are set anew.
func TestPropsOnLevelsThatGoOneByOne(t *testing.T) {
	all := stages.Elastic(60e6, stages.At(1, 4, 7, 11)...)
	plan := stages.Plan{
		stages.Store{Age: 28, On: all, OutOfLevel: 1e-9}, stages.Store{Age: 28.001, On: []stages.Support{all[0], all[2], all[3]}, OutOfLevel: 1e-9},
		stages.Store{Age: 28.002, On: []stages.Support{all[0], all[3]}}, stages.Store{Age: 28.003, On: []stages.Support{all[0], all[3]}, Gradient: 0},
	}
	low := []stages.Support{all[0], all[2], all[3]}
	low[1].Level = 1e-4
	for stage := range 4 {
		sum, moment := 0.0, 0.0
		for _, r := range effectsOf(t, block(), plan, stage+1).Reactions {
			sum, moment = sum+r.Nominal, moment+r.Nominal*r.X
		}
		require.InDelta(t, 120e3, sum, 1e-3, "stage %d", stage+1)
		require.InDelta(t, 720e3, moment, 1e-2, "stage %d", stage+1)
	}
	sum := 0.0
	for _, r := range effectsOf(t, block(), append(plan[:2:2], stages.Store{Age: 28.002, On: low, OutOfLevel: 1e-9}), 3).Reactions {
		sum += r.Nominal
	}
	require.InDelta(t, 120e3, sum, 1e-3)
}
