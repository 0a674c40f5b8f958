package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// A record that lost a row or a cell on its way is refused; it is not printed with less
// than was calculated, and nothing panics.
func TestARecordThatIsNotWholeIsRefused(t *testing.T) {
	for says, spoil := range map[string]func(*stages.Record){
		"table 1 has no row: must have at least one":                func(r *stages.Record) { r.Tables[0].Rows, r.Tables[0].Sum.Value = nil, 0 },
		"table 1, row 2 has 1 cells: must be at most its 0 columns": func(r *stages.Record) { r.Tables[0].Rows[1].Cells = make([]derive.Cell, 1) },
		"situation 1, a row of stations: must have its 2 numbers": func(r *stages.Record) {
			r.Stages[0].Situations[0].Stations = derive.Rows{Columns: []string{"x", "My"}, Values: [][]float64{{1, 2}, {3}}}
		},
		"situation 2, a row of stations: must have its 1 numbers": func(r *stages.Record) {
			r.Stages[1].Situations[0].Diagram = derive.Rows{Columns: []string{"x"}, Values: [][]float64{{1, 2}}}
		},
	} {
		record := rectangle()
		lists(&record)
		spoil(&record)
		_, err := newAuthor(record, Settings{})
		require.ErrorIs(t, err, ErrSheet, says)
		require.ErrorContains(t, err, says)
	}
}

// By every relation a table without a row is refused.
func TestATableWithoutARowIsRefusedByEveryRelation(t *testing.T) {
	for _, by := range []derive.Relation{derive.Given, derive.Bending, derive.Shearing} {
		record := rectangle()
		record.Tables = []derive.Table{{Number: 1, By: by, Sum: formula.Q("σ", 0, formula.Pascal, "")}}
		_, err := newAuthor(record, Settings{})
		require.ErrorContains(t, err, "table 1 has no row")
	}
}

// The caption of a table says on which section state or cut all its rows are; where they
// differ there is a column for it, with the number of each row.
func TestSectionStatesOfATable(t *testing.T) {
	of := func(by derive.Relation, on ...int) grid {
		table := derive.Table{Number: 4, By: by, Y: 0.25, YAt: -2, Z: -1.5, ZAt: -1, Sum: formula.Q("σ", 0, formula.Pascal, ""), SumAt: 3}
		for _, n := range on {
			table.Rows = append(table.Rows, derive.Row{Label: "weight", On: n})
		}
		return (&author{units: SI}).table(table).(grid)
	}
	require.Equal(t, "σ at y = 0.25 m, z = −1.5 m, section properties 3", of(derive.Bending, 3, 3).caption.raw())
	require.Equal(t, "σ, unit stresses 3", of(derive.Shearing, 3, 3).caption.raw())
	require.Equal(t, "σ", of(derive.Given, 3).caption.raw())
	g := of(derive.Bending, 3, 5)
	require.Equal(t, "σ at y = 0.25 m, z = −1.5 m", g.caption.raw())
	require.Equal(t, "section properties", g.columns[1].title.raw())
	require.Equal(t, []string{"3", "5"}, []string{g.rows[0][1].raw(), g.rows[1][1].raw()})
	require.Equal(t, "unit stresses", of(derive.Shearing, 1, 2).columns[1].title.raw())
}
