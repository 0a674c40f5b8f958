package concrete

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// growth is the strength of a concrete over its age as EN 1992-1-1 and the fib
// Model Code 2010 have it: fcm(t) = βcc·(fck + 8 MPa), held by tests.
type growth struct {
	fck       float64 // Pa
	s         float64 // coefficient of βcc
	cement    Cement
	aggregate float64 // as given: 0 for 1
	tests     []Test
	curing    Curing
	places    growthPlaces
}

// growthPlaces are the clauses of one standard.
type growthPlaces struct{ gain, mean, characteristic string }

// check reports the first field that is out of range; strengths are from 12e6 Pa to
// most.
func (g growth) check(most float64, table string) error {
	if err := within(bound{"Fck", g.fck, "Pa", 12e6, most, " (" + table + ")"}); err != nil {
		return err
	}
	switch {
	case g.cement < ClassS || g.cement > ClassR:
		return fmt.Errorf("%w: Cement is not stated: must be ClassS, ClassN or ClassR", ErrConcrete)
	case g.aggregate != 0 && !(g.aggregate >= 0.5 && g.aggregate <= 1.5):
		return fmt.Errorf("%w: Aggregate = %g: must be 0 (for 1.0) or 0.5 to 1.5", ErrConcrete, g.aggregate)
	}
	if err := g.curing.Check(); err != nil {
		return err
	}
	return checkTests(g.tests)
}

// inputs are the data of the mix and of the site as given lines.
func (g growth) inputs(symbol string, aggregate formula.Source, exposure Exposure) []formula.Line {
	lines := []formula.Line{
		formula.Given(g.strength28(), formula.Source{Document: "mix design, cement " + g.cement.String()}),
		formula.Given(formula.Q(symbol, oneWhenZero(g.aggregate), formula.One, "factor on the modulus for the aggregate"), aggregate),
	}
	lines = append(lines, g.curing.inputs()...)
	lines = append(lines, exposure.inputs()...)
	return append(lines, testInputs(g.tests)...)
}

func oneWhenZero(factor float64) float64 {
	if factor == 0 {
		return 1
	}
	return factor
}

func (g growth) strength28() formula.Quantity {
	return formula.Q("f_ck", g.fck, formula.Pascal, "characteristic cylinder strength at 28 d")
}

// byFormula is fcm(t) on the temperature-adjusted age.
func (g growth) byFormula(age float64, k *chain) formula.Quantity {
	t := formula.Q("t", age, formula.Day, "age")
	if len(g.curing) > 0 {
		t = formula.Q("t", g.curing.StrengthAge(age), formula.Day, fmt.Sprintf("age %g d adjusted for the curing temperature", age))
	}
	beta := k.number("β_cc", "strength gain", "exp(s*(1 - sqrt(28/t)))", g.places.gain,
		formula.Q("s", g.s, formula.One, "cement "+g.cement.String()), t)
	return k.stress("f_cm_t", "mean cylinder strength at the age", "β_cc*(f_ck + 8e6)", g.places.mean, beta, g.strength28())
}

// young says that no standard gives a characteristic strength at this age
// without a test: up to 3 days, by the calendar or by the adjusted age.
func (g growth) young(age float64) bool { return math.Min(age, g.curing.StrengthAge(age)) <= 3 }

// strengths are fcm(t) and fck(t) by formula and test.
func (g growth) strengths(age float64, k *chain) strengths {
	test := latest(g.tests, age)
	if test != nil && (g.young(age) || test.asMeasured(age)) {
		return k.tested(*test)
	}
	mean := g.byFormula(age, k)
	if test != nil {
		return g.afterTest(*test, mean, k)
	}
	characteristic := k.stress("f_ck_t", "characteristic cylinder strength at the age", "min(f_ck, f_cm_t - 8e6)",
		g.places.characteristic, g.strength28(), mean)
	if k.err == nil && characteristic.Value <= 0 {
		k.err = fmt.Errorf("%w: age = %g d: fck(t) = fcm(t) − 8 MPa = %.3g Pa is not positive: must be asked at a later age, or have a Test", ErrConcrete, age, characteristic.Value)
	}
	return strengths{mean, characteristic, g.young(age), "formula"}
}

// afterTest joins an earlier test and the formula: the larger of the two, the formula
// scaled down by test over formula when the test is below it. The characteristic
// strength is below a curve that rests on a mean of tests by as much as the test's own
// did, see [Test.strengths]; below a formula that the test does not hold down by 8 MPa.
func (g growth) afterTest(test Test, promised formula.Quantity, k *chain) strengths {
	testMean, testCharacteristic, err := test.strengths()
	then := chain{source: k.source}
	promisedThen := g.byFormula(test.Age, &then)
	for _, e := range []error{err, then.err} {
		if k.err == nil {
			k.err = e
		}
	}
	if k.err != nil {
		return strengths{}
	}
	shownMean := renamed(testMean.Result, "f_cm_test", "mean cylinder strength shown by "+test.String())
	shown := renamed(testCharacteristic.Result, "f_ck_test", "characteristic cylinder strength shown by "+test.String())
	promised = renamed(promised, "f_cm_t0", "mean strength by the formula at the age")
	k.lines[len(k.lines)-1].Result = promised
	mean := k.stress("f_cm_t", "mean cylinder strength at the age, strength curve limited by the test result",
		"max(f_cm_test, f_cm_t0*min(1, f_cm_test/f_cm_then))", g.places.gain+" with the test", shownMean, promised,
		renamed(promisedThen, "f_cm_then", "mean strength by the formula at the age of the test"))
	const name = "characteristic cylinder strength at the age"
	expression, place := "max(f_ck_test, min(f_ck, f_cm_t - 8e6))", g.places.characteristic+" with the test"
	operands := []formula.Quantity{shown, g.strength28(), mean}
	switch {
	case shownMean.Value >= promisedThen.Value:
		expression, operands[2] = "max(f_ck_test, min(f_ck, f_cm_t0 - 8e6))", promised
	case test.Statistic == Mean:
		expression, place = "max(f_ck_test, min(f_ck, f_cm_t - 8e6*sqrt(1 + 1/n)))", place+" and EN 1990 D.7.2, Table D1, V_X known"
		operands = append(operands, formula.Q("n", float64(test.Specimens), formula.One, "number of specimens"))
	}
	characteristic := k.stress("f_ck_t", name, expression, place, operands...)
	return strengths{mean, characteristic, false, "formula and " + test.String()}
}

// tested is the strength as measured.
func (k *chain) tested(test Test) strengths {
	mean, characteristic, err := test.strengths()
	if err != nil {
		k.err = err
		return strengths{}
	}
	if test.Statistic == Characteristic {
		k.lines = append(k.lines, characteristic, mean)
	} else {
		k.lines = append(k.lines, mean, characteristic)
	}
	return strengths{mean.Result, characteristic.Result, false, test.String()}
}

// latest is the last test at or before the age. Concrete does not lose strength: where
// a later test shows less, the earlier one was wrong, and the lowest of them stands in
// its place, with the words of both.
func latest(tests []Test, age float64) *Test {
	for i := len(tests) - 1; i >= 0; i-- {
		if tests[i].Age > age {
			continue
		}
		governing := tests[i]
		least, err := governing.characteristic()
		for _, later := range tests[i+1:] {
			if err != nil {
				break
			}
			if shown, e := later.characteristic(); !later.asked && (e != nil || shown < least) {
				least, err = shown, e
				governing = later
				governing.below = &tests[i]
			}
		}
		return &governing
	}
	return nil
}

// asMeasured says that at the age the strength of the test holds as it was measured.
func (t *Test) asMeasured(age float64) bool { return age == t.Age || t.below != nil }

// checkTests reports the first test that is out of range or out of order.
func checkTests(tests []Test) error {
	for i, test := range tests {
		if err := test.check(); err != nil {
			return err
		}
		if i > 0 && test.Age <= tests[i-1].Age {
			return fmt.Errorf("%w: Test.Age = %g d follows %g d: must be ascending ages", ErrConcrete, test.Age, tests[i-1].Age)
		}
	}
	return nil
}

// shown is the tests before an age and one more, a characteristic cylinder
// strength (Pa) at that age (d).
func shown(tests []Test, age, strength float64) []Test {
	kept := make([]Test, 0, len(tests)+1)
	for _, test := range tests {
		if test.Age < age {
			kept = append(kept, test)
		}
	}
	return append(kept, Test{Age: age, Strength: strength, Specimen: Cylinder, Specimens: 1, Statistic: Characteristic, Report: "strength asked for", asked: true})
}

// testInputs are the tests as given lines.
func testInputs(tests []Test) []formula.Line {
	var lines []formula.Line
	for i, test := range tests {
		lines = append(lines, formula.Given(
			formula.Q(fmt.Sprintf("f_test%d", i+1), test.Strength, formula.Pascal, test.String()), formula.Source{Document: "test report"}))
	}
	return lines
}

func checkAge(age float64) error {
	return within(bound{"age", age, "d", leastAge, oldest, ""})
}

// creepMean is the mean strength at 28 d (Pa) that decides creep: fck + 8 MPa,
// less in the ratio of the last test to the formula at the test's age where the
// test is below it. shown and promised are the two strengths (Pa) of that
// ratio, 0 where it does not count.
func (g growth) creepMean() (mean, shown, promised float64, err error) {
	mean = g.fck + 8e6
	if len(g.tests) == 0 {
		return mean, 0, 0, nil
	}
	test := g.tests[len(g.tests)-1]
	if shown, err = test.mean(); err != nil {
		return 0, 0, 0, err
	}
	promised = math.Exp(g.s*(1-math.Sqrt(28/g.curing.StrengthAge(test.Age)))) * mean
	if shown >= promised {
		return mean, 0, 0, nil
	}
	return mean * (shown / promised), shown, promised, nil
}

// creepMeanLine is the line of creepMean.
func (g growth) creepMeanLine(k *chain, place string) formula.Quantity {
	_, shown, promised, err := g.creepMean()
	switch {
	case err != nil:
		k.err = err
		return formula.Quantity{}
	case promised == 0:
		return k.stress("f_cm", "mean cylinder strength at 28 d", "f_ck + 8e6", place, g.strength28())
	}
	test := g.tests[len(g.tests)-1]
	return k.stress("f_cm", "mean cylinder strength at 28 d, limited by the test result", "(f_ck + 8e6)*f_cm_test/f_cm_then", place+" with the test", g.strength28(),
		formula.Q("f_cm_test", shown, formula.Pascal, "mean cylinder strength shown by "+test.String()),
		formula.Q("f_cm_then", promised, formula.Pascal, "mean strength by the formula at the age of the test"))
}
