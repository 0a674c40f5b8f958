package concrete

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// ASTMCement is the type of portland cement, ASTM C150.
type ASTMCement int

// The zero value is an error: the cement must be stated.
const (
	TypeI   ASTMCement = iota + 1 // general purpose
	TypeIII                       // high early strength
)

func (c ASTMCement) String() string {
	if c < TypeI || c > TypeIII {
		return "not stated"
	}
	return [...]string{"", "type I", "type III"}[c]
}

// Edition selects the formulas of the AASHTO LRFD specifications.
type Edition int

// The editions in which the formulas of 5.4.2 changed.
const (
	From2015 Edition = iota // 2015 interims and later: the zero value
	From2005                // 2005 interims to 2014: other ktd and Ec
	UpTo2004                // 1994 to 2004: creep and shrinkage of ACI 209 kind, older Ec
)

func (e Edition) String() string {
	if e < From2015 || e > UpTo2004 {
		return "not known"
	}
	return [...]string{"AASHTO LRFD, 2015 interims and later", "AASHTO LRFD, 2005 to 2014", "AASHTO LRFD, 1994 to 2004"}[e]
}

// AASHTO is concrete by AASHTO LRFD 5.4.2, normal weight, with the strength
// gain of ACI 209R-92, 2.2.1, for ages before 28 days.
//
// Valid for f′c 16.5 to 103.5 MPa (2.4 to 15 ksi), unit weight 1440 to 2485 kg/m³
// (0.090 to 0.155 kcf, rounded outwards). Creep and shrinkage: relative humidity 40 to
// 100 %, volume to surface up to 152 mm (6 in), loading at a maturity of half a day or
// later; no rule for stresses beyond the linear range. Scatter about ±50 % without
// tests of the mix (C5.4.2.3.1). The standard has a specified strength only: State.Mean
// is equal to it, unless a test gives a mean.
type AASHTO struct {
	Strength         float64    // f′c, specified cylinder strength at 28 days, Pa, 16.5e6 to 103.5e6
	TransferStrength float64    // f′ci, specified when prestressed or first loaded, Pa, 10e6 to f′c; 0 means 0.8·f′c
	Cement           ASTMCement // type of the cement
	Accelerated      float64    // time of steam or radiant-heat curing, d; 0 for moist curing
	Density          float64    // unit weight wc as a mass, kg/m³, 1440 to 2485; 0 means that of Table 3.5.1-1
	Aggregate        float64    // K1; 0 means 1
	Edition          Edition    // From2015 unless stated
	Tests            []Test     // measured strengths, ages ascending
	Exposure         Exposure   // for creep and shrinkage; not needed for strength
}

// The units of the source.
const (
	ksi  = 6.894757293168361e6 // Pa
	kcf  = 16018.46337396      // kg/m³ for 1000 lb/ft³
	inch = 0.0254              // m
)

func (c AASHTO) source(place string) formula.Source {
	return formula.Source{Document: c.Edition.String(), Place: place, Confirm: true}
}

func aci209(place string) formula.Source {
	return formula.Source{Document: "ACI 209R-92", Place: place, Confirm: true}
}

func (c AASHTO) check() error {
	err := within(
		bound{"Strength", c.Strength, "Pa", 16.5e6, 103.5e6, ""},
		bound{"TransferStrength", c.transfer(), "Pa", 10e6, c.Strength, ""},
		bound{"Accelerated", c.Accelerated, "d", 0, 7, ""},
		bound{"Density", c.density(), "kg/m³", 1440, 2485, ""},
		bound{"Aggregate", c.aggregate(), "", 0.5, 1.5, ""},
	)
	if err != nil {
		return err
	}
	switch {
	case c.Cement < TypeI || c.Cement > TypeIII:
		return fmt.Errorf("%w: Cement is not stated: must be TypeI or TypeIII", ErrConcrete)
	case c.Edition < From2015 || c.Edition > UpTo2004:
		return fmt.Errorf("%w: Edition = %d: must be From2015, From2005 or UpTo2004", ErrConcrete, c.Edition)
	}
	return checkTests(c.Tests)
}

func (c AASHTO) aggregate() float64 { return oneWhenZero(c.Aggregate) }

func (c AASHTO) transfer() float64 {
	if c.TransferStrength == 0 {
		return 0.8 * c.Strength
	}
	return c.TransferStrength
}

// density is wc of Table 3.5.1-1, 0.145 kcf up to 5 ksi and 0.140 + 0.001·f′c
// above, unless given.
func (c AASHTO) density() float64 {
	if c.Density == 0 {
		return math.Max(0.145, 0.140+0.001*c.Strength/ksi) * kcf
	}
	return c.Density
}

// gain are a and b of ACI 209R-92, (2-1) and Table 2.2.1.
func (c AASHTO) gain() (a, b float64) {
	switch {
	case c.Accelerated > 0 && c.Cement == TypeIII:
		return 0.70, 0.98
	case c.Accelerated > 0:
		return 1.00, 0.95
	case c.Cement == TypeIII:
		return 2.30, 0.92
	}
	return 4.00, 0.85
}

func (c AASHTO) specified() formula.Quantity {
	return formula.Q("f_c", c.Strength, formula.Pascal, "specified cylinder strength at 28 d")
}

// byFormula is f′c·t/(a + b·t).
func (c AASHTO) byFormula(age float64, k *chain) formula.Quantity {
	a, b := c.gain()
	curing := "moist cured"
	if c.Accelerated > 0 {
		curing = "steam cured"
	}
	k.source = aci209
	strength := k.stress("f_c_t", "cylinder strength at the age", "f_c*t/(a + b*t)", "2.2.1, (2-1)", c.specified(), formula.Q("t", age, formula.Day, "age"),
		formula.Q("a", a, formula.Day, curing+", cement "+c.Cement.String()), formula.Q("b", b, formula.One, curing+", cement "+c.Cement.String()))
	k.source = c.source
	return strength
}

// strengths are the strength at an age by formula and test; see [EN1992.At].
func (c AASHTO) strengths(age float64, k *chain) strengths {
	test := latest(c.Tests, age)
	if test != nil && (age <= 3 || test.asMeasured(age)) {
		return k.tested(*test)
	}
	promised := c.byFormula(age, k)
	if test == nil {
		is := k.stress("f_ck_t", "strength at the age, not above the specified one", "min(f_c, f_c_t)", "5.4.2.1", c.specified(), promised)
		return strengths{is, is, age <= 3, "formula"}
	}
	_, tested, err := test.strengths()
	then := chain{source: c.source}
	promisedThen := c.byFormula(test.Age, &then)
	if err != nil {
		k.err = err
		return strengths{}
	}
	is := k.stress("f_ck_t", "strength at the age, strength curve limited by the test result", "max(f_test, min(f_c, f_c_t*min(1, f_test/f_then)))", "5.4.2.1 with the test",
		renamed(tested.Result, "f_test", "characteristic cylinder strength shown by "+test.String()), c.specified(), promised,
		renamed(promisedThen, "f_then", "strength by the formula at the age of the test"))
	return strengths{is, is, false, "formula and " + test.String()}
}

// At is the concrete at an age (d, > 0): f′c(t) by ACI 209R-92 (2-1), never
// above f′c, tests as in [EN1992.At]; Ec by 5.4.2.4 with f′c(t); direct tensile
// strength 0.23·√f′c ksi by C5.4.2.7 and, as the standard has no lower value,
// 0.7 of it for TensileLow as in EN 1992-1-1 Table 3.1. Up to 3 d without a
// test NeedsTest is set.
func (c AASHTO) At(age float64) (State, error) {
	if err := c.check(); err != nil {
		return State{}, err
	}
	if err := checkAge(age); err != nil {
		return State{}, err
	}
	k := &chain{source: c.source}
	is := c.strengths(age, k)
	tension := k.stress("f_ct_t", "direct tensile strength at the age", "0.23*6.894757293168361e6*sqrt(f_ck_t/6.894757293168361e6)", "C5.4.2.7", is.characteristic)
	low := k.stress("f_ct05_t", "lower tensile strength at the age", "0.7*f_ct_t", "C5.4.2.7 with the ratio of EN 1992-1-1 Table 3.1", tension)
	expression := "120000*6.894757293168361e6*K_1*pow(w_c/16018.46337396, 2)*pow(f_ck_t/6.894757293168361e6, 0.33)"
	if c.Edition != From2015 {
		expression = "33000*6.894757293168361e6*K_1*pow(w_c/16018.46337396, 1.5)*sqrt(f_ck_t/6.894757293168361e6)"
	}
	modulus := k.stress("E_c_t", "modulus at the age", expression, "5.4.2.4",
		formula.Q("K_1", c.aggregate(), formula.One, "factor for the aggregate"), formula.Q("w_c", c.density(), "kg/m³", "density"), is.characteristic)
	return k.state(age, is, tension, low, modulus)
}

// Shown is the concrete with a characteristic cylinder strength (Pa) shown at
// the age (d); tests at that age and later are left out.
func (c AASHTO) Shown(age, strength float64) Model {
	c.Tests = shown(c.Tests, age, strength)
	return c
}

// Inputs are the strengths, the density, K1, the curing, the exposure if it is
// given, and the tests.
func (c AASHTO) Inputs() []formula.Line {
	mix := formula.Source{Document: "mix design, cement " + c.Cement.String()}
	lines := []formula.Line{
		formula.Given(c.specified(), mix), formula.Given(c.transferStrength(), mix),
		formula.Given(formula.Q("t_acc", c.Accelerated, formula.Day, "time of accelerated curing"), mix),
		formula.Given(formula.Q("w_c", c.density(), "kg/m³", "density"), c.source("Table 3.5.1-1")),
		formula.Given(formula.Q("K_1", c.aggregate(), formula.One, "factor on the modulus for the aggregate"), c.source("5.4.2.4")),
	}
	lines = append(lines, c.Exposure.inputs()...)
	return append(lines, testInputs(c.Tests)...)
}

func (c AASHTO) transferStrength() formula.Quantity {
	return formula.Q("f_ci", c.transfer(), formula.Pascal, "specified strength when first loaded")
}
