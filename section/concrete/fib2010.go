package concrete

import (
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// FIB2010 is concrete by the fib Model Code 2010, 5.1, normal weight.
//
// Valid for fck 12 to 120 MPa. Strength: as [EN1992]. Creep: relative humidity
// 40 to 100 %, mean temperature 5 to 30 °C, loading at 1 day or later, stress
// up to 0.4·fcm(t0), above that and up to 0.6·fcm(t0) [FIB2010.CreepUnder];
// moist curing of 14 days at most. Shrinkage: relative humidity 40 to 100 %.
// Its modulus is a tangent at the origin with another base value and another
// power than EN 1992-1-1: never mix the two.
type FIB2010 struct {
	Fck       float64  // characteristic cylinder strength at 28 days, Pa, 12e6 to 120e6
	Cement    Cement   // group of the cement, Table 5.1-9: S 32.5 N; N 32.5 R, 42.5 N; R 42.5 R and above
	Aggregate float64  // αE, 5.1.7.2: 0 means 1.0 (quartzite); limestone 0.9, sandstone 0.7, basalt 1.2
	Tests     []Test   // measured strengths, ages ascending
	Curing    Curing   // temperature of the concrete; nil means 20 °C
	Exposure  Exposure // for creep and shrinkage; not needed for strength
}

func modelCode(place string) formula.Source {
	return formula.Source{Document: "fib Model Code 2010", Place: place, Confirm: true}
}

func (c FIB2010) check() error { return c.growth().check(120e6, "fib Model Code 2010, Table 5.1-3") }

func (c FIB2010) growth() growth {
	g := growth{fck: c.Fck, s: c.Cement.coefficient(), cement: c.Cement, aggregate: c.Aggregate, tests: c.Tests, curing: c.Curing,
		places: growthPlaces{"5.1.9.1, (5.1-51)", "5.1.9.1, (5.1-50)", "5.1.4, (5.1-1)"}}
	if c.Fck > 52e6 { // fcm above 60 MPa: 0.20 for every cement
		g.s = 0.20
	}
	return g
}

// At is the concrete at an age (d, > 0): βcc on the temperature-adjusted age,
// tests as in [EN1992.At], Eci(t) = √βcc·Eci and from it the secant modulus. The
// code has no rule for fctm(t) of a young concrete: it is taken in proportion
// to fcm(t), never above its 28-day value.
func (c FIB2010) At(age float64) (State, error) {
	if err := c.check(); err != nil {
		return State{}, err
	}
	if err := checkAge(age); err != nil {
		return State{}, err
	}
	k := &chain{source: modelCode}
	is := c.growth().strengths(age, k)
	fck := c.growth().strength28()
	fctm := "0.3e6*pow(f_ck/1e6, 2/3)"
	if c.Fck > 50e6 {
		fctm = "2.12e6*ln(1 + 0.1*(f_ck + 8e6)/1e6)"
	}
	tension28 := k.stress("f_ctm", "mean tensile strength at 28 d", fctm, "5.1.5.1, (5.1-3)", fck)
	tension := k.stress("f_ctm_t", "mean tensile strength at the age", "f_ctm*min(1, f_cm_t/(f_ck + 8e6))", "5.1.9.2 (in proportion to strength)", tension28, is.mean, fck)
	low := k.stress("f_ctk05_t", "lower characteristic tensile strength at the age", "0.7*f_ctm_t", "5.1.5.1, (5.1-4)", tension)
	tangent := k.stress("E_ci", "tangent modulus at 28 d", "α_E*21.5e9*pow((f_ck + 8e6)/1e7, 1/3)", "5.1.7.2, (5.1-21)",
		formula.Q("α_E", c.aggregate(), formula.One, "factor for the aggregate"), fck)
	modulus := k.stress("E_c_t", "secant modulus at the age", "min(1, 0.8 + 0.2*(f_ck + 8e6)/88e6)*sqrt(f_cm_t/(f_ck + 8e6))*E_ci",
		"5.1.7.2, (5.1-23) and (5.1-24); 5.1.9.3, (5.1-56)", fck, is.mean, tangent)
	return k.state(age, is, tension, low, modulus)
}

func (c FIB2010) aggregate() float64 { return oneWhenZero(c.Aggregate) }

// Shown is the concrete with a characteristic cylinder strength (Pa) shown at
// the age (d); tests at that age and later are left out.
func (c FIB2010) Shown(age, strength float64) Model {
	c.Tests = shown(c.Tests, age, strength)
	return c
}

// Inputs are fck, the cement, the aggregate, the curing, the exposure if it is
// given, and the tests.
func (c FIB2010) Inputs() []formula.Line {
	return c.growth().inputs("α_E", modelCode("5.1.7.2"), c.Exposure)
}

// CreepModulus is the tangent modulus at 28 days, Eci (Pa), whatever the age at
// loading, with the fcm of [FIB2010.Creep]. fib Model Code 2010, 5.1.9.4.3,
// (5.1-61).
func (c FIB2010) CreepModulus(loaded float64) (float64, error) {
	if err := c.check(); err != nil {
		return 0, err
	}
	if err := checkLoading(loaded, loaded); err != nil {
		return 0, err
	}
	mean, _, _, err := c.growth().creepMean()
	return c.aggregate() * 21.5e9 * math.Cbrt(mean/1e7), err
}
