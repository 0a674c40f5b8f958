package stages

import (
	"fmt"
	"math"
	"slices"
)

// column is an unknown force: its size and its moments about the girder's axes
// across and along, per metre; and the supports that give it.
type column struct {
	resultant [3]float64
	members   []int
}

// columns are the unknown vertical forces of a set of supports, nil for all: a
// group is one, a fixed support has its moments as well.
func (a *arrangement) columns(set []int) []column {
	var list []column
	groups := map[string]int{}
	for i, s := range a.supports {
		if s.Held || set != nil && !slices.Contains(set, i) {
			continue
		}
		group := s.Group
		if s.Hook != nil {
			group = fmt.Sprintf("hook %v", *s.Hook)
		}
		at, ok := groups[group]
		if !ok || group == "" {
			at = len(list)
			groups[group] = at
			list = append(list, column{})
		}
		c := &list[at]
		c.members = append(c.members, i)
		switch {
		case s.Hook == nil:
			c.resultant[0]++
			c.resultant[1] += s.X - a.body.from
			c.resultant[2] += s.Y
		case len(c.members) == 1: // the hook is the support
			c.resultant = [3]float64{1, s.Hook.X - a.body.from, s.Hook.Y}
		}
		if s.Fixed || s.RotationalStiffness > 0 {
			list = append(list, column{resultant: [3]float64{1: 1}})
		}
		if s.Fixed {
			list = append(list, column{resultant: [3]float64{2: 1}})
		}
	}
	return list
}

// rankTolerance is how far, in metres, a support must be beside others to hold
// something that they do not.
const rankTolerance = 1e-4

// rankOf is how many of size, moment across and moment along the columns hold, by
// elimination with the largest pivot.
func rankOf(columns []column) int {
	rows := make([][3]float64, len(columns))
	for i, c := range columns {
		rows[i] = c.resultant
	}
	rank := 0
	for axis := range 3 {
		best := rank
		for i := rank; i < len(rows); i++ {
			if math.Abs(rows[i][axis]) > math.Abs(rows[best][axis]) {
				best = i
			}
		}
		if best >= len(rows) || math.Abs(rows[best][axis]) < rankTolerance {
			continue
		}
		rows[rank], rows[best] = rows[best], rows[rank]
		for i := rank + 1; i < len(rows); i++ {
			f := rows[i][axis] / rows[rank][axis]
			for k := range 3 {
				rows[i][k] -= f * rows[rank][k]
			}
		}
		rank++
	}
	return rank
}

// mostSets is how many statically determinate sets are looked at.
const mostSets = 20

// sets are the supports that may carry: all, or every statically determinate set.
func (a *arrangement) sets(all []column, rank int) ([][]int, error) {
	if !a.bounded {
		set := make([]int, len(a.supports))
		for i := range set {
			set[i] = i
		}
		return [][]int{set}, nil
	}
	var sets [][]int
	choose(len(all), rank, func(chosen []int) {
		var columns []column
		var set []int
		for _, k := range chosen {
			columns, set = append(columns, all[k]), append(set, all[k].members...)
		}
		if len(set) > 0 && rankOf(columns) == rank {
			slices.Sort(set)
			sets = append(sets, set)
		}
	})
	if len(sets) > 20*mostSets {
		return nil, fmt.Errorf("%d supports that share in %d statically determinate ways: %w", len(a.supports), len(sets), errTooMany)
	}
	return sets, nil
}

// errTooMany names the ways out where supports share in too many ways.
var errTooMany = fmt.Errorf("must be at most %d: state groups that are equalised, or Stiffness and OutOfLevel, or fewer supports", mostSets)

// choose calls with every choice of k of n.
func choose(n, k int, with func([]int)) {
	chosen := make([]int, 0, k)
	var next func(from int)
	next = func(from int) {
		if len(chosen) == k {
			with(chosen)
			return
		}
		for i := from; i < n; i++ {
			chosen = append(chosen, i)
			next(i + 1)
			chosen = chosen[:len(chosen)-1]
		}
	}
	next(0)
}
