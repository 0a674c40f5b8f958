package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// Together is what lift points that hang on one hook, or at one x, get together: less than
// the sum of the maxima of each where those do not act at once.
type Together struct {
	Supports       []int  `json:"supports"`    // their numbers, from 1
	Static         Range  `json:"s"`           // at rest, for readings, N
	Present        Range  `json:"r"`           // at rest, with every action that may be present, N
	Share          *Range `json:"p,omitempty"` // of the measured total of their body at rest, a fraction; nil where there is no total to share
	Characteristic Range  `json:"c"`           // with dynamic factors and other actions, N
	Ultimate       Range  `json:"u"`           // with partial factors for strength, N
}

// together are the sets of lift points of a situation that have more than one: on one hook,
// and where the element is suspended at one x, and all of a body.
func (r *run) together(s *situation) ([]Together, error) {
	var list []Together
	first := 0
	for b, a := range s.acts {
		if !a.bounded {
			for _, set := range a.hanging() {
				of, err := r.sumOf(s, b, set)
				if err != nil {
					return nil, err
				}
				for i := range set {
					of.Supports = append(of.Supports, first+set[i]+1)
				}
				list = append(list, of)
			}
		}
		first += len(a.supports)
	}
	return list, nil
}

// hanging are the sets of lift points of one hook, or at one x, and all of them.
func (a *arrangement) hanging() [][]int {
	var sets [][]int
	add := func(set []int) {
		if len(set) > 1 && !slices.ContainsFunc(sets, func(other []int) bool { return slices.Equal(other, set) }) {
			sets = append(sets, set)
		}
	}
	all := make([]int, len(a.supports))
	for i, p := range a.supports {
		all[i] = i
		var hook, line []int
		for k, q := range a.supports {
			if p.Hook != nil && q.Hook != nil && *p.Hook == *q.Hook {
				hook = append(hook, k)
			}
			if a.suspended && math.Abs(p.X-q.X) < 1e-6 {
				line = append(line, k)
			}
		}
		add(hook)
		add(line)
	}
	if a.suspended {
		add(all)
	}
	return sets
}

// sumOf is what supports of a body (from 0) get together, in their three ranges.
func (r *run) sumOf(s *situation, b int, set []int) (Together, error) {
	empty := Range{Least: math.Inf(1), Most: math.Inf(-1)}
	of := Together{Static: empty, Present: empty, Characteristic: empty, Ultimate: empty}
	characteristic, err := r.characteristic(s)
	if err != nil {
		return of, err
	}
	ultimate, err := r.strengthFactors(s)
	if err != nil {
		return of, err
	}
	share, measured := empty, true
	for _, v := range s.cases {
		m, err := r.supportSums(v, s.acts[b], set...)
		if err != nil {
			return of, err
		}
		ranges := []struct {
			into   *Range
			causes []ledger.Cause
		}{{&of.Static, r.atRest(s)}, {&of.Present, r.present(s)}, {&of.Characteristic, characteristic}}
		for _, f := range ultimate {
			ranges = append(ranges, struct {
				into   *Range
				causes []ledger.Cause
			}{&of.Ultimate, r.ranges(s, f)})
		}
		for _, one := range ranges {
			if err := r.widen(v, s.acts[b], &m, one.into, one.causes); err != nil {
				return of, err
			}
		}
		if measured, err = r.shares(v, s.acts[b], &m, &share, measured); err != nil {
			return of, err
		}
	}
	if measured {
		of.Share = &share
	}
	return of, nil
}

// numbersTo are the numbers of so many supports, from 1.
func numbersTo(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i + 1
	}
	return list
}

// sumFor is [run.sumOf] for supports by their numbers in the record, from 1, of one body.
func (r *run) sumFor(s *situation, numbers []int) (Together, error) {
	first := 0
	for b, a := range s.acts {
		var set []int
		for _, n := range numbers {
			if k := n - 1 - first; k >= 0 && k < len(a.supports) {
				set = append(set, k)
			}
		}
		if len(set) == len(numbers) && len(set) > 0 {
			of, err := r.sumOf(s, b, set)
			of.Supports = slices.Clone(numbers)
			return of, err
		}
		first += len(a.supports)
	}
	return Together{}, fmt.Errorf("%w: supports %v: must be supports of one body, from 1", ErrStage, numbers)
}
