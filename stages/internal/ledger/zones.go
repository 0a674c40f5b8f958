package ledger

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
)

// slope is the tangent of the half-angle at which an anchor force spreads, EN
// 1992-1-1:2004 8.10.3(5): 2/3.
const slope = 2.0 / 3

// zone is the length in which the force of one anchor spreads over the section.
type zone struct {
	tendon   int
	anchor   float64 // x, m
	ahead    float64 // +1 for an anchor that presses to the right, −1 to the left
	point    section.Point
	farthest float64           // the longest way through the concrete to a corner, m
	ways     map[int][]float64 // by piece: to the ends of its wall cuts, m
	corners  map[int][]float64 // by piece with a constant section: to its corners and the points between them, m
	grows    float64           // of pretensioned strands: the length over which their force is uncertain, m
}

// end is where the force has spread over the whole section, or grown in full (m).
func (z *zone) end() float64 {
	if z.grows > 0 {
		return z.anchor + z.ahead*z.grows
	}
	return z.anchor + z.ahead*z.farthest/slope
}

// spreading is an anchor in a stretch that its zone meets: where each corner of the
// outline is within the spread.
type spreading struct {
	*zone
	own  int       // the first anchor of the same tendon in the stretch: its part is kept there where the zones of both ends meet
	from []float64 // of each corner: x from which on, in the direction ahead, it is within the spread
	ways []float64 // to each of the ends of wall cuts of its piece, m
}

// makeZones finds how far the force of each anchor spreads. The way to the
// farthest corner of what its piece ever acts with is measured on the section just ahead
// of the anchor.
func (l *Ledger) makeZones() error {
	for i := range l.Girder.Tendons {
		t := &l.Girder.Tendons[i]
		for _, end := range []struct{ x, ahead float64 }{{t.Path.From(), 1}, {t.Path.To(), -1}} {
			z := zone{tendon: i, anchor: end.x, ahead: end.ahead, point: t.Path.At(end.x)}
			if t.Grip != nil {
				if z.grows = t.Grip.Left; end.ahead < 0 {
					z.grows = t.Grip.Right
				}
				if z.grows > 0 {
					l.zones = append(l.zones, z)
				}
				continue
			}
			s := l.station(end.x + end.ahead*Inset*l.Girder.Length)
			l.corners(s, nil)
			ways, err := l.ways(s, &z)
			if err != nil {
				return err
			}
			for k, w := range ways {
				if l.meet(s, s.Tendons[i].Slot, s.Corners[k].Slot) {
					z.farthest = math.Max(z.farthest, w)
				}
			}
			l.zones = append(l.zones, z)
		}
	}
	return nil
}

// spreadingIn are the anchors whose zones meet a stretch.
func (l *Ledger) spreadingIn(from, to float64) []spreading {
	var list []spreading
	near := 5 * Inset * l.Girder.Length
	for k := range l.zones {
		z := &l.zones[k]
		low, high := math.Min(z.anchor, z.end()), math.Max(z.anchor, z.end())
		if low < to-near && high > from+near {
			own := slices.IndexFunc(list, func(s spreading) bool { return s.tendon == z.tendon })
			if own < 0 {
				own = len(list)
			}
			list = append(list, spreading{zone: z, own: own})
		}
	}
	return list
}

// measureSpreading finds where each corner of a stretch comes within the spread of
// the anchors.
func (l *Ledger) measureSpreading(p *Stretch) error {
	for k := range p.spreading {
		r := &p.spreading[k]
		if r.grows > 0 { // the whole section alike
			r.from = make([]float64, len(p.At[0].Corners))
			for i := range r.from {
				r.from[i] = r.end()
			}
			continue
		}
		ways, err := l.ways(p.At[Nodes/2], r.zone)
		if err != nil {
			return err
		}
		for i := range ways {
			ways[i] = r.anchor + r.ahead*ways[i]/slope
		}
		r.from = ways
	}
	return nil
}

// ways are the lengths of the shortest ways through the concrete from an anchor
// to each corner of a station. An anchor that is not in the outline there,
// as on a blister, presses where its tendon is.
func (l *Ledger) ways(s *Station, z *zone) ([]float64, error) {
	lengths := make([]float64, len(s.Corners))
	at := &s.Tendons[z.tendon]
	for slot := range s.Pieces {
		var corners []section.Point
		var index []int
		for i, c := range s.Corners {
			if c.Slot == slot {
				corners, index = append(corners, c.At), append(index, i)
			}
		}
		if at.Slot != slot { // another piece: only by the joint between them
			for _, i := range index {
				lengths[i] = math.Inf(1)
			}
			continue
		}
		from, off := z.point, 0.0
		if shape := s.Pieces[slot].Shape; !(shape.Clearance(from) > 0) {
			from = at.At
			if l.Girder.Tendons[z.tendon].External {
				from, off = nearestOf(shape, z.point)
			}
		}
		way := z.corners[s.Pieces[slot].Index]
		if len(way) != len(corners) || from != z.point {
			var err error
			if way, err = s.Pieces[slot].Shape.Ways().Lengths([]section.Point{from}, corners); err != nil {
				return nil, err
			}
			z.keep(l, &s.Pieces[slot], from, way)
		}
		for n, i := range index {
			lengths[i] = off + way[n]
		}
	}
	for i, w := range lengths { // what the force reaches by no way in its own piece is not counted on within the zone
		if math.IsInf(w, 1) {
			lengths[i] = 10 * (s.Pieces[0].Gross.Top + s.Pieces[0].Gross.Bottom)
		}
	}
	return lengths, nil
}

// keep keeps the ways from the anchor itself to the corners of a constant section.
func (z *zone) keep(l *Ledger, piece *PieceAt, from section.Point, ways []float64) {
	if !l.constant(piece.Index) || from != z.point {
		return
	}
	if z.corners == nil {
		z.corners = map[int][]float64{}
	}
	z.corners[piece.Index] = ways
}

// constant is true for a piece with one outline.
func (l *Ledger) constant(piece int) bool {
	_, is := l.Girder.Pieces[piece].Section.(section.Shape)
	return is
}

// Zone is the anchors of one end face and how far their forces spread.
type Zone struct {
	Tendons            []int
	Anchor, Ahead, End float64 // x, m; +1 where they press to the right, −1 to the left; x where all have spread, m
}

// Zones are the anchorage zones of the girder, by end face.
func (l *Ledger) Zones() []Zone {
	var list []Zone
	near := 1e-6 * l.Girder.Length
	for k := range l.zones {
		z := &l.zones[k]
		at := slices.IndexFunc(list, func(f Zone) bool { return f.Ahead == z.ahead && math.Abs(f.Anchor-z.anchor) < near })
		if at < 0 {
			at, list = len(list), append(list, Zone{Anchor: z.anchor, Ahead: z.ahead, End: z.anchor})
		}
		f := &list[at]
		f.Tendons = append(f.Tendons, z.tendon)
		if end := math.Max(0, math.Min(l.Girder.Length, z.end())); z.ahead*(end-f.End) > 0 {
			f.End = end
		}
	}
	return list
}
