package section

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Law is the law along x of the corners of a taper.
type Law int

// The laws of a taper.
const (
	Straight    Law = iota // corners move in proportion to x
	FlatAtLeft             // parabola with no slope at the left end: a soffit that leaves mid-span to the left
	FlatAtRight            // parabola with no slope at the right end: a soffit that reaches mid-span at the right
)

// Taper is a section that changes between two shapes with the same outlines and
// the same number of corners in each. Corners correspond in the order in which
// [Shape.Solids] and [Shape.Voids] give them: draw both shapes the same way, from
// the same corner.
type Taper struct {
	From, To    float64 // x of its ends, m, within ±10 km; outside them the section stays as at the end
	Left, Right Shape   // the shapes at From and at To
	Law         Law     // zero: straight
	// Middle, when not empty, is the shape at mid-length: each corner runs on the
	// parabola through its three places, and Law must be zero. It is for slab and
	// soffit of different laws.
	Middle Shape
}

// Along is the taper as a section along x. The error wraps [ErrShape] when the
// ends are out of range or not in order, a shape is empty, the outlines do not
// correspond or begin at different corners, or edges would meet on the way: it names the two edges and where.
//
// Meeting is excluded for every x between the ends, not at samples: an interval
// is clear when the distance of two edges at its middle is more than they can
// approach each other within it; other intervals are halved.
func (t Taper) Along() (Along, error) {
	for i, x := range [2]float64{t.From, t.To} {
		if !(math.Abs(x) <= farthest) {
			return nil, fmt.Errorf("%w: Taper.%s = %g m: must be within ±%d m%s", ErrShape, [2]string{"From", "To"}[i], x, farthest, formula.Misread(x, "m", -farthest, farthest))
		}
	}
	if !(t.To > t.From) {
		return nil, fmt.Errorf("%w: Taper.To = %g m: must be beyond From = %g m", ErrShape, t.To, t.From)
	}
	if t.Law < Straight || t.Law > FlatAtRight {
		return nil, fmt.Errorf("%w: Taper.Law = %d: must be Straight, FlatAtLeft, FlatAtRight", ErrShape, t.Law)
	}
	if !t.Middle.Empty() && t.Law != Straight {
		return nil, fmt.Errorf("%w: Taper.Law = %d with a Middle shape: must be one of them", ErrShape, t.Law)
	}
	moving, err := t.paths()
	if err != nil {
		return nil, err
	}
	if err := moving.clear(); err != nil {
		return nil, err
	}
	return moving, nil
}

// paths gives each corner its law of movement.
func (t Taper) paths() (taper, error) {
	middle := t.Middle
	if middle.Empty() {
		middle = t.Left
	}
	if err := correspond(t.Left, t.Right, "Right"); err != nil {
		return taper{}, err
	}
	if err := correspond(t.Left, middle, "Middle"); err != nil {
		return taper{}, err
	}
	result := taper{from: t.From, to: t.To, solids: t.Left.solids}
	for k, outline := range t.Left.outlines {
		moving := make([]path, len(outline))
		for i, left := range outline {
			right := t.Right.outlines[k][i]
			if t.Middle.Empty() {
				moving[i] = t.Law.path(left, right)
			} else {
				moving[i] = through(left, middle.outlines[k][i], right)
			}
		}
		result.outlines = append(result.outlines, moving)
	}
	return result, nil
}

// correspond checks that two shapes have the same outlines.
func correspond(left, other Shape, name string) error {
	if left.Empty() || other.Empty() {
		return fmt.Errorf("%w: Taper.Left or Taper.%s is empty: must be shapes with area", ErrShape, name)
	}
	if left.solids != other.solids || len(left.outlines) != len(other.outlines) {
		return fmt.Errorf("%w: Taper.%s has %d solid and %d void outlines: must be %d and %d as in Left", ErrShape, name,
			other.solids, len(other.outlines)-other.solids, left.solids, len(left.outlines)-left.solids)
	}
	for k := range left.outlines {
		if len(left.outlines[k]) != len(other.outlines[k]) {
			return fmt.Errorf("%w: Taper.%s: %s has %d corners: must be %d as in Left", ErrShape, name,
				outlineLabel(k, left.solids), len(other.outlines[k]), len(left.outlines[k]))
		}
		if first := left.outlines[k].begins(other.outlines[k]); first != 0 {
			at := other.outlines[k][first]
			return fmt.Errorf("%w: Taper.%s: %s begins at another corner than in Left, so that it would turn on the way: must begin at its corner %d, y = %g m, z = %g m",
				ErrShape, name, outlineLabel(k, left.solids), first+1, at.Y, at.Z)
		}
	}
	return nil
}

// begins is the corner at which the other outline must begin for its corners to
// be nearest to those of o, by the sum of squares: moving it as a whole does not
// change that, stretching it leaves its own first corner the nearest.
func (o Outline) begins(other Outline) int {
	const visibly = 1 - 1e-9 // a turn half-way from corner to corner is no mistake
	first, least := 0, math.Inf(1)
	for by := range other {
		sum := 0.0
		for i, p := range o {
			d := other[(i+by)%len(other)].minus(p)
			sum += dot(d, d)
		}
		if sum < least*visibly {
			first, least = by, sum
		}
	}
	return first
}

// path is the place of a corner: a + b·t + c·t² with t from 0 to 1.
type path struct{ a, b, c Point }

func (p path) at(t float64) Point {
	return Point{p.a.Y + t*(p.b.Y+t*p.c.Y), p.a.Z + t*(p.b.Z+t*p.c.Z)}
}

// velocity is dp/dt.
func (p path) velocity(t float64) Point { return Point{p.b.Y + 2*t*p.c.Y, p.b.Z + 2*t*p.c.Z} }

// path is the way from left to right by the law.
func (l Law) path(left, right Point) path {
	way := right.minus(left)
	switch l {
	case FlatAtLeft:
		return path{a: left, c: way}
	case FlatAtRight:
		return path{a: left, b: Point{2 * way.Y, 2 * way.Z}, c: Point{-way.Y, -way.Z}}
	default:
		return path{a: left, b: way}
	}
}

// through is the parabola through three places at t = 0, 1/2 and 1.
func through(left, middle, right Point) path {
	return path{
		a: left,
		b: Point{4*middle.Y - 3*left.Y - right.Y, 4*middle.Z - 3*left.Z - right.Z},
		c: Point{2*left.Y + 2*right.Y - 4*middle.Y, 2*left.Z + 2*right.Z - 4*middle.Z},
	}
}

// taper is a checked Taper.
type taper struct {
	from, to float64
	outlines [][]path
	solids   int
}

// At is the zero Shape where x is not a number.
func (t taper) At(x float64) Shape {
	if math.IsNaN(x) {
		return Shape{}
	}
	s := math.Max(0, math.Min(1, (x-t.from)/(t.to-t.from)))
	shape := Shape{solids: t.solids, outlines: make([]Outline, len(t.outlines)), kept: new(kept)}
	for k, moving := range t.outlines {
		shape.outlines[k] = make(Outline, len(moving))
		for i, p := range moving {
			shape.outlines[k][i] = p.at(s)
		}
	}
	return shape
}

func (t taper) Breaks() []float64 { return []float64{t.from, t.to} }
