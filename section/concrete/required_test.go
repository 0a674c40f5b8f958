package concrete

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A cube strength is that of the class, in between linear, and read back as a test it
// is the cylinder strength again.
func TestCubeFor(t *testing.T) {
	for _, c := range classes {
		cube, err := CubeFor(c[0] * 1e6)
		require.NoError(t, err)
		require.InEpsilon(t, c[1]*1e6, cube, 1e-12)
	}
	for _, cylinder := range []float64{3e6, 12e6, 13.7e6, 33e6, 57e6, 89.9e6} {
		cube, err := CubeFor(cylinder)
		require.NoError(t, err)
		ratio, err := cylinderOverCube(cube)
		require.NoError(t, err)
		require.InEpsilon(t, cylinder, cube*ratio, 1e-12)
	}
	for _, cylinder := range []float64{0, -1, 90.1e6} {
		_, err := CubeFor(cylinder)
		require.ErrorIs(t, err, ErrConcrete)
		require.ErrorContains(t, err, "must be 0.1e6 to 90e6 Pa")
	}
}

// Table 3.1: fcm = fck + 8 MPa of very many specimens, more of few.
func TestMeanFor(t *testing.T) {
	require.InDelta(t, 38e6, MeanFor(30e6, 1e9), 1)
	require.InDelta(t, 30e6+9.2376e6, MeanFor(30e6, 3), 1e2)
	require.Equal(t, MeanFor(30e6, 1), MeanFor(30e6, 0))
	_, characteristic, err := Test{Age: 3, Strength: MeanFor(30e6, 6), Specimen: Cylinder, Specimens: 6, Statistic: Mean}.strengths()
	require.NoError(t, err)
	require.InEpsilon(t, 30e6, characteristic.Result.Value, 1e-12)
}
