package ledger_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// Beyond a floor a hair below it the extreme is the same; beyond one that is clearly
// above it nothing is found, and beyond itself nothing else.
func TestExtremeBeyondAFloor(t *testing.T) {
	rng := rand.New(rand.NewPCG(91, 92))
	for range 3 {
		l, s, causes := tapered(t, rng)
		d := demand(t, l, s, causes...)
		for _, sign := range []float64{1, -1} {
			w, err := d.Extreme(sign, 0, anywhere)
			require.NoError(t, err)
			most := sign * w.Value
			hair := 1e-6 * math.Abs(most)
			below, err := d.ExtremeBeyond(most-hair, sign, 0, anywhere)
			require.NoError(t, err)
			require.True(t, below.Found)
			require.InDelta(t, w.Value, below.Value, 2e-9*math.Abs(most))
			require.InDelta(t, w.X, below.X, 1e-3)
			require.Equal(t, w.Corner, below.Corner)
			require.Equal(t, w.Factors, below.Factors)
			require.GreaterOrEqual(t, below.Bound, sign*below.Value)
			above, err := d.ExtremeBeyond(most+hair, sign, 0, anywhere)
			require.NoError(t, err)
			require.False(t, above.Found)
			itself, err := d.ExtremeBeyond(most, sign, 0, anywhere)
			require.NoError(t, err)
			require.False(t, itself.Found && sign*itself.Value > most+2e-9*math.Abs(most))
		}
	}
}
