package section

import "math"

// sight tells whether the straight line between two points stays in the
// concrete. Lengths below reach are rounding: a point that close to an outline
// is on it, and a line that close to an edge runs along it.
type sight struct {
	outlines []Outline
	reach    float64 // m
}

// onTheLine is what counts as rounding, of the largest extent: it is a thousandth
// of the thinnest wall that [New] accepts, and far above float64's 1e-16.
const onTheLine = 1e-9

func (s Shape) sight() sight {
	if s.Empty() {
		return sight{}
	}
	return sight{outlines: s.outlines, reach: onTheLine * extent(s.outlines)}
}

// holds is true for a point in the concrete or on an outline.
func (s sight) holds(p Point) bool {
	inside := false
	for _, o := range s.outlines {
		if o.contains(p) {
			inside = !inside
		}
	}
	if inside {
		return true
	}
	for _, o := range s.outlines {
		for i := range o {
			if pointToEdge(p, o[i], o.next(i)) <= s.reach {
				return true
			}
		}
	}
	return false
}

// clear is true when the line from p to q leaves the concrete nowhere. Both must
// be in it. Concrete is on the left of every edge.
func (s sight) clear(p, q Point) bool {
	way := q.minus(p)
	length := math.Hypot(way.Y, way.Z)
	if length <= s.reach {
		return true
	}
	along := Point{way.Y / length, way.Z / length}
	for _, o := range s.outlines {
		before := cross(along, o[len(o)-1].minus(p)) // distance of a corner to the left of the line
		for i, corner := range o {
			off := cross(along, corner.minus(p))
			switch {
			case math.Abs(off) <= s.reach:
				if !s.passes(o, i, p, along, length) {
					return false
				}
			case math.Abs(before) > s.reach && (before > 0) != (off > 0):
				if s.leaves(o[(i+len(o)-1)%len(o)], corner, p, q) {
					return false
				}
			}
			before = off
		}
	}
	return true
}

// leaves is true when pq, whose line crosses the edge ab between its ends, comes
// to its right-hand side.
func (s sight) leaves(a, b, p, q Point) bool {
	edge := b.minus(a)
	length := math.Hypot(edge.Y, edge.Z)
	from, to := cross(edge, p.minus(a))/length, cross(edge, q.minus(a))/length
	return math.Min(from, to) < -s.reach && math.Max(from, to) >= -s.reach
}

// passes is true when a line from p, whose unit vector is along, may go through
// corner i of an outline, which is on it.
func (s sight) passes(o Outline, i int, p, along Point, length float64) bool {
	at := dot(along, o[i].minus(p))
	if at < -s.reach || at > length+s.reach {
		return true // the line ends before it
	}
	comes := at <= s.reach || s.within(o, i, Point{-along.Y, -along.Z}, at)
	goes := at >= length-s.reach || s.within(o, i, along, length-at)
	return comes && goes
}

// within is true when a line of the given length that starts at corner i in the
// direction of a unit vector starts in the concrete or along an edge.
func (s sight) within(o Outline, i int, direction Point, length float64) bool {
	in, out := o[i].minus(o[(i+len(o)-1)%len(o)]), o.next(i).minus(o[i])
	leftOf := func(edge Point) bool {
		size := math.Hypot(edge.Y, edge.Z)
		return cross(edge, direction)/size*math.Min(size, length) >= -2*s.reach
	}
	if cross(in, out) < 0 { // re-entrant: concrete fills more than half a turn
		return leftOf(in) || leftOf(out)
	}
	return leftOf(in) && leftOf(out)
}
