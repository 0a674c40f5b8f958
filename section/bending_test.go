package section_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

func unequalAngle(t testing.TB) section.Shape {
	return polygon(t, 0, 0, 2, 0, 2, 0.3, 0.2, 0.3, 0.2, 1.5, 0, 1.5)
}

func TestNeutralAxis(t *testing.T) {
	shape := unequalAngle(t)
	p := shape.Properties()
	f := section.Forces{N: -2e5, My: 3e4, Mz: -1e4}
	axis, ok := p.NeutralAxis(f)
	require.True(t, ok)
	sin, cos := math.Sincos(axis.Angle)
	for _, s := range []float64{-1, 0, 2} {
		at := section.Point{Y: axis.Through.Y + s*cos, Z: axis.Through.Z + s*sin}
		require.InDelta(t, 0, p.Stress(f, at), 1e-6)
	}
	square := (axis.Through.Y-p.Centroid.Y)*cos + (axis.Through.Z-p.Centroid.Z)*sin
	require.InDelta(t, 0, square, 1e-12, "nearest to the centroid")

	axis, ok = plain(t, 1, 2).Properties().NeutralAxis(section.Forces{My: 1})
	require.True(t, ok)
	require.InDelta(t, 0, axis.Angle, 1e-12)
	require.InDelta(t, 1, axis.Through.Z, 1e-12)
	axis, ok = plain(t, 1, 2).Properties().NeutralAxis(section.Forces{Mz: 1})
	require.True(t, ok)
	require.InDelta(t, math.Pi/2, axis.Angle, 1e-12)
	for _, f := range []section.Forces{{N: 1}, {My: math.NaN()}, {My: math.Inf(1)}, {My: 1, N: math.NaN()}} {
		_, ok = p.NeutralAxis(f)
		require.False(t, ok)
	}
	_, ok = section.Properties{}.NeutralAxis(section.Forces{My: 1})
	require.False(t, ok)
}

func TestExtremesStandAtCorners(t *testing.T) {
	shape := unequalAngle(t)
	plane := shape.Properties().Plane(section.Forces{N: -2e5, My: 3e4, Mz: -1e4})
	e := shape.Extremes(plane)
	for _, corner := range shape.Corners() {
		require.LessOrEqual(t, plane.At(corner), e.Most)
		require.GreaterOrEqual(t, plane.At(corner), e.Least)
	}
	require.InDelta(t, e.Most, plane.At(e.MostAt), 0)
	require.InDelta(t, e.Least, plane.At(e.LeastAt), 0)
	require.Zero(t, section.Shape{}.Extremes(plane))
}

func TestPrincipalModuli(t *testing.T) {
	m := plain(t, 1, 2).PrincipalModuli()
	require.InDelta(t, 4.0/6, m.MajorAhead, 1e-12)
	require.InDelta(t, 4.0/6, m.MajorBehind, 1e-12)
	require.InDelta(t, 2.0/6, m.MinorAhead, 1e-12)
	require.InDelta(t, 2.0/6, m.MinorBehind, 1e-12)
	// They do not depend on how the shape is turned.
	want := unequalAngle(t).PrincipalModuli()
	got := turnedBy(t, unequalAngle(t), 0.4, 1, section.Point{Y: 3}).PrincipalModuli()
	require.InDelta(t, want.MajorAhead, got.MajorAhead, 1e-12)
	require.InDelta(t, want.MajorBehind, got.MajorBehind, 1e-12)
	require.InDelta(t, want.MinorAhead, got.MinorAhead, 1e-12)
	require.InDelta(t, want.MinorBehind, got.MinorBehind, 1e-12)
	require.Zero(t, section.Shape{}.PrincipalModuli())
}

func TestKern(t *testing.T) {
	kern := plain(t, 3, 1.2).Kern()
	require.Len(t, kern, 4)
	for _, p := range kern {
		require.InDelta(t, 1, math.Abs(p.Y)/0.5+math.Abs(p.Z-0.6)/0.2, 1e-12, "the rhombus of sixths")
	}
	require.Nil(t, section.Shape{}.Kern())

	// A force at a corner of the kern makes the stress vanish at a corner of the
	// section and change sign nowhere; a little outside it does not.
	random := rand.New(rand.NewPCG(3, 3))
	for _, shape := range []section.Shape{unequalAngle(t), hollow(t), turnedBy(t, unequalAngle(t), random.Float64(), 2, section.Point{Z: 4})} {
		p := shape.Properties()
		for _, k := range shape.Kern() {
			require.InDelta(t, 0, leastUnder(shape, k, 1)/p.Area*p.Area, 1e-9)
			require.Negative(t, leastUnder(shape, k, 1.01))
		}
	}
}

// leastUnder is the smallest stress under a pull of 1 N at k, drawn out from the
// centroid by the factor.
func leastUnder(shape section.Shape, k section.Point, factor float64) float64 {
	p := shape.Properties()
	y, z := factor*(k.Y-p.Centroid.Y), factor*(k.Z-p.Centroid.Z)
	return shape.Extremes(p.Plane(section.Forces{N: 1, My: -z, Mz: -y})).Least
}

func TestPrincipalStresses(t *testing.T) {
	larger, smaller := section.PrincipalStresses(0, 2e6)
	require.InDelta(t, 2e6, larger, 0)
	require.InDelta(t, -2e6, smaller, 0)
	larger, smaller = section.PrincipalStresses(-6e6, 4e6)
	require.InDelta(t, 2e6, larger, 1e-6)
	require.InDelta(t, -8e6, smaller, 1e-6)
}

func TestHang(t *testing.T) {
	level, err := section.Hang(section.Point{Y: 1, Z: 2}, section.Point{Y: 1, Z: 0.5})
	require.NoError(t, err)
	require.Zero(t, level.Tilt)
	require.Equal(t, section.Forces{My: 5}, level.Bending(5))

	h, err := section.Hang(section.Point{Y: 0, Z: 2}, section.Point{Y: 0.15, Z: 0.5})
	require.NoError(t, err)
	require.InDelta(t, -math.Atan(0.1), h.Tilt, 1e-12, "the heavy left side goes down")
	// Turned by the tilt, gravity points straight down.
	sin, cos := math.Sincos(h.Tilt)
	require.InDelta(t, 0, h.Down.Y*cos-h.Down.Z*sin, 1e-12)
	require.InDelta(t, -1, h.Down.Y*sin+h.Down.Z*cos, 1e-12)
	f := h.Bending(100)
	require.InDelta(t, 100*math.Cos(h.Tilt), f.My, 1e-12)
	require.InDelta(t, 100*math.Sin(h.Tilt), f.Mz, 1e-12, "weight towards the left: tension at +y")
	for _, centre := range []section.Point{{Y: 0, Z: 2}, {Y: 0, Z: 3}, {Y: math.NaN(), Z: 1}, {Y: math.Inf(1), Z: 1}, {Z: math.Inf(-1)}} {
		_, err = section.Hang(section.Point{Y: 0, Z: 2}, centre)
		require.ErrorIs(t, err, section.ErrShape)
	}
}
