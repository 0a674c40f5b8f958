package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

func edgeShearOf(t *testing.T, shape section.Shape, y, z float64) section.EdgeShear {
	t.Helper()
	e, err := torsionOf(t, shape).EdgeShear(at(y, z))
	require.NoError(t, err)
	return e
}

// Closed forms: 20·T/a³ at the middle of an equilateral triangle's side and
// 2·T/(π·a·b²) at the end of an ellipse's short half axis b. The change bounds the
// error, and corners that lie straight beside the place do not matter.
func TestEdgeShearSaysHowAccurateItIs(t *testing.T) {
	height := math.Sqrt(3) / 2
	plainSides := edgeShearOf(t, polygon(t, 0, 0, 1, 0, 0.5, height), 0.5, 0)
	idle := edgeShearOf(t, polygon(t, 0, 0, 0.47, 0, 0.505, 0, 1, 0, 0.5, height, 0.25, height/2), 0.5, 0)
	require.InDelta(t, plainSides.Stress, idle.Stress, 1e-9)
	require.InDelta(t, 20, plainSides.Stress, plainSides.Change)
	require.Positive(t, plainSides.Change)
	require.Less(t, plainSides.Change, 0.2, "1 %")
	round := edgeShearOf(t, facing(t, 1, 0.5), 0, 0.5)
	require.InEpsilon(t, 2/(math.Pi/4), round.Stress, 1e-2, "next to corners that turn by 0.05 rad")
}

// facing is an ellipse of 120 chords with the middle of one at the end of each
// half axis.
func facing(t *testing.T, a, b float64) section.Shape {
	t.Helper()
	var o section.Outline
	for i := range 120 {
		sin, cos := math.Sincos(math.Pi / 60 * (float64(i) + 0.5))
		o = append(o, at(a*cos, b*sin))
	}
	return shapeOf(t, []section.Outline{o})
}

// For Poisson's ratio 0 the shear stress of a rectangle is V/(2·I)·(h²/4 − z²)
// whatever its width, and that of a circle V/A at the ends of its level diameter.
// On the face towards +x the resultant is −V.
func TestEdgeShearUnderShearForces(t *testing.T) {
	const width, depth = 1.4, 0.9
	shape := plain(t, width, depth)
	for _, z := range []float64{0.45, 0.6, 0.8} {
		e := edgeShearOf(t, shape, width/2, z) // drawn anticlockwise: upwards at +y
		parabola := 6 / (width * depth * depth * depth) * (depth*depth/4 - (z-depth/2)*(z-depth/2))
		require.InDelta(t, -parabola, e.Z, 1e-6+e.ChangeZ, "z = %g", z)
		require.InDelta(t, 0, e.Y, 1e-6)
		require.InDelta(t, parabola, edgeShearOf(t, shape, -width/2, z).Z, 1e-6, "downwards at −y")
	}
	top := edgeShearOf(t, shape, 0, depth) // to the right
	require.InDelta(t, 1.5/(width*depth), top.Y, 1e-6)
	require.InDelta(t, 0, top.Z, 1e-6)
	round := edgeShearOf(t, facing(t, 1, 1), 1, 0)
	require.InDelta(t, -1/math.Pi, round.Z, 2e-2/math.Pi, "next to corners that turn by 0.05 rad")
	require.InDelta(t, 0, round.Y, 1e-6)
}

// The stress of a point next to the edge is that along the edge, with all three
// forces on an unsymmetric shape.
func TestShearStressNextToAnEdge(t *testing.T) {
	shape := polygon(t, 0, 0, 2, 0, 2, 0.3, 0.3, 0.3, 0.3, 1.5, 0, 1.5)
	torsion := torsionOf(t, shape)
	f := section.Forces{Vy: 2e5, Vz: -3e5, T: 4e4}
	for _, y := range []float64{1.2, 1, 0.75, 1.5, 0.77} { // middles and ends of elements among them
		e, err := torsion.EdgeShear(at(y, 0))
		require.NoError(t, err)
		along := e.Stress*torsion.AboutShearCentre(f) + e.Y*f.Vy + e.Z*f.Vz
		for _, off := range []float64{1e-300, 5e-17, 1e-15, 1e-12, 1e-9, 3e-6, 1e-4} {
			stress, err := torsion.ShearStress(at(y, off), f)
			require.NoError(t, err)
			// Between the edge and a tenth of a millimetre off it where two
			// parabolas meet: their slopes differ by as much.
			require.InEpsilon(t, along, stress.XY, 1e-2, "y = %g, %g m off the edge", y, off)
			require.InDelta(t, 0, stress.XZ, 1e-2*math.Abs(along))
		}
	}
	_, err := torsion.ShearStress(at(1, 0), f)
	require.ErrorIs(t, err, section.ErrShape, "on the edge is not in the concrete")
}

// Corners of the concrete that no finer mesh bounds: right angles, and the gentle
// ends of a 2:1 haunch, with or without idle corners beside them.
func TestLargestEdgeShearLeavesOutEveryReentrantCorner(t *testing.T) {
	const radius = 0.03
	haunch := []float64{0, 0, 2, 0, 2, 0.3, 0.7, 0.3, 0.3, 0.5, 0.3, 1.5, 0, 1.5}
	with := []float64{0, 0, 2, 0, 2, 0.3, 0.72, 0.3, 0.7, 0.3, 0.68, 0.31, 0.3, 0.5, 0.3, 1.5, 0, 1.5}
	e, err := torsionOf(t, polygon(t, haunch...)).LargestEdgeShear(radius)
	require.NoError(t, err)
	for _, corner := range []section.Point{at(0.7, 0.3), at(0.3, 0.5)} {
		require.GreaterOrEqual(t, math.Hypot(e.At.Y-corner.Y, e.At.Z-corner.Z), radius)
	}
	idle, err := torsionOf(t, polygon(t, with...)).LargestEdgeShear(radius)
	require.NoError(t, err)
	require.InEpsilon(t, e.Stress, idle.Stress, 1e-6)
	// Alone, a gentle corner wants a radius too.
	valley := torsionOf(t, polygon(t, 0, 0, 2, 0, 2, 1, 1, 0.9, 0, 1)) // turns 0.2 rad
	_, err = valley.LargestEdgeShear(0)
	require.ErrorContains(t, err, "around 1 re-entrant corners")
}

// A fillet of chords is smooth: its stress counts, and no radius is needed.
func TestLargestEdgeShearCountsAFillet(t *testing.T) {
	const r = 0.2
	o := section.Outline{at(0, 0), at(2, 0), at(2, 0.3)}
	for i := range 9 { // from the slab to the web
		sin, cos := math.Sincos(math.Pi / 16 * float64(i))
		o = append(o, at(0.3+r-r*sin, 0.3+r-r*cos))
	}
	torsion := torsionOf(t, shapeOf(t, []section.Outline{append(o, at(0.3, 1.5), at(0, 1.5))}))
	e, err := torsion.LargestEdgeShear(0)
	require.NoError(t, err)
	require.Less(t, math.Hypot(e.At.Y-0.3-r, e.At.Z-0.3-r), r+1e-9, "on the arc")
	leg, err := torsion.EdgeShear(at(1.3, 0.3))
	require.NoError(t, err)
	require.Greater(t, e.Stress, 1.1*leg.Stress)
	slab, err := section.VoidedSlab{Width: 2, Depth: 0.9, Voids: 1, VoidDiameter: 0.5}.Shape()
	require.NoError(t, err)
	_, err = torsionOf(t, slab).LargestEdgeShear(0)
	require.NoError(t, err, "a void of 16 chords or more is round")
}
