package sheet

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// operationWeight is the weight with its basis, and what may be on the element
// beside it in each situation.
func (a *author) operationWeight(stage stages.StageRecord) []block {
	g := grid{columns: columnsOf("", "Value", "Basis")}
	for _, rows := range []func(stages.SituationRecord) [][]string{
		func(s stages.SituationRecord) [][]string {
			m := s.Mass
			return [][]string{
				{"self-weight, nominal", a.units.quantity(m.Weight, formula.Newton) + " (" + a.units.quantity(m.Mass, formula.Kilogram) + ")", "calculated"},
				{"CoG x, y, z", a.units.place(m.X) + ", " + a.units.place(m.Y) + ", " + a.units.place(m.Z), "calculated"},
			}
		},
		func(s stages.SituationRecord) [][]string {
			return [][]string{{"weight tolerance", "× " + rangeOf(s.Weight), "input"}}
		},
		func(s stages.SituationRecord) [][]string {
			return [][]string{{"dynamic factor", "× " + rangeOf(s.Dynamic), "input"}}
		},
		a.loadRows,
	} {
		g.rows = append(g.rows, bySituation(stage, rows)...)
	}
	return []block{g}
}

// loadRows are the rows of the actions of a situation beside its weight.
func (a *author) loadRows(s stages.SituationRecord) [][]string {
	var rows [][]string
	for _, l := range s.Loads {
		rows = append(rows, []string{"action: " + a.loadPlace(l), a.loadSize(l), "input"})
	}
	if len(rows) == 0 {
		rows = append(rows, []string{"other actions", "none permitted", "none in the calculation"})
	}
	return rows
}

// bySituation are rows for each situation of a stage; those that are as in the
// previous situation are left out, and where they change each says from which on.
func bySituation(stage stages.StageRecord, rows func(stages.SituationRecord) [][]string) [][]prose {
	var all [][][]string
	change := false
	for _, s := range stage.Situations {
		all = append(all, rows(s))
		change = change || fmt.Sprint(all[0]) != fmt.Sprint(all[len(all)-1])
	}
	var printed [][]prose
	for k, cells := range all {
		if k > 0 && fmt.Sprint(cells) == fmt.Sprint(all[k-1]) {
			continue
		}
		for _, c := range cells {
			c = slices.Clone(c)
			if change {
				c[0] = "from " + numbered(stage, k) + " on: " + c[0]
			}
			printed = append(printed, row(c...))
		}
	}
	return printed
}
