package stages

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// reactions are the ranges of the support forces.
func (r *run) reactions(s *situation) []Reaction {
	least, most, _ := r.element.WeightTolerance.Range() // checked with the element
	list := make([]Reaction, len(s.Supports))
	for i, force := range s.system.reactions {
		low, high := least*s.dynamic[0], most*s.dynamic[1]
		if force < 0 {
			low, high = high, low
		}
		list[i] = Reaction{X: s.Supports[i].X, Y: s.Supports[i].Y, AtFactorOne: force, Least: low * force, Most: high * force}
		if s.otherR != nil {
			list[i].Least += math.Min(0, s.otherR[i])
			list[i].Most += math.Max(0, s.otherR[i])
		}
	}
	return list
}

// balanceChecks are uplift of each support and tipping over the outer lines of
// supports, with factored actions: what helps × least, what harms × most.
func (r *run) balanceChecks(s *situation) (checks []Check, notChecked []string, err error) {
	if s.system.clamped() {
		return nil, []string{"equilibrium: one clamped support holds the element; its anchorage must be designed for its moment"}, nil
	}
	for _, kind := range []limits.Kind{limits.Uplift, limits.Tipping} {
		q := r.question(s, kind)
		answers, not, err := r.ask(q)
		if err != nil {
			return nil, nil, err
		}
		notChecked = append(notChecked, not...)
		for _, limit := range answers {
			if kind == limits.Uplift {
				checks = append(checks, r.uplift(s, q, limit)...)
			} else {
				checks = append(checks, r.tipping(s, q, limit)...)
			}
		}
	}
	return checks, notChecked, nil
}

// acting are the parts of the weight, and the other loads cut at the lines of
// supports; the latter act only where they harm.
func (s *situation) acting() (weight, other []part) {
	other = partsOf(s.Loads, s.system.axis)
	for _, l := range s.system.lines {
		other = cut(other, l.x)
	}
	return s.system.parts, other
}

// uplift is the check of the support with the least reserve: its
// reaction with factored actions against zero.
func (r *run) uplift(s *situation, q limits.Question, limit limits.Limit) []Check {
	f := limit.Factors.Filled()
	weight, other := s.acting()
	var worst *Check
	for i, support := range s.Supports {
		helps, harms, variable := 0.0, 0.0, 0.0
		for _, p := range weight {
			if share := s.system.share([]part{p})[i]; share > 0 {
				helps += share
			} else {
				harms -= share
			}
		}
		for _, p := range other {
			variable += math.Max(0, -s.system.share([]part{p})[i])
		}
		d := &derivation{}
		demand := d.line(formula.Q("R_EQU", 0, formula.Newton, "least reaction with factored actions"),
			"γ_inf*R_help - γ_sup*R_harm - γ_Q*R_var", limit.Source,
			formula.Q("γ_inf", f.WeightLeast, formula.One, "on weight that holds down"), formula.Q("R_help", helps, formula.Newton, "reaction from weight that holds down"),
			formula.Q("γ_sup", f.WeightMost, formula.One, "on weight that lifts"), formula.Q("R_harm", harms, formula.Newton, "uplift from weight that lifts, as beyond the other supports"),
			formula.Q("γ_Q", f.VariableMost, formula.One, "on other loads"), formula.Q("R_var", variable, formula.Newton, "uplift from other loads"))
		scaled := limit
		scaled.Scale = formula.Q("R_help", helps, formula.Newton, "reaction from weight that holds down")
		check := r.finish(s, q, scaled, demand, d.lines)
		check.X, check.Place = support.X, fmt.Sprintf("support %d, x = %.3f m, y = %.3f m", i+1, support.X, support.Y)
		if worst == nil || check.worse(*worst) {
			worst = &check
		}
	}
	return []Check{*worst}
}

// tipping is the check of the worse of the two outer lines of supports: the
// overturning moment of what lies beyond it against what holds down.
func (r *run) tipping(s *situation, q limits.Question, limit limits.Limit) []Check {
	f := limit.Factors.Filled()
	first, last := s.Supports[0].X, s.Supports[0].X
	for _, support := range s.Supports {
		first, last = math.Min(first, support.X), math.Max(last, support.X)
	}
	var worst *Check
	for _, edge := range []struct{ x, outward float64 }{{first, -1}, {last, 1}} {
		var over, hold, variable float64
		weight := s.system.parts
		for _, p := range cut(weight, edge.x) {
			if arm := (p.x - edge.x) * edge.outward; arm > 0 {
				over += p.force * arm
			} else {
				hold -= p.force * arm
			}
		}
		for _, p := range cut(partsOf(s.Loads, s.system.axis), edge.x) {
			variable += math.Max(0, p.force*(p.x-edge.x)*edge.outward)
		}
		d := &derivation{}
		demand := d.line(formula.Q("M_over", 0, formula.NewtonMetre, "overturning moment with factored actions"),
			"γ_sup*M_out + γ_Q*M_var", limit.Source,
			formula.Q("γ_sup", f.WeightMost, formula.One, "on weight beyond the line"), formula.Q("M_out", over, formula.NewtonMetre, "moment of the weight beyond the line"),
			formula.Q("γ_Q", f.VariableMost, formula.One, "on other loads"), formula.Q("M_var", variable, formula.NewtonMetre, "moment of other loads beyond the line"))
		held := limit
		held.Line = formula.Line{Result: formula.Q("M_hold", f.WeightLeast*hold, formula.NewtonMetre, "moment of the weight that holds down, factored"),
			Expression: "γ_inf*M_in", Source: limit.Source,
			Operands: []formula.Quantity{formula.Q("γ_inf", f.WeightLeast, formula.One, "on weight inside"), formula.Q("M_in", hold, formula.NewtonMetre, "moment of the weight inside the line")}}
		check := r.finish(s, q, held, demand, d.lines)
		check.X, check.Place = edge.x, fmt.Sprintf("line of supports at x = %.3f m", edge.x)
		if worst == nil || check.worse(*worst) {
			worst = &check
		}
	}
	return []Check{*worst}
}
