package tendon_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
)

// The lines of a loss recompute and give its parts, for every class of steel and without
// one.
func TestLinesOfALossGiveItsParts(t *testing.T) {
	for _, class := range []tendon.Relaxation{0, tendon.Class1, tendon.Class2, tendon.Class3} {
		relaxing := tendon.Relaxing{}
		if class != 0 {
			var err error
			relaxing, err = class.Over(57, 1860e6, 1500e6)
			require.NoError(t, err)
		}
		p, err := tendon.NewPeriod(yard, 195e9, 3, 60, relaxing)
		require.NoError(t, err)
		at := tendon.Place{CreepStrain: 2.5e-4, Stress: 1280e6, Stiffening: 0.004}
		lines, err := p.Lines(at)
		require.NoError(t, err)
		found := map[string]float64{}
		for _, line := range lines {
			value, err := line.Recompute()
			require.NoError(t, err)
			require.InDelta(t, line.Result.Value, value, 1e-9*max(1, value))
			found[line.Result.Symbol] = value
		}
		want := p.Losses(at)
		require.InDelta(t, want.Shrinkage, found["Δσ_s"], 1e-3)
		require.InDelta(t, want.Creep, found["Δσ_c"], 1e-3)
		require.InDelta(t, want.Relaxation, found["Δσ_r"], 1e-3)
		require.InDelta(t, want.Total(), found["Δσ_csr"], 1e-3)
		require.Equal(t, class != 0, found["Δσ_pr"] > 0)
	}
}
