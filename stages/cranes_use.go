package stages

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads/rigging"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// hookLoad is what hangs on the hook at rest (N): the sum of what its lift points get,
// and what the centre of gravity off its place adds.
func (c MobileCrane) hookLoad(e Effects) (rigging.Range, []formula.Line, error) {
	hook, err := e.Together(c.Supports)
	if err != nil {
		return rigging.Range{}, nil, err
	}
	at, others := 0.0, math.Inf(1)
	for _, n := range c.Supports {
		at += e.Reactions[n-1].X / float64(len(c.Supports))
	}
	for i, r := range e.Reactions {
		if !slices.Contains(c.Supports, i+1) {
			others = math.Min(others, math.Abs(r.X-at))
		}
	}
	all, err := e.Together(numbersTo(len(e.Reactions)))
	if err != nil {
		return rigging.Range{}, nil, err
	}
	total := all.Present.Most
	static := formula.Q("R_hook", hook.Present.Most, formula.Newton, "of its lift points together at rest, maximum, with tolerance, ends out of level and every action that may be present")
	if c.CoG == 0 || math.IsInf(others, 1) || others == 0 {
		line, err := formula.Derive(formula.Q("G_hook", 0, formula.Newton, "load below the hook at rest, maximum"), "R_hook", formula.Mechanics, static)
		return rigging.Range{Least: hook.Present.Least, Most: hook.Present.Most}, []formula.Line{line}, err
	}
	line, err := formula.Derive(formula.Q("G_hook", 0, formula.Newton, "load below the hook at rest, maximum"), "R_hook + G*e_G/a_hook", formula.Mechanics, static,
		formula.Q("G", total, formula.Newton, "weight, maximum"), formula.Q("e_G", c.CoG, formula.Metre, "of the centre of gravity off its place"),
		formula.Q("a_hook", others, formula.Metre, "distance of the next supports"))
	return rigging.Range{Least: math.Max(0, hook.Present.Least-total*c.CoG/others), Most: line.Result.Value}, []formula.Line{line}, err
}

// pick is the crane as package rigging takes it, under the load of a lift.
func (c MobileCrane) pick(load rigging.Range, dynamic, part float64) rigging.Pick {
	return rigging.Pick{
		Chart: c.Chart, Radius: c.radius(), Load: load, Dynamic: math.Max(1, dynamic), Rigging: c.Rigging, HookBlock: c.HookBlock, Part: part,
	}
}

// craneUse is the use of a chart under one limit.
type craneUse struct {
	rigging.Use
	pick  rigging.Pick
	limit limits.Limit   // share of the chart
	load  []formula.Line // of what is below the hook
}

// uses are the uses of the chart of a crane, one for each limit that a standard gives.
func (c MobileCrane) uses(e Effects, standard limits.Standard, cranes int) (list []craneUse, err error) {
	load, lines, err := c.hookLoad(e)
	if err != nil {
		return nil, err
	}
	_, dynamic, err := e.Situation.Dynamic.Range()
	if err != nil {
		return nil, err
	}
	answers, err := standard.Limits(limits.Question{Kind: limits.CraneUse, Phase: e.Situation.Phase, Cranes: cranes})
	if err != nil {
		return nil, err
	}
	for _, limit := range answers {
		of := craneUse{pick: c.pick(load, dynamic, limit.Line.Result.Value), limit: limit, load: lines}
		if of.Use, err = of.pick.Solve(); err != nil {
			return nil, err
		}
		list = append(list, of)
	}
	return list, nil
}

// worst is the use with the largest share of what is permissible; nil for none.
func worstUse(uses []craneUse) *craneUse {
	var worst *craneUse
	for i := range uses {
		if worst == nil || uses[i].Utilisation > worst.Utilisation {
			worst = &uses[i]
		}
	}
	return worst
}

// checks are the use of the chart, and the ground.
func (c MobileCrane) checks(e Effects, standard limits.Standard, cranes int) ([]OwnCheck, error) {
	uses, err := c.uses(e, standard, cranes)
	if err != nil {
		return nil, err
	}
	x := e.Reactions[c.Supports[0]-1].X
	if len(uses) == 0 {
		return []OwnCheck{{Check: Check{
			Kind: limits.CraneUse, Name: string(limits.CraneUse), State: NotEvaluated, Sense: limits.AtMost, X: x, Place: c.Mark,
			Note: "the standard gives no share of the chart: put limits.Handling beside it",
		}}}, nil
	}
	var list []OwnCheck
	for _, use := range uses {
		lines, err := use.pick.Lines()
		if err != nil {
			return nil, err
		}
		permissible, until := upTo(lines, "C_p")
		gross, _ := upTo(lines, "F_g")
		share := use.limit.Line
		use.limit.Line = permissible
		shown := append(append(slices.Clone(use.load), share), until...)
		check := NewCheck(use.limit, gross.Result).Derived(append(shown, lines[len(until):len(lines)-1]...)...)
		check.X, check.Place = x, c.Mark
		list = append(list, check)
	}
	if c.Stand == nil {
		return list, nil
	}
	ground, err := c.ground(worstUse(uses).Gross, x)
	return append(list, ground...), err
}
