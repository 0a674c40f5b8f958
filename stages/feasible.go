package stages

import (
	"fmt"
	"math"
	"slices"
)

// prune keeps, of the ways of supports about whose sharing nothing is stated, those
// that in some situation need no support to act against its sense, its actions
// counted; more than 20 are refused.
func (r *run) prune() error {
	carrying := map[*way]bool{}
	for _, s := range r.situations {
		for _, a := range s.acts {
			if !a.bounded {
				continue
			}
			found := false
			for _, w := range a.ways {
				ok, err := r.feasible(a, w, s)
				if err != nil {
					return s.where(err)
				}
				carrying[w] = carrying[w] || ok
				found = found || ok
			}
			if !found {
				return s.where(fmt.Errorf("no statically determinate set of the %d supports carries what acts without a support that acts against its sense: must be supports that enclose the resultant", len(a.supports)))
			}
		}
	}
	for _, s := range r.situations {
		for _, a := range s.acts {
			if !a.bounded {
				continue
			}
			a.ways = slices.DeleteFunc(a.ways, func(w *way) bool { return !carrying[w] })
			if len(a.ways) > mostSets*len(a.ups) {
				return s.where(fmt.Errorf("%d supports share in %d statically determinate ways: %w", len(a.supports), len(a.ways)/len(a.ups), errTooMany))
			}
		}
	}
	return nil
}

// feasible is true when the factors of a situation may be such that no support of a
// way acts against its sense.
func (r *run) feasible(a *arrangement, w *way, s *situation) (bool, error) {
	f, err := r.reactionsOf(a, w, s)
	return err == nil && f.possible(w.set), err
}

// possible is true when no support of a set acts against its sense at a corner of the
// ranges of the factors, or where a reaction passes zero on an edge.
func (f *shared) possible(set []int) bool {
	if len(f.ranges) > mostFree { // kept: more ways than may be
		return true
	}
	low, high := make([]float64, len(f.of.supports)), make([]float64, len(f.of.supports))
	at := make([]float64, len(f.ranges))
	for corner := range 1 << len(f.ranges) {
		for i, of := range f.ranges {
			at[i] = of.Least
			if corner>>i&1 == 1 {
				at[i] = of.Most
			}
		}
		f.under(low, at)
		if f.holds(set, low) {
			return true
		}
		for i, of := range f.ranges { // the edges that begin here
			if corner>>i&1 == 1 {
				continue
			}
			at[i] = of.Most
			f.under(high, at)
			at[i] = of.Least
			if f.holdsBetween(set, low, high) {
				return true
			}
		}
	}
	return false
}

// mostFree is how many factors with a range are tried at all corners.
const mostFree = 12

// shared are the reactions of an arrangement in one way, under factors.
type shared struct {
	of     *arrangement
	terms  []sharedTerm
	ranges []Range // of the factors that have one
	size   float64 // of the largest reaction, N
}

type sharedTerm struct {
	vertical []float64 // of each support, fixed factors in it, N
	factors  []int     // in ranges
}

func (r *run) reactionsOf(a *arrangement, w *way, s *situation) (shared, error) {
	f := shared{of: a}
	place := map[int]int{}
	for i := range s.current {
		e := &s.current[i]
		if e.of != a {
			continue
		}
		answer, err := r.answer(a, w, e.load, e.state)
		if err != nil {
			return f, err
		}
		term, fixed := sharedTerm{vertical: slices.Clone(answer.vertical)}, e.coefficient
		for _, c := range append(slices.Clone(e.outer), e.inner) {
			least, most := r.service(s, c)
			if least == most {
				fixed *= least
				continue
			}
			if _, known := place[c]; !known {
				place[c] = len(f.ranges)
				f.ranges = append(f.ranges, Range{Least: least, Most: most})
			}
			term.factors = append(term.factors, place[c])
		}
		for k := range term.vertical {
			term.vertical[k] *= fixed
			f.size = math.Max(f.size, math.Abs(term.vertical[k]))
		}
		f.terms = append(f.terms, term)
	}
	return f, nil
}

// under writes the reactions under the factors.
func (f *shared) under(into, factors []float64) {
	clear(into)
	for _, t := range f.terms {
		factor := 1.0
		for _, i := range t.factors {
			factor *= factors[i]
		}
		for k, v := range t.vertical {
			into[k] += factor * v
		}
	}
}

// holds is true where every support of a set acts in its sense.
func (f *shared) holds(set []int, reactions []float64) bool {
	return !slices.ContainsFunc(set, func(i int) bool { return reactions[i]*f.of.supports[i].sense() < -1e-9*f.size })
}

// holdsBetween is holds at some place of an edge, along which every reaction is linear.
func (f *shared) holdsBetween(set []int, from, to []float64) bool {
	between := make([]float64, len(from))
	for _, i := range set {
		if from[i]*to[i] >= 0 {
			continue
		}
		t := from[i] / (from[i] - to[i])
		for k := range between {
			between[k] = from[k] + t*(to[k]-from[k])
		}
		if f.holds(set, between) {
			return true
		}
	}
	return false
}
