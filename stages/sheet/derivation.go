package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// putIn is the number of an operand, in brackets where it is negative.
func putIn(operands []formula.Quantity, symbol string, print func(float64, formula.Unit) string) prose {
	for _, q := range operands {
		if q.Symbol == symbol {
			text := print(q.Value, q.Unit)
			if strings.HasPrefix(text, "−") {
				text = "(" + text + ")"
			}
			return words(text)
		}
	}
	return words(symbol)
}

// linesOf are lines of the record by their numbers, which printable has checked.
func (a *author) linesOf(numbers []int) []formula.Line {
	lines := make([]formula.Line, len(numbers))
	for i, n := range numbers {
		lines[i], _ = a.record.Line(n)
	}
	return lines
}

// fresh are the lines that do not stand in this part of the sheet already, or among the
// inputs, with the same value.
func (a *author) fresh(list []formula.Line) []formula.Line {
	var new []formula.Line
	for _, l := range list {
		key := l.Result.Symbol + " = " + l.Expression
		if before, ok := a.known[key]; ok && before == l.Result.Value {
			continue
		}
		a.known[key] = l.Result.Value
		new = append(new, l)
	}
	return new
}

// lines are the fresh lines of a list as a table under a caption.
func (a *author) lines(caption string, list []formula.Line) []block {
	l := a.newLedger(caption, asWritten)
	for _, line := range a.fresh(list) {
		l.row(0, line)
	}
	return l.blocks()
}

// proof is what shows a check: its tables, then its lines. What was printed with another
// check is referred to.
func (a *author) proof(check string, c stages.Check) []block {
	var blocks []block
	l := a.newLedger("Lines of check "+check, asWritten)
	l.number = -1
	if a.brief() && len(c.Tables) == 0 { // its heading is above
		l.caption = nil
	}
	for _, n := range c.Tables {
		t := a.record.Tables[n-1]
		if where, ok := a.tableAt[n]; ok {
			l.words(prose{cite(tableKey(n))}.and(plain, ": ").and(symbol, a.symbolOf(t.Sum)), a.units.exact(t.Sum.Value, t.Sum.Unit), "with check "+where)
			continue
		}
		a.tableAt[n] = check
		blocks = append(blocks, a.table(t))
	}
	for _, n := range c.Lines {
		line, _ := a.record.Line(n) // checked by printable
		if where, ok := a.lineAt[n]; ok && line.Expression != "" {
			l.words(prose{{symbol, a.symbolOf(line.Result)}}, a.resultOf(n, line), "with check "+where)
			l.rows[len(l.rows)-1][0] = words(fmt.Sprintf("(%d)", n))
			continue
		}
		a.lineAt[n] = check
		l.row(n, line)
	}
	if len(c.Tables)+len(c.Lines) == 0 {
		blocks = append(blocks, paragraph{words("No derivation is given with this check.")})
	}
	return append(append(blocks, l.blocks()...), paragraph{a.comparison(c)})
}

// digits prints the numbers of a column of a table with its last digit.
func (u Units) digits(value float64, unit formula.Unit, last int) string {
	return minus(derive.Text(value, last-u.more(), u.in(unit).factor))
}

// table is how a demand adds up: a row for each action, then the sum.
func (a *author) table(t derive.Table) block {
	several := slices.ContainsFunc(t.Rows, func(r derive.Row) bool { return r.On != t.Rows[0].On })
	g := grid{small: true, caption: a.tableCaption(t, several), columns: columnsOf("Action"), number: t.Number, key: tableKey(t.Number)}
	if several {
		g.columns = append(g.columns, columnsOf(">"+onWhat[t.By])...)
	}
	for _, c := range t.Columns {
		g.columns = append(g.columns, column{a.units.headed(a.symbolOf(formula.Q(c.Symbol, 0, c.Unit, "")), c.Unit), true})
	}
	value := a.symbolOf(formula.Q(t.Value.Symbol, 0, t.Value.Unit, ""))
	if t.Value.Symbol == t.Sum.Symbol {
		value = a.symbolOf(t.Sum)
	}
	g.columns = append(g.columns, column{a.units.headed(value, t.Value.Unit), true})
	g.columns = append(g.columns, column{words("factors"), true}, column{words(a.units.head("product", t.Sum.Unit)), true})
	for _, r := range t.Rows {
		cells := []prose{append(words(a.units.words(r.Label)), a.rests(r.Rests)...)}
		if several {
			cells = append(cells, words(fmt.Sprint(r.On)))
		}
		for k, c := range r.Cells {
			text := ""
			if c.Filled {
				text = a.units.digits(c.Value, t.Columns[k].Unit, t.Columns[k].Last)
			}
			cells = append(cells, words(text))
		}
		cells = append(cells, words(a.units.digits(r.Value, t.Value.Unit, t.Value.Last)), a.factors(r.Factors),
			words(a.units.digits(r.Product, t.Sum.Unit, t.SumAt)))
		g.rows = append(g.rows, cells)
	}
	sum := make([]prose, len(g.columns))
	sum[0], sum[len(sum)-1] = words("sum"), words(a.units.digits(t.Sum.Value, t.Sum.Unit, t.SumAt))
	g.rows = append(g.rows, sum)
	g.strong = len(g.rows)
	return g
}

// rests is the table of the reactions on which the action of a row rests, and the tilt.
func (a *author) rests(on derive.Rests) prose {
	if on.Of == 0 {
		return nil
	}
	t := words("; ").with(reactionsKey(on.Of))
	for _, of := range []struct {
		name  string
		angle float64
	}{{"roll", on.Roll}, {"gradient", on.Gradient}} {
		if of.angle != 0 {
			t = t.and(plain, fmt.Sprintf(", %s %s rad", of.name, minus(shortest(of.angle, 0))))
		}
	}
	return t
}

// reactionsKey is the key of the reactions of a situation, by its number in the record from 1.
func reactionsKey(situation int) string { return fmt.Sprintf("reactions %d", situation) }

// tableKey is the key of a table of checks, by its number in the record.
func tableKey(number int) string { return fmt.Sprintf("table %d", number) }

// onWhat is what the number of a row of a table refers to.
var onWhat = map[derive.Relation]string{derive.Bending: "section properties", derive.Shearing: "unit stresses"}

// tableCaption says what a table adds up, at which point, and on which section state or
// cut where all rows have the same.
func (a *author) tableCaption(t derive.Table, several bool) prose {
	caption := prose{{symbol, a.symbolOf(t.Sum)}}
	if t.By == derive.Bending {
		y, z := a.units.digits(t.Y, formula.Metre, t.YAt), a.units.digits(t.Z, formula.Metre, t.ZAt)
		caption = caption.and(plain, fmt.Sprintf(" at y = %s %[3]s, z = %[2]s %[3]s", y, z, a.units.in(formula.Metre).unit))
	}
	if marks := a.wallMarks(t); t.By == derive.Shearing && len(marks) > 0 {
		caption = caption.and(plain, ", wall section "+strings.Join(marks, ", "))
	}
	if on := onWhat[t.By]; on != "" && !several {
		caption = caption.and(plain, fmt.Sprintf(", %s %d", on, t.Rows[0].On))
	}
	return caption
}

// wallMarks are those of the wall sections of a table: of an element alone and of those with
// which it acts as one.
func (a *author) wallMarks(t derive.Table) (marks []string) {
	for _, r := range t.Rows {
		if mark := a.wallMark(r.On); mark != "" && !slices.Contains(marks, mark) {
			marks = append(marks, mark)
		}
	}
	return marks
}

func (a *author) factors(list []derive.Factor) prose {
	var t prose
	for i, f := range list {
		if i > 0 {
			t = t.and(plain, " · ")
		}
		t = t.and(symbol, a.symbolOf(formula.Q(f.Symbol, 0, formula.One, f.Name))).and(plain, " "+shortest(f.Value, 0))
	}
	return t
}
