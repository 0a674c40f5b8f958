package limits_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// The recalled loads of balanced cantilever construction, each once, unconfirmed; psf of
// the American values: 10 and 5.
func TestConstructionLoads(t *testing.T) {
	const psf = 47.88026 // Pa
	seen := map[string]bool{}
	for _, p := range limits.ConstructionLoads() {
		require.False(t, seen[p.Case], p.Case)
		seen[p.Case] = true
		require.True(t, p.Source.Confirm, p.Case)
		require.NotEmpty(t, p.Source.Place, p.Case)
		require.Positive(t, p.Value, p.Case)
		same, err := limits.ConstructionLoad(p.Case).Practice()
		require.NoError(t, err)
		require.Equal(t, p, same)
	}
	require.Len(t, seen, 16)
	value := func(of limits.ConstructionLoad, unit formula.Unit) float64 {
		p, err := of.Practice()
		require.NoError(t, err)
		require.Equal(t, unit, p.Unit)
		return p.Value
	}
	require.InDelta(t, 10*psf, value(limits.CrewOneArm, formula.Pascal), 0.02*psf*10)
	require.InDelta(t, 5*psf, value(limits.CrewOtherArm, formula.Pascal), 0.02*psf*5)
	require.InDelta(t, 5*psf, value(limits.WindUplift, formula.Pascal), 0.02*psf*5)
	require.Equal(t, 100e3, value(limits.StoragePointEN, formula.Newton))
	_, err := limits.ConstructionLoad("snow").Practice()
	require.ErrorIs(t, err, limits.ErrLimits)
	require.ErrorContains(t, err, "must be one of")
}

// The factors for equilibrium are those that EN1992 answers with.
func TestEquilibriumFactorsAgree(t *testing.T) {
	answers, err := limits.EN1992{}.Limits(limits.Question{Kind: limits.Overturning, Phase: limits.Seating})
	require.NoError(t, err)
	require.Len(t, answers, 1)
	_, construction := answers[0].Factors.On(limits.Equipment)
	for of, factor := range map[limits.ConstructionLoad]float64{
		limits.EquilibriumMost: answers[0].Factors.WeightMost, limits.EquilibriumLeast: answers[0].Factors.WeightLeast, limits.EquilibriumVariable: construction,
	} {
		p, err := of.Practice()
		require.NoError(t, err)
		require.Equal(t, factor, p.Value)
	}
}
