package tendon_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
)

// continuous is a tendon over two spans: long enough for its dead end to be poor.
func continuous() tendon.Tendon {
	t := straight(72, 0.19, 0.005)
	t.Mark = "C"
	t.Elevation, _ = tendon.Smooth(
		tendon.Through{Point: tendon.Point{Ordinate: 1.3}, Slope: -0.12}, tendon.Through{Point: tendon.Point{X: 15, Ordinate: 0.25}},
		tendon.Through{Point: tendon.Point{X: 36, Ordinate: 1.9}}, tendon.Through{Point: tendon.Point{X: 57, Ordinate: 0.25}},
		tendon.Through{Point: tendon.Point{X: 72, Ordinate: 1.3}, Slope: 0.12})
	return t
}

func step(mark string, stress float64, ends tendon.Ends, drawIn float64) tendon.Jacking {
	return tendon.Jacking{Tendons: []string{mark}, Stress: stress, Ends: ends, DrawIn: drawIn}
}

// The far end is taken up with a second jack the day after.
func ExampleForce_Restress() {
	first, err := continuous().Jack(step("C", 1400e6, tendon.LeftEnd, 0.006))
	if err != nil {
		fmt.Println(err)
		return
	}
	second, err := first.Restress(step("C", 1400e6, tendon.RightEnd, 0.006))
	fmt.Printf("right anchor %.0f kN, then %.0f kN; left anchor stays %.0f kN, %v\n",
		first.At(72)/1e3, second.At(72)/1e3, second.At(0)/1e3, err)
	// Output: right anchor 1997 kN, then 2303 kN; left anchor stays 2303 kN, <nil>
}

func ExampleForce_Elongation() {
	f, err := continuous().Jack(step("C", 1400e6, tendon.BothEnds, 0.006))
	if err != nil {
		fmt.Println(err)
		return
	}
	e, err := f.Elongation(tendon.Measuring{From: 200e6, Tail: 0.8, Tolerance: tendon.ToleranceOfMean})
	fmt.Printf("left %.0f mm, right %.0f mm, permissible in all %.0f to %.0f mm, %v\n", e.Left*1e3, e.Right*1e3, e.Least*1e3, e.Most*1e3, err)
	// Output: left 216 mm, right 216 mm, permissible in all 411 to 454 mm, <nil>
}

func TestRestressOfTheOtherEndIsBothEnds(t *testing.T) {
	one, err := continuous().Jack(step("C", 1400e6, tendon.LeftEnd, 0))
	require.NoError(t, err)
	then, err := one.Restress(step("C", 1400e6, tendon.RightEnd, 0))
	require.NoError(t, err)
	both, err := continuous().Jack(step("C", 1400e6, tendon.BothEnds, 0))
	require.NoError(t, err)
	for x := 0.0; x <= 72; x += 1.5 {
		require.InEpsilon(t, both.At(x), then.At(x), 1e-12, "x = %g", x)
	}
	e, err := then.Elongation(tendon.Measuring{Tolerance: 0.05})
	require.NoError(t, err)
	require.Zero(t, e.Left)
	require.InDelta(t, lost(then, one, 0, 72), e.Right, 1e-9, "only what moves in this step")
}

func TestRestressTakesTheLargerPull(t *testing.T) {
	for _, end := range []tendon.Ends{tendon.LeftEnd, tendon.RightEnd, tendon.BothEnds} {
		before, err := continuous().Jack(step("C", 1250e6, tendon.LeftEnd, 0.008))
		require.NoError(t, err)
		pull, err := continuous().Jack(step("C", 1390e6, end, 0))
		require.NoError(t, err)
		after, err := before.Restress(step("C", 1390e6, end, 0.005))
		require.NoError(t, err)
		for x := 0.0; x <= 72; x += 0.75 {
			require.InEpsilon(t, math.Max(before.At(x), pull.At(x)), after.AtJack(x), 1e-12, "x = %g", x)
			require.LessOrEqual(t, after.At(x), after.AtJack(x)*(1+1e-12))
			lines, err := after.Derivation(x, "")
			require.NoError(t, err)
			require.InEpsilon(t, after.At(x), lines[len(lines)-1].Result.Value, 1e-9, "x = %g", x)
		}
		held, err := before.Restress(step("C", 1390e6, end, 0))
		require.NoError(t, err)
		slips := 1.0
		if end == tendon.BothEnds {
			slips = 2
		}
		require.InDelta(t, slips*0.005, lost(held, after, 0, 72), 1e-7)
	}
}

func TestDetensionLetsDownTheAnchor(t *testing.T) {
	for _, end := range []tendon.Ends{tendon.LeftEnd, tendon.RightEnd, tendon.BothEnds} {
		before, err := continuous().Jack(step("C", 1400e6, tendon.LeftEnd, 0.006))
		require.NoError(t, err)
		after, err := before.Detension(step("C", 700e6, end, 0))
		require.NoError(t, err)
		if end != tendon.RightEnd {
			require.InEpsilon(t, 700e6*1800e-6, after.At(0), 1e-12)
		}
		if end != tendon.LeftEnd {
			require.InEpsilon(t, 700e6*1800e-6, after.At(72), 1e-12)
		}
		for x := 0.0; x <= 72; x += 0.75 {
			require.LessOrEqual(t, after.At(x), before.At(x)*(1+1e-12))
		}
		_, err = after.Elongation(tendon.Measuring{Tolerance: 0.05})
		require.ErrorContains(t, err, "after a Detension")
		again, err := after.Restress(step("C", 1400e6, end, 0))
		require.NoError(t, err)
		require.Greater(t, again.At(36), after.At(36)-1)
	}
}

func TestEventsRefuse(t *testing.T) {
	f, err := continuous().Jack(step("C", 1400e6, tendon.LeftEnd, 0.006))
	require.NoError(t, err)
	_, err = f.Restress(step("C", 1000e6, tendon.LeftEnd, 0))
	require.ErrorContains(t, err, "is below the lift-off force: must be above")
	_, err = f.Detension(step("C", 1390e6, tendon.LeftEnd, 0))
	require.ErrorContains(t, err, "does not let the anchor down: must be below")
	_, err = f.Restress(step("C", -1, tendon.LeftEnd, 0))
	require.ErrorIs(t, err, tendon.ErrTendon)
	_, err = f.Detension(step("C", 1000e6, 0, 0))
	require.ErrorIs(t, err, tendon.ErrTendon)
	for words, m := range map[string]tendon.Measuring{
		"From = 1.5e+09 Pa": {From: 1500e6, Tolerance: 0.05}, "Tail = -1 m": {Tail: -1, Tolerance: 0.05}, "Tolerance = 0": {}, "Tolerance = NaN": {Tolerance: math.NaN()},
	} {
		_, err := f.Elongation(m)
		require.ErrorIs(t, err, tendon.ErrTendon)
		require.ErrorContains(t, err, words)
	}
}

func TestElongationOfAStraightTendon(t *testing.T) {
	const c = 0.2 * 0.01
	f, err := straight(40, 0.2, 0.01).Jack(step("S", 1400e6, tendon.LeftEnd, 0.006))
	require.NoError(t, err)
	e, err := f.Elongation(tendon.Measuring{Tolerance: 0.15})
	require.NoError(t, err)
	want := 1400e6 / 195e9 * -math.Expm1(-c*40) / c
	require.InEpsilon(t, want, e.Left, 1e-12)
	require.Zero(t, e.Right)
	require.InEpsilon(t, 0.85*want, e.Least, 1e-12)
	require.InDelta(t, want-0.006, e.Kept, 1e-12)
	e, err = f.Elongation(tendon.Measuring{From: 140e6, Tail: 0.5, Tolerance: 0.15})
	require.NoError(t, err)
	require.InEpsilon(t, 0.9*(want+0.5*1400/195e3), e.Total, 1e-12)
	free, err := straight(40, 0, 0).Jack(step("S", 1400e6, tendon.BothEnds, 0))
	require.NoError(t, err)
	e, err = free.Elongation(tendon.Measuring{Tolerance: 0.05})
	require.NoError(t, err)
	require.InEpsilon(t, e.Left, e.Right, 1e-12, "without friction the middle stays")
}

func FuzzEvents(f *testing.F) {
	f.Add(1300e6, 1400e6, 600e6, 0.006, 0.006, 0.004, 1, 2, 3, 0.19, 0.005)
	f.Add(1300e6, 1400e6, 10e6, 0.0, 0.05, 0.09, 3, 1, 2, 0.0, 0.0)
	f.Fuzz(func(t *testing.T, a, b, c, slipA, slipB, slipC float64, endA, endB, endC int, friction, wobble float64) {
		tn := continuous()
		tn.Friction, tn.Wobble = friction, wobble
		first, err := tn.Jack(step("C", a, tendon.Ends(endA), slipA))
		if err != nil {
			require.ErrorIs(t, err, tendon.ErrTendon)
			return
		}
		second, err := first.Restress(step("C", b, tendon.Ends(endB), slipB))
		if err != nil {
			require.ErrorIs(t, err, tendon.ErrTendon)
			second = first
		}
		third, err := second.Detension(step("C", c, tendon.Ends(endC), slipC))
		if err != nil {
			require.ErrorIs(t, err, tendon.ErrTendon)
			third = second
		}
		most := math.Max(math.Max(a, b), c) * 1800e-6 * (1 + 1e-9)
		for _, force := range []*tendon.Force{first, second, third} {
			for _, x := range force.Breaks() {
				require.False(t, !(force.At(x) >= 0 && force.At(x) <= most), "%g at %g", force.At(x), x)
			}
		}
	})
}

// What is read of a second pull: the tail from Measuring.From on, the tendon
// from where the wedges lift off.
func TestElongationOfASecondPull(t *testing.T) {
	tn := straight(40, 0.19, 0.005)
	tn.Elevation = tendon.Drape(tendon.Point{Ordinate: 1.6}, 8, tendon.Point{X: 20, Ordinate: 0.3}, 40)
	first, err := tn.Jack(step(tn.Mark, 1000e6, tendon.LeftEnd, 0.006))
	require.NoError(t, err)
	again, err := first.Restress(step(tn.Mark, 1400e6, tendon.LeftEnd, 0.006))
	require.NoError(t, err)
	anchor := first.At(0) / tn.Area()
	held, err := first.Restress(step(tn.Mark, 1400e6, tendon.LeftEnd, 0))
	require.NoError(t, err)
	whole := lost(held, first, 0, 40)
	require.Greater(t, anchor, 800e6)
	for _, from := range []float64{0, 200e6, 800e6, anchor, 1100e6, 1399e6} {
		e, err := again.Elongation(tendon.Measuring{From: from, Tail: 0.8, Tolerance: 0.05})
		require.NoError(t, err)
		between := whole * math.Min(1, (1400e6-from)/(1400e6-anchor))
		require.InDelta(t, between+0.8*(1400e6-from)/195e9, e.Total, 1e-7, "lost is a sum over slices")
		require.InDelta(t, between-0.006, e.Kept, 1e-7, "the tail springs back")
	}
}
