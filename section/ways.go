package section

import (
	"fmt"
	"math"
	"sort"
)

// Ways measures how far it is through the concrete of a Shape: along the walls,
// never through air or a void. The force of an anchor spreads that way (EN
// 1992-1-1:2004, 8.10.3(5), tan β = 2/3): down the web, then out along the slab.
//
// A shortest way is straight but for bends at re-entrant corners (de Berg and
// others, Computational Geometry, 2008, chapter 15), so it is exact for polygons.
// Make it once with [Shape.Ways]; it may be used from several goroutines.
type Ways struct {
	sight sight
	bends []bend
	links [][]link // from each bend to those in its sight
}

// bend is a corner round which a shortest way may turn.
type bend struct {
	at           Point
	before, next Point // towards its neighbours
}

// link is a straight way to a bend.
type link struct {
	to     int
	length float64 // m
}

// Ways is the net of straight ways between the re-entrant corners of the shape,
// found once for all copies of it.
func (s Shape) Ways() Ways {
	w, _ := keep(s, func(k *kept) *found[Ways] { return &k.ways }, Shape.findWays)
	return w
}

func (s Shape) findWays() (Ways, error) {
	w := Ways{sight: s.sight()}
	for _, o := range s.outlines {
		for i, corner := range o {
			before, next := o[(i+len(o)-1)%len(o)].minus(corner), o.next(i).minus(corner)
			if cross(before, next) > 0 {
				w.bends = append(w.bends, bend{corner, before, next})
			}
		}
	}
	w.links = make([][]link, len(w.bends))
	for i, b := range w.bends {
		for j, c := range w.bends[:i] {
			if b.taut(c.at) && c.taut(b.at) && w.sight.clear(b.at, c.at) {
				length := math.Hypot(b.at.Y-c.at.Y, b.at.Z-c.at.Z)
				w.links[i], w.links[j] = append(w.links[i], link{j, length}), append(w.links[j], link{i, length})
			}
		}
	}
	return w, nil
}

// taut is false when a way from p could not bend round the corner without being
// shortened: when the corner's edges are on both sides of it.
func (b bend) taut(p Point) bool {
	way := p.minus(b.at)
	left, right := cross(way, b.before), cross(way, b.next)
	size := dot(way, way) + dot(b.before, b.before) + dot(b.next, b.next)
	rounding := onTheLine * size
	return left >= -rounding && right >= -rounding || left <= rounding && right <= rounding
}

// Lengths is, for each point of to, the length of the shortest way from the
// nearest point of from (m); +Inf where they are in different solids, since no
// force spreads over a gap. Points on an outline are in the concrete. The error
// wraps [ErrShape] when from is empty or a point is outside the concrete, in a
// void or is not finite.
func (w Ways) Lengths(from, to []Point) ([]float64, error) {
	if len(from) == 0 {
		return nil, fmt.Errorf("%w: no point to measure from: must be at least one", ErrShape)
	}
	if err := w.holds("way from", from); err != nil {
		return nil, err
	}
	if err := w.holds("way to", to); err != nil {
		return nil, err
	}
	nearest := w.nearest(from)
	lengths := make([]float64, len(to))
	for i, p := range to {
		lengths[i] = w.length(p, from, nearest)
	}
	return lengths, nil
}

func (w Ways) holds(name string, points []Point) error {
	for _, p := range points {
		if !w.sight.holds(p) {
			return fmt.Errorf("%w: %s y = %g m, z = %g m: must be in the concrete", ErrShape, name, p.Y, p.Z)
		}
	}
	return nil
}

// nearest is the bends that can be reached, with their distances from the
// nearest point, in the order of these (Dijkstra, Numerische Mathematik 1, 1959).
func (w Ways) nearest(from []Point) []link {
	reached := make([]link, len(w.bends))
	for i, b := range w.bends {
		reached[i] = link{i, math.Inf(1)}
		for _, p := range from {
			if length := math.Hypot(p.Y-b.at.Y, p.Z-b.at.Z); length < reached[i].length && b.taut(p) && w.sight.clear(p, b.at) {
				reached[i].length = length
			}
		}
	}
	place := make([]int, len(w.bends)) // of each bend in reached
	for i := range place {
		place[i] = i
	}
	for done := range reached {
		next := done
		for i := done; i < len(reached); i++ {
			if reached[i].length < reached[next].length {
				next = i
			}
		}
		reached[done], reached[next] = reached[next], reached[done]
		place[reached[done].to], place[reached[next].to] = done, next
		for _, l := range w.links[reached[done].to] {
			there := &reached[place[l.to]]
			there.length = math.Min(there.length, reached[done].length+l.length)
		}
	}
	return reached[:sort.Search(len(reached), func(i int) bool { return math.IsInf(reached[i].length, 1) })]
}

// length is that of the shortest way to p: straight, or straight from a bend.
func (w Ways) length(p Point, from []Point, nearest []link) float64 {
	shortest := math.Inf(1)
	for _, q := range from {
		if length := math.Hypot(p.Y-q.Y, p.Z-q.Z); length < shortest && w.sight.clear(q, p) {
			shortest = length
		}
	}
	for _, l := range nearest {
		if l.length >= shortest {
			break
		}
		b := w.bends[l.to]
		if length := l.length + math.Hypot(p.Y-b.at.Y, p.Z-b.at.Z); length < shortest && b.taut(p) && w.sight.clear(b.at, p) {
			shortest = length
		}
	}
	return shortest
}
