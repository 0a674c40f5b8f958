package section

import (
	"math"
	"sort"
)

// face is an edge of an outline with the concrete on its left; places are
// measured from the centroid.
type face struct {
	from, to         Point
	along, in        Point // unit vectors
	length           float64
	outline          int
	before, after    int     // its neighbours
	turnFrom, turnTo float64 // of the outline at its ends, rad; negative where the corner is re-entrant
}

// spot is a place on a face.
type spot struct {
	face int
	part float64 // of the face's length, from its beginning
	at   Point
}

// station is a place on a face with the largest circle in the concrete that
// touches the face there: where the circle touches again is the other face of
// the wall, and the chord between the two is a cut square to the middle of the
// wall, whether its faces are parallel or not (the medial axis of Blum, 1967,
// seen from the outline).
type station struct {
	near, far spot
	centre    Point
	radius    float64
	flow      flows   // that pass the chord from near to far
	ratio     float64 // mean modular ratio across the wall
	middle    Point   // of what passes: half-way across a wall of one modulus
}

// chord is the length of the cut.
func (s station) chord() float64 {
	way := s.far.at.minus(s.near.at)
	return math.Sqrt(dot(way, way))
}

// skew is the angle between the cut and the face: half the angle between the
// wall's faces.
func (s station) skew() float64 {
	if s.radius == 0 {
		return math.Pi / 2
	}
	return math.Acos(math.Min(1, s.chord()/(2*s.radius)))
}

// way is how long the shear strain's field line across the wall is: an arc
// between two faces that are not parallel, whose chord is the cut.
func (s station) way() float64 {
	skew := s.skew()
	if skew < 1e-3 {
		return s.chord()
	}
	return s.chord() * skew / math.Sin(skew)
}

// faces lists the edges of a shape, seen from origin.
func (s Shape) faces(origin Point) []face {
	count := 0
	for _, o := range s.outlines {
		count += len(o)
	}
	faces := make([]face, 0, count)
	for k, o := range s.outlines {
		first := len(faces)
		for i := range o {
			a, b := o[i].minus(origin), o.next(i).minus(origin)
			way := b.minus(a)
			length := math.Sqrt(dot(way, way))
			along := Point{way.Y / length, way.Z / length}
			faces = append(faces, face{
				from: a, to: b, along: along, in: Point{-along.Z, along.Y}, length: length, outline: k,
				before: first + (i+len(o)-1)%len(o), after: first + (i+1)%len(o),
			})
		}
		for i := first; i < len(faces); i++ {
			before := faces[faces[i].before].along
			faces[i].turnFrom = math.Atan2(cross(before, faces[i].along), dot(before, faces[i].along))
			faces[faces[i].before].turnTo = faces[i].turnFrom
		}
	}
	return faces
}

// on is the spot at a fraction of a face.
func (n *wallNet) on(face int, part float64) spot {
	f := &n.faces[face]
	return spot{face, part, Point{f.from.Y + part*f.length*f.along.Y, f.from.Z + part*f.length*f.along.Z}}
}

// station is that at a fraction of a face, as it is reached and as it is left. In a
// sharp outward corner no circle has room.
func (n *wallNet) station(face int, part float64) (reached, left station) {
	f := &n.faces[face]
	near := n.on(face, part)
	switch {
	case part == 0 && f.turnFrom > gentlest:
		left = station{near: near, far: spot{f.before, 1, f.from}, centre: f.from}
		return left, left
	case part == 1 && f.turnTo > gentlest:
		left = station{near: near, far: spot{f.after, 0, f.to}, centre: f.to}
		return left, left
	}
	return n.inscribed(near, f.in)
}

// breaks are the fractions of a face where a re-entrant corner or the middle of
// a void is square to it: walls begin and end there.
func (n *wallNet) breaks(face int) []float64 {
	const apart = 1e-3 // of the face: a run of closer ones is one, in its middle
	f := &n.faces[face]
	parts := append(n.parts[:0], 0)
	add := func(p Point) {
		if part := dot(p.minus(f.from), f.along) / f.length; part > apart && part < 1-apart {
			parts = append(parts, part)
		}
	}
	for j := range n.faces {
		if n.faces[j].turnFrom < -gentlest {
			add(n.faces[j].from)
		}
	}
	for _, middle := range n.middles {
		add(middle)
	}
	sort.Float64s(parts)
	kept := parts[:1]
	for i := 1; i < len(parts); {
		first := parts[i]
		for i++; i < len(parts) && parts[i]-parts[i-1] <= apart; i++ {
		}
		kept = append(kept, (first+parts[i-1])/2)
	}
	n.parts = append(kept, 1)
	return n.parts
}

// hit is where a ray from p first leaves the concrete, or grazes a re-entrant
// corner.
func (n *wallNet) hit(p, direction Point) (spot, bool) {
	nearest, found := math.Inf(1), spot{}
	for j := range n.faces {
		f := &n.faces[j]
		a, b := f.from.minus(p), f.to.minus(p)
		ca, cb := cross(direction, a), cross(direction, b)
		if ahead := dot(direction, a); f.turnFrom < 0 && math.Abs(ca) <= n.least && ahead > n.least && ahead < nearest {
			nearest, found = ahead, spot{j, 0, f.from}
		}
		if (ca > 0) == (cb > 0) {
			continue
		}
		part := ca / (ca - cb)
		if distance := dot(direction, between(a, b, part)); distance > n.least && distance < nearest {
			nearest, found = distance, spot{j, part, between(f.from, f.to, part)}
		}
	}
	return found, !math.IsInf(nearest, 1)
}

// foot is the spot that is nearest to p, of several the lowest, of these the one of
// smallest y.
func (n *wallNet) foot(p Point) spot {
	nearest, found := math.Inf(1), spot{}
	for j := range n.faces {
		at := n.onFace(j, p)
		d := distance(p, at.at)
		if d < nearest-n.least || d <= nearest+n.least && n.lower(at.at, found.at) {
			nearest, found = d, at
		}
	}
	return found
}

// feet are all spots as near to p as its foot.
func (n *wallNet) feet(p Point) []spot {
	feet := []spot{n.foot(p)}
	nearest := distance(p, feet[0].at)
	for j := range n.faces {
		if at := n.onFace(j, p); distance(p, at.at) <= nearest+n.least && distance(at.at, feet[0].at) > n.least {
			feet = append(feet, at)
		}
	}
	return feet
}

// onFace is the spot of a face that is nearest to p.
func (n *wallNet) onFace(face int, p Point) spot {
	f := &n.faces[face]
	along := math.Max(0, math.Min(f.length, dot(p.minus(f.from), f.along)))
	return n.on(face, along/f.length)
}

func (n *wallNet) lower(p, q Point) bool {
	if off := p.Z - q.Z; math.Abs(off) > n.least {
		return off < 0
	}
	return p.Y < q.Y-n.least
}
