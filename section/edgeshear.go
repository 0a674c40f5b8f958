package section

import (
	"fmt"
	"math"
)

// EdgeShear is the shear stress along an edge under torsion alone, and under Vy and Vz
// through the shear centre for Poisson's ratio 0. Under forces f it is Stress·T + Y·Vy
// + Z·Vz with T from [Torsion.AboutShearCentre]. It is + with the concrete on the left
// of its direction, on the face towards +x.
//
// The changes are bounds of the error: in the middle of the edges of solid polygons and
// of a half beam the error is a third to a thirtieth of them.
type EdgeShear struct {
	At     Point   // on an outline, m, in the coordinates of the drawing
	Stress float64 // Pa for a torque of 1 N·m
	Y, Z   float64 // Pa for Vy = 1 N and for Vz = 1 N

	Change           float64 // of Stress when every element of the boundary was last halved, Pa, by magnitude
	ChangeY, ChangeZ float64 // the same of Y and Z
}

// EdgeShear is the edge shear at a point within a thousandth of the section's extent of
// an outline. At a re-entrant corner it is unbounded and at an outward one it is zero;
// next to a corner the value follows the element there, and its change is as large as
// itself. The error wraps [ErrShape] when p is not on an outline.
func (t Torsion) EdgeShear(p Point) (EdgeShear, error) {
	if t.Nodes == 0 {
		return EdgeShear{}, fmt.Errorf("%w: edge shear of a zero Torsion: must be made by Shape.Torsion", ErrShape)
	}
	at, off := t.edgeShear(p)
	if allowed := 1e-3 * math.Max(t.properties.Top+t.properties.Bottom, t.properties.Left+t.properties.Right); !(off <= allowed) {
		return EdgeShear{}, fmt.Errorf("%w: edge shear %.4g m away from any outline: must be at most %.4g m", ErrShape, off, allowed)
	}
	return t.changed(at), nil
}

// edgeShear is that at the place on the outline that is nearest to p, and how far
// p is off.
func (t Torsion) edgeShear(p Point) (found EdgeShear, off float64) {
	k, ξ, off := t.boundary.nearest(p.minus(t.properties.Centroid))
	found = t.edgeStress(k, ξ)
	b := &t.boundary
	for j := range b.elements { // where two elements meet: their mean
		from, to := b.elements[j].nodes[0], b.elements[j].nodes[2]
		switch {
		case j == k:
		case ξ == 0 && to == b.elements[k].nodes[0]:
			return found.mean(t.edgeStress(j, 1)), off
		case ξ == 1 && from == b.elements[k].nodes[2]:
			return found.mean(t.edgeStress(j, 0)), off
		}
	}
	return found, off
}

func (e EdgeShear) mean(f EdgeShear) EdgeShear {
	e.Stress, e.Y, e.Z = (e.Stress+f.Stress)/2, (e.Y+f.Y)/2, (e.Z+f.Z)/2
	return e
}

// changed adds by how much the stress differs from that of the elements before
// they were halved.
func (t Torsion) changed(e EdgeShear) EdgeShear {
	if t.coarser != nil {
		before, _ := t.coarser.edgeShear(e.At)
		e.Change, e.ChangeY, e.ChangeZ = math.Abs(e.Stress-before.Stress), math.Abs(e.Y-before.Y), math.Abs(e.Z-before.Z)
	}
	return e
}

// LargestEdgeShear is the edge shear with the stress of largest magnitude under torsion
// outside circles of the given radius (m) around the re-entrant corners, where it is
// unbounded; use the radius of the fillet. Only the corners between the chords of a
// drawn arc are taken as smooth: at least three equal chords, equal turns of less than
// 0.5 rad. The error wraps [ErrShape] when the radius is not finite, is not positive
// while there are such corners, or leaves no edge.
func (t Torsion) LargestEdgeShear(radius float64) (EdgeShear, error) {
	corners := t.shape.reentrant()
	if !(radius >= 0) || math.IsInf(radius, 0) || radius == 0 && len(corners) > 0 {
		return EdgeShear{}, fmt.Errorf("%w: radius %g m around %d re-entrant corners: must be finite and positive", ErrShape, radius, len(corners))
	}
	largest := EdgeShear{}
	for k := range t.boundary.elements {
		e := &t.boundary.elements[k]
		for _, ξ := range [4]float64{0, 0.25, 0.5, 0.75} {
			if !clearOf(t.drawn(e.place(ξ)), corners, radius) {
				continue
			}
			if at := t.edgeStress(k, ξ); math.Abs(at.Stress) > math.Abs(largest.Stress) {
				largest = at
			}
		}
	}
	if largest.Stress == 0 {
		return EdgeShear{}, fmt.Errorf("%w: radius %g m around re-entrant corners: must be one that leaves edges outside", ErrShape, radius)
	}
	return t.changed(largest), nil
}

// edgeStress is the stress at the fraction ξ of element k: of the torque
// (∂ω/∂s + (y, z)×along)/J, of the sources z and y ∂φ/∂s with what is known of φ.
func (t Torsion) edgeStress(k int, ξ float64) EdgeShear {
	e := &t.boundary.elements[k]
	p := e.place(ξ)
	ofZ := t.boundary.slope(t.byZ.nodes, k, ξ) + p.Z*p.Z/2*e.along.Z
	ofY := t.boundary.slope(t.byY.nodes, k, ξ) + p.Y*p.Y/2*e.along.Y
	source := func(f Forces) float64 {
		byZ, byY := t.properties.shearSources(f)
		return byZ*ofZ + byY*ofY
	}
	return EdgeShear{
		At:     t.drawn(p),
		Stress: (t.boundary.slope(t.warping.nodes, k, ξ) + cross(e.from, e.along)) / t.Constant,
		Y:      source(Forces{Vy: 1}), Z: source(Forces{Vz: 1}),
	}
}

// drawn turns a place from the centroid into one of the drawing.
func (t Torsion) drawn(p Point) Point {
	return Point{p.Y + t.properties.Centroid.Y, p.Z + t.properties.Centroid.Z}
}

// reentrant lists the corners where concrete fills more than half a turn, but for
// those of drawn arcs.
func (s Shape) reentrant() []Point {
	var corners []Point
	for _, o := range s.outlines {
		for i := range o {
			if o.turn(i) < 0 && !o.arc(i) {
				corners = append(corners, o[i])
			}
		}
	}
	return corners
}

// alike is how much longer the next chord of an arc may be, and its turn larger:
// between 16 chords of an ellipse twice as wide as high they differ by as much.
const alike = 1.5

// arc is true for a corner of a drawn arc: between three chords that are alike
// with another one that turns as it does, or at the end of such chords.
func (o Outline) arc(i int) bool {
	n, turn := len(o), o.turn(i)
	for _, j := range [2]int{(i + n - 1) % n, (i + 1) % n} {
		if next := o.turn(j); turn*next > 0 && math.Abs(turn) <= alike*math.Abs(next) && (o.chords(i) || o.chords(j)) && math.Max(math.Abs(turn), math.Abs(next)) <= gentlest {
			return true
		}
	}
	return false
}

// chords is true for a corner with a neighbour that turns as it does, and three
// edges alike before, between and behind the two.
func (o Outline) chords(i int) bool {
	n := len(o)
	length := func(k int) float64 { return distance(o[k], o[(k+1)%n]) }
	for _, j := range [2]int{(i + n - 1) % n, i} { // the first of two corners
		turn, next := o.turn(j), o.turn((j+1)%n)
		before, middle, behind := length((j+n-1)%n), length(j), length((j+1)%n)
		if similar(next/turn) && similar(before/middle) && similar(behind/middle) && math.Max(math.Abs(turn), math.Abs(next)) <= gentlest {
			return true
		}
	}
	return false
}

func similar(ratio float64) bool { return ratio >= 1/alike && ratio <= alike }

func clearOf(p Point, corners []Point, radius float64) bool {
	for _, c := range corners {
		if math.Hypot(p.Y-c.Y, p.Z-c.Z) < radius {
			return false
		}
	}
	return true
}
