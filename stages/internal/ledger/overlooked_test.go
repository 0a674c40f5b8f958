package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// A stretch whose bound is far above what it holds is looked at first; one with a
// lower bound and a value little larger is not passed over.
func TestStretchWithALowerBoundIsNotPassedOver(t *testing.T) {
	l := one(10, rectangle(t, 0.4, 0.9, 0, 0))
	l.Girder.Breaks = []float64{5}
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	const w = 0.4 * 0.81 / 6
	s := situation(l, plain(on, &law{func(x float64) section.Forces {
		if x > 5 {
			return section.Forces{My: 203e3}
		}
		return section.Forces{My: 200e3 * (1 - (x-2.5)*(x-2.5)/6.25)} // bound up to a seventh above 200
	}}))
	up := extreme(t, l, s, 1)
	require.InDelta(t, 203e3/w, up.Value, 1)
	require.Greater(t, up.X, 5.0)
}

// slab is 2 × 0.4 m with a tendon beside each edge, and a moment between two places
// within their spread.
func slab(t *testing.T, from, to, m float64) (*ledger.Ledger, *ledger.Situation) {
	l := one(12, rectangle(t, 2, 0.4, 0, 0), straight(t, point{0, -0.9, 0.2}, point{12, -0.9, 0.2}, 1e-3, 0), straight(t, point{0, 0.9, 0.2}, point{12, 0.9, 0.2}, 1e-3, 0))
	l.Girder.Breaks = []float64{from, to}
	on := state(l, 0)
	jack(l, on, 1e6, 0, 1)
	require.NoError(t, l.MakeGrid())
	return l, situation(l, plain(on, &law{func(x float64) section.Forces {
		if x < from || x > to {
			return section.Forces{}
		}
		return section.Forces{My: m}
	}}))
}

// Between two anchors the soffit is reached by neither, while each corner is pressed by
// its own: the largest tension is at no corner of the outline, half a metre from the
// axis, where the far tendon pulls and is taken in full.
func TestTensionBetweenTwoAnchors(t *testing.T) {
	l, s := slab(t, 0.4, 0.6, 3e5) // corners after 0.34 m, y = 0 after 1.38 m, y = ± 0.5 after 0.67 m by the nearer one
	w := extreme(t, l, s, 1)
	pull := 1e6 * (0.9*0.5/(0.4*8/12) - 1/0.8)
	require.InDelta(t, 3e5/(2*0.16/6)+pull, w.Value, 1, "of the near one nothing")
	require.Zero(t, w.At.Z)
	require.InDelta(t, 0.5, math.Abs(w.At.Y), 1e-9)
	require.Len(t, w.Apart, 2)
}

// A tension zone over the whole soffit is not relieved by a tendon that has not reached
// all of it, from whichever corner it is looked at.
func TestTensionZoneNotReachedThroughout(t *testing.T) {
	// From 1.5 m on both have reached y = 0, and neither the other's corner: no point is without both.
	for _, c := range [][2]float64{{0.4, 0.6}, {1.5, 1.9}} {
		l, s := slab(t, c[0], c[1], 3e5)
		z, err := demand(t, l, s, fixed).MostTension(0, func(x float64, _ func(section.Point) float64) float64 {
			if x > c[0] && x < c[1] {
				return 1e-3
			}
			return 1e9
		})
		require.NoError(t, err)
		require.InEpsilon(t, 3e5/(2*0.16/6)*2*0.4/4, z.Force, 1e-6, "from %g", c[0])
		require.Len(t, z.Apart, 2)
		for _, a := range z.Apart {
			require.Zero(t, a.Factor)
		}
	}
}

// Of two tendons in one stretch the one that has reached the whole tension zone counts
// in full, the other not.
func TestTensionZoneReachedByOneOfTwo(t *testing.T) {
	l := one(12, rectangle(t, 0.6, 1.6, 0, 0), straight(t, point{0, 0, 0.2}, point{12, 0, 0.2}, 1e-3, 0), straight(t, point{1, 0, 0.8}, point{12, 0, 0.8}, 1e-3, 0))
	l.Girder.Breaks = []float64{1.3, 1.6}
	on := state(l, 0)
	jack(l, on, 0.5e6, 0)
	jack(l, on, 1e6, 1)
	require.NoError(t, l.MakeGrid())
	const m = 9e5
	s := situation(l, plain(on, level(section.Forces{My: m})))
	z, err := demand(t, l, s, fixed).MostTension(0, func(x float64, _ func(section.Point) float64) float64 {
		if x > 1.3 && x < 1.6 {
			return 1e-3
		}
		return 1e9
	})
	require.NoError(t, err)
	require.Equal(t, []ledger.ApartAt{{Tendon: 1, Factor: 0}}, z.Apart)
	// The first tendon has lost by the second: Ep/Ecm·P/A·Ap, and this acts with it.
	iy := 0.6 * 1.6 * 1.6 * 1.6 / 12
	force := 0.5e6 - ep/ecm*1e6/0.96*1e-3
	bottom := m*0.8/iy - force/0.96 - force*0.6*0.8/iy
	top := -m*0.8/iy - force/0.96 + force*0.6*0.8/iy
	deep := bottom / (bottom - top) * 1.6
	require.InEpsilon(t, bottom*deep/2*0.6, z.Force, 1e-6)
}

// Intervals of the spread are those of the tendons stressed by then: a situation after
// the first step, asked before, leaves nothing behind for one after the second.
func TestSpreadAfterLaterSteps(t *testing.T) {
	build := func() (*ledger.Ledger, *ledger.State) {
		l := one(12, rectangle(t, 0.6, 1.6, 0, 0), straight(t, point{0, 0, 0.8}, point{12, 0, 0.8}, 1e-3, 0), straight(t, point{0, 0, 0.4}, point{12, 0, 0.4}, 1e-3, 0))
		l.Girder.Breaks = []float64{0.3}
		on := state(l, 0)
		jack(l, on, 1e6, 0)
		jack(l, on, 2e6, 1)
		require.NoError(t, l.MakeGrid())
		return l, on
	}
	moment := &law{func(x float64) section.Forces {
		if x > 0.3 {
			return section.Forces{}
		}
		return section.Forces{My: 8e5}
	}}
	l, on := build()
	for _, steps := range []int{1, 2, 0, 2, 1} {
		w := extreme(t, l, after(steps, plain(on, moment)), 1)
		require.InDelta(t, 8e5/(0.6*1.6*1.6/6), w.Value, 1, "neither counts within 0.3 m, after %d", steps)
		require.Len(t, w.Apart, steps)
	}
}

// The bound on the walls of a node is of the flow by magnitude: in a section whose
// main flows are negative a large tension elsewhere does not hide a larger shear.
func TestWallsOfAMirroredSection(t *testing.T) {
	for _, shape := range []section.Shape{lopsided(t, 1), lopsided(t, 1).Mirrored()} {
		l := one(10, shape)
		l.Girder.Breaks = []float64{5}
		on := state(l, 0)
		require.NoError(t, l.MakeGrid())
		p := shape.Properties()
		walls, err := shape.Walls()
		require.NoError(t, err)
		const n, v = 1e6, 8e5
		s := situation(l, plain(on, &law{func(x float64) section.Forces {
			if x < 5 { // N through the centroid
				return section.Forces{N: n, My: -n * p.Centroid.Z, Mz: -n * p.Centroid.Y}
			}
			return section.Forces{Vz: v, T: -v * walls.ShearCentre.Y}
		}}))
		tau := 0.0
		for _, c := range walls.Cuts {
			tau = math.Max(tau, v*math.Abs(c.Z)/c.Thickness())
		}
		require.Greater(t, tau, 1.02*n/p.Area, "shear governs by little")
		w := wall(t, l, s, true)
		require.InEpsilon(t, tau, w.Value, 1e-6)
		require.Greater(t, w.X, 5.0)
	}
}

// The bounds of one filling are not those of another: ducts grouted first, then asked
// for as empty, in the right half of a girder whose left half governs when grouted.
func TestWallsAskedForTwoFillings(t *testing.T) {
	shape := rectangle(t, 0.4, 1.6, 0, 0)
	l := one(10, shape, straight(t, point{5, 0, 0.8}, point{10, 0, 0.8}, 1e-3, 0.08))
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	f := centred(t, shape, section.Forces{Vz: 4e5})
	d := demand(t, l, situation(l, plain(on, &law{func(x float64) section.Forces {
		if x < 5 {
			return f.Times(1.2)
		}
		return f
	}})), fixed)
	ask := func(filling section.Filling) ledger.Wall {
		w, _, err := d.WorstWall(ledger.WallQuery{Filling: func(int) section.Filling { return filling }, Cracked: math.Inf(1)})
		require.NoError(t, err)
		return w
	}
	flow := 1.5 * 4e5 / 1.6
	grouted := ask(section.GroutedMetal)
	require.InEpsilon(t, 1.2*flow/0.4, grouted.Value, 1e-6) // more than flow/0.36
	require.Less(t, grouted.X, 5.0)
	empty := ask(section.NotGrouted)
	require.InEpsilon(t, flow/(0.4-1.2*0.08), empty.Value, 1e-6)
	require.Greater(t, empty.X, 5.0)
}

// Whether a section has cracked near an anchor is asked with what has reached each
// corner: beyond the spread to the soffit the tendon presses it.
func TestCracksWithWhatHasReachedTheCorner(t *testing.T) {
	l := one(12, rectangle(t, 0.6, 1.6, 0, 0), straight(t, point{0, 0, 0.2}, point{12, 0, 0.2}, 1e-3, 0))
	l.Girder.Breaks = []float64{0.5, 0.6, 11.4, 11.5}
	on := state(l, 0)
	jack(l, on, 1.5e6, 0)
	require.NoError(t, l.MakeGrid())
	s := situation(l, plain(on, level(section.Forces{My: 1e6}))) // 3.9 MPa, less 1.56 + 3.5 by the tendon
	_, cracked, err := demand(t, l, s, fixed).WorstWall(ledger.WallQuery{Principal: true, Cracked: 0.5e6, Filling: func(int) section.Filling { return section.NotGrouted }})
	require.NoError(t, err)
	require.Len(t, cracked, 2, "at both ends")
	reach := 1.5 * math.Hypot(0.3, 0.2)
	require.InDelta(t, reach, cracked[0][1], 0.05)
	require.InDelta(t, 12-reach, cracked[1][0], 0.05)
}

// A share of a total that may vanish is refused, at zero as well.
func TestShareOfNothing(t *testing.T) {
	c, err := ledger.NewCombination([]ledger.Cause{{Least: 0, Most: 1}}, []ledger.Term{{Inner: -1}, {Inner: 0}})
	require.NoError(t, err)
	var r ledger.Reach
	for total, good := range map[float64]bool{1e-9: true, 0: false, -1e-9: false} {
		_, ok := c.Share(nil, 0, &r, []r2.Vec{{X: 1, Y: total}, {X: 1, Y: 1}}, 1)
		require.Equal(t, good, ok, "%g", total)
	}
}
