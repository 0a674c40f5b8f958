package ledger_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// A rectangle of 0.4 × 0.9 m under N, My and Mz: σ = N/A − My·z/Iy − Mz·y/Iz, tension
// at low z under sagging and at −y under Mz.
func TestRectangleUnderNormalForceAndMoments(t *testing.T) {
	const b, h = 0.4, 0.9
	area, iy, iz := b*h, b*h*h*h/12, h*b*b*b/12
	l := one(10, rectangle(t, b, h, 0, -h/2)) // centroid on the axis: forces about it are those of the section
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	for _, c := range []struct{ n, my, mz float64 }{{1e5, 0, 0}, {0, 2e5, 0}, {0, -2e5, 0}, {0, 0, 7e4}, {-3e5, 2e5, 7e4}, {3e5, -2e5, -7e4}} {
		s := situation(l, plain(on, level(section.Forces{N: c.n, My: c.my, Mz: c.mz})))
		at := func(y, z float64) float64 { return c.n/area - c.my*z/iy - c.mz*y/iz }
		most, least := at(0, 0), at(0, 0)
		for _, y := range []float64{-b / 2, b / 2} {
			for _, z := range []float64{-h / 2, h / 2} {
				most, least = max(most, at(y, z)), min(least, at(y, z))
			}
		}
		up, down := extreme(t, l, s, 1), extreme(t, l, s, -1)
		require.InDelta(t, most, up.Value, 1e-3)
		require.InDelta(t, least, down.Value, 1e-3)
		require.InDelta(t, at(up.At.Y, up.At.Z), up.Value, 1e-3, "at the corner that is named")
		require.InDelta(t, at(down.At.Y, down.At.Z), down.Value, 1e-3)
		require.Equal(t, 0, up.Piece)
		plane := l.Plane(s, 3, []float64{1})
		require.InDelta(t, at(0.1, -0.2), plane.At(section.Point{Y: 0.1, Z: -0.2}), 1e-3)
	}
}

// Forces are given about y = z = 0: a force of 1 MN there, 0.45 m below the middle of
// a rectangle from z = 0 up, sags... it is tension at the soffit: N/A + N·e·h/2/I = N/A·(1 + 6·e/h) = 4·N/A.
func TestForcesAreAboutTheFixedAxis(t *testing.T) {
	const b, h = 0.4, 0.9
	l := one(10, rectangle(t, b, h, 0.3, 0))
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	s := situation(l, plain(on, level(section.Forces{N: 1e6})))
	plane := l.Plane(s, 5, []float64{1})
	mean := 1e6 / (b * h)
	// e/h = 1/2 below; aside e/b = 0.3/0.4 to the left of the force
	require.InDelta(t, mean*(1+6*0.5), plane.At(section.Point{Y: 0.3, Z: 0}), 1)
	require.InDelta(t, mean*(1-6*0.5), plane.At(section.Point{Y: 0.3, Z: h}), 1)
	require.InDelta(t, mean*(1+6*0.75), plane.At(section.Point{Y: 0.3 - b/2, Z: h / 2}), 1, "the side of the force")
	require.InDelta(t, mean*(1-6*0.75), plane.At(section.Point{Y: 0.3 + b/2, Z: h / 2}), 1)
	require.Equal(t, section.Forces{N: 1e6}, l.Forces(s, 5, []float64{1}))
	about := ledger.About(section.Forces{N: 2, My: 3, Mz: 5, Vy: 7, Vz: 11, T: 13}, section.Point{Y: 0.5, Z: 0.25})
	require.Equal(t, section.Forces{N: 2, My: 3 + 2*0.25, Mz: 5 + 2*0.5, Vy: 7, Vz: 11, T: 13}, about)
}

// Sections without symmetry by the formula with the product of inertia.
func TestUnsymmetricSections(t *testing.T) {
	rng := rand.New(rand.NewPCG(51, 52))
	for range 30 {
		shape := lopsided(t, 0.6+rng.Float64())
		p := shape.Properties()
		l := one(10, shape)
		on := state(l, 0)
		require.NoError(t, l.MakeGrid())
		f := section.Forces{N: 1e5 * rng.NormFloat64(), My: 1e5 * rng.NormFloat64(), Mz: 1e5 * rng.NormFloat64()}
		s := situation(l, plain(on, level(f)))
		my, mz := f.My+f.N*p.Centroid.Z, f.Mz+f.N*p.Centroid.Y
		iy, iz, iyz := p.SecondMomentY, p.SecondMomentZ, p.ProductMoment
		require.Greater(t, iyz*iyz, 1e-6, "no axis of symmetry")
		most, least := -1e99, 1e99
		for _, c := range shape.Corners() {
			y, z := c.Y-p.Centroid.Y, c.Z-p.Centroid.Z
			v := f.N/p.Area - ((my*iz-mz*iyz)*z+(mz*iy-my*iyz)*y)/(iy*iz-iyz*iyz)
			most, least = max(most, v), min(least, v)
		}
		require.InDelta(t, most, extreme(t, l, s, 1).Value, 1e-3)
		require.InDelta(t, least, extreme(t, l, s, -1).Value, 1e-3)
	}
}

// A depth that grows from 0.8 m to 1.6 m under a moment that is the same everywhere:
// 6·M/(b·h²) is largest at the shallow end; under q·x²/2 of a cantilever at the deep
// end it is largest inside, where d/dx (x/h(x)) = 0 has no root: at the end.
func TestTaperedCantilever(t *testing.T) {
	const b, length, m = 0.5, 8.0, 3e5
	taper, err := section.Taper{Left: rectangle(t, b, 0.8, 0, 0), Right: rectangle(t, b, 1.6, 0, 0), To: length}.Along()
	require.NoError(t, err)
	l := one(length, taper)
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	s := situation(l, plain(on, level(section.Forces{My: m})))
	up := extreme(t, l, s, 1)
	require.InDelta(t, 6*m/(b*0.8*0.8), up.Value, 1)
	require.InDelta(t, 0, up.X, 1e-6)
	require.InDelta(t, 0, up.At.Z, 1e-12, "sagging pulls the soffit")
	// M = −P·x of a point load at the shallow tip: x/h² with h = 0.8 + 0.1·x is largest where h = 2·0.1·x: x = 8.
	// With the deep end at 3.2 m, h = 0.8 + 0.3·x, at x = 0.8/0.3.
	steep, err := section.Taper{Left: rectangle(t, b, 0.8, 0, 0), Right: rectangle(t, b, 3.2, 0, 0), To: length}.Along()
	require.NoError(t, err)
	l = one(length, steep)
	on = state(l, 0)
	require.NoError(t, l.MakeGrid())
	s = situation(l, plain(on, &law{func(x float64) section.Forces { return section.Forces{My: -1e5 * x, Vz: -1e5} }}))
	up = extreme(t, l, s, 1)
	x := 0.8 / 0.3
	require.InDelta(t, 6*1e5*x/(b*1.6*1.6), up.Value, 1)
	require.InDelta(t, x, up.X, 1e-3)
	require.Greater(t, up.At.Z, 1.5, "hogging pulls the deck")
	require.GreaterOrEqual(t, up.Bound, up.Value)
	require.LessOrEqual(t, up.Bound, up.Value*(1+2e-9))
}

// A parabola of moments between supports peaks between all nodes and breaks.
func TestExtremeBetweenBreaks(t *testing.T) {
	const b, h, length, q = 0.4, 0.9, 11.0, 2e4
	l := one(length, rectangle(t, b, h, 0, 0))
	l.Girder.Breaks = []float64{1.5, 9}
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	moment := &law{func(x float64) section.Forces {
		// supports at 1.5 and 9: R = q·11/7.5·(distance of the middle from the other one)
		right := q * length * (length/2 - 1.5) / 7.5
		left := q*length - right
		f := section.Forces{My: -q * x * x / 2, Vz: -q * x}
		if x > 1.5 {
			f.My, f.Vz = f.My+left*(x-1.5), f.Vz+left
		}
		if x > 9 {
			f.My, f.Vz = f.My+right*(x-9), f.Vz+right
		}
		return f
	}}
	s := situation(l, plain(on, moment))
	right := q * length * (length/2 - 1.5) / 7.5
	left := q*length - right
	zero := left / q // V = 0
	inside := left*(zero-1.5) - q*zero*zero/2
	up := extreme(t, l, s, 1)
	require.InDelta(t, inside/(b*h*h/6), up.Value, 1)
	require.InDelta(t, zero, up.X, 1e-4)
	d, err := l.Demand(s, []ledger.Cause{fixed})
	require.NoError(t, err)
	top, err := d.Extreme(1, 0, func(_ *ledger.Stretch, c ledger.Corner) bool { return c.At.Z > h/2 })
	require.NoError(t, err)
	require.InDelta(t, q*2*2/2/(b*h*h/6), top.Value, 1, "over the right support, 2 m from the end")
	require.InDelta(t, 9, top.X, 1e-6)
}
