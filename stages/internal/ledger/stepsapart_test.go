package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// stepwise is a girder whose second tendon is stressed in a second step, and whose
// first is let down in a third.
func stepwise(t *testing.T) (*ledger.Ledger, *ledger.State) {
	l := one(12, rectangle(t, 0.6, 1.6, 0, 0), straight(t, point{0, 0, 1.2}, point{12, 0, 1.2}, 1e-3, 0.06), straight(t, point{0, 0, 0.4}, point{12, 0, 0.4}, 1e-3, 0.06))
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	jack(l, on, 1.5e6, 1)
	release(l, on, 0)
	require.NoError(t, l.MakeGrid())
	return l, on
}

// after is a situation after so many steps.
func after(steps int, entries ...ledger.Entry) *ledger.Situation {
	s := &ledger.Situation{Entries: entries, Steps: steps}
	s.Lay()
	return s
}

// Situations of one ledger after different steps do not disturb each other: asked in
// any order each gives what it gives alone.
func TestSituationsAfterDifferentSteps(t *testing.T) {
	field := &law{func(x float64) section.Forces {
		return section.Forces{My: 2e5 * math.Sin(x/3), Vz: 2e5 / 3 * math.Cos(x/3)}
	}}
	ask := func(l *ledger.Ledger, on *ledger.State, steps int) (values [3]float64) {
		s := after(steps, plain(on, field))
		values[0] = extreme(t, l, s, 1).Value
		values[1] = extreme(t, l, s, -1).Value
		values[2] = wall(t, l, s, true).Value
		return values
	}
	var alone [4][3]float64
	for steps := range alone {
		l, on := stepwise(t)
		alone[steps] = ask(l, on, steps)
	}
	for _, order := range [][]int{{0, 1, 2, 3}, {3, 2, 1, 0}, {2, 0, 3, 1}} {
		l, on := stepwise(t)
		for _, steps := range order {
			require.Equal(t, alone[steps], ask(l, on, steps), "after %d in %v", steps, order)
		}
	}
	require.NotEqual(t, alone[1], alone[2])
}

// A situation has what its steps did, not what later ones will do.
func TestOnlyTheStepsMade(t *testing.T) {
	l, _ := stepwise(t)
	n := func(steps int) float64 { return l.Forces(after(steps), 6, []float64{1}).N }
	require.Zero(t, n(0))
	require.InDelta(t, -1e6, n(1), 1e-6)
	first, _ := l.TendonForce(after(2), 6, 0)
	require.InDelta(t, -(first + 1.5e6), n(2), 1e-3)
	second, _ := l.TendonForce(after(3), 6, 1)
	require.InDelta(t, -second, n(3), 1e-3)
	require.Empty(t, l.Items(after(0), 6, []float64{1}, nil))
	require.Len(t, l.Items(after(1), 6, []float64{1}, nil), 1)
	d := demand(t, l, after(1), fixed)
	const k = 0 // the first stretch begins at the anchors
	w, err := d.ExtremeAt(k, 0, 1, func(c ledger.Corner) bool { return c.At.Z > 1.59 })
	require.NoError(t, err)
	require.Equal(t, []ledger.ApartAt{{Tendon: 0, Factor: 0}}, w.Apart, "tendon 1 is not stressed")
	d = demand(t, l, after(3), fixed)
	w, err = d.ExtremeAt(k, 0, 1, func(c ledger.Corner) bool { return c.At.Z < 0.01 })
	require.NoError(t, err)
	require.Equal(t, []ledger.ApartAt{{Tendon: 1, Factor: 0}}, w.Apart, "tendon 0 is let down")
}

// Two fields on two sections: each entry acts on the section that it names, also where
// the same field acts on both.
func TestOneFieldOnTwoSections(t *testing.T) {
	l, on := stepwise(t)
	grouted := &ledger.State{Index: len(l.States), Pieces: []int{0}, Ratios: []float64{1}, Bonded: []bool{true, true}, Modulus: ecm}
	fresh := one(12, rectangle(t, 0.6, 1.6, 0, 0), l.Girder.Tendons...)
	fresh.States = []*ledger.State{on, grouted}
	require.NoError(t, fresh.MakeGrid())
	field := level(section.Forces{My: 3e5, N: 1e5})
	s := situation(fresh, plain(on, field), ledger.Entry{State: grouted, Field: field, Coefficient: 2, Inner: -1})
	at := section.Point{Z: 0.1}
	want := 0.0
	for i, of := range []*ledger.State{on, grouted} {
		p := fresh.Section(6, of)
		want += float64(i+1) * p.Stress(ledger.About(section.Forces{My: 3e5, N: 1e5}, p.Centroid), at)
	}
	require.InDelta(t, want, fresh.Plane(s, 6, []float64{1}).At(at), 1e-3)
	up := extreme(t, fresh, s, 1) // by the nodes of the grid
	want = 0
	for i, of := range []*ledger.State{on, grouted} {
		p := fresh.Section(up.X, of)
		want += float64(i+1) * p.Stress(ledger.About(section.Forces{My: 3e5, N: 1e5}, p.Centroid), up.At)
	}
	require.InDelta(t, want, up.Value, 1e-3)
}

// An anchor whose place is no longer in the concrete farther on, as on a soffit that
// rises, presses where its tendon is.
func TestAnchorBelowARisingSoffit(t *testing.T) {
	taper, err := section.Taper{Left: rectangle(t, 0.6, 1.6, 0, 0), Right: rectangle(t, 0.6, 1.1, 0, 0.5), To: 2}.Along()
	require.NoError(t, err)
	l := one(12, taper, harped(t, 1e-3, 0, point{0, 0, 0.15}, point{2, 0, 0.75}, point{12, 0, 0.75}))
	l.Girder.Breaks = []float64{1.2, 1.6}
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	require.NoError(t, l.MakeGrid(), "(0, 0.15) is outside from 0.6 m on")
	w := wall(t, l, situation(l, plain(on, level(section.Forces{Vz: 3e5}))), true)
	require.True(t, w.Found)
	// At 1.4 m the soffit is at 0.35 m and the tendon at 0.57 m: the lower corner is √(0.3² + 0.22²) away, reached at 0.56 m;
	// the upper one √(0.3² + 1.03²), at 1.61 m.
	d := demand(t, l, situation(l), fixed)
	k, _ := stretchOf(t, l, 1.4)
	low, err := d.ExtremeAt(k, 4, 1, func(c ledger.Corner) bool { return c.At.Z < 0.4 })
	require.NoError(t, err)
	require.Empty(t, low.Apart)
	high, err := d.ExtremeAt(k, 0, 1, func(c ledger.Corner) bool { return c.At.Z > 1.59 })
	require.NoError(t, err)
	require.Len(t, high.Apart, 1)
}

// Where the depth grows, the way to mid-depth is that of the section where it is: it is
// found anew in each stretch.
func TestSpreadInAGrowingDepth(t *testing.T) {
	taper, err := section.Taper{Left: rectangle(t, 0.4, 1, 0, 0), Right: rectangle(t, 0.4, 4, 0, 0), To: 4}.Along()
	require.NoError(t, err)
	l := one(8, taper, straight(t, point{0, 0, 0.2}, point{8, 0, 0.2}, 1e-3, 0))
	l.Girder.Breaks = []float64{0.4, 1.02, 1.12}
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	require.NoError(t, l.MakeGrid())
	between := func(from, to float64) ledger.Wall {
		return wall(t, l, situation(l, plain(on, &law{func(x float64) section.Forces {
			if x < from || x > to {
				return section.Forces{}
			}
			return section.Forces{Vz: 8e6}
		}})), true)
	}
	near := between(0, 0.4)
	require.Less(t, near.X, 0.401)
	// At 1.07 m h/2 = 0.901 m: √(0.2² + 0.701²) = 0.729 m, reached at 1.094 m; near the anchor it would be at 0.8 m.
	w := between(1.02, 1.12)
	require.Greater(t, w.X, 1.019)
	require.Less(t, w.X, 1.121)
	require.InDelta(t, (1+0.75*w.X)/2, w.At.Z, 0.05)
	require.Zero(t, w.Normal)
	require.Len(t, w.Apart, 1, "not counted on")
	require.InEpsilon(t, 1.5*8e6/(0.4*(1+0.75*1.02)), w.Value, 0.05)
}
