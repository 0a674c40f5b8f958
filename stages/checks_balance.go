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

// balanceChecks are uplift of each support and overturning about the outer
// support lines, with factored actions: what helps × least, what harms × most, all of
// the weight at the worse end of its tolerance and dynamic range.
func (r *run) balanceChecks(s *situation) (checks []Check, notChecked []string, err error) {
	if s.system.clamped() {
		return nil, []string{"equilibrium: one clamped support holds the element; its anchorage must be designed for its moment"}, nil
	}
	for _, kind := range []limits.Kind{limits.Uplift, limits.Overturning} {
		q := r.question(s, kind)
		answers, not, err := r.ask(q)
		if err != nil {
			return nil, nil, err
		}
		notChecked = append(notChecked, not...)
		for _, limit := range answers {
			if kind == limits.Uplift {
				checks = append(checks, r.uplift(s, q, limit))
			} else {
				checks = append(checks, r.overturning(s, q, limit))
			}
		}
	}
	return checks, notChecked, nil
}

// wholeWeight is the factor on all of the weight that makes its balance (what
// helps less what harms, factored) worse.
func (r *run) wholeWeight(s *situation, balance float64) formula.Quantity {
	least, most, _ := r.element.WeightTolerance.Range() // checked with the element
	factor := least * s.dynamic[0]
	if balance < 0 {
		factor = most * s.dynamic[1]
	}
	return formula.Q("γ_w", factor, formula.One, "on all of the weight: tolerance and dynamic factor")
}

// uplift is the check of the support with the least reserve: its reaction with
// factored actions against zero.
func (r *run) uplift(s *situation, q limits.Question, limit limits.Limit) Check {
	f := limit.Factors.Filled()
	var worst *Check
	for i, support := range s.Supports {
		helps, harms := s.system.helpsAndHarms(i)
		variable := 0.0
		if s.otherR != nil {
			variable = math.Max(0, -s.otherR[i])
		}
		weight := r.wholeWeight(s, f.WeightLeast*helps-f.WeightMost*harms)
		d := &derivation{}
		demand := d.line(formula.Q("R_EQU", 0, formula.Newton, "least reaction with factored actions"),
			"γ_w*(γ_inf*R_help - γ_sup*R_harm) - γ_Q*R_var", limit.Source, weight,
			formula.Q("γ_inf", f.WeightLeast, formula.One, "on weight that holds down"), formula.Q("R_help", helps, formula.Newton, "reaction from weight that holds down"),
			formula.Q("γ_sup", f.WeightMost, formula.One, "on weight that lifts"), formula.Q("R_harm", harms, formula.Newton, "uplift from weight that lifts, as beyond the other supports"),
			formula.Q("γ_Q", f.VariableMost, formula.One, "on other loads"), formula.Q("R_var", variable, formula.Newton, "uplift from other loads"))
		scaled := limit
		scaled.Scale = formula.Q("R_help", math.Max(helps, 1), formula.Newton, "reaction from weight that holds down")
		check := r.finish(s, q, scaled, demand, d.lines)
		check.X, check.Place = support.X, fmt.Sprintf("support %d, x = %.3f m, y = %.3f m", i+1, support.X, support.Y)
		if worst == nil || check.worse(*worst) {
			worst = &check
		}
	}
	return *worst
}

// helpsAndHarms are what the weight at factor 1 gives to a support: downwards on
// it, and upwards. Each part is split where the support's share changes sign:
// within a part that lies on one side of the lines the share is linear in x.
func (s *system) helpsAndHarms(support int) (helps, harms float64) {
	share := func(p part) float64 { return s.share([]part{p})[support] }
	at := func(x, y float64) float64 { return share(part{from: x, to: x, x: x, y: y, force: 1}) }
	for _, p := range s.parts {
		pieces := []part{p}
		if first, last := at(p.from, p.y), at(p.to, p.y); first*last < 0 {
			pieces = cut(pieces, p.from+(p.to-p.from)*first/(first-last))
		}
		for _, piece := range pieces {
			if force := share(piece); force > 0 {
				helps += force
			} else {
				harms -= force
			}
		}
	}
	return helps, harms
}

// overturning is the check of the worse of the two lines of supports: the overturning
// moment of what lies beyond it against what holds down.
func (r *run) overturning(s *situation, q limits.Question, limit limits.Limit) Check {
	f := limit.Factors.Filled()
	lines := s.system.lines
	var worst *Check
	for _, edge := range []struct{ x, outward float64 }{{lines[0].x, -1}, {lines[len(lines)-1].x, 1}} {
		var over, hold, variable float64
		for _, p := range s.system.parts { // cut at the lines
			if arm := (p.x - edge.x) * edge.outward; arm > 0 {
				over += p.force * arm
			} else {
				hold -= p.force * arm
			}
		}
		for _, p := range partsOf(s.Loads, s.system.axis) {
			variable += (p.force*(p.x-edge.x) - p.couple) * edge.outward
		}
		weight := r.wholeWeight(s, f.WeightLeast*hold-f.WeightMost*over)
		d := &derivation{}
		demand := d.line(formula.Q("M_over", 0, formula.NewtonMetre, "overturning moment with factored actions"),
			"γ_w*γ_sup*M_out + γ_Q*M_var", limit.Source, weight,
			formula.Q("γ_sup", f.WeightMost, formula.One, "on weight beyond the line"), formula.Q("M_out", over, formula.NewtonMetre, "moment of the weight beyond the line"),
			formula.Q("γ_Q", f.VariableMost, formula.One, "on other loads"), formula.Q("M_var", math.Max(0, variable), formula.NewtonMetre, "overturning moment of the other loads"))
		d.line(formula.Q("M_hold", 0, formula.NewtonMetre, "moment of the weight that holds down, factored"), "γ_w*γ_inf*M_in", limit.Source, weight,
			formula.Q("γ_inf", f.WeightLeast, formula.One, "on weight inside"), formula.Q("M_in", hold, formula.NewtonMetre, "moment of the weight inside the line"))
		held := limit
		held.Line = d.lines[len(d.lines)-1]
		check := r.finish(s, q, held, demand, d.lines[:1])
		check.X, check.Place = edge.x, fmt.Sprintf("line of supports at x = %.3f m", edge.x)
		if worst == nil || check.worse(*worst) {
			worst = &check
		}
	}
	return *worst
}
