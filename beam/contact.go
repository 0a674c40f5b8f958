package beam

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads"
)

// contact is what a beam with supports that can lift off knows beforehand:
// the reactions of those supports when the foot of one of them moves up by one
// metre while all stay closed. It is symmetric and never negative definite, so
// that the question which supports lift is a linear complementarity problem
// with one answer (reaction ≥ 0, gap ≥ 0, one of the two zero).
type contact struct {
	supports []int       // indices in Layout.Supports
	size     []float64   // of each, root of the stiffness of the members and the spring beside it
	rise     [][]float64 // rise[i][j]: reaction of contact i (N) by 1 m at contact j
}

// prepareContact solves once for each contact support.
func (b *Beam) prepareContact() {
	for i, s := range b.layout.Supports {
		if s.Contact {
			b.contact.supports = append(b.contact.supports, i)
		}
	}
	n := len(b.contact.supports)
	b.contact.rise = make([][]float64, n)
	for i, s := range b.contact.supports {
		b.contact.rise[i] = make([]float64, n)
		b.contact.size = append(b.contact.size, math.Sqrt(b.stiffnessBeside(s)))
	}
	for j, s := range b.contact.supports {
		ground := make([]float64, len(b.layout.Supports))
		ground[s] = 1
		r := b.moveGround(ground)
		for i, s := range b.contact.supports {
			b.contact.rise[i][j] = r.Reactions[s].Force
		}
	}
}

// stiffnessBeside is the stiffness against a movement of one support alone without
// rotation (N/m): the scale of its reactions to movements.
func (b *Beam) stiffnessBeside(support int) float64 {
	stiffness := 0.0
	for i := range b.members {
		if m := &b.members[i]; !m.leftTip && !m.rightTip {
			k := m.stiffness()
			if b.nodes[i].support == support {
				stiffness += k[0][0]
			}
			if b.nodes[i+1].support == support {
				stiffness += k[2][2]
			}
		}
	}
	switch spring := b.layout.Supports[support].Stiffness; {
	case stiffness == 0: // it is beside another
		stiffness = spring
	case spring > 0:
		stiffness = 1 / (1/stiffness + 1/spring)
	}
	return stiffness
}

// moveGround is the response to movements of the feet alone.
func (b *Beam) moveGround(up []float64) *Response {
	return b.respond(b.cut(nothing), make([]state, len(b.nodes)), make([]state, len(b.members)), up)
}

// residue is the part of the largest reaction within which a contact reaction
// after the solution may differ from what complementarity asks.
const residue = 1e-7

// lift finds how far each contact support has to let go so that none pulls.
// closed is the reactions with all of them closed. The result is the gap (m)
// of every contact support.
func (b *Beam) lift(closed []Reaction) ([]float64, error) {
	n := len(b.contact.supports)
	largest := 0.0
	for _, r := range closed {
		largest = max(largest, math.Abs(r.Force))
	}
	// Scaled so that the terms of the matrix are of order 1, and so is q.
	size := b.contact.size
	matrix, q := make([][]float64, n), make([]float64, n)
	scale := 0.0
	for i, s := range b.contact.supports {
		if math.Abs(closed[s].Force) >= negligible*largest {
			q[i] = closed[s].Force / size[i]
		}
		scale = max(scale, math.Abs(q[i]))
	}
	for i := range matrix {
		matrix[i] = make([]float64, n)
		for j := range matrix[i] {
			if term := b.contact.rise[i][j] / (size[i] * size[j]); math.Abs(term) > negligible {
				matrix[i][j] = term
			}
		}
		q[i] /= scale
	}
	z, ok := complementary(matrix, q)
	if !ok {
		return nil, fmt.Errorf("%w: the supports can only push and the loads would overturn the beam or lift it off: "+
			"must be loads whose resultant the supports can carry (%s)", ErrBeam, b.layout.describe())
	}
	for i := range z {
		z[i] *= scale / size[i]
	}
	return z, nil
}

// release solves again with the supports that would pull let go.
func (b *Beam) release(set loads.Set, closed *Response, nodal, particulars []state, ground []float64) (*Response, error) {
	pulls := false
	for _, s := range b.contact.supports {
		pulls = pulls || closed.Reactions[s].Force < 0
	}
	if !pulls {
		return closed, nil
	}
	gaps, err := b.lift(closed.Reactions)
	if err != nil {
		return nil, err
	}
	moved := make([]float64, len(b.layout.Supports))
	copy(moved, ground)
	for i, s := range b.contact.supports {
		moved[s] += gaps[i]
	}
	r := b.respond(closed.pieces, nodal, particulars, moved)
	if err = r.settle(b.contact.supports, gaps); err == nil {
		return r, nil
	}
	if r, ok := b.afresh(set, gaps); ok {
		return r, nil
	}
	return nil, err
}

// settle writes the gaps into the reactions and makes sure that no contact
// pulls and none that lifted pushes.
func (r *Response) settle(supports []int, gaps []float64) error {
	largest := 0.0
	for _, reaction := range r.Reactions {
		largest = max(largest, math.Abs(reaction.Force))
	}
	for i, s := range supports {
		reaction := &r.Reactions[s]
		if !(reaction.Force >= -residue*largest) || gaps[i] > 0 && !(reaction.Force <= residue*largest) {
			return fmt.Errorf("%w: Supports[%d] at %g m: the contact was not found, the error is %g N of %g N: "+
				"must be supports whose stiffnesses and distances differ less", ErrBeam, s, reaction.At, reaction.Force, largest)
		}
		if gaps[i] > 0 {
			reaction.Force, reaction.Lift = 0, gaps[i]
		}
		reaction.Force = max(reaction.Force, 0)
	}
	return nil
}
