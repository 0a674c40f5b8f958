package tendon

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Relaxation is the relaxation class of a prestressing steel, EN 1992-1-1:2004
// 3.3.2(4).
type Relaxation int

// The zero value is an error where a class is needed.
const (
	Class1 Relaxation = iota + 1 // wire or strand, ordinary relaxation
	Class2                       // wire or strand, low relaxation
	Class3                       // hot rolled and processed bars
)

func (r Relaxation) String() string {
	if r < Class1 || r > Class3 {
		return "not stated"
	}
	return [...]string{"", "class 1", "class 2", "class 3"}[r]
}

// FinalRelaxation is the time at which relaxation is taken as complete, 500 000
// hours (about 57 years), in days. EN 1992-1-1:2004 3.3.2(8).
const FinalRelaxation = 500000.0 / 24

// Loss is the loss of stress (Pa, a magnitude) by relaxation at constant length
// from the initial stress (Pa) over a time (d): (3.28) to (3.30) of EN
// 1992-1-1:2004 3.3.2(7), with ρ1000 of 3.3.2(6), 8, 2.5 and 4 % for the classes
// 1, 2 and 3; complete after [FinalRelaxation]. Valid at 20 °C for initial
// stresses up to 0.85 of fpk (Pa); tests support 0.6 to 0.8. The formula does
// not give ρ1000 back at 0.7·fpk and 1000 h. Confirm against the edition in
// force. The error wraps [ErrTendon].
func (r Relaxation) Loss(initial, fpk, days float64) (float64, error) {
	over, err := r.Over(days, fpk, initial)
	return over.Loss(initial), err
}

// Relaxing is the relaxation of a steel over a time, made by [Relaxation.Over], which
// checks it; [Relaxing.Loss] has no error.
type Relaxing struct {
	class          Relaxation
	fpk, kilohours float64
}

// relaxations are the constants of (3.28) to (3.30) by class: factor, exponent, and ρ1000
// in % of 3.3.2(6).
var relaxations = [...]struct {
	equation           string
	factor, rate, loss float64
}{{}, {"(3.28)", 5.39, 6.7, 8}, {"(3.29)", 0.66, 9.1, 2.5}, {"(3.30)", 1.98, 8, 4}}

// Over is the relaxation over a time (d) of a steel with the tensile strength fpk
// (Pa) for all initial stresses up to largest (Pa). Formula, range and errors are
// those of [Relaxation.Loss].
func (r Relaxation) Over(days, fpk, largest float64) (Relaxing, error) {
	if r < Class1 || r > Class3 {
		return Relaxing{}, fmt.Errorf("%w: relaxation class is not stated: must be Class1, Class2 or Class3", ErrTendon)
	}
	if _, err := stressRatio(largest, fpk); err != nil {
		return Relaxing{}, err
	}
	if !(days >= 0) {
		return Relaxing{}, fmt.Errorf("%w: days = %g d: must be 0 or more", ErrTendon, days)
	}
	return Relaxing{class: r, fpk: fpk, kilohours: math.Min(days, FinalRelaxation) * 24 / 1000}, nil
}

// Loss is the loss of stress (Pa, a magnitude) at constant length from an initial
// stress (Pa) between 0 and the largest of [Relaxation.Over]; 0 of the zero
// Relaxing, which is that of a steel without a stated class.
func (r Relaxing) Loss(initial float64) float64 {
	if initial == 0 || r == (Relaxing{}) {
		return 0
	}
	ratio, of := initial/r.fpk, &relaxations[r.class]
	return initial * (of.factor * of.loss * 1e-5) * math.Exp(of.rate*ratio) * math.Pow(r.kilohours, 0.75*(1-ratio))
}

func stressRatio(initial, fpk float64) (float64, error) {
	if err := within("", bound{"fpk", fpk, "Pa", 100e6, mostSteel}); err != nil {
		return 0, err
	}
	if initial > 0.85*fpk {
		return 0, fmt.Errorf("%w: initial stress = %g Pa: must be up to 0.85·fpk = %s Pa", ErrTendon, initial, formula.RangeEnd(0.85*fpk))
	}
	return initial / fpk, withinOrZero("", bound{"initial stress", initial, "Pa", leastSteel, 0.85 * fpk})
}

// HeatCuredTime is the time that heat curing adds to that of relaxation (d): 1.14^(Tmax
// − 20)/(Tmax − 20)·Σ(T − 20)·Δt for a hold at Tmax (°C) of the given time (d, up to
// 7). EN 1992-1-1:2004 10.3.2.1, (10.3); confirm against the edition in force. Valid
// for 20 < Tmax ≤ 80 °C.
func HeatCuredTime(celsius, hold float64) (float64, error) {
	if celsius >= 0 && celsius <= 7 && hold > 20 && hold <= 80 {
		return 0, fmt.Errorf("%w: celsius = %g °C, hold = %g d: must be above 20 to 80 °C and 0 to 7 d; are they the wrong way round?", ErrTendon, celsius, hold)
	}
	if !(celsius > 20 && celsius <= 80) {
		return 0, fmt.Errorf("%w: celsius = %g °C: must be above 20 to 80 °C", ErrTendon, celsius)
	}
	if err := within("", bound{"hold", hold, "d", 0, 7}); err != nil {
		return 0, err
	}
	return math.Pow(1.14, celsius-20) * hold, nil
}

// ThermalLoss is the loss of stress (Pa) of pretensioned steel that is heated by
// kelvin (K) before the concrete grips it, between fixed abutments: half of
// αc·Ep·ΔT with Ep the modulus (Pa) and αc the expansion (1/K). EN 1992-1-1:2004
// 10.5.2, (10.4); confirm against the edition in force. The error wraps
// [ErrTendon].
func ThermalLoss(modulus, expansion, kelvin float64) (float64, error) {
	err := within("",
		bound{"modulus", modulus, "Pa", 50e9, 300e9}, bound{"expansion", expansion, "1/K", 1e-6, 1e-4}, bound{"kelvin", kelvin, "K", 0, 100})
	if err != nil {
		return 0, err
	}
	return 0.5 * modulus * expansion * kelvin, nil
}

// RelaxationAASHTO is the relaxation of low-relaxation strand (Pa) in one of the
// two periods after transfer, before and after the deck is cast: (fpt/30)(fpt/fpy
// − 0.55), 0 below 0.55·fpy. AASHTO LRFD 5.9.3.4.2c (5.9.5.4.2c before 2017), K L
// = 30; ordinary steel has 7. Confirm against the edition in force.
func RelaxationAASHTO(stress, yield float64, lowRelaxation bool) (float64, error) {
	if err := within("", bound{"yield", yield, "Pa", 100e6, mostSteel}); err != nil {
		return 0, err
	}
	if stress > yield {
		return 0, fmt.Errorf("%w: stress = %g Pa: must be up to the yield stress, %g Pa", ErrTendon, stress, yield)
	}
	if err := withinOrZero("", bound{"stress", stress, "Pa", leastSteel, yield}); err != nil {
		return 0, err
	}
	divisor := 7.0
	if lowRelaxation {
		divisor = 30
	}
	return stress / divisor * math.Max(0, stress/yield-0.55), nil
}

// RelaxationBPEL is the final relaxation (Pa), 6/100·ρ1000·(σ/fprg − 0.43)·σ with
// ρ1000 in %, 0 below 0.43·fprg. BPEL 91 rév. 99, 3.3.23; confirm against the
// edition in force.
func RelaxationBPEL(initial, fprg, rho1000 float64) (float64, error) {
	ratio, err := stressRatio(initial, fprg)
	if err != nil {
		return 0, err
	}
	if err := within("", bound{"rho1000", rho1000, "%", 0.5, 15}); err != nil {
		return 0, err
	}
	return 0.06 * rho1000 * math.Max(0, ratio-0.43) * initial, nil
}
