package segmental

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// result are the tables of what governs after each move, then those of what the deck states.
func (b Built) result(d Deck) stages.ResultPart {
	part := stages.ResultPart{Title: "Governing joint, pressure on the epoxy and piers after each move"}
	for _, t := range []stages.ValueTable{b.joints(), b.epoxy()} {
		if len(t.Rows) > 0 {
			part.Tables = append(part.Tables, t)
		}
	}
	for _, p := range d.Piers {
		if t := b.pier(p); len(t.Rows) > 0 {
			part.Tables = append(part.Tables, t)
		}
	}
	for _, t := range d.inputs() {
		if len(t.Rows) > 0 {
			part.Tables = append(part.Tables, t)
		}
	}
	return part
}

// name is that of a move in a table.
func (m MoveResult) name() string { return fmt.Sprintf("%d.%d %s", m.Step, m.Move, m.Name) }

func headed(name string, unit formula.Unit) stages.ValueColumn {
	return stages.ValueColumn{Name: name, Unit: unit}
}

// joints is the table of the joints that govern.
func (b Built) joints() stages.ValueTable {
	t := stages.ValueTable{Title: "Joint with the smallest margin against tension", RowHead: "move, joint",
		Columns: []stages.ValueColumn{headed("day", formula.Day), headed("maximum stress (tension +)", formula.Pascal), headed("permissible tension", formula.Pascal)}}
	for _, m := range b.Moves {
		if m.Joint == "" {
			continue
		}
		t.RowNames = append(t.RowNames, m.name()+", joint "+m.Joint)
		t.Rows = append(t.Rows, []float64{m.Day, m.Tension, m.Limit})
	}
	return t
}

// epoxy is the table of the pressures on the joints that were closed.
func (b Built) epoxy() stages.ValueTable {
	t := stages.ValueTable{Title: "Pressure on the epoxy while it cures, the smaller with and without the hoist", RowHead: "move, joint",
		Columns: []stages.ValueColumn{headed("mean", formula.Pascal), headed("minimum over the face", formula.Pascal)}}
	for _, m := range b.Moves {
		if m.Epoxied != "" {
			t.RowNames = append(t.RowNames, m.name()+", joint "+m.Epoxied)
			t.Rows = append(t.Rows, []float64{m.EpoxyMean, m.EpoxyMinimum})
		}
	}
	return t
}

// pier is the table of what a pier receives from its free cantilever.
func (b Built) pier(p Pier) stages.ValueTable {
	t := stages.ValueTable{Title: "Pier " + p.Mark + ": nominal resultant, worst moment of the combinations", RowHead: "move",
		Columns: []stages.ValueColumn{headed("V", formula.Newton), headed("M along", formula.NewtonMetre), headed("M across", formula.NewtonMetre), headed("max |M along|", formula.NewtonMetre)}}
	if p.Rows > 0 {
		t.Columns = append(t.Columns, headed("min row force", formula.Newton), headed("ties for the wanted factor", formula.Newton))
	}
	for _, m := range b.Moves {
		for _, r := range m.Piers {
			if r.Pier != p.Mark {
				continue
			}
			row := []float64{r.Vertical, r.Along, r.Across, r.Largest}
			if p.Rows > 0 {
				row = append(row, r.LeastRow, r.Tie)
			}
			t.RowNames, t.Rows = append(t.RowNames, m.name()), append(t.Rows, row)
		}
	}
	return t
}
