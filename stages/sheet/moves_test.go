package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// The movements of the record are printed in millimetres, or inches, with what they
// leave out; each body by itself.
func TestMovementsArePrinted(t *testing.T) {
	rows := func(body float64) derive.Rows {
		return derive.Rows{Columns: []string{"body", "x", "deflection", "least", "most", "bow", "along"},
			Values: [][]float64{{1, 0, -1e-18, 0, 0, 0, 0}, {body, 10, 0.01234, 0.0091, 0.0155, -0.002, 0.0007}}}
	}
	page := func(units Units, body float64) string {
		return calculationPage(passed(t, Settings{Units: units}, first(func(s *stages.SituationRecord) {
			s.Moves, s.MoveNotes = rows(body), []string{"supports level and rigid"}
		})))
	}
	one := page(SI, 1)
	require.Contains(t, one, "| x m | deflection mm | min mm | max mm | bow mm | along mm |")
	require.Contains(t, one, "| 10.000 | 12.3 | 9.1 | 15.5 | −2.0 | 0.7 |")
	require.Contains(t, one, "| 0.000 | 0.0 | 0.0 | 0.0 | 0.0 | 0.0 |")
	require.Contains(t, one, "Movements: supports level and rigid.")
	require.Contains(t, page(US, 1), "| 32.808 | 0.49 | 0.36 | 0.61 | −0.08 | 0.03 |")
	require.Contains(t, page(SI, 2), "| 2 | 10.000 | 12.3 |")
	require.False(t, strings.Contains(calculationPage(passed(t, Settings{})), "Movements: ."))
}
