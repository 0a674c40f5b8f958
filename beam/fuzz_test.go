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
