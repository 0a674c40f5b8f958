package concrete

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Creep is φ(age, loaded) = φbc + φdc, basic and drying creep, for stresses up
// to 0.4·fcm(loaded), with fcm limited by the last test as in [EN1992.Creep]. fib Model Code 2010, 5.1.9.4.3, (5.1-63) to (5.1-73);
// confirm against the edition in force.
func (c FIB2010) Creep(age, loaded float64) (float64, error) {
	if err := c.checkCreep(age, loaded); err != nil {
		return 0, err
	}
	mean, _, _, err := c.growth().creepMean()
	if err != nil {
		return 0, err
	}
	fcm, h0, t := mean/1e6, c.Exposure.NotionalSize*1e3, age-loaded
	t0 := c.Curing.CreepAge(loaded, c.Cement)
	basic := 1.8 / math.Pow(fcm, 0.7) * math.Log1p(math.Pow(30/t0+0.035, 2)*t)
	slow := math.Sqrt(35 / fcm)
	betaH := math.Min(1.5*h0+250*slow, 1500*slow)
	drying := 412 / math.Pow(fcm, 1.4) * (1 - c.Exposure.Humidity) / math.Cbrt(0.1*h0/100) / (0.1 + math.Pow(t0, 0.2)) *
		math.Pow(t/(betaH+t), 1/(2.3+3.5/math.Sqrt(t0)))
	return basic + drying, nil
}

func (c FIB2010) checkCreep(age, loaded float64) error {
	if err := c.check(); err != nil {
		return err
	}
	if err := c.Exposure.check(0.4); err != nil {
		return err
	}
	if err := c.checkCuring(); err != nil {
		return err
	}
	if loaded < 1 {
		return fmt.Errorf("%w: loaded = %g d: must be 1 d or later (fib Model Code 2010, 5.1.9.4.2)", ErrConcrete, loaded)
	}
	return checkLoading(age, loaded)
}

// CreepUnder is φ under a compressive stress (Pa): between 0.4 and
// 0.6·fcm(loaded) it is φ·exp(1.5(kσ − 0.4)), kσ = σ/fcm(loaded); beyond 0.6 an
// error. fib Model Code 2010, 5.1.9.4.3, (5.1-74).
func (c FIB2010) CreepUnder(age, loaded, stress float64) (float64, error) {
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
	ratio := stress / state.Mean
	if ratio > 0.6 {
		return 0, fmt.Errorf("%w: stress = %g Pa at %g d is %.3f·fcm(t0): must be up to 0.6 (fib Model Code 2010, 5.1.9.4.3)", ErrConcrete, stress, loaded, ratio)
	}
	return creep * math.Exp(1.5*math.Max(0, ratio-0.4)), nil
}

// CreepLines derive φ(age, loaded); see [FIB2010.Creep].
func (c FIB2010) CreepLines(age, loaded float64) ([]formula.Line, error) {
	if err := c.checkCreep(age, loaded); err != nil {
		return nil, err
	}
	k := &chain{source: modelCode}
	fcm := c.growth().creepMeanLine(k, "5.1.4, (5.1-1)")
	h0, time := c.Exposure.size(), underLoad(age, loaded)
	t0 := k.creepAge(c.Curing, loaded, c.Cement, "5.1.9.4.3, (5.1-73)")
	basic := k.number("φ_bc", "basic creep", "1.8/pow(f_cm/1e6, 0.7)*ln(1 + pow(30/t_0 + 0.035, 2)*t_l)", "5.1.9.4.3, (5.1-64) to (5.1-66)", fcm, t0, time)
	slow := k.number("α_fcm", "effect of strength on the duration", "sqrt(35e6/f_cm)", "5.1.9.4.3, (5.1-71d)", fcm)
	betaH := k.line("β_h", "duration of drying creep", formula.Day, "min(1.5*h_0*1e3 + 250*α_fcm, 1500*α_fcm)", "5.1.9.4.3, (5.1-71c)", h0, slow)
	growth := k.number("β_dc", "development of drying creep", "pow(t_l/(β_h + t_l), 1/(2.3 + 3.5/sqrt(t_0)))", "5.1.9.4.3, (5.1-71a) and (5.1-71b)", time, betaH, t0)
	drying := k.number("φ_dc", "drying creep", "412/pow(f_cm/1e6, 1.4)*(1 - RH)/pow(0.1*h_0*1e3/100, 1/3)/(0.1 + pow(t_0, 0.2))*β_dc",
		"5.1.9.4.3, (5.1-67) to (5.1-70)", fcm, c.Exposure.humidity(), h0, t0, growth)
	k.number("φ", "creep coefficient", "φ_bc + φ_dc", "5.1.9.4.3, (5.1-63)", basic, drying)
	return k.lines, k.err
}

// Shrinkage is εcbs + εcds at an age, basic (autogenous) and drying from the
// end of curing. fib Model Code 2010, 5.1.9.4.4, (5.1-75) to (5.1-82), relative
// humidity 40 to 100 %: from 99 %·βs1 on the concrete swells. Confirm against
// the edition in force.
func (c FIB2010) Shrinkage(age float64) (Shrinkage, error) {
	if err := c.checkShrinkage(age); err != nil {
		return Shrinkage{}, err
	}
	fcm, h0, t := c.Fck/1e6+8, c.Exposure.NotionalSize*1e3, c.Exposure.drying(age)
	strain, factor, rate := c.Cement.shrinkage2010()
	basic := strain * 1e-6 * math.Pow(0.1*fcm/(6+0.1*fcm), 2.5) * -math.Expm1(-0.2*math.Sqrt(age))
	drying := (220 + 110*factor) * math.Exp(-rate*fcm) * 1e-6 * c.humidityFactor() * math.Sqrt(t/(0.035*h0*h0+t))
	return Shrinkage{Total: basic + drying, Drying: drying, Autogenous: basic}, nil
}

// humidityFactor is −βRH of (5.1-81): positive where the concrete dries.
func (c FIB2010) humidityFactor() float64 {
	if c.Exposure.Humidity >= 0.99*math.Min(1, math.Pow(35/(c.Fck/1e6+8), 0.1)) {
		return -0.25
	}
	return 1.55 * (1 - math.Pow(c.Exposure.Humidity, 3))
}

func (c FIB2010) checkShrinkage(age float64) error {
	if err := c.check(); err != nil {
		return err
	}
	if err := c.Exposure.check(0.4); err != nil {
		return err
	}
	if err := c.checkCuring(); err != nil {
		return err
	}
	return checkAge(age)
}

// checkCuring refuses moist curing for longer than the code's formulas cover.
func (c FIB2010) checkCuring() error {
	return within(bound{"Exposure.DryingFrom", c.Exposure.DryingFrom, "d", 0, 14, " of moist curing (fib Model Code 2010, 5.1.9.4.2)"})
}

// shrinkage2010 are αbs, αds1 and αds2 of Table 5.1-13.
func (c Cement) shrinkage2010() (basic, factor, rate float64) {
	return c.pick(800, 700, 600), c.pick(3, 4, 6), c.pick(0.013, 0.012, 0.012)
}

// ShrinkageLines derive the strain at an age; see [FIB2010.Shrinkage].
func (c FIB2010) ShrinkageLines(age float64) ([]formula.Line, error) {
	if err := c.checkShrinkage(age); err != nil {
		return nil, err
	}
	k := &chain{source: modelCode}
	strain, factor, rate := c.Cement.shrinkage2010()
	constant := func(symbol string, value float64) formula.Quantity {
		return formula.Q(symbol, value, formula.One, "cement "+c.Cement.String()+", Table 5.1-13")
	}
	fcm := k.stress("f_cm", "mean cylinder strength at 28 d", "f_ck + 8e6", "5.1.4, (5.1-1)", c.growth().strength28())
	basic := k.number("ε_cbs", "basic shrinkage", "α_bs*1e-6*pow(f_cm/1e7/(6 + f_cm/1e7), 2.5)*(1 - exp(-0.2*sqrt(t)))", "5.1.9.4.4, (5.1-76), (5.1-78) and (5.1-79)",
		constant("α_bs", strain), fcm, formula.Q("t", age, formula.Day, "age"))
	humidity := k.number("β_RH", "effect of humidity", "1.55*(1 - pow(RH, 3))", "5.1.9.4.4, (5.1-81)", c.Exposure.humidity())
	if c.humidityFactor() < 0 {
		k.lines = k.lines[:len(k.lines)-1]
		humidity = formula.Q("β_RH", c.humidityFactor(), formula.One, "effect of humidity: swelling, (5.1-81)")
	}
	drying := k.number("ε_cds", "drying shrinkage", "(220 + 110*α_ds1)*exp(-α_ds2*f_cm/1e6)*1e-6*β_RH*sqrt(t_d/(0.035*pow(h_0*1e3, 2) + t_d))",
		"5.1.9.4.4, (5.1-77), (5.1-80) and (5.1-82)", constant("α_ds1", factor), constant("α_ds2", rate), fcm, humidity, c.Exposure.size(), c.Exposure.dryingTime(age))
	k.number("ε_cs", "shrinkage", "ε_cbs + ε_cds", "5.1.9.4.4, (5.1-75)", basic, drying)
	return k.lines, k.err
}
