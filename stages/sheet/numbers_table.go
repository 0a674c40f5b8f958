package sheet

import (
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// numbers are what stands before the derivations of a situation: what the long
// ones have in common, then a table of what differs.
type numbers struct {
	blocks []block
	shown  map[int][]value // by check: the values printed in them for it
	common []value         // those printed for all
	local  map[string]bool // symbols that belong to their line
}

// numbers sets the long derivations of a situation beside each other. There are
// none where fewer than two are long.
func (a *author) numbers(checks []stages.Check) numbers {
	local := ambiguous(checks)
	chains := a.passage.chains(checks, local)
	if len(chains) < 2 {
		return numbers{}
	}
	common, varying := sorted(chains)
	n := numbers{shown: map[int][]value{}, common: common, local: local}
	for _, c := range chains {
		for _, key := range varying {
			if v, ok := c.at(key); ok {
				for _, i := range c.checks {
					n.shown[i] = append(n.shown[i], v)
				}
			}
		}
	}
	n.blocks = []block{
		heading{level: 4, words: words("Numbers of checks " + lettersOf(chains) + ": what they have in common, then by check what differs")},
		calculation{lines: a.commonLines(common), running: true},
		a.varyingTable(chains, varying),
	}
	return n
}

func lettersOf(chains []chain) string {
	names := make([]string, len(chains))
	for i, c := range chains {
		names[i] = c.letters()
	}
	return strings.Join(names, ", ")
}

// letters are the checks of a chain: "C, D".
func (c chain) letters() string {
	names := make([]string, len(c.checks))
	for i, k := range c.checks {
		names[i] = letter(k)
	}
	return strings.Join(names, ", ")
}

// name is a symbol with the number of its formula, or with the line that it
// belongs to.
func (a *author) name(v value) prose {
	t := prose{{symbol, v.quantity.Symbol}}
	switch {
	case v.local:
		return t.and(faint, " of ").and(symbol, v.line.Result.Symbol)
	case !v.operand && v.line.Expression != "":
		return t.and(faint, " "+a.references.formula(v.line))
	}
	return t
}

// commonLines are values one after the other; operands of the same letter and
// value that stand together are printed as one.
func (a *author) commonLines(values []value) []prose {
	var lines []prose
	for i := 0; i < len(values); {
		if !values[i].operand {
			lines = append(lines, a.commonResult(values[i]))
			i++
			continue
		}
		end := i
		for end < len(values) && values[end].operand {
			end++
		}
		lines = append(lines, a.commonOperands(values[i:end])...)
		i = end
	}
	return lines
}

func (a *author) commonResult(v value) prose {
	t := a.name(v).and(plain, " = ").and(strong, a.units.quantity(v.quantity.Value, v.quantity.Unit))
	if v.line.Expression == "" {
		t = t.and(faint, " "+a.units.words(v.quantity.Name)+" "+a.references.source(v.line.Source))
	}
	return t
}

func (a *author) commonOperands(values []value) []prose {
	var lines []prose
	done := map[int]bool{}
	for i, v := range values {
		if done[i] {
			continue
		}
		t := a.name(v)
		letter, _, _ := strings.Cut(v.quantity.Symbol, "_")
		for k := i + 1; k < len(values); k++ {
			w := values[k].quantity
			if of, _, _ := strings.Cut(w.Symbol, "_"); of == letter && w.Value == v.quantity.Value && w.Unit == v.quantity.Unit && values[k].local == v.local {
				t, done[k] = append(t.and(plain, " = "), a.name(values[k])...), true
			}
		}
		lines = append(lines, t.and(plain, " = "+a.units.quantity(v.quantity.Value, v.quantity.Unit)))
	}
	return lines
}

// varyingTable is a row for each quantity, with a column for each chain.
func (a *author) varyingTable(chains []chain, keys []string) block {
	g := grid{dense: true, columns: columnsOf("", "")}
	for _, c := range chains {
		g.columns = append(g.columns, column{title: c.letters(), right: true})
	}
	for _, key := range keys {
		var found []float64
		var first value
		for _, c := range chains {
			if v, ok := c.at(key); ok {
				if len(found) == 0 {
					first = v
				}
				found = append(found, v.quantity.Value)
			}
		}
		format, unit := a.units.alignedTo(first.quantity.Unit, found)
		cells := []prose{a.name(first), words(unit)}
		for _, c := range chains {
			text := ""
			if v, ok := c.at(key); ok {
				text = format.text(v.quantity.Value)
			}
			cells = append(cells, words(text))
		}
		g.rows = append(g.rows, cells)
	}
	return g
}

// rest are the lines of the derivation of check i that do not stand in the numbers
// before it. What stands there under the same symbol with another value is
// printed with the check.
func (n numbers) rest(p *passage, i int, derivation []formula.Line) []prose {
	var lines []prose
	for _, l := range derivation {
		for _, q := range l.Operands {
			if n.stands(i, value{quantity: q, line: l, operand: true, local: n.local[q.Symbol]}) {
				p.know([]formula.Line{{Result: q, Expression: operand}})
			}
		}
		if n.stands(i, value{quantity: l.Result, line: l}) {
			p.know([]formula.Line{l})
			continue
		}
		lines = append(lines, p.lines([]formula.Line{l})...)
	}
	return lines
}

// stands is true for a value of check i that the numbers before it print with that
// value. An operand may stand there as a result, unless its symbol belongs to its
// line.
func (n numbers) stands(i int, v value) bool {
	is := func(w value) bool {
		same := w.key() == v.key() || v.operand && !v.local && !w.local && w.quantity.Symbol == v.quantity.Symbol
		return same && w.quantity.Unit == v.quantity.Unit && alike(w.quantity.Value, v.quantity.Value)
	}
	return slices.ContainsFunc(n.common, is) || slices.ContainsFunc(n.shown[i], is)
}
