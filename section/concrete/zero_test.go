package concrete_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/concrete"
)

// A step that is not there adds no strain, and a zero Superposition has no steps.
func TestStepsThatAreNotThere(t *testing.T) {
	s, err := concrete.Superpose(concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: girderExposure}, 0, []float64{7, 10, 30})
	require.NoError(t, err)
	require.Positive(t, s.Strain(2, 1, 1))
	for _, ij := range [][2]int{{0, 0}, {1, 0}, {1, 2}, {3, 1}, {-1, -1}, {2, -5}, {999, 999}} {
		for _, of := range []*concrete.Superposition{s, {}, nil, {Days: []float64{7, 10, 30}}} {
			require.Zero(t, of.Strain(ij[0], ij[1], 1), "%v", ij)
		}
	}
	whole := s.Total([]float64{0, 1e-4, 2e-4}, 1, 1e9, 1)
	require.Equal(t, whole, s.Total([]float64{0, 1e-4, 2e-4, 7}, 1, 1e9, 1))
	require.InEpsilon(t, 1e-4/(1+1e9*s.Strain(1, 1, 1)), s.Total([]float64{0, 1e-4}, 1, 1e9, 1), 1e-12, "one step")
	require.Zero(t, s.Total(nil, 1, 1, 1))
	require.Zero(t, (&concrete.Superposition{}).Total([]float64{0, 1}, 1, 1, 1))
	require.Zero(t, s.Total([]float64{0, 1, 1}, 0, 0, 1), "nothing is stiff")
	s.Days = nil
	require.Equal(t, whole, s.Total([]float64{0, 1e-4, 2e-4}, 1, 1e9, 1))
}

func TestDaysThatAreNone(t *testing.T) {
	m := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: girderExposure}
	for _, days := range [][]float64{{7, math.NaN()}, {math.Inf(-1), 7}, {7, 6}, {7, 1e300}} {
		_, err := concrete.Superpose(m, 0, days)
		require.ErrorIs(t, err, concrete.ErrConcrete)
		require.ErrorContains(t, err, "must be ascending within ±1e+09 d")
	}
	_, err := concrete.Superpose(m, 0, nil)
	require.NoError(t, err)
	for _, apart := range []float64{5e-324, 0.99e-9} {
		_, err := concrete.StepDays(0, apart, 60)
		require.ErrorContains(t, err, "1e-09 to 1e7 d apart")
	}
	days, err := concrete.StepDays(0, 1e-9, 60)
	require.NoError(t, err)
	require.IsNonDecreasing(t, days)
}

// A model that is nil, or a nil pointer to one, is missing: that is said, not a panic.
func TestMissingModel(t *testing.T) {
	require.False(t, concrete.Missing(rapid50))
	require.False(t, concrete.Missing(&rapid50))
	for _, none := range []concrete.TimeModel{nil, (*concrete.EN1992)(nil), (*concrete.FIB2010)(nil), (*concrete.AASHTO)(nil)} {
		require.True(t, concrete.Missing(none))
		_, err := concrete.Superpose(none, 0, []float64{7, 10})
		require.ErrorIs(t, err, concrete.ErrConcrete)
		require.ErrorContains(t, err, "must be a model")
		_, err = concrete.Compliance(none, 90, 7)
		require.ErrorIs(t, err, concrete.ErrConcrete)
	}
}
