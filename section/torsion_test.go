package section_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

func polygon(t testing.TB, pairs ...float64) section.Shape {
	t.Helper()
	var o section.Outline
	for i := 0; i < len(pairs); i += 2 {
		o = append(o, section.Point{Y: pairs[i], Z: pairs[i+1]})
	}
	return shapeOf(t, []section.Outline{o})
}

func torsionOf(t testing.TB, shape section.Shape) section.Torsion {
	t.Helper()
	torsion, err := shape.Torsion()
	require.NoError(t, err)
	return torsion
}

func TestPilkeysAngleAndChannel(t *testing.T) {
	angle := polygon(t, 0, 0, 10.5, 0, 10.5, 1, 1, 1, 1, 15.5, 0, 15.5)
	torsion := torsionOf(t, angle)
	c := angle.Properties().Centroid
	for poisson, want := range map[float64][2]float64{0: {-1.998236, -4.425262}, 0.3: {-1.998196, -4.425731}} {
		centre, err := torsion.ShearCentre(poisson)
		require.NoError(t, err)
		t.Log(torsion.Constant, torsion.Change, torsion.Nodes, centre.Y-c.Y, centre.Z-c.Z, want)
	}
	channel := polygon(t, -.05, -2.05, 1, -2.05, 1, -1.95, .05, -1.95, .05, -.05, 1, -.05, 1, .05, -.05, .05)
	torsion = torsionOf(t, channel)
	c = channel.Properties().Centroid
	centre, _ := torsion.ShearCentre(0.3)
	t.Log(torsion.Constant, torsion.Change, torsion.Nodes, centre.Y-c.Y, centre.Z-c.Z, -0.62056)
	quad := polygon(t, 0, 0, 1, 0, 0.6, 1, 0, 0.5)
	for _, nu := range []float64{0, 0.3, 0.5} {
		centre, _ := torsionOf(t, quad).ShearCentre(nu)
		t.Log(nu, centre)
	}
}
