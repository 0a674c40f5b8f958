package tendon_test

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
)

func pathOf(t testing.TB, elevation, plan tendon.Curve, harped bool) *tendon.Path {
	t.Helper()
	tn := straight(elevation.To()-elevation.From(), 0.2, 0.005)
	tn.Elevation, tn.Plan, tn.Harped = elevation, plan, harped
	path, err := tn.Path()
	require.NoError(t, err)
	return path
}

// polyline is length and angle of fine chords, independent of the code under test.
func polyline(p *tendon.Path, from, to float64, n int) (length, angle float64) {
	var before [3]float64
	last := [3]float64{from, p.At(from).Y, p.At(from).Z}
	for i := 1; i <= n; i++ {
		x := from + (to-from)*float64(i)/float64(n)
		now := [3]float64{x, p.At(x).Y, p.At(x).Z}
		chord := [3]float64{now[0] - last[0], now[1] - last[1], now[2] - last[2]}
		size := math.Sqrt(chord[0]*chord[0] + chord[1]*chord[1] + chord[2]*chord[2])
		length += size
		if i > 1 {
			cross := math.Hypot(math.Hypot(before[1]*chord[2]-before[2]*chord[1], before[2]*chord[0]-before[0]*chord[2]), before[0]*chord[1]-before[1]*chord[0])
			angle += math.Atan2(cross, before[0]*chord[0]+before[1]*chord[1]+before[2]*chord[2])
		}
		before, last = chord, now
	}
	return length, angle
}

func TestArcIsACircle(t *testing.T) {
	const radius, slope = 12.0, -0.4
	start := tendon.Point{X: 1, Ordinate: 2}
	a := math.Atan(slope)
	to := 1 + radius*(math.Sin(0.3)-math.Sin(a))
	path := pathOf(t, tendon.Curve{tendon.Arc(start, slope, radius, to)}, tendon.Level(1, to, 0), false)
	require.InDelta(t, 0.3-a, path.Angle(to), 1e-13)
	require.InDelta(t, radius*(0.3-a), path.Length(to), 1e-12)
	require.InDelta(t, 2+radius*(math.Cos(a)-math.Cos(0.3)), path.At(to).Z, 1e-13)
	for x := 1.0; x < to; x += 0.37 {
		require.InDelta(t, 1/radius, path.Curvature(x), 1e-13)
		centre := tendon.Point{X: 1 - radius*math.Sin(a), Ordinate: 2 + radius*math.Cos(a)}
		require.InDelta(t, radius, math.Hypot(x-centre.X, path.At(x).Z-centre.Ordinate), 1e-12)
	}
}

func TestLeaningArcKeepsItsPlane(t *testing.T) {
	elevation := tendon.Curve{tendon.Arc(tendon.Point{Ordinate: 1.5}, -0.25, 40, 20)}
	path := pathOf(t, elevation, elevation.Leaning(2, 1.5, 0.3), false)
	for x := 0.0; x <= 20; x += 2.5 {
		require.InDelta(t, 2+0.3*(path.At(x).Z-1.5), path.At(x).Y, 1e-13)
	}
	length, angle := polyline(path, 0, 20, 4000)
	require.InEpsilon(t, length, path.Length(20), 1e-7)
	require.InEpsilon(t, angle, path.Angle(20), 1e-3, "the chords lose half a turn at each end")
}

func TestLengthAndAngleInSpace(t *testing.T) {
	random := rand.New(rand.NewSource(11))
	for range 60 {
		slope := func() float64 { return 1.2 * (random.Float64() - 0.5) }
		from, to := tendon.Point{Ordinate: 1}, tendon.Point{X: 10 + 20*random.Float64()}
		to.Ordinate = 1 + to.X*slope()/2
		elevation := tendon.Curve{tendon.Parabola(from, slope(), to)}
		plan := tendon.Curve{tendon.Parabola(tendon.Point{}, slope(), tendon.Point{X: to.X, Ordinate: to.X * slope() / 4})}
		if random.Intn(2) == 0 {
			plan = tendon.Curve{tendon.Arc(tendon.Point{}, slope()/3, math.Copysign(60, random.Float64()-0.5), to.X)}
		}
		path := pathOf(t, elevation, plan, false)
		length, angle := polyline(path, 0, to.X, 3000)
		require.InEpsilon(t, length, path.Length(to.X), 1e-6)
		require.InDelta(t, angle, path.Angle(to.X), 2e-3)
		require.InDelta(t, path.Length(to.X/2), path.Length(to.X/2+1e-9), 1e-8)
	}
}

// The two ways to take the length of a parabola agree where one hands over to
// the other, at a change of slope of 0.1.
func TestLengthAtTheChangeOfMethod(t *testing.T) {
	for _, change := range []float64{1e-9, 0.01, 0.0999, 0.1001, 0.5, 1.9} {
		end := tendon.Point{X: 20, Ordinate: 10 * change}
		path := pathOf(t, tendon.Curve{tendon.Parabola(tendon.Point{}, 0, end)}, tendon.Level(0, 20, 0), false)
		want := 20.0
		if change > 1e-6 {
			want = 10 * (math.Sqrt(1+change*change) + math.Asinh(change)/change)
		}
		require.InEpsilon(t, want, path.Length(20), 1e-13, "change %g", change)
	}
}

func TestTangents(t *testing.T) {
	corner := func(x, z, radius, reach float64) tendon.Corner {
		return tendon.Corner{Point: tendon.Point{X: x, Ordinate: z}, Radius: radius, Reach: reach}
	}
	curve, err := tendon.Tangents(corner(0, 1.6, 0, 0), corner(11, 0.3, 15, 0), corner(23, 0.3, 0, 2), corner(34, 1.6, 0, 0))
	require.NoError(t, err)
	require.Len(t, curve, 5)
	path := pathOf(t, curve, tendon.Level(0, 34, 0), false)
	turn := math.Atan(1.3 / 11)
	require.InDelta(t, 2*turn, path.Angle(34), 1e-12)
	require.InDelta(t, 0.3, path.At(17).Z, 1e-12)
	sharp, _ := path.Sharpest()
	require.InDelta(t, 1./15, sharp, 1e-12)

	kinked, err := tendon.Tangents(corner(0, 1.6, 0, 0), corner(17, 0.3, 0, 0), corner(34, 1.6, 0, 0))
	require.NoError(t, err)
	require.InDelta(t, 2*math.Atan(1.3/17), pathOf(t, kinked, tendon.Level(0, 34, 0), true).Angle(34), 1e-12)
	for words, corners := range map[string][]tendon.Corner{
		"at least 2":                     {corner(0, 0, 0, 0)},
		"corner 2 at x = 0 m":            {corner(0, 0, 0, 0), corner(0, 1, 0, 0)},
		"rounding of corner 3 overlaps":  {corner(0, 1, 0, 0), corner(5, 0, 0, 3), corner(9, 1, 0, 3), corner(15, 0, 0, 0)},
		"must be one of them":            {corner(0, 0, 0, 0), corner(5, 0, 3, 3), corner(9, 0, 0, 0)},
		"has NaN":                        {corner(0, 0, 0, 0), corner(5, math.NaN(), 0, 0)},
		"smaller Radius or Reach":        {corner(0, 0, 0, 0), corner(5, 0.5, 0, 6), corner(30, 0, 0, 0)},
		"the one before it or the ancho": {corner(0, 0, 0, 0), corner(25, 0.5, 0, 6), corner(30, 0, 0, 0)},
	} {
		_, err := tendon.Tangents(corners...)
		require.ErrorIs(t, err, tendon.ErrTendon, words)
		require.ErrorContains(t, err, words)
	}
}

func TestSmooth(t *testing.T) {
	through := func(x, z, slope float64) tendon.Through {
		return tendon.Through{Point: tendon.Point{X: x, Ordinate: z}, Slope: slope}
	}
	curve, err := tendon.Smooth(through(0, 1.4, -0.2), through(14, 0.3, 0), through(36, 1.7, 0), through(60, 0.9, -0.05))
	require.NoError(t, err)
	path := pathOf(t, curve, tendon.Level(0, 60, 0), false)
	for _, p := range []tendon.Through{through(14, 0.3, 0), through(36, 1.7, 0)} {
		require.InDelta(t, p.Ordinate, path.At(p.X).Z, 1e-12)
		along, _, up := path.Direction(p.X)
		require.InDelta(t, p.Slope, up/along, 1e-12)
	}
	one, err := tendon.Smooth(through(0, 2, -0.2), through(10, 1, 0))
	require.NoError(t, err)
	require.InDelta(t, one[0].Curvature, one[1].Curvature, 1e-15, "a single parabola stays one")
	_, err = tendon.Smooth(through(0, 0, 0), through(0, 1, 0))
	require.ErrorContains(t, err, "must be beyond")
	_, err = tendon.Smooth(through(0, 0, 0))
	require.ErrorContains(t, err, "at least 2")
	_, err = tendon.Smooth(through(0, 0, 0), through(1, math.Inf(1), 0))
	require.ErrorIs(t, err, tendon.ErrTendon)
}

func TestArcRefuses(t *testing.T) {
	for words, piece := range map[string]tendon.Piece{
		"must be a radius":        {To: 10, Radius: 0.01},
		"no curvature beside it":  {To: 10, Radius: 20, Curvature: 0.1},
		"does not reach To = 10":  {To: 10, Radius: 9},
		"must be finite values":   {To: 10, Radius: math.NaN()},
		"slope of 2.294: must be": {To: 10, Radius: 10.908},
	} {
		tn := straight(10, 0.2, 0.005)
		tn.Elevation = tendon.Curve{piece}
		_, err := tn.Path()
		require.ErrorIs(t, err, tendon.ErrTendon, words)
		if words[:5] != "slope" {
			require.ErrorContains(t, err, words)
		} else {
			require.ErrorContains(t, err, "has a slope of")
		}
	}
}
