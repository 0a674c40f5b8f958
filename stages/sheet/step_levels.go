package sheet

import (
	"slices"

	"github.com/tempstage/tempstage/stages"
)

// levelsOf is the table of target levels whose rows are stated on the sheet of a stage; none
// where no casting curve is in the record.
func (a *author) levelsOf(stage stages.StageRecord) []stages.ValueTable {
	var list []stages.ValueTable
	for _, p := range a.record.Results {
		for _, t := range p.Tables {
			if t.Stage == stage.Number && len(t.Stated) > 0 {
				list = []stages.ValueTable{t}
			}
		}
	}
	return list
}

// stepLevels are the target levels of the joints of a step, with room for what is surveyed.
func (a *author) stepLevels(stage stages.StageRecord) []block {
	var blocks []block
	for _, t := range a.levelsOf(stage) {
		only := t
		only.Rows, only.RowNames = nil, nil
		for _, n := range t.Stated {
			only.Rows = append(only.Rows, t.Rows[n-1])
			if n <= len(t.RowNames) {
				only.RowNames = append(only.RowNames, t.RowNames[n-1])
			}
		}
		g, ok := a.values(only).(grid)
		if !ok {
			continue
		}
		g.open, g.number = true, -1
		g.columns = append(slices.Clone(g.columns), columnsOf("tolerance ±", "surveyed", "signed")...)
		for i := range g.rows {
			g.rows[i] = append(slices.Clone(g.rows[i]), nil, nil, nil)
		}
		blocks = append(blocks, part{name: "levels", blocks: []block{g}})
	}
	return blocks
}
