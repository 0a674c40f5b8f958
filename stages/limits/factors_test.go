package limits_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/limits"
)

func answers(t testing.TB, standard limits.EN1992, q limits.Question) []limits.Limit {
	t.Helper()
	q.Concrete = state(t, 7)
	list, err := standard.Limits(q)
	require.NoError(t, err)
	return list
}

func TestFactorsOnKindsOfAction(t *testing.T) {
	kinds := []limits.ActionKind{limits.Equipment, limits.Wind, limits.Personnel, limits.Braking, limits.Temperature, limits.Imposed, limits.Accidental, limits.Water}
	for kind, want := range map[limits.Kind][]float64{
		limits.Uplift:           {1.35, 1.5, 1.35, 1.35, 1.5, 1.5, 1, 1.5},
		limits.Overturning:      {1.35, 1.5, 1.35, 1.35, 1.5, 1.5, 1, 1.5},
		limits.Sliding:          {1.35, 1.5, 1.35, 1.35, 1.5, 1.5, 1, 1.5},
		limits.PrincipalTension: {1.5, 1.5, 1.5, 1.5, 1.5, 1.5, 1, 1.5},
		limits.Compression:      {1, 1, 1, 1, 1, 1, 1, 1},
	} {
		factors := answers(t, limits.EN1992{}, limits.Question{Kind: kind})[0].Factors
		require.NoError(t, factors.Check())
		for i, action := range kinds {
			favourable, unfavourable := factors.On(action)
			require.Zero(t, favourable, "%s, %s", kind, action)
			require.Equal(t, want[i], unfavourable, "%s, %s", kind, action)
		}
	}
	national := answers(t, limits.EN1992{EquilibriumVariable: 1.6, EquilibriumConstruction: 1.25}, limits.Question{Kind: limits.Uplift})[0].Factors
	_, wind := national.On(limits.Wind)
	_, equipment := national.On(limits.Equipment)
	require.Equal(t, [2]float64{1.6, 1.25}, [2]float64{wind, equipment})
}

func TestFactorsOfTheUsersKinds(t *testing.T) {
	factors := limits.Factors{Actions: []limits.ActionFactor{{Kind: "counterweight", Favourable: 0.8, Unfavourable: 1.2}, {Kind: limits.Wind}}}
	favourable, unfavourable := factors.On("counterweight")
	require.Equal(t, [2]float64{0.8, 1.2}, [2]float64{favourable, unfavourable})
	_, unfavourable = factors.On(limits.Wind)
	require.Zero(t, unfavourable, "a stated zero stays zero")
	_, unfavourable = factors.On(limits.Water)
	require.Equal(t, 1.0, unfavourable)
	require.NoError(t, factors.Check())
	for words, actions := range map[string][]limits.ActionFactor{
		`kind ""`:       {{Unfavourable: 1}},
		`kind "wind"`:   {{Kind: limits.Wind}, {Kind: limits.Water}, {Kind: limits.Wind}},
		"on wind: mini": {{Kind: limits.Wind, Favourable: 1.1, Unfavourable: 1}},
		"minimum -0.1":  {{Kind: limits.Wind, Favourable: -0.1, Unfavourable: 1}},
		"maximum NaN":   {{Kind: limits.Wind, Unfavourable: math.NaN()}},
		"maximum +Inf":  {{Kind: limits.Wind, Unfavourable: math.Inf(1)}},
	} {
		err := limits.Factors{Actions: actions}.Check()
		require.ErrorIs(t, err, limits.ErrLimits, words)
		require.ErrorContains(t, err, words)
		require.ErrorContains(t, err, "must be")
	}
}

// An accidental action has a combination of its own, beside the usual one
// without it.
func TestAccidentalCombination(t *testing.T) {
	for _, kind := range []limits.Kind{limits.Uplift, limits.Overturning, limits.Sliding} {
		list := answers(t, limits.EN1992{}, limits.Question{Kind: kind, Accidental: true})
		require.Len(t, list, 2)
		usual, accidental := list[0], list[1]
		alone := answers(t, limits.EN1992{}, limits.Question{Kind: kind})
		require.Len(t, alone, 1)
		for _, on := range []struct {
			kind limits.ActionKind
			want [3]float64
		}{{limits.Accidental, [3]float64{1, 0, 1}}, {limits.Wind, [3]float64{1.5, 1.5, 1}}, {limits.Equipment, [3]float64{1.35, 1.35, 1}}} {
			var got [3]float64
			for i, l := range []limits.Limit{alone[0], usual, accidental} {
				_, got[i] = l.Factors.On(on.kind)
			}
			require.Equal(t, on.want, got, "%s: alone, beside, accidental on %s", kind, on.kind)
		}
		require.Equal(t, [2]float64{0.95, 1.05}, [2]float64{usual.Factors.WeightLeast, usual.Factors.WeightMost})
		require.Equal(t, [2]float64{1, 1}, [2]float64{accidental.Factors.WeightLeast, accidental.Factors.WeightMost})
		require.Contains(t, accidental.Note, "accidental combination")
		require.Contains(t, accidental.Source.String(), "Table A2.5")
		require.Equal(t, string(kind), accidental.Name)
		require.Equal(t, usual.Sense, accidental.Sense)
	}
}

func TestSlidingHasAFactorOnFriction(t *testing.T) {
	sliding := answers(t, limits.EN1992{}, limits.Question{Kind: limits.Sliding})[0]
	require.Equal(t, 1.2, sliding.Friction.Value)
	require.Equal(t, limits.AtMost, sliding.Sense)
	require.Equal(t, limits.Equilibrium, sliding.LimitState)
	require.Equal(t, 2.0, answers(t, limits.EN1992{FrictionFactor: 2}, limits.Question{Kind: limits.Sliding})[0].Friction.Value)
	require.Zero(t, answers(t, limits.EN1992{}, limits.Question{Kind: limits.Overturning})[0].Friction)
	for _, bad := range []float64{0.99, 10.1, -1, math.NaN()} {
		_, err := limits.EN1992{FrictionFactor: bad}.Limits(limits.Question{Kind: limits.Sliding})
		require.ErrorContains(t, err, "EN1992.FrictionFactor")
	}
}
