package ledger

import (
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
)

// LossParts is what the time-dependent loss of a tendon at one x comes from.
type LossParts struct {
	Force    float64            // of the tendon at the end of its stressing, N
	At       section.Point      // where it is, m
	Period   tendon.Period      // since its stressing
	Place    tendon.Place       // its stress, the stiffening and the creep strain
	Steel    float64            // area of the tendons stressed with it or before, m²
	Centre   section.Point      // of that area, m
	Concrete section.Properties // gross section of its piece
	Crept    []Crept            // lasting stresses by day and section, in order
}

// Crept is the lasting stress of one day on one section, beside a tendon.
type Crept struct {
	Day     float64 // of the project
	Stress  float64 // of the concrete, tension +, Pa
	Forces  section.Forces
	On      section.Properties // section of the day, about whose centroid the moments of Forces are
	Phi     float64            // part of the creep coefficient since the tendon was stressed
	Modulus float64            // to which it relates, Pa
	Came    []int              // what brought it: numbers of the lasting changes, from 0
}

// PartsOfLoss are those of a tendon at x in a situation; ok is false for an external tendon
// and for one that has no loss there.
func (l *Ledger) PartsOfLoss(s *Situation, x float64, i int) (p LossParts, ok bool) {
	at := l.At(x)
	if s.Times == nil || l.Girder.Tendons[i].External || !l.loses(s, at, i) {
		return p, false
	}
	l.findFields(s)
	t := &at.Tendons[i]
	time := s.Times[at.Pieces[t.Slot].Index]
	came := l.lasting(s, at, offGrid)
	p = LossParts{
		Force: l.initial(s, at, i), At: t.At, Period: time.Periods[i], Place: l.place(s, at, i, l.stressed(s, at, i), came), Concrete: at.Pieces[t.Slot].Gross,
	}
	for k := range at.Tendons {
		if u := &at.Tendons[k]; u.Here && u.Slot == t.Slot && time.Days[k] >= time.Days[i] {
			p.Steel += u.Area
			p.Centre.Y += u.Area * u.At.Y
			p.Centre.Z += u.Area * u.At.Z
		}
	}
	p.Centre.Y, p.Centre.Z = p.Centre.Y/p.Steel, p.Centre.Z/p.Steel
	p.Crept = l.creptBy(at, time, i, came)
	return p, true
}

// creptBy are the lasting stresses beside a tendon since which it creeps, those of one day
// and section together.
func (l *Ledger) creptBy(at *Station, time *Time, i int, came []Part) []Crept {
	t, slots := &at.Tendons[i], at.slots()
	var list []Crept
	var states []*State // of list
	for e, phi := range time.Since[i] {
		of := &came[e*slots+t.Slot]
		if of.Plane.Plane == (section.Plane{}) {
			continue
		}
		state := l.stateOf(at, e, t.Slot)
		n := slices.IndexFunc(list, func(c Crept) bool { return c.Day == l.Lasting[e].Day })
		if n < 0 || states[n] != state {
			n, states = len(list), append(states, state)
			list = append(list, Crept{Day: l.Lasting[e].Day, Phi: phi, Modulus: time.Modulus[e]})
			if state != nil {
				list[n].On = l.properties(at, state)
			}
		}
		list[n].Came = append(list[n].Came, e)
		list[n].Stress += of.Plane.Plane.At(t.At)
		list[n].Forces = list[n].Forces.Plus(About(at.forcesOn(came[e*slots:(e+1)*slots], state), list[n].On.Centroid))
	}
	return list
}

// stateOf is the section on which lasting change e came; nil for none.
func (l *Ledger) stateOf(at *Station, e, slot int) *State {
	if entry := l.Lasting[e].Entry; entry != nil {
		return entry.State
	}
	return at.body(l.Steps[l.Lasting[e].Step].States, slot)
}
