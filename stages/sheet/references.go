package sheet

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/tempstage/tempstage/section/formula"
)

// references number the sources and the formulas of a sheet in the order in
// which they are met, so that each is printed once.
type references struct {
	units    Units
	sources  []formula.Source
	formulas []formulaEntry
}

// formulaEntry is one formula: what it gives, how, and its source. Formulas that
// differ only in the last index of what they give, such as the mark of a tendon,
// are one.
type formulaEntry struct {
	symbols    []string // of its results
	expression string   // that of the first
	pattern    string   // with the index replaced
	free       bool     // the index does not occur in the expression
	indices    []string // in place of the index
	name       string
	source     formula.Source
}

// index is the last index of a symbol; "" without one.
func index(symbol string) string {
	at := strings.LastIndex(symbol, "_")
	if at <= 0 {
		return ""
	}
	return symbol[at+1:]
}

// general is a formula with another index in place of its result's own.
func general(text, own, with string) string {
	if own == "" {
		return text
	}
	return identifier.ReplaceAllStringFunc(text, func(symbol string) string {
		if index(symbol) == own {
			return strings.TrimSuffix(symbol, own) + with
		}
		return symbol
	})
}

// identifier is a symbol in an expression.
var identifier = regexp.MustCompile(`[\pL_][\pL\pN_]*`)

// source is the number of a source in brackets; "" for none. A dagger marks one
// that was written from memory.
func (r *references) source(s formula.Source) string {
	if s.Document == "" && s.Place == "" {
		return ""
	}
	at := slices.Index(r.sources, s)
	if at < 0 {
		at = len(r.sources)
		r.sources = append(r.sources, s)
	}
	return fmt.Sprintf("[%d%s]", at+1, dagger(s))
}

func dagger(s formula.Source) string {
	if s.Confirm {
		return "†"
	}
	return ""
}

// formula is the number of a line's formula in parentheses, and the line's name
// where it says more than the formula's.
func (r *references) formula(l formula.Line) string {
	own := index(l.Result.Symbol)
	pattern := general(l.Result.Symbol+" = "+l.Expression, own, anyIndex)
	free := general(l.Expression, own, anyIndex) == l.Expression
	at := slices.IndexFunc(r.formulas, func(f formulaEntry) bool {
		return f.source == l.Source && (f.pattern == pattern || free && f.free && f.expression == l.Expression)
	})
	if at < 0 {
		at = len(r.formulas)
		r.formulas = append(r.formulas, formulaEntry{expression: l.Expression, pattern: pattern, free: free, name: l.Result.Name, source: l.Source})
		r.source(l.Source)
	}
	f := &r.formulas[at]
	if !slices.Contains(f.symbols, l.Result.Symbol) {
		f.symbols = append(f.symbols, l.Result.Symbol)
	}
	if f.pattern == pattern && !slices.Contains(f.indices, own) {
		f.indices = append(f.indices, own)
	}
	f.name = shared(f.name, l.Result.Name)
	return fmt.Sprintf("(%d)", at+1)
}

// shared is what two names have in common at their beginning, to a whole word;
// the first name when that is next to nothing.
func shared(a, b string) string {
	if a == b || b == "" {
		return a
	}
	n := 0
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	common := a[:n]
	if n < len(a) {
		common = common[:max(0, strings.LastIndexAny(common, " ,"))]
	}
	fields := strings.Fields(common)
	for len(fields) > 0 && slices.Contains(dangling, strings.Trim(fields[len(fields)-1], ",(")) {
		fields = fields[:len(fields)-1]
	}
	common = strings.TrimRight(strings.Join(fields, " "), ",")
	if utf8.RuneCountInString(common) < 6 {
		return a
	}
	return common
}

// dangling are words at which no name ends.
var dangling = []string{"", "=", "x", "at", "on", "of", "by", "for", "step", "tendon", "tendons", "one"}

// sourceBlocks are the numbered sources.
func (r *references) sourceBlocks() []block {
	points := make([]prose, len(r.sources))
	for i, s := range r.sources {
		mark := dagger(s)
		s.Confirm = false
		points[i] = words(fmt.Sprintf("[%d%s] %s", i+1, mark, s))
	}
	return []block{heading{level: 3, words: words("Sources")}, calculation{lines: points, running: true}}
}

// anyIndex stands for the index of a pattern, and is printed in place of several.
const anyIndex = "i"

// equation is the formula in symbols: for any index where it serves for several.
func (f formulaEntry) equation() prose {
	if len(f.indices) > 1 && len(f.indices) == len(f.symbols) {
		result, right, _ := strings.Cut(f.pattern, " = ")
		return prose{{symbol, result}}.and(plain, " = ").and(expression, right).and(plain, ", "+anyIndex+" = "+strings.Join(f.indices, ", "))
	}
	var t prose
	for k, s := range f.symbols {
		if k > 0 {
			t = t.and(plain, ", ")
		}
		t = t.and(symbol, s)
	}
	return t.and(plain, " = ").and(expression, f.expression)
}

// formulaBlocks are the numbered formulas.
func (r *references) formulaBlocks() []block {
	if len(r.formulas) == 0 {
		return nil
	}
	lines := make([]prose, len(r.formulas))
	for i, f := range r.formulas {
		line := append(prose{{strong, fmt.Sprintf("(%d) ", i+1)}}, f.equation()...)
		if f.name != "" {
			line = line.and(faint, " — "+r.units.words(f.name))
		}
		lines[i] = line.and(faint, " "+r.source(f.source))
	}
	return []block{
		heading{level: 3, words: words("Formulas")},
		paragraph{words("Numbers in the lines of calculation refer to this list. Numbers that stand in a formula itself are in N, m, Pa and days.")},
		calculation{lines: lines},
	}
}
