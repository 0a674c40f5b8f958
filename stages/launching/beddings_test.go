package launching_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/launching"
)

// A box on unlike pairs, off its axis, on three beddings, in plain arithmetic.
func TestBeddingsByHand(t *testing.T) {
	f := launching.FourPoints{Length: 30, Widths: [2]float64{4.8, 3.6}, Torsion: 220e9, Level: [4]float64{1.5e6, 1.2e6, 1.9e6, 1.7e6}}
	list, err := f.Compare(0.05, launching.Bedding{Name: "hard packs"}, launching.Bedding{Name: "elastomer", Stiffness: 150e6}, launching.Bedding{Name: "second pair on one pump", Equalised: 2})
	require.NoError(t, err)
	require.Len(t, list, 3)
	soft := 2/(150e6*4.8*4.8) + 2/(150e6*3.6*3.6)
	for i, give := range []float64{30 / 220e9, 30/220e9 + soft} {
		couple := 1 / give / 3.6 // of a support of the narrow pair, which is out by a metre
		b := list[i]
		require.True(t, b.Levels)
		require.InEpsilon(t, couple/3.6, b.PerMetre, 1e-12)
		// Support 2 has the smallest moment of its force: 1.2 MN at 4.8 m is used up before 1.7 MN at 3.6 m.
		require.InEpsilon(t, 1.2e6/(couple/4.8), b.LiftOff, 1e-12)
		require.InEpsilon(t, 0.05*1.2e6/(couple/4.8), b.Permissible, 1e-12)
		require.InEpsilon(t, couple, b.Torque, 1e-12)
		require.InEpsilon(t, 0.05*1.2e6*4.8, b.AtPart, 1e-12)
		require.Equal(t, f.Level, b.Forces)
	}
	equal := list[2]
	require.False(t, equal.Levels)
	require.Zero(t, equal.PerMetre+equal.Torque+equal.AtPart+equal.LiftOff+equal.Permissible)
	couple := 0.3e6*2.4 + 0.2e6*1.8
	require.Equal(t, [4]float64{1.35e6 + couple/4.8, 1.35e6 - couple/4.8, 1.8e6, 1.8e6}, equal.Forces)
	_, err = f.Compare(0.05, launching.Bedding{Name: "x", Equalised: 3})
	require.ErrorIs(t, err, launching.ErrLaunching)
	require.ErrorContains(t, err, "field Equalised = 3: must be 0, 1 or 2")
	_, err = f.Compare(0.05, launching.Bedding{Name: "x", Stiffness: 1})
	require.ErrorContains(t, err, "Stiffness[0] = 1 N/m")
}
