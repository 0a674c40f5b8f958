package segmental

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// advanced is the bare cantilever of three pairs until frame F1 has moved on to L2, with its
// way as stated, and the checks of that move.
func advanced(t testing.TB, of *Travel) (list []stages.OwnCheck, front float64) {
	d, on, steps := stood(t, 3)
	for i := range d.Frames {
		d.Frames[i].Travel = of
	}
	plan, err := d.Plan(on, steps...)
	require.NoError(t, err)
	require.NotEmpty(t, plan)
	_, err = d.plan(on, func(step, _ int, after *state, m Move) {
		if step == 1 && m.Do == Advance && m.Frame == "F1" {
			list, err = after.travelChecks(m, stages.Girder{}, stages.Effects{}, limits.EN1992{})
			require.NoError(t, err)
		}
	}, steps...)
	require.NoError(t, err)
	return list, 3 + 0.5 // left face of L2 is at x = 3 m
}

// A frame of 300 kN, 1.2 m behind its front feet, 2.5 m above the rails with a fall of 3 %, 5 %
// of its weight along and a counterweight of 40 kN 4.5 m behind: moments by hand.
func TestFrameOnItsWayByHand(t *testing.T) {
	way := &Travel{Behind: 1.2, Base: 4.5, Height: 2.5, Along: 0.05, Fall: math.Atan(0.03), Counterweight: 40e3, Holding: 25e3, Document: "F1-M"}
	list, front := advanced(t, way)
	require.Len(t, list, 2)
	over := 300e3 * 2.5 * (0.05 + 0.03)
	require.InEpsilon(t, (300e3*1.2+(40e3+25e3)*4.5)/over, list[0].Demand.Value, 1e-9)
	require.Equal(t, 1.5, list[0].Limit.Value)
	require.Equal(t, limits.AtLeast, list[0].Sense)
	require.Equal(t, stages.Pass, list[0].State)
	require.InDelta(t, front, list[0].X, 1e-9)
	require.InDelta(t, 65e3, list[0].Hold.Required.Value, 1e-6)
	require.InEpsilon(t, 1.35*over, list[1].Demand.Value, 1e-9)
	require.InEpsilon(t, 0.95*300e3*1.2+(0.8*40e3+25e3)*4.5, list[1].Limit.Value, 1e-9)
	for _, c := range list {
		for _, l := range c.Derivation {
			v, err := l.Recompute()
			require.NoError(t, err)
			require.InDelta(t, l.Result.Value, v, 1e-6)
		}
	}

	// With its centre of gravity before the front feet it turns over unless it is held.
	way.Behind, way.Counterweight, way.Holding = -0.4, 0, 0
	list, _ = advanced(t, way)
	require.InDelta(t, 0, list[0].Demand.Value, 1e-12)
	require.Equal(t, stages.Fail, list[0].State)
	require.Nil(t, list[0].Hold)
	require.InEpsilon(t, 1.35*(over+300e3*0.4), list[1].Demand.Value, 1e-9)
	require.Equal(t, stages.Fail, list[1].State)
}

// A frame whose way is not stated is asked for when it advances, and only then.
func TestFrameOnItsWayAsked(t *testing.T) {
	list, _ := advanced(t, nil)
	require.Len(t, list, 1)
	require.Equal(t, stages.NotEvaluated, list[0].State)
	require.Equal(t, limits.LocalForce, list[0].Kind)
	require.Contains(t, list[0].Note, "300 kN·m about its front feet")
	d, on, steps := stood(t, 3)
	b, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	for i, stage := range b.Record.Stages { // frames are set in the first step, advanced in the second
		for k, s := range stage.Situations {
			asked := slices.ContainsFunc(s.Checks, func(c stages.Check) bool { return strings.HasSuffix(c.Name, "on its way") })
			require.Equal(t, steps[i].Moves[k].Do == Advance, asked, s.Name)
		}
	}
	d.Frames[0].Travel = &Travel{Base: 4, Height: 2, Along: 0.001, Document: "F1-M"}
	_, err = d.Plan(on, steps...)
	require.ErrorIs(t, err, ErrSegmental)
	require.ErrorContains(t, err, "Frame F1 Travel.Along = 0.001")
}
