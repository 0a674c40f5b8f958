package section

import (
	"math"
	"slices"
)

// CutPart is a part of a straight line in the concrete, from face to face, or along a
// face.
type CutPart struct {
	Cut
	Face bool // it runs along a face
}

// Within are the parts of a cut that are in the concrete or along its faces, in the
// order from its beginning to its end: of a cut through joined parts, what is in one of
// them. Lines closer than a millionth of the whole are one.
func (s Shape) Within(c Cut) []CutPart {
	var list []CutPart
	length := c.Thickness()
	for _, span := range s.spans(c) {
		from, to := math.Max(0, span.from), math.Min(length, span.to)
		if to-from > s.touch() {
			list = append(list, CutPart{Cut{between(c.From, c.To, from/length), between(c.From, c.To, to/length)}, span.face})
		}
	}
	return list
}

// Extended is a cut made longer, either way, to the faces of the concrete round its
// middle; false where that is not in the concrete.
func (s Shape) Extended(c Cut) (Cut, bool) {
	length := c.Thickness()
	for _, span := range s.spans(c) {
		if !span.face && span.from < length/2 && span.to > length/2 {
			return Cut{between(c.From, c.To, span.from/length), between(c.From, c.To, span.to/length)}, true
		}
	}
	return Cut{}, false
}

// touch is how near points are one (m).
func (s Shape) touch() float64 { return thinnest * extent(s.outlines) }

// span is a part of a line, in m from its beginning.
type span struct {
	from, to float64
	face     bool
}

// spans are the parts of the line through a cut that are in the concrete or along its
// faces.
func (s Shape) spans(c Cut) []span {
	if s.Empty() {
		return nil
	}
	length, near := c.Thickness(), s.touch()
	if !(length > near) {
		return nil
	}
	way := Point{(c.To.Y - c.From.Y) / length, (c.To.Z - c.From.Z) / length}
	var places []float64
	for _, o := range s.outlines {
		for i := range o {
			places = append(places, meeting(way, o[i].minus(c.From), o.next(i).minus(c.From), near)...)
		}
	}
	slices.Sort(places)
	places = slices.CompactFunc(places, func(a, b float64) bool { return math.Abs(b-a) <= near })
	var list []span
	for i := 1; i < len(places); i++ {
		one := span{from: places[i-1], to: places[i]}
		middle := (one.from + one.to) / 2
		clearance := s.Clearance(Point{c.From.Y + middle*way.Y, c.From.Z + middle*way.Z})
		if one.face = math.Abs(clearance) <= near; clearance < -near {
			continue
		}
		if n := len(list); n > 0 && list[n-1].to == one.from && list[n-1].face == one.face { // past a corner
			list[n-1].to = one.to
			continue
		}
		list = append(list, one)
	}
	return list
}

// meeting is where the line from the origin along a unit vector meets an edge from a to b
// (m): both ends of an edge that is on it.
func meeting(way, a, b Point, near float64) (list []float64) {
	from, to := cross(way, a), cross(way, b)
	for _, end := range [2]Point{a, b} {
		if math.Abs(cross(way, end)) <= near {
			list = append(list, dot(way, end))
		}
	}
	if len(list) == 0 && from*to < 0 {
		list = append(list, dot(way, between(a, b, from/(from-to))))
	}
	return list
}
