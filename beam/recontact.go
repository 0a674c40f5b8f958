package beam

import (
	"math"

	"github.com/tempstage/tempstage/loads"
)

// afresh is the response when the reactions of closed contacts are so much larger than
// what is left of them that their difference has too few digits: the beam is made again
// without the supports that lifted, and supports that then pull are let go and those that
// the beam would sink through are put back, until none does either. ok is false where
// that does not end, or where what is left does not hold.
func (b *Beam) afresh(set loads.Set, gaps []float64) (r *Response, ok bool) {
	off := make([]bool, len(b.layout.Supports))
	for i, s := range b.contact.supports {
		off[s] = gaps[i] > 0
	}
	for range 2*len(gaps) + 2 {
		r, ok = b.without(off, set)
		if !ok {
			return nil, false
		}
		if !r.swap(b.contact.supports, off) {
			return r, r.check() == nil
		}
	}
	return nil, false
}

// without is the response of the beam without some supports, with the reactions of all.
func (b *Beam) without(off []bool, set loads.Set) (*Response, bool) {
	layout := b.layout.clone()
	layout.Supports = layout.Supports[:0]
	for i, s := range b.layout.Supports {
		if s.Contact = false; !off[i] {
			layout.Supports = append(layout.Supports, s)
		}
	}
	left, err := New(layout)
	if err != nil {
		return nil, false
	}
	r, err := left.Solve(set)
	if err != nil {
		return nil, false
	}
	reactions, next := make([]Reaction, len(off)), 0
	for i, s := range b.layout.Supports {
		if off[i] {
			reactions[i] = Reaction{At: s.At, Lift: r.Deflection(s.At) + s.Settlement}
			continue
		}
		reactions[i] = r.Reactions[next]
		next++
	}
	r.Reactions = reactions
	return r, true
}

// swap lets go of contacts that pull and puts back those that the beam sinks through,
// if any; what is smaller than rounding is made zero.
func (r *Response) swap(supports []int, off []bool) (changed bool) {
	largest, widest := 0.0, 0.0
	for _, reaction := range r.Reactions {
		largest, widest = max(largest, math.Abs(reaction.Force)), max(widest, math.Abs(reaction.Lift))
	}
	for _, s := range supports {
		reaction := &r.Reactions[s]
		switch {
		case !off[s] && reaction.Force < -residue*largest, off[s] && reaction.Lift < -residue*widest:
			off[s], changed = !off[s], true
		default:
			reaction.Force, reaction.Lift = max(reaction.Force, 0), max(reaction.Lift, 0)
		}
	}
	return changed
}
