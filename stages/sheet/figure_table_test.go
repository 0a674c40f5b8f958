package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// A figure that is tabulated has its values beneath it, small lengths in millimetres; another
// has none.
func TestTabulatedFigure(t *testing.T) {
	f := stages.Figure{Title: "gantry", XUnit: "m", YUnit: "m", Exaggerated: true, Tabulated: true, Lines: []stages.Polyline{
		{Name: "with S1", Points: [][2]float64{{1, -0.0051}, {3.5, -0.0123}}}, {Name: "with S2", Points: [][2]float64{{1, -0.0071}, {3.5, -0.0223}}},
	}}
	table := valuesOf(f)
	require.Equal(t, [][]float64{{1, -0.0051, -0.0071}, {3.5, -0.0123, -0.0223}}, table.Rows)
	require.Equal(t, stages.ValueColumn{Name: "with S2", Unit: formula.Metre, Small: true}, table.Columns[2])
	a := &author{}
	blocks := a.figureTables(stages.SituationRecord{Figures: []stages.Figure{f, {Title: "seen only", Lines: f.Lines}}})
	require.Len(t, blocks, 1)
	g := blocks[0].(grid)
	require.Len(t, g.rows, 2)
	require.Equal(t, words("−12.3"), g.rows[1][1])
}
