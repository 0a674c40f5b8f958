package segmental_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/segmental"
)

// bearings are two lines of one bearing each.
func bearings(x ...float64) (list []stages.Support) {
	for i, at := range x {
		holds := stages.HoldsBoth
		if i > 0 {
			holds = stages.HoldsAcross
		}
		list = append(list, stages.Support{X: at, Role: stages.Bearing, Holds: holds, Bracket: true, Stiffness: 1e12})
	}
	return list
}

// levelsAfter are the levels of joints after a move, by name.
func levelsAfter(t testing.TB, c segmental.CastingCurve, name string) map[string]float64 {
	t.Helper()
	for _, s := range c.Levels {
		if s.Name != name {
			continue
		}
		of := map[string]float64{}
		for _, j := range s.Joints {
			of[j.Name] = j.Level
		}
		return of
	}
	t.Fatalf("no move %q", name)
	return nil
}

// A cantilever that is taken over by bearings stays where it is: the engine refers its
// movement to the bearings, which were below a deck that had come down 5 mm at one of them.
func TestNoJumpWhenOtherSupportsTakeOver(t *testing.T) {
	f := fan{n: 3, depth: level(2), concrete: steady{}}
	d, steps := f.deck(t), f.steps(10, 3)
	steps = append(steps, segmental.Step{Name: "over", Day: 30, Moves: []segmental.Move{{Do: segmental.Wait}, {Do: segmental.Support, On: bearings(6, 22)}}})
	a := analysed(t, d, f.on(), steps...)
	curve, err := segmental.Casting{Rule: segmental.MatchCast, EveryMove: true}.Curve(d, a, f.on(), steps...)
	require.NoError(t, err)
	before, after := levelsAfter(t, curve, "over: wait"), levelsAfter(t, curve, "over: take over by other supports")
	require.InDelta(t, before["L2/L1"], after["L2/L1"], 1e-12, "over a bearing")
	require.InDelta(t, before["R3, right end"], after["R3, right end"], 1e-12, "over the other")
	raw := movedBy(t, a, 4, 2)[0]
	require.Equal(t, []float64{6, 22}, raw.Datum())
	require.Greater(t, jointOf(t, curve, "R3, right end").Camber, 2e-3, "the movement of the engine is 0 there")

	// Between the bearings, 5 m left and 11 m right of the pier, it goes down by the reaction V
	// of the fixed support, −V·a·x(l² − a² − x²)/6EIl at x from the right; the arms are alike,
	// there is no couple.
	moved := func(name string) float64 { return after[name] - before[name] }
	const v, l = 22 * castWidth * 2 * castUnit, 16.0
	const ei = steadyModulus * castWidth * 8 / 12
	x := l - 7.0
	want := -v * 5 * x * (l*l - 25 - x*x) / 6 / ei / l
	require.InEpsilon(t, want, moved("P/R1"), 1e-6)
}

// Two cantilevers, the first on bearings on which it stays where it was: when the closure
// joins both, no joint moves by more than the weight of the closure at another place gives.
func TestNoJumpAtAClosure(t *testing.T) {
	f := fan{n: 3, piers: 2, depth: level(2), concrete: steady{}, closure: 1}
	d, steps := f.deck(t), f.steps(10, 3)
	first := bearings(6, 17)
	steps = append(steps, segmental.Step{Name: "over", Day: 40, Moves: []segmental.Move{{Do: segmental.Support, On: append(first, f.on()[1])}}},
		segmental.Step{Name: "closure", Day: 41, Moves: []segmental.Move{{Do: segmental.Pour, Segments: []string{"C1"}}, {Do: segmental.Close, Segments: []string{"C1"}}}},
		segmental.Step{Name: "bearings", Day: 50, Moves: []segmental.Move{{Do: segmental.Wait}, {Do: segmental.Support, On: bearings(11, 34)}}})
	a := analysed(t, d, f.on(), steps...)
	shifts := []segmental.PierShift{{Segment: "P2", Step: 5, Rotation: 0.002, Settlement: 0.003}}
	curve, err := segmental.Casting{Rule: segmental.MatchCast, EveryMove: true, Shifts: shifts}.Curve(d, a, f.on(), steps...)
	require.NoError(t, err)
	before, after := levelsAfter(t, curve, "closure: pour C1"), levelsAfter(t, curve, "closure: close C1")
	for name, z := range before {
		require.InDelta(t, z, after[name], 1e-6, name)
	}
	// The second pier has turned and settled before: the tip at the closure is 11 m left of it.
	still, err := segmental.Casting{Rule: segmental.MatchCast, EveryMove: true}.Curve(d, a, f.on(), steps...)
	require.NoError(t, err)
	require.InDelta(t, 0.002*11+0.003, jointOf(t, curve, "C1/2L3").Camber-jointOf(t, still, "C1/2L3").Camber, 1e-12)
	require.InDelta(t, 0, jointOf(t, curve, "1R3/C1").Camber-jointOf(t, still, "1R3/C1").Camber, 1e-12)
	require.Empty(t, jointOf(t, curve, "1R3/C1").Cast, "no cell sets the joint of a closure")

	// From bearings and a fixed support to one bearing on each pier.
	before, after = levelsAfter(t, curve, "bearings: wait"), levelsAfter(t, curve, "bearings: take over by other supports")
	was, err := a.Effects(9, 1)
	require.NoError(t, err)
	now, err := a.Effects(9, 2)
	require.NoError(t, err)
	require.InDelta(t, 0, now.Forces(11-1e-6).My-now.Forces(11+1e-6).My, 10, "no couple at a bearing")
	// The change of moment is straight between supports: lever × moment by Simpson's rule.
	change := func(x float64) float64 { return now.Forces(x).My - was.Forces(x).My }
	bend := func(x float64) (sum float64) {
		breaks := []float64{0, 6, 11, 17, 34, 45}
		for i, from := range breaks[:5] {
			to := math.Min(x, breaks[i+1])
			if to <= from {
				break
			}
			const hair = 1e-7 // the moment of the fixed support is at 34 m
			sum += (to - from) / 6 * ((x-from)*change(from+hair) + 4*(x-(from+to)/2)*change((from+to)/2) + (x-to)*change(to-hair))
		}
		return sum / (steadyModulus * castWidth * 8 / 12)
	}
	line := func(x float64) float64 { return bend(11) + (bend(34)-bend(11))*(x-11)/23 }
	for name, x := range map[string]float64{"1L3, left end": 0, "1L1/P1": 9, "1R3/C1": 22, "C1/2L3": 23, "2R3, right end": 45} {
		require.InDelta(t, bend(x)-line(x), after[name]-before[name], 2e-8, name)
	}
}

// A support below the closure meets it where it is.
func TestNoJumpOverASupportBelowAClosure(t *testing.T) {
	f := fan{n: 3, piers: 2, depth: level(2), concrete: steady{}, closure: 1}
	d, steps := f.deck(t), f.steps(10, 3)
	steps = append(steps, segmental.Step{Name: "over", Day: 40, Moves: []segmental.Move{{Do: segmental.Support, On: append(bearings(6, 17), f.on()[1])}}},
		segmental.Step{Name: "closure", Day: 41, Moves: []segmental.Move{{Do: segmental.Pour, Segments: []string{"C1"}}, {Do: segmental.Close, Segments: []string{"C1"}}}},
		segmental.Step{Name: "below", Day: 51, Moves: []segmental.Move{{Do: segmental.Wait}, {Do: segmental.Support, On: bearings(11, 22.5)}}})
	curve, err := segmental.Casting{Rule: segmental.MatchCast, EveryMove: true}.Curve(d, analysed(t, d, f.on(), steps...), f.on(), steps...)
	require.NoError(t, err)
	before, after := levelsAfter(t, curve, "below: wait"), levelsAfter(t, curve, "below: take over by other supports")
	middle := func(of map[string]float64) float64 { return (of["1R3/C1"] + of["C1/2L3"]) / 2 }
	require.InDelta(t, middle(before), middle(after), 1e-4, "the chord of 1 m is M/8EI = 0.07 mm away from the support")
	require.Greater(t, math.Abs(after["2R3, right end"]-before["2R3, right end"]), 1e-3, "the rest moves")
}

func TestShiftOfAPierBeforeAndAfterTheForm(t *testing.T) {
	f := fan{n: 3, depth: level(2), concrete: steady{}}
	d, steps := f.deck(t), f.steps(10, 3)
	shift := []segmental.PierShift{{Segment: "P", Step: 3, Rotation: 0.001, Settlement: 0.002}, {Segment: "P", Step: 3, Settlement: 0.001}}
	for _, of := range []struct {
		rule segmental.CastingRule
		last float64 // of the shift, that counts at the joint of the last segment
	}{{segmental.MatchCast, 1}, {segmental.FormReset, 0}} {
		still := curveOf(t, segmental.Casting{Rule: of.rule}, d, f.on(), steps...)
		curve := curveOf(t, segmental.Casting{Rule: of.rule, Shifts: shift}, d, f.on(), steps...)
		for i, j := range curve.Joints {
			by := 0.003 - 0.001*(j.X-11)
			if i == 0 || i == len(curve.Joints)-1 {
				by *= of.last
			}
			require.InDelta(t, by, j.Camber-still.Joints[i].Camber, 1e-12, "%s, %s", of.rule, j.Name)
		}
		for i, s := range curve.Levels {
			for k, j := range s.Joints {
				by := 0.0
				if i < 2 { // before it the deck is as much higher
					by = 0.003 - 0.001*(j.X-11)
				}
				require.InDelta(t, by, j.Level-still.Levels[i].Joints[k].Level, 1e-12)
			}
		}
	}
}

// A part on falsework, its closure with the left arm: the joint beside the closure is that of
// the part on falsework, which stays where it was when it is joined.
func TestCastingWithAPartOnFalsework(t *testing.T) {
	f := fan{n: 2, depth: level(2), concrete: steady{}}
	d, steps := f.deck(t), f.steps(10, 3)
	part := func(mark string, length float64, of segmental.Type) segmental.Segment {
		s := d.Segments[0]
		s.Type, s.Element.Mark, s.Element.Length = of, mark, length
		return s
	}
	d.Segments = append([]segmental.Segment{part("G", 6, segmental.OnGround), part("C", 1, segmental.Closure)}, d.Segments...)
	on := []stages.Support{{X: 7 + 8, Fixed: true, Role: stages.Pad, Stiffness: 1e12}}
	steps = append(steps, segmental.Step{Name: "ground", Day: 30, Moves: []segmental.Move{{Do: segmental.Place, Segments: []string{"G"}, On: bearings(0.5, 5)}}},
		segmental.Step{Name: "closure", Day: 40, Moves: []segmental.Move{{Do: segmental.Pour, Segments: []string{"C"}}, {Do: segmental.Close, Segments: []string{"C"}}}})
	a := analysed(t, d, on, steps...)
	for _, rule := range []segmental.CastingRule{segmental.MatchCast, segmental.FormReset} {
		curve, err := segmental.Casting{Rule: rule, EveryMove: true}.Curve(d, a, on, steps...)
		require.NoError(t, err)
		own := movedBy(t, a, 3, 1)
		require.Len(t, own, 2)
		require.Equal(t, []string{"G"}, own[0].Pieces)
		placed := levelsAfter(t, curve, "ground: place G")
		require.InDelta(t, jointOf(t, curve, "G/C").Camber+own[0].At(6).Deflection, placed["G/C"], 1e-15)
		require.NotContains(t, levelsAfter(t, curve, "pair 2: attach R2, crane"), "G/C", "it does not stand yet")
		poured, closed := levelsAfter(t, curve, "closure: pour C"), levelsAfter(t, curve, "closure: close C")
		for name, z := range poured {
			require.InDelta(t, z, closed[name], 1e-6, name)
		}
		require.Equal(t, "on falsework", jointOf(t, curve, "G/C").Arm)
		require.Equal(t, "left arm of P", jointOf(t, curve, "C/L2").Arm)
		for _, name := range []string{"G, left end", "G/C", "C/L2"} {
			require.Empty(t, jointOf(t, curve, name).Cast, name)
		}
		require.Equal(t, "L2", jointOf(t, curve, "L2/L1").Cast)
	}
}
