package sheet

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// briefBefore is true where a brief situation comes before one: the derivation of the
// strength is printed with the first, later ages are rows of a table.
func (a *author) briefBefore(stage stages.StageRecord, i int) bool {
	first := true
	for _, s := range a.record.Stages[:stage.Number] {
		for k, of := range s.Situations {
			if s.Number == stage.Number && k == i {
				return !first
			}
			if of.Brief {
				first = false
			}
		}
	}
	return !first
}

// laterStrengths are the values of the strength at the ages of later brief stages, by the
// formulas of the first: a row for each age.
func (a *author) laterStrengths() []block {
	var first []formula.Line
	g := grid{caption: words("The same at the ages of later stages, by the formulas above")}
	var rows [][]formula.Line
	var other []block // of another concrete
	var seen []float64
	for _, stage := range a.record.Stages {
		for _, s := range stage.Situations {
			lines := a.derivedLines(s.Concrete)
			if !s.Brief || slices.Contains(seen, s.Age) {
				continue
			}
			seen = append(seen, s.Age)
			if first == nil {
				first = lines
				continue
			}
			if !slices.EqualFunc(first, lines, func(l, m formula.Line) bool {
				return l.Result.Symbol == m.Result.Symbol && l.Expression == m.Expression
			}) {
				other = append(other, a.lines("Concrete strength at "+days(s.Age, math.Round)+" d", a.linesOf(s.Concrete))...)
				continue
			}
			rows = append(rows, lines)
			g.rows = append(g.rows, row(numbered(stage, 0), days(s.Age, math.Round)))
		}
	}
	if len(rows) == 0 {
		return other
	}
	g.columns = columnsOf("From", ">Age d")
	for k, l := range first {
		if !slices.ContainsFunc(rows, func(lines []formula.Line) bool { return lines[k].Result.Value != l.Result.Value }) {
			continue
		}
		g.columns = append(g.columns, column{prose{{symbol, a.symbolOf(l.Result)}}, true})
		for i, lines := range rows {
			g.rows[i] = append(g.rows[i], words(a.units.result(lines[k])))
		}
	}
	return append([]block{g}, other...)
}

// derivedLines are the lines with a formula.
func (a *author) derivedLines(numbers []int) []formula.Line {
	return slices.DeleteFunc(a.linesOf(numbers), func(l formula.Line) bool { return l.Expression == "" })
}
