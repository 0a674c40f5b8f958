package stages

import (
	"math"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
	"github.com/tempstage/tempstage/stages/limits"
)

// forceRanges are the extremes of a linear measure of the internal forces on both sides
// of x under the factors of a limit.
func (r *run) forceRanges(s *situation, x float64, factors limits.Factors, measure func(section.Forces) float64) (left, right Range, err error) {
	for side, of := range [2]*Range{&left, &right} {
		*of, err = r.linearRange(s, factors, func(d *ledger.Demand) (float64, float64, error) { return d.Linear(x, 2*side-1, measure) })
		if err != nil {
			return left, right, err
		}
	}
	return left, right, nil
}

// forceJump are the extremes of its change from the left to the right of x.
func (r *run) forceJump(s *situation, x float64, factors limits.Factors, measure func(section.Forces) float64) (Range, error) {
	return r.linearRange(s, factors, func(d *ledger.Demand) (float64, float64, error) { return d.LinearJump(x, measure) })
}

// linearRange are the extremes of a linear measure over all ways of sharing.
func (r *run) linearRange(s *situation, factors limits.Factors, of func(*ledger.Demand) (least, most float64, err error)) (Range, error) {
	list := Range{Least: math.Inf(1), Most: math.Inf(-1)}
	if err := factors.Check(); err != nil {
		return list, err
	}
	for _, v := range s.cases {
		demands, err := r.demands(v, limits.Limit{Factors: factors})
		if err != nil {
			return list, err
		}
		for _, d := range demands {
			least, most, err := of(d.Demand)
			if err != nil {
				return list, err
			}
			list.Least, list.Most = math.Min(list.Least, least), math.Max(list.Most, most)
		}
	}
	return list, nil
}
