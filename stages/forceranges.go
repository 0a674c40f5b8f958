package stages

import (
	"math"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/limits"
)

// forceRanges are the extremes of a linear measure of the internal forces on both sides
// of x under the factors of a limit.
func (r *run) forceRanges(s *situation, x float64, factors limits.Factors, measure func(section.Forces) float64) (left, right Range, err error) {
	if err := factors.Check(); err != nil {
		return left, right, err
	}
	empty := Range{Least: math.Inf(1), Most: math.Inf(-1)}
	left, right = empty, empty
	for _, v := range s.cases {
		demands, err := r.demands(v, limits.Limit{Factors: factors})
		if err != nil {
			return left, right, err
		}
		for _, d := range demands {
			for side, of := range [2]*Range{&left, &right} {
				least, most, err := d.Linear(x, 2*side-1, measure)
				if err != nil {
					return left, right, err
				}
				of.Least, of.Most = math.Min(of.Least, least), math.Max(of.Most, most)
			}
		}
	}
	return left, right, nil
}
