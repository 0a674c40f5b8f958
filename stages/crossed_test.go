package stages_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// The columns of stresses are rounded each to the digits of its largest value: where a
// minimum is rounded up and a maximum down, the record of a plan that fails by far is whole
// all the same. One with minimum and maximum exchanged is refused.
func TestStressesRoundedApart(t *testing.T) {
	of := func(weight float64) stages.Record {
		plan := stages.Plan{stages.Seat{Age: 28, On: paired(stages.Pads(0.2, 1, 11)), Actions: []stages.Action{
			{Mark: "plant", Kind: stages.Equipment, Z: 0.8, Y: 0.05, Loads: loads.Set{Points: []loads.Point{{At: 7, Force: weight}}}, Least: 0.11, Most: 1},
		}}}
		record, err := plan.Run(block(), limits.EN1992{})
		require.NoError(t, err)
		return record
	}
	for weight := 20e6; weight < 300e6; weight *= 1.07 {
		require.NoError(t, of(weight).Check(), "%g N", weight)
	}
	record := of(100e3)
	rows := &record.Stages[0].Situations[0].Stations
	least, most := slices.Index(rows.Columns, "bottomLeast"), slices.Index(rows.Columns, "bottomMost")
	middle := rows.Values[len(rows.Values)/2]
	require.Greater(t, middle[most]-middle[least], 20e3)
	middle[least], middle[most] = middle[most], middle[least]
	require.ErrorContains(t, record.Check(), "must be from minimum to maximum")
}
