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
	twin     int               // the tendon that mirrors it in a symmetric section; −1 for none
	anchor   float64           // x, m
	ahead    float64           // +1 for an anchor that presses to the right, −1 to the left
	points   []section.Point   // of the anchors of tendon and twin
	farthest float64           // the longest way through the concrete from the tendon to a corner, m
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
	l.findTwins()
	for i := range l.Girder.Tendons {
		t := &l.Girder.Tendons[i]
		if l.leads[i] != i {
			continue
		}
		for _, end := range []struct{ x, ahead float64 }{{t.Path.From(), 1}, {t.Path.To(), -1}} {
			z := zone{tendon: i, twin: l.twinOf(i), anchor: end.x, ahead: end.ahead, points: []section.Point{t.Path.At(end.x)}}
			if z.twin >= 0 {
				z.points = append(z.points, l.Girder.Tendons[z.twin].Path.At(end.x))
			}
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
			alone := z // a pair of which one is stressed spreads from that one
			alone.points, alone.twin = z.points[:1], -1
			ways, err := l.ways(s, &alone)
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
	at, points := &s.Tendons[z.tendon], z.points
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
		from, off := points, 0.0
		if shape := s.Pieces[slot].Shape; !(shape.Clearance(points[0]) > 0) {
			from = z.here(s)
			if l.Girder.Tendons[z.tendon].External {
				from = make([]section.Point, len(points))
				for n, p := range points {
					from[n], off = nearestOf(shape, p)
				}
			}
		}
		way := z.corners[s.Pieces[slot].Index]
		anchors := &from[0] == &points[0]
		if len(way) != len(corners) || !anchors {
			var err error
			if way, err = s.Pieces[slot].Shape.Ways().Lengths(from, corners); err != nil {
				return nil, err
			}
			if anchors {
				z.keep(l, &s.Pieces[slot], way)
			}
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

// here are the places of tendon and twin at a station.
func (z *zone) here(s *Station) []section.Point {
	list := []section.Point{s.Tendons[z.tendon].At}
	if z.twin >= 0 {
		list = append(list, s.Tendons[z.twin].At)
	}
	return list
}

// keep keeps the ways from the anchors themselves to the corners of a constant section.
func (z *zone) keep(l *Ledger, piece *PieceAt, ways []float64) {
	if !l.constant(piece.Index) {
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
		if f.Tendons = append(f.Tendons, z.tendon); z.twin >= 0 {
			f.Tendons = append(f.Tendons, z.twin)
		}
		if end := math.Max(0, math.Min(l.Girder.Length, z.end())); z.ahead*(end-f.End) > 0 {
			f.End = end
		}
	}
	return list
}
