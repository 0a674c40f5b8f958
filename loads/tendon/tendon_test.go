package tendon_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads/tendon"
)

var approval = tendon.Approval{Reference: "invented", MeanStrength: 28e6, AnchorSpacing: 0.35, EdgeDistance: 0.2}

// straight is a tendon with no intended angle.
func straight(length, friction, wobble float64) tendon.Tendon {
	return tendon.Tendon{
		Mark: "S", Strand: tendon.Y1860S7x157, Strands: 12, Duct: 0.09, Friction: friction, Wobble: wobble, NoFriction: friction == 0, NoWobble: wobble == 0, Approval: approval,
		Elevation: tendon.Level(0, length, 0.5), Plan: tendon.Level(0, length, 0),
	}
}

func draped() tendon.Tendon {
	t := straight(34, 0.19, 0.005)
	t.Mark = "D"
	t.Elevation = tendon.Drape(tendon.Point{X: 0, Ordinate: 1.6}, 3, tendon.Point{X: 13, Ordinate: 0.3}, 34)
	return t
}

func jack(t testing.TB, tn tendon.Tendon, ends tendon.Ends, drawIn float64) *tendon.Force {
	f, err := tn.Jack(tendon.Jacking{Tendons: []string{tn.Mark}, Stress: 1400e6, Ends: ends, DrawIn: drawIn})
	require.NoError(t, err)
	return f
}

func ExampleTendon_Jack() {
	t := tendon.Tendon{
		Mark: "W1", Strand: tendon.Y1860S7x157, Strands: 12, Duct: 0.09, Friction: 0.19, Wobble: 0.005,
		Approval:  tendon.Approval{Reference: "invented", MeanStrength: 28e6, AnchorSpacing: 0.35, EdgeDistance: 0.2},
		Elevation: tendon.Drape(tendon.Point{X: 0, Ordinate: 1.6}, 3, tendon.Point{X: 13, Ordinate: 0.3}, 34),
		Plan:      tendon.Level(0, 34, 0),
	}
	force, err := t.Jack(tendon.Jacking{Tendons: []string{"W1"}, Stress: 1400 * unit.Mega, Ends: tendon.BothEnds, DrawIn: 0.006})
	fmt.Printf("anchor %.0f kN, mid-span %.0f kN, %v\n", force.At(0)/1e3, force.At(17)/1e3, err)
	// Output: anchor 2281 kN, mid-span 2390 kN, <nil>
}

func ExampleTendon_Path() {
	t := tendon.Tendon{
		Mark: "W1", Strand: tendon.Y1860S7x157, Strands: 12, Duct: 0.09, Friction: 0.19, Wobble: 0.005,
		Approval:  tendon.Approval{Reference: "invented", MeanStrength: 28e6, AnchorSpacing: 0.35, EdgeDistance: 0.2},
		Elevation: tendon.Drape(tendon.Point{X: 0, Ordinate: 1.6}, 3, tendon.Point{X: 13, Ordinate: 0.3}, 34),
		Plan:      tendon.Level(0, 34, 0),
	}
	path, _ := t.Path()
	fmt.Printf("z = %.3f m, θ = %.4f rad, s = %.3f m\n", path.At(8).Z, path.Angle(8), path.Length(8))
	// Output: z = 0.503 m, θ = 0.0800 rad, s = 8.078 m
}

func TestDrapeIsSmoothAndSymmetric(t *testing.T) {
	path, err := draped().Path()
	require.NoError(t, err)
	require.InDelta(t, 0.3, path.At(17).Z, 1e-12)
	require.InDelta(t, 1.6, path.At(34).Z, 1e-12)
	for x := range 18 {
		require.InDelta(t, path.At(float64(x)).Z, path.At(34-float64(x)).Z, 1e-12)
	}
	slope := 1.3 / (3 + 5)
	require.InDelta(t, 2*math.Atan(slope), path.Angle(34), 1e-12)
	along, _, up := path.Direction(1)
	require.InDelta(t, -math.Sin(math.Atan(slope)), up, 1e-12)
	require.InDelta(t, math.Cos(math.Atan(slope)), along, 1e-12)
	// Length of a parabola of slope m over its base b: closed form.
	m := slope
	arc := 10 / 2.0 * (math.Sqrt(1+m*m) + math.Asinh(m)/m)
	require.InDelta(t, 2*(3*math.Sqrt(1+m*m)+arc)+8, path.Length(34), 1e-11)
}

func TestSpaceAngleOfALeaningTendonIsThatOfItsPlane(t *testing.T) {
	lean := 0.2
	tn := draped()
	tn.Plan = tn.Elevation.Leaning(2.3, 1.6, lean)
	path, err := tn.Path()
	require.NoError(t, err)
	require.InDelta(t, 2*math.Atan(1.3/8*math.Hypot(1, lean)), path.Angle(34), 1e-12)
	require.InDelta(t, 2.3-1.3*lean, path.At(17).Y, 1e-12)
	require.Equal(t, []float64{0, 3, 13, 21, 31, 34}, path.Breaks())
}

func TestFrictionFallsFromTheJack(t *testing.T) {
	f := jack(t, straight(40, 0.2, 0.01), tendon.LeftEnd, 0)
	require.InDelta(t, 1400e6*1800e-6*math.Exp(-0.2*0.01*40), f.At(40), 1e-3)
	r := jack(t, straight(40, 0.2, 0.01), tendon.RightEnd, 0)
	both := jack(t, straight(40, 0.2, 0.01), tendon.BothEnds, 0)
	for x := 0.0; x <= 40; x += 2.5 {
		require.InDelta(t, f.At(x), r.At(40-x), 1e-3, "mirror")
		require.InDelta(t, math.Max(f.At(x), r.At(x)), both.At(x), 1e-3, "both ends")
	}
	require.Zero(t, f.At(-1))
	require.Zero(t, f.At(41))
}

// lost is ∫(P before − P after) ds / (Ep Ap): the slip that the change of force
// gives, by fine trapezia independent of the code under test.
func lost(before, after *tendon.Force, from, to float64) float64 {
	const n = 20000
	sum := 0.0
	for i := range n {
		x := from + (to-from)*(float64(i)+0.5)/n
		sum += (before.At(x) - after.At(x)) * (before.Path.Length(x+1e-4) - before.Path.Length(x-1e-4)) / 2e-4
	}
	return sum * (to - from) / n / (195e9 * 1800e-6)
}

func TestDrawInIsTheSlipOfTheWedges(t *testing.T) {
	for name, c := range map[string]struct {
		tn     tendon.Tendon
		ends   tendon.Ends
		drawIn float64
		slips  float64 // how many anchors slip
	}{
		"left, within":        {draped(), tendon.LeftEnd, 0.006, 1},
		"right, within":       {draped(), tendon.RightEnd, 0.006, 1},
		"both, apart":         {draped(), tendon.BothEnds, 0.004, 2},
		"both, meet":          {draped(), tendon.BothEnds, 0.015, 2},
		"left, whole tendon":  {straight(10, 0.2, 0.005), tendon.LeftEnd, 0.006, 1},
		"right, whole tendon": {straight(10, 0.2, 0.005), tendon.RightEnd, 0.006, 1},
		"both, short":         {straight(10, 0.2, 0.005), tendon.BothEnds, 0.006, 2},
		"no friction":         {straight(30, 0, 0), tendon.LeftEnd, 0.006, 1},
		"both, no friction":   {straight(30, 0, 0), tendon.BothEnds, 0.006, 2},
	} {
		t.Run(name, func(t *testing.T) {
			before, after := jack(t, c.tn, c.ends, 0), jack(t, c.tn, c.ends, c.drawIn)
			end := after.Path.To()
			require.InDelta(t, c.slips*c.drawIn, lost(before, after, 0, end), 1e-7)
			for x := 0.0; x < end; x += end / 97 {
				require.LessOrEqual(t, after.At(x), before.At(x)*(1+1e-12))
			}
			for _, x := range after.Breaks()[1 : len(after.Breaks())-1] {
				require.InEpsilon(t, after.At(x-1e-9), after.At(x+1e-9), 1e-7, "no jump at x = %g", x)
			}
			for _, x := range []float64{0, end / 7, end / 2, end * 0.9, end} {
				lines, err := after.Derivation(x, "_1")
				require.NoError(t, err)
				last := lines[len(lines)-1]
				require.InEpsilon(t, after.At(x), last.Result.Value, 1e-9, "derivation at x = %g", x)
			}
			stress, at := after.Largest()
			require.InEpsilon(t, after.At(at)/1800e-6, stress, 1e-9)
			for x := 0.0; x <= end; x += end / 50 {
				require.LessOrEqual(t, after.At(x)/1800e-6, stress*(1+1e-12))
			}
		})
	}
}

func TestDrawInLongerThanTheTendonIsUniformWithoutFriction(t *testing.T) {
	f := jack(t, straight(10, 0, 0), tendon.LeftEnd, 0.006)
	require.InDelta(t, (1400e6-195e9*0.006/10)*1800e-6, f.At(0), 1e-3)
	require.InDelta(t, f.At(0), f.At(10), 1e-3)
	left, right := f.DrawInReach()
	require.Equal(t, 10.0, left)
	require.Zero(t, right)
	left, right = jack(t, draped(), tendon.BothEnds, 0.004).DrawInReach()
	require.InDelta(t, left, right, 1e-9)
	require.Positive(t, left)
}

func TestSlipThatStopsAtAKink(t *testing.T) {
	tn := straight(30, 0.3, 0)
	tn.Harped = true
	tn.Elevation = tendon.Curve{
		tendon.Straight(tendon.Point{X: 0, Ordinate: 1.5}, tendon.Point{X: 10, Ordinate: 0.3}),
		tendon.Straight(tendon.Point{X: 10, Ordinate: 0.3}, tendon.Point{X: 20, Ordinate: 0.3}),
		tendon.Straight(tendon.Point{X: 20, Ordinate: 0.3}, tendon.Point{X: 30, Ordinate: 1.5}),
	}
	before, after := jack(t, tn, tendon.LeftEnd, 0), jack(t, tn, tendon.LeftEnd, 0.002)
	require.InDelta(t, 0.002, lost(before, after, 0, 10), 1e-6, "without wobble the force falls evenly up to the kink")
	require.InDelta(t, before.At(15), after.At(15), 1e-6)
	lines, err := after.Derivation(5, "")
	require.NoError(t, err)
	require.InEpsilon(t, after.At(5), lines[len(lines)-1].Result.Value, 1e-9)
}
