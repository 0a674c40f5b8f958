package ledger

import "github.com/tempstage/tempstage/section"

// measureEnds finds the ways to the ends of the cuts of a piece of a stretch, from the
// anchors of its own tendons; a constant piece has the same along it.
func (l *Ledger) measureEnds(p *Stretch, slot int) error {
	side := p.of(slot)
	if side.ends != nil || len(p.spreading) == 0 {
		return nil
	}
	at := p.At[Nodes/2]
	piece := &at.Pieces[slot]
	net, err := l.wallsOf(piece)
	if err != nil {
		return err
	}
	ends := make([]section.Point, 0, 2*len(net.Cuts))
	for _, c := range net.Cuts {
		ends = append(ends, c.From, c.To)
	}
	constant := l.constant(piece.Index)
	for i := range p.spreading {
		s := &p.spreading[i]
		if s.grows > 0 || p.slotOf(s) != slot {
			continue
		}
		if s.ways = s.zone.ways[piece.Index]; s.ways != nil && constant {
			continue
		}
		from := s.points
		if !(piece.Shape.Clearance(from[0]) > 0) {
			from = s.here(at)
		}
		if s.ways, err = piece.Shape.Ways().Lengths(from, ends); err != nil {
			return err
		}
		if s.zone.ways == nil {
			s.zone.ways = map[int][]float64{}
		}
		s.zone.ways[piece.Index] = s.ways
	}
	side.ends = ends
	return nil
}

// slotOf is the piece of a stretch in which a tendon is whose anchor spreads.
func (p *Stretch) slotOf(s *spreading) int { return p.At[Nodes/2].Tendons[s.tendon].Slot }
