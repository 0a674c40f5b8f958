package segmental

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// At every joint the weight outside of it and a frame on it, with the factors for strength,
// against friction on the prestress and keys: the left arm is that of the mirror image.
func TestEveryJointByKeysAndFriction(t *testing.T) {
	d, on, steps := bare(t)
	d.Keys = &Keys{Number: 10, Force: 60e3, Friction: 0.05, Cured: 0.1, Document: "K1"}
	b, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	last, e := lastMove(t, b, 2)
	of, err := limits.EN1992{}.Limits(limits.Question{Kind: limits.WebShear, Phase: limits.Stressing, Concrete: mustAt(t, d, 43)})
	require.NoError(t, err)
	f := of[0].Factors.Filled()
	outer, inner := 0.0, 0.0 // weight of L2, of L2 and L1
	for i, at := range []*float64{&outer, &inner} {
		mass, err := d.weight(i)
		require.NoError(t, err)
		*at += outer + mass.Weight
	}
	inner = f.WeightMost*inner + f.VariableMost*240e3 // the front feet of the frame: 300 kN × (5.5 − 1.5)/5
	outer *= f.WeightMost
	pressed := func(x float64) float64 { // of both sides, on which steel and losses differ a little
		return f.PrestressLeast * math.Min(-e.Forces(x-1e-5).N, -e.Forces(x+1e-5).N)
	}
	capacity := func(x, friction float64) float64 { return 10*60e3 + friction*pressed(x) }
	demand, limit := outer, capacity(3, 0.05) // closed on the day, wet
	require.Equal(t, 43.0, last.Day)
	if inner/capacity(6, 0.1) > demand/limit { // of three days before
		demand, limit = inner, capacity(6, 0.1)
	}
	c := checkOf(t, b, 2, len(steps[1].Moves), "friction and keys of joint")
	require.InEpsilon(t, demand, c.Demand.Value, 1e-6)
	require.InEpsilon(t, limit, c.Limit.Value, 1e-6)
	require.InEpsilon(t, math.Max(outer/capacity(3, 0.05), inner/capacity(6, 0.1)), c.Utilisation, 1e-6)

	// Where the outer joint has few keys of its own it governs, wet until its epoxy has cured.
	at, err := d.index("L2")
	require.NoError(t, err)
	d.Segments[at+1].Keys = &Keys{Number: 1, Force: 60e3, Friction: 0.01, Cured: 0.02, Document: "K2"}
	for days, friction := range map[float64]float64{1: 0.01, 2: 0.02} {
		wait := append(steps[:2:2], Step{Name: "wait", Day: 43 + days, Moves: []Move{{Do: Wait}}})
		b, err = d.Build(on, limits.EN1992{}, wait...)
		require.NoError(t, err)
		_, e = lastMove(t, b, 3)
		c = checkOf(t, b, 3, 1, "friction and keys of joint L2/L1")
		require.InEpsilon(t, outer, c.Demand.Value, 1e-6)
		require.InEpsilon(t, 60e3+friction*pressed(3), c.Limit.Value, 1e-6, "after %g days", days)
	}
}

// mustAt is the concrete of the first segment on a day.
func mustAt(t *testing.T, d Deck, day float64) (of concrete.State) {
	of, err := d.Segments[0].Element.Concrete.At(day)
	require.NoError(t, err)
	return of
}

// Without keys the largest shear is asked for; the joint that a move closes is asked for once.
func TestJointsWithoutKeysAreAsked(t *testing.T) {
	d, on, steps := bare(t)
	d.Keys = nil
	b, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	for k, m := range steps[1].Moves {
		n := 0
		for _, c := range b.Record.Stages[1].Situations[k].Checks {
			if c.Name == "shear of match-cast joints" {
				n++
				require.Equal(t, stages.NotEvaluated, c.State)
				require.Equal(t, limits.LocalForce, c.Kind)
				require.True(t, strings.Contains(c.Note, "joint L1/P1") || strings.Contains(c.Note, "joint P1/R1"), "%s: %s", m.words(), c.Note)
			}
		}
		require.Equal(t, 1, n, m.words())
	}
	for _, c := range b.Record.Stages[0].Situations[0].Checks { // L1/P1 is closed, and alone
		require.NotEqual(t, "shear of match-cast joints", c.Name)
	}
	d.Keys = &Keys{Cured: 1.5}
	_, err = d.Plan(on, steps...)
	require.ErrorContains(t, err, "Deck.Keys.Cured = 1.5")
}

// Friction counts on compression only.
func TestUseOfAJoint(t *testing.T) {
	j := sheared{shear: 100e3, normal: 500e3, keys: &Keys{Number: 1, Force: 50e3, Friction: 0.1}}
	require.InDelta(t, 1, j.use(), 1e-12)
	j.normal = -500e3
	require.InDelta(t, 2, j.use(), 1e-12)
}
