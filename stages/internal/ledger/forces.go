package ledger

import (
	"math"

	"github.com/tempstage/tempstage/section"
)

// Under is the factor of a product of causes.
func (g *product) under(factors []float64) float64 {
	f := 1.0
	if g.inner >= 0 {
		f = factors[g.inner]
	}
	for _, i := range g.outer {
		f *= factors[i]
	}
	return f
}

// total is everything at x in the first pieces, up to a number of them, under
// stated factors, one for each cause.
func (l *Ledger) total(s *Situation, x float64, factors []float64, pieces int) Part {
	of := l.effect(s, l.At(x))
	var sum Part
	for g := range s.products {
		f := s.products[g].under(factors)
		for slot := range min(pieces, of.slots) {
			sum.add(of.part(g, slot), f)
		}
	}
	return sum
}

// ForcesAt are Forces at node n of stretch k.
func (l *Ledger) ForcesAt(s *Situation, k, n int, factors []float64) section.Forces {
	of, at := &l.measured(s, k)[n], l.grid[k].At[n]
	var sum section.Forces
	for term := range len(s.products) + len(of.apart)/of.slots {
		f := 0.0
		if kept := term - len(s.products); kept < 0 {
			f = s.products[term].under(factors)
		} else { // a tendon kept apart
			f = s.products[0].under(factors) * at.nominal(1+kept)
		}
		for slot := range of.slots {
			sum = sum.Plus(of.part(term, slot).Forces.Times(f))
		}
	}
	return sum
}

// Forces are the internal forces at x about the fixed axis under stated factors,
// one for each cause.
func (l *Ledger) Forces(s *Situation, x float64, factors []float64) section.Forces {
	return l.total(s, x, factors, math.MaxInt).Forces
}

// Plane is the stress of the first piece at x under stated factors.
func (l *Ledger) Plane(s *Situation, x float64, factors []float64) section.Plane {
	return l.total(s, x, factors, 1).Plane.Plane
}
