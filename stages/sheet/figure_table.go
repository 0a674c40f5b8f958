package sheet

import (
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// figureTables are the values of the figures of a situation that are to be read, not only seen.
func (a *author) figureTables(s stages.SituationRecord) (blocks []block) {
	for _, f := range s.Figures {
		if f.Tabulated && len(f.Lines) > 0 {
			blocks = append(blocks, a.values(valuesOf(f)))
		}
	}
	return blocks
}

// valuesOf are the values of the curves of a figure, at the abscissas that they have in common.
func valuesOf(f stages.Figure) stages.ValueTable {
	t := stages.ValueTable{Title: f.Title, Columns: []stages.ValueColumn{{Name: "x", Unit: formula.Unit(f.XUnit)}}}
	for _, l := range f.Lines {
		t.Columns = append(t.Columns, stages.ValueColumn{Name: l.Name, Unit: formula.Unit(f.YUnit), Small: f.Exaggerated})
	}
	for k, p := range f.Lines[0].Points {
		row := []float64{p[0]}
		for _, l := range f.Lines {
			row = append(row, l.Points[k][1])
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
