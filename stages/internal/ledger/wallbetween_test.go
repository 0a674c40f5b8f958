package ledger_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// Between the nodes the worst wall is looked for as well: without breaks it is that of
// a grid with breaks every quarter of a metre, for forces about an axis 5 m below a box,
// which twist it by what Vy and Vz do there.
func TestWorstWallBetweenTheNodes(t *testing.T) {
	rng := rand.New(rand.NewPCG(71, 72))
	shape, err := cell(t, 2.4, 1.8, 0.2).Moved(section.Point{Y: 2, Z: 5})
	require.NoError(t, err)
	off := 0
	for range 12 {
		a, b, c := some(rng), some(rng), some(rng)
		field := &law{func(x float64) section.Forces { // a bump whose place differs from force to force
			bump := x * x * (10 - x) * (10 - x) / 625
			return a.Plus(b.Times(x / 10)).Times(bump).Plus(c.Times(bump * x * x / 50))
		}}
		find := func(principal bool, breaks ...float64) (value, x float64) {
			l := one(10, shape)
			l.Girder.Breaks = breaks
			on := state(l, 0)
			require.NoError(t, l.MakeGrid())
			w := wall(t, l, situation(l, plain(on, field)), principal)
			return w.Value, w.X
		}
		var fine []float64
		for x := 0.25; x < 10; x += 0.25 {
			fine = append(fine, x)
		}
		for _, principal := range []bool{true, false} {
			value, x := find(principal)
			want, at := find(principal, fine...)
			require.InEpsilon(t, want, value, 2e-4, "at %g and %g", x, at)
			if x > 0.01 && x < 9.99 {
				off++
			}
		}
	}
	require.Greater(t, off, 4, "some inside")
}

// A peak of the shear between two nodes: V = V0·(1 − (x − a)²/100) on one stretch.
func TestShearPeaksBetweenNodes(t *testing.T) {
	shape := rectangle(t, 0.4, 1.6, 0, 0)
	for _, at := range []float64{2.3, 4.1, 5.9, 7.6} {
		l := one(10, shape)
		on := state(l, 0)
		require.NoError(t, l.MakeGrid())
		f := centred(t, shape, section.Forces{Vz: -5e5})
		w := wall(t, l, situation(l, plain(on, &law{func(x float64) section.Forces { return f.Times(1 - (x-at)*(x-at)/100) }})), false)
		require.InEpsilon(t, 1.5*5e5/(0.4*1.6), w.Value, 1e-4)
		require.InDelta(t, at, w.X, 0.05)
	}
}
