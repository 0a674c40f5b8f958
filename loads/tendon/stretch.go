package tendon

import "math"

// stretch is a length on which y and z are both one straight, parabola, arc or part of
// a cubic that bends one way.
type stretch struct {
	from, to float64
	y, z     Piece
	angle    float64 // Σ of angles from the left anchor to from, a kink at from included
	length   float64 // along the tendon from the left anchor to from

	start    [3]float64 // tangent at from
	straight bool
	parabola bool // rate² is c[0] + c[1]·u + c[2]·u², u = x − from
	turning  bool // the tangent turns along one great circle
	panels   int  // pieces into which an integral is cut for the Gauss rule
	closed   bool // the length is taken by its closed form
	c        [3]float64
	primed   float64 // the closed form at from
}

// widest is the change of slope over which a Gauss rule of 10 points keeps 14
// digits of what is integrated here: the nearest singularity of √(1 + slope²)
// is at slope ±i.
const widest = 0.5

// prepare sets what does not depend on x.
func (s *stretch) prepare() {
	s.start = s.tangent(s.from)
	s.straight = s.y.straight() && s.z.straight()
	s.parabola = s.y.Radius == 0 && s.z.Radius == 0 && s.y.CurvatureRate == 0 && s.z.CurvatureRate == 0
	sameArc := s.y.Radius == s.z.Radius && s.y.From == s.z.From && math.Abs(s.y.Slope/s.y.leaning()-s.z.Slope/s.z.leaning()) < 1e-14
	s.turning = s.parabola || s.y.straight() || s.z.straight() || sameArc
	end := s.tangent(s.to)
	change := math.Hypot(end[1]-s.start[1], end[2]-s.start[2])
	s.panels = 1 + int(change/widest)
	if s.parabola {
		b := [2]float64{s.y.Curvature, s.z.Curvature}
		s.c = [3]float64{
			1 + s.start[1]*s.start[1] + s.start[2]*s.start[2],
			2 * (s.start[1]*b[0] + s.start[2]*b[1]),
			b[0]*b[0] + b[1]*b[1],
		}
		if s.closed = change > 0.1; s.closed { // below, the difference of two closed forms loses digits
			s.primed = s.primitive(0)
		}
	}
}

// tangent is (1, y′, z′), not normalised.
func (s *stretch) tangent(x float64) [3]float64 {
	return [3]float64{1, s.y.SlopeAt(x), s.z.SlopeAt(x)}
}

// between is the angle between two directions.
func between(a, b [3]float64) float64 {
	c := [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
	sin := math.Sqrt(c[0]*c[0] + c[1]*c[1] + c[2]*c[2])
	return math.Atan2(sin, a[0]*b[0]+a[1]*b[1]+a[2]*b[2])
}

// turn is the sum of all angle changes from the start of the stretch to x. Where
// y′ and z′ are linear in x, or one follows the other, the direction turns along
// one great circle and the angle between the end tangents is the exact sum; an
// arc seen with another curve in the other plane is integrated.
func (s *stretch) turn(x float64) float64 {
	if s.straight {
		return 0
	}
	if s.turning {
		return between(s.start, s.tangent(x))
	}
	return integrate(s.from, x, s.panels, func(x float64) float64 { return s.curvature(x) * s.rate(x) })
}

// curvature is |r′ × r″|/|r′|³ in space (1/m).
func (s *stretch) curvature(x float64) float64 {
	t := s.tangent(x)
	y, z := s.y.CurvatureAt(x), s.z.CurvatureAt(x)
	cross := [3]float64{t[1]*z - t[2]*y, -z, y}
	return math.Sqrt(cross[0]*cross[0]+cross[1]*cross[1]+cross[2]*cross[2]) / math.Pow(s.rate(x), 3)
}

// arc is the length from the start of the stretch to x.
func (s *stretch) arc(x float64) float64 {
	u := x - s.from
	switch {
	case s.straight:
		return math.Sqrt(s.c[0]) * u
	case s.closed:
		return s.primitive(u) - s.primed
	case s.parabola:
		sum := 0.0
		for i, t := range gaussAt {
			v := u / 2 * (1 + t)
			sum += gaussWeight[i] * math.Sqrt(s.c[0]+v*(s.c[1]+v*s.c[2]))
		}
		return sum * u / 2
	}
	return integrate(s.from, x, s.panels, s.rate)
}

// primitive is ∫ √(c0 + c1·u + c2·u²) du.
func (s *stretch) primitive(u float64) float64 {
	w := u + s.c[1]/(2*s.c[2])
	d := s.c[0] - s.c[1]*s.c[1]/(4*s.c[2]) // 1 or more
	root := math.Sqrt(s.c[2])
	return (w*math.Sqrt(s.c[2]*w*w+d) + d/root*math.Asinh(w*root/math.Sqrt(d))) / 2
}

// rate is ds/dx = √(1 + y′² + z′²).
func (s *stretch) rate(x float64) float64 {
	y, z := s.y.SlopeAt(x), s.z.SlopeAt(x)
	return math.Sqrt(1 + y*y + z*z)
}
