package stages

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
)

// place is where and under which corner a stress is extreme.
type place struct {
	found  bool
	x      float64
	point  section.Point
	number int // of the corner of the outline
	corner corner
	value  float64 // Pa, tension +
}

// candidate is the worst node of a piece at one corner of the outline, with the
// stress at all nodes under the factors that are worst there.
type candidate struct {
	piece  *piece
	node   int
	number int
	corner corner
	values [nodes]float64
	bound  float64
}

// extreme finds the largest (sign +1) or smallest (sign −1) stress of a situation
// over the pieces and corners that count says: every node and outline corner is
// tried under its worst factors, then the best of each piece that may hold the
// extreme is refined on the polynomial through the nodes.
func (r *run) extreme(s *situation, sign float64, factors ranges, count func(*piece, section.Point) bool) place {
	best := place{value: math.Inf(-1)}
	zones := r.disturbed(s.steps)
	var candidates []candidate
	for i := range r.grid {
		p := &r.grid[i]
		if within(p.middle(), zones) {
			continue
		}
		var bases [nodes]basis
		for k, at := range p.at {
			bases[k] = r.basis(s, at)
		}
		for number := range p.at[0].corners {
			if !count(p, p.at[nodes/2].corners[number]) {
				continue
			}
			for _, factors := range worstCorners(p, bases, number, sign, factors) {
				c := newCandidate(p, bases, number, sign, factors)
				if c.values[c.node] > best.value {
					best = place{true, p.at[c.node].x, p.at[c.node].corners[number], number, c.corner, c.values[c.node]}
				}
				candidates = append(candidates, c)
			}
		}
	}
	for _, c := range candidates {
		if c.bound < best.value {
			continue
		}
		x, value := c.piece.peak(c.values, c.node)
		if value <= best.value {
			continue
		}
		at := r.at(x)
		if exact := sign * r.basis(s, at).under(c.corner).At(at.corners[c.number]); exact > best.value {
			best = place{true, x, at.corners[c.number], c.number, c.corner, exact}
		}
	}
	best.value *= sign
	return best
}

// worstCorners are the corners of factors that are worst at one node or another:
// between two nodes the worst one may change.
func worstCorners(p *piece, bases [nodes]basis, number int, sign float64, factors ranges) []corner {
	var list []corner
	for k, at := range p.at {
		if c, _ := bases[k].worst(sign, at.corners[number], factors); !slices.Contains(list, c) {
			list = append(list, c)
		}
	}
	return list
}

// newCandidate is the stress at the nodes under one corner of factors.
func newCandidate(p *piece, bases [nodes]basis, number int, sign float64, factors corner) candidate {
	c := candidate{piece: p, number: number, corner: factors}
	for k, at := range p.at {
		c.values[k] = sign * bases[k].under(factors).At(at.corners[number])
		if c.values[k] > c.values[c.node] {
			c.node = k
		}
	}
	c.bound = c.values[c.node] + c.step()
	return c
}

// step is the larger change of the values from the best node to its neighbours:
// a resolved polynomial does not rise above the node by more than that.
func (c *candidate) step() float64 {
	change := 0.0
	for _, k := range []int{c.node - 1, c.node + 1} {
		if k >= 0 && k < nodes {
			change = math.Max(change, math.Abs(c.values[c.node]-c.values[k]))
		}
	}
	return change
}
