package sheet

import (
	"fmt"
	"go/ast"
	"go/parser"
	"slices"
	"strconv"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
)

// ledger is lines of calculation as a table: symbol = formula, = numbers, = result.
type ledger struct {
	author *author
	print  func(float64, formula.Unit) string
	grid
}

// newLedger is a table for lines under a caption whose numbers are printed so: rounded, or
// with all the digits with which they recompute.
func (a *author) newLedger(caption string, print func(Units) func(float64, formula.Unit) string) *ledger {
	l := &ledger{author: a, print: print(a.units)}
	l.ledger, l.caption = true, words(a.units.words(caption))
	l.columns = columnsOf("", "Symbol = formula", "= numbers", "= result", "Remark, source")
	return l
}

// The two ways of printing the numbers of a ledger.
var (
	asRounded = func(u Units) func(float64, formula.Unit) string { return u.quantity }
	asWritten = func(u Units) func(float64, formula.Unit) string { return u.exact }
)

// blocks are the table, or nothing for one without a row.
func (l *ledger) blocks() []block {
	if len(l.rows) == 0 {
		return nil
	}
	if !slices.ContainsFunc(l.rows, func(r []prose) bool { return r[0].raw() != "" }) { // no line has a number
		l.columns = l.columns[1:]
		for i := range l.rows {
			l.rows[i] = l.rows[i][1:]
		}
	}
	return []block{l.grid}
}

// row adds a line with its number in the record; 0 for none.
func (l *ledger) row(number int, line formula.Line) {
	formula, numbers, result := l.author.parts(line, l.print)
	if line.Expression == "" {
		result = l.author.units.result(line)
	}
	if l.author.sides[number] != nil {
		result = l.author.resultOf(number, line)
	}
	mark := ""
	if number > 0 {
		mark = fmt.Sprintf("(%d)", number)
	}
	l.rows = append(l.rows, []prose{words(mark), formula, numbers, prose{{strong, result}}, l.author.remark(line)})
}

// words adds a row that only says something.
func (l *ledger) words(what prose, result, remark string) {
	l.rows = append(l.rows, []prose{nil, what, nil, prose{{strong, result}}, words(remark)})
}

// parts are symbol and formula, the numbers put in, and the result of a line. In US units
// a formula with a number that no unit fits is printed in SI.
func (a *author) parts(l formula.Line, print func(float64, formula.Unit) string) (symbols, numbers prose, result string) {
	symbols = prose{{symbol, a.symbolOf(l.Result)}}
	if l.Expression == "" {
		return symbols, nil, print(l.Result.Value, l.Result.Unit)
	}
	tree, err := parser.ParseExpr(l.Expression)
	if err != nil {
		return append(symbols.and(plain, " = "), words(l.Expression)...), nil, print(l.Result.Value, l.Result.Unit)
	}
	units, u := a.units, unitsIn(tree, l)
	if units.filled() == US && u.open {
		units, print = SI, SI.exact
	}
	number := func(n *ast.BasicLit) prose { return units.literal(n.Value, u.of[n]) }
	in := typesetting{operand: func(name string) prose { return prose{{symbol, a.operandOf(l, name)}} }, bare: true, number: number}
	symbols = append(symbols.and(plain, " = "), in.node(tree)...)
	if len(l.Operands) > 0 {
		put := typesetting{operand: func(symbol string) prose { return putIn(l.Operands, symbol, print) }, number: number}
		numbers = put.node(tree)
	}
	return symbols, numbers, print(l.Result.Value, l.Result.Unit)
}

// operandOf is how the symbol of an operand is printed.
func (a *author) operandOf(l formula.Line, name string) string {
	for _, o := range l.Operands {
		if o.Symbol == name {
			return a.symbolOf(o)
		}
	}
	return name
}

// remark is what a line is, where its symbol does not say it all, its source and its note.
func (a *author) remark(l formula.Line) prose {
	var t prose
	if detail := a.detail(l.Result); detail != "" {
		t = a.noted(a.units.words(detail))
	}
	source := a.references.behind(l.Source)
	if len(t) == 0 {
		source = strings.TrimLeft(source, " ;")
	}
	t = t.and(plain, source)
	if l.Note != "" {
		t = append(t.and(plain, "; "), a.noted(a.units.words(l.Note))...)
	}
	return t
}

// literal is a number of a formula with the unit that it has there.
func (u Units) literal(text string, unit formula.Unit) prose {
	value, err := strconv.ParseFloat(text, 64)
	if err != nil || unit == "" {
		return literal(text)
	}
	p := u.in(unit)
	number := scaled(value, p.factor, u.more())
	if rest, ok := strings.CutPrefix(p.unit, "1/"); ok {
		return words(number + "/" + rest)
	}
	return words(number + " " + p.unit)
}
