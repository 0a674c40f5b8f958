package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// line is one line of calculation: symbol = formula = numbers put in = result, then
// what it is, its source and a note.
func (a *author) line(l formula.Line, print func(float64, formula.Unit) string, named bool) prose {
	t := prose{{symbol, l.Result.Symbol}}
	if l.Expression != "" {
		t = append(t.and(plain, " = "), symbolic(l.Expression)...)
		if len(l.Operands) > 0 {
			put := typesetting{operand: func(symbol string) prose { return putIn(l.Operands, symbol, print) }}
			t = append(t.and(plain, " = "), put.of(l.Expression)...)
		}
	}
	t = t.and(plain, " = ").and(strong, print(l.Result.Value, l.Result.Unit))
	if (named || l.Expression == "") && l.Result.Name != "" {
		t = t.and(faint, " "+a.units.words(l.Result.Name))
	}
	t = t.and(faint, a.references.behind(l.Source))
	if l.Note != "" {
		t = t.and(faint, "; "+a.units.words(l.Note))
	}
	return t
}

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

// proves is true for the number of a line that shows a check.
func (a *author) proves(line int) bool {
	for _, stage := range a.record.Stages {
		if slices.ContainsFunc(checksOf(stage), func(c stages.Check) bool { return slices.Contains(c.Lines, line) }) {
			return true
		}
	}
	return false
}

// lines are the lines that do not stand in this part of the sheet already, or among
// the inputs, with the same value.
func (a *author) lines(list []formula.Line) []prose {
	var texts []prose
	for _, l := range list {
		key := l.Result.Symbol + " = " + l.Expression
		if before, ok := a.known[key]; ok && before == l.Result.Value {
			continue
		}
		a.known[key] = l.Result.Value
		texts = append(texts, a.line(l, a.units.quantity, true))
	}
	return texts
}

// proof is what shows a check: its tables, and its lines by number. What was printed
// with another check is referred to.
func (a *author) proof(check string, p derive.Proof) (tables []block, lines []prose) {
	for _, n := range p.Tables {
		t := a.record.Tables[n-1]
		if where, ok := a.tableAt[n]; ok {
			lines = append(lines, words(fmt.Sprintf("table %d: ", n)).and(symbol, t.Sum.Symbol).
				and(plain, " = ").and(strong, a.units.exact(t.Sum.Value, t.Sum.Unit)).and(faint, ", with check "+where))
			continue
		}
		a.tableAt[n] = check
		tables = append(tables, a.table(t))
	}
	for _, n := range p.Lines {
		l, _ := a.record.Line(n) // checked by printable
		number := prose{{faint, fmt.Sprintf("(%d) ", n)}}
		if where, ok := a.lineAt[n]; ok && l.Expression != "" {
			lines = append(lines, append(number, span{symbol, l.Result.Symbol}).and(plain, " = ").
				and(strong, a.units.exact(l.Result.Value, l.Result.Unit)).and(faint, ", with check "+where))
			continue
		}
		a.lineAt[n] = check
		lines = append(lines, append(number, a.line(l, a.units.exact, false)...))
	}
	return tables, lines
}

// digits prints the numbers of a column of a table with its last digit.
func (u Units) digits(value float64, unit formula.Unit, last int) string {
	return minus(derive.Text(value, last-u.more(), u.in(unit).factor))
}

// table is how a demand adds up: a row for each action, then the sum.
func (a *author) table(t derive.Table) block {
	several := slices.ContainsFunc(t.Rows, func(r derive.Row) bool { return r.On != t.Rows[0].On })
	g := grid{small: true, caption: a.tableCaption(t, several), columns: columnsOf("Action")}
	if several {
		g.columns = append(g.columns, columnsOf(">"+onWhat[t.By])...)
	}
	for _, c := range append(t.Columns[:len(t.Columns):len(t.Columns)], t.Value) {
		g.columns = append(g.columns, column{a.units.headed(c.Symbol, c.Unit), true})
	}
	g.columns = append(g.columns, column{words("factors"), true}, column{words(a.units.head("product", t.Sum.Unit)), true})
	for _, r := range t.Rows {
		cells := row(a.units.words(r.Label))
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
		cells = append(cells, words(a.units.digits(r.Value, t.Value.Unit, t.Value.Last)), factors(r.Factors),
			words(a.units.digits(r.Product, t.Sum.Unit, t.SumAt)))
		g.rows = append(g.rows, cells)
	}
	sum := make([]prose, len(g.columns))
	sum[0], sum[len(sum)-1] = words("sum"), words(a.units.digits(t.Sum.Value, t.Sum.Unit, t.SumAt))
	g.rows = append(g.rows, sum)
	g.strong = len(g.rows)
	return g
}

// onWhat is what the number of a row of a table refers to.
var onWhat = map[derive.Relation]string{derive.Bending: "section state", derive.Shearing: "cut"}

// tableCaption says what a table adds up, at which point, and on which section state or
// cut where all rows have the same.
func (a *author) tableCaption(t derive.Table, several bool) prose {
	caption := words(fmt.Sprintf("Table %d: ", t.Number)).and(symbol, t.Sum.Symbol)
	if t.By == derive.Bending {
		y, z := a.units.digits(t.Y, formula.Metre, t.YAt), a.units.digits(t.Z, formula.Metre, t.ZAt)
		caption = caption.and(plain, fmt.Sprintf(" at y = %s %[3]s, z = %[2]s %[3]s", y, z, a.units.in(formula.Metre).unit))
	}
	if on := onWhat[t.By]; on != "" && !several {
		caption = caption.and(plain, fmt.Sprintf(", %s %d", on, t.Rows[0].On))
	}
	return caption
}

func factors(list []derive.Factor) prose {
	var t prose
	for i, f := range list {
		if i > 0 {
			t = t.and(plain, " · ")
		}
		t = t.and(symbol, f.Symbol).and(plain, " "+shortest(f.Value, 0))
	}
	return t
}

// factorWords are the factors under which the demand of a check without a table is
// worst.
func factorWords(c stages.Check) string {
	texts := make([]string, len(c.Factors))
	for i, f := range c.Factors {
		texts[i] = f.Cause + " × " + shortest(f.Value, 0)
	}
	if len(texts) == 0 {
		return ""
	}
	return "; factors: " + strings.Join(texts, ", ")
}
