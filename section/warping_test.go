package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// An I of thin flanges: ω = h·b/4 at the tips, of opposite signs across a flange
// and from flange to flange; Cw = Iz·h²/4.
func TestWarpingOfAnI(t *testing.T) {
	const width, thick, lever = 1.0, 0.02, 1.2
	shape, err := section.IGirder{Depth: lever + thick, WebThickness: thick,
		Top: section.Flange{Width: width, Edge: thick}, Bottom: section.Flange{Width: width, Edge: thick}}.Shape()
	require.NoError(t, err)
	torsion := torsionOf(t, shape)
	warping, corners := torsion.Warping(), shape.Corners()
	require.Len(t, warping, len(corners))
	for i, p := range corners {
		if math.Abs(math.Abs(p.Y)-width/2) > 1e-9 {
			continue
		}
		// Twist by right hand moves the top to −y: with u = ω·θ' the top flange's
		// left tip goes along +x where its bending strain is that of −y.
		sign := math.Copysign(1, p.Y) * math.Copysign(1, p.Z-(lever+thick)/2)
		middle := lever * width / 4
		require.InDelta(t, sign*middle, warping[i], thick*width, "half a thickness either way of the flange's middle")
	}
	tip := 0.0 // the mean of both faces of the top flange's left tip
	for i, p := range corners {
		if p.Y > width/2-1e-9 && p.Z > lever/2 {
			tip += warping[i] / 2
		}
	}
	require.InEpsilon(t, lever*width/4, tip, 2e-3)
	second := thick * width * width * width / 6
	require.InEpsilon(t, second*lever*lever/4, torsion.WarpingConstant(), 5e-3, "the web and the flanges' own add 0.1 %")
}

// ω over the area has no resultant: in thin walls it is linear along the middle
// line, where two corners beside each other have it between them.
func TestWarpingHasNoResultant(t *testing.T) {
	const thick = 0.02
	for name, shape := range map[string]section.Shape{
		"channel": polygon(t, 0, 0, 1.2, 0, 1.2, thick, thick, thick, thick, 2-thick, 0.8, 2-thick, 0.8, 2, 0, 2),
		"mirror":  polygon(t, 0, 0, 1.2, 0, 1.2, thick, thick, thick, thick, 2-thick, 0.8, 2-thick, 0.8, 2, 0, 2).Mirrored(),
	} {
		torsion, warping := torsionOf(t, shape), map[section.Point]float64{}
		side := 1.0
		if shape.Properties().Centroid.Y < 0 {
			side = -1
		}
		for i, p := range shape.Corners() {
			warping[section.Point{Y: math.Round(side*p.Y*1e6) / 1e6, Z: math.Round(p.Z*1e6) / 1e6}] = warpingAt(torsion, i)
		}
		mean := func(y1, z1, y2, z2 float64) float64 {
			a, found := warping[section.Point{Y: y1, Z: z1}]
			require.True(t, found)
			b, found := warping[section.Point{Y: y2, Z: z2}]
			require.True(t, found)
			return (a + b) / 2
		}
		ends := [4]float64{mean(1.2, 0, 1.2, thick), mean(0, 0, thick, thick), mean(0, 2, thick, 2-thick), mean(0.8, 2, 0.8, 2-thick)}
		y, z := [4]float64{1.2, thick / 2, thick / 2, 0.8}, [4]float64{thick / 2, thick / 2, 2 - thick/2, 2 - thick/2}
		var force, byY, byZ, square, scale float64
		for i := range 3 {
			area := math.Hypot(y[i+1]-y[i], z[i+1]-z[i]) * thick
			product := func(a, b, c, d float64) float64 { return area * (2*a*c + a*d + b*c + 2*b*d) / 6 }
			force += area * (ends[i] + ends[i+1]) / 2
			byY += product(ends[i], ends[i+1], y[i], y[i+1])
			byZ += product(ends[i], ends[i+1], z[i], z[i+1])
			square += product(ends[i], ends[i+1], ends[i], ends[i+1])
			scale += area * (math.Abs(ends[i]) + math.Abs(ends[i+1])) / 2
		}
		// Corners and the wall's own warping: thickness over height, 0.5 %.
		require.InDelta(t, 0, force, 0.005*scale, name)
		require.InDelta(t, 0, byY, 0.005*scale, name)
		require.InDelta(t, 0, byZ, 0.01*scale, name)
		require.InEpsilon(t, torsion.WarpingConstant(), square, 0.01, name)
	}
	require.Nil(t, section.Torsion{}.Warping())
}

func warpingAt(t section.Torsion, i int) float64 { return t.Warping()[i] }

// Thick shapes: where they are drawn does not matter, a mirror changes the sign,
// and square shapes of fourfold symmetry do not warp at corners.
func TestWarpingInAMirrorMovedAndScaled(t *testing.T) {
	shape, err := half.Shape()
	require.NoError(t, err)
	want := torsionOf(t, shape).Warping()
	image := torsionOf(t, shape.Mirrored()).Warping()
	double := torsionOf(t, turnedBy(t, shape, 0.7, 2, section.Point{Y: 5, Z: -1})).Warping()
	for i := range want {
		require.InDelta(t, -want[i], image[len(want)-1-i], 2e-3, "1e-3 of the largest")
		require.InDelta(t, 4*want[i], double[i], 1e-4)
	}
	box, err := usual.Shape()
	require.NoError(t, err)
	require.Len(t, torsionOf(t, box).Warping(), len(box.Corners()), "outer and inner outline")
	for _, ω := range torsionOf(t, plain(t, 1, 1)).Warping() {
		require.InDelta(t, 0, ω, 1e-9)
	}
}
