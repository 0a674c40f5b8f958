package section

import (
	"fmt"
	"math"
)

// EdgeShear is the shear stress along an edge under torsion alone.
type EdgeShear struct {
	At     Point   // on an outline, m, in the coordinates of the drawing
	Stress float64 // Pa for a torque of 1 N·m; + with the concrete on the left of its direction
}

// EdgeShear is the torsional shear stress at a point within a thousandth of the
// section's extent of an outline: at a named point. At a re-entrant corner it
// has no bound and at an outward one it is zero; next to a corner the value
// follows the element there. The error wraps [ErrShape] when p is not on an
// outline.
func (t Torsion) EdgeShear(p Point) (EdgeShear, error) {
	nearest, found := math.Inf(1), EdgeShear{}
	p = p.minus(t.properties.Centroid)
	for k := range t.boundary.elements {
		e := &t.boundary.elements[k]
		ξ := math.Max(0, math.Min(1, dot(p.minus(e.from), e.along)/e.length))
		off := p.minus(e.place(ξ))
		distance := math.Hypot(off.Y, off.Z)
		switch {
		case math.Abs(distance-nearest) <= 1e-12*e.length: // where two elements meet: their mean
			found.Stress = (found.Stress + t.edgeStress(k, ξ)) / 2
		case distance < nearest:
			nearest = distance
			found = EdgeShear{At: t.drawn(e.place(ξ)), Stress: t.edgeStress(k, ξ)}
		}
	}
	if allowed := 1e-3 * math.Max(t.properties.Top+t.properties.Bottom, t.properties.Left+t.properties.Right); !(nearest <= allowed) {
		return EdgeShear{}, fmt.Errorf("%w: edge shear %.4g m away from any outline: allowed at most %.4g m", ErrShape, nearest, allowed)
	}
	return found, nil
}

// LargestEdgeShear is the edge shear of largest magnitude outside circles of the
// given radius (m) around the re-entrant corners, where it has no bound; the
// radius of the fillet is a fair choice. Corners that turn by less than 0.5 rad,
// such as those between the chords of a round outline, count as smooth. The error
// wraps [ErrShape] when the radius is not finite, is not positive while there are
// such corners, or leaves no edge.
func (t Torsion) LargestEdgeShear(radius float64) (EdgeShear, error) {
	corners := t.shape.reentrant()
	if !(radius >= 0) || math.IsInf(radius, 0) || radius == 0 && len(corners) > 0 {
		return EdgeShear{}, fmt.Errorf("%w: radius %g m around %d re-entrant corners: allowed finite and positive", ErrShape, radius, len(corners))
	}
	largest := EdgeShear{}
	for k := range t.boundary.elements {
		e := &t.boundary.elements[k]
		for _, ξ := range [4]float64{0, 0.25, 0.5, 0.75} {
			at := t.drawn(e.place(ξ))
			if stress := t.edgeStress(k, ξ); math.Abs(stress) > math.Abs(largest.Stress) && clearOf(at, corners, radius) {
				largest = EdgeShear{At: at, Stress: stress}
			}
		}
	}
	if largest.Stress == 0 {
		return EdgeShear{}, fmt.Errorf("%w: radius %g m around re-entrant corners: allowed one that leaves edges outside", ErrShape, radius)
	}
	return largest, nil
}

// edgeStress is (∂ω/∂s + (y, z)×along)/J at the fraction ξ of element k.
func (t Torsion) edgeStress(k int, ξ float64) float64 {
	e := &t.boundary.elements[k]
	return (t.boundary.slope(t.warping.nodes, k, ξ) + cross(e.from, e.along)) / t.Constant
}

// drawn turns a place from the centroid into one of the drawing.
func (t Torsion) drawn(p Point) Point {
	return Point{p.Y + t.properties.Centroid.Y, p.Z + t.properties.Centroid.Z}
}

// reentrant lists the corners where concrete fills visibly more than half a turn.
func (s Shape) reentrant() []Point {
	var corners []Point
	for _, o := range s.outlines {
		for i := range o {
			if o.turn(i) < -gentlest {
				corners = append(corners, o[i])
			}
		}
	}
	return corners
}

func clearOf(p Point, corners []Point, radius float64) bool {
	for _, c := range corners {
		if math.Hypot(p.Y-c.Y, p.Z-c.Z) < radius {
			return false
		}
	}
	return true
}
