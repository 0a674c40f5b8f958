package launching_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/stages/launching"
)

// The warp of a 32.6 m box on supports of different stiffness: change per millimetre, what
// uses up 5 %, lift-off. Recomputed from the mean-line J of that box.
func TestWarpOfABox(t *testing.T) {
	gj := 34e9 / 2.4 * 16.61
	for _, row := range []struct{ k, perMilli, used, lift float64 }{
		{0, 368.9, 0.24, 4.8}, {2000e6, 212.3, 0.42, 8.3}, {500e6, 93.4, 0.95, 18.9}, {100e6, 23.4, 3.77, 75},
	} {
		f := launching.FourPoints{Length: 31.5, Widths: [2]float64{4.5, 4.5}, Torsion: gj, Stiffness: [4]float64{row.k, row.k, row.k, row.k}, Level: [4]float64{1765e3, 1765e3, 1765e3, 1765e3}}
		w, err := f.Warp(2)
		require.NoError(t, err)
		require.InEpsilon(t, row.perMilli*1e6, w.PerMetre, 2e-3)
		require.InEpsilon(t, row.lift/1e3, w.LiftOff, 1e-2)
		permissible, warps, err := f.Permissible(0.05)
		require.NoError(t, err)
		require.True(t, warps)
		require.InEpsilon(t, row.used/1e3, permissible[1], 2e-2)
	}
}

// Any layout is that of a member in space on four one-way supports, before and beyond
// lift-off.
func TestWarpAgainstSpace(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 1))
	for range 60 {
		const e, length = 34e9, 30.0
		j := 2 + 20*random.Float64()
		section := func(float64) beam.CrossSection {
			return beam.CrossSection{BendingY: 1e20, BendingZ: 1e20, Torsional: e / 2.4 * j}
		}
		s := [2]float64{2 + 3*random.Float64(), 2 + 3*random.Float64()}
		f := launching.FourPoints{Length: length, Widths: s, Torsion: e / 2.4 * j}
		layout := beam.SpaceLayout{Length: length, Section: section}
		for i := range f.Stiffness {
			f.Stiffness[i] = 5e7 * math.Pow(4, random.Float64())
			layout.Supports = append(layout.Supports, beam.Restraint{X: length * float64(i/2), Y: s[i/2] / 2 * float64(1-2*(i%2)), Direction: r3.Vec{Z: 1}, Stiffness: f.Stiffness[i], OneWay: true})
		}
		for _, p := range []r3.Vec{{X: 1}, {Y: 1}} {
			layout.Supports = append(layout.Supports, beam.Restraint{Direction: p})
		}
		layout.Supports = append(layout.Supports, beam.Restraint{X: length, Direction: r3.Vec{Y: 1}})
		space, err := beam.NewSpace(layout)
		require.NoError(t, err)
		weight := beam.SpaceLoads{Points: []beam.SpacePoint{{X: 14, Y: 0.05, Force: r3.Vec{Z: -6e6}}}}
		level, err := space.Solve(weight, beam.Setting{})
		require.NoError(t, err)
		copy(f.Level[:], level.Reactions())
		support := random.IntN(4)
		for _, out := range []float64{1e-3, -2e-3, 0.2, -0.3} {
			setting := beam.Setting{Level: make([]float64, 7)}
			setting.Level[support] = out
			want, err := space.Solve(weight, setting)
			require.NoError(t, err)
			got, err := f.At(support, out)
			require.NoError(t, err)
			for i := range got {
				require.InDelta(t, want.Reactions()[i], got[i], 1)
			}
		}
	}
}

func TestEqualisedPairHasNoWarp(t *testing.T) {
	f := launching.FourPoints{Length: 30, Widths: [2]float64{4, 4}, Torsion: 1e11, Level: [4]float64{1e6, 1e6, 1e6, 1e6}, Equalised: [2]bool{false, true}}
	w, err := f.Warp(0)
	require.NoError(t, err)
	require.True(t, w.Always)
	at, err := f.At(0, 0.1)
	require.NoError(t, err)
	require.Equal(t, f.Level, at)
	f.Equalised[0] = true
	_, err = f.Warp(0)
	require.ErrorContains(t, err, "two linked pairs are a mechanism")
}
