package roll_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam/roll"
)

// With the least height the girder has both factors, one of them hardly; with 1e-9 m
// less it lacks one.
func TestAxisFor(t *testing.T) {
	r, found := rand.New(rand.NewPCG(4, 1)), 0
	for range 200 {
		g, left, right, wind := chance(r)
		h := roll.Hung{Girder: g, Left: left, Right: right, Offset: 0.05 * r.Float64(), Wind: wind}
		cracking, overturning := 0.8+r.Float64(), 1+r.Float64()
		axis, err := h.AxisFor(cracking, overturning)
		if err != nil {
			require.ErrorIs(t, err, roll.ErrRoll)
			require.ErrorContains(t, err, "must be a smaller offset")
			h.Axis = 20
			high, err := h.Solve()
			require.NoError(t, err)
			require.True(t, high.Cracking < cracking || high.Overturning < overturning)
			continue
		}
		found++
		h.Axis = axis
		at, err := h.Solve()
		require.NoError(t, err)
		require.GreaterOrEqual(t, at.Cracking, cracking)
		require.GreaterOrEqual(t, at.Overturning, overturning)
		h.Axis = axis - 1e-9
		below, err := h.Solve()
		require.NoError(t, err)
		require.True(t, below.Cracking < cracking || below.Overturning < overturning)
	}
	require.Greater(t, found, 50)
	h := roll.Hung{Girder: tee()}
	for _, f := range []float64{0, -1, 11, math.NaN(), math.Inf(1)} {
		_, err := h.AxisFor(f, 1.5)
		require.ErrorContains(t, err, "factor against cracking = ")
		_, err = h.AxisFor(1, f)
		require.ErrorContains(t, err, "factor against overturning = ")
	}
	h.Girder.Weight = math.NaN()
	_, err := h.AxisFor(1, 1.5)
	require.ErrorContains(t, err, "Girder.Weight = NaN N: must be")
}

// How high must the lift points be?
func ExampleHung_AxisFor() {
	g := roll.Girder{Length: 41, Weight: 480e3, Modulus: 33e9, Iy: 0.23, Iz: 0.016, Sweep: 0.04, Camber: 0.06, Cracks: 90e3}
	axis, err := roll.Hung{Girder: g, Left: 2.5, Right: 2.5, Offset: 0.006}.AxisFor(1, 1.5)
	fmt.Printf("at least %.0f mm above the centre of gravity %v\n", math.Ceil(axis*1e3), err)
	// Output: at least 787 mm above the centre of gravity <nil>
}
