package tendon_test

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
)

// external is a tendon in the void of a box over two deviators, the left one
// bending it in plan as well.
func external(friction float64) tendon.Tendon {
	t := straight(36, friction, 0)
	t.Mark, t.External, t.Duct = "X", true, 0
	p := func(x, z float64) tendon.Point { return tendon.Point{X: x, Ordinate: z} }
	t.Elevation = tendon.Curve{tendon.Straight(p(0, 1.6), p(10, 0.4)), tendon.Straight(p(10, 0.4), p(26, 0.4)), tendon.Straight(p(26, 0.4), p(36, 1.8))}
	t.Plan = tendon.Curve{tendon.Straight(p(0, 1.2), p(10, 0.9)), tendon.Straight(p(10, 0.9), p(36, 0.9))}
	return t
}

// What each deviator must hold down when an external tendon is stressed.
func ExampleForce_Deviations() {
	f, err := external(0.12).Jack(step("X", 1300e6, tendon.LeftEnd, 0))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, d := range f.Deviations() {
		fmt.Printf("x = %.0f m: %.0f kN up, %.0f kN sideways, %.0f kN along\n", d.At, d.Z/1e3, d.Y/1e3, d.X/1e3)
	}
	for _, a := range f.Anchors() {
		fmt.Printf("anchor at %.0f m: %.0f kN up, %.0f kN along\n", a.At, a.Z/1e3, a.X/1e3)
	}
	// Output:
	// x = 10 m: 279 kN up, 70 kN sideways, -17 kN along
	// x = 26 m: 314 kN up, 0 kN sideways, -60 kN along
	// anchor at 0 m: -279 kN up, 2322 kN along
	// anchor at 36 m: -314 kN up, -2246 kN along
}

// All that an external tendon does to the concrete is in its anchors and
// deviators: they balance in force and in moment, it presses nowhere else.
func TestAnchorsAndDeviatorsBalance(t *testing.T) {
	for _, friction := range []float64{0, 0.12, 0.3} {
		for _, drawIn := range []float64{0, 0.004} {
			f, err := external(friction).Jack(step("X", 1300e6, tendon.LeftEnd, drawIn))
			require.NoError(t, err)
			var sum [6]float64
			take := func(at, x, y, z float64) {
				p := f.Path.At(at)
				for i, v := range [6]float64{x, y, z, p.Y*z - p.Z*y, p.Z*x - at*z, at*y - p.Y*x} {
					sum[i] += v
				}
			}
			for _, a := range f.Anchors() {
				take(a.At, a.X, a.Y, a.Z)
				require.InEpsilon(t, a.Force, math.Sqrt(a.X*a.X+a.Y*a.Y+a.Z*a.Z), 1e-12)
			}
			require.Positive(t, f.Anchors()[0].X, "an anchor presses into the element")
			for _, d := range f.Deviations() {
				take(d.At, d.X, d.Y, d.Z)
				require.LessOrEqual(t, math.Abs(math.Log(d.After/d.Before)), friction*d.Angle+1e-9)
			}
			for i, v := range sum {
				require.InDelta(t, 0, v, 0.1, "component %d of 2 MN", i)
			}
			for _, x := range []float64{0, 5, 10, 18, 36} {
				perMetre, _ := f.Radial(x)
				require.Zero(t, perMetre)
			}
		}
	}
}

// While the jack holds, the first deviator gets more than after the draw-in.
func TestDeviatorsWhileTheJackHolds(t *testing.T) {
	f, err := external(0.2).Jack(step("X", 1300e6, tendon.LeftEnd, 0.006))
	require.NoError(t, err)
	held, after := f.DeviationsAtJack(), f.Deviations()
	require.InEpsilon(t, 1300e6*f.Tendon.Area(), held[0].Before, 1e-12)
	require.InEpsilon(t, held[0].Before*math.Exp(-0.2*held[0].Angle), held[0].After, 1e-12)
	require.Greater(t, held[0].Force, 1.01*after[0].Force)
	dry, err := external(0.2).Jack(step("X", 1300e6, tendon.LeftEnd, 0))
	require.NoError(t, err)
	require.Equal(t, dry.Deviations(), dry.DeviationsAtJack())
	require.Equal(t, held, dry.DeviationsAtJack())
}

func TestFreeLengths(t *testing.T) {
	p, err := external(0.12).Path()
	require.NoError(t, err)
	require.Equal(t, []float64{10, 26}, p.Deviators())
	for x, want := range map[float64][2]float64{0: {0, 10}, 9.99: {0, 10}, 10: {10, 26}, 25: {10, 26}, 26: {26, 36}, 36: {26, 36}} {
		from, to := p.Between(x)
		require.Equal(t, want, [2]float64{from, to}, "x = %g m", x)
	}
	drape, err := draped().Path()
	require.NoError(t, err)
	require.Empty(t, drape.Deviators())
	from, to := drape.Between(7)
	require.Equal(t, [2]float64{0, 34}, [2]float64{from, to})
}

func TestMeanByHand(t *testing.T) {
	p, err := external(0.12).Path()
	require.NoError(t, err)
	require.InDelta(t, 1, p.Mean(0, 36, func(float64) float64 { return 1 }), 1e-14)
	require.InDelta(t, 18, p.Mean(10, 26, func(x float64) float64 { return x }), 1e-12)
	a, b, c := math.Sqrt(100+1.44+0.09), 16.0, math.Sqrt(100+1.96)
	require.InEpsilon(t, (a*5+b*18+c*31)/(a+b+c), p.Mean(0, 36, func(x float64) float64 { return x }), 1e-12)
	kinked := func(x float64) float64 { return math.Abs(x - 13.7) }
	require.InDelta(t, (3.7*3.7+12.3*12.3)/2/16, p.Mean(10, 26, kinked, 2, 13.7, 30), 1e-12)
	require.Equal(t, 13.0, p.Mean(13, 13, func(x float64) float64 { return x }), "of no length: the value there")
}

// With plane sections the mean of ε·along² is the strain of the chord between two
// deviators: how far their points of the section move apart.
func TestMeanStrainIsTheChordsOfPlaneSections(t *testing.T) {
	random := rand.New(rand.NewSource(9))
	p, err := external(0.12).Path()
	require.NoError(t, err)
	for range 50 {
		var k [9]float64
		for i := range k {
			k[i] = 1e-4 * random.NormFloat64()
		}
		// u along x, v to the left, w upwards of the axis, cubic in x/10 with any start.
		u := func(x float64) (u, du float64) {
			x /= 10
			return k[0]*x + k[1]*x*x + k[2]*x*x*x, (k[0] + 2*k[1]*x + 3*k[2]*x*x) / 10
		}
		bend := func(a, b, c, x float64) (w, slope, curvature float64) {
			x /= 10
			return a*x + b*x*x + c*x*x*x, (a + 2*b*x + 3*c*x*x) / 10, (2*b + 6*c*x) / 100
		}
		moved := func(x float64) [3]float64 {
			at := p.At(x)
			u, _ := u(x)
			v, dv, _ := bend(k[3], k[4], k[5], x)
			w, dw, _ := bend(k[6], k[7], k[8], x)
			return [3]float64{u - at.Y*dv - at.Z*dw, v, w}
		}
		strain := func(x float64) float64 {
			at := p.At(x)
			_, du := u(x)
			_, _, ddv := bend(k[3], k[4], k[5], x)
			_, _, ddw := bend(k[6], k[7], k[8], x)
			along, _, _ := p.Direction(x)
			return (du - at.Y*ddv - at.Z*ddw) * along * along
		}
		for _, x := range []float64{4, 20, 30} {
			from, to := p.Between(x)
			a, b := moved(from), moved(to)
			tx, ty, tz := p.Direction(x)
			chord := p.Length(to) - p.Length(from)
			require.InDelta(t, ((b[0]-a[0])*tx+(b[1]-a[1])*ty+(b[2]-a[2])*tz)/chord, p.Mean(from, to, strain), 1e-14)
		}
	}
}

func TestExternalRefuses(t *testing.T) {
	require.NoError(t, external(0.12).Check(), "no duct, kinks without Harped")
	for words, change := range map[string]func(*tendon.Tendon){
		"Wobble = 0.005 rad/m: must be 0 of an External tendon": func(t *tendon.Tendon) { t.Wobble = 0.005 },
		"Duct = -0.1 m": func(t *tendon.Tendon) { t.Duct = -0.1 },
		"Elevation: piece 1 is curved: must be straight": func(t *tendon.Tendon) {
			t.Elevation = tendon.Curve{tendon.Parabola(tendon.Point{Ordinate: 1}, -0.1, tendon.Point{X: 36, Ordinate: 1})}
		},
		"Plan: piece 1 is curved": func(t *tendon.Tendon) { t.Plan = tendon.Curve{tendon.Arc(tendon.Point{}, 0, 200, 36)} },
		"Duct = 0 m: must be":     func(t *tendon.Tendon) { t.External, t.Harped = false, true },
	} {
		tn := external(0.12)
		change(&tn)
		require.ErrorIs(t, tn.Check(), tendon.ErrTendon, words)
		require.ErrorContains(t, tn.Check(), words)
	}
}
