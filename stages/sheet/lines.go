package sheet

import (
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// passage turns lines of calculation into text. A line or an operand that stands
// in this part of the sheet already, with the same number, is not printed again.
type passage struct {
	units      Units
	references *references
	known      map[string]formula.Line // by symbol
	given      []formula.Line          // known from the beginning: the inputs
	limits     map[string]limits.Sense // symbols of limits, printed to the safe side
}

func newPassage(units Units, references *references, given []formula.Line) *passage {
	p := &passage{units: units, references: references, given: given}
	p.forget()
	return p
}

// forget begins a new part of the sheet, in which only the inputs are known.
func (p *passage) forget() {
	p.known, p.limits = map[string]formula.Line{}, map[string]limits.Sense{}
	p.know(p.given)
}

// lines are the lines of a derivation that are not known yet.
func (p *passage) lines(derivation []formula.Line) []prose {
	var texts []prose
	for _, l := range derivation {
		if before, ok := p.known[l.Result.Symbol]; ok && before.Result.Value == l.Result.Value && before.Result.Unit == l.Result.Unit && before.Expression == l.Expression {
			continue
		}
		texts = append(texts, p.line(l))
		p.known[l.Result.Symbol] = l
	}
	return texts
}

// know takes lines as printed without printing them.
func (p *passage) know(lines []formula.Line) {
	for _, l := range lines {
		p.known[l.Result.Symbol] = l
	}
}

// line is one line of calculation: symbol, number of its formula, result, the
// numbers of its operands that are not known, and, where there is no formula,
// what it is and its source.
func (p *passage) line(l formula.Line) prose {
	t := prose{{symbol, l.Result.Symbol}}
	if l.Expression != "" {
		t = t.and(faint, " "+p.references.formula(l))
	}
	t = t.and(plain, " = ").and(strong, p.result(l.Result))
	with := " with "
	for _, same := range alikeQuantities(p.unknown(l.Operands)) {
		t = t.and(plain, with)
		for _, q := range same {
			t = t.and(symbol, q.Symbol).and(plain, " = ")
		}
		t = t.and(plain, p.units.quantity(same[0].Value, same[0].Unit))
		with = ", "
	}
	if l.Expression == "" {
		if l.Result.Name != "" {
			t = t.and(faint, " "+p.units.words(l.Result.Name))
		}
		if source := p.references.source(l.Source); source != "" {
			t = t.and(faint, " "+source)
		}
	}
	if l.Note != "" {
		t = t.and(faint, "; "+p.units.words(l.Note))
	}
	return t
}

// unknown are the operands that are not known with their values; they are known
// from then on.
func (p *passage) unknown(operands []formula.Quantity) []formula.Quantity {
	var list []formula.Quantity
	for _, q := range operands {
		if before, ok := p.known[q.Symbol]; ok && before.Result.Value == q.Value && before.Result.Unit == q.Unit {
			continue
		}
		list = append(list, q)
		p.known[q.Symbol] = formula.Line{Result: q, Expression: operand}
	}
	return list
}

// alikeQuantities groups quantities of the same letter and value: the areas of
// ducts that are all the same size are printed as one.
func alikeQuantities(quantities []formula.Quantity) [][]formula.Quantity {
	var groups [][]formula.Quantity
next:
	for _, q := range quantities {
		letter, _, _ := strings.Cut(q.Symbol, "_")
		for i, g := range groups {
			if of, _, _ := strings.Cut(g[0].Symbol, "_"); of == letter && g[0].Value == q.Value && g[0].Unit == q.Unit {
				groups[i] = append(g, q)
				continue next
			}
		}
		groups = append(groups, []formula.Quantity{q})
	}
	return groups
}

// operand stands in place of the expression of a quantity that was printed as an
// operand only.
const operand = "operand"

// result is the value of a line: to the safe side where it is a limit.
func (p *passage) result(q formula.Quantity) string {
	if sense, ok := p.limits[q.Symbol]; ok {
		return p.units.safe(q.Value, q.Unit, sense)
	}
	return p.units.quantity(q.Value, q.Unit)
}
