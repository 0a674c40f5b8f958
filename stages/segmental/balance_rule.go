package segmental

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// Rule is how the difference of the weights of the arms and the combinations are taken: one
// of the two, never both.
type Rule string

// The rules. Values of both are in [limits.ConstructionLoads], unconfirmed.
const (
	AASHTO Rule = "AASHTO LRFD segmental"
	EN     Rule = "EN 1990 with EN 1991-1-6"
)

// combination is one combination of a rule: the sets of factors of which each may occur.
type combination struct {
	name           string // in words
	limitState     string
	source         formula.Source
	sets           []factorSet
	characteristic bool    // for rated capacities and the wanted factor
	equilibrium    bool    // for overturning with its own factors
	ties           float64 // factor on the force of ties that hold
	accident       bool    // a segment is released or put on at once
}

// factorSet is a range of the factor of each part; on self-weight it is the part's own, and the
// factor of its arm is beside it.
type factorSet struct {
	words string
	own   [][2]float64
	inArm []bool        // the factor of the arm counts on the part
	arm   [3][2]float64 // in the order of arms
}

// newSet is every part of a balance with its own range and factor 1 on the arms. A segment that
// is handled may hang on the frame or not: it is lifted after what is on the other arm.
func (b Balance) newSet() factorSet {
	s := factorSet{own: make([][2]float64, len(b.Parts)), inArm: make([]bool, len(b.Parts)), arm: [3][2]float64{{1, 1}, {1, 1}, {1, 1}}}
	for i, p := range b.Parts {
		s.own[i], s.inArm[i] = p.presence(), p.Kind == ""
		if p.Handled {
			s.own[i][0] = 0
		}
	}
	return s
}

// factoredRange is a range with factors on its favourable and unfavourable end, as the engine takes
// them: of what is always there, what helps counts once where its factor would be 0.
func factoredRange(r [2]float64, favourable, unfavourable float64) [2]float64 {
	if r[0] > 0 && favourable == 0 {
		favourable = 1
	}
	a, b, c, d := r[0]*favourable, r[0]*unfavourable, r[1]*favourable, r[1]*unfavourable
	return [2]float64{min(a, b, c, d), max(a, b, c, d)}
}

// combinations are those of a rule for a balance.
func (b Balance) combinations(rule Rule, standard limits.Standard) ([]combination, error) {
	if err := b.check(); err != nil {
		return nil, err
	}
	switch rule {
	case AASHTO:
		return b.aashto()
	case EN:
		return b.en(standard)
	}
	return nil, fmt.Errorf("%w: rule %q: must be %q or %q", ErrSegmental, rule, AASHTO, EN)
}

// recalledLoads are values of construction loads by their case.
func recalledLoads(of ...limits.ConstructionLoad) (values []float64, source formula.Source, err error) {
	for _, c := range of {
		p, err := c.Practice()
		if err != nil {
			return nil, source, err
		}
		values, source = append(values, p.Value), p.Source
	}
	return values, source, nil
}

// aashto are service and strength of AASHTO LRFD. In service a difference of the weight of the
// arms is taken where no segment is on one arm only; wind has its factor beside all others,
// which covers the combinations that take it with part of them.
func (b Balance) aashto() ([]combination, error) {
	values, source, err := recalledLoads(limits.DifferentialWeight, limits.LiftedDynamic, limits.ReleasedDynamic, limits.ServiceWind, limits.StrengthWeight, limits.StrengthEquipment)
	if err != nil {
		return nil, err
	}
	difference, lifted, released, wind, weight, equipment := values[0], values[1], values[2], values[3], values[4], values[5]
	service := b.newSet()
	most, least := b.newSet(), b.newSet()
	for i, p := range b.Parts {
		switch {
		case p.Handled:
			service.inArm[i], service.own[i][1] = false, max(service.own[i][1], 1+lifted)
			most.inArm[i], most.own[i], least.inArm[i], least.own[i] = false, [2]float64{1, 1}, false, [2]float64{1, 1}
		case p.Kind == limits.Wind:
			service.own[i] = factoredRange(service.own[i], wind, wind)
			most.own[i], least.own[i] = [2]float64{}, [2]float64{}
		case p.Kind == limits.Personnel:
			most.own[i], least.own[i] = [2]float64{}, [2]float64{}
		case p.Kind == limits.Equipment:
			most.own[i] = factoredRange(most.own[i], equipment, equipment)
		case p.Kind == limits.Counterweight:
			most.own[i] = factoredRange(most.own[i], 1, weight)
		}
	}
	for a := range most.arm {
		most.arm[a] = [2]float64{weight, weight}
	}
	first := combination{name: "service, U + CLL + IE", limitState: limits.WorkingLoad, source: source, sets: []factorSet{service}, characteristic: true, ties: 1}
	if marks, _ := b.more(); b.Unbalanced == "" || len(marks) == 0 {
		first.name, first.sets = "service, DC + DIFF + CLL + IE", service.differing(difference)
	}
	name, sets := "strength, 1.1(DC + DIFF) + 1.3 CE and DC + CE", append(most.differing(difference), least)
	second := combination{name: name, limitState: limits.Ultimate, source: source, equilibrium: true, ties: 1}
	second.sets = b.accidents(sets, 1, released)
	if len(second.sets) > 0 {
		second.name, second.accident = "strength, 1.1(DC + DIFF) + 1.3 CE + A + AI and DC + CE + A + AI", true
	} else {
		second.sets = sets
	}
	return []combination{first, second}, nil
}

// differing are a set and the same with more weight on one arm, on either.
func (s factorSet) differing(share float64) []factorSet {
	list := []factorSet{s}
	for _, a := range []int{0, 2} {
		more := s
		more.arm[a] = factoredRange(s.arm[a], 1+share, 1+share)
		more.words = fmt.Sprintf("%g %% more weight on the %s", 100*share, arms[a].words())
		list = append(list, more)
	}
	return list
}

// accidents are sets with one segment released or put on at once, each that is handled: of a
// segment that hangs at rest, put on at once it acts 1 + AI times; its release takes it away
// 1 + AI times, so that AI times its weight acts upwards. factor is that on the change.
func (b Balance) accidents(sets []factorSet, factor, dynamic float64) (list []factorSet) {
	for i, p := range b.Parts {
		if !p.Handled {
			continue
		}
		for _, s := range sets {
			at := s
			at.own, at.inArm = append([][2]float64(nil), s.own...), append([]bool(nil), s.inArm...)
			at.own[i], at.inArm[i] = [2]float64{1 - factor*(1+dynamic), 1 + factor*dynamic}, false
			at.words = "segment " + p.Mark + " released or put on at once"
			if s.words != "" {
				at.words += ", " + s.words
			}
			list = append(list, at)
		}
	}
	return list
}

// en are the characteristic combination and those that the standard answers for overturning,
// with the accident where one may occur and the standard has factors for it.
func (b Balance) en(standard limits.Standard) ([]combination, error) {
	if standard == nil {
		return nil, fmt.Errorf("%w: no standard: rule %q must have one that gives factors for equilibrium", ErrSegmental, EN)
	}
	values, _, err := recalledLoads(limits.ReleasedDynamic)
	if err != nil {
		return nil, err
	}
	list := []combination{{
		name: "characteristic", limitState: limits.WorkingLoad, source: formula.Source{Document: "EN 1990:2002", Place: "6.5.3, characteristic combination without ψ", Confirm: true},
		sets: []factorSet{b.newSet()}, characteristic: true, ties: 1,
	}}
	handled := false
	for _, p := range b.Parts {
		handled = handled || p.Handled
	}
	answers, err := standard.Limits(limits.Question{Kind: limits.Overturning, Phase: limits.Seating, Accidental: handled})
	if err != nil {
		return nil, fmt.Errorf("%w: %w", ErrSegmental, err)
	}
	for _, limit := range answers {
		if err := limit.Factors.Check(); err != nil {
			return nil, fmt.Errorf("%w: %w", ErrSegmental, err)
		}
		f := limit.Factors.Filled()
		c := combination{name: "equilibrium, EQU", limitState: limits.Equilibrium, source: limit.Source, equilibrium: true, ties: min(1, f.WeightLeast), sets: []factorSet{b.factored(f)}}
		if _, accidental := f.On(limits.Accidental); handled && accidental > 0 {
			c.name, c.accident, c.sets = "accidental", true, b.accidents(c.sets, accidental, values[0])
		}
		list = append(list, c)
	}
	return list, nil
}

// factored is the set with the partial factors of a limit: the self-weight of each arm has its own
// end of the range, other kinds have theirs.
func (b Balance) factored(f limits.Factors) factorSet {
	s := b.newSet()
	for a := range s.arm {
		s.arm[a] = [2]float64{f.WeightLeast, f.WeightMost}
	}
	for i, p := range b.Parts {
		if p.Kind != "" {
			favourable, unfavourable := f.On(p.Kind)
			s.own[i] = factoredRange(s.own[i], favourable, unfavourable)
		}
	}
	return s
}
