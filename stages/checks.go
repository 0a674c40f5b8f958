package stages

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// checks are all checks of a situation, and what was asked of the standard
// without an answer.
func (r *run) checks(s *situation) (checks []Check, notChecked []string, err error) {
	for _, ask := range []func(*situation) ([]Check, []string, error){
		r.stressChecks, r.webChecks, r.tendonChecks, r.balanceChecks, r.ownChecks,
	} {
		more, not, err := ask(s)
		if err != nil {
			return nil, nil, err
		}
		checks = append(checks, more...)
		notChecked = append(notChecked, not...)
	}
	return checks, notChecked, nil
}

// ask puts a question; without an answer it returns the words for the list of
// what is not checked.
func (r *run) ask(q limits.Question) ([]limits.Limit, []string, error) {
	answers, err := r.standard.Limits(q)
	if err == nil && len(answers) == 0 {
		return nil, []string{fmt.Sprintf("%s: the standard gives no limit", q.Kind)}, nil
	}
	return answers, nil, err
}

func (r *run) question(s *situation, kind limits.Kind) limits.Question {
	return limits.Question{Kind: kind, Phase: s.Phase, Concrete: s.concrete}
}

// stressChecks are compression and tension of the concrete.
func (r *run) stressChecks(s *situation) (checks []Check, notChecked []string, err error) {
	found := map[limits.Kind]bool{}
	for _, sought := range []struct {
		kind  limits.Kind
		sign  float64
		bars  bool
		count func(*piece, section.Point) bool
	}{
		{limits.Compression, -1, false, func(*piece, section.Point) bool { return true }},
		{limits.Tension, 1, false, func(p *piece, at section.Point) bool { return !r.barsNear(p, at) }},
		{limits.Tension, 1, true, func(p *piece, at section.Point) bool { return r.barsNear(p, at) }},
	} {
		if sought.bars && len(r.element.Bars) == 0 {
			continue
		}
		q := r.question(s, sought.kind)
		q.BondedBars = sought.bars
		answers, not, err := r.ask(q)
		if err != nil {
			return nil, nil, err
		}
		notChecked = append(notChecked, not...)
		for _, limit := range answers {
			worst := r.extreme(s, sought.sign, r.rangesOf(s, limit.Factors), sought.count)
			if !worst.found {
				continue
			}
			found[sought.kind] = true
			more, err := r.stressCheck(s, q, limit, worst, sought.sign)
			if err != nil {
				return nil, nil, err
			}
			checks = append(checks, more...)
		}
	}
	for _, kind := range []limits.Kind{limits.Compression, limits.Tension} {
		if !found[kind] && len(notChecked) == 0 {
			notChecked = append(notChecked, fmt.Sprintf("%s: no part of the element lies outside the dispersion lengths of its anchors", kind))
		}
	}
	return checks, notChecked, nil
}

// barsNear is true where bonded bars run through the piece in the same half of
// the depth as the point.
func (r *run) barsNear(p *piece, at section.Point) bool {
	middle := p.at[nodes/2].gross.Centroid.Z
	for _, b := range r.element.Bars {
		if b.From <= p.from && p.to <= b.To && (b.At.Z > middle) == (at.Z > middle) {
			return true
		}
	}
	return false
}

// stressCheck is the check of one stress limit at its worst place and, for
// tension with bonded bars, the steel that the tension zone needs.
func (r *run) stressCheck(s *situation, q limits.Question, limit limits.Limit, worst place, sign float64) ([]Check, error) {
	d := r.newDerivation(s, worst.x)
	stress := d.stress(worst.point, worst.corner)
	name, symbol := "compressive stress", "σ_comp"
	expression := "-σ_c"
	if sign > 0 {
		name, symbol, expression = "tensile stress", "σ_tens", "σ_c"
	}
	demand := d.line(formula.Q(symbol, 0, formula.Pascal, name), expression, formula.Mechanics, stress)
	if d.err != nil {
		return nil, d.err
	}
	check := r.finish(s, q, limit, demand, d.lines)
	check.X, check.Place, check.Corner = worst.x, d.corner(worst), worst.corner.words()
	checks := []Check{check}
	if sign > 0 && q.BondedBars && worst.value > 0 {
		steel, err := r.tensionSteel(s, worst)
		if err != nil {
			return nil, err
		}
		checks = append(checks, steel...)
	}
	return checks, nil
}

// tensionSteel compares the steel that the force in the tension zone needs with
// the bars given there.
func (r *run) tensionSteel(s *situation, worst place) ([]Check, error) {
	at := r.at(worst.x)
	plane := r.basis(s, at).under(worst.corner)
	force, area := at.shape.TensionForce(plane)
	q := r.question(s, limits.TensionSteel)
	q.TensionZone.Force = force
	for _, b := range r.element.Bars {
		if b.From <= worst.x && worst.x <= b.To && plane.At(b.At) > 0 {
			q.TensionZone.Bars += b.Area
		}
	}
	answers, _, err := r.ask(q)
	if err != nil {
		return nil, err
	}
	var checks []Check
	for _, limit := range answers {
		d := r.newDerivation(s, worst.x)
		d.stress(worst.point, worst.corner)
		zone := d.given(formula.Q("F_t", force, formula.Newton, fmt.Sprintf("resultant of the tensile stresses, exact over their zone of %.4g m²", area)), formula.Mechanics)
		demand := d.line(formula.Q("A_s_req", 0, formula.SquareMetre, "bonded steel that the tension zone needs"), "F_t/σ_s", limit.Source, zone, limit.Scale)
		if d.err != nil {
			return nil, d.err
		}
		check := r.finish(s, q, limit, demand, d.lines)
		check.X, check.Place, check.Corner = worst.x, "tension zone", worst.corner.words()
		checks = append(checks, check)
	}
	return checks, nil
}

// finish makes the check of a demand, with the limit's line behind its own, and
// makes it conditional where it leans on a strength that no test has shown.
func (r *run) finish(s *situation, q limits.Question, limit limits.Limit, demand formula.Quantity, lines []formula.Line) Check {
	check := NewCheck(limit, demand)
	check.Derivation = append(lines, limit.Line)
	if limit.LeansOnStrength && s.concrete.NeedsTest && check.State == Pass {
		check.State = Conditional
		check.Condition = fmt.Sprintf("to be shown by test at age %g d first: no standard gives a strength up to 3 d", s.Age)
		if need, ok := r.strengthFor(s, q, demand.Value); ok {
			check.Required = formula.Q("f_ck_t", need, formula.Pascal, "characteristic cylinder strength")
		}
	}
	return check
}

// leastShown is the smallest strength that is asked for (Pa, characteristic,
// cylinder), however small the demand.
const leastShown = 1e6

// strengthFor is the characteristic cylinder strength, shown by test at the age,
// at which the demand just meets the limit.
func (r *run) strengthFor(s *situation, q limits.Question, demand float64) (float64, bool) {
	reserve := func(strength float64) (float64, error) {
		state, err := r.element.Concrete.Shown(s.Age, strength).At(s.Age)
		if err != nil {
			return 0, err
		}
		return r.reserve(q, state, demand)
	}
	if least, err := reserve(leastShown); err == nil && least >= 0 {
		return leastShown, true
	}
	need, err := formula.Root(leastShown, 120e6, reserve)
	return need, err == nil
}

// reserve is the margin of a demand with another concrete.
func (r *run) reserve(q limits.Question, state concrete.State, demand float64) (float64, error) {
	if q.Kind == limits.StressingStrength {
		demand = state.Mean
	}
	q.Concrete = state
	answers, err := r.standard.Limits(q)
	if err != nil {
		return 0, err
	}
	least := math.Inf(1)
	for _, limit := range answers {
		least = math.Min(least, NewCheck(limit, formula.Quantity{Value: demand}).Margin)
	}
	return least, nil
}

// ownChecks are those that only the operation knows.
func (r *run) ownChecks(s *situation) ([]Check, []string, error) {
	if s.Check == nil {
		return nil, nil, nil
	}
	checks, err := s.Check(r.effects(s), r.standard)
	return checks, nil, err
}

// effects is the situation for the functions of a stage's own.
func (r *run) effects(s *situation) Effects {
	plain := corner{weight: 1, dynamic: 1, prestress: 1}
	return Effects{
		Situation: s.Situation,
		Reactions: r.reactions(s),
		Forces: func(x float64) section.Forces {
			_, prestress := r.at(x).prestressIn(s)
			return s.system.forces(x).Plus(prestress)
		},
		Stress: func(x float64) section.Plane { return r.basis(s, r.at(x)).under(plain) },
	}
}

// words are the factors of a corner.
func (c corner) words() string {
	text := fmt.Sprintf("weight × %.4g, dynamic × %.4g, prestress × %.4g", c.weight, c.dynamic, c.prestress)
	if c.other != 0 {
		text += fmt.Sprintf(", other loads × %.4g", c.other)
	}
	return text
}
