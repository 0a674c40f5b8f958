package beam_test

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/section"
)

// direction is a random unit vector.
func (s source) direction() r3.Vec {
	return r3.Unit(r3.Vec{X: s.NormFloat64(), Y: s.NormFloat64(), Z: s.NormFloat64()})
}

// crossSection is a random section without symmetry.
func (s source) crossSection() beam.CrossSection {
	y, z := s.in(1e9, 1e11), s.in(1e9, 1e11)
	return beam.CrossSection{
		Centroid: section.Point{Y: s.in(-.5, .5), Z: s.in(-1, 1)}, ShearCentre: section.Point{Y: s.in(-1, 1), Z: s.in(-1, 1)},
		BendingY: y, BendingZ: z, BendingYZ: s.in(-.8, .8) * math.Sqrt(y*z), Torsional: s.in(1e9, 5e10), Axial: s.in(1e10, 1e11),
	}
}

// stepped is the law of a section that steps at x.
func stepped(x float64, left, right beam.CrossSection) func(float64) beam.CrossSection {
	return func(at float64) beam.CrossSection {
		if at < x {
			return left
		}
		return right
	}
}

// space is a random member on n restraints of any direction: some hold a
// rotation, some are elastic, two may be linked.
func (s source) space(n int) beam.SpaceLayout {
	length := s.in(8, 40)
	step := length * s.in(.2, .8)
	l := beam.SpaceLayout{Length: length, Breaks: []float64{step}, Section: stepped(step, s.crossSection(), s.crossSection())}
	couples := 0 // more than two would leave too few forces
	for i := range n {
		r := beam.Restraint{X: s.in(0, length), Y: s.in(-3, 3), Z: s.in(-2, 2), Direction: s.direction()}
		switch {
		case s.IntN(6) == 0 && couples < 2:
			couples++
			r.Couple, r.Stiffness = true, s.in(1e8, 1e10)
		case s.IntN(2) == 0:
			r.Stiffness = s.in(1e7, 1e9)
		case s.IntN(3) == 0 && i > 0:
			r.X = l.Supports[i-1].X // another direction at the same x
		}
		l.Supports = append(l.Supports, r)
	}
	if n > 7 && !l.Supports[1].Couple && !l.Supports[4].Couple {
		l.Supports[1].Group, l.Supports[4].Group = "linked", "linked"
	}
	return l
}

// actions is random loads of every kind on a member.
func (s source) actions(length float64) beam.SpaceLoads {
	var l beam.SpaceLoads
	for range 1 + s.IntN(3) {
		l.Points = append(l.Points, beam.SpacePoint{
			X: s.in(0, length), Y: s.in(-2, 2), Z: s.in(-2, 2),
			Force: r3.Scale(s.in(1e4, 1e6), s.direction()), Couple: r3.Scale(s.in(0, 1e6), s.direction()),
		})
	}
	for range 1 + s.IntN(3) {
		from := s.in(0, .7) * length
		line := beam.SpaceLine{From: from, To: from + s.in(.1, 1)*(length-from), Direction: s.direction()}
		for _, terms := range []*[]float64{&line.Intensity, &line.FirstMomentY, &line.FirstMomentZ} {
			for k := range s.IntN(5) {
				*terms = append(*terms, s.in(-1e5, 1e5)/math.Pow(length, float64(k)))
			}
		}
		l.Lines = append(l.Lines, line)
	}
	return l
}

// spread replaces the line loads of l left of x by forces at Gauss's places:
// the same resultant, reached without any of the package's sums.
func spread(l beam.SpaceLoads, x float64) []beam.SpacePoint {
	points := append([]beam.SpacePoint(nil), l.Points...)
	// Gauss's rule of five points is exact to degree 9 (Abramowitz, Stegun, table 25.4).
	at := []float64{0, .5384693101056831, -.5384693101056831, .9061798459386640, -.9061798459386640}
	weight := []float64{.5688888888888889, .4786286704993665, .4786286704993665, .2369268850561891, .2369268850561891}
	for _, line := range l.Lines {
		to := min(line.To, x)
		if to <= line.From {
			continue
		}
		h := to - line.From
		for k := range at {
			s := h * (1 + at[k]) / 2
			w := h / 2 * weight[k]
			d := line.Direction
			my, mz := w*value(line.FirstMomentY, s), w*value(line.FirstMomentZ, s)
			points = append(points, beam.SpacePoint{
				X: line.From + s, Force: r3.Scale(w*value(line.Intensity, s), d),
				Couple: r3.Vec{X: my*d.Z - mz*d.Y, Y: mz * d.X, Z: -my * d.X},
			})
		}
	}
	return points
}

func value(terms []float64, s float64) float64 {
	sum := 0.0
	for k := len(terms) - 1; k >= 0; k-- {
		sum = sum*s + terms[k]
	}
	return sum
}

// supportPoints is the reactions as forces and couples.
func supportPoints(l beam.SpaceLayout, reactions []float64) []beam.SpacePoint {
	points := make([]beam.SpacePoint, len(reactions))
	for i, force := range reactions {
		r := l.Supports[i]
		points[i] = beam.SpacePoint{X: r.X, Y: r.Y, Z: r.Z}
		if r.Couple {
			points[i].Couple = r3.Scale(force, r.Direction)
		} else {
			points[i].Force = r3.Scale(force, r.Direction)
		}
	}
	return points
}

// resultant is force and moment about (x, 0, 0) of the points up to x, and the
// sum of their sizes.
func resultant(points []beam.SpacePoint, x float64) (force, moment r3.Vec, size float64) {
	for _, p := range points {
		if p.X > x {
			continue
		}
		arm := r3.Vec{X: p.X - x, Y: p.Y, Z: p.Z}
		force = r3.Add(force, p.Force)
		moment = r3.Add(moment, r3.Add(p.Couple, r3.Cross(arm, p.Force)))
		size += r3.Norm(p.Force)*(1+r3.Norm(arm)) + r3.Norm(p.Couple)
	}
	return force, moment, size
}
