package tendon_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
)

func passes(x, z, slope float64) tendon.Through {
	return tendon.Through{Point: tendon.Point{X: x, Ordinate: z}, Slope: slope}
}

// z = x³/1000 from 2 to 10 m: slope 3·x²/1000, second derivative 6·x/1000.
func TestCubicByHand(t *testing.T) {
	p := tendon.Cubic(passes(2, 0.008, 0.012), passes(10, 1, 0.3))
	require.InEpsilon(t, 0.006, p.CurvatureRate, 1e-12)
	for x := 2.0; x <= 10; x++ {
		require.InEpsilon(t, x*x*x/1000, p.At(x), 1e-12)
		require.InEpsilon(t, 3*x*x/1000, p.SlopeAt(x), 1e-12)
		require.InEpsilon(t, 6*x/1000, p.CurvatureAt(x), 1e-12)
	}
	// With the slopes of a parabola it is the parabola z = x²/100.
	q := tendon.Cubic(passes(0, 0, 0), passes(10, 1, 0.2))
	require.InDelta(t, 0, q.CurvatureRate, 1e-16)
	require.InEpsilon(t, 0.02, q.Curvature, 1e-12)
}

// An S from level to level, 0.3 m in 20 m, is steepest in its middle, 1.5·0.3/20: the
// angle goes there and back, whatever side of the inflection a place is on.
func TestAngleOfAnS(t *testing.T) {
	tn := straight(20, 0.2, 0)
	tn.Elevation = tendon.Curve{tendon.Cubic(passes(0, 0.5, 0), passes(20, 0.8, 0))}
	path, err := tn.Path()
	require.NoError(t, err)
	middle := math.Atan(1.5 * 0.3 / 20)
	require.InEpsilon(t, middle, path.Angle(10), 1e-12)
	require.InEpsilon(t, 2*middle, path.Angle(20), 1e-12)
	require.Less(t, path.Angle(9), path.Angle(11))
	require.InDeltaSlice(t, []float64{0, 10, 20}, path.Breaks(), 1e-12)
	f, err := tn.Jack(step("S", 1400e6, tendon.LeftEnd, 0))
	require.NoError(t, err)
	require.InEpsilon(t, 1400e6*tn.Area()*math.Exp(-0.4*middle), f.At(20), 1e-12)
	// Second derivative 6·0.3/20² at the ends.
	sharp, _ := path.Sharpest()
	require.InEpsilon(t, 6*0.3/400, sharp, 1e-9)
}

// A natural spline through three points L apart, the middle one h lower: its second
// derivative there is 3·h/L², its slope at the ends −1.5·h/L.
func TestSplineThroughThreePoints(t *testing.T) {
	const h, l = 0.9, 12.0
	c, err := tendon.Spline(tendon.Point{X: 1, Ordinate: 1.2}, tendon.Point{X: 1 + l, Ordinate: 1.2 - h}, tendon.Point{X: 1 + 2*l, Ordinate: 1.2})
	require.NoError(t, err)
	require.InEpsilon(t, 3*h/l/l, c[1].Curvature, 1e-12)
	require.InEpsilon(t, -1.5*h/l, c[0].Slope, 1e-12)
	require.InDelta(t, 0, c[1].SlopeAt(1+l), 1e-15)
	require.InDelta(t, 0, c[1].CurvatureAt(1+2*l), 1e-15)
	two, err := tendon.Spline(tendon.Point{Ordinate: 1}, tendon.Point{X: 10, Ordinate: 0.5})
	require.NoError(t, err)
	require.InEpsilon(t, 0.8, two[0].At(4), 1e-12, "two points are a straight")
	for words, points := range map[string][]tendon.Point{"must be at least 2": {{}}, "point 2 at x = 0 m: must be beyond": {{}, {}}, "must be finite values": {{}, {X: 10, Ordinate: math.NaN()}}} {
		_, err := tendon.Spline(points...)
		require.ErrorIs(t, err, tendon.ErrTendon)
		require.ErrorContains(t, err, words)
	}
}

// A spline in elevation and one in plan: angle and length are those of a polygon of
// twenty thousand chords.
func TestSplinesInSpace(t *testing.T) {
	tn := straight(34, 0.2, 0.005)
	var err error
	tn.Elevation, err = tendon.Spline(tendon.Point{Ordinate: 1.5}, tendon.Point{X: 8, Ordinate: 0.6}, tendon.Point{X: 17, Ordinate: 0.2}, tendon.Point{X: 27, Ordinate: 0.7}, tendon.Point{X: 34, Ordinate: 1.6})
	require.NoError(t, err)
	tn.Plan, err = tendon.Spline(tendon.Point{Ordinate: 0.3}, tendon.Point{X: 11, Ordinate: -0.2}, tendon.Point{X: 25, Ordinate: 0.4}, tendon.Point{X: 34, Ordinate: 0.1})
	require.NoError(t, err)
	path, err := tn.Path()
	require.NoError(t, err)
	const n = 20000
	at := func(i int) [3]float64 {
		x := 34 * float64(i) / n
		p := path.At(x)
		return [3]float64{x, p.Y, p.Z}
	}
	angle, length := 0.0, 0.0
	var before [3]float64
	for i := 1; i <= n; i++ {
		a, b := at(i-1), at(i)
		d := [3]float64{b[0] - a[0], b[1] - a[1], b[2] - a[2]}
		length += math.Sqrt(d[0]*d[0] + d[1]*d[1] + d[2]*d[2])
		if i > 1 {
			x, y, z := before[1]*d[2]-before[2]*d[1], before[2]*d[0]-before[0]*d[2], before[0]*d[1]-before[1]*d[0]
			angle += math.Atan2(math.Sqrt(x*x+y*y+z*z), before[0]*d[0]+before[1]*d[1]+before[2]*d[2])
		}
		before = d
	}
	require.InEpsilon(t, length, path.Length(34), 1e-7)
	require.InEpsilon(t, angle, path.Angle(34), 1e-4)
	leaning := tn
	leaning.Plan = tn.Elevation.Leaning(0.1, 1, 0.2)
	path, err = leaning.Path()
	require.NoError(t, err)
	for x := 0.0; x <= 34; x += 2 {
		p := path.At(x)
		require.InDelta(t, 0.1+0.2*(p.Z-1), p.Y, 1e-14)
	}
}

// A cubic that is steeper between its ends than at them is refused for it, and so is one
// that has a radius beside.
func TestCubicRefuses(t *testing.T) {
	tn := straight(4, 0.2, 0)
	tn.Elevation = tendon.Curve{tendon.Cubic(passes(0, 0, 0), passes(4, 6, 0))}
	_, err := tn.Path()
	require.ErrorContains(t, err, "has a slope of 2.25: must be up to 2")
	tn.Elevation = tendon.Curve{{From: 0, To: 4, Radius: 50, CurvatureRate: 1e-3}}
	_, err = tn.Path()
	require.ErrorContains(t, err, "no curvature beside it")
	tn.External, tn.Wobble = true, 0
	tn.Elevation = tendon.Curve{{From: 0, To: 4, CurvatureRate: 1e-3}}
	_, err = tn.Path()
	require.ErrorContains(t, err, "must be straight from deviator to deviator")
}
