package derive

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"slices"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
)

// Lists are what a record says once and refers to by number, each number from 1.
type Lists struct {
	States
	Symbols []Symbol         `json:"symbols,omitempty"`
	Sources []formula.Source `json:"sources,omitempty"`
	Lines   []Line           `json:"lines,omitempty"`
	Tables  []Table          `json:"tables,omitempty"`
}

// Symbol is a symbol with its meaning. One symbol may have several meanings: a
// line names the number, not the letters.
type Symbol struct {
	Symbol string       `json:"s"`
	Unit   formula.Unit `json:"u"`
	Name   string       `json:"n,omitempty"` // in words
}

// Line is a line of calculation in printed digits.
type Line struct {
	Result     Number   `json:"r"`
	Expression string   `json:"e,omitempty"` // in symbols; none for a given value
	Operands   []Number `json:"o,omitempty"` // one for each symbol of Expression
	Source     int      `json:"src"`         // number in Lists.Sources
	Note       string   `json:"note,omitempty"`
}

// Number is a value of a symbol.
type Number struct {
	Symbol int     // number in Lists.Symbols
	Value  float64 // SI
}

// Proof is what is under a check: tables and at most a few lines, by number.
type Proof struct {
	Tables []int `json:"tables,omitempty"`
	Lines  []int `json:"lines,omitempty"`
}

// Book fills Lists: what is there already is not written again. The zero Book is
// empty.
type Book struct {
	lists Lists
	known map[string]int       // number by kind and content
	exact []section.Properties // of each section state

	symbols map[Symbol]int
	sources map[formula.Source]int
}

// Lists are the lists of the book so far; later additions do not change them. They may
// share memory with the book and are not to be written to.
func (b *Book) Lists() Lists { return b.lists }

// once is the number of content of a kind: a new one after last, or the one that
// it has already; 0 for content with a number that is not finite.
func (b *Book) once(kind byte, last int, content any) (number int, fresh bool) {
	text, err := json.Marshal(content)
	if err != nil {
		return 0, false
	}
	return b.numberOf(string(append(text, kind)), last)
}

// numberOf is the number of content with a key: a new one after last, or the one that
// it has already.
func (b *Book) numberOf(key string, last int) (number int, fresh bool) {
	if b.known == nil {
		b.known = map[string]int{}
	}
	if number, ok := b.known[key]; ok {
		return number, false
	}
	b.known[key] = last + 1
	return last + 1, true
}

// Section is the number of a section state; 0, to which no row can refer, where
// one of its numbers is not finite.
func (b *Book) Section(x float64, name string, p section.Properties) int {
	return b.section(x, name, p, 0)
}

func (b *Book) section(x float64, name string, p section.Properties, more int) int {
	n, fresh := b.once('S', len(b.lists.Sections), newSection(0, x, name, p, more))
	if fresh {
		b.lists.Sections = append(b.lists.Sections, newSection(n, x, name, p, more))
		b.exact = append(b.exact, p)
	}
	return n
}

// Flow is the number of a cut with its unit shear stresses, see [Flow]; 0, to which
// no row can refer, where one of them is not finite.
func (b *Book) Flow(x float64, wall Wall, vy, vz, t float64) int {
	n, fresh := b.once('F', len(b.lists.Flows), NewFlow(0, x, wall, vy, vz, t))
	if fresh {
		b.lists.Flows = append(b.lists.Flows, NewFlow(n, x, wall, vy, vz, t))
	}
	return n
}

// Symbol is the number of a symbol with its meaning.
func (b *Book) Symbol(s Symbol) int {
	return numbered(&b.symbols, &b.lists.Symbols, s)
}

// Source is the number of a source.
func (b *Book) Source(s formula.Source) int {
	return numbered(&b.sources, &b.lists.Sources, s)
}

// numbered is the number of what a list has, put at its end if it is new.
func numbered[T comparable](known *map[T]int, list *[]T, v T) int {
	n, ok := (*known)[v]
	if !ok {
		if *known == nil {
			*known = map[T]int{}
		}
		*list = append(*list, v)
		n = len(*list)
		(*known)[v] = n
	}
	return n
}

// Line is the number of a line, which is rounded first; see [Rounded] for the
// error.
func (b *Book) Line(line formula.Line) (int, error) { return b.LineTo(line, Nearest) }

// LineTo is Line with the result on one side of its exact value.
func (b *Book) LineTo(line formula.Line, side Side) (int, error) {
	rounded, err := RoundedTo(line, side)
	if err != nil {
		return 0, err
	}
	written := Line{
		Result: b.number(rounded.Result), Expression: line.Expression, Source: b.Source(line.Source), Note: line.Note,
	}
	for _, q := range rounded.Operands {
		written.Operands = append(written.Operands, b.number(q))
	}
	n, fresh := b.numberOf(written.key(), len(b.lists.Lines))
	if fresh {
		b.lists.Lines = append(b.lists.Lines, written)
	}
	return n, nil
}

func (b *Book) number(q formula.Quantity) Number {
	return Number{b.Symbol(Symbol{q.Symbol, q.Unit, q.Name}), q.Value}
}

// Table is the number of the table of a draft, whose rows are on states of this
// book. What factors are is kept with their symbols. The error is that of
// [Draft.Table].
func (b *Book) Table(d Draft) (int, error) {
	t, err := d.Table(b.lists.States)
	if errors.Is(err, errDigits) && d.By == Bending {
		t, err = b.finer(d)
	}
	if err != nil {
		return 0, err
	}
	for i := range t.Rows {
		for j := range t.Rows[i].Factors {
			f := &t.Rows[i].Factors[j]
			b.Symbol(Symbol{f.Symbol, formula.One, f.Name})
			f.Name = ""
		}
	}
	n, fresh := b.numberOf(t.key(), len(b.lists.Tables))
	if fresh {
		t.Number = n
		b.lists.Tables = append(b.lists.Tables, t)
	}
	return n, nil
}

// finer is the table of a draft on copies of its section states with two more
// digits, which are kept where they help.
func (b *Book) finer(d Draft) (Table, error) {
	trial := Book{exact: slices.Clone(b.exact), known: maps.Clone(b.known)}
	trial.lists.Sections = slices.Clone(b.lists.Sections)
	d.Rows = slices.Clone(d.Rows)
	for i := range d.Rows {
		on := &d.Rows[i].On
		s := b.lists.Sections[*on-1]
		*on = trial.section(s.X, s.Name, b.exact[*on-1], 2)
	}
	t, err := d.Table(trial.lists.States)
	if err == nil {
		b.exact, b.lists.Sections, b.known = trial.exact, trial.lists.Sections, trial.known
	}
	return t, err
}

// Line is a line written out, from its number; the error says that there is none.
func (l Lists) Line(number int) (formula.Line, error) {
	if number < 1 || number > len(l.Lines) {
		return formula.Line{}, fmt.Errorf("%w: line %d: must be 1 to %d", ErrDerive, number, len(l.Lines))
	}
	written := l.Lines[number-1]
	out := formula.Line{Expression: written.Expression, Note: written.Note}
	var err error
	if written.Source < 1 || written.Source > len(l.Sources) {
		return out, fmt.Errorf("%w: source %d of line %d: must be 1 to %d", ErrDerive, written.Source, number, len(l.Sources))
	}
	out.Source = l.Sources[written.Source-1]
	if out.Result, err = l.quantity(written.Result); err != nil {
		return out, err
	}
	for _, o := range written.Operands {
		q, err := l.quantity(o)
		if err != nil {
			return out, err
		}
		out.Operands = append(out.Operands, q)
	}
	return out, nil
}

func (l Lists) quantity(n Number) (formula.Quantity, error) {
	if n.Symbol < 1 || n.Symbol > len(l.Symbols) {
		return formula.Quantity{}, fmt.Errorf("%w: symbol %d: must be 1 to %d", ErrDerive, n.Symbol, len(l.Symbols))
	}
	s := l.Symbols[n.Symbol-1]
	return formula.Q(s.Symbol, n.Value, s.Unit, s.Name), nil
}
