package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// A symmetric section is solved in halves; with one corner moved by 1e-11 m it is
// not. Both have one J, shear centre and stress but for that, times up to 1/0.08
// of the thinnest part, and for rounding: 1e-16 times a condition of about 1e4.
func TestSymmetricTorsionIsThatOfTheWhole(t *testing.T) {
	box, err := usual.Shape()
	require.NoError(t, err)
	moved, err := box.Moved(section.Point{Y: 7.3, Z: -4})
	require.NoError(t, err)
	beam, err := girder.Shape()
	require.NoError(t, err)
	channel := polygon(t, 0, 0, 2, 0, 2, 1.5, 1.8, 1.5, 1.8, 0.2, 0.2, 0.2, 0.2, 1.5, 0, 1.5)
	for k, c := range []struct {
		shape section.Shape
		in    section.Point // in the concrete
	}{
		{box, at(usual.WebCentre(1.2)-0.03, 1.2)}, {box, at(-usual.WebCentre(1.2), 1.2)}, {moved, at(7.3+1.1, -3.91)},
		{beam, at(0.02, 0.9)}, {channel, at(0.11, 0.9)},
	} {
		solids := c.shape.Solids()
		solids[0][0].Y += 1e-11
		half, whole := torsionOf(t, c.shape), torsionOf(t, shapeOf(t, solids, c.shape.Voids()...))
		require.Equal(t, whole.Nodes, half.Nodes, "shape %d: the same elements", k)
		require.NotEqual(t, whole.Constant, half.Constant, "shape %d", k)
		require.InEpsilon(t, whole.Constant, half.Constant, 1e-9, "shape %d", k)
		for _, ratio := range []float64{0, 0.2} {
			want, err := whole.ShearCentre(ratio)
			require.NoError(t, err)
			centre, err := half.ShearCentre(ratio)
			require.NoError(t, err)
			require.InDelta(t, want.Y, centre.Y, 1e-9, "shape %d", k)
			require.InDelta(t, want.Z, centre.Z, 1e-9, "shape %d", k)
			require.InDelta(t, c.shape.Properties().Centroid.Y, centre.Y, 1e-12, "on the axis")
		}
		for _, f := range []section.Forces{{Vy: 1e6}, {Vz: 1e6}, {T: 1e6}} {
			want, err := whole.ShearStress(c.in, f)
			require.NoError(t, err)
			stress, err := half.ShearStress(c.in, f)
			require.NoError(t, err)
			size := math.Hypot(want.XY, want.XZ)
			require.InDelta(t, want.XY, stress.XY, 1e-8*size, "shape %d", k)
			require.InDelta(t, want.XZ, stress.XZ, 1e-8*size, "shape %d", k)
		}
	}
}

// Turned, a symmetric section is solved whole, with the same J.
func TestTurnedSymmetricTorsion(t *testing.T) {
	box, err := usual.Shape()
	require.NoError(t, err)
	plain, turned := torsionOf(t, box), torsionOf(t, turnedBy(t, box, 0.4, 1, section.Point{}))
	require.Equal(t, plain.Nodes, turned.Nodes)
	require.InEpsilon(t, plain.Constant, turned.Constant, 1e-10)
}
