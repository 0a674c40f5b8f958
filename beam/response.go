package beam

import (
	"cmp"
	"slices"
)

// Response is the response of a beam to one set of loads. It never changes.
type Response struct {
	// Reactions are those of the supports, in the order of Layout.Supports.
	Reactions []Reaction

	beam   *Beam
	pieces []piece
}

// Reaction is the force and couple of one support on the beam.
type Reaction struct {
	At     float64 // m from the left end
	Force  float64 // N, positive upwards
	Moment float64 // N·m, positive anticlockwise; 0 where the rotation is free
	Lift   float64 // m, gap at a contact support that has lifted off; 0 where it carries
}

// Side is the side of a place at which a field jumps.
type Side int

// The two sides of a place.
const (
	RightOf Side = iota // just right of the place
	LeftOf              // just left of it
)

// State is the internal forces and movements of the beam at one place.
type State struct {
	Moment     float64 // N·m, sagging positive
	Shear      float64 // N, dM/dx: positive just right of a left support
	Slope      float64 // rad, rotation of the section, anticlockwise positive
	Deflection float64 // m, positive upwards
}

// At is the state just right or just left of x (m). At the ends of the beam both sides
// are the inner one. Off the beam the state is zero.
func (r *Response) At(x float64, side Side) State {
	s := r.at(x, side)
	return State{Moment: s.moment, Shear: s.shear, Slope: s.slope, Deflection: s.up}
}

func (r *Response) at(x float64, side Side) state {
	if r == nil || len(r.pieces) == 0 || !(x >= 0 && x <= r.beam.layout.Length) {
		return state{}
	}
	near := samePlace * r.beam.layout.Length
	if side == RightOf {
		x += near // a place a rounding left of a jump is the same section
	} else {
		x -= near
	}
	i, exact := slices.BinarySearchFunc(r.pieces, x, func(p piece, x float64) int { return cmp.Compare(p.from, x) })
	if !exact {
		i--
	}
	p := &r.pieces[max(i, 0)]
	if side == RightOf {
		x -= near
	} else {
		x += near
	}
	return p.at(min(max(x-p.from, 0), p.length()), p.start)
}

// Moment is the bending moment just right of x (N·m, sagging positive).
func (r *Response) Moment(x float64) float64 { return r.at(x, RightOf).moment }

// Shear is the shear force dM/dx just right of x (N).
func (r *Response) Shear(x float64) float64 { return r.at(x, RightOf).shear }

// Slope is the rotation of the section just right of x (rad, anticlockwise
// positive).
func (r *Response) Slope(x float64) float64 { return r.at(x, RightOf).slope }

// Deflection is the movement of the axis at x (m, positive upwards).
func (r *Response) Deflection(x float64) float64 { return r.at(x, RightOf).up }

// Piece is a length of the beam in which the moment is one polynomial.
type Piece struct {
	From, To float64    // m from the left end
	Moment   [8]float64 // N·m, power series in s = x − From, sagging positive
}

// At is the moment (N·m) at s = x − From (m).
func (p Piece) At(s float64) float64 { return horner(p.Moment[:], s) }

// Pieces is the moment from left to right in pieces between changes of its law: at
// supports, hinges, changes of stiffness and the ends of loads.
func (r *Response) Pieces() []Piece {
	if r == nil {
		return nil
	}
	pieces := make([]Piece, len(r.pieces))
	for i := range r.pieces {
		p := &r.pieces[i]
		law := p.momentLaw()
		pieces[i] = Piece{From: p.from, To: p.to}
		copy(pieces[i].Moment[:], law.c[:law.n])
	}
	return pieces
}

// Length is the length of the beam (m).
func (r *Response) Length() float64 {
	if r == nil || r.beam == nil {
		return 0
	}
	return r.beam.layout.Length
}
