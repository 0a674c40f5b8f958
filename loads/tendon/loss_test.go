package tendon_test

import (
	"fmt"
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
)

// given is a concrete whose creep, shrinkage and modulus are what they are told
// to be.
type given struct {
	concrete.EN1992
	phi, strain, modulus float64
}

func (g given) At(age float64) (concrete.State, error) {
	return concrete.State{Age: age, Modulus: g.modulus, Characteristic: 50e6, Mean: 58e6}, nil
}
func (g given) CreepModulus(float64) (float64, error) { return g.modulus, nil }
func (g given) Creep(age, loaded float64) (float64, error) {
	return g.phi * (age - loaded) / (200 + age - loaded), nil
}
func (g given) CreepUnder(age, loaded, _ float64) (float64, error) { return g.Creep(age, loaded) }
func (g given) Shrinkage(age float64) (concrete.Shrinkage, error) {
	return concrete.Shrinkage{Total: g.strain * age / (200 + age)}, nil
}

var mid = tendon.Sustained{
	Concrete: given{phi: 2, strain: 300e-6, modulus: 37e9}, From: 1e-3, To: 1e6, Area: 1.05, Inertia: 0.36, Distance: 0.6, Stress: 10e6,
	TendonArea: 6000e-6, TendonModulus: 195e9, TendonStress: 1300e6, TensileStrength: 1860e6, Relaxation: tendon.Class2,
}

func ExampleSustained_Simplified() {
	s := tendon.Sustained{
		Concrete: concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.3, DryingFrom: 1}},
		From:     7, To: 36500, Area: 1.05, Inertia: 0.36, Distance: 0.6, Stress: 10e6,
		TendonArea: 6000e-6, TendonModulus: 195e9, TendonStress: 1300e6, TensileStrength: 1860e6, Relaxation: tendon.Class2,
	}
	l, err := s.Simplified()
	steps, _ := s.Stepwise(60)
	fmt.Printf("creep %.0f, shrinkage %.0f, relaxation %.0f MPa; step by step %.0f in all for %.0f, %v\n",
		l.Creep/1e6, l.Shrinkage/1e6, l.Relaxation/1e6, steps.Total()/1e6, l.Total()/1e6, err)
	// Output: creep 69, shrinkage 60, relaxation 36 MPa; step by step 164 in all for 165, <nil>
}

func TestSimplifiedByHand(t *testing.T) {
	l, err := mid.Simplified()
	require.NoError(t, err)
	relaxed, err := tendon.Class2.Loss(1300e6, 1860e6, mid.To-mid.From)
	require.NoError(t, err)
	phi, strain := 2*(1e6-1e-3)/(200+1e6-1e-3), 300e-6*(1e6/(1e6+200)-1e-3/(200+1e-3))
	n := 195.0 / 37
	divisor := 1 + n*6000e-6/1.05*(1+1.05/0.36*0.36)*(1+0.8*phi)
	require.InEpsilon(t, (strain*195e9+0.8*relaxed+n*phi*10e6)/divisor, l.Total(), 1e-12)
	lines, err := mid.Lines()
	require.NoError(t, err)
	value, err := lines[0].Recompute()
	require.NoError(t, err)
	require.InEpsilon(t, l.Total(), value, 1e-12)
}

// Without creep a shrinkage strain alone has a closed form.
func TestStepwiseWithoutCreepIsElastic(t *testing.T) {
	s := mid
	s.Concrete, s.TendonStress = given{strain: 300e-6, modulus: 37e9}, 0
	l, err := s.Stepwise(25)
	require.NoError(t, err)
	strain := 300e-6 * (1e6/(1e6+200) - 1e-3/(200+1e-3))
	require.InEpsilon(t, strain*195e9/(1+195.0/37*6000e-6*(1/1.05+1)), l.Shrinkage, 1e-9)
	require.Zero(t, l.Creep)
	require.Zero(t, l.Relaxation)
}

func TestStepwiseConvergesAndStaysNearTheSimplified(t *testing.T) {
	s := mid
	s.Concrete = concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.3, DryingFrom: 1}}
	for _, ages := range [][2]float64{{3, 36500}, {7, 90}, {28, 36500}} {
		s.From, s.To = ages[0], ages[1]
		coarse, err := s.Stepwise(60)
		require.NoError(t, err)
		fine, err := s.Stepwise(400)
		require.NoError(t, err)
		require.InEpsilon(t, fine.Total(), coarse.Total(), 0.005)
		simple, err := s.Simplified()
		require.NoError(t, err)
		require.InEpsilon(t, fine.Total(), simple.Total(), 0.05)
	}
	s.To = s.From
	none, err := s.Stepwise(60)
	require.NoError(t, err)
	require.Zero(t, none.Total())
}

func TestSustainedRefuses(t *testing.T) {
	for words, change := range map[string]func(*tendon.Sustained){
		"Concrete is missing":        func(s *tendon.Sustained) { s.Concrete = nil },
		"From = -1 d":                func(s *tendon.Sustained) { s.From = -1 },
		"To = 5 d: must be 7":        func(s *tendon.Sustained) { s.From, s.To = 7, 5 },
		"Area = NaN m²":              func(s *tendon.Sustained) { s.Area = math.NaN() },
		"Inertia = 0 m⁴":             func(s *tendon.Sustained) { s.Inertia = 0 },
		"TendonArea = 1 m²":          func(s *tendon.Sustained) { s.TendonArea = 1 },
		"initial stress = 1.7e+09":   func(s *tendon.Sustained) { s.TendonStress = 1700e6 },
		"relaxation class is not st": func(s *tendon.Sustained) { s.Relaxation = 0 },
	} {
		s := mid
		change(&s)
		_, err := s.Simplified()
		require.ErrorIs(t, err, tendon.ErrTendon, words)
		require.ErrorContains(t, err, words)
		_, err = s.Stepwise(10)
		require.ErrorIs(t, err, tendon.ErrTendon, words)
		_, err = s.Lines()
		require.ErrorIs(t, err, tendon.ErrTendon, words)
	}
	_, err := mid.Stepwise(0)
	require.ErrorContains(t, err, "steps = 0")
	dry := mid
	dry.Concrete = concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR}
	_, err = dry.Simplified()
	require.ErrorIs(t, err, concrete.ErrConcrete)
	_, err = dry.Stepwise(5)
	require.ErrorIs(t, err, concrete.ErrConcrete)
}

// Recomputed by another hand from the same formulas: no evidence for them.
func TestRelaxationRegression(t *testing.T) {
	for class, want := range map[tendon.Relaxation][4]float64{
		tendon.Class1: {2.4018, 4.6937, 6.5616, 9.1727}, tendon.Class2: {.3879, .9637, 1.5190, 2.3941}, tendon.Class3: {.9624, 2.1418, 3.1952, 4.7666},
	} {
		for i, ratio := range []float64{.60, .70, .75, .80} {
			loss, err := class.Loss(ratio*1860e6, 1860e6, 1000./24)
			require.NoError(t, err)
			require.InDelta(t, want[i], 100*loss/(ratio*1860e6), 5e-5)
		}
	}
	final, err := tendon.Class2.Loss(1395e6, 1860e6, 1e5)
	require.NoError(t, err)
	require.InDelta(t, 67.948e6, final, 500, "complete after 500 000 h")
	month, err := tendon.Class2.Loss(1395e6, 1860e6, 30)
	require.NoError(t, err)
	require.InDelta(t, 19.924e6, month, 500)
	const ksi = 6.894757293168361e6
	added, err := tendon.HeatCuredTime(60, 8./24)
	require.NoError(t, err)
	require.InDelta(t, 1511.1/24, added, 0.05/24)
	lrfd, err := tendon.RelaxationAASHTO(188.8*ksi, 243*ksi, true)
	require.NoError(t, err)
	require.InDelta(t, 1.4283, lrfd/ksi, 5e-5)
	lump, err := tendon.ApproximateLoss{Stress: 202.5 * ksi, SteelRatio: 6.732 / 1085, Humidity: 0.7, ReleaseStrength: 4.8 * ksi, Relaxation: 2.4 * ksi}.LongTerm()
	require.NoError(t, err)
	require.InDelta(t, 23.576, lump/ksi, 5e-4)
}

// The formula does not give the class's loss back at 0.7 and 1000 h.
func TestRelaxationTrap(t *testing.T) {
	loss, err := tendon.Class2.Loss(0.7*1860e6, 1860e6, 1000./24)
	require.NoError(t, err)
	require.Less(t, loss/(0.7*1860e6), 0.01)
}

func TestRelaxationRefuses(t *testing.T) {
	for words, ask := range map[string]func() error{
		"class is not stated":      func() error { _, err := tendon.Relaxation(4).Loss(1e9, 1860e6, 1); return err },
		"fpk = 1860 Pa":            func() error { _, err := tendon.Class1.Loss(1e9, 1860, 1); return err },
		"initial stress = 1.7e+09": func() error { _, err := tendon.Class1.Loss(1700e6, 1860e6, 1); return err },
		"days = -1 d":              func() error { _, err := tendon.Class1.Loss(1e9, 1860e6, -1); return err },
		"celsius = 90":             func() error { _, err := tendon.HeatCuredTime(90, 1); return err },
		"hold = NaN":               func() error { _, err := tendon.HeatCuredTime(60, math.NaN()); return err },
		"yield stress, 1.6e+09":    func() error { _, err := tendon.RelaxationAASHTO(1700e6, 1600e6, true); return err },
		"rho1000 = 0":              func() error { _, err := tendon.RelaxationBPEL(1e9, 1860e6, 0); return err },
		"fprg":                     func() error { _, err := tendon.RelaxationBPEL(1e9, 1, 2.5); return fmt.Errorf("fprg: %w", err) },
		"SteelRatio = 0.5": func() error {
			_, err := tendon.ApproximateLoss{Stress: 1400e6, SteelRatio: 0.5, Humidity: 0.7, ReleaseStrength: 3e7}.LongTerm()
			return err
		},
	} {
		require.ErrorIs(t, ask(), tendon.ErrTendon, words)
		require.ErrorContains(t, ask(), words)
	}
}

// What the tendons lose in turn has the mean of (5.44).
func TestElasticLossesHaveTheMean(t *testing.T) {
	for n := 1; n < 9; n++ {
		moduli, changes := make([]float64, n), make([]float64, n)
		for i := range n {
			moduli[i], changes[i] = 33e9, 1.5e6
		}
		losses, err := tendon.ElasticLosses(195e9, moduli, changes)
		require.NoError(t, err)
		sum := 0.0
		for _, loss := range losses {
			sum += loss
		}
		require.InDelta(t, of(t)(tendon.MeanElasticLoss(n, 195e9, 33e9, float64(n)*1.5e6)), sum/float64(n), 1e-6)
		require.Zero(t, losses[n-1])
	}
	_, err := tendon.ElasticLosses(195e9, []float64{33e9}, nil)
	require.ErrorContains(t, err, "1 concreteModuli for 0 stressChanges")
	_, err = tendon.ElasticLosses(195e9, []float64{33e9, 0}, []float64{1, 1})
	require.ErrorContains(t, err, "number 2 in the order of stressing: tendon: concreteModulus = 0 Pa")
}

// One law written in every convention is the same law.
func TestFrictionConventionsAgree(t *testing.T) {
	random := rand.New(rand.NewSource(2))
	for range 200 {
		mu, k := 0.05+0.5*random.Float64(), 0.02*random.Float64()
		for convention, wobble := range map[tendon.Convention]float64{
			tendon.WobbleEN: k, tendon.WobbleDegrees: k * 180 / math.Pi, tendon.WobbleBPEL: k * mu,
			tendon.WobbleAASHTOPerMetre: k * mu, tendon.WobbleAASHTO: k * mu * 0.3048,
		} {
			friction, got, err := tendon.Law{Convention: convention, Friction: mu, Wobble: wobble}.EN()
			require.NoError(t, err)
			require.Equal(t, mu, friction)
			require.InEpsilon(t, k, got, 1e-12)
		}
	}
	_, k, err := tendon.Law{Convention: tendon.WobbleBPEL}.EN()
	require.NoError(t, err)
	require.Zero(t, k)
	for words, law := range map[string]tendon.Law{
		"Convention is not stated":     {Friction: 0.2},
		"Friction = -1":                {Convention: tendon.WobbleEN, Friction: -1},
		"Wobble = 0.5 is k = 0.5":      {Convention: tendon.WobbleEN, Friction: 0.2, Wobble: 0.5},
		"Wobble = 0.002 is k = +Inf":   {Convention: tendon.WobbleBPEL, Wobble: 0.002},
		"must be 0 to 0.1 rad/m, and ": {Convention: tendon.WobbleAASHTO, Friction: 0.2, Wobble: -1},
	} {
		_, _, err := law.EN()
		require.ErrorIs(t, err, tendon.ErrTendon, words)
		require.ErrorContains(t, err, words)
	}
	_, _, err = tendon.LinearDrawIn(0, 0.006, 1)
	require.ErrorContains(t, err, "stiffness = 0 N")
}
