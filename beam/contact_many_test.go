package beam_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// Sixty pads 1 m apart, out of level by up to 5 mm, under a box girder: closed, they
// would pull and push with a thousand times the weight, and what is left in the end is
// their difference. It is found, and it is a contact: nothing pulls, nothing sinks in,
// and the pads that carry stand where they were set.
func TestSixtyPadsUnderAStiffGirder(t *testing.T) {
	for _, c := range []struct{ bending, pad float64 }{{3e10, 0}, {3e9, 1e10}, {1e12, 1e9}, {1e11, 0}} {
		for seed := range uint64(12) {
			s := seeded(seed)
			layout := beam.Layout{Length: 59, Stiffness: []beam.Stretch{{BendingStiffness: c.bending}}}
			for i := range 60 {
				layout.Supports = append(layout.Supports, beam.Support{At: float64(i), Contact: true, Stiffness: c.pad, Settlement: s.in(0, 0.005)})
			}
			set := loads.Set{Lines: []loads.Line{loads.Uniform(0, 59, 1e3)}, Points: []loads.Point{{At: s.in(10, 50), Force: 1e5}}}
			r := solved(t, layout, set)
			total, moment, most := 0.0, 0.0, 0.0
			for _, reaction := range r.Reactions {
				total, moment, most = total+reaction.Force, moment+reaction.Force*reaction.At, max(most, reaction.Force)
			}
			require.InEpsilon(t, 159e3, total, 1e-5, "%+v, seed %d", c, seed)
			require.InEpsilon(t, set.FirstMoment(), moment, 1e-5)
			for i, reaction := range r.Reactions {
				require.GreaterOrEqual(t, reaction.Force, 0.0)
				require.GreaterOrEqual(t, reaction.Lift, 0.0)
				require.Zero(t, reaction.Force*reaction.Lift)
				gap := r.Deflection(reaction.At) + layout.Supports[i].Settlement
				if c.pad > 0 {
					gap += reaction.Force / c.pad
				}
				require.InDelta(t, reaction.Lift, gap, 1e-8, "%+v, seed %d, pad %d", c, seed, i)
			}
		}
	}
}

// A level in mm is no level.
func TestLevelInMillimetres(t *testing.T) {
	l := beam.SpaceLayout{Length: 10, Section: uniformSection(skew), Supports: fixedAt(0, 0, 0)}
	s, err := beam.NewSpace(l)
	require.NoError(t, err)
	for level, open := range map[float64]bool{2: true, -2: true, 2.001: false, 5: false, -5: false} {
		_, err := s.Solve(beam.SpaceLoads{}, beam.Setting{Level: []float64{0, 0, level, 0, 0, 0}})
		require.Equal(t, open, err == nil, "%g", level)
		if !open {
			require.ErrorIs(t, err, beam.ErrBeam)
			require.ErrorContains(t, err, "must be within ±2 m (rad); is it in mm?")
		}
	}
}
