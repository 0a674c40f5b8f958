package segmental

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// bars are the forces of the left and of the right bar of a pair for a force of the pair (N):
// its share by the distance of the centre of gravity from the middle.
func (h Hangers) bars(g stages.Girder, i int, force float64) (left, right float64) {
	e := h.beside(g, segmentOf(g, h.List[i].X)) / h.Spread
	return force * (0.5 + e), force * (0.5 - e)
}

// hung are the places of the pairs of hangers among the reactions of a situation, −1 for one
// that is no more.
func (h Hangers) hung(e stages.Effects) []int {
	at := make([]int, len(h.List))
	for i, one := range h.List {
		at[i] = -1
		for k, r := range e.Reactions {
			if r.Role == stages.LiftPoint && r.X == one.X {
				at[i] = k
			}
		}
	}
	return at
}

// worst is the check of the bar with the largest force against its working load limit: at
// rest and with all actions.
func (h Hangers) worst(g stages.Girder, e stages.Effects) ([]stages.OwnCheck, error) {
	most, at, force := 0.0, -1, 0.0
	for i, k := range h.hung(e) {
		if k < 0 {
			continue
		}
		pair := e.Reactions[k].Characteristic.Most
		left, right := h.bars(g, i, pair)
		if f := max(left, right); at < 0 || f > most {
			most, at, force = f, i, pair
		}
	}
	if at < 0 {
		return nil, nil
	}
	c := &formula.Chain{}
	demand := h.barForce(c, g, at, force)
	source := formula.Source{Document: named(h.Document, "certificate of the hanger bars")}
	limit := c.Given(formula.Q("F_WLL", h.Limit, formula.Newton, "working load limit of a bar"), source, "")
	lines, err := c.Lines()
	if err != nil {
		return nil, fmt.Errorf("%w: hanger %s: %w", ErrSegmental, h.List[at].Mark, err)
	}
	check := stages.NewCheck(limits.Limit{Name: "working load limit of a hanger bar", LimitState: limits.WorkingLoad, Sense: limits.AtMost, Source: source, Line: formula.Given(limit, source)}, demand)
	check.X, check.Place = h.List[at].X, "hanger "+h.List[at].Mark+", segment "+g.Pieces[segmentOf(g, h.List[at].X)].Element.Mark
	return []stages.OwnCheck{check.Derived(lines...)}, nil
}

// bothPull are the checks of the bars of segments that hang by themselves: the one with the
// most, and the one with the least, which must pull.
func (h Hangers) bothPull(g stages.Girder, e stages.Effects) ([]stages.OwnCheck, error) {
	list, err := h.worst(g, e)
	if err != nil {
		return nil, err
	}
	at, least := -1, 0.0
	for i, k := range h.hung(e) {
		if k < 0 {
			continue
		}
		left, right := h.bars(g, i, e.Reactions[k].Characteristic.Least)
		if f := min(left, right); at < 0 || f < least {
			at, least = i, f
		}
	}
	if at < 0 {
		return list, nil
	}
	pair := e.Reactions[h.hung(e)[at]].Characteristic.Least
	slack, err := comparedHanger("pull of the bar with less", limits.AtLeast, formula.Mechanics, h.List[at], func(c *formula.Chain) (formula.Quantity, formula.Quantity) {
		beside := h.besideLine(c, g, at)
		return c.Derive(formula.Q("F_bar_min", 0, formula.Newton, "force of the bar with less"), "R_pair*(1/2 - abs(e_G)/s_H)", formula.Mechanics,
				formula.Q("R_pair", pair, formula.Newton, "force of the pair, minimum"), beside, formula.Q("s_H", h.Spread, formula.Metre, "between the left and the right bar")),
			c.Given(formula.Q("F_0", 0, formula.Newton, "below it the segment turns"), formula.Mechanics, "")
	})
	return append(list, slack), err
}

// besideLine derives how far the centre of gravity of the segment of a pair is beside it.
func (h Hangers) besideLine(c *formula.Chain, g stages.Girder, i int) formula.Quantity {
	k := segmentOf(g, h.List[i].X)
	mass, _ := g.Pieces[k].Element.CentreOfGravity() // checked by holds
	return c.Derive(formula.Q("e_G", 0, formula.Metre, "centre of gravity beside the middle of the hangers, + left"), "y_G - y_H + (z_H - z_G)*sin(α_y)", formula.Mechanics,
		formula.Q("y_G", chordwise(g, k), formula.Metre, "of the centre of gravity of the segment beside the chord of the span: radius in plan and section"), formula.Q("y_H", h.Line, formula.Metre, "of the line of the hangers beside the chord"),
		formula.Q("z_H", h.Level, formula.Metre, "level at which the segment is held"), formula.Q("z_G", mass.Z, formula.Metre, "level of its centre of gravity"), formula.Q("α_y", h.CrossFall, formula.Radian, "cross-fall, left edge higher"))
}

// barForce derives the larger force of the two bars of a pair.
func (h Hangers) barForce(c *formula.Chain, g stages.Girder, i int, force float64) formula.Quantity {
	beside := h.besideLine(c, g, i)
	return c.Derive(formula.Q("F_bar", 0, formula.Newton, "force of the bar with more"), "R_pair*(1/2 + abs(e_G)/s_H)", formula.Mechanics,
		formula.Q("R_pair", force, formula.Newton, "force of the pair, maximum, with weight tolerance and actions"), beside, formula.Q("s_H", h.Spread, formula.Metre, "between the left and the right bar"))
}
