package ledger

import (
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
)

// warpTendons adds the warping by the prestress of a situation at a node: of a tendon
// that is kept apart there to its own part.
func (l *Ledger) warpTendons(s *Situation, at *Station, e *effect, n node) {
	warps := l.tendonWarps(s)
	for i := range at.Tendons { // in order, so that the sum is the same to the last bit
		c := warps[i][n.stretch]
		if c == nil {
			continue
		}
		slot, v := c.slot, c.Curve[n.index]
		t := &at.Tendons[i]
		z := int(t.kept) - 1
		switch {
		case z < 0:
			e.part(0, slot).Plane.Warping += v
		case t.grown:
			e.part(0, slot).Plane.Warping += t.Least * v
			e.part(len(s.products)+z, slot).Plane.Warping += (t.Most - t.Least) * v
		default:
			e.part(len(s.products)+z, slot).Plane.Warping += v
		}
	}
}

// pieceOf is the piece that a tendon is in, of one that passes several the one at its
// middle.
func (l *Ledger) pieceOf(tendon int) int {
	t := &l.Girder.Tendons[tendon]
	if t.Piece >= 0 {
		return t.Piece
	}
	at := l.grid[l.stretchAt((t.Path.From()+t.Path.To())/2)].At[Nodes/2]
	return at.Pieces[at.Tendons[tendon].Slot].Index
}

// tendonWarps is the warping by each tendon in a situation: an eccentric force at an
// anchor is a bimoment there, −P·ω, and all along the tendon it works on the warping
// of the wall in which it is.
func (l *Ledger) tendonWarps(s *Situation) map[int]warped {
	if s.warps != nil || !l.open {
		return s.warps
	}
	s.warps = map[int]warped{}
	add := func(of map[int]warped) {
		for i, w := range of {
			if s.warps[i] == nil {
				s.warps[i] = warped{}
			}
			s.warps[i].add(w)
		}
	}
	for k := range s.Steps {
		add(l.warpsOfStep(k))
	}
	if s.Times != nil {
		add(l.warpsOfLosses(s))
	}
	return s.warps
}

// warpsOfStep is what the changes of force in a step of stressing add.
func (l *Ledger) warpsOfStep(k int) map[int]warped {
	if l.pulled == nil {
		l.pulled = make([]map[int]warped, len(l.Steps))
	}
	if l.pulled[k] != nil {
		return l.pulled[k]
	}
	step := &l.Steps[k]
	l.pulled[k] = map[int]warped{}
	for i := range l.Girder.Tendons {
		n := slices.Index(step.Tendons, i)
		if n < 0 && step.Bonded[i] {
			continue
		}
		change := func(at *Station) float64 {
			if n >= 0 && l.Girder.Tendons[i].Grip != nil {
				return step.Force[n](at.X)
			}
			return at.Steps[k+1].Force[i] - at.Steps[k].Force[i]
		}
		l.warpsOf(l.pulled[k], step.States, i, change)
	}
	return l.pulled[k]
}

// warpsOfLosses is what creep, shrinkage and relaxation take off.
func (l *Ledger) warpsOfLosses(s *Situation) map[int]warped {
	of := map[int]warped{}
	known := map[*Station][]tendon.Losses{}
	for i := range l.Girder.Tendons {
		concrete := s.Times[l.pieceOf(i)].Concrete
		if concrete == nil {
			continue // of an element that is not carried yet
		}
		l.warpsOf(of, []*State{concrete}, i, func(at *Station) float64 {
			losses := known[at]
			if losses == nil {
				losses = make([]tendon.Losses, len(at.Tendons))
				l.losses(s, at, l.nodeOf(at), losses)
				known[at] = losses
			}
			return -losses[i].Total() * at.Tendons[i].Area
		})
	}
	return of
}

// nodeOf is the place of a station of the grid.
func (l *Ledger) nodeOf(at *Station) node {
	k := l.stretchAt(at.X)
	return node{k, slices.Index(l.grid[k].At[:], at)}
}

// warpsOf solves the member on which a tendon acts for a change of its force.
func (l *Ledger) warpsOf(into map[int]warped, states []*State, i int, change func(*Station) float64) {
	var m *member
	piece := l.pieceOf(i)
	for _, state := range states {
		if state.Ratio(piece) > 0 {
			m = l.member(state)
		}
	}
	if m == nil {
		return
	}
	acts := false
	w := m.solve(func(at *memberNode) (torque, bimoment float64) {
		t := &at.station.Tendons[i]
		if !t.Here {
			return 0, 0
		}
		f := change(at.station)
		acts = acts || f != 0
		return 0, -f * t.Direction[0] * at.sectorial.At(t.At)
	})
	if acts {
		into[i] = w
	}
}
