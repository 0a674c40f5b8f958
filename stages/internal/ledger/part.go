package ledger

import (
	"github.com/tempstage/tempstage/section"
)

// Part is what something does in one piece of a station: its stress, and its forces
// about the girder's fixed axis; those of a body of several pieces are in a part of its own,
// see Station.slots.
type Part struct {
	Plane  Plane
	Forces section.Forces
}

// add adds q times a factor.
func (p *Part) add(q *Part, factor float64) {
	p.Plane.Constant += factor * q.Plane.Constant
	p.Plane.SlopeY += factor * q.Plane.SlopeY
	p.Plane.SlopeZ += factor * q.Plane.SlopeZ
	p.Plane.Warping += factor * q.Plane.Warping
	p.Forces.N += factor * q.Forces.N
	p.Forces.Vy += factor * q.Forces.Vy
	p.Forces.Vz += factor * q.Forces.Vz
	p.Forces.T += factor * q.Forces.T
	p.Forces.My += factor * q.Forces.My
	p.Forces.Mz += factor * q.Forces.Mz
}

// addAll adds the parts of another term, piece by piece.
func addAll(to, from []Part, factor float64) {
	for k := range to {
		to[k].add(&from[k], factor)
	}
}

// About are forces about the fixed axis y = z = 0 taken to the centroid of a
// section: N, My and Mz; T stays about the axis.
func About(f section.Forces, centroid section.Point) section.Forces {
	f.My += f.N * centroid.Z
	f.Mz += f.N * centroid.Y
	return f
}

// onConcrete is what a tendon of the given force (N, tension) does to the
// concrete, about the fixed axis: the opposite of its pull on the cut.
func (t *TendonAt) onConcrete(force float64) section.Forces {
	along, aside, up := force*t.Direction[0], force*t.Direction[1], force*t.Direction[2]
	return section.Forces{
		N: -along, My: along * t.At.Z, Mz: along * t.At.Y,
		Vy: aside, Vz: up, T: t.At.Z*aside - t.At.Y*up,
	}
}

// body is the state, among those of a day, on which something in a slot of the
// station acts.
func (s *Station) body(states []*State, slot int) *State {
	for _, state := range states {
		if state.Ratio(s.Pieces[slot].Index) > 0 {
			return state
		}
	}
	return nil
}

// spread adds forces on a body, times a factor, to the parts of a term: its planes
// in every piece of the body.
func (s *Station) spread(parts []Part, state *State, f section.Forces, factor float64) {
	if state == nil || s.States[state.Index].Area == 0 {
		return
	}
	of := &s.States[state.Index]
	plane := of.Plane(About(f, of.Centroid))
	parts[s.holds[state.Index]].Forces = parts[s.holds[state.Index]].Forces.Plus(f.Times(factor))
	for slot := range s.Pieces {
		ratio := state.Ratio(s.Pieces[slot].Index) * factor
		if ratio == 0 {
			continue
		}
		p := &parts[slot]
		p.Plane.Constant += ratio * plane.Constant
		p.Plane.SlopeY += ratio * plane.SlopeY
		p.Plane.SlopeZ += ratio * plane.SlopeZ
	}
}

// put adds forces of tendon i on a body to the parts of all tendons, or to its own
// where it is kept apart. Of pretensioned strands kept apart what is sure acts with
// all, and what may be more is kept apart.
func (s *Station) put(all, apart []Part, i int, state *State, f section.Forces) {
	at, slots := &s.Tendons[i], s.slots()
	k := int(at.kept) - 1
	switch {
	case k < 0:
		s.spread(all, state, f, 1)
	case !at.grown:
		s.spread(apart[k*slots:(k+1)*slots], state, f, 1)
	default:
		s.spread(all, state, f, at.Least)
		s.spread(apart[k*slots:(k+1)*slots], state, f, at.Most-at.Least)
	}
}
