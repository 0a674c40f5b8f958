package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// What the stressing crew reads: a straight tendon without friction stretches σ·L/E
// from the datum, each end half of it, and the gauge shows the friction of the jack.
func TestStressingRecord(t *testing.T) {
	of := straight("T", 0, 12, 0, 0.4)
	area := of.Area()
	j := tendon.Jacking{Tendons: []string{"T"}, Stress: 1350e6, Ends: tendon.BothEnds, DrawIn: 0.004,
		Reading: tendon.Measuring{From: 270e6, Tail: 0.6, Tolerance: 0.05, JackFriction: 0.02}}
	r := run(t, bare(of), stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{j}}})
	require.Len(t, r.Stages[0].Situations[0].Stressing, 1)
	s := r.Stages[0].Situations[0].Stressing[0]
	require.Equal(t, [3]string{"T", "stress", "both ends"}, [3]string{s.Mark, s.How, s.Ends})
	require.InEpsilon(t, 1350e6*area, s.Force, 1e-12)
	require.InEpsilon(t, 1350e6*area/0.98, s.Gauge, 1e-12)
	require.InEpsilon(t, 270e6*area/0.98, s.Datum, 1e-12)
	require.InEpsilon(t, (1350e6-270e6)/195e9*(6+0.6), s.Extends.Left, 1e-9)
	require.InEpsilon(t, s.Extends.Left, s.Extends.Right, 1e-9)
	require.InEpsilon(t, (1350e6-270e6)/195e9*12-0.008, s.Kept, 1e-9)
	require.InEpsilon(t, (1350e6-0.008/12*195e9)*area, s.After.Left, 1e-9, "the draw-in reaches over the whole tendon")
	require.Equal(t, 0.05, s.Tolerance)

	require.Equal(t, of.Approval.Reference, r.Tendons[0].Approval)
	require.NotEmpty(t, r.Tendons[0].Approval)
	points := r.Tendons[0].Points
	require.Equal(t, "straight", points[0].Elevation)
	require.Equal(t, "", points[len(points)-1].Plan)

	let := tendon.Jacking{Tendons: []string{"T"}, Stress: 700e6, Ends: tendon.BothEnds}
	r = run(t, bare(of), stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{j}}, stages.Stress{Age: 29, Jacking: []tendon.Jacking{let}}})
	s = r.Stages[1].Situations[0].Stressing[0]
	require.Equal(t, "let down", s.How)
	require.Zero(t, s.Extends, "no extension is read while it is let down")
	require.Zero(t, s.Tolerance)

	j.Reading.From = 1400e6
	_, err := stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{j}}}.Run(bare(of), limits.EN1992{})
	require.ErrorContains(t, err, "Measuring.From = 1.4e+09 Pa: must be below the jacking stress")
}

// The curves of a path are named, and the walls of a section have their thickness.
func TestPathsAndWallsInTheRecord(t *testing.T) {
	r := run(t, girder(t), journey())
	var kinds []string
	for _, p := range r.Tendons[0].Points {
		kinds = append(kinds, p.Elevation)
	}
	require.Contains(t, kinds, "parabola")
	thickness := map[float64]bool{}
	for _, w := range r.Outlines[0].Walls {
		require.InEpsilon(t, w.Thickness*w.Thickness, (w.To.Y-w.From.Y)*(w.To.Y-w.From.Y)+(w.To.Z-w.From.Z)*(w.To.Z-w.From.Z), 1e-12)
		thickness[w.Thickness] = true
	}
	require.NotEmpty(t, thickness)
}

// The record states the partial factors once for all checks that have them.
func TestPartialFactorsInTheRecord(t *testing.T) {
	r := run(t, girder(t), journey())
	require.GreaterOrEqual(t, len(r.Factors), 3)
	for _, f := range r.Factors {
		require.NotEmpty(t, f.Checks)
		if f.LimitState == limits.Equilibrium {
			require.Equal(t, stages.Range{Least: 0.95, Most: 1.05}, f.Weight)
			require.Equal(t, "EN 1990:2002", f.Source.Document)
			require.Contains(t, f.Checks, limits.Overturning)
		}
	}
}
