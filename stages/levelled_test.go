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

// Supports whose forces followed from statics and that are out of level once they share by
// stiffness (jacks whose lock rings are set) have the forces of that level difference.
func TestOutOfLevelOfLockedJacks(t *testing.T) {
	pads := stages.Pads(0.2, 1, 11)
	linked := append(append([]stages.Support{}, pads[:2]...), stages.Equalised("pair", pads[2:]...)...)
	locked := stages.Elastic(80e6, pads...)
	run := func(out float64) []stages.Reaction {
		record, err := stages.Plan{stages.Seat{Age: 5, On: linked}, stages.Seat{Age: 5, On: locked, OutOfLevel: out}}.Run(block(), limits.EN1992{})
		require.NoError(t, err)
		return record.Stages[1].Situations[0].Reactions
	}
	one, two := run(1e-5), run(2e-5)
	fresh, err := stages.Plan{stages.Store{Age: 5, On: locked, OutOfLevel: 1e-5}}.Run(block(), limits.EN1992{})
	require.NoError(t, err)
	for i := range one {
		spread := one[i].Static.Most - one[i].Static.Least
		require.Greater(t, two[i].Static.Most-two[i].Static.Least, spread)
		before := fresh.Stages[0].Situations[0].Reactions[i]
		require.InEpsilon(t, before.Static.Most-before.Static.Least, spread, 1e-9, "as of supports that are new")
	}
}
