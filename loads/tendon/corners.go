package tendon

import (
	"fmt"
	"math"
)

// Corner is a corner of the polygon of tangents of a tendon, with its rounding.
type Corner struct {
	Point
	Radius float64 // of the circular arc that touches both tangents, m, up to 1e5; 0 for none
	Reach  float64 // horizontal length of a parabola on each side of the corner, m, up to 1e5; 0 for none
}

// Tangents is the curve of a tendon drawn as a polygon of tangents with its
// corners rounded by an arc or by a parabola; a corner with neither is a kink
// and asks for Tendon.Harped. The first and last corner are the anchors. The
// error wraps [ErrTendon]: too few corners, x not ascending, or roundings that
// overlap.
func Tangents(corners ...Corner) (Curve, error) {
	if len(corners) < 2 {
		return nil, fmt.Errorf("%w: %d corners: must be at least 2, the anchors", ErrTendon, len(corners))
	}
	for i, c := range corners {
		if err := c.check(i, corners); err != nil {
			return nil, err
		}
	}
	var curve Curve
	from := corners[0].Point
	for i := 1; i < len(corners); i++ {
		if i == len(corners)-1 {
			return curve.upTo(from, corners[i].Point, i)
		}
		before, after := slopeBetween(corners[i-1], corners[i]), slopeBetween(corners[i], corners[i+1])
		touch, leave, piece := corners[i].rounded(before, after)
		var err error
		if curve, err = curve.upTo(from, touch, i); err != nil {
			return nil, err
		}
		if leave.X > touch.X {
			curve = append(curve, piece)
		}
		from = leave
	}
	return curve, nil
}

func (c Corner) check(i int, corners []Corner) error {
	for _, v := range []float64{c.X, c.Ordinate, c.Radius, c.Reach} {
		if math.IsNaN(v) || math.Abs(v) > 1e5 {
			return fmt.Errorf("%w: corner %d has %g: must be values within ±1e5", ErrTendon, i+1, v)
		}
	}
	if c.Radius < 0 || c.Reach < 0 || c.Radius > 0 && c.Reach > 0 {
		return fmt.Errorf("%w: corner %d: Radius = %g m, Reach = %g m: must be one of them, positive", ErrTendon, i+1, c.Radius, c.Reach)
	}
	if i > 0 && !(c.X > corners[i-1].X+jumpTolerance) {
		return fmt.Errorf("%w: corner %d at x = %g m: must be beyond x = %g m", ErrTendon, i+1, c.X, corners[i-1].X)
	}
	return nil
}

func slopeBetween(a, b Corner) float64 { return (b.Ordinate - a.Ordinate) / (b.X - a.X) }

// rounded is where the rounding touches the tangents of these slopes and the
// piece between.
func (c Corner) rounded(before, after float64) (touch, leave Point, piece Piece) {
	on := func(dx, slope float64) Point { return Point{c.X + dx, c.Ordinate + dx*slope} }
	if c.Radius > 0 {
		a, b := math.Atan(before), math.Atan(after)
		tangent := c.Radius * math.Tan(math.Abs(b-a)/2)
		touch, leave = on(-tangent*math.Cos(a), before), on(tangent*math.Cos(b), after)
		return touch, leave, Arc(touch, before, math.Copysign(c.Radius, b-a), leave.X)
	}
	touch, leave = on(-c.Reach, before), on(c.Reach, after)
	return touch, leave, Parabola(touch, before, leave)
}

// upTo appends the straight to a point before corner number i.
func (c Curve) upTo(from, to Point, i int) (Curve, error) {
	if to.X < from.X-jumpTolerance {
		return nil, fmt.Errorf("%w: the rounding of corner %d overlaps the one before it or the anchor by %.4g m: must have a smaller Radius or Reach", ErrTendon, i+1, from.X-to.X)
	}
	if to.X > from.X+jumpTolerance {
		c = append(c, Straight(from, to))
	}
	return c, nil
}

// Through is a point of a tendon with its slope.
type Through struct {
	Point
	Slope float64 // m/m, within ±2
}

// Smooth is the curve through points with given slopes: between two of them two
// parabolas that meet half-way with one slope. Where one parabola is enough, both are
// that one. The error wraps [ErrTendon].
func Smooth(points ...Through) (Curve, error) {
	if len(points) < 2 {
		return nil, fmt.Errorf("%w: %d points: must be at least 2, the anchors", ErrTendon, len(points))
	}
	var curve Curve
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		if !(b.X > a.X+2*jumpTolerance) {
			return nil, fmt.Errorf("%w: point %d at x = %g m: must be beyond x = %g m", ErrTendon, i+1, b.X, a.X)
		}
		half := (b.X - a.X) / 2
		slope := (b.Ordinate-a.Ordinate)/half - (a.Slope+b.Slope)/2
		middle := Point{a.X + half, a.Ordinate + (a.Slope+slope)/2*half}
		curve = append(curve, Parabola(a.Point, a.Slope, middle), Parabola(middle, slope, b.Point))
	}
	return curve, curve.check("Smooth", false)
}

// Spline is the curve of cubics through points that has no kink and no jump of
// curvature and is straight at its ends: the line of a tendon set out by ordinates. The
// error wraps [ErrTendon].
func Spline(points ...Point) (Curve, error) {
	n := len(points)
	if n < 2 {
		return nil, fmt.Errorf("%w: %d points: must be at least 2, the anchors", ErrTendon, n)
	}
	for i := 1; i < n; i++ {
		if !(points[i].X > points[i-1].X+2*jumpTolerance) {
			return nil, fmt.Errorf("%w: point %d at x = %g m: must be beyond x = %g m", ErrTendon, i+1, points[i].X, points[i-1].X)
		}
	}
	// Second derivatives from h(i−1)·m(i−1) + 2(h(i−1) + h(i))·m(i) + h(i)·m(i+1) = 6·(change of slope of the chords),
	// by elimination downwards and back.
	h := func(i int) float64 { return points[i+1].X - points[i].X }
	chord := func(i int) float64 { return (points[i+1].Ordinate - points[i].Ordinate) / h(i) }
	above, right, bent := make([]float64, n), make([]float64, n), make([]float64, n)
	for i := 1; i < n-1; i++ {
		pivot := 2*(h(i-1)+h(i)) - h(i-1)*above[i-1]
		above[i] = h(i) / pivot
		right[i] = (6*(chord(i)-chord(i-1)) - h(i-1)*right[i-1]) / pivot
	}
	for i := n - 2; i > 0; i-- {
		bent[i] = right[i] - above[i]*bent[i+1]
	}
	curve := make(Curve, n-1)
	for i := range curve {
		curve[i] = Piece{
			From: points[i].X, To: points[i+1].X, Start: points[i].Ordinate, Slope: chord(i) - h(i)*(2*bent[i]+bent[i+1])/6,
			Curvature: bent[i], CurvatureRate: (bent[i+1] - bent[i]) / h(i),
		}
	}
	return curve, curve.check("Spline", false)
}
