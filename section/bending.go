package section

import (
	"fmt"
	"math"
	"sort"
)

// Axis is a straight line in a section, e.g. a neutral axis.
type Axis struct {
	Through Point   // its point nearest to the centroid, m
	Angle   float64 // rad, from the y axis towards the z axis, −π/2 < Angle ≤ π/2
}

// NeutralAxis is the line of zero stress under N, My and Mz of f. ok is false when
// there is no such line: no bending, or forces that are not finite.
func (p Properties) NeutralAxis(f Forces) (axis Axis, ok bool) {
	s := p.Plane(f)
	square := s.SlopeY*s.SlopeY + s.SlopeZ*s.SlopeZ
	if !(square > 0) || math.IsInf(square, 0) || math.IsNaN(s.Constant) || math.IsInf(s.Constant, 0) {
		return Axis{}, false
	}
	step := -s.At(p.Centroid) / square
	return Axis{
		Through: Point{p.Centroid.Y + step*s.SlopeY, p.Centroid.Z + step*s.SlopeZ},
		Angle:   halfTurn(math.Atan2(s.SlopeY, -s.SlopeZ)),
	}, true
}

// halfTurn brings the direction of a line between −π/2 and π/2.
func halfTurn(angle float64) float64 {
	switch {
	case angle > math.Pi/2:
		return angle - math.Pi
	case angle <= -math.Pi/2:
		return angle + math.Pi
	}
	return angle
}

// Extremes are the maximum and minimum stress in a shape and their places.
type Extremes struct {
	Most, Least     float64 // Pa, tension +
	MostAt, LeastAt Point   // corners, m
}

// Extremes are those of a linear stress, which are at corners; zero for the zero Shape.
func (s Shape) Extremes(stress Plane) Extremes {
	var e Extremes
	first := true
	for _, o := range s.outlines {
		for _, p := range o {
			σ := stress.At(p)
			if first || σ > e.Most {
				e.Most, e.MostAt = σ, p
			}
			if first || σ < e.Least {
				e.Least, e.LeastAt = σ, p
			}
			first = false
		}
	}
	return e
}

// PrincipalModuli are the elastic section moduli about the principal axes (m³).
// "Ahead" is on the left of the axis when looking along it.
type PrincipalModuli struct {
	MajorAhead, MajorBehind float64 // Major/distance of the extreme corner on either side of the major axis
	MinorAhead, MinorBehind float64 // the same about the minor axis, which is a quarter turn ahead of the major one
}

// PrincipalModuli are the section moduli of the shape; zero for the zero Shape.
func (s Shape) PrincipalModuli() PrincipalModuli {
	if s.Empty() {
		return PrincipalModuli{}
	}
	p := s.Properties()
	principal := p.Principal()
	sin, cos := math.Sincos(principal.Angle)
	var ahead, behind, left, right float64
	for _, corner := range s.Corners() {
		d := corner.minus(p.Centroid)
		v, w := -d.Y*sin+d.Z*cos, -d.Y*cos-d.Z*sin
		ahead, behind = math.Max(ahead, v), math.Max(behind, -v)
		left, right = math.Max(left, w), math.Max(right, -w)
	}
	return PrincipalModuli{principal.Major / ahead, principal.Major / behind, principal.Minor / left, principal.Minor / right}
}

// Kern is the outline within which a normal force causes no stress of the other
// sign anywhere (m, in the coordinates of the drawing): each side of the convex
// hull, as a neutral axis, gives a corner. It is nil for the zero Shape.
func (s Shape) Kern() Outline {
	if s.Empty() {
		return nil
	}
	p := s.Properties()
	hull := convexHull(s.Corners())
	kern := make(Outline, 0, len(hull))
	for i, a := range hull {
		a, b := a.minus(p.Centroid), hull.next(i).minus(p.Centroid)
		// The side is 1 + (n·r) = 0 with n square to it.
		c := cross(a, b)
		n := Point{(a.Z - b.Z) / c, (b.Y - a.Y) / c}
		kern = append(kern, Point{
			p.Centroid.Y + (p.SecondMomentZ*n.Y+p.ProductMoment*n.Z)/p.Area,
			p.Centroid.Z + (p.ProductMoment*n.Y+p.SecondMomentY*n.Z)/p.Area,
		})
	}
	return kern
}

// convexHull is the hull of the points, anticlockwise, without corners on its
// sides (Andrew's monotone chain).
func convexHull(points []Point) Outline {
	sorted := append([]Point(nil), points...)
	sort.Slice(sorted, func(i, j int) bool {
		return sorted[i].Y < sorted[j].Y || sorted[i].Y == sorted[j].Y && sorted[i].Z < sorted[j].Z
	})
	half := func(points []Point) Outline {
		var chain Outline
		for _, p := range points {
			for len(chain) > 1 && onOrRightOf(chain[len(chain)-2], chain[len(chain)-1], p) {
				chain = chain[:len(chain)-1]
			}
			chain = append(chain, p)
		}
		return chain[:len(chain)-1]
	}
	return append(half(sorted), half(reversed(sorted))...)
}

// onOrRightOf is true when c is not visibly to the left of the line ab.
func onOrRightOf(a, b, c Point) bool {
	ab, ac := b.minus(a), c.minus(a)
	return cross(ab, ac) <= 1e-12*(dot(ab, ab)+dot(ac, ac))
}

// PrincipalStresses are the larger and the smaller principal stress (Pa, tension +)
// from a normal stress (Pa) and a shear stress (Pa) without normal stress across: σ/2 ±
// √(σ²/4 + τ²).
func PrincipalStresses(normal, shear float64) (larger, smaller float64) {
	radius := math.Hypot(normal/2, shear)
	return normal/2 + radius, normal/2 - radius
}

// Hanging is the position of a freely suspended element about its x axis.
type Hanging struct {
	Tilt float64 // rad, right hand about +x: + when the left side (+y) rises
	Down Point   // unit vector of gravity in the coordinates of the drawing
}

// Bending is the pair of moments in the section's own axes when the weight causes
// the sagging moment m (N·m) in the upright plane.
func (h Hanging) Bending(m float64) Forces { return Forces{My: -m * h.Down.Z, Mz: -m * h.Down.Y} }

// Hang is the position of an element suspended from lift points on a line along x
// through lift (y, z in m), with its centre of gravity at massCentre: the centre of
// gravity is under the line. Lift points over the centre of gravity give no tilt. The
// error wraps [ErrShape] when the centre of gravity is not below the lift line, so that
// the element would overturn, or a place is not finite.
func Hang(lift, massCentre Point) (Hanging, error) {
	arm := massCentre.minus(lift)
	length := math.Hypot(arm.Y, arm.Z)
	if !(arm.Z < 0) || math.IsNaN(length) || math.IsInf(length, 0) {
		return Hanging{}, fmt.Errorf("%w: lift line at y = %g m, z = %g m, centre of gravity at y = %g m, z = %g m: must be a lift line above the centre of gravity",
			ErrShape, lift.Y, lift.Z, massCentre.Y, massCentre.Z)
	}
	return Hanging{Tilt: math.Atan2(lift.Y-massCentre.Y, lift.Z-massCentre.Z), Down: Point{arm.Y / length, arm.Z / length}}, nil
}
