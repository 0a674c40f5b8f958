package ledger

import (
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
)

// warpTendons adds the warping by the prestress of a situation at a node: of a tendon
// that is kept apart there to its own part.
func (l *Ledger) warpTendons(s *Situation, at *Station, e *effect, n node) {
	for i, of := range l.tendonWarps(s) {
		c := of[n.stretch]
		if c == nil {
			continue
		}
		slot := l.slotOf(at, i)
		z, t := slices.Index(at.Zoned, i), &at.Tendons[i]
		switch {
		case z < 0:
			e.part(0, slot).Plane.Warping += c[n.index]
		case t.grown:
			e.part(0, slot).Plane.Warping += t.Least * c[n.index]
			e.part(len(s.products)+z, slot).Plane.Warping += (t.Most - t.Least) * c[n.index]
		default:
			e.part(len(s.products)+z, slot).Plane.Warping += c[n.index]
		}
	}
}

// slotOf is the slot of the piece that a tendon lies in, also beyond its anchors.
func (l *Ledger) slotOf(at *Station, tendon int) int {
	for slot := range at.Pieces {
		if at.Pieces[slot].Index == l.Girder.Tendons[tendon].Piece {
			return slot
		}
	}
	return 0
}

// tendonWarps is the warping by each tendon in a situation: an eccentric force at an
// anchor is a bimoment there, −P·ω, and all along the tendon it works on the warping
// of the wall in which it lies.
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
		piece := max(0, l.Girder.Tendons[i].Piece)
		l.warpsOf(of, []*State{s.Times[piece].Concrete}, i, func(at *Station) float64 {
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
	piece := max(0, l.Girder.Tendons[i].Piece)
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
