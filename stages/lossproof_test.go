package stages_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// The loss of one tendon is derived line by line: the parts are those of the record, to the
// last printed digit, and every stress, creep coefficient and strain has its line.
func TestTheLossOfOneTendonIsDerived(t *testing.T) {
	for name, c := range map[string]struct {
		of   stages.Subject
		plan stages.Plan
	}{"box": {boxGirder(t), boxPlan()}, "cable": {longTerm(girder(t)), journey()}} {
		record, err := c.plan.Run(c.of, limits.EN1992{})
		require.NoError(t, err, name)
		var loss []stages.Group
		for _, g := range record.Appendix {
			if strings.HasPrefix(g.Title, "loss of tendon ") {
				loss = append(loss, g)
			}
		}
		require.Len(t, loss, 1, name)
		found := map[string]float64{}
		for _, n := range loss[0].Lines {
			line, err := record.Line(n)
			require.NoError(t, err)
			found[line.Result.Symbol] = line.Result.Value
			if line.Result.Symbol == "σ_c" {
				require.Regexp(t, `^by .*(weight o(n|ff) (supports|lift points) at x = |[A-Z]\w*)`, line.Note, name)
			}
		}
		last := record.Stages[len(record.Stages)-1].Situations
		mark := strings.Fields(loss[0].Title)[3]
		for _, of := range last[len(last)-1].Tendons {
			if of.Mark == mark {
				require.InDelta(t, of.Losses.Shrinkage, found["Δσ_s"], 600, name)
				require.InDelta(t, of.Losses.Creep, found["Δσ_c"], 600, name)
				require.InDelta(t, of.Losses.Relaxation, found["Δσ_r"], 600, name)
			}
			require.LessOrEqual(t, of.Losses.Shrinkage+of.Losses.Creep+of.Losses.Relaxation, found["Δσ_csr"]+2e3, "the others lose no more")
		}
		for _, symbol := range []string{"σ_pi", "α_s", "ε_cs", "σ_c", "φ", "ε_cc1", "ε_cc", "κ", "Δσ_pr", "D"} {
			require.Contains(t, found, symbol, name)
		}
	}
}
