package ledger

import (
	"slices"

	"github.com/tempstage/tempstage/section"
)

// acting is what acts on a piece of a stretch in a situation: forces on the piece alone,
// and on bodies of it and others.
type acting struct {
	alone  bool
	bodies []int // numbers among those of its stations
	varies bool  // with a piece whose outline is not constant
}

// actingOn is what acts on a piece of a stretch.
func (l *Ledger) actingOn(s *Situation, p *Stretch, slot int) *acting {
	if s.acting == nil {
		s.acting = map[*Stretch][]acting{}
	}
	list, known := s.acting[p]
	if !known {
		list = l.actingAt(s, p.At[0])
		s.acting[p] = list
	}
	return &list[slot]
}

func (l *Ledger) actingAt(s *Situation, at *Station) []acting {
	list := make([]acting, len(at.Pieces))
	for _, state := range l.statesOf(s) {
		switch holds := at.holds[state.Index]; {
		case holds < 0:
		case holds < len(at.Pieces):
			list[holds].alone = true
		default:
			number := holds - len(at.Pieces)
			for _, slot := range at.bodies[number].pieces() {
				if on := &list[slot]; !slices.Contains(on.bodies, number) {
					on.bodies, on.varies = append(on.bodies, number), on.varies || l.varies(at, at.bodies[number])
				}
			}
		}
	}
	return list
}

// varies is true for a body with a piece whose outline is not constant.
func (l *Ledger) varies(at *Station, b bodyAt) bool {
	return slices.ContainsFunc(b.pieces(), func(slot int) bool { return !l.constant(at.Pieces[slot].Index) })
}

// walled is true where the walls of a piece of a stretch are looked at: it is carried, and
// acts as one with none whose outline varies.
func (l *Ledger) walled(s *Situation, p *Stretch, slot int) bool {
	l.findFields(s)
	return s.carried[p.At[0].Pieces[slot].Index] && !l.actingOn(s, p, slot).varies
}

// meet is true where two pieces of a station are one, or ever act as one.
func (l *Ledger) meet(at *Station, one, other int) bool {
	return one == other || slices.ContainsFunc(l.States, func(s *State) bool {
		return s.Ratio(at.Pieces[one].Index) != 0 && s.Ratio(at.Pieces[other].Index) != 0
	})
}

// statesOf are the sections on which a situation acts: those of its entries, of its steps
// of stressing and of its losses.
func (l *Ledger) statesOf(s *Situation) []*State {
	list := []*State{}
	add := func(state *State) {
		if state != nil && !slices.Contains(list, state) {
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

// VaryingAsOne are the reaches (m) in which carried pieces at the same place act as one
// section and the outline of one of them varies: their walls are not looked at.
func (l *Ledger) VaryingAsOne(s *Situation) [][2]float64 {
	return l.reaches(s, func(on *acting) bool { return on.varies })
}

// AsOne are the reaches (m) in which carried pieces at the same place act as one section.
func (l *Ledger) AsOne(s *Situation) [][2]float64 {
	return l.reaches(s, func(on *acting) bool { return len(on.bodies) > 0 })
}

func (l *Ledger) reaches(s *Situation, counts func(*acting) bool) [][2]float64 {
	l.findFields(s)
	var list [][2]float64
	for k := range l.grid {
		p := &l.grid[k]
		for slot, piece := range p.At[0].Pieces {
			if s.carried[piece.Index] && counts(l.actingOn(s, p, slot)) {
				list = append(list, [2]float64{p.From, p.To})
				break
			}
		}
	}
	return l.Join(list)
}

// bodyNet is a body of several pieces with its walls.
type bodyNet struct {
	pieces []int
	ratios bodyAt
	shape  section.Shape
	walls  section.Walls
}

// netOn is the outline and the walls of a body at a station. The errors are those of
// [section.Joined] and [section.TransformedWalls].
func (l *Ledger) netOn(at *Station, bodies []bodyAt, number int) (*bodyNet, error) {
	net := &bodyNet{ratios: bodies[number]}
	for i := range at.Pieces {
		net.pieces = append(net.pieces, at.Pieces[i].Index)
	}
	for _, known := range l.nets {
		if slices.Equal(known.pieces, net.pieces) && slices.Equal(known.ratios, net.ratios) {
			return known, nil
		}
	}
	var shapes []section.Shape
	var pieces []section.Piece
	for _, slot := range net.ratios.pieces() {
		shape := at.Pieces[slot].Shape
		shapes, pieces = append(shapes, shape), append(pieces, section.Piece{Shape: shape, ModularRatio: net.ratios[slot]})
	}
	var err error
	if net.shape, err = section.Joined(shapes...); err != nil {
		return nil, err
	}
	if net.walls, err = section.TransformedWalls(pieces...); err != nil {
		return nil, err
	}
	l.nets = append(l.nets, net)
	return net, nil
}
