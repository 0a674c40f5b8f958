package ledger

import (
	"math"

	"github.com/tempstage/tempstage/section"
)

// Linear are the least and the largest value of a linear measure of the internal forces
// about the fixed axis on one side (−1 left, +1 right) of x, with all tendons in full.
func (d *Demand) Linear(x float64, side int, measure func(section.Forces) float64) (least, most float64, err error) {
	return d.linear(func(values []float64) { d.addLinear(values, x, side, 1, measure) })
}

// LinearJump are the least and the largest change of it from the left to the right of x.
func (d *Demand) LinearJump(x float64, measure func(section.Forces) float64) (least, most float64, err error) {
	return d.linear(func(values []float64) {
		d.addLinear(values, x, 1, 1, measure)
		d.addLinear(values, x, -1, -1, measure)
	})
}

// linear are the extremes of a sum of which a function adds what each term gives.
func (d *Demand) linear(add func([]float64)) (least, most float64, err error) {
	c, err := d.combination(0)
	if err != nil {
		return 0, 0, err
	}
	values, sums := make([]float64, c.terms), make([]float64, c.Columns())
	add(values)
	least, most = math.Inf(1), math.Inf(-1)
	for outer := range c.Corners() {
		c.Sums(sums, outer, values)
		least, most = math.Min(least, c.Extreme(sums, -1)), math.Max(most, c.Extreme(sums, 1))
	}
	return least, most, nil
}

// addLinear adds what each term gives on a side of x, times a factor.
func (d *Demand) addLinear(values []float64, x float64, side int, factor float64, measure func(section.Forces) float64) {
	at, of := d.ledger.side(d.situation, x, side)
	for term := range len(of.products) + len(at.Zoned) {
		sum := section.Forces{}
		for slot := range of.slots {
			sum = sum.Plus(of.part(term, slot).Forces)
		}
		if kept := term - len(values); kept >= 0 { // a tendon kept apart: one of the prestress
			values[0] += factor * at.nominal(1+kept) * measure(sum)
			continue
		}
		values[term] += factor * measure(sum)
	}
}

// side is the station at x, that of the stretch on a side of it where one ends there.
func (l *Ledger) side(s *Situation, x float64, side int) (*Station, *effect) {
	for _, at := range l.Beside(x) {
		if last := at[1] > 0; last == (side < 0) {
			return l.grid[at[0]].At[at[1]], &l.measured(s, at[0])[at[1]]
		}
	}
	at := l.At(x)
	return at, l.effect(s, at)
}
