package tendon

import (
	"math"
	"sort"

	"github.com/tempstage/tempstage/section"
)

// Path is where a tendon runs, with the angle and the length gone through from
// its left anchor.
type Path struct {
	stretches []stretch
}

// stretch is a length on which y and z are both one parabola or straight.
type stretch struct {
	from, to float64
	y, z     Piece
	angle    float64 // Σ of angles from the left anchor to from, a kink at from included
	length   float64 // along the tendon from the left anchor to from
}

// Path builds the path of the tendon. The error is that of [Tendon.Check].
func (t Tendon) Path() (*Path, error) {
	if err := t.Check(); err != nil {
		return nil, err
	}
	xs := []float64{t.Elevation.From()}
	for _, p := range append(append(Curve{}, t.Elevation...), t.Plan...) {
		xs = append(xs, p.To)
	}
	sort.Float64s(xs)
	path := &Path{}
	for i := 1; i < len(xs); i++ {
		if xs[i]-xs[i-1] <= jumpTolerance {
			continue
		}
		middle := (xs[i-1] + xs[i]) / 2
		next := stretch{from: xs[i-1], to: xs[i], y: t.Plan.piece(middle), z: t.Elevation.piece(middle)}
		if n := len(path.stretches); n > 0 {
			last := &path.stretches[n-1]
			last.to = next.from
			next.angle = last.angle + between(last.tangent(last.from), last.tangent(last.to)) +
				between(last.tangent(last.to), next.tangent(next.from))
			next.length = last.length + last.arc(last.to)
		}
		path.stretches = append(path.stretches, next)
	}
	return path, nil
}

// tangent is (1, y′, z′), not normalised.
func (s stretch) tangent(x float64) [3]float64 {
	return [3]float64{1, s.y.SlopeAt(x), s.z.SlopeAt(x)}
}

// between is the angle between two directions. On a stretch y′ and z′ are linear
// in x, so the direction turns along one great circle and the angle between the
// end tangents is the exact sum of all angle changes on the way.
func between(a, b [3]float64) float64 {
	c := [3]float64{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
	sin := math.Sqrt(c[0]*c[0] + c[1]*c[1] + c[2]*c[2])
	return math.Atan2(sin, a[0]*b[0]+a[1]*b[1]+a[2]*b[2])
}

// arc is the length from the start of the stretch to x.
func (s stretch) arc(x float64) float64 {
	return integrate(s.from, x, s.rate)
}

// rate is ds/dx = √(1 + y′² + z′²).
func (s stretch) rate(x float64) float64 {
	y, z := s.y.SlopeAt(x), s.z.SlopeAt(x)
	return math.Sqrt(1 + y*y + z*z)
}

func (p *Path) stretch(x float64) *stretch {
	for i := len(p.stretches) - 1; i > 0; i-- {
		if x >= p.stretches[i].from {
			return &p.stretches[i]
		}
	}
	return &p.stretches[0]
}

// From is x of the left anchor (m).
func (p *Path) From() float64 { return p.stretches[0].from }

// To is x of the right anchor (m).
func (p *Path) To() float64 { return p.stretches[len(p.stretches)-1].to }

// Breaks are the places (m) where the law of the path changes, ends included.
func (p *Path) Breaks() []float64 {
	breaks := []float64{p.From()}
	for _, s := range p.stretches {
		breaks = append(breaks, s.to)
	}
	return breaks
}

// At is the place of the tendon in the section at x.
func (p *Path) At(x float64) section.Point {
	s := p.stretch(x)
	return section.Point{Y: s.y.At(x), Z: s.z.At(x)}
}

// Direction is the unit vector along the tendon at x, right of a kink.
func (p *Path) Direction(x float64) (alongX, alongY, alongZ float64) {
	s := p.stretch(x)
	r := s.rate(x)
	return 1 / r, s.y.SlopeAt(x) / r, s.z.SlopeAt(x) / r
}

// Angle is θ, the sum of all angle changes in space from the left anchor to x
// (rad), kinks included.
func (p *Path) Angle(x float64) float64 {
	s := p.stretch(x)
	return s.angle + between(s.tangent(s.from), s.tangent(x))
}

// Length is the length along the tendon from the left anchor to x (m).
func (p *Path) Length(x float64) float64 {
	s := p.stretch(x)
	return s.length + s.arc(x)
}
