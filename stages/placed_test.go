package stages_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// The force of every tendon in a table of a check is derived at its place: it is that after
// friction, draw-in and elastic losses, what it has lost with time, or both together.
func TestForcesOfTablesAreDerivedWhereTheyGovern(t *testing.T) {
	record, err := boxPlan().Run(boxGirder(t), limits.EN1992{})
	require.NoError(t, err)
	found, before := 0, 0
	for _, stage := range record.Stages {
		for _, s := range stage.Situations {
			for _, c := range s.Checks {
				for _, n := range c.Tables {
					if n > before {
						found += placedRows(t, s, c, record.Tables[n-1])
					}
				}
			}
			for _, c := range s.Checks {
				before = max(before, slices.Max(append(c.Tables, 0)))
			}
		}
	}
	require.Greater(t, found, 50)
}

// placedRows sees that each row of a tendon has its force among those of the place.
func placedRows(t *testing.T, s stages.SituationRecord, c stages.Check, table derive.Table) (found int) {
	t.Helper()
	p := slices.IndexFunc(table.Columns, func(c derive.Column) bool { return c.Symbol == "P" })
	for _, row := range table.Rows {
		if p < 0 || !row.Cells[p].Filled {
			continue
		}
		for _, mark := range strings.Split(row.Label, ", ") {
			i := slices.IndexFunc(s.Placed.Values, func(v []float64) bool {
				return math.Abs(v[0]-c.X) < 1e-4 && slices.Contains(s.Placed.Groups[int(v[1])-1].Tendons, mark)
			})
			require.GreaterOrEqual(t, i, 0, "%s at x = %g m, %s", c.Name, c.X, mark)
			v, area := s.Placed.Values[i], s.Placed.Groups[int(s.Placed.Values[i][1])-1].Area
			before, after := v[4]-v[5]*area, v[6]
			near := func(force float64) bool { return math.Abs(force-row.Cells[p].Value) < 100 }
			require.True(t, near(before) || near(after) || near(after-before), "%s of %s at x = %g m: %g N", row.Label, c.Name, c.X, row.Cells[p].Value)
			found++
		}
	}
	return found
}

// A record in which a force is not what its losses leave is refused, and a row on supports of
// a situation that is not there.
func TestPlacedForcesAndRestsAreChecked(t *testing.T) {
	record, err := boxPlan().Run(boxGirder(t), limits.EN1992{})
	require.NoError(t, err)
	require.NoError(t, record.Check())
	s := &record.Stages[0].Situations[0]
	row := s.Placed.Values[0]
	row[6] += 500
	require.ErrorContains(t, record.Check(), "what its losses leave")
	row[6] -= 500
	row[1] = 99
	require.ErrorContains(t, record.Check(), "of tendons 99: must be on the element")
	row[1] = 1
	require.NoError(t, record.Check())
	weight := &record.Tables[0].Rows[0]
	require.Equal(t, 1, weight.Of)
	weight.Of = 99
	require.ErrorContains(t, record.Check(), "on the supports of situation 99: must be 0 to ")
	weight.Of, weight.Roll = 1, 1
	require.ErrorContains(t, record.Check(), "roll = 1 rad")
}
