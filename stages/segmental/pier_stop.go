package segmental

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// StopWeight is the weight of the segment that is handled or on one arm only, Balance.Unbalanced (N), beyond which the
// governing check of the pier has no reserve, and the name of that check: the sheet asks to weigh it.
// The error wraps [ErrSegmental]: no segment is on one arm only, a check fails at any
// weight, or none limits it.
func (p Pier) StopWeight(b Balance, rule Rule, standard limits.Standard) (weight float64, check string, err error) {
	k, err := p.under(b, rule, standard)
	if err != nil {
		return 0, "", err
	}
	if b.Unbalanced == "" {
		return 0, "", fmt.Errorf("%w: field Balance.Unbalanced is empty: must be the mark of a segment on one arm only", ErrSegmental)
	}
	list, err := k.ruled()
	if err != nil {
		return 0, "", fmt.Errorf("%w: pier %q: %w", ErrSegmental, p.Mark, err)
	}
	governs, n := k.governing(list)
	switch {
	case n < 0:
		return 0, "", fmt.Errorf("%w: pier %q: no check limits the weight of segment %q", ErrSegmental, p.Mark, b.Unbalanced)
	case !(governs.weight >= 0):
		return 0, "", fmt.Errorf("%w: pier %q: %s fails at any weight of segment %q", ErrSegmental, p.Mark, list[n].Name, b.Unbalanced)
	}
	return governs.weight, list[n].Name, nil
}

// stopped is the weight at which a check has no reserve, and the corner in which it has none.
type stopped struct {
	weight, at, slope, capacity float64 // N; measure at the weight of the balance; its change with the weight, per N; what it may be
}

// governing is the smallest of the weights at which checks have no reserve, and the
// number of that check; −1 for none.
func (k pierCase) governing(list []ruledCheck) (least stopped, number int) {
	number = -1
	if k.segment() <= 0 {
		return least, number
	}
	for i, c := range list {
		for _, measure := range c.limit.measures {
			if s, found := k.stopAt(c.limit, measure); found && (number < 0 || s.weight < least.weight) {
				least, number = s, i
			}
		}
	}
	return least, number
}

// segment is the nominal weight of the segment that is on one arm only (N).
func (k pierCase) segment() (weight float64) {
	for _, p := range k.balance.Parts {
		if k.balance.scaled(p) {
			weight += p.Force
		}
	}
	return weight
}

// stopAt is the largest weight at which a measure is at most its capacity. The measure is convex
// and linear by parts in the weight: from a weight beyond, the corners that govern lead down
// to it without a step too far. It is false where no weight up to 100 times is too much.
func (k pierCase) stopAt(l linearLimit, measure func(Resultant) float64) (s stopped, found bool) {
	nominal := k.segment()
	weight := 100 * nominal
	for range 100 {
		e := k.with(weight/nominal).most(l.of, measure)
		slope := k.slope(e, measure) / nominal
		over := e.Value - l.capacity
		switch {
		case !found && over <= 0:
			return s, false
		case over > 0 && !(slope > 0):
			return stopped{weight: -1}, true // too much with every weight
		case !(slope > 0):
			return s, found
		}
		next := weight - over/slope
		found = true
		s = stopped{weight: next, at: l.capacity - (next-nominal)*slope, slope: slope, capacity: l.capacity}
		if next <= 0 || next >= weight*(1-1e-14) {
			break
		}
		weight = next
	}
	return s, found
}

// with is the balance with the weight of the segment on one arm times a factor.
func (k pierCase) with(factor float64) Balance {
	b := k.balance
	b.Parts = append([]Part(nil), b.Parts...)
	for i, p := range b.Parts {
		if b.scaled(p) {
			b.Parts[i].Force *= factor
		}
	}
	return b
}

// slope is the part of a measure that the segment on one arm has in an extreme, at its nominal weight.
func (k pierCase) slope(e Extreme, measure func(Resultant) float64) (sum float64) {
	for i, p := range k.balance.Parts {
		if k.balance.scaled(p) {
			sum += e.Factors[i] * measure(Resultant{p.Force, p.Force * p.Lever, p.Force * p.Across})
		}
	}
	return sum
}

// weighed puts the hold point of the weight of the segment on one arm on the check that
// governs it, with its line, where every check passes.
func (k pierCase) weighed(list []ruledCheck) {
	if marks, _ := k.balance.more(); len(marks) > 1 {
		return
	}
	for _, c := range list {
		if c.State != stages.Pass {
			return
		}
	}
	s, n := k.governing(list)
	if n < 0 || !(s.weight > 0) {
		return
	}
	name, unit, lever := k.balance.Unbalanced, list[n].limit.unit, formula.One
	if unit == formula.NewtonMetre {
		lever = formula.Metre
	}
	assumed := pierForce("W_0", k.segment(), "weight of segment "+name+", nominal")
	line, err := formula.Derive(pierForce("W_stop", 0, "weight of segment "+name+" beyond which to stop: this check has no reserve"), "W_0 + (D_lim - D_0)/k_W", formula.Mechanics, assumed,
		formula.Q("D_lim", s.capacity, unit, "maximum of the demand, without reserve"), formula.Q("D_0", s.at, unit, "demand at the nominal weight, by the factors that govern at the weight sought"),
		formula.Q("k_W", s.slope, lever, "change of the demand with the weight"))
	if err != nil {
		return
	}
	c := &list[n].OwnCheck
	c.Derivation = append(c.Derivation, line)
	required := line.Result
	required.Name = "weight of segment " + name + " (stop if more)"
	c.Hold = &stages.Hold{Kind: fmt.Sprintf("segment %s weighed", name), Required: required, AtMost: true, Assumed: assumed}
}
