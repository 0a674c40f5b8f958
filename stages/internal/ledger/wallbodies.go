package ledger

import "slices"

// alone is true where a piece of a stretch is carried and a body of its own: nothing of
// a situation acts on it together with another piece at the same place.
func (l *Ledger) alone(s *Situation, p *Stretch, slot int) bool {
	l.findFields(s)
	at := p.At[0]
	return s.carried[at.Pieces[slot].Index] && !l.shared(s, at, slot)
}

// shared is true where something acts on a piece of a station and another as one.
func (l *Ledger) shared(s *Situation, at *Station, slot int) bool {
	if len(at.Pieces) == 1 {
		return false
	}
	if s.used == nil {
		s.used = l.statesOf(s)
	}
	for _, state := range s.used {
		if state.joins(at, slot) {
			return true
		}
	}
	return false
}

// joins is true where a piece of a station and another are of one body.
func (s *State) joins(at *Station, slot int) bool {
	if s.Ratio(at.Pieces[slot].Index) == 0 {
		return false
	}
	for other := range at.Pieces {
		if other != slot && s.Ratio(at.Pieces[other].Index) != 0 {
			return true
		}
	}
	return false
}

// meet is true where two pieces of a station are one, or ever act as one.
func (l *Ledger) meet(at *Station, one, other int) bool {
	return one == other || slices.ContainsFunc(l.States, func(s *State) bool {
		return s.Ratio(at.Pieces[one].Index) != 0 && s.Ratio(at.Pieces[other].Index) != 0
	})
}

// statesOf are the sections of several pieces on which a situation acts: those of its
// entries, of its steps of stressing and of its losses.
func (l *Ledger) statesOf(s *Situation) []*State {
	list := []*State{}
	add := func(state *State) {
		if state != nil && len(state.Pieces) > 1 && !slices.Contains(list, state) {
			list = append(list, state)
		}
	}
	for i := range s.Entries {
		add(s.Entries[i].State)
	}
	for i := range l.Steps[:s.Steps] {
		for _, state := range l.Steps[i].States {
			add(state)
		}
	}
	for _, t := range s.Times {
		if t != nil {
			add(t.Concrete)
		}
	}
	return list
}

// ActingAsOne are the reaches (m) in which carried pieces at the same place act as one
// section in a situation: their walls are not looked at.
func (l *Ledger) ActingAsOne(s *Situation) [][2]float64 {
	l.findFields(s)
	var list [][2]float64
	for k := range l.grid {
		p := &l.grid[k]
		for slot, piece := range p.At[0].Pieces {
			if s.carried[piece.Index] && l.shared(s, p.At[0], slot) {
				list = append(list, [2]float64{p.From, p.To})
				break
			}
		}
	}
	return l.Join(list)
}
