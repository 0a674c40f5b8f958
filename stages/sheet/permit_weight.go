package sheet

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// permitWeight is the weight with its basis, and what may be on the element beside
// it in each situation.
func (a *author) permitWeight(stage stages.StageRecord) []block {
	g := grid{columns: columnsOf("", ">Value", "Basis")}
	for _, group := range a.record.Inputs {
		for _, symbol := range []string{"G", "m"} {
			if q, ok := find(group.Lines, symbol); ok {
				g.rows = append(g.rows, row(q.Name, a.units.quantity(q.Value, q.Unit), "outline and parts"))
			}
		}
		for _, at := range []struct{ symbol, words string }{{"x_G", "mass centre, x"}, {"y_G", "mass centre, y"}} {
			if q, ok := find(group.Lines, at.symbol); ok {
				g.rows = append(g.rows, row(at.words, a.units.aligned(formula.Metre).text(q.Value)+" "+a.units.in(formula.Metre).unit, "outline and parts"))
			}
		}
	}
	for _, rows := range []func(stages.SituationRecord) [][]string{
		func(s stages.SituationRecord) [][]string {
			return [][]string{{"weight tolerance", "× " + rangeOf(s.Factors, "γ_w"), "input"}}
		},
		func(s stages.SituationRecord) [][]string {
			return [][]string{{"dynamic factor", "× " + rangeOf(s.Factors, "δ"), "input"}}
		},
		a.otherLoads,
	} {
		g.rows = append(g.rows, bySituation(stage, rows)...)
	}
	return []block{g}
}

// otherLoads are the rows of the other loads of a situation.
func (a *author) otherLoads(s stages.SituationRecord) [][]string {
	var rows [][]string
	for _, l := range s.Loads {
		rows = append(rows, []string{"other load: " + a.loadPlace(l), a.loadSize(l), "input; " + together})
	}
	if len(rows) == 0 {
		rows = append(rows, []string{"other loads", "none allowed", "none in the calculation"})
	}
	return rows
}

// bySituation are rows for each situation of a stage; those that are as in the
// situation before are left out, and where they change each says from which on.
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

// tolerance is the narrowest range of the factors on the weight over the
// situations of a stage.
func tolerance(stage stages.StageRecord) (least, most float64, ok bool) {
	least, most = 0, math.Inf(1)
	for _, s := range stage.Situations {
		low, found := find(s.Factors, "γ_w_least")
		high, also := find(s.Factors, "γ_w_most")
		if !found || !also {
			return 0, 0, false
		}
		least, most = math.Max(least, low.Value), math.Min(most, high.Value)
	}
	return least, most, true
}
