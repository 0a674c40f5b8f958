package concrete_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/concrete"
)

// (B.1) is φ = φ0·βc, and φ0 does not know how long the load acts.
func TestNotionalCreepCoefficientIsALine(t *testing.T) {
	m := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: girderExposure}
	notional := func(age float64) float64 {
		lines, err := m.CreepLines(age, 7)
		require.NoError(t, err)
		at, last := lines[len(lines)-2], lines[len(lines)-1]
		require.Equal(t, "φ_0", at.Result.Symbol)
		require.Equal(t, "φ_0*β_c", last.Expression)
		require.Equal(t, at.Result, last.Operands[0])
		phi, err := m.Creep(age, 7)
		require.NoError(t, err)
		require.InEpsilon(t, phi, last.Result.Value, 1e-12)
		return at.Result.Value
	}
	require.Equal(t, notional(28), notional(36500))
	phi, err := m.Creep(1e9, 7)
	require.NoError(t, err)
	require.InEpsilon(t, notional(28), phi, 1e-6, "in the end φ is φ0")
}
