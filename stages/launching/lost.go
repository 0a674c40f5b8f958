package launching

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// After is what the other legs receive when one is lost at once (N): in every corner of
// the factors what they had, and the change to what they have at rest without it times
// the factor of a sudden loss, 1 to 3. The error wraps [ErrLaunching]: fewer than two legs
// remain, or the gantry cannot stand on them.
func (g Gantry) After(p Position, lost string, sudden float64) ([]Received, error) {
	if err := g.ready(p); err != nil {
		return nil, err
	}
	if err := within("", bound{"sudden", sudden, "", 1, 3}); err != nil {
		return nil, err
	}
	n := p.stand(lost)
	if n < 0 {
		return nil, fmt.Errorf("%w: leg %q does not stand: must be one that stands", ErrLaunching, lost)
	}
	if len(p.Stands) < 3 {
		return nil, fmt.Errorf("%w: without leg %q the gantry stands on %d leg: must be at least two", ErrLaunching, lost, len(p.Stands)-1)
	}
	causes := g.causes(p)
	var list []Received
	for _, at := range p.ends() {
		for corner := range 1 << len(causes) {
			held := make([]cause, len(causes))
			for i, c := range causes {
				factor := c.of.Least
				if corner>>i&1 == 1 {
					factor = c.of.Most
				}
				held[i] = c
				held[i].of = Range{factor, factor}
			}
			still := p
			still.At, still.Roll = at, 0
			before, err := g.reactions(still, held, -1)
			if err != nil {
				return nil, err
			}
			after, err := g.reactions(still, held, n)
			if err != nil {
				return nil, err
			}
			list = widened(list, before, after, sudden)
		}
	}
	return list, nil
}

// widened are the forces of the legs that remain, with those of one more corner.
func widened(list, before, after []Received, sudden float64) []Received {
	for i := range after {
		a := after[i]
		was := before[i]
		if was.Leg != a.Leg {
			was = before[i+1] // that of the lost leg is left out
		}
		force := was.Force.Most + sudden*(a.Force.Most-was.Force.Most)
		a.Force, a.Linear, a.Most, a.Least = Range{force, force}, false, nil, nil
		if len(list) <= i {
			list = append(list, a)
			continue
		}
		l := &list[i]
		l.Force = Range{math.Min(l.Force.Least, force), math.Max(l.Force.Most, force)}
		l.Nominal = Range{math.Min(l.Nominal.Least, a.Nominal.Least), math.Max(l.Nominal.Most, a.Nominal.Most)}
	}
	return list
}

// lost are the checks of what remains when a bar, or a leg named by the position, is lost
// at once: accidental, every factor 1 on what is characteristic.
func (l Launch) lost(p Position, _ limits.Standard) (list []stages.OwnCheck, err error) {
	legs, err := l.Gantry.Reactions(p)
	if err != nil {
		return nil, err
	}
	for _, r := range legs {
		s := p.Stands[p.stand(r.Leg)]
		if s.Bars == nil {
			continue
		}
		feet := l.Gantry.feet(p, p.stand(r.Leg), r.Force, limits.Factors{})
		c, err := l.barLost(s, r, feet)
		if err != nil {
			return nil, err
		}
		list = append(list, c)
	}
	for _, mark := range p.Lost {
		more, err := l.legLost(p, mark)
		if err != nil {
			return nil, err
		}
		list = append(list, more...)
	}
	return list, nil
}

// barLost is the check of the bars of a foot that remain when one of them is lost.
func (l Launch) barLost(s Stand, r Received, feet Feet) (stages.OwnCheck, error) {
	const name = "force in an anchor bar after the loss of one"
	if s.Bars.Number < 4 {
		return unanswered(name, s.X, fmt.Sprintf("leg %s has %d anchor bars: without one, a foot has none left; at least two a foot", s.Leg, s.Bars.Number)), nil
	}
	c := &formula.Chain{}
	least := l.leastForce(c, r, feet, formula.Mechanics)
	n := formula.Q("n_foot", math.Floor(float64(s.Bars.Number)/2), formula.One, "anchor bars at each foot")
	pull := c.Derive(newtons("U_foot", 0, "pull on the bars of a foot"), "max(0, -F_foot)", formula.Mechanics, least)
	force := c.Derive(newtons("F_bar_1", 0, "force in each bar that remains: its preload, or the pull with that of the lost one put on at once"), "max(P_bar, (U_foot + (f_dyn - 1)*U_foot/n_foot)/(n_foot - 1))", formula.Mechanics,
		newtons("P_bar", s.Bars.Preload, "preload of each bar"), pull, n, formula.Q("f_dyn", l.sudden(), formula.One, "factor on a force that is lost at once"))
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	source := formula.Source{Document: s.Bars.Document}
	limit := limits.Limit{Name: name, LimitState: limits.Ultimate, Sense: limits.AtMost, Source: source,
		Line: formula.Given(newtons("WLL_bar", s.Bars.Capacity, "working load limit of a bar with its anchorage"), source)}
	check := stages.NewCheck(limit, force)
	check.X, check.Place, check.Note = s.X, "leg "+s.Leg, "accidental: every partial factor is 1"
	return check.Derived(append(lines, limit.Line)...), nil
}

// legLost are the checks of the legs that remain when one is lost.
func (l Launch) legLost(p Position, mark string) (list []stages.OwnCheck, err error) {
	x := p.Stands[p.stand(mark)].X
	legs, err := l.Gantry.After(p, mark, l.sudden())
	if err != nil {
		return []stages.OwnCheck{fallen(mark, x, err)}, nil
	}
	for _, r := range legs {
		leg := l.Gantry.leg(r.Leg)
		limit := limits.Limit{Name: "uplift at a leg after the loss of leg " + mark, LimitState: limits.Equilibrium, Sense: limits.AtLeast, Source: formula.Mechanics,
			Line: formula.Given(newtons("R_min", 0, "minimum permissible force of a leg"), formula.Mechanics)}
		check := stages.NewCheck(limit, newtons("F_leg_min", r.Force.Least+l.Gantry.ownWeight(limits.Factors{}).Least*leg.Weight, "minimum force of the leg, with its own weight"))
		check.X, check.Place, check.Note = r.X, "leg "+r.Leg, "accidental: every partial factor is 1"
		list = append(list, stages.OwnCheck{Check: check})
	}
	return list, nil
}

// fallen is the failed check of a gantry that cannot stand without a leg.
func fallen(mark string, x float64, why error) stages.OwnCheck {
	limit := limits.Limit{Name: "loss of leg " + mark, LimitState: limits.Equilibrium, Sense: limits.AtLeast, Source: formula.Mechanics,
		Line: formula.Given(formula.Q("n_stand", 1, formula.One, "ways to stand without it"), formula.Mechanics)}
	check := stages.NewCheck(limit, formula.Q("n_0", 0, formula.One, "ways found"))
	check.X, check.Place, check.Note = x, "leg "+mark, why.Error()
	return stages.OwnCheck{Check: check}
}
