package main

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/concrete"
)

// concretes is every check of concrete at an age.
func concretes() []Check {
	rows := strengthClasses()
	rows = append(rows, strengthGain()...)
	rows = append(rows, shrinkage()...)
	return append(rows, creep()...)
}

const table31 = "EN 1992-1-1:2004, Table 3.1 (printed values)"

// strengthClasses is the printed table of tensile strength and modulus; fctm of
// C60 prints 3.1 for its 5 % fractile though 0.7·4.355 = 3.048.
func strengthClasses() []Check {
	var rows []Check
	for _, class := range []struct{ fck, tension, low, modulus float64 }{
		{30, 2.9, 2.0, 33}, {35, 3.2, 2.2, 34}, {40, 3.5, 2.5, 35}, {45, 3.8, 2.7, 36}, {50, 4.1, 2.9, 37},
		{55, 4.2, 3.0, 38}, {60, 4.4, 3.1, 39}, {70, 4.6, 0, 41}, {80, 4.8, 0, 42}, {90, 5.0, 0, 44},
	} {
		name := fmt.Sprintf("C%g at 28 d: ", class.fck)
		rows = append(rows,
			atAge(name+"fctm", class.fck, concrete.ClassN, 28, tensileMean).from(Recalled, table31).is(class.tension, "MPa", 0.05, lastDigit),
			atAge(name+"Ecm", class.fck, concrete.ClassN, 28, modulus).from(Recalled, table31).is(class.modulus, "GPa", 0.5, lastDigit))
		low := atAge(name+"fctk,0.05", class.fck, concrete.ClassN, 28, tensileLow).from(Recalled, table31)
		switch class.low {
		case 0: // not read in the printed table
		case 3.1:
			rows = append(rows, low.is(class.low, "MPa", 0.06, "the table takes 0.7 of the rounded 4.4"))
		default:
			rows = append(rows, low.is(class.low, "MPa", 0.05, lastDigit))
		}
	}
	return rows
}

// strengthGain is (3.2) at ages where √(28/t) is a whole number or a half.
func strengthGain() []Check {
	const gain = "EN 1992-1-1:2004, 3.1.2(6), (3.1) and (3.2): βcc = exp(s(1 − √(28/t)))"
	const (
		strength = gain + "; 3.1.2(5)"
		tension  = gain + "; 3.1.2(9), (3.4)"
		elastic  = gain + "; 3.1.3(3), (3.5)"
	)
	exactly := func(name, source string, fck float64, cement concrete.Cement, age float64, read func(concrete.State) float64, value float64, unit string) Check {
		return atAge(name, fck, cement, age, read).from(ClosedForm, source).is(value, unit, same(value), floatRounding)
	}
	return []Check{
		exactly("C45 class R at 7 d: fcm(t) = 53·exp(−0.20)", gain, 45, concrete.ClassR, 7, mean, 53*math.Exp(-0.20), "MPa"),
		exactly("C45 class N at 7 d: fcm(t) = 53·exp(−0.25)", gain, 45, concrete.ClassN, 7, mean, 53*math.Exp(-0.25), "MPa"),
		exactly("C45 class S at 7 d: fcm(t) = 53·exp(−0.38)", gain, 45, concrete.ClassS, 7, mean, 53*math.Exp(-0.38), "MPa"),
		exactly("C50 class R at 28/9 d: fck(t) = 58·exp(−0.40) − 8", strength, 50, concrete.ClassR, 28./9, characteristic, 58*math.Exp(-0.40)-8, "MPa"),
		exactly("C50 class R at 1.75 d: fcm(t) = 58·exp(−0.60)", gain, 50, concrete.ClassR, 1.75, mean, 58*math.Exp(-0.60), "MPa"),
		exactly("C50 class R at 112 d: fcm(t) = 58·exp(0.10)", gain, 50, concrete.ClassR, 112, mean, 58*math.Exp(0.10), "MPa"),
		exactly("C50 class R at 112 d: fck(t) stays fck", strength, 50, concrete.ClassR, 112, characteristic, 50, "MPa"),
		exactly("C40 class N at 7 d: fctm(t) = exp(−0.25)·0.3·40^(2/3)", tension, 40, concrete.ClassN, 7, tensileMean, math.Exp(-0.25)*0.3*math.Cbrt(1600), "MPa"),
		exactly("C40 class N at 112 d: fctm(t) = exp(0.125)^(2/3)·0.3·40^(2/3)", tension, 40, concrete.ClassN, 112, tensileMean, math.Exp(0.125*2/3)*0.3*math.Cbrt(1600), "MPa"),
		exactly("C40 class N at 7 d: Ecm(t) = exp(−0.25·0.3)·22·4.8^0.3", elastic, 40, concrete.ClassN, 7, modulus, math.Exp(-0.075)*22*math.Pow(4.8, 0.3), "GPa"),
	}
}

// atAge is a row that compares one value of a concrete of strength fck (MPa).
func atAge(name string, fck float64, cement concrete.Cement, age float64, read func(concrete.State) float64) Check {
	return Check{Name: name, Package: "section/concrete", Ours: func() (float64, error) {
		state, err := concrete.EN1992{Fck: fck * 1e6, Cement: cement}.At(age)
		return read(state), err
	}}
}

func mean(s concrete.State) float64           { return s.Mean / 1e6 }
func characteristic(s concrete.State) float64 { return s.Characteristic / 1e6 }
func tensileMean(s concrete.State) float64    { return s.TensileMean / 1e6 }
func tensileLow(s concrete.State) float64     { return s.TensileLow / 1e6 }
func modulus(s concrete.State) float64        { return s.Modulus / 1e9 }
