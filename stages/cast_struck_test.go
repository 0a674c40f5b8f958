package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// lowered are towers with some rows at another level.
func lowered(stiffness float64, xs []float64, levels map[float64]float64) []stages.Support {
	on := towers(stiffness, xs...)
	for i := range on {
		on[i].Level = levels[on[i].X]
	}
	return on
}

// Rows that are lowered, and rows that go, after some have lifted off: the forces of those
// that are left and the moment agree with the dense solution at every pass, whichever way
// they were reached.
func TestStruckByHand(t *testing.T) {
	passes := []struct {
		rows   []float64
		levels map[float64]float64
		free   []bool
	}{
		{castAt, map[float64]float64{12: -0.004}, []bool{false, false, true, true, false, false}},
		{[]float64{0, 4, 8, 16, 20, 24}, map[float64]float64{8: -0.003, 16: -0.005}, []bool{false, true, true, true, true, false}},
		{[]float64{0, 4, 16, 20, 24}, map[float64]float64{16: -0.005, 4: -0.001}, []bool{true, true, true, true, true, false}},
		{[]float64{0, 16, 24}, nil, []bool{true, true, true, true, true, true}},
		{[]float64{0, 24}, nil, []bool{true, true, true, true, true, true}},
	}
	for _, strands := range []int{2, 8} {
		const stiffness = 25e6
		e := poured(t, strands, 0.2)
		var then [][]stages.Support
		for _, p := range passes {
			then = append(then, lowered(stiffness, p.rows, p.levels))
		}
		a, err := onTowers(towers(stiffness, castAt...), then...).Analyse(e, limits.EN1992{})
		require.NoError(t, err)
		state, err := e.Concrete.At(5)
		require.NoError(t, err)
		area := e.Tendons[0].Area()
		for n, p := range passes {
			of, err := a.Effects(1, 3+n)
			require.NoError(t, err)
			var rows []row
			for i, f := range tributaries() {
				for _, x := range p.rows {
					if x == castAt[i] {
						rows = append(rows, row{x, 2 * stiffness, f, p.levels[x]})
					}
				}
			}
			want, moment := beamByHand(t, e, 1300e6*area, state.Modulus, castAt, rows, p.free)
			got := rowsOf(of.Reactions, nominalOf)
			for i := range want {
				require.InDelta(t, want[i], got[i], 1e-6*432e3, "%d strands, pass %d, row at %g m", strands, n+1, p.rows[i])
			}
			for _, x := range []float64{3, 8, 12, 16, 21} {
				require.InDelta(t, moment(x)+2*1300e6*area*tendonMoment(x), of.Forces(x).My, 50, "pass %d, x = %g", n+1, x)
			}
		}
	}
}

// A level of a support that stays, on an element that was not cast there, moves it by the
// difference.
func TestALevelOfASupportThatStays(t *testing.T) {
	on := stages.Elastic(50e6, as(stages.Pad, stages.Pads(0.2, 1, 6, 11))...)
	moved := append([]stages.Support{}, on...)
	moved[2].Level, moved[3].Level = -0.0002, -0.0002
	of := func(plan stages.Plan, stage int) []stages.Reaction {
		return effectsOf(t, block(), plan, stage).Reactions
	}
	straight := of(stages.Plan{stages.Store{Age: 28, On: moved, OutOfLevel: 1e-6}}, 1)
	later := of(stages.Plan{stages.Store{Age: 28, On: on, OutOfLevel: 1e-6}, stages.Store{Age: 28, On: moved, OutOfLevel: 1e-6}}, 2)
	still := of(stages.Plan{stages.Store{Age: 28, On: on, OutOfLevel: 1e-6}}, 1)
	for i := range straight {
		require.InDelta(t, straight[i].Nominal, later[i].Nominal, 1e-3, "support %d", i+1)
	}
	require.Greater(t, still[2].Nominal, straight[2].Nominal+1e3)
}
