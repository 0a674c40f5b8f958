package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/internal/ledger"
	"github.com/tempstage/tempstage/stages/limits"
)

// checks are all checks of a situation, and what was asked of the standard
// without an answer.
func (r *run) checks(s *situation) (checks []checked, notChecked []unanswered, err error) {
	asked := []func(*situation) ([]checked, []unanswered, error){r.stressChecks, r.jointChecks, r.wallChecks, r.tendonChecks, r.balanceChecks, r.ownChecks}
	if s.Elsewhere != "" {
		asked = asked[len(asked)-1:]
		notChecked = append(notChecked, unanswered{limits.Elsewhere, fmt.Sprintf("%s: stresses, joints, walls, tendons and supports are not evaluated here: required %s", limits.Elsewhere, s.Elsewhere)})
	}
	for _, ask := range asked {
		more, not, err := ask(s)
		if err != nil {
			return nil, nil, err
		}
		checks = append(checks, more...)
		notChecked = append(notChecked, not...)
	}
	return checks, r.fixingAnswered(s, checks, notChecked), nil
}

// ask puts a question; without an answer it returns the words for the list of
// what is not checked. Factors that make no sense are an error.
func (r *run) ask(q limits.Question) ([]limits.Limit, []unanswered, error) {
	answers, err := r.standard.Limits(q)
	if err != nil {
		return nil, nil, err
	}
	for i := range answers {
		if err := answers[i].Factors.Check(); err != nil {
			return nil, nil, err
		}
		answers[i].Kind = q.Kind
		r.remember(answers[i])
	}
	if len(answers) == 0 {
		return nil, []unanswered{{q.Kind, fmt.Sprintf("%s: the standard gives no limit", q.Kind)}}, nil
	}
	return answers, nil, nil
}

// question is the question about a piece; the mark is left out where there is one piece
// only.
func (r *run) question(s *situation, kind limits.Kind, piece int) limits.Question {
	q := limits.Question{Kind: kind, Phase: s.Phase, Concrete: s.concrete[piece]}
	if len(r.girder.Pieces) > 1 {
		q.Place.Piece = r.girder.Pieces[piece].Element.Mark
	}
	for _, e := range s.entries {
		if e.inner >= 0 && r.causes[e.inner].kind == causeAction && r.causes[e.inner].action.kind() == limits.Accidental {
			q.Accidental = true
		}
	}
	return q
}

// carried are the pieces carried in a situation.
func (s *situation) carried() []int {
	var list []int
	for _, b := range s.bodies {
		list = append(list, b.pieces...)
	}
	return list
}

// keeper keeps, of checks of one key, the one that governs.
type keeper struct {
	keys   []string
	checks []checked
}

func (k *keeper) keep(key string, c checked) {
	for i := range k.keys {
		if k.keys[i] == key {
			k.checks[i].govern(c)
			return
		}
	}
	k.keys, k.checks = append(k.keys, key), append(k.checks, c)
}

// keepLeast keeps, of checks of one key, the one with the smallest margin: all have one limit.
func (k *keeper) keepLeast(key string, c checked) {
	i := slices.Index(k.keys, key)
	if i < 0 {
		k.keys, k.checks = append(k.keys, key), append(k.checks, c)
		return
	}
	needs := append(k.checks[i].needs, c.needs...)
	if c.Margin < k.checks[i].Margin {
		k.checks[i] = c
	}
	k.checks[i].needs = needs
}

// govern makes the check the worse of two, with what both need.
func (c *checked) govern(other checked) {
	needs := append(c.needs, other.needs...)
	if other.worse(c.Check) {
		*c = other
	}
	c.needs = needs
}

// finish makes the check of a demand, and makes it conditional where it depends on a
// strength that no test has shown.
func (r *run) finish(s *situation, q limits.Question, piece int, limit limits.Limit, demand formula.Quantity) checked {
	check := checked{Check: NewCheck(limit, demand)}
	if check.State == NotEvaluated {
		return check
	}
	if !limit.LeansOnStrength {
		return check
	}
	if strength, ok := r.strengthFor(s, q, piece, demand.Value); ok {
		check.Required = strengthShown(strength)
		if check.State == Pass {
			check.needs = []need{{piece, strength}}
		}
	}
	if s.concrete[piece].NeedsTest && check.State == Pass {
		check.State = Conditional
		check.Condition = fmt.Sprintf("strength to be proved by test at age %g d: no standard gives a strength up to 3 d", s.Age)
	}
	return check
}

// leastShown is the smallest strength that is asked for (Pa, characteristic,
// cylinder), however small the demand.
const leastShown = 1e6

// strengthFor is the characteristic cylinder strength, shown by test at the age,
// at which the demand just meets the limit.
func (r *run) strengthFor(s *situation, q limits.Question, piece int, demand float64) (float64, bool) {
	of := r.girder.Pieces[piece]
	age := s.day - of.Element.Cast
	reserve := func(strength float64) (float64, error) {
		state, err := of.Element.Concrete.Shown(age, strength).At(age)
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

// ownChecks are those of the operation itself.
func (r *run) ownChecks(s *situation) ([]checked, []unanswered, error) {
	if s.Check == nil {
		return nil, nil, nil
	}
	effects, err := r.effects(s)
	if err != nil {
		return nil, nil, err
	}
	own, err := s.Check(effects, r.standard)
	var checks []checked
	for _, c := range own {
		if err == nil {
			err = c.validOwn(r.girder.Length())
		}
		checks = append(checks, c.checked())
	}
	return checks, nil, err
}

// checked is a check of a stage's own with what shows it and what it asks to be shown.
func (c OwnCheck) checked() checked {
	return checked{Check: c.Check, extra: c.Derivation, holds: c.Hold.point()}
}

// point is a hold point of the record; nil for none.
func (h *Hold) point() *derive.HoldPoint {
	if h == nil {
		return nil
	}
	p := &derive.HoldPoint{Kind: h.Kind, Required: h.Required, AtMost: h.AtMost}
	if h.Assumed.Symbol != "" {
		assumed := h.Assumed
		p.Assumed = &assumed
	}
	return p
}

// effects is the situation for the functions of a stage's own: about its first
// variant, all factors 1.
func (r *run) effects(s *situation) (Effects, error) {
	reactions, err := r.reactions(s)
	if err != nil {
		return Effects{}, err
	}
	one := r.nominal(s)
	in, err := r.inContact(s.cases[0])
	if err != nil {
		return Effects{}, err
	}
	return Effects{
		Situation: s.Situation, OutOfLevel: r.outOfLevel(s), Reactions: reactions, Strength: s.concrete[s.carried()[0]].Characteristic,
		Forces:   func(x float64) section.Forces { return r.ledger.Forces(in, r.inside(x), one) },
		Together: func(numbers []int) (Together, error) { return r.sumFor(s, numbers) },
		Stress:   func(x float64) section.Plane { return r.ledger.Plane(in, r.inside(x), one) },
		StressWith: func(x float64, actions ...string) section.Plane {
			return r.ledger.Plane(in, r.inside(x), r.attended(one, actions))
		},
		Moves:  func() ([]*Movement, error) { return r.movements(s) },
		Before: func() ([]*Movement, error) { return r.movementsBefore(s) },
		Ranges: func(x float64, factors limits.Factors, measure func(section.Forces) float64) (left, right Range, err error) {
			return r.forceRanges(s, x, factors, measure)
		},
		Jump: func(x float64, factors limits.Factors, measure func(section.Forces) float64) (Range, error) {
			return r.forceJump(s, x, factors, measure)
		},
	}, nil
}

// nominal is every cause at 1, levels and actions that may be absent at 0.
func (r *run) nominal(s *situation) []float64 {
	factors := make([]float64, len(r.causes))
	for i, c := range r.causes {
		switch c.kind {
		case causeLevel:
		case causeAction:
			if least, _ := c.action.presence(); least > 0 {
				factors[i] = 1
			}
		default:
			factors[i] = 1
		}
	}
	return factors
}

// attended are nominal factors with actions, by their marks, at their largest presence.
func (r *run) attended(nominal []float64, actions []string) []float64 {
	factors := slices.Clone(nominal)
	for i, c := range r.causes {
		if c.kind == causeAction && slices.Contains(actions, c.action.Mark) {
			_, factors[i] = c.action.presence()
		}
	}
	return factors
}

// inside is a place moved a little away from the ends.
func (r *run) inside(x float64) float64 {
	hair := ledger.Inset * r.girder.Length()
	return math.Max(hair, math.Min(r.girder.Length()-hair, x))
}
