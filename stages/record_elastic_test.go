package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/limits"
)

// The losses of the steps add up to the elastic losses of the tendons, step by step, and
// each tendon has one in every step after its own.
func TestElasticLossesStepByStep(t *testing.T) {
	record, err := boxPlan().Run(boxGirder(t), limits.EN1992{})
	require.NoError(t, err)
	sums, steps, losses := map[string]float64{}, 0, 0
	for _, stage := range record.Stages {
		for _, s := range stage.Situations {
			for _, step := range s.Steps {
				steps++
				for _, mark := range step.Stressed {
					require.NotContains(t, sums, mark)
				}
				require.Len(t, step.Losses, len(sums), "every tendon stressed before")
				for _, l := range step.Losses {
					require.Contains(t, sums, l.Mark)
					require.Greater(t, l.Loss, 0.0)
					sums[l.Mark] += l.Loss
					losses++
				}
				for _, mark := range step.Stressed {
					sums[mark] = 0
				}
			}
			for _, tendon := range s.Tendons {
				require.InDelta(t, tendon.Losses.Elastic, sums[tendon.Mark], 0.02*math.Max(1, float64(steps)), tendon.Mark)
			}
		}
	}
	require.Greater(t, steps, 2)
	require.Greater(t, losses, 5)
}
