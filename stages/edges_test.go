package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// The principal tension is not less than the tension at a corner of the section under the
// factors of its limit, and the strength that is required is one at which no corner cracks.
func TestPrincipalTensionReachesTheCorners(t *testing.T) {
	plan := stages.Plan{
		stages.Store{Age: 5, On: dunnage(2.4, 9.6)},
		stages.Lift{Age: 7, On: loops(2.4, 9.6), Dynamic: loads.Dynamic{Most: 1.3}, Roll: 0.05, Slender: &bowed},
		stages.Store{Age: 7, On: dunnage(2.4, 9.6)},
	}
	record, err := plan.Run(block(), practice)
	require.NoError(t, err)
	require.NoError(t, record.Check())
	for _, stage := range record.Stages[:1] { // upright, its corners by hand
		for _, s := range stage.Situations {
			c := rollOf(t, s, limits.PrincipalTension)
			require.NotNil(t, c)
			// 0.5 × 0.8 m on supports 2.4 m from both ends, weight × 1.35; over a support or at mid-length.
			const w = 0.4 * 25e3 * 1.35
			corner := math.Max(w*2.4*2.4/2, w*12/2*3.6-w*36/2) / (0.5 * 0.64 / 6)
			require.GreaterOrEqual(t, c.Demand.Value, corner*(1-1e-9))
		}
	}
	hung := rollOf(t, record.Stages[1].Situations[0], limits.PrincipalTension)
	tension := rollOf(t, record.Stages[1].Situations[0], limits.Tension)
	require.Greater(t, hung.Demand.Value, tension.Demand.Value, "with partial factors more than without")
	require.Contains(t, hung.Note, "at a free edge")
	state, err := block().Concrete.At(7)
	require.NoError(t, err)
	require.Less(t, hung.Required.Value, state.Characteristic)
}
