package formula_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
)

func TestRoot(t *testing.T) {
	for name, c := range map[string]struct {
		low, high, want float64
		f               func(float64) float64
	}{
		"cosine":    {0, 3, math.Pi / 2, math.Cos},
		"rising":    {-5, 9, math.Cbrt(2), func(x float64) float64 { return x*x*x - 2 }},
		"steep":     {0, 1, 0.3, func(x float64) float64 { return math.Expm1(80 * (x - 0.3)) }},
		"flat":      {-1, 2, 0, func(x float64) float64 { return math.Pow(x, 9) }},
		"at low":    {1, 2, 1, func(x float64) float64 { return x - 1 }},
		"at high":   {0, 2, 2, func(x float64) float64 { return x - 2 }},
		"jump":      {0, 1, 0.625, func(x float64) float64 { return math.Copysign(1, x-0.625) }},
		"large":     {0, 60e9, 31.5e6, func(x float64) float64 { return x - 31.5e6 }},
		"backwards": {3, 0, math.Pi / 2, math.Cos},
	} {
		calls := 0
		x, err := formula.Root(c.low, c.high, func(x float64) (float64, error) { calls++; return c.f(x), nil })
		require.NoError(t, err, name)
		require.InDelta(t, c.want, x, 1e-14*math.Max(1, math.Abs(c.want))+tolerance(name), name)
		require.Less(t, calls, 130, name)
	}
}

// tolerance: a ninth-order root is flat to 1e-300 within 1e-33 of zero, so
// only the bracket's own width limits it.
func tolerance(name string) float64 {
	if name == "flat" {
		return 1e-15
	}
	return 0
}

func TestRootRefuses(t *testing.T) {
	_, err := formula.Root(0, 1, func(x float64) (float64, error) { return 1 + x, nil })
	require.ErrorIs(t, err, formula.ErrNoRoot)
	require.ErrorContains(t, err, "between 0 and 1")
	_, err = formula.Root(0, 1, func(x float64) (float64, error) { return math.NaN(), nil })
	require.ErrorIs(t, err, formula.ErrNoRoot)
	broken := errors.New("broken")
	for after := range 3 {
		calls := 0
		_, err = formula.Root(-1, 1, func(x float64) (float64, error) {
			if calls++; calls > after {
				return 0, broken
			}
			return x + 0.1, nil
		})
		require.ErrorIs(t, err, broken)
	}
}

// A root of zero that is flat, or beside an end that is zero, is settled well enough.
func TestRootOfZero(t *testing.T) {
	for _, low := range []float64{-1, -2.7} {
		x, err := formula.Root(low, 2, func(x float64) (float64, error) { return x * x * x * x * x, nil })
		require.NoError(t, err)
		require.InDelta(t, 0, x, 1e-15)
	}
	x, err := formula.Root(0, 3, func(x float64) (float64, error) { return math.Cbrt(x - 1e-90), nil })
	require.NoError(t, err)
	require.InDelta(t, 0, x, 1e-15)
}
