package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// shearOf is the worst shear of a rectangle of 0.4 × 1.6 m under V = 400 kN through its
// shear centre, with ducts at given places filled in given ways.
func shearOf(t *testing.T, filling []section.Filling, tendons ...ledger.Tendon) ledger.Wall {
	t.Helper()
	shape := rectangle(t, 0.4, 1.6, 0, 0)
	l := one(10, shape, tendons...)
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	s := situation(l, plain(on, level(centred(t, shape, section.Forces{Vz: 4e5}))))
	w, _, err := demand(t, l, s, fixed).WorstWall(ledger.WallQuery{Filling: func(i int) section.Filling { return filling[i] }, Cracked: math.Inf(1)})
	require.NoError(t, err)
	return w
}

// duct is a level tendon with a duct of 0.1 m.
func duct(t *testing.T, y, z float64) ledger.Tendon {
	return straight(t, point{0, y, z}, point{10, y, z}, 1e-3, 0.1)
}

// parabola is τ·t of a rectangle at a level: 1.5·V/h·(1 − (2·z/h)²), z from the middle.
func parabola(z float64) float64 {
	u := (z - 0.8) / 0.8
	return 1.5 * 4e5 / 1.6 * (1 - u*u)
}

// A cut is laid through every duct, wherever it is: at three quarters of the flow the
// wall of 0.4 − 1.2·0.1 m is worse than the full one at mid-depth.
func TestCutThroughADuctAwayFromTheMiddle(t *testing.T) {
	w := shearOf(t, []section.Filling{section.NotGrouted}, duct(t, 0, 0.5))
	require.InDelta(t, 0.5, w.At.Z, 1e-6)
	require.Equal(t, 1, w.Cut.Ducts)
	require.InDelta(t, 0.28, w.Cut.Net, 1e-9)
	require.InEpsilon(t, parabola(0.5)/0.28, w.Value, 1e-6)
	require.Greater(t, w.Value, 1.5*4e5/(0.4*1.6))
}

// A duct that a cut only grazes counts in full, one just beside the cut does not: the
// cut at mid-depth and a duct 0.04 m and 0.06 m above it.
func TestDuctsBesideACut(t *testing.T) {
	near := shearOf(t, []section.Filling{section.NotGrouted}, duct(t, 0, 0.84))
	require.InDelta(t, 0.8, near.At.Z, 1e-6, "the largest flow, and the duct reaches it")
	require.InEpsilon(t, parabola(0.8)/0.28, near.Value, 1e-6)
	far := shearOf(t, []section.Filling{section.NotGrouted}, duct(t, 0, 0.86))
	require.InDelta(t, 0.86, far.At.Z, 1e-6, "through the duct itself")
	require.InEpsilon(t, parabola(0.86)/0.28, far.Value, 1e-6)
}

// Two ducts in one cut take off the sum, each by its own filling; one in each of two
// levels only its own.
func TestDuctsOfSeveralFillings(t *testing.T) {
	// Two ducts of b/8 = 0.05 m or less do not count when grouted in metal; these are 0.1 m.
	for _, c := range []struct {
		filling []section.Filling
		net     float64
	}{
		{[]section.Filling{section.NotGrouted, section.NotGrouted}, 0.4 - 2*1.2*0.1},
		{[]section.Filling{section.GroutedMetal, section.NotGrouted}, 0.4 - 0.5*0.1 - 1.2*0.1},
		{[]section.Filling{section.NotGrouted, section.GroutedMetal}, 0.4 - 0.5*0.1 - 1.2*0.1},
		{[]section.Filling{section.GroutedMetal, section.GroutedMetal}, 0.4 - 2*0.5*0.1},
	} {
		w := shearOf(t, c.filling, duct(t, -0.1, 0.8), duct(t, 0.1, 0.8))
		require.Equal(t, 2, w.Cut.Ducts)
		require.InDelta(t, c.net, w.Cut.Net, 1e-9, "%v", c.filling)
		require.InEpsilon(t, parabola(0.8)/c.net, w.Value, 1e-6)
	}
	one := shearOf(t, []section.Filling{section.NotGrouted, section.NotGrouted}, duct(t, 0, 0.8), duct(t, 0, 1.2))
	require.Equal(t, 1, one.Cut.Ducts)
	require.InDelta(t, 0.28, one.Cut.Net, 1e-9)
}

// An external tendon takes nothing off, whatever tube it runs in.
func TestExternalTendonTakesNothingOffAWall(t *testing.T) {
	free := duct(t, 0, 0.8)
	free.External, free.Held = true, []float64{0, 10}
	w := shearOf(t, []section.Filling{section.NotGrouted}, free)
	require.Zero(t, w.Cut.Ducts)
	require.InEpsilon(t, 1.5*4e5/(0.4*1.6), w.Value, 1e-6)
}

// Ducts as wide as their wall are refused in words.
func TestDuctsWiderThanTheWall(t *testing.T) {
	shape := rectangle(t, 0.2, 1.6, 0, 0)
	l := one(10, shape, duct(t, -0.05, 0.8), duct(t, 0.05, 0.8))
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	_, _, err := demand(t, l, situation(l, plain(on, level(section.Forces{Vz: 1}))), fixed).WorstWall(
		ledger.WallQuery{Filling: func(int) section.Filling { return section.NotGrouted }, Cracked: math.Inf(1)})
	require.ErrorIs(t, err, section.ErrShape)
}

// The way to a cut through a duct is that to the nearest end of a known cut and from
// there to its own: within it the tendon is not counted on.
func TestSpreadToACutThroughADuct(t *testing.T) {
	const b, h, force, v = 0.4, 1.6, 1e6, 4e5
	shape := rectangle(t, b, h, 0, 0)
	walls, err := shape.Walls()
	require.NoError(t, err)
	const z = 0.5
	own := section.Point{Y: b / 2, Z: z}
	near, way := 0.0, math.Inf(1)
	for _, c := range walls.Cuts {
		for _, e := range []section.Point{c.From, c.To} {
			if d := math.Hypot(e.Y-own.Y, e.Z-own.Z); d < way {
				near, way = math.Hypot(e.Y, e.Z-h/2), d
			}
		}
	}
	from, to := 1.5*near, 1.5*(near+way)
	require.Greater(t, to-from, 0.2)
	l := one(12, shape, straight(t, point{0, 0, h / 2}, point{12, 0, h / 2}, 1e-3, 0), duct(t, 0, z))
	l.Girder.Tendons[1] = straight(t, point{0, 0, z}, point{12, 0, z}, 1e-3, 0.15)
	l.Girder.Breaks = []float64{from + 0.05, to - 0.05, to + 0.05, to + 0.15}
	on := state(l, 0)
	jack(l, on, force, 0)
	require.NoError(t, l.MakeGrid())
	f := centred(t, shape, section.Forces{Vz: v})
	only := func(a, b float64) ledger.Wall { // V between two places
		s := situation(l, plain(on, &law{func(x float64) section.Forces {
			if x < a || x > b {
				return section.Forces{}
			}
			return f
		}}))
		return wall(t, l, s, true)
	}
	net := b - 1.2*0.15
	before := only(from+0.05, to-0.05)
	require.InDelta(t, z, before.At.Z, 1e-6)
	require.InEpsilon(t, 1.5*v/h*(1-math.Pow((z-0.8)/0.8, 2))/net, before.Value, 1e-6, "τ alone")
	require.Equal(t, []ledger.ApartAt{{Tendon: 0, Factor: 0}}, before.Apart)
	after := only(to+0.05, to+0.15)
	require.Less(t, after.Value, before.Value)
	require.Empty(t, after.Apart)
}
