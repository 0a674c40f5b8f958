package beam

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads"
)

// largest bounds every number inside a response. What is above it is refused
// so that no later product of two such numbers leaves float64.
const largest = 1e140

// Solve is the response to a set of loads and to the settlements of the layout. Nothing
// is factorised again. The error wraps [loads.ErrLoad] for a load off the beam or a
// couple just at a hinge, and [ErrBeam] when supports that can only push cannot carry
// the beam, when the result is too large for float64 or when the Beam was not made by
// [New]. With contact supports the responses to two sets do not add up to the response
// to both.
func (b *Beam) Solve(set loads.Set) (*Response, error) {
	if b == nil || len(b.nodes) == 0 {
		return nil, fmt.Errorf("%w: the Beam was not made by New: must be made by New", ErrBeam)
	}
	if err := set.Check(b.layout.Length); err != nil {
		return nil, err
	}
	pieces := b.cut(set)
	nodal := make([]state, len(b.nodes))
	if err := b.apply(set, pieces, nodal); err != nil {
		return nil, err
	}
	particulars, ground := b.particulars(pieces, nodal), b.settlements()
	r := b.respond(pieces, nodal, particulars, ground)
	if err := r.check(); err != nil {
		return nil, err
	}
	if len(b.contact.supports) == 0 {
		return r, nil
	}
	r, err := b.release(set, r, nodal, particulars, ground)
	if err != nil {
		return nil, err
	}
	if err := r.check(); err != nil {
		return nil, err
	}
	return r, nil
}

// nothing is no load.
var nothing loads.Set

// settlements is how far the foot of each support moves up (m), or nil when
// none moves.
func (b *Beam) settlements() []float64 {
	var up []float64
	for i, s := range b.layout.Supports {
		if s.Settlement != 0 {
			if up == nil {
				up = make([]float64, len(b.layout.Supports))
			}
			up[i] = -s.Settlement
		}
	}
	return up
}

// particulars is the end state of each member under what acts within it, as a
// cantilever that starts at rest at its left end. What acts on a tip at the
// right end counts as acting within.
func (b *Beam) particulars(pieces []piece, nodal []state) []state {
	ends := make([]state, len(b.members))
	for i := range pieces {
		p := &pieces[i]
		if p.loaded == 0 && p.bent == 0 && p.jump == (state{}) && ends[p.member] == (state{}) {
			continue
		}
		ends[p.member] = p.at(p.length(), ends[p.member].plus(p.jump))
	}
	if last := len(b.nodes) - 1; b.nodes[last].tip {
		ends[last-1] = ends[last-1].plus(nodal[last])
	}
	return ends
}

// respond is the response to what acts on the pieces and nodes and to the feet
// of the supports moving up by ground, nil for none.
func (b *Beam) respond(pieces []piece, nodal, particulars []state, ground []float64) *Response {
	r := b.respondWithout(pieces, nodal, particulars, ground)
	if len(b.beside.supports) > 0 {
		b.standBeside(r, ground)
	}
	return r
}

// respondWithout is the response without the supports that are beside
// another: it solves for the movements and marches the states through the
// pieces.
func (b *Beam) respondWithout(pieces []piece, nodal, particulars []state, ground []float64) *Response {
	right := make([]float64, b.unknowns)
	moved := b.rightHandSide(right, nodal, particulars, ground)
	b.solve(right)
	r := &Response{beam: b, pieces: pieces, Reactions: make([]Reaction, len(b.layout.Supports))}
	for i, s := range b.layout.Supports {
		r.Reactions[i].At = s.At
	}
	b.march(r, nodal, particulars, moved, right)
	return r
}

// rightHandSide sets what the unknown movements have to balance, and returns
// the prescribed ones.
func (b *Beam) rightHandSide(right []float64, nodal, particulars []state, ground []float64) []float64 {
	moved := b.prescribed(ground)
	for n := range b.nodes {
		b.load(right, &b.nodes[n], nodal[n], ground)
	}
	for i := range b.members {
		if moved == nil && particulars[i] == (state{}) {
			continue
		}
		forces := b.members[i].forces(b.ends(i, moved, nil), particulars[i])
		for j, n := range b.movements(i) {
			if n != held {
				right[n] -= forces[j]
			}
		}
	}
	return moved
}

// prescribed is how far each node with a rigid support is moved up.
func (b *Beam) prescribed(ground []float64) []float64 {
	if ground == nil {
		return nil
	}
	moved := make([]float64, len(b.nodes))
	for i, n := range b.nodes {
		if n.support != held && n.up == held {
			moved[i] = ground[n.support]
		}
	}
	return moved
}

// load adds what acts on a node to the right-hand side.
func (b *Beam) load(right []float64, n *node, acting state, ground []float64) {
	if n.up != held {
		right[n.up] += acting.shear
		if n.support != held && ground != nil {
			right[n.up] += b.layout.Supports[n.support].Stiffness * ground[n.support]
		}
	}
	if n.right != held {
		right[n.right] -= acting.moment
	}
}

// ends is the movements of the ends of member i: prescribed ones from moved
// (nil = none), unknown ones from solution (nil = zero).
func (b *Beam) ends(i int, moved, solution []float64) (ends [4]float64) {
	if moved != nil {
		ends[0], ends[2] = moved[i], moved[i+1]
	}
	if solution != nil {
		for j, n := range b.movements(i) {
			if n != held {
				ends[j] = solution[n]
			}
		}
	}
	return ends
}

// march runs through the pieces from each member's left end and collects the
// reactions from the jumps at the nodes.
func (b *Beam) march(r *Response, nodal, particulars []state, moved, solution []float64) {
	next := 0
	var before state
	for i := range b.members {
		now := b.members[i].start(b.ends(i, moved, solution), particulars[i])
		b.react(r, i, before, now, nodal[i])
		for ; next < len(r.pieces) && r.pieces[next].member == i; next++ {
			p := &r.pieces[next]
			p.start = now.plus(p.jump)
			now = p.at(p.length(), p.start)
		}
		before = now
	}
	b.react(r, len(b.members), before, state{}, nodal[len(b.members)])
}

// react sets the reaction at node n from the states on both sides of it.
func (b *Beam) react(r *Response, n int, before, after, acting state) {
	if s := b.nodes[n].support; s != held {
		reaction := &r.Reactions[s]
		reaction.Force = after.shear - before.shear - acting.shear
		if support := &b.layout.Supports[s]; support.Fixed || support.RotationalStiffness > 0 {
			reaction.Moment = before.moment - after.moment + acting.moment
		}
	}
}

// check is an error for a response beyond float64.
func (r *Response) check() error {
	for i := range r.pieces {
		p := &r.pieces[i]
		sum := p.size()
		if !(sum < largest) {
			return fmt.Errorf("%w: between %g m and %g m the result is %g: must be loads, lengths and stiffnesses whose results stay below %g in SI units",
				ErrBeam, p.from, p.to, sum, float64(largest))
		}
	}
	return nil
}

// size bounds what the fields of a piece and the terms of their laws can reach.
func (p *piece) size() float64 {
	h := p.length()
	start, end := p.start.absolute(), p.at(h, p.start).absolute()
	sum := start.moment + start.shear*(1+h) + start.up + start.slope + end.up + end.slope + end.moment
	power := h
	for k := range p.loaded {
		sum += math.Abs(p.load[k]) * power * (1 + h)
		power *= h
	}
	return sum
}

func (a state) absolute() state {
	return state{math.Abs(a.up), math.Abs(a.slope), math.Abs(a.moment), math.Abs(a.shear)}
}
