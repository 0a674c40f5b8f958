package beam_test

import (
	"math"
	"testing"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// Whatever comes in, New and Solve return an error or finite numbers.
func FuzzSolve(f *testing.F) {
	f.Add(10.0, 1e10, 0.0, 10.0, 0.0, 0.0, 5.0, 1e3, 2.0, 8.0, 1e3)
	f.Add(1e-5, 1e-20, 0.0, 1e-5, 1e9, 1e-3, 0.0, -1e300, 0.0, 1e-5, 1e200)
	f.Add(1e200, 1e-200, 0.0, 1e200, 0.0, 1e200, 1.0, 1.0, 0.0, 1.0, 1.0)
	f.Fuzz(func(t *testing.T, length, stiffness, first, second, spring, settlement, at, force, from, to, intensity float64) {
		b, err := beam.New(beam.Layout{
			Length:    length,
			Stiffness: []beam.Stretch{{BendingStiffness: stiffness}},
			Supports:  []beam.Support{{At: first}, {At: second, Stiffness: spring, Settlement: settlement}},
		})
		if err != nil {
			return
		}
		r, err := b.Solve(loads.Set{
			Points:     []loads.Point{{At: at, Force: force}},
			Couples:    []loads.Couple{{At: from, Moment: force}},
			Lines:      []loads.Line{{From: from, To: to, Intensity: loads.Polynomial{intensity, force, 0, intensity}}},
			Curvatures: []loads.Curvature{{From: from, To: to, Value: loads.Polynomial{settlement}}},
		})
		if err != nil {
			return
		}
		for _, field := range [][]beam.Extreme{r.MomentExtremes(), r.ShearExtremes(), r.DeflectionExtremes()} {
			for _, e := range field {
				if math.IsNaN(e.Value-e.Value) || math.IsNaN(e.At-e.At) {
					t.Fatalf("%+v", e)
				}
			}
		}
		for _, reaction := range r.Reactions {
			if math.IsNaN(reaction.Force - reaction.Force) {
				t.Fatalf("%+v", reaction)
			}
		}
	})
}

// Whatever train comes, Cross returns an error or finite bounds, and the
// largest reaction of a rigid support is at least what the unloaded beam has.
func FuzzCross(f *testing.F) {
	f.Add(60.0, 1e10, 0.0, 30.0, 60.0, 0.0, 1e5, 2e5, 4.0, 1.1, 20.0, 0.5)
	f.Add(10.0, 1e10, 1.0, 5.0, 9.0, 1e7, 1e5, 2e5, 10.0, 0.0, 0.0, 0.0)
	f.Add(10.0, 1e10, 10.0, 5.0, .9, 5e6, 1e5, 4e4, 60.0, 52.0, 0.0, 0.0)
	f.Add(1e-9, 1e300, 0.0, 1e-10, 1e-9, 1e-300, 1e300, 1e-300, 1e300, 1e10, 1e-9, 3.0)
	f.Fuzz(func(t *testing.T, length, stiffness, first, second, third, spring, front, rear, spacing, factor, station, taper float64) {
		layout := beam.Layout{
			Length:    length,
			Stiffness: []beam.Stretch{{BendingStiffness: stiffness}},
			Supports:  []beam.Support{{At: first}, {At: second, Stiffness: spring}, {At: third}},
			Hinges:    []float64{station + spacing},
		}
		if layout.Hinges[0] >= second {
			layout.Hinges = nil
		}
		if taper != 0 {
			layout.Stiffness[0] = beam.Stretch{BendingAt: func(x float64) float64 { return stiffness * (1 + taper*x/length) }}
		}
		b, err := beam.New(layout)
		if err != nil {
			return
		}
		e, err := b.Cross(beam.Crossing{
			Train:    loads.Train{Axles: []loads.Axle{{Force: front}, {Force: rear, Behind: spacing}}, Dynamic: factor},
			BothWays: true, Stations: []float64{station},
		})
		if err != nil {
			return
		}
		all := append([]beam.Bounds{e.BeamMoment, e.BeamShear, e.Moment[0], e.Shear[0]}, e.Reactions...)
		for _, bounds := range all {
			for _, p := range []beam.Peak{bounds.Least, bounds.Most} {
				if math.IsNaN(p.Value-p.Value) || math.IsNaN(p.At-p.At) || math.IsNaN(p.Front-p.Front) {
					t.Fatalf("%+v", p)
				}
			}
			if bounds.Most.Value < 0 || bounds.Least.Value > 0 {
				t.Fatalf("the unloaded beam counts: %+v", bounds)
			}
		}
	})
}

// On pads that can lift off, Solve returns an error or reactions that push,
// each with either a force or a gap, and that carry the load.
func FuzzContact(f *testing.F) {
	f.Add(20.0, 5.0, 5.0, 5.0, 0.0, 0.01, 0.0, 1e4, 10.0, 1e5)
	f.Add(20.0, 0.1, 9.0, 0.2, 1e7, -0.2, 1e9, 1e4, 19.0, 1e6)
	f.Fuzz(func(t *testing.T, length, gap1, gap2, gap3, spring, low, spring2, intensity, at, force float64) {
		b, err := beam.New(beam.Layout{
			Length:    length,
			Stiffness: []beam.Stretch{{BendingStiffness: 1e10}},
			Supports: []beam.Support{
				{At: 0, Contact: true}, {At: gap1, Contact: true, Stiffness: spring},
				{At: gap1 + gap2, Contact: true, Settlement: low},
				{At: gap1 + gap2 + gap3, Contact: true, Stiffness: spring2},
			},
		})
		if err != nil {
			return
		}
		set := loads.Set{Points: []loads.Point{{At: at, Force: force}}, Lines: []loads.Line{loads.Uniform(0, length, intensity)}}
		r, err := b.Solve(set)
		if err != nil {
			return
		}
		sum, size := 0.0, math.Abs(force)+math.Abs(intensity)*length
		for _, reaction := range r.Reactions {
			if !(reaction.Force >= 0) || !(reaction.Lift >= 0) || reaction.Force > 0 && reaction.Lift > 0 {
				t.Fatalf("%+v", reaction)
			}
			sum += reaction.Force
			size = max(size, reaction.Force)
		}
		if math.Abs(sum-set.Total()) > 1e-5*size {
			t.Fatalf("reactions %g N, loads %g N", sum, set.Total())
		}
	})
}
