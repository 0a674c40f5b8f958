package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// 5/6 of a rectangle whatever its sides and 6/7 of a circle, for Poisson's ratio 0.
func TestShearAreasInClosedForm(t *testing.T) {
	for _, size := range [][2]float64{{1, 1}, {0.3, 2}, {3, 0.4}} {
		areas := torsionOf(t, plain(t, size[0], size[1])).ShearAreas()
		require.InEpsilon(t, 5.0/6*size[0]*size[1], areas.Z, 1e-6)
		require.InEpsilon(t, 5.0/6*size[0]*size[1], areas.Y, 1e-6)
		require.InDelta(t, 0, areas.Coupling, 1e-9)
	}
	round := torsionOf(t, ellipse(t, 1, 1, 60)).ShearAreas()
	require.InEpsilon(t, 6.0/7*math.Pi, round.Z, 1e-3)
	require.InEpsilon(t, round.Z, round.Y, 1e-9)
	require.Zero(t, section.Torsion{}.ShearAreas())
}

// Webs and slabs of a thin box both strain under upright shear.
func TestShearAreaOfAThinBox(t *testing.T) {
	box := shapeOf(t, []section.Outline{rectangle(-1.5, 0, 3, 2)}, rectangle(-1.45, 0.05, 2.9, 1.9))
	areas := torsionOf(t, box).ShearAreas()
	require.Less(t, areas.Y+areas.Z, box.Properties().Area)
	// Thin walls: q runs linearly to the middle of the slabs and on a parabola down
	// the webs; ∫q²/t ds by Gauss points.
	const b, h, thick = 2.95, 1.95, 0.05
	inertia := thick*h*h*h/6 + thick*b*h*h/2
	slab := func(s float64) float64 { return thick * h / 2 * s }              // s from the middle of a slab
	web := func(z float64) float64 { return slab(b/2) + thick/2*(h*h/4-z*z) } // z from mid-depth
	energy := 4 * (math.Pow(slab(1), 2) * math.Pow(b/2, 3) / 3)               // four half slabs
	for i, node := range []float64{-math.Sqrt(0.6), 0, math.Sqrt(0.6)} {      // Gauss, exact to degree 5
		energy += 2 * web(h/2*node) * web(h/2*node) * h / 2 * []float64{5.0 / 9, 8.0 / 9, 5.0 / 9}[i]
	}
	require.InEpsilon(t, thick*inertia*inertia/energy, areas.Z, 0.025, "corners are a fortieth of the depth")
}

// Turned by an angle, the flexibilities 1/A turn as a tensor: a rectangle's are
// equal, an angle's are not and couple.
func TestShearAreasTurnAsATensor(t *testing.T) {
	angle := polygon(t, 0, 0, 2, 0, 2, 0.3, 0.3, 0.3, 0.3, 1.5, 0, 1.5)
	a := torsionOf(t, angle).ShearAreas()
	require.NotZero(t, a.Coupling)
	const turn = 0.6
	sin, cos := math.Sincos(turn)
	b := torsionOf(t, turnedBy(t, angle, turn, 1, at(3, -1))).ShearAreas()
	// The shear functions are of other powers of y and z when turned.
	require.InEpsilon(t, cos*cos/a.Y+sin*sin/a.Z-2*sin*cos*a.Coupling, 1/b.Y, 1e-4)
	require.InEpsilon(t, sin*sin/a.Y+cos*cos/a.Z+2*sin*cos*a.Coupling, 1/b.Z, 1e-4)
	image := torsionOf(t, angle.Mirrored()).ShearAreas()
	require.InEpsilon(t, -a.Coupling, image.Coupling, 1e-4)
}

// Wt of a triangle is a³/20, of a square 0.2082·a³ (Saint-Venant's series).
func TestTorsionModulus(t *testing.T) {
	w, err := torsionOf(t, polygon(t, 0, 0, 1, 0, 0.5, math.Sqrt(3)/2)).Modulus(0)
	require.NoError(t, err)
	require.InEpsilon(t, 1.0/20, w, 5e-3)
	w, err = torsionOf(t, plain(t, 2, 2)).Modulus(0)
	require.NoError(t, err)
	require.InEpsilon(t, 0.20817*8, w, 1e-3)
	_, err = torsionOf(t, hollow(t)).Modulus(0)
	require.ErrorContains(t, err, "around 4 re-entrant corners")
}

// Q and b of a T: flange 2 × 0.3 m on a web of 0.4 × 1 m.
func TestLevel(t *testing.T) {
	shape := polygon(t, -0.2, 0, 0.2, 0, 0.2, 1, 1, 1, 1, 1.3, -1, 1.3, -1, 1, -0.2, 1)
	centre := (0.4*0.5 + 0.6*1.15) / (0.4 + 0.6)
	under := shape.Level(1)
	require.InDelta(t, 0.6*(1.15-centre), under.FirstMoment, 1e-12)
	require.InDelta(t, 0.4, under.Width, 1e-12, "the web's: where it steps, the smaller width")
	require.InDelta(t, 2, shape.Level(1.1).Width, 1e-12)
	middle := shape.Level(0.7)
	require.InDelta(t, under.FirstMoment+0.4*0.3*(0.85-centre), middle.FirstMoment, 1e-12)
	require.InDelta(t, 0.4, middle.Width, 1e-12)
	require.InDelta(t, shape.Properties().ShearFlow(middle.Above, section.Forces{Vz: 1}), middle.FirstMoment/shape.Properties().SecondMomentY, 1e-12)
	require.InDelta(t, 2, shape.Level(1.3).Width, 1e-12, "at the top edge that below it")
	require.InDelta(t, 0.4, shape.Level(0).Width, 1e-12)
	require.InDelta(t, 0, shape.Level(0).FirstMoment, 1e-12, "all of it about its own centroid")
	require.Zero(t, shape.Level(2))
	require.Zero(t, section.Shape{}.Level(1))
	require.InDelta(t, 2-1.0, hollow(t).Level(1.5).Width, 1e-12, "both webs")
}
