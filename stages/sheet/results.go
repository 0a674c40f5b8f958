package sheet

import (
	"fmt"
	"maps"
	"slices"

	"github.com/tempstage/tempstage/stages"
)

// main is the calculation of a Record with stages, or the results of one without.
func (a *author) main() document {
	if len(a.record.Stages) > 0 {
		return a.calculation()
	}
	return a.results()
}

// results are the sheet of a calculation without stages.
func (a *author) results() document {
	d := document{title: "Calculation of " + a.record.Element, foot: a.foot("Calculation")}
	inputs := append(append(a.drawn(), a.materials()...), a.tendons()...)
	var body []block
	for i, p := range a.record.Results {
		body = append(body, a.result(i, p)...)
	}
	d.blocks = append(append(d.blocks, a.head(d.title)...), alarm{words("Result: " + a.verdict())})
	d.blocks = append(d.blocks, heading{level: 2, words: words("Basis")}, list{points: pointsOf(a.record.Basis), columns: 2})
	d.blocks = append(d.blocks, inputs...)
	d.blocks = append(d.blocks, body...)
	if len(a.record.NotChecked) > 0 {
		d.blocks = append(d.blocks, heading{level: 2, words: words("Exclusions")}, list{points: pointsOf(a.record.NotChecked), columns: 2})
	}
	for _, part := range []struct {
		title  string
		blocks []block
	}{{"Symbols", a.symbols()}, {"Sources", a.sources()}} {
		if len(part.blocks) > 0 {
			d.blocks = append(append(d.blocks, heading{level: 2, words: words(part.title)}), part.blocks...)
		}
	}
	tables, figures, n := 0, 0, register{}
	n.tables(d.blocks, "", &tables)
	n.figures(d.blocks, &figures)
	n.write(d.blocks)
	return d
}

// result is one part of the results: notes, figures, tables, lines.
func (a *author) result(i int, p stages.ResultRecord) []block {
	blocks := []block{heading{level: 2, words: words(a.units.words(p.Title))}}
	if len(p.Notes) > 0 {
		blocks = append(blocks, list{points: pointsOf(p.Notes), columns: 2})
	}
	var figures []figure
	for k, f := range p.Figures {
		figures = append(figures, figure{name: fmt.Sprintf("result-%d-figure-%d", i+1, k+1), svg: a.recordChart(f).svg(), caption: f.Title})
	}
	for k := 0; k < len(figures); k += 2 {
		blocks = append(blocks, drawings{figures[k:min(k+2, len(figures))]})
	}
	for _, t := range p.Tables {
		blocks = append(blocks, a.values(t))
	}
	if len(p.Lines) == 0 {
		return blocks
	}
	a.known = maps.Clone(a.inputsKnown)
	return append(append(blocks, a.derivedIn(p.Lines)...), a.groupLines(stages.Group{Lines: a.givenIn(p.Lines)})...)
}

// derivedIn are the lines that derive a value, as a ledger.
func (a *author) derivedIn(numbers []int) []block {
	return a.lines("", a.linesOf(slices.DeleteFunc(slices.Clone(numbers), func(n int) bool { return a.linesOf([]int{n})[0].Expression == "" })))
}

// givenIn are the numbers of the lines that state a value.
func (a *author) givenIn(numbers []int) []int {
	return slices.DeleteFunc(slices.Clone(numbers), func(n int) bool { return a.linesOf([]int{n})[0].Expression != "" })
}

// values is a table of numbers, each column in one unit with the same decimals, behind the
// words of the rows.
func (a *author) values(t stages.ValueTable) block {
	g := grid{caption: words(a.units.words(t.Title)), rows: make([][]prose, len(t.Rows))}
	if len(t.RowNames) > 0 {
		g.columns = append(g.columns, column{words(a.units.words(t.RowHead)), false})
		for i, name := range t.RowNames {
			g.rows[i] = append(g.rows[i], words(a.units.words(name)))
		}
	}
	for j, c := range t.Columns {
		head, format := a.units.head(c.Name, c.Unit), a.units.aligned(c.Unit, columnOf(t.Rows, j)...)
		if c.Small {
			head, format = a.units.fine(c.Name, c.Unit, format)
		}
		g.columns = append(g.columns, column{words(head), true})
		for i, row := range t.Rows {
			g.rows[i] = append(g.rows[i], words(format.text(row[j])))
		}
	}
	return g
}

// columnOf is one column of rows.
func columnOf(rows [][]float64, j int) []float64 {
	all := make([]float64, len(rows))
	for i, row := range rows {
		all[i] = row[j]
	}
	return all
}
