package concrete_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/concrete"
)

// The Model Code has no tensile strength above that of 28 days: C40 has 0.3·40^(2/3) MPa
// from there on, and less in proportion to fcm(t) before.
func TestTensileStrengthOfTheModelCodeIsCapped(t *testing.T) {
	c := concrete.FIB2010{Fck: 40e6, Cement: concrete.ClassN}
	whole := 0.3e6 * math.Pow(40, 2./3)
	for age, share := range map[float64]float64{7: math.Exp(0.25 * (1 - 2)), 28: 1, 90: 1, 3650: 1} {
		s, err := c.At(age)
		require.NoError(t, err)
		require.InEpsilon(t, share*whole, s.TensileMean, 1e-12, "%g d", age)
		require.InEpsilon(t, 0.7*share*whole, s.TensileLow, 1e-12)
		require.Equal(t, age > 28, s.Mean > 48e6)
	}
	// EN goes on, by the power 2/3.
	s, err := concrete.EN1992{Fck: 40e6, Cement: concrete.ClassN}.At(112)
	require.NoError(t, err)
	require.InEpsilon(t, whole*math.Pow(math.Exp(0.25*(1-0.5)), 2./3), s.TensileMean, 1e-12)
}

// A test at 1 d is what the concrete is up to and at 3 d; from then on the curve goes on
// from it, 30/31.1 of t/(2.3 + 0.92 t) being more than the 30 that were shown.
func TestAASHTOAfterAnEarlyTest(t *testing.T) {
	c := concrete.AASHTO{Strength: 50e6, Cement: concrete.TypeIII, Tests: []concrete.Test{{Age: 1, Strength: 12e6, Specimen: concrete.Cylinder, Specimens: 1, Statistic: concrete.Characteristic}}}
	curve := func(age float64) float64 { return 50e6 * age / (2.3 + 0.92*age) }
	for age, strength := range map[float64]float64{1: 12e6, 2: 12e6, 3: 12e6, 3.001: curve(3.001) * 12e6 / curve(1), 10: curve(10) * 12e6 / curve(1)} {
		s, err := c.At(age)
		require.NoError(t, err)
		require.InEpsilon(t, strength, s.Characteristic, 1e-12, "%g d", age)
		require.False(t, s.NeedsTest)
	}
	before, err := c.At(0.99)
	require.NoError(t, err)
	require.True(t, before.NeedsTest, "the test comes later")
}

// Two steps of curing and what follows, each day counted by its temperature.
func TestStrengthAgeStepByStep(t *testing.T) {
	c := concrete.Curing{{Until: 0.5, Celsius: 60}, {Until: 2, Celsius: 40}}
	rate := func(celsius float64) float64 { return math.Exp(13.65 - 4000/(273+celsius)) }
	for age, adjusted := range map[float64]float64{
		0.25: 0.25 * rate(60), 0.5: 0.5 * rate(60), 1: 0.5*rate(60) + 0.5*rate(40), 2: 0.5*rate(60) + 1.5*rate(40), 5: 0.5*rate(60) + 1.5*rate(40) + 3,
	} {
		require.InEpsilon(t, adjusted, c.StrengthAge(age), 1e-12, "%g d", age)
	}
	for text, bad := range map[string]concrete.Curing{
		"Curing[1].Until = 0.5 d: must be above 0.5 d": {{Until: 0.5, Celsius: 60}, {Until: 0.5, Celsius: 40}},
		"Curing[0].Until = 36501 d: must be above 0 d": {{Until: 36501, Celsius: 20}},
	} {
		require.ErrorContains(t, bad.Check(), text)
	}
	require.NoError(t, concrete.Curing{{Until: 36500, Celsius: 80}}.Check())
}

// A day of accelerated curing counts as seven at loading, and no more days than there
// were; it stands for the five days of moist curing.
func TestAcceleratedCuringOfAASHTO(t *testing.T) {
	base := concrete.AASHTO{Strength: 41e6, Cement: concrete.TypeIII, Exposure: girderExposure}
	creep := func(accelerated, loaded float64) float64 {
		c := base
		c.Accelerated = accelerated
		phi, err := c.Creep(loaded+100, loaded)
		require.NoError(t, err)
		return phi
	}
	for _, c := range []struct{ accelerated, loaded, maturity float64 }{{0.5, 1, 1 + 6*0.5}, {1, 1, 7}, {2, 1, 7}, {0.75, 10, 10 + 6*0.75}} {
		require.InEpsilon(t, math.Pow(c.maturity/c.loaded, -0.118), creep(c.accelerated, c.loaded)/creep(0, c.loaded), 1e-12, "%+v", c)
	}
	shrinkage := func(from, accelerated float64) float64 {
		c := base
		c.Accelerated, c.Exposure.DryingFrom = accelerated, from
		s, err := c.Shrinkage(from + 100)
		require.NoError(t, err)
		return s.Total
	}
	require.InEpsilon(t, 1.2, shrinkage(4.999, 0)/shrinkage(5, 0), 1e-12)
	require.InEpsilon(t, 1, shrinkage(1, 0.5)/shrinkage(5, 0), 1e-12)
	for _, c := range []struct {
		accelerated float64
		cement      concrete.ASTMCement
		a, b        float64
	}{{0, concrete.TypeI, 4, 0.85}, {0.5, concrete.TypeI, 1, 0.95}, {0, concrete.TypeIII, 2.3, 0.92}, {0.5, concrete.TypeIII, 0.7, 0.98}} {
		s, err := concrete.AASHTO{Strength: 41e6, Cement: c.cement, Accelerated: c.accelerated}.At(7)
		require.NoError(t, err)
		require.InEpsilon(t, 41e6*7/(c.a+c.b*7), s.Characteristic, 1e-12, "%+v", c)
	}
}
