package concrete

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Creep is φ(age, loaded) by EN 1992-1-1:2004 Annex B.1, (B.1) to (B.9), for
// stresses up to 0.45·fck(loaded). The age at loading is adjusted for
// temperature and cement, the time under load is not; h0 enters (B.3) by its
// cube root and the factors α1 to α3 act only above fcm = 35 MPa. fcm is fck + 8
// MPa; where the last of Tests, of whatever age, is below the formula it is
// less in the ratio of the two. Confirm against the edition in force.
func (c EN1992) Creep(age, loaded float64) (float64, error) {
	if err := c.checkCreep(age, loaded); err != nil {
		return 0, err
	}
	mean, _, _, err := c.growth().creepMean()
	if err != nil {
		return 0, err
	}
	fcm := mean / 1e6
	h0 := c.Exposure.NotionalSize * 1e3 // mm
	ratio := math.Min(1, 35/fcm)
	humidity := (1 + (1-c.Exposure.Humidity)/(0.1*math.Cbrt(h0))*math.Pow(ratio, 0.7)) * math.Pow(ratio, 0.2) // (B.3)
	strength := 16.8 / math.Sqrt(fcm)                                                                         // (B.4)
	maturity := 1 / (0.1 + math.Pow(c.Curing.CreepAge(loaded, c.Cement), 0.2))                                // (B.5)
	slow := math.Sqrt(ratio)
	betaH := math.Min(1.5*(1+math.Pow(1.2*c.Exposure.Humidity, 18))*h0+250*slow, 1500*slow) // (B.8)
	t := age - loaded
	return humidity * strength * maturity * math.Pow(t/(betaH+t), 0.3), nil // (B.1), (B.2), (B.7)
}

func (c EN1992) checkCreep(age, loaded float64) error {
	if err := c.check(); err != nil {
		return err
	}
	if err := c.Exposure.check(0.4); err != nil {
		return err
	}
	return checkLoading(age, loaded)
}

// CreepModulus is the tangent modulus at 28 days, 1.05·Ecm (Pa), whatever the
// age at loading, with the fcm of [EN1992.Creep]. EN 1992-1-1:2004 3.1.4(2).
func (c EN1992) CreepModulus(loaded float64) (float64, error) {
	if err := c.check(); err != nil {
		return 0, err
	}
	if err := checkLoading(loaded, loaded); err != nil {
		return 0, err
	}
	mean, _, _, err := c.growth().creepMean()
	return 1.05 * c.aggregate() * 22e9 * math.Pow(mean/1e7, 0.3), err
}

// CreepUnder is φ under a compressive stress (Pa): above 0.45·fck(loaded) it is
// φ·[NonlinearCreep](σ/fck(loaded)). EN 1992-1-1:2004 with AC:2010, 3.1.4(4),
// (3.7); the text of 2004 divides by fcm(loaded) instead. A stress of
// fck(loaded) and more is an error.
func (c EN1992) CreepUnder(age, loaded, stress float64) (float64, error) {
	creep, err := c.Creep(age, loaded)
	if err == nil {
		err = checkStress(stress)
	}
	if err != nil {
		return 0, err
	}
	state, err := c.At(loaded)
	if err != nil {
		return 0, err
	}
	factor, err := NonlinearCreep(stress / state.Characteristic)
	return creep * factor, err
}

// NonlinearCreep is the factor on φ at a ratio kσ of stress to strength at
// loading: 1 up to 0.45, exp(1.5(kσ − 0.45)) above. EN 1992-1-1 3.1.4(4), (3.7):
// kσ = σ/fck(t0) with AC:2010, σ/fcm(t0) in the text of 2004. Valid for kσ < 1.
func NonlinearCreep(ratio float64) (float64, error) {
	if !(ratio >= 0 && ratio < 1) {
		return 0, fmt.Errorf("%w: stress over strength at loading = %.4g: must be 0 to below 1 (45 %% is 0.45)", ErrConcrete, ratio)
	}
	return math.Exp(1.5 * math.Max(0, ratio-0.45)), nil
}

// CreepLines derive φ(age, loaded); see [EN1992.Creep].
func (c EN1992) CreepLines(age, loaded float64) ([]formula.Line, error) {
	if err := c.checkCreep(age, loaded); err != nil {
		return nil, err
	}
	k := &chain{source: clause}
	fcm := c.growth().creepMeanLine(k, "Table 3.1")
	rh, h0 := c.Exposure.humidity(), c.Exposure.size()
	humidity := k.number("φ_RH", "effect of humidity and size",
		"(1 + (1 - RH)/(0.1*pow(h_0*1e3, 1/3))*pow(min(1, 35e6/f_cm), 0.7))*pow(min(1, 35e6/f_cm), 0.2)", "B.1, (B.3)", rh, h0, fcm)
	strength := k.number("β_fcm", "effect of strength", "16.8/sqrt(f_cm/1e6)", "B.1, (B.4)", fcm)
	maturity := k.number("β_t0", "effect of the age at loading", "1/(0.1 + pow(t_0, 0.2))", "B.1, (B.5)", k.creepAge(c.Curing, loaded, c.Cement, "B.1(2), (B.9)"))
	betaH := k.line("β_H", "duration of creep", formula.Day,
		"min(1.5*(1 + pow(1.2*RH, 18))*h_0*1e3 + 250*sqrt(min(1, 35e6/f_cm)), 1500*sqrt(min(1, 35e6/f_cm)))", "B.1, (B.8)", rh, h0, fcm)
	growth := k.number("β_c", "development of creep", "pow(t_l/(β_H + t_l), 0.3)", "B.1, (B.7)", underLoad(age, loaded), betaH)
	notional := k.number("φ_0", "notional creep coefficient", "φ_RH*β_fcm*β_t0", "B.1, (B.2)", humidity, strength, maturity)
	k.number("φ", "creep coefficient", "φ_0*β_c", "B.1, (B.1)", notional, growth)
	return k.lines, k.err
}

// creepAge is the line of the age at loading adjusted for the cement.
func (k *chain) creepAge(curing Curing, loaded float64, cement Cement, place string) formula.Quantity {
	return k.line("t_0", "age at loading adjusted for temperature and cement", formula.Day,
		"max(0.5, t_T*pow(9/(2 + pow(t_T, 1.2)) + 1, α))", place,
		formula.Q("t_T", curing.StrengthAge(loaded), formula.Day, fmt.Sprintf("age %g d at loading adjusted for temperature", loaded)),
		formula.Q("α", cement.alpha(), formula.One, "cement "+cement.String()))
}
