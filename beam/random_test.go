package beam_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// source gives random beams and loads; each seed is a test case of its own.
type source struct{ *rand.Rand }

func seeded(seed uint64) source { return source{rand.New(rand.NewPCG(seed, 7))} }

func (s source) in(low, high float64) float64 { return low + (high-low)*s.Float64() }

// layout is a random stable beam with springs, clamps, a hinge, a step of
// stiffness, shear deformation and overhangs.
func (s source) layout() beam.Layout {
	spans := 1 + s.IntN(5)
	x := s.in(0, 3) * float64(s.IntN(2))
	supports := []beam.Support{{At: x}}
	for range spans {
		x += s.in(4, 30)
		supports = append(supports, beam.Support{At: x})
	}
	length := x + s.in(0, 4)*float64(s.IntN(2))
	for i := range supports {
		switch s.IntN(5) {
		case 0:
			supports[i].Stiffness = s.in(1e7, 1e9)
		case 1:
			supports[i].RotationalStiffness = s.in(1e8, 1e10)
		case 2:
			supports[i].Fixed = true
		}
		if s.IntN(4) == 0 {
			supports[i].Settlement = s.in(-.01, .01)
		}
	}
	step := length * s.in(.2, .8)
	layout := beam.Layout{
		Length:    length,
		Stiffness: []beam.Stretch{{To: step, BendingStiffness: s.in(1e9, 1e11)}, {BendingStiffness: s.in(1e9, 1e11)}},
		Supports:  supports,
	}
	if spans > 1 && s.IntN(3) == 0 {
		i := s.IntN(spans)
		layout.Hinges = []float64{supports[i].At + s.in(.1, .9)*(supports[i+1].At-supports[i].At)}
	}
	if s.IntN(3) == 0 {
		layout.Stiffness[1].ShearStiffness = s.in(1e8, 1e10)
	}
	return layout
}

// set is a random set of every kind of load.
func (s source) set(length float64) loads.Set {
	from := s.in(0, .6) * length
	to := from + s.in(.05, .4)*length
	bend := s.in(0, .5) * length
	return loads.Set{
		Points:     []loads.Point{{At: s.in(0, length), Force: s.in(-1e6, 1e6)}, {At: length, Force: s.in(0, 1e5)}},
		Lines:      []loads.Line{loads.Uniform(0, length, s.in(0, 1e5)), {From: from, To: to, Intensity: s.polynomial(1e5, to-from)}},
		Couples:    []loads.Couple{{At: s.in(0, length), Moment: s.in(-1e6, 1e6)}, {At: 0, Moment: s.in(-1e5, 1e5)}},
		Curvatures: []loads.Curvature{{From: bend, To: length, Value: s.polynomial(1e-4, length-bend)}},
	}
}

// polynomial has terms of about the given size at both ends of the length.
func (s source) polynomial(size, length float64) (p loads.Polynomial) {
	for i := range p {
		p[i] = s.in(-size, size) / math.Pow(length, float64(i))
	}
	return p
}

func solved(t *testing.T, layout beam.Layout, set loads.Set) *beam.Response {
	t.Helper()
	b, err := beam.New(layout)
	require.NoError(t, err)
	r, err := b.Solve(set)
	require.NoError(t, err)
	return r
}

// stations is places all over the beam, with both ends.
func stations(length float64) []float64 {
	const n = 57
	places := make([]float64, n+1)
	for i := range places {
		places[i] = length * float64(i) / n
	}
	return places
}

// same requires two responses to agree within 1e-9 of the largest value of
// each field, the second one multiplied by factor.
func same(t *testing.T, a, b *beam.Response, factor float64) {
	t.Helper()
	var scale beam.State
	places := stations(a.Length())
	for _, x := range places {
		s := a.At(x, beam.RightOf)
		scale.Moment = max(scale.Moment, math.Abs(s.Moment))
		scale.Shear = max(scale.Shear, math.Abs(s.Shear))
		scale.Slope = max(scale.Slope, math.Abs(s.Slope))
		scale.Deflection = max(scale.Deflection, math.Abs(s.Deflection))
	}
	for _, x := range places {
		for _, side := range []beam.Side{beam.LeftOf, beam.RightOf} {
			p, q := a.At(x, side), b.At(x, side)
			require.InDelta(t, p.Moment, factor*q.Moment, 1e-9*scale.Moment+1e-12, "moment at %g", x)
			require.InDelta(t, p.Shear, factor*q.Shear, 1e-9*scale.Shear+1e-12, "shear at %g", x)
			require.InDelta(t, p.Slope, factor*q.Slope, 1e-9*scale.Slope+1e-18, "slope at %g", x)
			require.InDelta(t, p.Deflection, factor*q.Deflection, 1e-9*scale.Deflection+1e-18, "deflection at %g", x)
		}
	}
}

// tapered is the layout with a haunch over its first stretch: the stiffness
// grows with the cube of a depth that follows a parabola.
func (s source) tapered(layout beam.Layout) beam.Layout {
	first := layout.Stiffness[0]
	deep := s.in(.5, 2)
	layout.Stiffness = []beam.Stretch{{To: first.To, BendingAt: func(x float64) float64 {
		t := 1 - x/first.To
		depth := 1 + deep*t*t
		return first.BendingStiffness * depth * depth * depth
	}}, layout.Stiffness[1]}
	return layout
}
