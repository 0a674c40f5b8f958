package concrete

import "github.com/tempstage/tempstage/section/formula"

// Cement is the strength class of the cement, EN 1992-1-1:2004 3.1.2(6); the
// fib Model Code 2010 has the same three groups.
type Cement int

// The zero value is an error: the cement must be stated.
const (
	ClassS Cement = iota + 1 // slow: CEM 32.5 N
	ClassN                   // normal: CEM 32.5 R, 42.5 N
	ClassR                   // rapid: CEM 42.5 R, 52.5 N, 52.5 R
)

// coefficient is s of (3.2).
func (c Cement) coefficient() float64 { return c.pick(0.38, 0.25, 0.20) }

// pick is the value for the class, 0 for one that is not stated.
func (c Cement) pick(slow, normal, rapid float64) float64 {
	switch c {
	case ClassS:
		return slow
	case ClassN:
		return normal
	case ClassR:
		return rapid
	}
	return 0
}

func (c Cement) String() string {
	if c < ClassS || c > ClassR {
		return "not stated"
	}
	return [...]string{"", "class S", "class N", "class R"}[c]
}

// EN1992 is concrete by EN 1992-1-1:2004, 3.1.2 to 3.1.4 and Annex B, normal
// weight.
//
// Valid for fck 12 to 90 MPa. Strength: ages above 3 d, younger concrete nominal, to be
// proved by test (State.NeedsTest); curing at 0 to 80 °C. Creep: relative humidity 40
// to 100 %, mean temperature −40 to 40 °C, stress up to 0.45·fck(t0), above that
// [EN1992.CreepUnder]; scatter about ±20 % (Annex B, 3.1.4(2)). Shrinkage: relative
// humidity 20 to 100 %, notional size from 100 mm. Recommended values; a national annex
// may change them.
type EN1992 struct {
	Fck       float64  // characteristic cylinder strength at 28 days, Pa, 12e6 to 90e6
	Cement    Cement   // strength class of the cement
	Aggregate float64  // factor on Ecm for the aggregate, 3.1.3(2): 0 means 1.0 (quartzite); limestone 0.9, sandstone 0.7, basalt 1.2
	Tests     []Test   // measured strengths, ages ascending
	Curing    Curing   // temperature of the concrete; nil means 20 °C
	Exposure  Exposure // for creep and shrinkage; not needed for strength
}

func clause(place string) formula.Source {
	return formula.Source{Document: "EN 1992-1-1:2004", Place: place, Confirm: true}
}

func (c EN1992) check() error { return c.growth().check(90e6, "EN 1992-1-1 Table 3.1") }

func (c EN1992) growth() growth {
	return growth{fck: c.Fck, s: c.Cement.coefficient(), cement: c.Cement, aggregate: c.Aggregate, tests: c.Tests, curing: c.Curing,
		places: growthPlaces{"3.1.2(6), (3.2)", "3.1.2(6), (3.1)", "3.1.2(5) and (6)"}}
}

// At is the concrete at an age (d, > 0). Without a test it follows (3.1) to
// (3.5) and Table 3.1, βcc on the temperature-adjusted age; fck(t) = fcm(t) − 8
// MPa up to fck, and up to 3 d, by the calendar or by the adjusted age, this
// value is nominal, to be proved by test: NeedsTest is set.
//
// The latest test at or before the age overrides the formula: at its own age and up to
// 3 d its strength applies as measured; later the strength is the larger of the test
// and the formula, the formula scaled down by test over formula when the test is below
// it; fck(t) then stays below fcm(t) by the difference that the statistic of the test
// requires. fctm(t) and Ecm(t) follow fcm(t)/fcm. A test below an earlier one disproves
// it: from the age of the earlier one on the lower strength applies, and Basis names
// both.
func (c EN1992) At(age float64) (State, error) {
	if err := c.check(); err != nil {
		return State{}, err
	}
	if err := checkAge(age); err != nil {
		return State{}, err
	}
	k := &chain{source: clause}
	is := c.growth().strengths(age, k)
	tension, low, modulus := c.tensionAndModulus(is.mean, k)
	return k.state(age, is, tension, low, modulus)
}

func (c EN1992) fck() formula.Quantity { return c.growth().strength28() }

// tensionAndModulus are fctm(t) by (3.4) with βcc = fcm(t)/fcm, fctk,0.05(t) and
// Ecm(t) by (3.5).
func (c EN1992) tensionAndModulus(mean formula.Quantity, k *chain) (tension, low, modulus formula.Quantity) {
	fctm, expression := "0.3e6*pow(f_ck/1e6, 2/3)", "f_ctm*f_cm_t/(f_ck + 8e6)"
	if c.Fck > 50e6 {
		fctm = "2.12e6*ln(1 + (f_ck + 8e6)/1e7)"
	}
	if mean.Value > c.Fck+8e6 {
		expression = "f_ctm*pow(f_cm_t/(f_ck + 8e6), 2/3)"
	}
	tension28 := k.stress("f_ctm", "mean tensile strength at 28 d", fctm, "Table 3.1", c.fck())
	tension = k.stress("f_ctm_t", "mean tensile strength at the age", expression, "3.1.2(9), (3.4)", tension28, mean, c.fck())
	low = k.stress("f_ctk05_t", "lower characteristic tensile strength at the age", "0.7*f_ctm_t", "Table 3.1", tension)
	modulus = k.stress("E_cm_t", "secant modulus at the age",
		"α_a*22e9*pow((f_ck + 8e6)/1e7, 0.3)*pow(f_cm_t/(f_ck + 8e6), 0.3)", "3.1.3(2) and (3), (3.5)",
		formula.Q("α_a", c.aggregate(), formula.One, "factor for the aggregate"), c.fck(), mean)
	return tension, low, modulus
}

func (c EN1992) aggregate() float64 { return oneWhenZero(c.Aggregate) }

// Shown is the concrete with a characteristic cylinder strength (Pa) shown at
// the age (d); tests at that age and later are left out.
func (c EN1992) Shown(age, strength float64) Model {
	c.Tests = shown(c.Tests, age, strength)
	return c
}

// Inputs are fck, the cement, the aggregate, the curing, the exposure if it is
// given, and the tests.
func (c EN1992) Inputs() []formula.Line {
	return c.growth().inputs("α_a", clause("3.1.3(2)"), c.Exposure)
}
