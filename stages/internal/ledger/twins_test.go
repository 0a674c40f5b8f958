package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// pair is a slab of 2 × 0.4 m with two tendons at y = ±0.9 m, the second off the mirror by a
// distance, stressed in one step or only the first of them, and two that are not stressed.
func pair(t *testing.T, off float64, both bool) (*ledger.Ledger, *ledger.Situation) {
	l := one(12, rectangle(t, 2, 0.4, 0, 0), straight(t, point{0, -0.9, 0.2}, point{12, -0.9, 0.2}, 1e-3, 0), straight(t, point{0, 0.9 - off, 0.2}, point{12, 0.9 - off, 0.2}, 1e-3, 0), straight(t, point{0, -0.5, 0.1}, point{12, -0.5, 0.1}, 1e-3, 0), straight(t, point{0, 0.5, 0.1}, point{12, 0.5, 0.1}, 1e-3, 0))
	l.Girder.Breaks, l.Girder.Paired = []float64{0.4, 0.6}, true
	on := state(l, 0)
	if both {
		jack(l, on, 1e6, 0, 1)
	} else {
		jack(l, on, 1e6, 0)
	}
	require.NoError(t, l.MakeGrid())
	return l, situation(l, plain(on, &law{func(x float64) section.Forces {
		if x < 0.4 || x > 0.6 {
			return section.Forces{}
		}
		return section.Forces{My: 3e5}
	}}))
}

// From 0.34 m on both corners are within the spread of the pair, y = ±0.5 from 0.67 m on:
// between 0.4 and 0.6 m the stress at the corners is that of both tendons in full, farther in
// that of the moment alone.
func TestTwinsSpreadTogether(t *testing.T) {
	l, s := pair(t, 0, true)
	const bending, axial = 3e5 / (2 * 0.16 / 6), 2e6 / 0.8
	w := extreme(t, l, s, 1)
	require.InDelta(t, bending, w.Value, 1, "not reached in the middle: nothing of the pair")
	require.LessOrEqual(t, math.Abs(w.At.Y), 0.5)
	require.Equal(t, []ledger.ApartAt{{Tendon: 0, Factor: 0}, {Tendon: 1, Factor: 0}}, w.Apart)
	d := demand(t, l, s, fixed)
	for _, at := range l.Beside(0.4) {
		if l.Grid()[at[0]].From < 0.4-1e-6 {
			continue
		}
		corner, err := d.ExtremeAt(at[0], at[1], 1, func(c ledger.Corner) bool { return math.Abs(c.At.Y) > 0.99 })
		require.NoError(t, err)
		require.InDelta(t, bending-axial, corner.Value, 1, "reached by the nearer one: both in full")
		require.Empty(t, corner.Apart)
	}
}

// Tendons that do not mirror each other count each by itself: at a corner the far one, which
// relieves it, is not counted on.
func TestTendonsThatAreNoTwins(t *testing.T) {
	l, s := pair(t, 0.05, true)
	d := demand(t, l, s, fixed)
	at := l.Beside(0.4)
	for _, a := range at {
		if l.Grid()[a[0]].From < 0.4-1e-6 {
			continue
		}
		corner, err := d.ExtremeAt(a[0], a[1], 1, func(c ledger.Corner) bool { return math.Abs(c.At.Y) > 0.99 })
		require.NoError(t, err)
		require.Len(t, corner.Apart, 1)
	}
}

// Of a pair of which one is stressed the other has no force, and no corner counts as reached.
func TestOneOfTwinsStressed(t *testing.T) {
	l, s := pair(t, 0, false)
	w := extreme(t, l, s, 1)
	alone := 1e6 * (0.9/(0.4*8/12) - 1/0.8) // pull of the first at the far edge
	require.InDelta(t, 3e5/(2*0.16/6)+alone, w.Value, 1)
	require.Equal(t, []ledger.ApartAt{{Tendon: 0, Factor: 1}}, w.Apart)
}
