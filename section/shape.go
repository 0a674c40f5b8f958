package section

import "math"

// Point is a place in a section, seen looking along +x.
type Point struct {
	Y float64 `json:"y"` // m, to the left
	Z float64 `json:"z"` // m, upwards
}

func (p Point) minus(q Point) Point { return Point{p.Y - q.Y, p.Z - q.Z} }

func cross(a, b Point) float64 { return a.Y*b.Z - a.Z*b.Y }

func dot(a, b Point) float64 { return a.Y*b.Y + a.Z*b.Z }

// Outline is a closed polygon: its corners (m, within ±10 km) in order, either way
// round, the first not repeated at the end.
type Outline []Point

// twiceArea is twice the signed area, positive anticlockwise in (y, z).
func (o Outline) twiceArea() float64 {
	sum := 0.0
	for i := range o {
		sum += cross(o[i].minus(o[0]), o.next(i).minus(o[0]))
	}
	return sum
}

func (o Outline) next(i int) Point {
	if i+1 < len(o) {
		return o[i+1]
	}
	return o[0]
}

// turned is a copy whose area has the given sign.
func (o Outline) turned(sign float64) Outline {
	turned := make(Outline, len(o))
	if o.twiceArea()*sign > 0 {
		copy(turned, o)
		return turned
	}
	for i, p := range o {
		turned[len(o)-1-i] = p
	}
	return turned
}

// Shape is a cross-section of one material: solid outlines less void outlines. It is
// checked when it is made and never changes; the zero Shape has no area and is an error
// wherever a section is needed.
type Shape struct {
	outlines []Outline // solids anticlockwise, then voids clockwise: area integrals simply add
	solids   int       // how many of them are solids
	kept     *kept     // what was found of it before; nil for a Shape that keeps nothing
}

// New makes a Shape from solid outlines and void outlines (m). The error wraps
// [ErrShape] and names the outline, the corner, its place and what it must be: outlines
// must be finite, have at least three corners and not cross or touch themselves or each
// other; every void is inside a solid behind walls of real thickness. Corners on a
// straight edge stay, since those of a [Taper] correspond in number and order;
// [Shape.Torsion] and [Shape.Walls] leave them out.
func New(solids []Outline, voids []Outline) (Shape, error) {
	if err := validate(solids, voids); err != nil {
		return Shape{}, err
	}
	shape := Shape{solids: len(solids), outlines: make([]Outline, 0, len(solids)+len(voids)), kept: new(kept)}
	for _, o := range solids {
		shape.outlines = append(shape.outlines, o.turned(1))
	}
	for _, o := range voids {
		shape.outlines = append(shape.outlines, o.turned(-1))
	}
	return shape, nil
}

// Solids is a copy of the solid outlines, anticlockwise in (y, z).
func (s Shape) Solids() []Outline { return copies(s.outlines[:s.solids]) }

// Voids is a copy of the void outlines, clockwise in (y, z).
func (s Shape) Voids() []Outline { return copies(s.outlines[s.solids:]) }

func copies(outlines []Outline) []Outline {
	list := make([]Outline, len(outlines))
	for i, o := range outlines {
		list[i] = append(Outline(nil), o...)
	}
	return list
}

// Empty is true for the zero Shape.
func (s Shape) Empty() bool { return len(s.outlines) == 0 }

// Corners is every corner of every outline (m), solids first. Elastic stress is
// linear over the section, so its extremes are at corners.
func (s Shape) Corners() []Point {
	var corners []Point
	for _, o := range s.outlines {
		corners = append(corners, o...)
	}
	return corners
}

// Clearance is the distance from p to the nearest edge (m): positive when p
// is in concrete, negative when it is outside or in a void; 0 for the zero
// Shape, which has no edge.
func (s Shape) Clearance(p Point) float64 {
	if s.Empty() {
		return 0
	}
	nearest, inside := math.Inf(1), false
	for _, o := range s.outlines {
		for i := range o {
			nearest = math.Min(nearest, pointToEdge(p, o[i], o.next(i)))
		}
		if o.contains(p) {
			inside = !inside
		}
	}
	if !inside {
		return -nearest
	}
	return nearest
}

// contains is true for a point in the concrete, off the edges.
func (s Shape) contains(p Point) bool {
	inside := false
	for _, o := range s.outlines {
		if o.contains(p) {
			inside = !inside
		}
	}
	return inside
}

// contains counts the edges that a ray from p towards +y crosses.
func (o Outline) contains(p Point) bool {
	inside := false
	for i := range o {
		a, b := o[i], o.next(i)
		if (a.Z > p.Z) != (b.Z > p.Z) && p.Y < a.Y+(p.Z-a.Z)/(b.Z-a.Z)*(b.Y-a.Y) {
			inside = !inside
		}
	}
	return inside
}

// pointToEdge is the distance from p to the segment ab.
func pointToEdge(p, a, b Point) float64 {
	at := onEdge(p, a, b)
	return math.Hypot(p.Y-at.Y, p.Z-at.Z)
}

// onEdge is the point of the segment ab that is nearest to p.
func onEdge(p, a, b Point) Point {
	along := b.minus(a)
	t := math.Max(0, math.Min(1, dot(p.minus(a), along)/dot(along, along)))
	return Point{a.Y + t*along.Y, a.Z + t*along.Z}
}
