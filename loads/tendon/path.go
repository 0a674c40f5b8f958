package tendon

import (
	"sort"

	"github.com/tempstage/tempstage/section"
)

// Path is the line of a tendon, with angle and length from its left anchor. It is made
// by [Tendon.Path]; the zero value, or nil, is on the x axis from 0 to 0, without angle
// and curvature.
type Path struct {
	stretches []stretch
}

// Path builds the path of the tendon. The error is that of [Tendon.Check].
func (t Tendon) Path() (*Path, error) {
	if err := t.Check(); err != nil {
		return nil, err
	}
	return t.path(), nil
}

// path is where a tendon with a checked run runs.
func (t Tendon) path() *Path {
	xs := make([]float64, 1, 1+len(t.Elevation)+len(t.Plan))
	xs[0] = t.Elevation.From()
	for _, curve := range [...]Curve{t.Elevation, t.Plan} {
		for _, p := range curve {
			xs = append(xs, p.To)
			if x, ok := p.inflection(); ok { // on either side the angle grows one way
				xs = append(xs, x)
			}
		}
	}
	sort.Float64s(xs)
	path := &Path{stretches: make([]stretch, 0, len(xs)-1)}
	for i := 1; i < len(xs); i++ {
		if xs[i]-xs[i-1] <= jumpTolerance {
			continue
		}
		middle := (xs[i-1] + xs[i]) / 2
		next := stretch{from: xs[i-1], to: xs[i], y: t.Plan.piece(middle), z: t.Elevation.piece(middle)}
		if n := len(path.stretches); n > 0 {
			last := &path.stretches[n-1]
			last.to = next.from
			kink := between(last.tangent(last.to), next.tangent(next.from))
			if kink > kinkTolerance {
				kink += t.DeviatorAngle
			}
			next.angle = last.angle + last.turn(last.to) + kink
			next.length = last.length + last.arc(last.to)
		}
		next.prepare()
		path.stretches = append(path.stretches, next)
	}
	return path
}

// nowhere is the stretch of a Path that no tendon has.
var nowhere = func() *stretch { s := &stretch{}; s.prepare(); return s }()

func (p *Path) stretch(x float64) *stretch {
	if p.empty() {
		return nowhere
	}
	return &p.stretches[p.index(x)]
}

// empty says that the path is not one of [Tendon.Path].
func (p *Path) empty() bool { return p == nil || len(p.stretches) == 0 }

func (p *Path) index(x float64) int {
	for i := len(p.stretches) - 1; i > 0; i-- {
		if x >= p.stretches[i].from {
			return i
		}
	}
	return 0
}

// From is x of the left anchor (m); 0 of an empty path.
func (p *Path) From() float64 {
	if p.empty() {
		return 0
	}
	return p.stretches[0].from
}

// To is x of the right anchor (m); 0 of an empty path.
func (p *Path) To() float64 {
	if p.empty() {
		return 0
	}
	return p.stretches[len(p.stretches)-1].to
}

// Breaks are the places (m) where the law of the path changes, ends included.
func (p *Path) Breaks() []float64 {
	if p.empty() {
		return nil
	}
	breaks := make([]float64, 1, 2*len(p.stretches))
	breaks[0] = p.From()
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

// Level is true where the tendon is at the same place of the section from one x to
// another (m).
func (p *Path) Level(from, to float64) bool {
	if p.empty() {
		return true
	}
	level := func(q *Piece) bool { return q.straight() && q.Slope == 0 }
	first := &p.stretches[p.index(from)]
	for i := p.index(from); i <= p.index(to); i++ {
		s := &p.stretches[i]
		if !level(&s.y) || !level(&s.z) || s.y.Start != first.y.Start || s.z.Start != first.z.Start {
			return false
		}
	}
	return true
}

// Direction is the unit vector along the tendon at x, right of a kink.
func (p *Path) Direction(x float64) (alongX, alongY, alongZ float64) {
	s := p.stretch(x)
	r := s.rate(x)
	return 1 / r, s.y.SlopeAt(x) / r, s.z.SlopeAt(x) / r
}

// Angle is θ, the sum of all angle changes in space from the left anchor to x
// (rad), kinks with their Tendon.DeviatorAngle included.
func (p *Path) Angle(x float64) float64 {
	s := p.stretch(x)
	return s.angle + s.turn(x)
}

// Length is the length along the tendon from the left anchor to x (m).
func (p *Path) Length(x float64) float64 {
	s := p.stretch(x)
	return s.length + s.arc(x)
}

// Curvature is 1/R of the tendon in space at x, right of a kink (1/m).
func (p *Path) Curvature(x float64) float64 { return p.stretch(x).curvature(x) }
