package limits_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages/limits"
)

func ducts(one, other float64) (*tendon.Tendon, *tendon.Tendon) {
	return &tendon.Tendon{Mark: "A", Duct: one}, &tendon.Tendon{Mark: "B", Duct: other}
}

func TestClearDistanceOfDucts(t *testing.T) {
	hair := 1e-6
	for _, c := range []struct {
		one, other, aggregate float64
		above                 bool
		want                  float64
	}{
		{0.020, 0.030, 0, false, 0.050},
		{0.020, 0.030, 0, true, 0.040},
		{0.050 - hair, 0.02, 0, false, 0.050},
		{0.050 + hair, 0.02, 0, false, 0.050 + hair},
		{0.02, 0.050 + hair, 0, false, 0.050 + hair},
		{0.02, 0.040 - hair, 0, true, 0.040},
		{0.02, 0.040 + hair, 0, true, 0.040 + hair},
		{0.02, 0.02, 0.045 - hair, false, 0.050},
		{0.02, 0.02, 0.045 + hair, false, 0.050 + hair},
		{0.02, 0.02, 0.040 - hair, true, 0.040},
		{0.02, 0.02, 0.040 + hair, true, 0.040 + hair},
		{0.085, 0.1, 0.063, false, 0.1},
	} {
		one, other := ducts(c.one, c.other)
		limit := answers(t, limits.EN1992{Aggregate: c.aggregate}, limits.Question{Kind: limits.DuctSpacing, Tendon: one, Neighbour: other, Above: c.above})[0]
		require.InDelta(t, c.want, limit.Line.Result.Value, 1e-12, "%+v", c)
		require.Equal(t, limits.AtLeast, limit.Sense)
		require.Equal(t, limits.Detailing, limit.LimitState)
		require.True(t, limit.Source.Confirm)
		require.Equal(t, c.aggregate == 0, limit.Note != "", "what is not looked at is said")
		value, err := limit.Line.Recompute()
		require.NoError(t, err)
		require.InDelta(t, c.want, value, 1e-12)
	}
	one, other := ducts(0.03, 0.03)
	national := limits.EN1992{DuctBeside: 0.06, DuctAbove: 0.05}
	for above, want := range map[bool]float64{false: 0.06, true: 0.05} {
		limit := answers(t, national, limits.Question{Kind: limits.DuctSpacing, Tendon: one, Neighbour: other, Above: above})[0]
		require.Equal(t, want, limit.Line.Result.Value)
	}
}

func TestClearDistanceRefuses(t *testing.T) {
	one, other := ducts(0.1, 0.08)
	none, wide := ducts(0, 0.5+1e-9)
	for _, pair := range [][2]*tendon.Tendon{{one, nil}, {nil, other}, {one, none}, {wide, other}} {
		_, err := limits.EN1992{}.Limits(limits.Question{Kind: limits.DuctSpacing, Tendon: pair[0], Neighbour: pair[1]})
		require.ErrorIs(t, err, limits.ErrLimits)
		require.ErrorContains(t, err, "must be")
	}
	for _, bad := range []limits.EN1992{{Aggregate: math.NaN()}, {Aggregate: -0.01}, {Aggregate: 16}, {DuctBeside: 50}, {DuctAbove: -1}} {
		_, err := bad.Limits(limits.Question{Kind: limits.DuctSpacing, Tendon: one, Neighbour: other})
		require.ErrorIs(t, err, limits.ErrLimits)
	}
}

// Bars make the difference at a joint as inside an element; the note names it.
func TestTensionAtAJoint(t *testing.T) {
	inside := answers(t, limits.EN1992{}, limits.Question{Kind: limits.Tension, Place: limits.Place{Piece: "S3"}})[0]
	joint := answers(t, limits.EN1992{}, limits.Question{Kind: limits.Tension, Place: limits.Place{Joint: "J4"}})[0]
	sewn := answers(t, limits.EN1992{}, limits.Question{Kind: limits.Tension, Place: limits.Place{Joint: "J4", Bars: true}})[0]
	require.Zero(t, inside.Line.Result.Value)
	require.Zero(t, joint.Line.Result.Value)
	require.Positive(t, sewn.Line.Result.Value)
	require.Equal(t, "no bonded bars cross joint J4, so no tension is permitted", joint.Note)
	require.NotContains(t, inside.Note, "joint")
}
