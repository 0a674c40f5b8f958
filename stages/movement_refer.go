package stages

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// place is a place with its name.
type place struct {
	x    float64
	name string
}

// referred is a bent line less the straight one through its supports.
type referred struct {
	line         *ledger.Bent
	start, slope float64 // of the straight line, at x = 0
}

func (r *referred) at(x float64) (value, slope float64) {
	value, slope = r.line.At(x)
	return value - r.start - r.slope*x, slope - r.slope
}

// refer lays the straight lines through the supports.
func (m *Movement) refer(a *arrangement) {
	lines := a.lines(a.ways[0].set)
	first, last := lines[0], lines[len(lines)-1]
	m.datum = []float64{first.x}
	if last.x > first.x {
		m.datum = append(m.datum, last.x)
	}
	if fixed := slices.IndexFunc(a.supports, func(s Support) bool { return s.Fixed }); fixed >= 0 {
		m.datum = []float64{a.supports[fixed].X}
	}
	for _, of := range []*referred{m.up[0], m.up[1], m.aside[0], m.aside[1]} {
		if fixed := slices.IndexFunc(a.supports, func(s Support) bool { return s.Fixed }); fixed >= 0 {
			x := a.supports[fixed].X
			var value float64
			value, of.slope = of.line.At(x)
			of.start = value - of.slope*x
			continue
		}
		left, right := first.mean(of.line), last.mean(of.line)
		if last.x > first.x {
			of.slope = (right - left) / (last.x - first.x)
		}
		of.start = left - of.slope*first.x
	}
}

// supportLine is supports whose mean is held at one x: those of a line across, or
// a group.
type supportLine struct {
	x       float64
	members []float64 // their x
}

// mean is the mean ordinate of a line over its supports.
func (l supportLine) mean(of *ledger.Bent) float64 {
	sum := 0.0
	for _, x := range l.members {
		value, _ := of.At(x)
		sum += value
	}
	return sum / float64(len(l.members))
}

// lines are the lines of supports of a set, nil for all, from left to right.
func (a *arrangement) lines(set []int) []supportLine {
	var list []supportLine
	for _, c := range a.columns(set) {
		if len(c.members) == 0 {
			continue
		}
		var l supportLine
		for _, i := range c.members {
			l.members = append(l.members, a.supports[i].X)
			l.x += a.supports[i].X / float64(len(c.members))
		}
		if !slices.ContainsFunc(list, func(o supportLine) bool { return math.Abs(o.x-l.x) < rankTolerance }) {
			list = append(list, l)
		}
	}
	slices.SortFunc(list, func(a, b supportLine) int {
		if a.x < b.x {
			return -1
		}
		return 1
	})
	return list
}
