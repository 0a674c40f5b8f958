package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// A block on two supports whose overhang grows: as long as the corner over a support, by
// hand, is below the limit the check passes with at least that tension; beyond the limit
// the stage does not pass, by a check that fails at the edge or by a crack that is named.
func TestACornerBeyondItsLimitDoesNotPass(t *testing.T) {
	const w, modulus = 0.4 * 25e3 * 1.35, 0.5 * 0.64 / 6 // N/m with the factor on the weight, m³
	below, beyond := 0, 0
	for _, overhang := range []float64{2.4, 3, 3.13, 3.137, 3.138, 3.14, 3.2, 4} {
		record, err := stages.Plan{stages.Store{Age: 5, On: dunnage(overhang, 12-overhang)}}.Run(block(), practice)
		require.NoError(t, err)
		require.NoError(t, record.Check())
		corner := math.Max(w*overhang*overhang/2, w*12/2*(6-overhang)-w*36/2) / modulus
		limit, worst, words := 0.0, stages.Pass, ""
		for _, c := range record.Stages[0].Situations[0].Checks {
			if c.Kind != limits.PrincipalTension {
				continue
			}
			if c.State != stages.NotEvaluated {
				limit = c.Limit.Value
			}
			if c.State == stages.Fail || c.State == stages.NotEvaluated {
				worst, words = c.State, words+c.Note
			}
			if c.State == stages.Pass { // in the digits of the record, eight figures
				require.GreaterOrEqual(t, c.Demand.Value, math.Min(corner, c.Limit.Value)*(1-1e-7), "overhang %g m", overhang)
			}
		}
		switch {
		case corner < limit*(1-1e-6):
			below++
			require.Equal(t, stages.Pass, worst, "overhang %g m: %s", overhang, words)
		case corner > limit*(1+1e-6):
			beyond++
			require.NotEqual(t, stages.Pass, worst, "overhang %g m: corner %g Pa beyond %g Pa", overhang, corner, limit)
			require.Regexp(t, "at a free edge|cracks in bending", words)
			require.NotEqual(t, stages.Pass, record.Status())
		}
	}
	require.Positive(t, below)
	require.Positive(t, beyond)
}
