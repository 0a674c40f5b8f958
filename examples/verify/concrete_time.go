package main

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/concrete"
)

// ages is the row of one number of a concrete over time.
func ages(name string, ours func() (float64, error)) Check {
	return Check{Name: name, Package: "section/concrete", Ours: ours}
}

// longAgo is t = ∞: the rest of (3.10) is below 1e-6.
const longAgo = 1e9 // d

// shrinkage is Tables 3.2 and 3.3 and the printed factors of their formulas.
func shrinkage() []Check {
	const table32 = "EN 1992-1-1:2004, Table 3.2 (nominal unrestrained drying shrinkage, class N)"
	const table33 = "EN 1992-1-1:2004, Table 3.3"
	final := func(fck, humidity, size float64) func() (float64, error) {
		return func() (float64, error) {
			s, err := concrete.EN1992{Fck: fck * 1e6, Cement: concrete.ClassN,
				Exposure: concrete.Exposure{Humidity: humidity, NotionalSize: size}}.Shrinkage(longAgo)
			return s.Drying, err
		}
	}
	times := func(f func() (float64, error), factor float64) func() (float64, error) {
		return func() (float64, error) {
			v, err := f()
			return v * factor, err
		}
	}
	var rows []Check
	humidities := [...]float64{0.2, 0.4, 0.6, 0.8, 0.9, 1}
	for _, class := range []struct {
		fck     float64
		printed [6]float64
	}{
		{20, [6]float64{.62, .58, .49, .30, .17, 0}},
		{40, [6]float64{.48, .46, .38, .24, .13, 0}},
		{60, [6]float64{.38, .36, .30, .19, .10, 0}},
		{80, [6]float64{.30, .28, .24, .15, .08, 0}},
		{90, [6]float64{.27, .25, .21, .13, .07, 0}},
	} {
		for i, printed := range class.printed {
			rows = append(rows, ages(fmt.Sprintf("C%g at %g %% humidity: εcd,0", class.fck, 100*humidities[i]), times(final(class.fck, humidities[i], 0.1), 1e3)).
				from(Recalled, table32).is(printed, "‰", 0.005, lastDigit))
		}
	}
	const formula = "EN 1992-1-1:2004, B.2, (B.11)"
	drying := 0.85 * (220 + 110*4) * math.Exp(-0.12*3.8) * 1.55 * (1 - 0.6*0.6*0.6)
	rows = append(rows, ages("C30 class N at 60 % humidity: εcd,0", times(final(30, 0.6, 0.1), 1e6)).
		from(ClosedForm, formula).is(drying, "µε", 1e-6*drying, "what drying is left at the age taken for infinity"))
	const between = "EN 1992-1-1:2004, Table 3.3, linear between the printed values"
	for _, size := range []struct {
		h0, kh float64
		kind   Kind
		source string
	}{
		{100, 1, Recalled, table33}, {200, 0.85, Recalled, table33}, {300, 0.75, Recalled, table33},
		{500, 0.70, Recalled, table33}, {800, 0.70, Recalled, table33},
		{250, 0.80, ClosedForm, between}, {400, 0.725, ClosedForm, between},
	} {
		rows = append(rows, ages(fmt.Sprintf("kh of a notional size of %g mm", size.h0), func() (float64, error) {
			thick, err := final(40, 0.6, size.h0/1e3)()
			if err != nil {
				return 0, err
			}
			thin, err := final(40, 0.6, 0.1)()
			return thick / thin, err
		}).from(size.kind, size.source).is(size.kh, "1", 1e-6, "what drying is left at the age taken for infinity"))
	}
	return append(rows, autogenous()...)
}

// autogenous is (3.11) to (3.13) at ages whose square root is a whole number.
func autogenous() []Check {
	const source = "EN 1992-1-1:2004, 3.1.4(6), (3.11) to (3.13)"
	var rows []Check
	for _, t := range []float64{1, 25, 100} {
		value := 2.5 * 40 * (1 - math.Exp(-0.2*math.Sqrt(t)))
		rows = append(rows, ages(fmt.Sprintf("C50 at %g d: autogenous shrinkage 100(1 − exp(−0.2√t))", t), func() (float64, error) {
			s, err := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.3}}.Shrinkage(t)
			return s.Autogenous * 1e6, err
		}).from(ClosedForm, source).is(value, "µε", same(value), floatRounding))
	}
	return rows
}

// creep is what of the creep formulas has been printed or can be done on paper.
func creep() []Check {
	const lrfd = "AASHTO LRFD, editions up to 2004, 5.4.2.3.2: "
	older := func(strength, vs float64) (float64, error) {
		const ksi, inch = 6.894757293168361e6, 0.0254
		return concrete.AASHTO{Strength: strength * ksi, Cement: concrete.TypeI, Edition: concrete.UpTo2004,
			Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 2 * vs * inch}}.Creep(longAgo, 7)
	}
	ratio := func(above, below func() (float64, error)) func() (float64, error) {
		return func() (float64, error) {
			a, err := above()
			if err != nil {
				return 0, err
			}
			b, err := below()
			return a / b, err
		}
	}
	creepOf := func(strength, vs float64) func() (float64, error) {
		return func() (float64, error) { return older(strength, vs) }
	}
	thick := func(vs float64) float64 { return 1.80 + 1.77*math.Exp(-0.54*vs) }
	nonlinear := func(ratio float64) func() (float64, error) {
		return func() (float64, error) { return concrete.NonlinearCreep(ratio) }
	}
	return []Check{
		ages("f′c 6 ksi over 3 ksi: ratio of kf", ratio(creepOf(6, 3), creepOf(3, 3))).
			from(Recalled, lrfd+"kf = 1/(0.67 + f′c/9)").is((0.67+3./9)/(0.67+6./9), "1", 1e-12, floatRounding),
		ages("V/S 4.5 in over 3 in: ratio of kc at infinity", ratio(creepOf(6, 4.5), creepOf(6, 3))).
			from(Recalled, lrfd+"kc(∞) = (1.80 + 1.77·exp(−0.54·V/S))/2.587").is(thick(4.5)/thick(3), "1", 1e-6, "what creep is left at the age taken for infinity"),
		ages("stress of 0.55 of the strength: factor exp(0.15) on creep", nonlinear(0.55)).
			from(ClosedForm, "EN 1992-1-1:2004, 3.1.4(4), (3.7)").is(math.Exp(0.15), "1", 1e-12, floatRounding),
		ages("stress of 0.45 of the strength: creep stays linear", nonlinear(0.45)).
			from(ClosedForm, "EN 1992-1-1:2004, 3.1.4(4)").is(1, "1", 0, "exact"),
		ages("age 1 d class R: creep age 9/(2 + 1) + 1", func() (float64, error) { return concrete.Curing{}.CreepAge(1, concrete.ClassR), nil }).
			from(Recalled, "EN 1992-1-1:2004, B.1(2), (B.9)").is(4, "d", 1e-12, floatRounding),
		ages("age 1 d class S: creep age 1/4 is held at half a day", func() (float64, error) { return concrete.Curing{}.CreepAge(1, concrete.ClassS), nil }).
			from(Recalled, "EN 1992-1-1:2004, B.1(2), (B.9)").is(0.5, "d", 0, "exact"),
		ages("one day at 20 °C: the constants of the formula are rounded", func() (float64, error) {
			return concrete.Curing{{Until: 1, Celsius: 20}}.StrengthAge(1), nil
		}).from(Recalled, "EN 1992-1-1:2004, B.1(3), (B.10): exp(13.65 − 4000/293)").is(math.Exp(13.65-4000./293), "d", 1e-12, floatRounding),
		ages("f′c 5 ksi moist cured type I at 4 d: t/(4 + 0.85t)", func() (float64, error) {
			const ksi = 6.894757293168361e6
			s, err := concrete.AASHTO{Strength: 5 * ksi, Cement: concrete.TypeI}.At(4)
			return s.Characteristic / ksi, err
		}).from(Recalled, "ACI 209R-92, 2.2.1, (2-1): 5·4/7.4").is(20/7.4, "ksi", 1e-12, floatRounding),
	}
}
