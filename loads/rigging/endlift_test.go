package rigging_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/rigging"
)

func endLift() rigging.EndLift {
	return rigging.EndLift{Weight: 620e3, Tolerance: loads.PlusMinus(0.03), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}, Bunk: 2, Hook: 28, CoG: 14.5, CoGTolerance: 0.2, CoGHeight: 0.9, HookHeight: 1.8, Raise: 0.4, Plumb: 0.02}
}

// Level, plumb and weighed the hook has the lever of the weight over its own.
func TestEndLiftLevel(t *testing.T) {
	e := rigging.EndLift{Weight: 600e3, Tolerance: loads.PlusMinus(0), Dynamic: loads.AtRest(), Bunk: 30, Hook: 5, CoG: 15}
	r, err := e.Solve()
	require.NoError(t, err)
	require.InEpsilon(t, 600e3*15/25, r.Hook.Nominal, 1e-12)
	require.InEpsilon(t, 600e3*10/25, r.Bunk.Static.Most, 1e-12)
	require.Zero(t, r.Hook.Side)
}

// Wherever the load is on its way, the forces at hook and bunk balance the weight in
// force and moment, and are within the shares; at one of them they reach each end.
func TestEndLiftBalances(t *testing.T) {
	e := endLift()
	r, err := e.Solve()
	require.NoError(t, err)
	least, most := math.Inf(1), math.Inf(-1)
	for i := range 21 {
		rise := e.Raise * float64(i) / 20
		a := math.Asin(rise / 26)
		turned := func(along, up float64) (x, z float64) {
			return along*math.Cos(a) - up*math.Sin(a), along*math.Sin(a) + up*math.Cos(a)
		}
		for _, off := range []float64{-0.2, 0, 0.2} {
			for _, rope := range []float64{-0.02, 0, 0.02} {
				xg, _ := turned(12.5+off, 0.9)
				xh, zh := turned(26, 1.8)
				force := e.Weight * xg / (xh - zh*math.Tan(rope)) // F up at xh, F·tan(rope) outwards at zh
				require.InDelta(t, 0, force*xh-force*math.Tan(rope)*zh-e.Weight*xg, 1e-6)
				least, most = math.Min(least, force), math.Max(most, force)
			}
		}
	}
	require.InEpsilon(t, 0.97*least, r.Hook.Static.Least, 1e-12)
	require.InEpsilon(t, 1.03*most, r.Hook.Static.Most, 1e-12)
	require.InEpsilon(t, 1.03*(e.Weight-least), r.Bunk.Static.Most, 1e-12)
	require.InEpsilon(t, 0.97*(e.Weight-most), r.Bunk.Static.Least, 1e-12)
	require.InEpsilon(t, 1.1*1.03*most*math.Tan(0.02), r.Bunk.Side, 1e-12)
	mirrored := e
	mirrored.Bunk, mirrored.Hook, mirrored.CoG = -2, -28, -14.5
	same, err := mirrored.Solve()
	require.NoError(t, err)
	require.Equal(t, r, same)
}

func TestEndLiftRefuses(t *testing.T) {
	for want, change := range map[string]func(*rigging.EndLift){
		"EndLift.Tolerance is not stated: must be PlusMinus":                func(e *rigging.EndLift) { e.Tolerance = nil },
		"EndLift.Dynamic is not stated: must be a range":                    func(e *rigging.EndLift) { e.Dynamic = loads.Dynamic{} },
		"EndLift.Hook = 2.3 m: must be at least 0.5 m from the bunk at 2 m": func(e *rigging.EndLift) { e.Hook = 2.3 },
		"EndLift.CoG = 29 m: must be 2 to 28 m":                             func(e *rigging.EndLift) { e.CoG = 29 },
		"EndLift.Raise = 3 m: must be 0 to 2.6 m":                           func(e *rigging.EndLift) { e.Raise = 3 },
		"the hook may have": func(e *rigging.EndLift) { e.CoG = 27.95 },
		"m from the bunk at a rise of 0 m: must be above a tenth of": func(e *rigging.EndLift) { e.Hook, e.CoG, e.HookHeight, e.Plumb, e.Raise = 4, 3, 19.5, 0.1, 0 },
	} {
		e := endLift()
		change(&e)
		_, err := e.Solve()
		require.ErrorIs(t, err, rigging.ErrRigging, want)
		require.ErrorContains(t, err, want)
		_, err = e.Lines()
		require.ErrorContains(t, err, want)
	}
}

func TestEndLiftLines(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	in := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	for range 100 {
		e := endLift()
		e.Hook, e.CoG, e.Raise, e.Plumb, e.CoGHeight, e.HookHeight = e.Bunk-in(20, 30), e.Bunk-in(5, 15), in(0, 2), in(0, 0.05), in(-1, 2), in(-1, 4)
		ends, err := e.Solve()
		require.NoError(t, err)
		lines, err := e.Lines()
		want := map[string]float64{"H_H": ends.Hook.Side}
		shareOf(want, "_H", ends.Hook)
		shareOf(want, "_B", ends.Bunk)
		gives(t, derived(t, lines, err), want)
	}
}
