package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Where nothing is stated about how four pads share, the steel of the tension zone is
// that of the worst way: each three of them that carry, stated alone. The bars differ
// along the element, so that the largest force is not the worst.
func TestSteelIsTheWorstOfEveryWay(t *testing.T) {
	e := block()
	e.Extra = []stages.ExtraWeight{{Mark: "block", From: 3, To: 3, Weight: 30e3, Y: 0.1}}
	e.Bars = []stages.BondedBars{
		{From: 0, To: 7, At: section.Point{Z: 0.05}, Area: 2500e-6}, {From: 7, To: 12, At: section.Point{Z: 0.05}, Area: 900e-6}, {From: 0, To: 12, At: section.Point{Z: 0.75}, Area: 1500e-6},
	}
	four := []stages.Support{{X: 1, Y: -0.2}, {X: 2.5, Y: 0.2}, {X: 9, Y: -0.2}, {X: 11, Y: 0.15}}
	at := func(on []stages.Support) (stages.Check, bool) {
		s := run(t, e, stages.Plan{stages.Store{Age: 28, On: on}}).Stages[0].Situations[0]
		for _, p := range s.Reactions {
			if p.Nominal < 0 {
				return stages.Check{}, false
			}
		}
		return check(t, s, limits.TensionSteel), true
	}
	var want stages.Check
	stand := 0
	for out := range four {
		c, stands := at(append(append([]stages.Support{}, four[:out]...), four[out+1:]...))
		if !stands {
			continue
		}
		if stand++; c.Utilisation > want.Utilisation {
			want = c
		}
	}
	require.GreaterOrEqual(t, stand, 2)
	for range four { // whichever way comes first
		four = append(four[1:], four[0])
		got, _ := at(four)
		require.InEpsilon(t, want.Demand.Value, got.Demand.Value, 1e-6)
		require.InEpsilon(t, want.Limit.Value, got.Limit.Value, 1e-9)
		require.InDelta(t, want.X, got.X, 1e-4)
	}
}

// Three lines of supports about which nothing is said share in three ways. That of the
// two on the left needs the left piece heavy and the right one light: A = 50 kN at
// 2.5 m, B = 70 kN at 8.5 m, and about x = 5.98 m 50·3.48 is a little less than 70·2.52.
func TestAWayThatOnlyUnlikeErrorsOfWeightAllowCounts(t *testing.T) {
	on := stages.At(2, 5.98, 10)
	of := func(groups ...string) []stages.Reaction {
		return run(t, twoGroups(groups...), stages.Plan{stages.Store{Age: 28, On: on}}).Stages[0].Situations[0].Reactions
	}
	two := of("a", "b")
	require.Zero(t, two[0].Static.Least, "where it would pull another way holds")
	one := of("", "")
	// The middle and the right one: R = (1.06·70·2.52 − 0.9·50·3.48)/4.02 on the right at most
	// there, more where the middle one does not carry: (1.1·50·0.5 + 1.06·70·6.5)/8.
	require.InDelta(t, (1.1*50e3*0.5+1.06*70e3*6.5)/8, two[2].Static.Most, 1e-6)
	require.Zero(t, two[2].Static.Least)
	for _, p := range append(one, two...) {
		require.True(t, p.Bounded)
		require.Nil(t, p.Share, "no band to measure by")
	}
}

// A way in which a support would pull counts nowhere: of three lines the two on the
// right do not carry a weight that lies left of them.
func TestAWayThatPullsDoesNotCount(t *testing.T) {
	on := stages.At(1, 7, 11)
	s := run(t, block(), stages.Plan{stages.Store{Age: 28, On: on}}).Stages[0].Situations[0]
	// 120 kN at 6 m: on 1 and 7 m (20, 100), on 1 and 11 m (60, 60); 7 and 11 m do not.
	for i, want := range []stages.Range{{Least: 20e3, Most: 60e3}, {Least: 0, Most: 100e3}, {Least: 0, Most: 60e3}} {
		require.InDelta(t, want.Least, s.Reactions[i].Static.Least, 1e-6)
		require.InDelta(t, want.Most, s.Reactions[i].Static.Most, 1e-6)
		require.InDelta(t, 1.35*want.Most, s.Reactions[i].Ultimate.Most, 1e-6)
	}
	require.False(t, has(s, limits.Uplift, stages.Pass), "which support lifts depends on the sharing")
	require.Contains(t, s.NotChecked, "how the supports share: nothing is stated, so every reaction and stress is the extreme over all statically determinate sets (bounded)")
	// Sagging over 1 to 11 m at mid-span, hogging over 7 m with 5 m beyond.
	sag, hog := 60e3*5-10e3*36/2, 10e3*25/2.0
	require.InDelta(t, math.Max(sag, hog)/(0.5*0.64/6), check(t, s, limits.Tension).Demand.Value, 1)
}

// A lift from three points in a row is bounded as well, with its dynamic factor.
func TestSharesOfALiftAreBoundedWithItsDynamicFactor(t *testing.T) {
	on := []stages.Support{{X: 1, Z: 1}, {X: 7, Z: 1}, {X: 11, Z: 1}}
	s := run(t, block(), hung(stages.Lift{Age: 28, On: on, Dynamic: loads.Dynamic{Least: 0.8, Most: 1.3}})).Stages[1].Situations[0]
	for i, want := range []stages.Range{{Least: 20e3, Most: 60e3}, {Least: 0, Most: 100e3}, {Least: 0, Most: 60e3}} {
		require.InDelta(t, want.Most, s.Reactions[i].Static.Most, 1e-6, "at rest without the dynamic factor")
		require.InDelta(t, 0.8*want.Least, s.Reactions[i].Characteristic.Least, 1e-6)
		require.InDelta(t, 1.3*want.Most, s.Reactions[i].Characteristic.Most, 1e-6)
	}
}
