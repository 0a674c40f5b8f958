package beam

import (
	"fmt"
	"math"
	"slices"
)

// held marks a movement that is not an unknown.
const held = -1

// node is an end, a support or a hinge. Its movements are numbered in the
// order rotation left, up, rotation right, which keeps the band of the
// stiffness matrix three wide even at a hinge.
type node struct {
	x               float64
	support         int // index in Layout.Supports, or held (-1) for none
	hinge           bool
	tip             bool // free end: nothing is unknown there, the overhang is statically determinate
	up, left, right int  // numbers of the unknowns, or held; left = right unless hinge
}

// place makes the nodes from left to right, without the supports that are
// beside another. Two rigid supports, or two hinges, at one place are refused.
func (l Layout) place(beside []int) ([]node, error) {
	nodes := make([]node, 0, len(l.Supports)+len(l.Hinges)+2)
	for i, s := range l.Supports {
		if slices.Contains(beside, i) {
			continue
		}
		nodes = append(nodes, node{x: s.At, support: i})
	}
	for _, h := range l.Hinges {
		nodes = append(nodes, node{x: h, support: held, hinge: true})
	}
	nodes = append(nodes, node{x: 0, support: held}, node{x: l.Length, support: held})
	slices.SortFunc(nodes, byPlace)
	return merge(nodes, l)
}

func byPlace(a, b node) int {
	switch {
	case a.x < b.x:
		return -1
	case a.x > b.x:
		return 1
	}
	return b.support - a.support
}

// merge joins nodes at one place; the ends of the beam keep their exact place.
func merge(nodes []node, l Layout) ([]node, error) {
	near := samePlace * l.Length
	kept := nodes[:1]
	for _, n := range nodes[1:] {
		last := &kept[len(kept)-1]
		if n.x-last.x > near {
			kept = append(kept, n)
			continue
		}
		if n.support != held && last.support != held {
			return nil, fmt.Errorf("%w: Supports[%d] at %g m and Supports[%d] at %g m: must be one rigid support at a place: the other must have a Stiffness and leave the rotation free",
				ErrBeam, last.support, last.x, n.support, n.x)
		}
		if n.hinge && last.hinge {
			return nil, fmt.Errorf("%w: two hinges at %g m: must be one hinge at a place", ErrBeam, n.x)
		}
		last.support = max(last.support, n.support)
		last.hinge = last.hinge || n.hinge
	}
	kept[0].x = 0
	kept[len(kept)-1].x = l.Length
	return kept, nil
}

// number gives the movements of the nodes their numbers and returns how many
// are unknown. What a rigid or fixed support prescribes is left out instead
// of being held by a very stiff spring.
func number(nodes []node, supports []Support) int {
	unknowns := 0
	next := func() int { unknowns++; return unknowns - 1 }
	for i := range nodes {
		n := &nodes[i]
		n.up, n.left, n.right = held, held, held
		if n.tip = n.support == held && !n.hinge; n.tip {
			continue
		}
		rigid, fixed := false, false
		if n.support != held {
			s := supports[n.support]
			rigid, fixed = s.Stiffness == 0, s.Fixed
		}
		if n.hinge {
			n.left = next()
		}
		if !rigid {
			n.up = next()
		}
		if !fixed {
			n.right = next()
		}
		if !n.hinge {
			n.left = n.right
		}
	}
	return unknowns
}

// at is the number of the node at x, if there is one.
func (b *Beam) at(x float64) (int, bool) {
	near := samePlace * b.layout.Length
	i, _ := slices.BinarySearchFunc(b.nodes, x-near, func(n node, x float64) int {
		if n.x < x {
			return -1
		}
		return 1
	})
	return i, i < len(b.nodes) && math.Abs(b.nodes[i].x-x) <= near
}
