package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/limits"
)

// BenchmarkMoves is the movements of every situation of the box, once its stresses
// are known.
func BenchmarkMoves(b *testing.B) {
	e, plan := boxGirder(b), boxPlan()
	b.ReportAllocs()
	for b.Loop() {
		b.StopTimer()
		a, err := plan.Analyse(e, limits.EN1992{})
		require.NoError(b, err)
		b.StartTimer()
		for stage := range plan {
			for situation := 1; ; situation++ {
				effects, err := a.Effects(stage+1, situation)
				if err != nil {
					break
				}
				_, err = effects.Moves()
				require.NoError(b, err)
			}
		}
	}
}
