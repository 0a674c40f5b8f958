package section

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/mathext"
)

// cells is what closes the flows: with a flow c round each void the shear strain
// must add up to 2·Gθ·area round every one (Bredt 1896),
//
//	slip·c + base = Gθ·torque,  slip = ∮ ds/t,  base = ∮ q/t ds
//
// where q is the flow that the stream gives and torque that of c = 1, twice the
// area inside the middle line.
type cells struct {
	slip   *mat.Dense
	base   []flows
	torque []float64
}

// cornerSlip is what the concrete round a re-entrant corner adds to ∮ ds/t
// between walls of equal thickness that meet there, when the walls are measured
// up to the corner (Schwarz-Christoffel map of a bent strip):
//
//	(2/π)·[ψ(1/2 + turn/2π) − ψ(1/2)], ψ the digamma function
//
// For a right angle it is 1 − (2/π)·ln 2 = 0.559, against 1 along the middle
// lines, with which J of concrete boxes comes out 5 to 10 % low.
func cornerSlip(turn float64) float64 {
	return 2 / math.Pi * (mathext.Digamma(0.5+turn/(2*math.Pi)) - mathext.Digamma(0.5))
}

// void is the number of the void that a spot is on, −1 for none.
func (n *wallNet) void(s spot) int { return max(n.faces[s.face].outline-n.solids, -1) }

// closing sets up the equations of the closing flows.
func (n *wallNet) closing() (cells, error) {
	voids := len(n.cores)
	if voids == 0 {
		return cells{}, nil
	}
	c := cells{slip: mat.NewDense(voids, voids, nil), base: n.around(func(s *station) flows { return s.flow }), torque: make([]float64, voids)}
	n.slips(func(void, across int, _ *station, slip float64) {
		c.slip.Set(void, void, c.slip.At(void, void)+slip)
		if across >= 0 {
			c.slip.Set(void, across, c.slip.At(void, across)-slip)
		}
	})
	for k := range voids {
		c.torque[k] = n.torque(func(s *station) float64 {
			switch {
			case n.void(s.near) == n.void(s.far):
				return 0
			case n.void(s.near) == k:
				return 1
			case n.void(s.far) == k:
				return -1
			}
			return 0
		})
		if !(c.slip.At(k, k) > 0 && c.torque[k] > 0) {
			return cells{}, fmt.Errorf("%w: walls: none found round void outline %d: must be walls between it and another outline", ErrShape, k+1)
		}
	}
	return c, nil
}

// around is ∮ q/t ds round each void.
func (n *wallNet) around(flow func(*station) flows) []flows {
	sums := make([]flows, len(n.cores))
	n.slips(func(void, _ int, s *station, slip float64) {
		for i, q := range flow(s) {
			sums[void][i] += slip * q
		}
	})
	return sums
}

// solve gives the closing flows for columns of right-hand sides, void by void.
func (c cells) solve(right *mat.Dense) (*mat.Dense, error) {
	var closing mat.Dense
	if err := closing.Solve(c.slip, right); err != nil {
		return nil, fmt.Errorf("%w: walls: the flows round %d voids have no solution: must be walls that part them", ErrShape, len(c.torque))
	}
	return &closing, nil
}

// slips visits every wall beside a void from that void: stations with their
// share of ∮ ds/t round it, and the void across the wall, −1 for none. Where a
// void faces itself across a rib no flow goes round.
func (n *wallNet) slips(visit func(void, across int, s *station, slip float64)) {
	at := func(s *station, corner, length float64) {
		void, across := n.void(s.near), n.void(s.far)
		if void < 0 || void == across {
			return
		}
		if length > 0 {
			corner += length / s.way()
		}
		visit(void, across, s, corner/s.ratio)
	}
	for i := range n.strides {
		s := &n.strides[i]
		from, mid, to := &n.stations[s.from], &n.stations[s.mid], &n.stations[s.to]
		switch {
		case s.length == 0:
		case s.ends():
			at(from, 0, s.length/2)
			at(to, 0, s.length/2)
		default: // Simpson
			at(from, 0, s.length/6)
			at(mid, 0, s.length*2/3)
			at(to, 0, s.length/6)
		}
	}
	for i := range n.faces {
		if turn := -n.faces[i].turnTo; turn > 0 {
			slip := cornerSlip(turn) / 2
			at(&n.stations[n.ends[i].last.reached], slip, 0)
			at(&n.stations[n.ends[n.faces[i].after].first.left], slip, 0)
		}
	}
}

// torque is ∫(y·τz − z·τy) dA of a flow about the centroid (N·m). Concrete
// between two cuts has ∫τ dA = Σ q·m over them, m their middles from its own; half
// of it belongs to the walk along either face.
func (n *wallNet) torque(flow func(*station) float64) float64 {
	sum := 0.0
	for i := range n.strides {
		s := &n.strides[i]
		from, to := &n.stations[s.from], &n.stations[s.to]
		q, r := flow(from), flow(to)
		a, b := from.middle, to.middle
		if !s.ends() {
			mean := (q + 4*flow(&n.stations[s.mid]) + r) / 6
			sum -= mean * cross(a, b) / 2 // the flow towards the left of a cut runs back along the face
			continue
		}
		arm := between(from.centre, to.centre, 0.5)
		sum -= (r*cross(arm, b.minus(arm)) - q*cross(arm, a.minus(arm))) / 2
	}
	return sum
}

// constant is the torsion constant of the walls without the flow round the cells:
// 4·∫d² dA with d the distance to the nearest face, which is Σ b·t³/3 of strips.
// Where a circle touches both faces of an outward corner it is 18 % too much in a
// square and 33 % in a circle; 0.805 of it there is right to 5 % in a square, 8 % in a
// circle and 0.006·t⁴ at the end of a strip.
func (n *wallNet) constant() float64 {
	const corner = 0.805
	sum := 0.0
	for i := range n.strides {
		s := &n.strides[i]
		from, mid, to := &n.stations[s.from], &n.stations[s.mid], &n.stations[s.to]
		term := func(s *station, length, turn float64) float64 {
			cube := s.radius * s.radius * s.radius * s.ratio
			term := cube * (length*4/3 + turn*s.radius)
			if n.cornered(s) {
				return corner * term
			}
			return term
		}
		if s.ends() {
			sum += (term(from, s.length, s.turn) + term(to, s.length, s.turn)) / 2
		} else {
			sum += (term(from, s.length, s.turn) + 4*term(mid, s.length, s.turn) + term(to, s.length, s.turn)) / 6
		}
	}
	return sum
}

// cornered is true where the circle touches both faces of an outward corner, their
// ends included: which of two faces a corner is counted to does not matter.
func (n *wallNet) cornered(s *station) bool {
	near, far := n.touched(s.near), n.touched(s.far)
	for _, i := range near {
		f := &n.faces[i]
		for _, j := range far {
			if f.turnTo > gentlest && j == f.after || f.turnFrom > gentlest && j == f.before {
				return true
			}
		}
	}
	return false
}

// touched are the faces of a spot, two at a corner.
func (n *wallNet) touched(p spot) [2]int {
	switch f := &n.faces[p.face]; {
	case p.part > tie:
		return [2]int{p.face, f.after}
	case p.part < 1-tie:
		return [2]int{f.before, p.face}
	}
	return [2]int{p.face, p.face}
}
