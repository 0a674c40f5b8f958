package ledger

// fieldOn is internal forces on a section, measured at the nodes of the grid.
type fieldOn struct {
	state *State
	field Field
	parts [][]Part // of each stretch, node by node, piece by piece
	warps warped   // once they were asked for
}

type fieldKey struct {
	state *State
	field Field
}

// field is forces on a section, kept for all situations in which they act.
func (l *Ledger) field(state *State, field Field) *fieldOn {
	key := fieldKey{state, field}
	f := l.fields[key]
	if f == nil {
		if l.fields == nil {
			l.fields = map[fieldKey]*fieldOn{}
		}
		f = &fieldOn{state: state, field: field, parts: make([][]Part, len(l.grid))}
		l.fields[key] = f
	}
	return f
}

// findFields gives every entry its field.
func (l *Ledger) findFields(s *Situation) {
	if s.fields != nil {
		return
	}
	l.findLast(s)
	s.carried = make([]bool, len(l.Girder.Pieces))
	for i := range s.Entries {
		for _, k := range s.Entries[i].State.Pieces {
			s.carried[k] = true
		}
	}
	s.fields = make([]*fieldOn, len(s.Entries))
	for i := range s.Entries {
		s.fields[i] = l.field(s.Entries[i].State, s.Entries[i].Field)
	}
	s.sums = make([]*sum, len(s.products))
	for g := range s.products {
		s.sums[g] = l.sumOf(s, g)
	}
}

// spreadField adds what a field does at a station, times a coefficient.
func (l *Ledger) spreadField(to []Part, f *fieldOn, at *Station, coefficient float64, n node) {
	switch {
	case at.States[f.state.Index].Area == 0: // beyond its body
	case n == offGrid:
		at.spread(to, f.state, f.field.At(at.X), coefficient)
	default:
		addAll(to, f.known(l, n, at.slots()), coefficient)
	}
}

// known is what the field does at a node.
func (f *fieldOn) known(l *Ledger, n node, slots int) []Part {
	if f.parts[n.stretch] == nil {
		f.parts[n.stretch] = make([]Part, Nodes*slots)
		for i, at := range l.grid[n.stretch].At {
			at.spread(f.parts[n.stretch][i*slots:(i+1)*slots], f.state, f.field.At(at.X), 1)
		}
		l.warpField(f, n.stretch, slots)
	}
	return f.parts[n.stretch][n.index*slots : (n.index+1)*slots]
}
