package launching

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// checks are those of the gantry in a position.
func (l Launch) checks(p Position, standard limits.Standard) ([]stages.OwnCheck, error) {
	list, err := l.Gantry.overturning(p, standard, limits.Seating, l.factor())
	if err != nil {
		return nil, err
	}
	under := l.under(p)
	for _, of := range []func(factoredLegs, Position, limits.Standard) ([]stages.OwnCheck, error){l.uplift, l.across, l.sliding} {
		more, err := of(under, p, standard)
		if err != nil {
			return nil, err
		}
		list = append(list, more...)
	}
	for _, of := range []func(Position, limits.Standard) ([]stages.OwnCheck, error){l.rated, l.lost, l.below} {
		more, err := of(p, standard)
		if err != nil {
			return nil, err
		}
		list = append(list, more...)
	}
	return list, nil
}

// uplift are the checks of the least force of a foot of every leg with the factors of a
// standard for equilibrium: without bars it must press, with bars they pull what is missing.
func (l Launch) uplift(under factoredLegs, p Position, standard limits.Standard) ([]stages.OwnCheck, error) {
	return l.stable(under, p, standard, limits.Uplift, "uplift at a foot of the gantry", func(s factoredLeg) (stages.OwnCheck, error) {
		return l.foot(s.stand(), s.received, s.feet, s.limit)
	})
}

// foot is the check of the least force of a foot, which its bars may pull.
func (l Launch) foot(s Stand, r Received, feet Feet, limit limits.Limit) (stages.OwnCheck, error) {
	c := &formula.Chain{}
	least := l.leastForce(c, r, feet, limit.Source)
	if s.Bars == nil {
		lines, err := c.Lines()
		if err != nil {
			return stages.OwnCheck{}, err
		}
		limit.Name = "uplift at a foot of the gantry"
		limit.Line = formula.Given(newtons("R_min", 0, "minimum permissible force of a foot"), limit.Source)
		check := stages.NewCheck(limit, least)
		return check.Derived(append(lines, limit.Line)...), nil
	}
	source := formula.Source{Document: s.Bars.Document}
	bars := formula.Q("n_foot", math.Floor(float64(s.Bars.Number)/2), formula.One, "anchor bars at each foot")
	force := c.Derive(newtons("F_bar", 0, "force in an anchor bar: its preload, or the pull where that is more"), "max(P_bar, -F_foot/n_foot)", formula.Mechanics,
		newtons("P_bar", s.Bars.Preload, "preload of each bar"), least, bars)
	capacity := newtons("WLL_bar", s.Bars.Capacity, "working load limit of a bar with its anchorage")
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	own := limits.Limit{Name: "force in an anchor bar of the gantry", LimitState: limit.LimitState, Sense: limits.AtMost, Source: source, Line: formula.Given(capacity, source)}
	check := stages.NewCheck(own, force)
	derived := check.Derived(append(lines, own.Line)...)
	number := formula.Q("n_bar", float64(s.Bars.Number), formula.One, "anchor bars of leg "+s.Leg)
	derived.Hold = &stages.Hold{Kind: fmt.Sprintf("anchor bars of leg %s fixed and each stressed to %s", s.Leg, kilonewtons(s.Bars.Preload)), Required: number, Assumed: number}
	return derived, nil
}

// leastForce derives the least force of a foot from that of its leg.
func (l Launch) leastForce(c *formula.Chain, r Received, feet Feet, source formula.Source) formula.Quantity {
	leg := l.legForce(c, "F_leg_min", "minimum force of the leg on its feet, with its own weight", r, r.Force.Least, r.Least, feet.own.Least, source)
	lever, wind := l.tilted(c, feet)
	return c.Derive(newtons("F_foot", 0, "minimum force of a foot"), "min((1/2 - λ_f)*F_leg_min, (1/2 + λ_f)*F_leg_min) - M_w/b_f", formula.Mechanics, lever, leg, wind,
		formula.Q("b_f", feet.Width, formula.Metre, "between the feet"))
}

func (l Launch) tilted(c *formula.Chain, feet Feet) (lever, wind formula.Quantity) {
	return formula.Q("λ_f", feet.Lever, formula.One, "part of the leg's force by which one foot gets more than half: (shift + h_G·tan(cross-fall)) / b_f"),
		newtonMetres("M_w", feet.Moment, "of the wind across, on the gantry and on what hangs on it, about the feet of this leg, factored")
}

// legForce derives the force of a leg: the sum of its causes where they add up.
func (l Launch) legForce(c *formula.Chain, symbol, name string, r Received, force float64, of []Effect, factor float64, source formula.Source) formula.Quantity {
	own, on := newtons("G_leg", l.Gantry.leg(r.Leg).Weight, "weight of the leg itself"), formula.Q("f_G", factor, formula.One, "factor on it")
	if of == nil {
		return c.Derive(newtons(symbol, 0, name), "F_R + f_G*G_leg", formula.Mechanics, newtons("F_R", force, "what it receives from the gantry, by stiffness, on the legs that press"), on, own)
	}
	expression := "f_G*G_leg"
	operands := []formula.Quantity{on, own}
	for i, e := range of {
		f, q := fmt.Sprintf("f_%d", i+1), fmt.Sprintf("R_%d", i+1)
		expression += " + " + f + "*" + q
		operands = append(operands, formula.Q(f, e.Factor, formula.One, "factor on "+e.Cause), newtons(q, e.Force, "of "+e.Cause+", nominal"))
	}
	return c.Derive(newtons(symbol, 0, name), expression, source, operands...)
}

// rated are the checks of the largest force of a foot against its rated force.
func (l Launch) rated(p Position, _ limits.Standard) (list []stages.OwnCheck, err error) {
	legs, err := l.Gantry.Reactions(p)
	if err != nil {
		return nil, err
	}
	source := formula.Source{Document: "maker's manual of gantry " + l.Gantry.Mark}
	for _, r := range legs {
		n := p.stand(r.Leg)
		feet := l.Gantry.feet(p, n, r.Force, limits.Factors{})
		c := &formula.Chain{}
		leg := l.legForce(c, "F_leg_max", "maximum force of the leg on its feet, with its own weight", r, r.Force.Most, r.Most, feet.own.Most, formula.Mechanics)
		lever, wind := l.tilted(c, feet)
		force := c.Derive(newtons("F_foot_max", 0, "maximum force of a foot"), "max((1/2 + λ_f)*F_leg_max, (1/2 - λ_f)*F_leg_max) + M_w/b_f", formula.Mechanics, lever, leg, wind, formula.Q("b_f", feet.Width, formula.Metre, "between the feet"))
		lines, err := c.Lines()
		if err != nil {
			return nil, err
		}
		limit := limits.Limit{Name: "force of a foot of the gantry", LimitState: limits.WorkingLoad, Sense: limits.AtMost, Source: source,
			Line: formula.Given(newtons("F_rated", l.Gantry.leg(r.Leg).Capacity, "rated force of a foot"), source)}
		check := stages.NewCheck(limit, force)
		check.X, check.Place = r.X, fmt.Sprintf("leg %s on %s", r.Leg, r.On)
		list = append(list, check.Derived(append(lines, limit.Line)...))
	}
	return list, nil
}

// below says of each leg that what its feet stand on is not checked here: punching,
// bearing, the bending of a slab across.
func (l Launch) below(p Position, _ limits.Standard) (list []stages.OwnCheck, err error) {
	feet, err := l.Gantry.Across(p)
	for _, f := range feet {
		why := fmt.Sprintf("punching, bearing and slab bending below leg %s on %s; %s as a whole where it is not this element: required for %s on a foot, characteristic", f.Leg, f.On, f.On, kilonewtons(f.Foot.Most))
		list = append(list, local(fmt.Sprintf("below leg %s at x = %.2f m", f.Leg, f.X), f.X, why))
	}
	return list, err
}

// local is the question about what is below a force, which a document may answer.
func local(place string, x float64, why string) stages.OwnCheck {
	c := unanswered(string(limits.LocalForce), x, why)
	c.Kind, c.Place = limits.LocalForce, place
	return c
}

// unanswered is a check that is not evaluated.
func unanswered(name string, x float64, why string) stages.OwnCheck {
	return stages.OwnCheck{Check: stages.Check{Name: name, State: stages.NotEvaluated, Sense: limits.AtMost, X: x, Note: why}}
}

// kilonewtons is a force in words, rounded up.
func kilonewtons(force float64) string { return fmt.Sprintf("%.0f kN", math.Ceil(force/1e3)) }

func newtons(symbol string, value float64, name string) formula.Quantity {
	return formula.Q(symbol, value, formula.Newton, name)
}
