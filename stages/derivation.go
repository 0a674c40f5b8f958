package stages

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
)

// derivation writes the lines of a kept check, after the numbers are known. It
// stops at its first error.
type derivation struct {
	r     *run
	s     *situation
	at    *station
	lines []formula.Line
	known map[string]formula.Quantity // results so far, by symbol
	err   error
}

func (r *run) newDerivation(s *situation, x float64) *derivation {
	return &derivation{r: r, s: s, at: r.at(x), known: map[string]formula.Quantity{}}
}

// line derives a quantity and keeps its line; a symbol that is known already is
// returned as it is.
func (d *derivation) line(result formula.Quantity, expression string, source formula.Source, operands ...formula.Quantity) formula.Quantity {
	if q, ok := d.known[result.Symbol]; ok {
		return q
	}
	line, err := formula.Derive(result, expression, source, operands...)
	if err != nil && d.err == nil {
		d.err = err
	}
	return d.keep(line)
}

// given keeps a quantity that has no one-line form.
func (d *derivation) given(q formula.Quantity, source formula.Source) formula.Quantity {
	if known, ok := d.known[q.Symbol]; ok {
		return known
	}
	return d.keep(formula.Given(q, source))
}

func (d *derivation) keep(line formula.Line) formula.Quantity {
	d.lines = append(d.lines, line)
	if d.known != nil {
		d.known[line.Result.Symbol] = line.Result
	}
	return line.Result
}

// agrees keeps an error when the written derivation does not end in the number
// that the engine got its own way: a sheet that cannot be followed is no sheet.
func (d *derivation) agrees(demand formula.Quantity, engine float64) {
	if d.err == nil && math.Abs(demand.Value-engine) > 1e-6*math.Abs(engine)+100 {
		d.err = fmt.Errorf("%w: %s at x = %g m is %g Pa by its derivation and %g Pa by the engine: please report", ErrStage, demand.Symbol, d.at.x, demand.Value, engine)
	}
}

// x is the place as an operand.
func (d *derivation) x() formula.Quantity {
	return formula.Q("x", d.at.x, formula.Metre, "distance from the left end")
}

// sum joins terms of an expression.
type sum struct {
	text     strings.Builder
	operands []formula.Quantity
}

// add appends sign and term with its operands; operands of a symbol that is
// there already are not repeated.
func (s *sum) add(sign, term string, operands ...formula.Quantity) {
	switch {
	case s.text.Len() > 0:
		s.text.WriteString(sign)
	case strings.TrimSpace(sign) == "-":
		s.text.WriteString("-")
	}
	s.text.WriteString(term)
	for _, q := range operands {
		s.operand(q)
	}
}

func (s *sum) operand(q formula.Quantity) {
	for _, known := range s.operands {
		if known.Symbol == q.Symbol {
			return
		}
	}
	s.operands = append(s.operands, q)
}

// expression is the text, "0" when there is no term.
func (s *sum) expression() string {
	if s.text.Len() == 0 {
		return "0"
	}
	return s.text.String()
}

// sectionLines are area, centroid and second moment of a section state at x.
type sectionLines struct {
	suffix               string
	area, level, inertia formula.Quantity
	properties           section.Properties
}

var outline = formula.Source{Document: "section outline", Place: "exact polygon sums"}

// section derives the properties of a section state from the gross ones, the
// ducts and the bonded steel, grouped by level.
func (d *derivation) section(state *sectionState) sectionLines {
	p := d.at.states[state.index]
	gross := d.at.gross
	area := d.given(formula.Q("A_c", gross.Area, formula.SquareMetre, "gross area"), outline)
	level := d.given(formula.Q("z_c", gross.Centroid.Z, formula.Metre, "level of the gross centroid"), outline)
	inertia := d.given(formula.Q("I_c", gross.SecondMomentY, formula.MetreToFourth, "gross second moment about y"), outline)
	groups := d.inclusions(state)
	if len(groups) == 0 {
		return sectionLines{"_c", area, level, inertia, p}
	}
	suffix := "_n"
	if len(state.grouted) > 0 {
		suffix = fmt.Sprintf("_t%d", state.index)
	}
	name := " (" + state.name(len(d.r.element.Tendons)) + ")"
	var a, first, second sum
	a.add("", "A_c", area)
	first.add("", "A_c*z_c", area, level)
	for i, g := range groups {
		n, k := fmt.Sprint(suffix[1:], i+1), fmt.Sprint(i+1)
		operands := []formula.Quantity{
			formula.Q("n_"+n, float64(g.count), formula.One, g.what+" at this level"),
			formula.Q("a_"+n, g.area, formula.SquareMetre, "area of one"),
			formula.Q("η_"+n, g.ratio, formula.One, "modular ratio, 0 for a hole"),
		}
		z := formula.Q("z_"+n, g.level, formula.Metre, "level of group "+k)
		weight := fmt.Sprintf("n_%s*a_%s*(η_%s - 1)", n, n, n)
		a.add(" + ", weight, operands...)
		first.add(" + ", weight+"*z_"+n, append(operands, z)...)
	}
	area = d.line(formula.Q("A"+suffix, 0, formula.SquareMetre, "area"+name), a.expression(), formula.Mechanics, a.operands...)
	level = d.line(formula.Q("z"+suffix, 0, formula.Metre, "level of the centroid"+name), "("+first.expression()+")/A"+suffix, formula.Mechanics, append(first.operands, area)...)
	second.add("", "I_c + A_c*pow(z_c - z"+suffix+", 2)", append([]formula.Quantity{inertia, level}, first.operands...)...)
	for i := range groups {
		n := fmt.Sprint(suffix[1:], i+1)
		second.add(" + ", fmt.Sprintf("n_%s*a_%s*(η_%s - 1)*(pow(z_%s - z%s, 2) + a_%s/(4*pi))", n, n, n, n, suffix, n))
	}
	inertia = d.line(formula.Q("I"+suffix, 0, formula.MetreToFourth, "second moment about y"+name), second.expression(), formula.Mechanics, second.operands...)
	return sectionLines{suffix, area, level, inertia, p}
}

// group is equal inclusions at one level.
type group struct {
	what               string
	count              int
	area, ratio, level float64
}

func (d *derivation) inclusions(state *sectionState) []group {
	var groups []group
	for i, t := range d.at.tendons {
		if !t.here {
			continue
		}
		c := state.inclusion(d.r.element.Tendons[i], t.at)
		what := "ducts"
		if c.ModularRatio > 0 {
			what = "bonded tendons"
		}
		found := false
		for k := range groups {
			g := &groups[k]
			if math.Abs(g.level-c.At.Z) < 1e-12 && g.area == c.Area && g.ratio == c.ModularRatio {
				g.count++
				found = true
			}
		}
		if !found {
			groups = append(groups, group{what, 1, c.Area, c.ModularRatio, c.At.Z})
		}
	}
	return groups
}

// corner is the place of an outline corner in words.
func (d *derivation) corner(p place) string {
	return fmt.Sprintf("corner %d of the outline, %s", p.number+1, pointWords(p.point))
}
