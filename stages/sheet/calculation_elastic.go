package sheet

import (
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// elasticKey is the key of the elastic losses at mid-length.
const elasticKey = "elastic losses"

// elasticLosses are those at mid-length by each step of stressing, of each tendon stressed
// before it, and their sum after each situation. Tendons with the same losses share a column.
func (a *author) elasticLosses() []block {
	var marks []string
	for _, s := range a.stressed() {
		for _, step := range s.of.Steps {
			for _, mark := range step.Stressed {
				if !slices.Contains(marks, mark) {
					marks = append(marks, mark)
				}
			}
		}
	}
	columns := make(map[string][]string, len(marks)) // of each tendon, from row to row
	rows, sums := a.elasticRows(marks, columns)
	if len(rows) == 0 {
		return nil
	}
	g := grid{key: elasticKey, caption: words("Elastic loss at mid-length by each step of stressing of the tendons stressed before: modular ratio × stress of the concrete that the step brings, " + a.units.in(formula.Pascal).unit), columns: columnsOf("Stage", "Step")}
	for i := range rows {
		g.rows = append(g.rows, row(rows[i]...))
	}
	var shared [][]string // marks of a column
	for _, mark := range marks {
		if i := slices.IndexFunc(shared, func(list []string) bool { return slices.Equal(columns[list[0]], columns[mark]) }); i >= 0 {
			shared[i] = append(shared[i], mark)
		} else {
			shared = append(shared, []string{mark})
		}
	}
	for _, list := range shared {
		g.columns = append(g.columns, columnsOf(">"+strings.Join(list, ", "))...)
		for i, text := range columns[list[0]] {
			cell := words(text)
			if sums[i] {
				cell = bold(text)
			}
			g.rows[i] = append(g.rows[i], cell)
		}
	}
	return []block{g}
}

// numberedSituation is a situation with its number.
type numberedSituation struct {
	number string
	of     stages.SituationRecord
}

// stressed are the situations in which tendons are stressed.
func (a *author) stressed() []numberedSituation {
	var list []numberedSituation
	for _, stage := range a.record.Stages {
		for i, s := range stage.Situations {
			if len(s.Steps) > 0 {
				list = append(list, numberedSituation{numbered(stage, i), s})
			}
		}
	}
	return list
}

// elasticRows are the first cells of the rows, steps and sums, and fill the columns of the
// tendons; sums tells which rows are sums.
func (a *author) elasticRows(marks []string, columns map[string][]string) (rows [][]string, sums []bool) {
	var all []float64
	for _, s := range a.stressed() {
		for _, t := range s.of.Tendons {
			all = append(all, t.Losses.Elastic)
		}
	}
	print := a.units.aligned(formula.Pascal, all...)
	for _, s := range a.stressed() {
		for _, step := range s.of.Steps {
			rows, sums = append(rows, []string{s.number, strings.Join(step.Stressed, ", ")}), append(sums, false)
			for _, mark := range marks {
				text := none
				if i := slices.IndexFunc(step.Losses, func(l stages.ElasticLoss) bool { return l.Mark == mark }); i >= 0 {
					text = print.text(step.Losses[i].Loss)
				}
				columns[mark] = append(columns[mark], text)
			}
		}
		rows, sums = append(rows, []string{s.number, "sum since its own stressing"}), append(sums, true)
		for _, mark := range marks {
			text := none
			if i := slices.IndexFunc(s.of.Tendons, func(t stages.TendonForce) bool { return t.Mark == mark }); i >= 0 {
				text = print.text(s.of.Tendons[i].Losses.Elastic)
			}
			columns[mark] = append(columns[mark], text)
		}
	}
	return rows, sums
}
