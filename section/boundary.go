package section

import (
	"math"
	"slices"
)

// element is a straight piece of an outline on which a potential runs on a
// parabola through three nodes: its ends and its middle. Concrete is on the
// left of it. Places are measured from the centroid.
type element struct {
	from   Point
	along  Point // unit vector
	out    Point // unit vector out of the concrete
	length float64
	nodes  [3]int // at its beginning, in its middle, at its end
	edge   int    // number of the edge it is a piece of
}

// place is the point at the fraction t of the element.
func (e *element) place(t float64) Point {
	return Point{e.from.Y + t*e.length*e.along.Y, e.from.Z + t*e.length*e.along.Z}
}

// boundary is the outlines of a shape cut into elements.
type boundary struct {
	elements []element
	nodes    []Point
	edges    int
	ends     [][]float64 // of the elements of each edge, as fractions of it, from 0 to 1
}

// fineness says how finely a boundary is cut.
type fineness struct {
	wall   float64 // longest element over the thickness of concrete behind it
	corner float64 // element at a sharp corner over what it would be without the corner
	away   float64 // least distance of any other element from a sharp corner over its length
}

// How a boundary is cut. The potential in a wall is smooth over a length of its
// thickness. At a corner its derivatives are not: at 90° outwards it holds
// r²·ln r, at 270° r^(2/3). Elements that halve towards the corner follow that;
// without them J of a thin angle is 0.4 % off, with them 0.03 %.
const (
	shortest = 1.0 / 512 // of an edge: what is behind an element makes it no shorter
	gentlest = 0.5       // rad: a corner that turns less, as between the chords of an arc, needs no grading
	slack    = 1 + 1e-9  // so that rounding does not decide whether an element is cut
)

// coarsest is where refinement starts.
var coarsest = fineness{wall: 2.5, corner: 1.0 / 16, away: 0.5}

// finer asks for elements half as long, and a quarter at corners: what a corner
// leaves of J, about its length to the power 4/3, then shrinks to a sixth, what the
// rest leaves to a sixteenth.
func (f fineness) finer() fineness {
	return fineness{wall: f.wall / 2, corner: f.corner / 4, away: f.away * 2}
}

// cut divides the outlines into elements, seen from origin, each at most half of
// that which coarser has there; it stops with ok false when there would be more
// nodes than most.
func (s Shape) cut(f fineness, coarser boundary, origin Point, most int) (b boundary, ok bool) {
	for _, outline := range s.outlines {
		first := len(b.nodes)
		for i := range outline {
			e := edge{
				from: outline[i], to: outline.next(i), shape: s, fineness: f,
				sharpFrom: outline.sharp(i), sharpTo: outline.sharp((i + 1) % len(outline)),
			}
			if b.edges < len(coarser.ends) {
				e.coarser = coarser.ends[b.edges]
			}
			ends := e.divide(0, 1, []float64{0})
			if len(b.nodes)+2*len(ends) > most {
				return b, false
			}
			for k := 1; k < len(ends); k++ {
				from, to := between(e.from, e.to, ends[k-1]), between(e.from, e.to, ends[k])
				b.add(from.minus(origin), to.minus(origin))
			}
			b.edges++
			b.ends = append(b.ends, ends)
		}
		b.elements[len(b.elements)-1].nodes[2] = first // the outline closes
	}
	return b, true
}

// add appends an element and its first two nodes; the third is the next one's.
func (b *boundary) add(from, to Point) {
	way := to.minus(from)
	length := math.Hypot(way.Y, way.Z)
	along := Point{way.Y / length, way.Z / length}
	n := len(b.nodes)
	b.nodes = append(b.nodes, from, between(from, to, 0.5))
	b.elements = append(b.elements, element{
		from: from, along: along, out: Point{along.Z, -along.Y}, length: length, nodes: [3]int{n, n + 1, n + 2},
		edge: b.edges,
	})
}

// nearest is the element that is nearest to p, the place on it and how far away.
func (b boundary) nearest(p Point) (k int, ξ, distance float64) {
	distance = math.Inf(1)
	for i := range b.elements {
		e := &b.elements[i]
		at := math.Max(0, math.Min(1, dot(p.minus(e.from), e.along)/e.length))
		off := p.minus(e.place(at))
		if d := math.Hypot(off.Y, off.Z); d < distance {
			k, ξ, distance = i, at, d
		}
	}
	return k, ξ, distance
}

// turn is by how much an outline turns left at corner i (rad); where it is
// negative the corner is re-entrant: concrete fills more than half a turn.
func (o Outline) turn(i int) float64 {
	before, after := o[i].minus(o[(i+len(o)-1)%len(o)]), o.next(i).minus(o[i])
	return math.Atan2(cross(before, after), dot(before, after))
}

// sharp is true for a corner that needs grading.
func (o Outline) sharp(i int) bool { return math.Abs(o.turn(i)) > gentlest }

// edge is an edge of an outline on its way to elements.
type edge struct {
	from, to           Point
	shape              Shape
	fineness           fineness
	sharpFrom, sharpTo bool      // its corners need grading
	coarser            []float64 // ends of the elements that are to be halved
}

// divide appends the ends of the elements between the fractions a and b of the
// edge, halving what is too long.
func (e edge) divide(a, b float64, ends []float64) []float64 {
	if e.tooLong(a, b) {
		middle := (a + b) / 2
		return e.divide(middle, b, e.divide(a, middle, ends))
	}
	return append(ends, b)
}

func (e edge) tooLong(a, b float64) bool {
	// Ends are sums of powers of 1/2, so an element is either one of coarser or
	// part of one.
	if i, whole := slices.BinarySearch(e.coarser, a); whole && i+1 < len(e.coarser) && e.coarser[i+1] <= b {
		return true
	}
	if b-a <= shortest {
		return false
	}
	way := e.to.minus(e.from)
	whole := math.Hypot(way.Y, way.Z)
	length, thickness := (b-a)*whole, math.Inf(1)
	if e.sharpFrom && e.sharpTo {
		thickness = whole // as the end face of a wall
	}
	for _, t := range [3]float64{0.25, 0.5, 0.75} {
		thickness = math.Min(thickness, e.shape.behind(between(e.from, e.to, a+t*(b-a)), way))
	}
	allowed := e.fineness.wall * thickness
	if length > allowed*slack {
		return true
	}
	room := e.fineness.away * (b - a) / slack
	nearCorner := e.sharpFrom && a < room || e.sharpTo && 1-b < room
	return nearCorner && length > e.fineness.corner*math.Min(allowed, whole)*slack
}

// behind is the thickness of concrete square to an edge at p that runs along
// way.
func (s Shape) behind(p, way Point) float64 {
	length := math.Hypot(way.Y, way.Z)
	return s.reach(p, Point{-way.Z / length, way.Y / length}, 1e-9*length)
}

// reach is the distance from p in the direction of a unit vector to the first
// edge farther than least; +Inf if there is none.
func (s Shape) reach(p, direction Point, least float64) float64 {
	nearest := math.Inf(1)
	for _, o := range s.outlines {
		for i := range o {
			a, b := o[i].minus(p), o.next(i).minus(p)
			ca, cb := cross(direction, a), cross(direction, b)
			if (ca > 0) == (cb > 0) {
				continue
			}
			if distance := dot(direction, between(a, b, ca/(ca-cb))); distance > least && distance < nearest {
				nearest = distance
			}
		}
	}
	return nearest
}
