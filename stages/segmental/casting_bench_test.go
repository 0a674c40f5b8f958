package segmental_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/segmental"
)

// BenchmarkCastingCurve is the curve of a cantilever of 2 × 25 segments with creep, once its
// analysis is known.
func BenchmarkCastingCurve(b *testing.B) {
	f := fan{n: 25, depth: level(4), concrete: mixOf(), slow: mixOf(), tendons: true, inTendon: 12}
	d, on, steps := f.deck(b), f.on(), f.steps(40, 3)
	b.ReportAllocs()
	for b.Loop() {
		b.StopTimer()
		a := analysed(b, d, on, steps...)
		b.StartTimer()
		_, err := segmental.Casting{Rule: segmental.MatchCast}.Curve(d, a, on, steps...)
		require.NoError(b, err)
	}
}
