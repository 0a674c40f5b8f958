package concrete

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Cement is the strength class of the cement, EN 1992-1-1:2004 3.1.2(6).
type Cement int

// The zero value is refused: the cement must be stated.
const (
	ClassS Cement = iota + 1 // slow: CEM 32.5 N
	ClassN                   // normal: CEM 32.5 R, 42.5 N
	ClassR                   // rapid: CEM 42.5 R, 52.5 N, 52.5 R
)

// coefficient is s of (3.2).
func (c Cement) coefficient() float64 { return [...]float64{0, 0.38, 0.25, 0.20}[c] }

func (c Cement) String() string {
	if c < ClassS || c > ClassR {
		return "not stated"
	}
	return [...]string{"", "class S", "class N", "class R"}[c]
}

// EN1992 is concrete by EN 1992-1-1:2004, 3.1.2 and 3.1.3, normal weight.
type EN1992 struct {
	Fck       float64 // characteristic cylinder strength at 28 days, Pa, 12e6 to 90e6
	Cement    Cement  // strength class of the cement
	Aggregate float64 // factor on Ecm for the aggregate, 3.1.3(2): 0 means 1.0 (quartzite); limestone 0.9, sandstone 0.7, basalt 1.2
	Tests     []Test  // measured strengths, ages ascending
}

func clause(place string) formula.Source {
	return formula.Source{Document: "EN 1992-1-1:2004", Place: place, Confirm: true}
}

func (c EN1992) check() error {
	switch {
	case !(c.Fck >= 12e6 && c.Fck <= 90e6):
		return fmt.Errorf("%w: Fck = %g Pa: allowed 12e6 to 90e6 Pa (EN 1992-1-1 Table 3.1)", ErrConcrete, c.Fck)
	case c.Cement < ClassS || c.Cement > ClassR:
		return fmt.Errorf("%w: Cement is not stated: allowed ClassS, ClassN or ClassR", ErrConcrete)
	case c.Aggregate != 0 && !(c.Aggregate >= 0.5 && c.Aggregate <= 1.5):
		return fmt.Errorf("%w: Aggregate = %g: allowed 0 (for 1.0) or 0.5 to 1.5", ErrConcrete, c.Aggregate)
	}
	for i, test := range c.Tests {
		if err := test.check(); err != nil {
			return err
		}
		if i > 0 && test.Age <= c.Tests[i-1].Age {
			return fmt.Errorf("%w: Test.Age = %g d follows %g d: allowed ascending ages", ErrConcrete, test.Age, c.Tests[i-1].Age)
		}
	}
	return nil
}

// At is the concrete at an age (d, > 0). Without a test it follows (3.1) to
// (3.5) and Table 3.1; fck(t) = fcm(t) − 8 MPa up to fck, and for t ≤ 3 d this
// value is only what the mix promises: NeedsTest is set.
//
// The latest test at or before the age overrides the formula: at its own age
// and up to 3 d its strength holds as measured; later the strength is the
// larger of the test and the formula, the formula scaled down by test over
// formula when the test lay below it. fctm(t) and Ecm(t) follow fcm(t)/fcm.
func (c EN1992) At(age float64) (State, error) {
	if err := c.check(); err != nil {
		return State{}, err
	}
	if !(age > 0) || math.IsInf(age, 0) {
		return State{}, fmt.Errorf("%w: age = %g d: allowed finite and positive", ErrConcrete, age)
	}
	s := State{Age: age}
	mean, characteristic, err := c.strengths(age, &s)
	if err != nil {
		return State{}, err
	}
	s.Mean, s.Characteristic = mean.Value, characteristic.Value
	if err := c.tensionAndModulus(mean, &s); err != nil {
		return State{}, err
	}
	return s, nil
}

// line derives a quantity and appends its line to the state.
func (s *State) line(symbol, name string, unit formula.Unit, expression, place string, operands ...formula.Quantity) (formula.Quantity, error) {
	line, err := formula.Derive(formula.Q(symbol, 0, unit, name), expression, clause(place), operands...)
	s.Derivation = append(s.Derivation, line)
	return line.Result, err
}

// byFormula is fcm(t) by (3.1) and (3.2).
func (c EN1992) byFormula(age float64, s *State) (formula.Quantity, error) {
	beta, err := s.line("β_cc", "strength gain", formula.One, "exp(s*(1 - sqrt(28/t)))", "3.1.2(6), (3.2)",
		formula.Q("s", c.Cement.coefficient(), formula.One, "cement "+c.Cement.String()), formula.Q("t", age, formula.Day, "age"))
	if err != nil {
		return beta, err
	}
	return s.line("f_cm_t", "mean cylinder strength at the age", formula.Pascal, "β_cc*(f_ck + 8e6)", "3.1.2(6), (3.1)", beta, c.fck())
}

func (c EN1992) fck() formula.Quantity {
	return formula.Q("f_ck", c.Fck, formula.Pascal, "characteristic cylinder strength at 28 d")
}

// strengths are fcm(t) and fck(t) by formula and test.
func (c EN1992) strengths(age float64, s *State) (mean, characteristic formula.Quantity, err error) {
	test := c.latest(age)
	if test != nil && (age <= 3 || age == test.Age) {
		return tested(*test, s)
	}
	mean, err = c.byFormula(age, s)
	if err != nil {
		return mean, characteristic, err
	}
	s.Basis = "formula"
	s.NeedsTest = age <= 3
	if test == nil {
		characteristic, err = s.line("f_ck_t", "characteristic cylinder strength at the age", formula.Pascal,
			"min(f_ck, f_cm_t - 8e6)", "3.1.2(5) and (6)", c.fck(), mean)
		if err == nil && characteristic.Value <= 0 {
			err = fmt.Errorf("%w: age = %g d: fck(t) = fcm(t) − 8 MPa = %.3g Pa is not positive: allowed later ages, or a Test", ErrConcrete, age, characteristic.Value)
		}
		return mean, characteristic, err
	}
	return c.afterTest(*test, mean, s)
}

// afterTest joins an earlier test and the formula; see At.
func (c EN1992) afterTest(test Test, promised formula.Quantity, s *State) (mean, characteristic formula.Quantity, err error) {
	testMean, testCharacteristic, err := test.strengths()
	if err != nil {
		return mean, characteristic, err
	}
	var then State
	promisedThen, err := c.byFormula(test.Age, &then)
	if err != nil {
		return mean, characteristic, err
	}
	rename := func(q formula.Quantity, symbol, name string) formula.Quantity {
		return formula.Q(symbol, q.Value, q.Unit, name)
	}
	shownMean := rename(testMean.Result, "f_cm_test", "mean cylinder strength shown by "+test.String())
	shown := rename(testCharacteristic.Result, "f_ck_test", "characteristic cylinder strength shown by "+test.String())
	promised = rename(promised, "f_cm_t0", "mean strength by the formula at the age")
	s.Derivation[len(s.Derivation)-1].Result = promised
	mean, err = s.line("f_cm_t", "mean cylinder strength at the age, formula held down by the test", formula.Pascal,
		"max(f_cm_test, f_cm_t0*min(1, f_cm_test/f_cm_then))", "3.1.2(6) with the test", shownMean, promised,
		rename(promisedThen, "f_cm_then", "mean strength by the formula at the age of the test"))
	if err != nil {
		return mean, characteristic, err
	}
	s.Basis = "formula and " + test.String()
	characteristic, err = s.line("f_ck_t", "characteristic cylinder strength at the age", formula.Pascal,
		"max(f_ck_test, min(f_ck, f_cm_t - 8e6))", "3.1.2(5) and (6) with the test", shown, c.fck(), mean)
	return mean, characteristic, err
}

// tested is the strength as measured.
func tested(test Test, s *State) (mean, characteristic formula.Quantity, err error) {
	m, k, err := test.strengths()
	if err != nil {
		return mean, characteristic, err
	}
	if test.Statistic == Characteristic {
		s.Derivation = append(s.Derivation, k, m)
	} else {
		s.Derivation = append(s.Derivation, m, k)
	}
	s.Basis = test.String()
	return m.Result, k.Result, nil
}

// latest is the last test at or before the age.
func (c EN1992) latest(age float64) *Test {
	for i := len(c.Tests) - 1; i >= 0; i-- {
		if c.Tests[i].Age <= age {
			return &c.Tests[i]
		}
	}
	return nil
}

// tensionAndModulus are fctm(t) by (3.4) with βcc = fcm(t)/fcm, fctk,0.05(t) and
// Ecm(t) by (3.5).
func (c EN1992) tensionAndModulus(mean formula.Quantity, s *State) error {
	fctm, expression := "0.3e6*pow(f_ck/1e6, 2/3)", "f_ctm*f_cm_t/(f_ck + 8e6)"
	if c.Fck > 50e6 {
		fctm = "2.12e6*ln(1 + (f_ck + 8e6)/1e7)"
	}
	if mean.Value > c.Fck+8e6 {
		expression = "f_ctm*pow(f_cm_t/(f_ck + 8e6), 2/3)"
	}
	tension28, err := s.line("f_ctm", "mean tensile strength at 28 d", formula.Pascal, fctm, "Table 3.1", c.fck())
	if err != nil {
		return err
	}
	tension, err := s.line("f_ctm_t", "mean tensile strength at the age", formula.Pascal, expression, "3.1.2(9), (3.4)", tension28, mean, c.fck())
	if err != nil {
		return err
	}
	low, err := s.line("f_ctk05_t", "lower characteristic tensile strength at the age", formula.Pascal, "0.7*f_ctm_t", "Table 3.1", tension)
	if err != nil {
		return err
	}
	modulus, err := s.line("E_cm_t", "secant modulus at the age", formula.Pascal,
		"α_a*22e9*pow((f_ck + 8e6)/1e7, 0.3)*pow(f_cm_t/(f_ck + 8e6), 0.3)", "3.1.3(2) and (3), (3.5)",
		formula.Q("α_a", c.aggregate(), formula.One, "factor for the aggregate"), c.fck(), mean)
	s.TensileMean, s.TensileLow, s.Modulus = tension.Value, low.Value, modulus.Value
	return err
}

func (c EN1992) aggregate() float64 {
	if c.Aggregate == 0 {
		return 1
	}
	return c.Aggregate
}

// Shown is the concrete with a characteristic cylinder strength (Pa) shown at
// the age (d); tests at that age and later are left out.
func (c EN1992) Shown(age, strength float64) Model {
	tests := make([]Test, 0, len(c.Tests)+1)
	for _, test := range c.Tests {
		if test.Age < age {
			tests = append(tests, test)
		}
	}
	c.Tests = append(tests, Test{Age: age, Strength: strength, Specimen: Cylinder, Specimens: 1, Statistic: Characteristic, Report: "strength asked for"})
	return c
}

// Inputs are fck, the cement, the aggregate and the tests.
func (c EN1992) Inputs() []formula.Line {
	mix := formula.Source{Document: "mix design, cement " + c.Cement.String()}
	lines := []formula.Line{
		formula.Given(c.fck(), mix),
		formula.Given(formula.Q("α_a", c.aggregate(), formula.One, "factor on the modulus for the aggregate"), clause("3.1.3(2)")),
	}
	for i, test := range c.Tests {
		lines = append(lines, formula.Given(
			formula.Q(fmt.Sprintf("f_test%d", i+1), test.Strength, formula.Pascal, test.String()), formula.Source{Document: "test report"}))
	}
	return lines
}
