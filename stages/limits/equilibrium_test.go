package limits_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/limits"
)

// Every factor of Table A2.4(A) and of the accidental combination, for every kind of
// action: construction loads have 1.35, an accidental action none beside its own
// combination, nothing helps.
func TestEveryFactorOfEquilibrium(t *testing.T) {
	for _, kind := range []limits.Kind{limits.Uplift, limits.Overturning, limits.Sliding} {
		q := question(kind)
		alone, err := limits.EN1992{}.Limits(q)
		require.NoError(t, err)
		q.Accidental = true
		both, err := limits.EN1992{}.Limits(q)
		require.NoError(t, err)
		require.Len(t, both, 2)
		for action, want := range map[limits.ActionKind][3]float64{
			limits.Equipment: {1.35, 1.35, 1}, limits.Personnel: {1.35, 1.35, 1}, limits.Braking: {1.35, 1.35, 1}, limits.Wind: {1.5, 1.5, 1}, limits.Temperature: {1.5, 1.5, 1},
			limits.Imposed: {1.5, 1.5, 1}, limits.Water: {1.5, 1.5, 1}, limits.Accidental: {1, 0, 1}, "user": {1.5, 1.5, 1},
		} {
			for i, l := range []limits.Limit{alone[0], both[0], both[1]} {
				favourable, unfavourable := l.Factors.On(action)
				require.Zero(t, favourable, "%s on %s", kind, action)
				require.Equal(t, want[i], unfavourable, "%s on %s", kind, action)
			}
		}
		weight := func(l limits.Limit) [2]float64 { return [2]float64{l.Factors.WeightLeast, l.Factors.WeightMost} }
		require.Equal(t, [][2]float64{{0.95, 1.05}, {0.95, 1.05}, {1, 1}}, [][2]float64{weight(alone[0]), weight(both[0]), weight(both[1])})
		require.Equal(t, "6.4.3.3, (6.11b), Table A2.5", both[1].Source.Place)
		require.Equal(t, "EQU", both[1].LimitState)
		require.Equal(t, both[0].Sense, both[1].Sense)
		require.Equal(t, both[0].Friction, both[1].Friction, "friction is no more certain")
		require.Equal(t, [2]limits.Kind{kind, kind}, [2]limits.Kind{both[0].Kind, both[1].Kind})
	}
	q := question(limits.Uplift)
	q.Accidental = true
	both, err := limits.EN1992{}.Limits(q)
	require.NoError(t, err)
	require.Equal(t, both[1].Source, both[1].Line.Source, "the line of the accidental limit names its own clause")
	require.NotEqual(t, both[0].Line.Source, both[1].Line.Source)
	q.Kind = limits.Sliding
	both, err = limits.EN1992{}.Limits(q)
	require.NoError(t, err)
	require.Equal(t, both[0].Note+"; accidental combination; accompanying variable actions without ψ", both[1].Note, "no note is lost")
	q.Kind = limits.Overturning
	both, err = limits.EN1992{}.Limits(q)
	require.NoError(t, err)
	require.Equal(t, "accidental combination; accompanying variable actions without ψ", both[1].Note)
}

// An accidental action changes nothing but equilibrium; for strength it has 1 beside the
// others.
func TestAccidentalIsForEquilibriumAlone(t *testing.T) {
	for _, kind := range kinds {
		q := question(kind)
		alone, err := limits.EN1992{}.Limits(q)
		require.NoError(t, err)
		q.Accidental = true
		list, err := limits.EN1992{}.Limits(q)
		require.NoError(t, err)
		if kind == limits.Uplift || kind == limits.Overturning || kind == limits.Sliding {
			require.Len(t, list, 2)
			continue
		}
		require.Equal(t, alone, list, kind)
	}
	for _, kind := range []limits.Kind{limits.PrincipalTension, limits.WebShear} {
		list, err := limits.EN1992{}.Limits(question(kind))
		require.NoError(t, err)
		favourable, unfavourable := list[0].Factors.On(limits.Accidental)
		require.Equal(t, [2]float64{0, 1}, [2]float64{favourable, unfavourable})
	}
}

// Factors: a zero is 1 on weight, prestress and the others, and stays zero on a stated
// kind; what is checked a hair on either side.
func TestFactorsAHairOnEitherSide(t *testing.T) {
	require.Equal(t, limits.Factors{WeightLeast: 1, WeightMost: 1, PrestressLeast: 1, PrestressMost: 1, VariableMost: 1}, limits.Factors{}.Filled())
	some := limits.Factors{WeightLeast: 0.9, WeightMost: 1.2, PrestressLeast: 0.8, PrestressMost: 1.3, VariableMost: 1.6, Actions: []limits.ActionFactor{{Kind: limits.Wind}}}
	require.Equal(t, some, some.Filled())
	require.NoError(t, some.Check())
	const hair = 1e-12
	for name, c := range map[string]struct {
		good, bad limits.Factors
	}{
		"Weight":    {limits.Factors{WeightLeast: 1.2, WeightMost: 1.2}, limits.Factors{WeightLeast: 1.2 + hair, WeightMost: 1.2}},
		"Prestress": {limits.Factors{PrestressLeast: 1.1, PrestressMost: 1.1}, limits.Factors{PrestressLeast: 1.1 + hair, PrestressMost: 1.1}},
		"Variable":  {limits.Factors{VariableMost: hair}, limits.Factors{VariableMost: -hair}},
		"wind": {limits.Factors{Actions: []limits.ActionFactor{{Kind: limits.Wind, Favourable: 0.5, Unfavourable: 0.5}}},
			limits.Factors{Actions: []limits.ActionFactor{{Kind: limits.Wind, Favourable: 0.5, Unfavourable: 0.5 - hair}}}},
	} {
		require.NoError(t, c.good.Check(), name)
		err := c.bad.Check()
		require.ErrorIs(t, err, limits.ErrLimits, name)
		require.ErrorContains(t, err, "Factors on "+name)
	}
	for name, bad := range map[string]limits.Factors{
		"Weight": {WeightLeast: -hair}, "Prestress": {PrestressLeast: math.NaN()}, "Variable": {VariableMost: math.Inf(1)},
	} {
		require.ErrorContains(t, bad.Check(), "Factors on "+name)
	}
	require.ErrorIs(t, limits.Factors{WeightMost: math.Inf(1)}.Check(), limits.ErrLimits)
	require.ErrorIs(t, limits.Factors{PrestressMost: math.Inf(1)}.Check(), limits.ErrLimits)
}

// Ducts at the ends of what is allowed: none, a hair of one, half a metre.
func TestDuctsAtTheEndsOfTheirRange(t *testing.T) {
	for duct, good := range map[float64]bool{0: false, 1e-6: true, 0.5: true, 0.5 + 1e-9: false, -0.1: false, math.NaN(): false, math.Inf(1): false} {
		for _, first := range []bool{true, false} {
			q := question(limits.DuctSpacing)
			if first {
				q.Tendon.Duct = duct
			} else {
				q.Neighbour.Duct = duct
			}
			list, err := limits.EN1992{}.Limits(q)
			if good {
				require.NoError(t, err)
				require.InDelta(t, math.Max(duct, 0.05), list[0].Line.Result.Value, 1e-12)
				continue
			}
			require.ErrorIs(t, err, limits.ErrLimits)
			require.ErrorContains(t, err, "must be above 0, at most 0.5 m")
		}
	}
}
