package ledger

import "slices"

// interval is a part of a stretch in which a corner is within the spread of the
// same anchors.
type interval struct {
	from, to float64
	apart    []int // of Stretch.spreading: those not in full
}

// parts are the intervals of a corner, kept for all situations with as many steps:
// they have stressed the same tendons.
func (d *Demand) parts(p *Stretch, corner int) []interval {
	key := d.situation.Steps
	if d.full {
		key = -1 - key
	}
	known := p.intervals[key]
	if known == nil {
		if p.intervals == nil {
			p.intervals = map[int][][]interval{}
		}
		known = make([][]interval, len(p.all))
		p.intervals[key] = known
	}
	if known[corner] == nil {
		known[corner] = d.cut(p, corner)
	}
	return known[corner]
}

func (d *Demand) cut(p *Stretch, corner int) []interval {
	first, last := p.At[0].X, p.At[Nodes-1].X
	if len(p.spreading) == 0 {
		return []interval{{first, last, nil}}
	}
	cuts := make([]float64, 0, 2+len(p.spreading))
	cuts = append(cuts, first, last)
	for i := range p.spreading {
		s := &p.spreading[i]
		if !d.stressed(s) {
			continue
		}
		reached := s.from[corner]
		if d.alone(s) {
			reached = s.end()
		}
		if reached > first && reached < last {
			cuts = append(cuts, reached)
		}
	}
	slices.Sort(cuts)
	list := make([]interval, 0, len(cuts)-1)
	for i := 1; i < len(cuts); i++ {
		part := interval{from: cuts[i-1], to: cuts[i]}
		if part.to-part.from < 1e-9*(last-first) {
			continue
		}
		part.apart = slices.Clone(d.apartAt(p, corner, (part.from+part.to)/2))
		list = append(list, part)
	}
	return list
}
