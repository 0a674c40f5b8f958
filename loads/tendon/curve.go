package tendon

import (
	"fmt"
	"math"
)

// Point is a place on a curve.
type Point struct {
	X        float64 // m from the left end of the element, within ±1000
	Ordinate float64 // m, within ±1000: z in elevation, y in plan
}

// Piece is a straight, parabolic, cubic or circular segment of a curve. With s = x −
// From the ordinate of all but a circle is Start + Slope·s + Curvature·s²/2 +
// CurvatureRate·s³/6; a circle has its Radius instead of a Curvature.
type Piece struct {
	From, To  float64 // m, within ±1000
	Start     float64 // ordinate at From, m, within ±1000
	Slope     float64 // at From, m/m, within ±2
	Curvature float64 // second derivative at From, 1/m; 0 for a straight
	Radius    float64 // of a circular arc, m, positive where it bends upwards; 0 for no arc

	CurvatureRate float64 // third derivative of a cubic, 1/m²; 0 for any other

	lean float64 // ordinate per ordinate of the arc that a Leaning piece follows; 0 for 1
}

// Kind is the kind of the segment: straight, parabola, cubic or circle.
func (p Piece) Kind() string {
	switch {
	case p.Radius != 0:
		return "circle"
	case p.CurvatureRate != 0:
		return "cubic"
	case p.Curvature != 0:
		return "parabola"
	}
	return "straight"
}

// KindAt is the kind of the segment that begins at x or passes it (m), see
// [Piece.Kind]; "" for the zero Curve.
func (c Curve) KindAt(x float64) string {
	kind := ""
	for _, p := range c {
		if kind == "" || x >= p.From-jumpTolerance {
			kind = p.Kind()
		}
	}
	return kind
}

// At is the ordinate at x (m).
func (p Piece) At(x float64) float64 {
	s := x - p.From
	if p.Radius != 0 {
		start, sine := p.sines(s)
		return p.Start + p.leaning()*s*(start+sine)/(math.Sqrt(1-start*start)+math.Sqrt(1-sine*sine))
	}
	return p.Start + s*(p.Slope+s*(p.Curvature/2+s*p.CurvatureRate/6))
}

// SlopeAt is the slope at x (m/m).
func (p Piece) SlopeAt(x float64) float64 {
	if p.Radius != 0 {
		_, sine := p.sines(x - p.From)
		return p.leaning() * sine / math.Sqrt(1-sine*sine)
	}
	s := x - p.From
	return p.Slope + s*(p.Curvature+s*p.CurvatureRate/2)
}

// CurvatureAt is the second derivative of the ordinate at x (1/m).
func (p Piece) CurvatureAt(x float64) float64 {
	if p.Radius != 0 {
		_, sine := p.sines(x - p.From)
		return p.leaning() / (p.Radius * math.Pow(1-sine*sine, 1.5))
	}
	return p.Curvature + (x-p.From)*p.CurvatureRate
}

// inflection is where a cubic bends neither way; ok is false for a piece that has no
// such place inside.
func (p Piece) inflection() (x float64, ok bool) {
	if p.CurvatureRate == 0 {
		return 0, false
	}
	x = p.From - p.Curvature/p.CurvatureRate
	return x, x > p.From && x < p.To
}

// sines are the sines of the slope of the arc at its start and at s; the sine
// of a circle's slope is linear in x.
func (p Piece) sines(s float64) (start, at float64) {
	slope := p.Slope / p.leaning()
	start = slope / math.Sqrt(1+slope*slope)
	return start, start + s/p.Radius
}

func (p Piece) leaning() float64 {
	if p.lean == 0 {
		return 1
	}
	return p.lean
}

// straight says that the piece does not bend.
func (p Piece) straight() bool { return p.Curvature == 0 && p.Radius == 0 && p.CurvatureRate == 0 }

// Straight is the straight piece between two points.
func Straight(from, to Point) Piece {
	return Piece{From: from.X, To: to.X, Start: from.Ordinate, Slope: (to.Ordinate - from.Ordinate) / (to.X - from.X)}
}

// Parabola is the parabolic piece between two points with the given slope (m/m)
// at the first.
func Parabola(from Point, slope float64, to Point) Piece {
	length := to.X - from.X
	return Piece{
		From: from.X, To: to.X, Start: from.Ordinate, Slope: slope,
		Curvature: 2 * (to.Ordinate - from.Ordinate - slope*length) / (length * length),
	}
}

// Cubic is the cubic piece between two points with the given slope at each.
func Cubic(from, to Through) Piece {
	length := to.X - from.X
	mean := (to.Ordinate - from.Ordinate) / length
	return Piece{
		From: from.X, To: to.X, Start: from.Ordinate, Slope: from.Slope,
		Curvature:     (6*mean - 4*from.Slope - 2*to.Slope) / length,
		CurvatureRate: (6*from.Slope + 6*to.Slope - 12*mean) / (length * length),
	}
}

// Arc is the circular piece from a point, with the given slope (m/m) there and
// the radius (m, positive where it bends upwards), to x = to (m).
func Arc(from Point, slope, radius, to float64) Piece {
	return Piece{From: from.X, To: to, Start: from.Ordinate, Slope: slope, Radius: radius}
}

// Curve is the elevation or the plan of a tendon: pieces from left to right.
type Curve []Piece

// Level is a curve of constant ordinate (m) from one x to another.
func Level(from, to, ordinate float64) Curve {
	return Curve{{From: from, To: to, Start: ordinate}}
}

// Drape is the usual symmetric curve: straight from the anchor at one end to x =
// tangent, a parabola that touches it there and is level at low, straight at
// that level, and the mirror image to the other end of an element of the given
// length (m). Place anchor and low on the left half: anchor.X < tangent < low.X
// ≤ length/2.
func Drape(anchor Point, tangent float64, low Point, length float64) Curve {
	// The parabola drops half of slope × length; the straight drops all of it.
	slope := (low.Ordinate - anchor.Ordinate) / (tangent - anchor.X + (low.X-tangent)/2)
	touch := Point{tangent, anchor.Ordinate + slope*(tangent-anchor.X)}
	mirror := func(p Point) Point { return Point{length - p.X, p.Ordinate} }
	curve := Curve{Straight(anchor, touch), Parabola(touch, slope, low)}
	if low.X < length/2 {
		curve = append(curve, Straight(low, mirror(low)))
	}
	return append(curve, Parabola(mirror(low), 0, mirror(touch)), Straight(mirror(touch), mirror(anchor)))
}

// Leaning is the plan of a tendon that follows this elevation in a plane leaning
// sideways, as in a sloping web: y = ordinate + lean·(z − level), all in m and
// m/m.
func (c Curve) Leaning(ordinate, level, lean float64) Curve {
	plan := make(Curve, len(c))
	for i, p := range c {
		plan[i] = Piece{
			From: p.From, To: p.To, Start: ordinate + lean*(p.Start-level),
			Slope: lean * p.Slope, Curvature: lean * p.Curvature, CurvatureRate: lean * p.CurvatureRate,
		}
		if p.Radius != 0 && lean != 0 {
			plan[i].Radius, plan[i].lean = p.Radius, lean*p.leaning()
		}
	}
	return plan
}

// Largest jump and kink (m, rad) that count as rounding of the input.
const (
	jumpTolerance = 1e-6
	kinkTolerance = 1e-4
)

// Bounds of what is taken as a tendon in a girder.
const (
	farthest = 1000 // m, in x or as an ordinate
	steepest = 2    // m/m, slope: the curve is a function of x
	smallest = 0.1  // m, radius of an arc
	shortest = 0.1  // m, from anchor to anchor
)

// check reports the first piece that is not finite, is empty, or does not
// continue the one before it.
func (c Curve) check(name string, harped bool) error {
	if len(c) == 0 {
		return fmt.Errorf("%w: %s has no piece: must have at least one", ErrTendon, name)
	}
	for i, p := range c {
		if err := p.finite(name, i); err != nil {
			return err
		}
		if math.Abs(p.From) > farthest || math.Abs(p.To) > farthest || math.Abs(p.Start) > farthest || math.Abs(p.At(p.To)) > farthest {
			return fmt.Errorf("%w: %s: piece %d goes beyond ±%d m: must be within", ErrTendon, name, i+1, farthest)
		}
		slope := math.Max(math.Abs(p.Slope), math.Abs(p.SlopeAt(p.To)))
		if x, ok := p.inflection(); ok {
			slope = math.Max(slope, math.Abs(p.SlopeAt(x)))
		}
		if slope > steepest {
			return fmt.Errorf("%w: %s: piece %d has a slope of %.4g: must be up to %d", ErrTendon, name, i+1, slope, steepest)
		}
		if p.To <= p.From {
			return fmt.Errorf("%w: %s: piece %d: To = %g m: must be beyond From = %g m", ErrTendon, name, i+1, p.To, p.From)
		}
		if i == 0 {
			continue
		}
		before := c[i-1]
		if gap := p.From - before.To; math.Abs(gap) > jumpTolerance {
			return fmt.Errorf("%w: %s: piece %d starts at x = %g m: must be %g m, where the piece before it ends", ErrTendon, name, i+1, p.From, before.To)
		}
		if jump := p.Start - before.At(before.To); math.Abs(jump) > jumpTolerance {
			return fmt.Errorf("%w: %s jumps by %.4g m at x = %g m: must be 0", ErrTendon, name, jump, p.From)
		}
		kink := math.Atan(p.Slope) - math.Atan(before.SlopeAt(before.To))
		if math.Abs(kink) > kinkTolerance && !harped {
			return fmt.Errorf("%w: %s has a kink of %.4g rad at x = %g m: must be 0 unless the tendon is Harped", ErrTendon, name, kink, p.From)
		}
	}
	return within(name+": ", bound{"length", c.To() - c.From(), "m", shortest, 2 * farthest})
}

// finite reports a value that is not a number and an arc that is none.
func (p Piece) finite(name string, i int) error {
	for _, v := range [...]float64{p.From, p.To, p.Start, p.Slope, p.Curvature, p.Radius, p.CurvatureRate} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("%w: %s: piece %d has %g: must be finite values", ErrTendon, name, i+1, v)
		}
	}
	if p.Radius != 0 && (p.Curvature != 0 || p.CurvatureRate != 0 || math.Abs(p.Radius) < smallest) {
		return fmt.Errorf("%w: %s: piece %d: Radius = %g m with Curvature = %g 1/m: must be a radius of %g m or more and no curvature beside it",
			ErrTendon, name, i+1, p.Radius, p.Curvature, smallest)
	}
	if v := p.At(p.To) + p.SlopeAt(p.To); math.IsNaN(v) || math.IsInf(v, 0) {
		return fmt.Errorf("%w: %s: piece %d does not reach To = %g m: must be up to where an arc of radius %g m is upright", ErrTendon, name, i+1, p.To, p.Radius)
	}
	return nil
}

// piece is the piece that holds x; the right one at a joint.
func (c Curve) piece(x float64) Piece {
	for i := len(c) - 1; i > 0; i-- {
		if x >= c[i].From {
			return c[i]
		}
	}
	return c[0]
}

// From is x of the left end of the curve (m); 0 for one without segments.
func (c Curve) From() float64 {
	if len(c) == 0 {
		return 0
	}
	return c[0].From
}

// To is x of the right end of the curve (m); 0 for one without segments.
func (c Curve) To() float64 {
	if len(c) == 0 {
		return 0
	}
	return c[len(c)-1].To
}

// Moved is the curve moved by a distance along x (m).
func (c Curve) Moved(by float64) Curve {
	moved := make(Curve, len(c))
	for i, p := range c {
		p.From += by
		p.To += by
		moved[i] = p
	}
	return moved
}
