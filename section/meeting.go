package section

import (
	"fmt"
	"math"
)

// clear checks that no two edges of the taper meet on the way. Both ends are
// valid shapes, so without a meeting every shape between them is valid too.
func (t taper) clear() error {
	edges := t.edges()
	search := search{
		gap:    thinnest * math.Max(extent(t.At(t.from).outlines), extent(t.At(t.to).outlines)),
		budget: 10*len(edges)*len(edges) + 1_000_000,
	}
	for i, one := range edges {
		for _, other := range edges[:i] {
			if at, meets := search.meeting(one, other); meets {
				place := one.from.at(at)
				return fmt.Errorf("%w: Taper: the edge from corner %d of %s meets the edge from corner %d of %s at x = %.4g m (y = %.4g m, z = %.4g m): must be outlines that stay apart on the way",
					ErrShape, other.corner+1, outlineLabel(other.outline, t.solids), one.corner+1, outlineLabel(one.outline, t.solids),
					t.from+at*(t.to-t.from), place.Y, place.Z)
			}
		}
	}
	return nil
}

// movingEdge is an edge between two moving corners of an outline.
type movingEdge struct {
	from, to              path
	outline, corner, last int // last is the number of the outline's last corner
}

func (t taper) edges() []movingEdge {
	var edges []movingEdge
	for k, outline := range t.outlines {
		for i := range outline {
			edges = append(edges, movingEdge{outline[i], outline[(i+1)%len(outline)], k, i, len(outline) - 1})
		}
	}
	return edges
}

// precedes is true when other begins where e ends.
func (e movingEdge) precedes(other movingEdge) bool {
	return e.outline == other.outline && (e.corner+1 == other.corner || e.corner == e.last && other.corner == 0)
}

// distance is how far two edges are from meeting at t: for neighbours, how far
// they are from folding onto each other.
func (e movingEdge) distance(other movingEdge, t float64) float64 {
	if other.precedes(e) {
		e, other = other, e
	}
	a, b, c, d := e.from.at(t), e.to.at(t), other.from.at(t), other.to.at(t)
	if e.precedes(other) {
		return math.Min(math.Min(pointToEdge(d, a, b), pointToEdge(a, c, d)), math.Hypot(b.Y-a.Y, b.Z-a.Z))
	}
	return edgeDistance(a, b, c, d)
}

// speed bounds how fast that distance can change between t and u. Velocities
// are linear in t, so the largest relative one is at an end, between ends of
// edges.
func (e movingEdge) speed(other movingEdge, t, u float64) float64 {
	fastest := 0.0
	for _, at := range [2]float64{t, u} {
		for _, p := range [2]path{e.from, e.to} {
			for _, q := range [2]path{other.from, other.to} {
				v := p.velocity(at).minus(q.velocity(at))
				fastest = math.Max(fastest, math.Hypot(v.Y, v.Z))
			}
		}
		v := e.to.velocity(at).minus(e.from.velocity(at))
		fastest = math.Max(fastest, math.Hypot(v.Y, v.Z))
	}
	return fastest
}

// search looks for meetings with a limit to its work, so that hostile input
// cannot hang it: when the budget is spent the edges count as meeting.
type search struct {
	gap    float64
	budget int
}

// meeting finds a t between 0 and 1 at which the edges are within the gap.
func (s *search) meeting(one, other movingEdge) (float64, bool) {
	return s.within(one, other, 0, 1)
}

func (s *search) within(one, other movingEdge, from, to float64) (float64, bool) {
	s.budget--
	middle, half := (from+to)/2, (to-from)/2
	distance := one.distance(other, middle)
	// Written so that a distance that is not a number counts as meeting.
	if !(distance > s.gap) || s.budget < 0 || half < 1e-12 {
		return middle, true
	}
	if distance-half*one.speed(other, from, to) > s.gap {
		return 0, false
	}
	if at, meets := s.within(one, other, from, middle); meets {
		return at, true
	}
	return s.within(one, other, middle, to)
}
