package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// The force of an anchor in the middle of a rectangle of 0.6 × 1.6 m has reached the
// corners after the way √(0.3² + 0.8²) by tan = 2/3: 1.5 times the way.
func TestSpreadInARectangle(t *testing.T) {
	l := one(12, rectangle(t, 0.6, 1.6, 0, 0), straight(t, point{0, 0, 0.8}, point{12, 0, 0.8}, 1e-3, 0))
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	require.NoError(t, l.MakeGrid())
	way := 1.5 * math.Hypot(0.3, 0.8)
	zones := l.Zones()
	require.Len(t, zones, 2)
	require.Equal(t, []int{0}, zones[0].Tendons)
	require.Equal(t, [2]float64{0, 1}, [2]float64{zones[0].Anchor, zones[0].Ahead})
	require.InDelta(t, way, zones[0].End, 1e-9)
	require.Equal(t, [2]float64{12, -1}, [2]float64{zones[1].Anchor, zones[1].Ahead})
	require.InDelta(t, 12-way, zones[1].End, 1e-9)
	// A corner is pressed by the whole tendon from there on, and by none or all of it before.
	d := demand(t, l, situation(l), fixed)
	corners := func(_ ledger.Corner) bool { return true }
	for _, k := range inside(l, 0, way) {
		for n := range ledger.Nodes {
			up, err := d.ExtremeAt(k, n, 1, corners)
			require.NoError(t, err)
			require.InDelta(t, 0, up.Value, 1e-6, "not counted on at x = %g", up.X)
			require.Equal(t, []ledger.ApartAt{{Tendon: 0, Factor: 0}}, up.Apart)
			down, err := d.ExtremeAt(k, n, -1, corners)
			require.NoError(t, err)
			require.InDelta(t, -1e6/0.96, down.Value, 1, "but acts where it harms")
		}
	}
	for _, k := range inside(l, way, 12-way) {
		up, err := d.ExtremeAt(k, 4, 1, corners)
		require.NoError(t, err)
		require.InDelta(t, -1e6/0.96, up.Value, 1)
		require.Empty(t, up.Apart)
	}
}

// inside are the stretches between two places.
func inside(l *ledger.Ledger, from, to float64) (list []int) {
	for k, p := range l.Grid() {
		if p.Middle() > from && p.Middle() < to {
			list = append(list, k)
		}
	}
	return list
}

// The middles of long edges come sooner than the corners: a point of the side, 0.3 m
// away, after 0.45 m.
func TestPointsBetweenCornersComeSooner(t *testing.T) {
	l := one(12, rectangle(t, 0.6, 1.6, 0, 0), straight(t, point{0, 0, 0.8}, point{12, 0, 0.8}, 1e-3, 0))
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	require.NoError(t, l.MakeGrid())
	d := demand(t, l, situation(l), fixed)
	none := func(x float64) float64 { // how much of the tendon counts there at its best
		k, p := stretchOf(t, l, x)
		best, at := math.Inf(-1), math.Inf(1)
		for n, s := range p.At {
			if far := math.Abs(s.X - x); far < at {
				w, err := d.ExtremeAt(k, n, 1, func(c ledger.Corner) bool { return math.Abs(c.At.Z-0.4) < 1e-9 && c.At.Y > 0 })
				require.NoError(t, err)
				best, at = w.Value, far
			}
		}
		return best
	}
	// A quarter of the height: √(0.3² + 0.4²) = 0.5 m away, reached at 0.75 m; the corner at 1.282 m.
	require.InDelta(t, 0, none(0.6), 1e-6)
	require.InDelta(t, -1e6/0.96, none(0.9), 1)
}

// Through a box the force runs along the walls, not through the void: from the middle
// of the bottom slab of a box of 2.4 × 1.8 m with walls of 0.3 m to its upper corner
// round the lower corner of the void and up the web.
func TestSpreadAlongTheWallsOfABox(t *testing.T) {
	const b, h, wall = 2.4, 1.8, 0.3
	l := one(20, cell(t, b, h, wall), straight(t, point{0, 0, 0.15}, point{20, 0, 0.15}, 1e-3, 0))
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	require.NoError(t, l.MakeGrid())
	bend := section.Point{Y: b/2 - wall, Z: wall}
	corner := section.Point{Y: b / 2, Z: h}
	outer := math.Hypot(bend.Y, bend.Z-0.15) + math.Hypot(corner.Y-bend.Y, corner.Z-bend.Z)
	// The corner between the void's upper corners is farther: the middle of the deck has no corner, but points between.
	void := section.Point{Y: bend.Y, Z: h - wall}
	deck := math.Hypot(bend.Y, bend.Z-0.15) + (h - 2*wall) + math.Hypot(void.Y-0.1, wall)
	require.GreaterOrEqual(t, l.Zones()[0].End, 1.5*outer-1e-9)
	require.Less(t, l.Zones()[0].End, 1.5*(deck+0.3))
	require.Greater(t, 1.5*outer, 1.5*math.Hypot(b/2, h-0.15), "the straight line would be shorter")
	d := demand(t, l, situation(l), fixed)
	reached := func(x float64, at section.Point) bool {
		k, p := stretchOf(t, l, x)
		n := 0
		for i, s := range p.At {
			if math.Abs(s.X-x) < math.Abs(p.At[n].X-x) {
				n = i
			}
		}
		w, err := d.ExtremeAt(k, n, 1, func(c ledger.Corner) bool { return math.Hypot(c.At.Y-at.Y, c.At.Z-at.Z) < 1e-9 })
		require.NoError(t, err)
		return len(w.Apart) == 0
	}
	near, far := crossing(reached, corner, 0.05, 10), 1.5*outer
	require.InDelta(t, far, near, 0.35, "to the nodes beside it")
	require.InDelta(t, 1.5*math.Hypot(b/2, 0.15), crossing(reached, section.Point{Y: b / 2}, 0.05, 10), 0.35)
}

// crossing is where a point is first reached, by steps.
func crossing(reached func(float64, section.Point) bool, at section.Point, step, to float64) float64 {
	for x := step / 2; x < to; x += step {
		if reached(x, at) {
			return x
		}
	}
	return to
}

// The extreme stress of a corner just before it is reached has none of the tendon, to
// the same section: x of the largest tension under a hogging moment.
func TestExtremeJustBeforeTheSpread(t *testing.T) {
	const b, h = 0.6, 1.6
	l := one(12, rectangle(t, b, h, 0, 0), straight(t, point{0, 0, 0.8}, point{12, 0, 0.8}, 1e-3, 0))
	on := state(l, 0)
	jack(l, on, 3e6, 0)
	require.NoError(t, l.MakeGrid())
	moment := func(x float64) float64 { return -1e5 * x * (1 - x/12) * (1 - x/24) } // at most 3.9 m · 1e5
	s := situation(l, plain(on, &law{func(x float64) section.Forces { return section.Forces{My: moment(x)} }}))
	up := extreme(t, l, s, 1)
	reach := 1.5 * math.Hypot(b/2, h/2)
	require.InDelta(t, reach, up.X, 1e-6, "beyond it 3.1 MPa of compression count")
	require.InDelta(t, -moment(reach)/(b*h*h/6), up.Value, 1)
	require.Equal(t, []ledger.ApartAt{{Tendon: 0, Factor: 0}}, up.Apart)
	require.GreaterOrEqual(t, up.Bound, up.Value)
}

// Anchors of one face stand together; a tendon anchored inside the length has its
// zone there; a tendon not stressed keeps nothing apart.
func TestZonesByFace(t *testing.T) {
	l := one(20, rectangle(t, 0.6, 1.2, 0, 0), straight(t, point{0, 0, 0.3}, point{20, 0, 0.3}, 1e-3, 0),
		straight(t, point{0, 0, 0.9}, point{9, 0, 0.9}, 1e-3, 0), straight(t, point{9, 0, 0.4}, point{20, 0, 0.4}, 1e-3, 0))
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	require.NoError(t, l.MakeGrid())
	zones := l.Zones()
	require.Len(t, zones, 4)
	require.Equal(t, []int{0, 1}, zones[0].Tendons)
	require.Equal(t, []int{0, 2}, zones[1].Tendons)
	require.Equal(t, -1.0, zones[1].Ahead)
	require.Equal(t, [2]float64{9, -1}, [2]float64{zones[2].Anchor, zones[2].Ahead})
	require.Equal(t, [2]float64{9, 1}, [2]float64{zones[3].Anchor, zones[3].Ahead})
	require.InDelta(t, 1.5*math.Hypot(0.3, 0.9), zones[0].End, 1e-9, "the farther of the two")
	require.InDelta(t, 9-1.5*math.Hypot(0.3, 0.9), zones[2].End, 1e-9)
	require.InDelta(t, 9+1.5*math.Hypot(0.3, 0.8), zones[3].End, 1e-9)
	d := demand(t, l, situation(l), fixed)
	for _, k := range inside(l, 9, 9+1.5*0.8) {
		w, err := d.ExtremeAt(k, 2, 1, func(ledger.Corner) bool { return true })
		require.NoError(t, err)
		require.Empty(t, w.Apart, "tendon 2 is not stressed")
		require.InDelta(t, -1e6/0.72+1e6*0.3*0.6/(0.6*1.2*1.2*1.2/12), w.Value, 1)
	}
}

// In a girder so short that the zones of both ends meet, a tendon is one part with one
// factor, not a part of each anchor.
func TestZonesThatMeet(t *testing.T) {
	l := one(2, rectangle(t, 0.6, 2, 0, 0), straight(t, point{0, 0, 0.4}, point{2, 0, 0.4}, 1e-3, 0))
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	require.NoError(t, l.MakeGrid())
	d := demand(t, l, situation(l), fixed)
	e, i := 0.4-1.0, 0.6*8/12
	for k := range l.Grid() {
		up, err := d.ExtremeAt(k, 4, 1, func(c ledger.Corner) bool { return c.At.Z == 0 })
		require.NoError(t, err)
		down, err := d.ExtremeAt(k, 4, -1, func(c ledger.Corner) bool { return c.At.Z == 0 })
		require.NoError(t, err)
		require.LessOrEqual(t, len(up.Apart), 1)
		full := -1e6/1.2 - 1e6*e*(0-1.0)/i
		require.InDelta(t, full, down.Value, 1, "at most once")
		if len(up.Apart) == 1 {
			require.InDelta(t, 0, up.Value, 1e-6)
		} else {
			require.InDelta(t, full, up.Value, 1)
		}
	}
}
