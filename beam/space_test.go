package beam_test

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
)

var up = r3.Vec{Z: 1}

// uniformSection is a section that does not vary.
func uniformSection(c beam.CrossSection) func(float64) beam.CrossSection {
	return func(float64) beam.CrossSection { return c }
}

// fourPads is a box on two pairs of supports across.
func fourPads(k float64, oneWay bool) beam.SpaceLayout {
	l := beam.SpaceLayout{Length: 34, Section: uniformSection(beam.CrossSection{
		BendingY: 3e11, BendingZ: 9e11, Torsional: 9e10, Axial: 2e11,
	})}
	for _, p := range [][2]float64{{1, 2}, {1, -2}, {33, 2}, {33, -2}} {
		l.Supports = append(l.Supports, beam.Restraint{X: p[0], Y: p[1], Direction: up, Stiffness: k, OneWay: oneWay})
	}
	return l
}

// weight is w (N/m) downwards on the whole member at y.
func weight(l beam.SpaceLayout, w, y float64) beam.SpaceLoads {
	return beam.SpaceLoads{Lines: []beam.SpaceLine{{From: 0, To: l.Length, Direction: r3.Vec{Z: -1}, Intensity: []float64{w}, FirstMomentY: []float64{w * y}}}}
}

func BenchmarkSpaceFourPadsClosed(b *testing.B)  { benchPads(b, .001) }
func BenchmarkSpaceFourPadsContact(b *testing.B) { benchPads(b, .05) }

func benchPads(b *testing.B, level float64) {
	l := fourPads(3e8, true)
	s, err := beam.NewSpace(l)
	if err != nil {
		b.Fatal(err)
	}
	w := weight(l, 200e3, .01)
	g := beam.Setting{Level: []float64{level, 0, 0, 0}}
	b.ReportAllocs()
	for b.Loop() {
		r, err := s.Solve(w, g)
		if err != nil {
			b.Fatal(err)
		}
		if (r.Gaps()[1] > 0) != (level > .01) {
			b.Fatal(r.Reactions(), r.Gaps())
		}
	}
}

func BenchmarkSpaceDeterminate(b *testing.B) {
	l := fourPads(0, true)
	l.Section = nil
	l.Supports = l.Supports[:3]
	s, err := beam.NewSpace(l)
	if err != nil {
		b.Fatal(err)
	}
	w := weight(l, 200e3, 0)
	w.Lines[0].FirstMomentY = []float64{1e3}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Solve(w, beam.Setting{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSpaceAt(b *testing.B) {
	l := fourPads(0, false)
	s, err := beam.NewSpace(l)
	if err != nil {
		b.Fatal(err)
	}
	r, err := s.Solve(weight(l, 200e3, .01), beam.Setting{})
	if err != nil {
		b.Fatal(err)
	}
	x := 0.0
	b.ReportAllocs()
	for b.Loop() {
		if x += .1; x > 34 {
			x = 0
		}
		if f := r.At(x, beam.RightOf); f.N != 0 {
			b.Fatal(f)
		}
	}
}

func BenchmarkNewSpace(b *testing.B) {
	l := fourPads(0, false)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := beam.NewSpace(l); err != nil {
			b.Fatal(err)
		}
	}
}
