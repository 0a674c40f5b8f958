package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// A level difference acts as long as the supports stay, and every
// situation says so; on other supports it is gone.
func TestOutOfLevelStaysWithItsSupports(t *testing.T) {
	pads := stages.Elastic(80e6, stages.Pads(0.2, 1, 11)...)
	plan := stages.Plan{
		stages.Store{Age: 5, On: pads, OutOfLevel: 0.004},
		event{age: 9},
		stages.Seat{Age: 12, On: stages.Elastic(90e6, stages.Pads(0.2, 0.5, 11.5)...), OutOfLevel: 0.001},
		event{age: 15},
	}
	record, err := plan.Run(block(), limits.EN1992{})
	require.NoError(t, err)
	require.NoError(t, record.Check())
	for i, want := range []float64{0.004, 0.004, 0.001, 0.001} {
		require.Equal(t, want, record.Stages[i].Situations[0].OutOfLevel, "stage %d", i+1)
	}
}
