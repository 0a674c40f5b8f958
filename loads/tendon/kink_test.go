package tendon_test

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
)

// harped is a tendon of 12 strands through corners with kinks.
func harped(friction, wobble float64, points ...tendon.Point) tendon.Tendon {
	t := straight(points[len(points)-1].X, friction, wobble)
	t.Harped, t.Elevation = true, nil
	for i := 1; i < len(points); i++ {
		t.Elevation = append(t.Elevation, tendon.Straight(points[i-1], points[i]))
	}
	return t
}

// largestIsThere compares Largest with the force on both sides of every break
// and with what At and Derivation give at its place.
func largestIsThere(t *testing.T, f *tendon.Force) {
	area := f.Tendon.Area()
	want := 0.0
	for _, x := range f.Breaks() {
		for _, near := range []float64{x - 1e-9, x, x + 1e-9} {
			want = math.Max(want, f.At(near)/area)
		}
	}
	stress, at := f.Largest()
	require.InEpsilon(t, want, stress, 1e-9, "the force changes by less over 1e-9 m")
	require.Equal(t, f.At(at)/area, stress)
	lines, err := f.Derivation(at, "")
	require.NoError(t, err)
	require.InEpsilon(t, stress, lines[len(lines)-1].Result.Value/area, 1e-9)
}

func TestLargestBesideADeviator(t *testing.T) {
	tn := harped(0.25, 0.003, tendon.Point{Ordinate: 1}, tendon.Point{X: 3, Ordinate: .5}, tendon.Point{X: 17, Ordinate: .5}, tendon.Point{X: 20, Ordinate: 1})
	f := jack(t, tn, tendon.LeftEnd, 0.004)
	stress, at := f.Largest()
	require.InDelta(t, 1316.9e6, stress, 0.05e6)
	require.Less(t, at, 17.0)
	require.InDelta(t, 17, at, 1e-12)
	largestIsThere(t, f)
}

func TestLargestOfRandomHarpedTendons(t *testing.T) {
	random := rand.New(rand.NewSource(11))
	for range 1500 {
		points := []tendon.Point{{Ordinate: random.Float64()}}
		for n := 1 + random.Intn(4); n > 0; n-- {
			last := points[len(points)-1]
			points = append(points, tendon.Point{X: last.X + 2 + 12*random.Float64(), Ordinate: 2 * random.Float64()})
		}
		tn := harped(0.05+0.3*random.Float64(), 0.01*random.Float64(), points...)
		end := tendon.Ends(1 + random.Intn(3))
		f, err := tn.Jack(step(tn.Mark, 1400e6, end, 0.01*random.Float64()*random.Float64()))
		if err != nil {
			require.ErrorContains(t, err, "takes the whole force")
			continue
		}
		largestIsThere(t, f)
		again, err := f.Restress(step(tn.Mark, 1450e6, tendon.Ends(1+random.Intn(3)), 0.006*random.Float64()))
		if err != nil {
			require.ErrorIs(t, err, tendon.ErrTendon)
			continue
		}
		largestIsThere(t, again)
		for _, x := range f.Breaks() {
			for _, near := range []float64{x - 1e-7, x + 1e-7} {
				require.GreaterOrEqual(t, again.AtJack(near), f.At(near)*(1-1e-12), "a pull never takes force away, x = %g", near)
			}
		}
	}
}

// A second, higher pull goes past the kink at which the first draw-in stopped.
func TestRestressPassesAKink(t *testing.T) {
	tn := harped(0.25, 0.003, tendon.Point{Ordinate: 1}, tendon.Point{X: 3, Ordinate: .5}, tendon.Point{X: 17, Ordinate: .5}, tendon.Point{X: 20, Ordinate: 1})
	first := jack(t, tn, tendon.LeftEnd, 0.004)
	again, err := first.Restress(step(tn.Mark, 1420e6, tendon.LeftEnd, 0))
	require.NoError(t, err)
	pull, err := tn.Jack(step(tn.Mark, 1420e6, tendon.LeftEnd, 0))
	require.NoError(t, err)
	for x := 0.5; x < 20; x++ {
		require.InEpsilon(t, pull.At(x), again.At(x), 1e-12, "x = %g", x)
	}
}

func TestForceAtAKinkIsThatRightOfIt(t *testing.T) {
	random := rand.New(rand.NewSource(12))
	for range 2000 {
		length := 10 + 40*random.Float64()
		kink := length * (0.3 + 0.4*random.Float64())
		if random.Intn(2) == 0 {
			kink = length / 2
		}
		tn := harped(0.05+0.3*random.Float64(), 0.005*random.Float64(), tendon.Point{Ordinate: 1.5},
			tendon.Point{X: kink, Ordinate: random.Float64()}, tendon.Point{X: length, Ordinate: 1.5})
		f, err := tn.Jack(step(tn.Mark, 1400e6, tendon.BothEnds, 0.004*float64(random.Intn(2))*random.Float64()))
		require.NoError(t, err)
		require.InEpsilon(t, f.At(kink+1e-9), f.At(kink), 1e-9)
		require.InEpsilon(t, f.AtJack(kink+1e-9), f.AtJack(kink), 1e-9)
		largestIsThere(t, f)
	}
}
