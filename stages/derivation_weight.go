package stages

import (
	"fmt"
	"math"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
)

// weightMoment derives the moment of the weight at x on a system: reactions of
// the two lines by moments about each other, then the sum to the left of x.
func (d *derivation) weightMoment(sys *system, suffix string) formula.Quantity {
	moment := formula.Q("M"+suffix, sys.forces(d.at.x).My, formula.NewtonMetre, "moment of the weight at x on "+sys.words())
	if q, ok := d.known[moment.Symbol]; ok {
		return q
	}
	return d.left(sys, suffix, moment, true)
}

// weightShear derives the shear of the weight at x.
func (d *derivation) weightShear(sys *system, suffix string) formula.Quantity {
	shear := formula.Q("V"+suffix, sys.forces(d.at.x).Vz, formula.Newton, "shear of the weight at x on "+sys.words())
	return d.left(sys, suffix, shear, false)
}

// left is the moment or the shear of all that lies to the left of x; where it
// has no short form the value of package beam is given.
func (d *derivation) left(sys *system, suffix string, result formula.Quantity, moment bool) formula.Quantity {
	var e sum
	if d.leftSum(sys, suffix, &e, moment) {
		line, err := formula.Derive(result, e.expression(), formula.Mechanics, e.operands...)
		scale := d.r.parts[0].force * math.Min(1, d.r.element.Length)
		if err == nil && math.Abs(line.Result.Value-result.Value) < 1e-6*scale {
			return d.keep(line)
		}
		if d.err == nil && !sys.unevenGroups() {
			d.err = fmt.Errorf("%w: %s by its expression is %g, by package beam %g: please report", ErrStage, result.Symbol, line.Result.Value, result.Value)
		}
	}
	return d.given(result, formula.Source{Document: "statics", Place: "piecewise exact solution of package beam"})
}

// unevenGroups is true where a line of supports is two groups along x, which a
// torque may load differently: their shares have no short form.
func (s *system) unevenGroups() bool {
	for _, l := range s.lines {
		if l.holdsTwist() && len(l.resultants[0].members)+len(l.resultants[1].members) > 2 {
			return true
		}
	}
	return false
}

// leftSum writes the moment or the shear of all that lies to the left of x;
// false where it has no short form: a clamped support, or a part of varying
// weight that x divides.
func (d *derivation) leftSum(sys *system, suffix string, e *sum, moment bool) bool {
	if sys.clamped() {
		return false
	}
	for _, p := range d.r.parts {
		if p.from < d.at.x && d.at.x < p.to && !p.uniform {
			return false
		}
	}
	x := d.x()
	for i, l := range sys.lines {
		r := d.reaction(sys, i, suffix)
		members := 0
		for _, res := range l.resultants {
			members += len(res.members)
		}
		d.supportTerms(sys, l, r, members, suffix, e, moment)
	}
	for k, p := range d.r.parts {
		d.partTerm(k, p, x, e, moment)
	}
	return true
}

// supportTerms adds the supports of a line that stand to the left of x.
func (d *derivation) supportTerms(sys *system, l lineOfSupports, r formula.Quantity, members int, suffix string, e *sum, moment bool) {
	places := map[float64]int{}
	var order []float64
	for _, res := range l.resultants {
		for _, m := range res.members {
			if x := sys.supports[m].X; x < d.at.x {
				if places[x] == 0 {
					order = append(order, x)
				}
				places[x]++
			}
		}
	}
	for _, at := range order {
		term, operands := r.Symbol, []formula.Quantity{r}
		if len(order) > 1 || places[at] < members {
			share := formula.Q(fmt.Sprintf("p%s_%d", r.Symbol[1:], len(e.operands)), float64(places[at])/float64(members), formula.One, fmt.Sprintf("share of the supports at x = %.3f m", at))
			term, operands = term+"*"+share.Symbol, append(operands, share)
		}
		if moment {
			place := formula.Q(fmt.Sprintf("x%s_%d", r.Symbol[1:], len(e.operands)), at, formula.Metre, "place of the support")
			term, operands = fmt.Sprintf("%s*(x - %s)", term, place.Symbol), append(operands, place, d.x())
		}
		e.add(" + ", term, operands...)
	}
}

// partTerm subtracts what a part of the weight gives to the left of x.
func (d *derivation) partTerm(k int, p part, x formula.Quantity, e *sum, moment bool) {
	n := fmt.Sprint("_", k+1)
	switch {
	case p.from >= d.at.x:
	case p.to <= d.at.x:
		force := formula.Q("G"+n, p.force, formula.Newton, p.mark)
		if !moment {
			e.add(" - ", force.Symbol, force)
			return
		}
		place := formula.Q("x_G"+n, p.x, formula.Metre, "place of the resultant of "+p.mark)
		e.add(" - ", fmt.Sprintf("%s*(x - %s)", force.Symbol, place.Symbol), force, x, place)
	default:
		load := formula.Q("g"+n, p.line.Intensity[0], formula.NewtonPerMetre, "weight per metre, "+p.mark)
		from := formula.Q("a"+n, p.from, formula.Metre, "where it begins")
		if !moment {
			e.add(" - ", fmt.Sprintf("%s*(x - %s)", load.Symbol, from.Symbol), load, x, from)
			return
		}
		e.add(" - ", fmt.Sprintf("%s*pow(x - %s, 2)/2", load.Symbol, from.Symbol), load, x, from)
	}
}

// reaction derives the force of a line of supports by moments about the other.
func (d *derivation) reaction(sys *system, i int, suffix string) formula.Quantity {
	symbol := fmt.Sprintf("R%s_%d", suffix, i+1)
	here, other := sys.lines[i].x, sys.lines[1-i].x
	xi := formula.Q(fmt.Sprintf("x%s_%d", suffix, i+1), here, formula.Metre, "this line of supports")
	xo := formula.Q(fmt.Sprintf("x%s_%d", suffix, 2-i), other, formula.Metre, "the other line of supports")
	var e sum
	for k, p := range d.r.parts {
		n := fmt.Sprint("_", k+1)
		e.add(" + ", fmt.Sprintf("G%s*(x_G%s - %s)", n, n, xo.Symbol), formula.Q("G"+n, p.force, formula.Newton, p.mark),
			formula.Q("x_G"+n, p.x, formula.Metre, "place of the resultant of "+p.mark), xo)
	}
	e.operand(xi)
	return d.line(formula.Q(symbol, 0, formula.Newton, fmt.Sprintf("reaction of the supports at x = %.3f m", here)),
		fmt.Sprintf("(%s)/(%s - %s)", e.expression(), xi.Symbol, xo.Symbol), formula.Mechanics, e.operands...)
}

// words are the supports of a system.
func (s *system) words() string {
	if s.clamped() {
		return fmt.Sprintf("a clamped support at x = %.3f m", s.supports[0].X)
	}
	texts := make([]string, 0, len(s.supports))
	seen := map[string]bool{}
	for _, p := range s.supports {
		text := fmt.Sprintf("x = %.3f m", p.X)
		if p.Y != 0 {
			text += fmt.Sprintf(", y = ±%.3f m", math.Abs(p.Y))
		}
		if p.Group != "" {
			text += " (equalised, " + p.Group + ")"
		}
		if !seen[text] {
			seen[text] = true
			texts = append(texts, text)
		}
	}
	return "supports at " + strings.Join(texts, "; ")
}
