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
// what is not checked. Factors that make no sense are an error.
func (r *run) ask(q limits.Question) ([]limits.Limit, []string, error) {
	answers, err := r.standard.Limits(q)
	if err != nil {
		return nil, nil, err
	}
	for i := range answers {
		if err := answers[i].Factors.Check(); err != nil {
			return nil, nil, err
		}
		answers[i].Kind = q.Kind
	}
	if len(answers) == 0 {
		return nil, []string{fmt.Sprintf("%s: the standard gives no limit", q.Kind)}, nil
	}
	return answers, nil, nil
}

func (r *run) question(s *situation, kind limits.Kind) limits.Question {
	return limits.Question{Kind: kind, Phase: s.Phase, Concrete: s.concrete}
}

// sought is one search for an extreme stress.
type sought struct {
	kind  limits.Kind
	sign  float64
	bars  bool // bonded bars run there
	count func(*piece, section.Point) bool
}

// stressChecks are compression and tension of the concrete, and the bars that
// the tension needs.
func (r *run) stressChecks(s *situation) (checks []Check, notChecked []string, err error) {
	everywhere := func(*piece, section.Point) bool { return true }
	searches := []sought{{limits.Compression, -1, false, everywhere}, {limits.Tension, 1, false, everywhere}}
	if len(r.element.Bars) > 0 {
		searches[1].count = func(p *piece, at section.Point) bool { return !r.barsNear(p, at) }
		searches = append(searches, sought{limits.Tension, 1, true, func(p *piece, at section.Point) bool { return r.barsNear(p, at) }})
	}
	found := map[limits.Kind]bool{}
	for _, search := range searches {
		q := r.question(s, search.kind)
		q.Place.Bars = search.bars
		answers, not, err := r.ask(q)
		if err != nil {
			return nil, nil, err
		}
		notChecked = append(notChecked, not...)
		found[search.kind] = found[search.kind] || len(answers) == 0
		for _, limit := range answers {
			worst := r.extreme(s, search.sign, r.rangesOf(s, limit.Factors), search.count)
			if !worst.found {
				continue
			}
			found[search.kind] = true
			check, err := r.stressCheck(s, q, limit, worst, search.sign)
			if err != nil {
				return nil, nil, err
			}
			checks = append(checks, check)
		}
	}
	for _, kind := range []limits.Kind{limits.Compression, limits.Tension} {
		if !found[kind] {
			checks = append(checks, unevaluated(kind, r.element.Length/2, "the whole element lies within the dispersion lengths of its anchors"))
		}
	}
	steel, not, err := r.tensionSteel(s)
	return append(checks, steel...), append(notChecked, not...), err
}

// barsNear is true where bonded bars run through the whole piece in the same half
// of the depth as the point. Whether they are enough is a check of its own.
func (r *run) barsNear(p *piece, at section.Point) bool {
	middle := p.at[nodes/2].gross.Centroid.Z
	for _, b := range r.element.Bars {
		if b.From <= p.from && p.to <= b.To && (b.At.Z > middle) == (at.Z > middle) {
			return true
		}
	}
	return false
}

// stressCheck is the check of one stress limit at its worst place.
func (r *run) stressCheck(s *situation, q limits.Question, limit limits.Limit, worst place, sign float64) (Check, error) {
	d := r.newDerivation(s, worst.x)
	stress := d.stress(worst.point, worst.corner)
	name, symbol := "compressive stress", "σ_comp"
	expression := "-σ_c"
	if sign > 0 {
		name, symbol, expression = "tensile stress", "σ_tens", "σ_c"
	}
	demand := d.line(formula.Q(symbol, 0, formula.Pascal, name), expression, formula.Mechanics, stress)
	d.agrees(demand, sign*worst.value)
	if d.err != nil {
		return Check{}, d.err
	}
	check := r.finish(s, q, limit, demand, d.lines)
	check.X, check.Place, check.Corner = worst.x, d.corner(worst), worst.corner.words()
	return check, nil
}

// finish makes the check of a demand, with the limit's line behind its own, and
// makes it conditional where it leans on a strength that no test has shown.
func (r *run) finish(s *situation, q limits.Question, limit limits.Limit, demand formula.Quantity, lines []formula.Line) Check {
	check := NewCheck(limit, demand)
	if check.State == NotEvaluated {
		return check
	}
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
	for _, c := range checks {
		if invalid := c.valid(); err == nil && invalid != nil {
			err = invalid
		}
	}
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
