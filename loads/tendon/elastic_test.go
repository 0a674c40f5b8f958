package tendon_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
)

// of is the value of a function that must not fail.
func of(t *testing.T) func(value float64, err error) float64 {
	return func(value float64, err error) float64 {
		t.Helper()
		require.NoError(t, err)
		return value
	}
}

func TestShortFormulasByHand(t *testing.T) {
	v := of(t)
	require.InDelta(t, math.Exp(-0.19*(0.2+0.005*17)), v(tendon.FrictionFactor(0.19, 0.2, 0.005, 17)), 1e-15)
	require.InDelta(t, 6, v(tendon.ModularRatio(195, 32.5)), 1e-12)
	require.InDelta(t, 60, v(tendon.ElasticLoss(195, 32.5, 10)), 1e-12)
	require.InDelta(t, -60, v(tendon.ElasticLoss(195, 32.5, -10)), 1e-12, "less compression is a gain")
	require.InDelta(t, 3.0/8*6*10, v(tendon.MeanElasticLoss(4, 195, 32.5, 10)), 1e-12)
	require.Zero(t, v(tendon.MeanElasticLoss(1, 195, 32.5, 10)))
	require.InEpsilon(t, 0.5*195.0/33*1e6, v(tendon.MeanElasticLoss(math.MaxInt, 195e9, 33e9, 1e6)), 1e-12)
	require.InDelta(t, 39.0e6, v(tendon.ThermalLoss(195e9, 10e-6, 40)), 1)
	require.InDelta(t, 100e3*(0.6/math.Sqrt(1.36)+0.2/math.Sqrt(1.04)), v(tendon.HoldDown(100e3, -0.2, 0.6)), 1e-9)
}

// A value that leads nowhere is named; no loss of 0 is made of it.
func TestShortFormulasRefuse(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	type ask = func() (float64, error)
	for words, ask := range map[string]ask{
		"friction = NaN 1/rad: must be 0 to 1":                func() (float64, error) { return tendon.FrictionFactor(nan, 0.2, 0.005, 17) },
		"angle = -0.2 rad: must be 0":                         func() (float64, error) { return tendon.FrictionFactor(0.2, -0.2, 0.005, 17) },
		"wobble = 5 rad/m: must be 0 to 0.1":                  func() (float64, error) { return tendon.FrictionFactor(0.2, 0.2, 5, 17) },
		"length = +Inf m: must be 0":                          func() (float64, error) { return tendon.FrictionFactor(0.2, 0.2, 0, inf) },
		"concreteModulus = 0 Pa: must be finite and positive": func() (float64, error) { return tendon.ElasticLoss(195e9, 0, 1e6) },
		"concreteModulus = -3.3e+10 Pa":                       func() (float64, error) { return tendon.ModularRatio(195e9, -33e9) },
		"tendonModulus = NaN Pa: must be finite and positive": func() (float64, error) { return tendon.ElasticLoss(nan, 33e9, 1e6) },
		"tendonModulus = +Inf Pa":                             func() (float64, error) { return tendon.MeanElasticLoss(2, inf, 33e9, 1e6) },
		"concreteModulus = 1e-300 Pa: must be of the size":    func() (float64, error) { return tendon.ModularRatio(195e9, 1e-300) },
		"concreteModulus = 3.3e+10 Pa: must be of the size of tendonModulus = 195 Pa, which is 0.5 to 300 times as much; are both in Pa?": func() (float64, error) { return tendon.ElasticLoss(195, 33e9, 1e6) },
		"concreteModulus = 33000 Pa: must be of the size": func() (float64, error) { return tendon.MeanElasticLoss(2, 195e9, 33000, 1e6) },
		"stressChange = +Inf Pa: must be finite":          func() (float64, error) { return tendon.ElasticLoss(195e9, 33e9, inf) },
		"stressChange = 1e+308 Pa: must be finite":        func() (float64, error) { return tendon.ElasticLoss(195e9, 33e9, 1e308) },
		"n = 0 tendons: must be 1 or more":                func() (float64, error) { return tendon.MeanElasticLoss(0, 195e9, 33e9, 1e6) },
		"slopeAfter = NaN m/m: must be -2 to 2":           func() (float64, error) { return tendon.HoldDown(1e5, 0.1, nan) },
		"slopeBefore = -3 m/m":                            func() (float64, error) { return tendon.HoldDown(1e5, -3, 0.1) },
		"force = -1 N: must be 0":                         func() (float64, error) { return tendon.HoldDown(-1, 0.1, 0.1) },
		"modulus = 195 Pa: must be 50e9 to 300e9 Pa":      func() (float64, error) { return tendon.ThermalLoss(195, 1e-5, 40) },
		"expansion = 10 1/K":                              func() (float64, error) { return tendon.ThermalLoss(195e9, 10, 40) },
		"kelvin = NaN K: must be 0 to 100 K":              func() (float64, error) { return tendon.ThermalLoss(195e9, 1e-5, nan) },
		"number 1 in the order of stressing: tendon: concreteModulus = NaN Pa": func() (float64, error) {
			_, err := tendon.ElasticLosses(1, []float64{nan}, []float64{1})
			return 0, err
		},
		"must leave the sum of the losses finite": func() (float64, error) {
			_, err := tendon.ElasticLosses(1, []float64{1, 1, 1}, []float64{1e308, 1e308, 1e308})
			return 0, err
		},
	} {
		v, err := ask()
		require.ErrorIs(t, err, tendon.ErrTendon, words)
		require.ErrorContains(t, err, words)
		require.Zero(t, v, words)
	}
}

// One check for a whole tendon gives the values that are checked one by one.
func TestRelaxingIsRelaxation(t *testing.T) {
	for _, class := range []tendon.Relaxation{tendon.Class1, tendon.Class2, tendon.Class3} {
		over, err := class.Over(30, 1860e6, 0.8*1860e6)
		require.NoError(t, err)
		for _, stress := range []float64{0, 700e6, 1300e6, 0.8 * 1860e6} {
			require.Equal(t, of(t)(class.Loss(stress, 1860e6, 30)), over.Loss(stress))
		}
		require.Zero(t, testing.AllocsPerRun(10, func() { over.Loss(1300e6) }))
	}
	_, err := tendon.Class2.Over(30, 1860e6, 0.86*1860e6)
	require.ErrorContains(t, err, "0.85·fpk")
	_, err = tendon.Class2.Over(math.NaN(), 1860e6, 1e9)
	require.ErrorContains(t, err, "days = NaN d: must be 0 or more")
}
