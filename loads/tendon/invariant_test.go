package tendon_test

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
)

// randomTendon goes through random points with random slopes in both planes.
func randomTendon(random *rand.Rand) tendon.Tendon {
	points := func(spread float64) []tendon.Through {
		through := []tendon.Through{{}}
		for x := 8 + 6*random.Float64(); x < 50; x += 8 + 8*random.Float64() {
			through = append(through, tendon.Through{Point: tendon.Point{X: x, Ordinate: spread * random.Float64()}, Slope: 0.05 * (random.Float64() - 0.5)})
		}
		return append(through, tendon.Through{Point: tendon.Point{X: 60, Ordinate: spread / 2}})
	}
	t := straight(60, 0.4*random.Float64(), 0.02*random.Float64())
	t.Elevation, _ = tendon.Smooth(points(1.5)...)
	t.Plan, _ = tendon.Smooth(points(0.5)...)
	return t
}

// mirrored is the same tendon seen from the other side.
func mirrored(t tendon.Tendon) tendon.Tendon {
	turn := func(c tendon.Curve) tendon.Curve {
		back := make(tendon.Curve, len(c))
		for i, p := range c {
			back[len(c)-1-i] = tendon.Piece{From: 60 - p.To, To: 60 - p.From, Start: p.At(p.To), Slope: -p.SlopeAt(p.To), Curvature: p.Curvature, Radius: p.Radius}
		}
		return back
	}
	t.Elevation, t.Plan = turn(t.Elevation), turn(t.Plan)
	return t
}

func TestForceInvariants(t *testing.T) {
	random := rand.New(rand.NewSource(7))
	other := map[tendon.Ends]tendon.Ends{tendon.LeftEnd: tendon.RightEnd, tendon.RightEnd: tendon.LeftEnd, tendon.BothEnds: tendon.BothEnds}
	for range 60 {
		tn := randomTendon(random)
		slip := 0.012 * random.Float64()
		for end, opposite := range other {
			f, err := tn.Jack(step("S", 1200e6, end, slip))
			require.NoError(t, err)
			mirror, err := mirrored(tn).Jack(step("S", 1200e6, opposite, slip))
			require.NoError(t, err)
			free, err := tn.Jack(step("S", 1200e6, end, 0))
			require.NoError(t, err)
			double, err := tn.Jack(step("S", 2400e6, end, 2*slip))
			require.NoError(t, err)
			for x := 0.5; x < 60; x += 2.75 {
				require.InEpsilon(t, f.At(x), mirror.At(60-x), 1e-9, "mirror")
				require.InEpsilon(t, 2*f.At(x), double.At(x), 1e-9, "scale")
				require.LessOrEqual(t, f.At(x), free.At(x)*(1+1e-12), "a draw-in never adds force")
				exponent := math.Abs(math.Log(f.At(x+0.25) / f.At(x)))
				most := tn.Friction * (f.Path.Angle(x+0.25) - f.Path.Angle(x) + tn.Wobble*(f.Path.Length(x+0.25)-f.Path.Length(x)))
				require.LessOrEqual(t, exponent, most*(1+1e-6)+1e-12, "the force changes no faster than friction lets it")
			}
			slips := float64(1)
			if end == tendon.BothEnds {
				slips = 2
			}
			require.InDelta(t, slips*slip, lost(free, f, 0, 60), 2e-7)
		}
	}
}

func TestRetainedForceIsTakenUpAgain(t *testing.T) {
	first, err := continuous().Jack(step("C", 1400e6, tendon.BothEnds, 0.006))
	require.NoError(t, err)
	left, err := first.Retained(0.9)
	require.NoError(t, err)
	require.InEpsilon(t, 0.9*first.At(20), left.At(20), 1e-12)
	lines, err := left.Derivation(20, "")
	require.NoError(t, err)
	require.InEpsilon(t, left.At(20), lines[len(lines)-1].Result.Value, 1e-9)
	again, err := left.Restress(step("C", 1300e6, tendon.LeftEnd, 0))
	require.NoError(t, err)
	require.InEpsilon(t, 1300e6*1800e-6, again.At(0), 1e-12)
	require.InEpsilon(t, left.At(72), again.At(72), 1e-12)
	for _, fraction := range []float64{0, 1.1, math.NaN()} {
		_, err = first.Retained(fraction)
		require.ErrorContains(t, err, "of the force retained: must be above 0 to 1")
	}
}

func TestDeviatorAngleCountsAtKinksOnly(t *testing.T) {
	plain, inexact := external(0.25), external(0.25)
	inexact.DeviatorAngle = tendon.DeviatorAllowance
	a, err := plain.Jack(step("X", 1300e6, tendon.LeftEnd, 0))
	require.NoError(t, err)
	b, err := inexact.Jack(step("X", 1300e6, tendon.LeftEnd, 0))
	require.NoError(t, err)
	require.InEpsilon(t, math.Exp(-0.25*0.04), b.At(20)/a.At(20), 1e-12)
	require.InEpsilon(t, math.Exp(-0.25*0.08), b.At(36)/a.At(36), 1e-12)
	smooth := draped()
	smooth.DeviatorAngle = 0.04
	c, err := smooth.Path()
	require.NoError(t, err)
	require.InDelta(t, 2*math.Atan(1.3/8), c.Angle(34), 1e-12)
	smooth.DeviatorAngle = 3
	require.ErrorContains(t, smooth.Check(), "DeviatorAngle = 3 rad")
}

// Whatever is put in, a loss is finite or an error.
func FuzzLosses(f *testing.F) {
	f.Add(7.0, 36500.0, 1.05, 0.36, 0.6, 10e6, 6e-3, 1300e6, 2, 2500e3, 0.25, 0.1, 0.1)
	f.Fuzz(func(t *testing.T, from, to, area, inertia, distance, stress, steel, initial float64, class int, force, plate, e, angle float64) {
		s := tendon.Sustained{
			Concrete: concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.3}},
			From:     from, To: to, Area: area, Inertia: inertia, Distance: distance, Stress: stress, TendonArea: steel, TendonModulus: 195e9,
			TendonStress: initial, TensileStrength: 1860e6, Relaxation: tendon.Relaxation(class),
		}
		for _, ask := range []func() (tendon.Losses, error){s.Simplified, func() (tendon.Losses, error) { return s.Stepwise(8) }} {
			l, err := ask()
			require.False(t, err == nil && (math.IsNaN(l.Total()) || math.IsInf(l.Total(), 0)))
		}
		zone := tendon.AnchorZone{Force: force, Plate: plate, Depth: 1, Eccentricity: e, Inclination: angle}
		for _, ask := range []func() (tendon.Bursting, error){zone.EN, zone.AASHTO} {
			b, err := ask()
			require.False(t, err == nil && !(b.Tension >= 0 && b.Tension < 1e10 && b.Dispersion >= 0))
		}
	})
}

func BenchmarkStepwise60(b *testing.B) {
	s := mid
	s.From, s.To = 7, 36500
	s.Concrete = concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.3}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Stepwise(60); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSimplified(b *testing.B) {
	s := mid
	s.From, s.To = 7, 36500
	s.Concrete = concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.3}}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := s.Simplified(); err != nil {
			b.Fatal(err)
		}
	}
}
