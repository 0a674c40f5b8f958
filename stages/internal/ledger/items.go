package ledger

import (
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
)

// Item is a row of the sum that a stress is: an entry, or what one tendon does on
// the section of one day.
type Item struct {
	Entry  int // in Situation.Entries; −1 for a tendon
	Tendon int // −1 for an entry
	State  *State
	Force  float64 // of the tendon on this section, losses on it taken off, N
	At     TendonAt
	Forces section.Forces // nominal, about the fixed axis
	Factor []float64      // of its causes: inner, then outer, as Causes
	Causes []int          // in the causes of the demand; −1 for the part of a tendon that has spread, of pretensioned strands that is transmitted
}

// Items are the rows at x of a situation under stated factors, one for each cause,
// with parts of tendons that have not spread.
func (l *Ledger) Items(s *Situation, x float64, factors []float64, apart []ApartAt) []Item {
	at := l.At(x)
	list := make([]Item, 0, len(s.Entries)+len(at.here)*(1+s.Steps/2))
	for i := range s.Entries {
		e := &s.Entries[i]
		item := Item{Entry: i, Tendon: -1, State: e.State, Forces: e.Field.At(at.X).Times(e.Coefficient)}
		if item.Forces == (section.Forces{}) || at.States[e.State.Index].Area == 0 {
			continue
		}
		if e.Inner >= 0 {
			item.Causes, item.Factor = append(item.Causes, e.Inner), append(item.Factor, factors[e.Inner])
		}
		for _, o := range e.Outer {
			item.Causes, item.Factor = append(item.Causes, o), append(item.Factor, factors[o])
		}
		list = append(list, item)
	}
	for _, i := range at.here {
		list = l.tendonItems(list, s, at, i, factors, apart)
	}
	return list
}

// tendonItems adds what one tendon does, by the section on which it does it.
func (l *Ledger) tendonItems(list []Item, s *Situation, at *Station, i int, factors []float64, apart []ApartAt) []Item {
	t, from := &at.Tendons[i], len(list)
	causes, factor := []int{s.Prestress}, []float64{factors[s.Prestress]} // all of them have these in common
	for _, a := range apart {
		if a.Tendon == i {
			causes, factor = append(causes, -1), append(factor, t.share(a.Factor))
		}
	}
	add := func(state *State, force float64) {
		if state == nil || force == 0 {
			return
		}
		k := len(list) - 1 // the last first: it is that of the step before
		for k >= from && list[k].State != state {
			k--
		}
		if k < from {
			k, list = len(list), append(list, Item{Entry: -1, Tendon: i, State: state, At: *t, Causes: slices.Clip(causes), Factor: slices.Clip(factor)})
		}
		list[k].Force += force
	}
	for k := range l.Steps[:s.Steps] {
		step := &l.Steps[k]
		change := at.Steps[k+1].Force[i] - at.Steps[k].Force[i]
		n := slices.Index(step.Tendons, i)
		if n >= 0 && l.Girder.Tendons[i].Grip != nil {
			change = step.Force[n](at.X)
		}
		if n >= 0 || !step.Bonded[i] { // the loss of a bonded tendon is in the transformed section
			add(at.body(step.States, t.Slot), change)
		}
	}
	if s.Times != nil {
		loss := l.lostAt(s, at, i)
		add(s.Times[at.Pieces[t.Slot].Index].Concrete, -loss.Total()*t.Area)
	}
	for k := from; k < len(list); k++ {
		list[k].Forces = t.onConcrete(list[k].Force)
	}
	return list
}

// TendonForce is the force of a tendon at x in a situation (N) and the parts of its
// time-dependent loss are in losses (Pa).
func (l *Ledger) TendonForce(s *Situation, x float64, i int) (force, elastic float64) {
	at := l.At(x)
	if !at.Tendons[i].Here {
		return 0, 0
	}
	l.findFields(s)
	force = at.Steps[s.Steps].Force[i]
	elastic = l.locked(s, i, x) - force
	lost := l.lostAt(s, at, i)
	return force - lost.Total()*at.Tendons[i].Area, elastic
}

// StepLoss is the elastic loss of stress of a tendon at x in step k (Pa): what its force
// loses when others are stressed.
func (l *Ledger) StepLoss(k int, x float64, i int) float64 {
	at := l.At(x)
	t := &at.Tendons[i]
	if !t.Here || t.Area == 0 {
		return 0
	}
	return (at.Steps[k].Force[i] - at.Steps[k+1].Force[i]) / t.Area
}

// TimeLosses are the losses by creep, shrinkage and relaxation of a tendon at x in
// a situation (Pa).
func (l *Ledger) TimeLosses(s *Situation, x float64, i int) tendon.Losses {
	return l.lostAt(s, l.At(x), i)
}
