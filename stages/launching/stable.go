package launching

import (
	"fmt"
	"reflect"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// factoredLegs are the legs of a position under the factors of a limit for equilibrium.
type factoredLegs func(limits.Limit) ([]factoredLeg, error)

// under finds the legs once for factors that are alike: standards answer uplift, overturning
// and sliding with the same.
func (l Launch) under(p Position) factoredLegs {
	type known struct {
		factors limits.Factors
		causes  []cause
		legs    []Received
		err     error
	}
	var found []known
	return func(limit limits.Limit) (list []factoredLeg, err error) {
		f := limit.Factors.Filled()
		f.Source, f.Note = formula.Source{}, ""
		n := slices.IndexFunc(found, func(k known) bool { return reflect.DeepEqual(k.factors, f) })
		if n < 0 {
			n = len(found)
			causes := factored(l.Gantry.causes(p), f)
			legs, err := l.Gantry.reactions(p, causes, -1)
			found = append(found, known{f, causes, legs, err})
		}
		for _, r := range found[n].legs {
			at := p.stand(r.Leg)
			list = append(list, factoredLeg{l, p, at, r, l.Gantry.feet(p, at, r.Force, f), found[n].causes, limit})
		}
		return list, found[n].err
	}
}

// stable are the checks of every leg with each answer of a standard about equilibrium.
func (l Launch) stable(under factoredLegs, p Position, standard limits.Standard, kind limits.Kind, name string, of func(factoredLeg) (stages.OwnCheck, error)) (list []stages.OwnCheck, err error) {
	answers, err := standard.Limits(limits.Question{Kind: kind, Phase: limits.Seating})
	if err != nil {
		return nil, err
	}
	if len(answers) == 0 {
		return []stages.OwnCheck{unanswered(name, p.Stands[0].X, "the standard gives no factors for equilibrium")}, nil
	}
	for _, limit := range answers {
		legs, err := under(limit)
		if err != nil {
			for _, s := range p.Stands {
				list = append(list, unanswered(name, s.X, "the gantry cannot stand with the factors for equilibrium"))
			}
			continue
		}
		for _, leg := range legs {
			c, err := of(leg)
			if err != nil {
				return nil, err
			}
			c.X, c.Place = leg.received.X, or(c.Place, fmt.Sprintf("leg %s at x = %.2f m", leg.received.Leg, leg.received.X))
			list = append(list, c)
		}
	}
	return list, nil
}

// factoredLeg is a leg in a position under the factors of a limit for equilibrium.
type factoredLeg struct {
	launch   Launch
	position Position
	number   int // of its stand
	received Received
	feet     Feet
	causes   []cause
	limit    limits.Limit
}

func (s factoredLeg) stand() Stand { return s.position.Stands[s.number] }

// worst is the check with the smaller margin of the minimum and the maximum force of the
// leg. Over the forces between, what holds grows in a straight line or less and what acts
// in a straight line or more: the smallest margin is at an end.
func (s factoredLeg) worst(of func(most bool) (stages.OwnCheck, error)) (stages.OwnCheck, error) {
	least, err := of(false)
	if err != nil {
		return least, err
	}
	most, err := of(true)
	if err == nil && most.Margin < least.Margin {
		return most, nil
	}
	return least, err
}

// force derives the force of the leg, its minimum or its maximum.
func (s factoredLeg) force(c *formula.Chain, most bool) formula.Quantity {
	force, of, own, words := s.received.Force.Least, s.received.Least, s.feet.own.Least, "minimum"
	if most {
		force, of, own, words = s.received.Force.Most, s.received.Most, s.feet.own.Most, "maximum"
	}
	return s.launch.legForce(c, "F_leg", words+" force of the leg on its feet, with its own weight", s.received, force, of, own, s.limit.Source)
}
