package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/ledger"
	"github.com/tempstage/tempstage/stages/limits"
)

// uplift is the check of the support with the least reaction with factored actions, against
// zero.
func (r *run) uplift(s *situation, b int, q limits.Question, limit limits.Limit) (checked, error) {
	f := limit.Factors.Filled()
	a := s.acts[b]
	var worst *checked
	for _, v := range s.cases {
		w := v.ways[a]
		for _, i := range w.set {
			if a.supports[i].Role == Tie || a.supports[i].Held || a.supports[i].MayLift || a.supports[i].sense() == 0 {
				continue
			}
			if a.cast != nil && a.supports[i].Role == Falsework { // may be without force: the others carry, by contact
				continue
			}
			d, err := r.upliftOf(v, a, i, f)
			if err != nil {
				return checked{}, err
			}
			scaled := limit
			scaled.Scale = formula.Q("R_fav", math.Max(d.favourable, 1), formula.Newton, "reaction from the weight that presses the support")
			check := r.finish(s, q, a.body.pieces[0], scaled, d.demand)
			p := a.supports[i]
			check.X, check.Place = p.X, fmt.Sprintf("%s %d, x = %.3f m, y = %.3f m", p.word(), i+1, p.X, p.Y-r.girder.offset(p.X))
			check.proof = &lineProof{lines: append(d.lines, scaled.Line)}
			if worst == nil || check.Demand.Value < worst.Demand.Value {
				worst = &check
			}
		}
	}
	if worst == nil {
		return unevaluated(limits.Uplift, a.supports[0].X, "no support that could lift off"), nil
	}
	return *worst, nil
}

// lifted is the least reaction of a support with factored actions.
type lifted struct {
	demand     formula.Quantity
	favourable float64
	lines      []formula.Line
}

func (r *run) upliftOf(v *variant, a *arrangement, i int, f limits.Factors) (lifted, error) {
	var d lifted
	if a.cast != nil || slices.ContainsFunc(a.supports, func(p Support) bool { return p.MayLift }) || slices.ContainsFunc(v.current, func(e entry) bool { return e.of != a && e.at(a.supports[i]) >= 0 }) {
		return r.accumulated(v, a, i, f)
	}
	var least, most [2]float64
	w := v.ways[a]
	for _, load := range r.weightLoads(a.body) {
		favourable, unfavourable, err := r.pulls(a, w, i, load.parts)
		if err != nil {
			return d, err
		}
		low, high := r.tolerance(load.group)
		low, high = low*v.dynamic[0], high*v.dynamic[1]
		d.favourable += favourable
		balance, factor := f.WeightLeast*favourable-f.WeightMost*unfavourable, low
		if balance < 0 {
			factor = high
		}
		least[0], most[0] = least[0]+factor*favourable, most[0]+factor*unfavourable
	}
	other, err := r.otherThanWeight(v, a, i, f)
	if err != nil {
		return d, err
	}
	line, err := formula.Derive(formula.Q("R_EQU", 0, formula.Newton, "minimum reaction with factored actions"),
		"γ_inf*R_fav - γ_sup*R_unf - R_other", formula.Mechanics,
		formula.Q("γ_inf", f.WeightLeast, formula.One, "on the favourable part of the weight"), formula.Q("R_fav", least[0], formula.Newton, "favourable part of the reaction, with tolerance and dynamic factor"),
		formula.Q("γ_sup", f.WeightMost, formula.One, "on the unfavourable part of the weight"), formula.Q("R_unf", most[0], formula.Newton, "unfavourable part of the reaction, with tolerance and dynamic factor"),
		formula.Q("R_other", other, formula.Newton, "uplift from other actions, levels and restraint, factored"))
	if err != nil {
		return d, err
	}
	d.demand, d.lines = line.Result, []formula.Line{line}
	return d, nil
}

// accumulated is the least reaction of a support that has kept its force from earlier
// situations, or beside which others may lift: each cause at its worse end, not split within
// the weight.
func (r *run) accumulated(v *variant, a *arrangement, i int, f limits.Factors) (lifted, error) {
	var d lifted
	m, err := r.supportSums(v, a, i)
	if err != nil {
		return d, err
	}
	least, err := r.leastHeld(v, a, i, &m, r.ranges(v.situation, f))
	if err != nil {
		return d, err
	}
	nominal, err := r.leastHeld(v, a, i, &m, r.exactly(v.situation, r.nominal(v.situation)))
	if err != nil {
		return d, err
	}
	d.favourable = nominal
	d.demand = formula.Q("R_EQU", least, formula.Newton, "minimum reaction with factored actions, accumulated over the situations in which it has acted")
	d.lines = []formula.Line{formula.Given(d.demand, formula.Mechanics)}
	return d, nil
}

// leastHeld is the least force of a support under the causes (N), with contact where it changes:
// where the support itself lifts off, the tension that would hold it while the others act by
// contact.
func (r *run) leastHeld(v *variant, a *arrangement, i int, m *supportSums, causes []ledger.Cause) (float64, error) {
	corners, err := r.contacts(v, causes)
	if err != nil {
		return 0, err
	}
	of := Range{Least: math.Inf(1), Most: math.Inf(-1)}
	if corners = ofBody(corners, a); len(corners) == 0 {
		err := m.widen(&of, causes)
		return of.Least, err
	}
	for _, c := range corners {
		force := c.vertical[a][i]
		if force == 0 {
			t, err := r.touchHolding(a, v.ways[a], v, c.factors, i)
			if err != nil {
				return 0, err
			}
			force = t.vertical[i]
		}
		of.Least = math.Min(of.Least, force)
	}
	return of.Least, nil
}

// otherThanWeight is the uplift of a support (N) from actions, levels, preloads
// and the restraint of prestress, at their worst.
func (r *run) otherThanWeight(v *variant, a *arrangement, i int, f limits.Factors) (float64, error) {
	sum := 0.0
	for k := range v.current {
		e := &v.current[k]
		if e.of != a && e.at(a.supports[i]) < 0 || e.inner >= 0 && r.causes[e.inner].kind == causeWeight {
			continue
		}
		reaction, err := r.reactionOf(v, e, a.supports[i])
		if err != nil {
			return 0, err
		}
		least, most := 1.0, 1.0
		for _, i := range append([]int{e.inner}, e.outer...) {
			if i >= 0 {
				c := r.ranged(v.situation, i, f)
				least, most = min(least*c.Least, least*c.Most, most*c.Least, most*c.Most), max(least*c.Least, least*c.Most, most*c.Least, most*c.Most)
			}
		}
		sum -= math.Min(least*reaction, most*reaction)
	}
	return sum, nil
}

// reactionOf is what an entry gives to a support (N, upwards).
func (r *run) reactionOf(v *variant, e *entry, p Support) (float64, error) {
	i := e.at(p)
	if i < 0 {
		return 0, nil
	}
	answer, err := r.answer(e.of, v.ways[e.of], e.load, e.state)
	if err != nil {
		return 0, err
	}
	return e.coefficient * answer.vertical[i], nil
}
