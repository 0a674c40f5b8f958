package ledger

import (
	"slices"

	"github.com/tempstage/tempstage/section"
)

// bodyAt is pieces of a station that act as one section: the modular ratio of each piece
// of the station, 0 for one that is no part of it. States of equal ratios have one, however
// their steel is counted.
type bodyAt []float64

// bodiesAt finds the bodies of several pieces of a station among the states, and where
// among its parts the forces on each state are.
func (l *Ledger) bodiesAt(s *Station) {
	s.holds = make([]int, len(l.States))
	for k, state := range l.States {
		s.holds[k] = -1
		ratios, number := make(bodyAt, len(s.Pieces)), 0
		for slot := range s.Pieces {
			if ratios[slot] = state.Ratio(s.Pieces[slot].Index); ratios[slot] != 0 {
				number, s.holds[k] = number+1, slot
			}
		}
		if number < 2 {
			continue
		}
		at := slices.IndexFunc(s.bodies, func(b bodyAt) bool { return slices.Equal(b, ratios) })
		if at < 0 {
			at, s.bodies = len(s.bodies), append(s.bodies, ratios)
		}
		s.holds[k] = len(s.Pieces) + at
	}
}

// slots is the number of parts of a term at a station: one of each piece, then the forces
// of each body of several pieces.
func (s *Station) slots() int { return len(s.Pieces) + len(s.bodies) }

// pieces are the slots of a body.
func (b bodyAt) pieces() (list []int) {
	for slot, ratio := range b {
		if ratio != 0 {
			list = append(list, slot)
		}
	}
	return list
}

// alike is true for bodies of the same pieces.
func (b bodyAt) alike(other bodyAt) bool {
	return slices.EqualFunc(b, other, func(p, q float64) bool { return (p != 0) == (q != 0) })
}

// first is the first piece of a body.
func (b bodyAt) first() int {
	return slices.IndexFunc(b, func(ratio float64) bool { return ratio != 0 })
}

// forcesIn are those, among the parts of a term, on a piece alone and on the bodies whose
// first piece it is.
func (s *Station) forcesIn(parts []Part, slot int) section.Forces {
	sum := parts[slot].Forces
	for k, b := range s.bodies {
		if b.first() == slot {
			sum = sum.Plus(parts[len(s.Pieces)+k].Forces)
		}
	}
	return sum
}

// forcesOn are those, among the parts of a term, on a state; none without one.
func (s *Station) forcesOn(parts []Part, state *State) section.Forces {
	if state == nil || s.holds[state.Index] < 0 {
		return section.Forces{}
	}
	return parts[s.holds[state.Index]].Forces
}
