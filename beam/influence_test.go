package beam_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// An influence line has at x the effect of a unit force that stands at x.
func TestInfluenceLinesAreEffectsOfAUnitForce(t *testing.T) {
	for seed := range uint64(40) {
		s := seeded(seed)
		layout := s.still()
		switch seed % 4 {
		case 1:
			layout = s.tapered(layout)
		case 2:
			layout.Stiffness[0].ShearStiffness = s.in(1e7, 1e9)
		}
		b, err := beam.New(layout)
		require.NoError(t, err)
		place := s.in(0, layout.Length)
		if seed%3 == 0 {
			place = layout.Supports[s.IntN(len(layout.Supports))].At
		}
		for _, side := range []beam.Side{beam.LeftOf, beam.RightOf} {
			moment, err := b.MomentInfluence(place, side)
			require.NoError(t, err)
			shear, err := b.ShearInfluence(place, side)
			require.NoError(t, err)
			deflection, err := b.DeflectionInfluence(place)
			require.NoError(t, err)
			reaction, err := b.ReactionInfluence(len(layout.Supports) - 1)
			require.NoError(t, err)
			sag := max(deflection.Range().Most.Value, -deflection.Range().Least.Value)
			for range 12 {
				x := s.in(0, layout.Length)
				r, err := b.Solve(loads.Set{Points: []loads.Point{{At: x, Force: 1}}})
				require.NoError(t, err)
				state := r.At(place, side)
				require.InDelta(t, state.Moment, moment.At(x, beam.RightOf), 1e-9*layout.Length, "seed %d, %g m under %g m", seed, place, x)
				require.InDelta(t, state.Shear, shear.At(x, beam.RightOf), 1e-9, "seed %d, %g m under %g m", seed, place, x)
				require.InDelta(t, state.Deflection, deflection.At(x, beam.RightOf), 1e-9*sag+1e-20, "seed %d, %g m under %g m", seed, place, x)
				require.InDelta(t, r.Reactions[len(r.Reactions)-1].Force, reaction.At(x, beam.RightOf), 1e-9, "seed %d", seed)
			}
		}
	}
}

func TestInfluenceLineOfASimpleSpan(t *testing.T) {
	b, err := beam.New(plain(20, beam.Support{At: 0}, beam.Support{At: 20}))
	require.NoError(t, err)
	line, err := b.MomentInfluence(5, beam.RightOf)
	require.NoError(t, err)
	require.InDelta(t, 5*15/20., line.Range().Most.Value, 1e-12)
	require.InDelta(t, 5, line.Range().Most.At, 1e-12)
	require.Len(t, line.Extremes(), 3, "both ends and the peak")
	shear, err := b.ShearInfluence(5, beam.RightOf)
	require.NoError(t, err)
	require.InDelta(t, .75, shear.At(5, beam.RightOf), 1e-12)
	require.InDelta(t, -.25, shear.At(5, beam.LeftOf), 1e-12)
	require.Zero(t, shear.At(21, beam.RightOf))
}

func TestInfluenceLinesThatDoNotExist(t *testing.T) {
	b, err := beam.New(plain(20, beam.Support{At: 0}, beam.Support{At: 20}))
	require.NoError(t, err)
	_, err = b.MomentInfluence(math.NaN(), beam.RightOf)
	require.ErrorContains(t, err, "x = NaN m")
	_, err = b.ShearInfluence(-1, beam.RightOf)
	require.ErrorIs(t, err, beam.ErrBeam)
	_, err = b.DeflectionInfluence(20.5)
	require.ErrorIs(t, err, beam.ErrBeam)
	_, err = b.ReactionInfluence(2)
	require.ErrorContains(t, err, "must be 0 to 1")
	lifting, err := beam.New(plain(20, beam.Support{At: 0}, beam.Support{At: 20, Contact: true}))
	require.NoError(t, err)
	_, err = lifting.ReactionInfluence(0)
	require.ErrorContains(t, err, "can lift off")
	var line *beam.Influence
	require.Zero(t, line.At(1, beam.RightOf))
	require.Zero(t, line.Range())
	require.Empty(t, line.Extremes())
}
