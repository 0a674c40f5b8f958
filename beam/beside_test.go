package beam_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// Two springs at one place are one of their sum, and 1 mm apart nearly so; what
// each takes is its own.
func TestSupportsBesideEachOther(t *testing.T) {
	const legs, bar, ei = 8e8, 2e8, 3e11
	alone := plain(34, beam.Support{At: .5, Stiffness: legs + bar}, beam.Support{At: 30, Stiffness: legs})
	alone.Stiffness[0].BendingStiffness = ei
	set := loads.Set{Lines: []loads.Line{loads.Uniform(0, 34, 1e5)}, Points: []loads.Point{{At: 30, Force: 3e5}}}
	want := solved(t, alone, set)
	for _, apart := range []float64{0, 1e-9, 1e-3} {
		pair := alone
		pair.Supports = []beam.Support{{At: .5, Stiffness: legs}, {At: 30, Stiffness: legs}, {At: .5 + apart, Stiffness: bar}}
		got := solved(t, pair, set)
		total := want.Reactions[0].Force
		require.InDelta(t, total*legs/(legs+bar), got.Reactions[0].Force, 2*apart*total+1e-6)
		require.InDelta(t, total*bar/(legs+bar), got.Reactions[2].Force, 2*apart*total+1e-6)
		require.InDelta(t, total+want.Reactions[1].Force, got.Reactions[0].Force+got.Reactions[1].Force+got.Reactions[2].Force, 1e-6)
		for _, x := range stations(34) {
			require.InDelta(t, want.Moment(x), got.Moment(x), 2*apart*total+1e-3, "at %g m", x)
			require.InDelta(t, want.Deflection(x), got.Deflection(x), 1e-3*apart+1e-12, "at %g m", x)
		}
		for _, x := range []float64{.5 + apart} { // the jump of the shear is the reaction
			jump := got.At(x+1e-6, beam.RightOf).Shear - got.At(x-1e-6, beam.LeftOf).Shear
			reaction := got.Reactions[2].Force
			if apart < 1e-6 {
				reaction += got.Reactions[0].Force
			}
			require.InDelta(t, reaction, jump, 1)
		}
	}
}

// The same against Space, whose unknowns are forces, with settlements.
func TestSupportsBesideEachOtherAgainstSpace(t *testing.T) {
	for seed := range uint64(seeds) {
		s := seeded(seed)
		flat := s.layout()
		flat.Hinges = nil
		flat.Stiffness[1].ShearStiffness = 0
		for i := range 2 {
			flat.Supports[i].Stiffness = s.in(1e7, 1e9)
			flat.Supports[i].Fixed = false
			flat.Supports = append(flat.Supports, beam.Support{
				At: min(flat.Supports[i].At+float64(s.IntN(3))*1e-3, flat.Length), Stiffness: s.in(1e7, 1e9), Settlement: s.in(0, .01),
			})
		}
		set := loads.Set{Lines: []loads.Line{loads.Uniform(0, flat.Length, 1e5)}}
		got := solved(t, flat, set)
		l, g, which := flatSpace(flat)
		want := inSpace(t, l, weight(l, 1e5, 0), g)
		size := 0.0
		for _, force := range want.Reactions() {
			size = max(size, math.Abs(force))
		}
		for i, j := range which {
			require.InDelta(t, want.Reactions()[j], got.Reactions[i].Force, 1e-7*size, "seed %d, support %d", seed, i)
		}
		for _, x := range stations(flat.Length) {
			require.InDelta(t, want.At(x, beam.RightOf).My, got.Moment(x), 1e-7*size*flat.Length, "seed %d at %g m", seed, x)
		}
	}
}

// A leg that only pushes and its tie-down bar beside it: the bar takes nothing
// while the leg is down, and the uplift when it has lifted.
func TestLegAndTieDownBar(t *testing.T) {
	for _, apart := range []float64{0, 1e-3} {
		layout := plain(20, beam.Support{At: 0, Contact: true}, beam.Support{At: 15}, beam.Support{At: apart, Stiffness: 1e8})
		layout.Stiffness[0].BendingStiffness = 1e10
		down := solved(t, layout, loads.Set{Points: []loads.Point{{At: 5, Force: 3e5}}})
		require.InDelta(t, 2e5, down.Reactions[0].Force, 100)
		require.InDelta(t, 0, down.Reactions[2].Force, 1000)
		up := solved(t, layout, loads.Set{Points: []loads.Point{{At: 20, Force: 3e5}}})
		require.InDelta(t, -1e5, up.Reactions[2].Force, 100)
		require.Equal(t, 0., up.Reactions[0].Force)
		require.InDelta(t, 1e5/1e8, up.Reactions[0].Lift, 1e-5)
		line := layout
		line.Supports = append([]beam.Support(nil), layout.Supports...)
		line.Supports[0] = beam.Support{At: 0, Stiffness: 1e8}
		b, err := beam.New(line)
		require.NoError(t, err)
		influence, err := b.ReactionInfluence(2)
		require.NoError(t, err)
		for _, x := range []float64{0, 4, 19} {
			r, err := b.Solve(loads.Set{Points: []loads.Point{{At: x, Force: 1}}})
			require.NoError(t, err)
			require.InDelta(t, r.Reactions[2].Force, influence.At(x, beam.RightOf), 1e-9)
		}
		_, err = b.Cross(beam.Crossing{Train: carrier(), Stations: []float64{10}})
		require.ErrorContains(t, err, "must be further apart")
	}
	_, err := beam.New(plain(20, beam.Support{At: 0}, beam.Support{At: 15}, beam.Support{At: 15}))
	require.ErrorContains(t, err, "the other must have a Stiffness")
}
