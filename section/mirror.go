package section

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// sameNode is how far a node may be from the mirror image of another, of the
// largest coordinate: rounding of corners (1e-16) and of the centroid they are
// measured from, so that taking them as equal changes results by less than 1e-11.
const sameNode = 1e-13

// mirrored is the partner of each node in the mirror y → −y, itself on the axis;
// ok is false when nodes or elements have no partners.
func (b boundary) mirrored() (partner []int, ok bool) {
	reach := 0.0
	for _, p := range b.nodes {
		reach = math.Max(reach, math.Max(math.Abs(p.Y), math.Abs(p.Z)))
	}
	reach *= sameNode
	partner = make([]int, len(b.nodes))
	for i := range partner {
		partner[i] = -1
	}
	for i, p := range b.nodes {
		for j := i; j < len(b.nodes) && partner[i] < 0; j++ {
			if q := b.nodes[j]; math.Abs(p.Y+q.Y) <= reach && math.Abs(p.Z-q.Z) <= reach && partner[j] < 0 {
				partner[i], partner[j] = j, i
			}
		}
		if partner[i] < 0 {
			return nil, false
		}
	}
	elements := make(map[[3]int]bool, len(b.elements))
	for k := range b.elements {
		elements[b.elements[k].nodes] = true
	}
	for nodes := range elements { // the image of an element runs the other way
		if !elements[[3]int{partner[nodes[2]], partner[nodes[1]], partner[nodes[0]]}] {
			return nil, false
		}
	}
	return partner, true
}

// solveHalves is solve for a symmetric shape, where the equations fall apart into
// those of what is even in y and what is odd, each for one half of the nodes: a
// quarter of the work. Of the flows that [boundary.flows] gives, the shear
// function with the source z is even, the other and the warping function are odd.
func (b boundary) solveHalves(flows [3]flow, partner []int) (potentials [3][]float64, ok bool) {
	var nodes []int // of one half, then those on the axis, where what is odd is zero
	for i, j := range partner {
		if i < j {
			nodes = append(nodes, i)
		}
	}
	pairs := len(nodes)
	for i, j := range partner {
		if i == j {
			nodes = append(nodes, i)
		}
	}
	if pairs == 0 {
		return potentials, false
	}
	even, odd := mat.NewDense(len(nodes), len(nodes), nil), mat.NewDense(pairs, pairs, nil)
	evenRight, oddRight := mat.NewDense(len(nodes), 1, nil), mat.NewDense(pairs, 2, nil)
	logs, row := make([]float64, len(b.nodes)), make([]float64, len(b.nodes))
	for r, i := range nodes {
		clear(row)
		var right [3]float64
		b.equation(i, flows, logs, row, right[:])
		for c, j := range nodes[:pairs] {
			even.Set(r, c, row[j]+row[partner[j]])
			if r < pairs {
				odd.Set(r, c, row[j]-row[partner[j]])
			}
		}
		for c, j := range nodes[pairs:] {
			even.Set(r, pairs+c, row[j])
		}
		evenRight.Set(r, 0, right[1])
		if r < pairs {
			oddRight.SetRow(r, []float64{right[0], right[2]})
		}
	}
	evenSolution, evenOK := solved(even, evenRight)
	oddSolution, oddOK := solved(odd, oddRight)
	if !evenOK || !oddOK {
		return potentials, false
	}
	for f := range potentials {
		potentials[f] = make([]float64, len(b.nodes))
	}
	for r, i := range nodes {
		j := partner[i]
		potentials[1][i], potentials[1][j] = evenSolution.At(r, 0), evenSolution.At(r, 0)
		if r < pairs {
			potentials[0][i], potentials[0][j] = oddSolution.At(r, 0), -oddSolution.At(r, 0)
			potentials[2][i], potentials[2][j] = oddSolution.At(r, 1), -oddSolution.At(r, 1)
		}
	}
	return potentials, true
}
