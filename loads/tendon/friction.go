package tendon

import (
	"fmt"
	"math"
)

// Convention is the meaning of the wobble coefficient of a friction law.
type Convention int

// The conventions in use. They differ by the factor μ, by 3.28 or by π/180.
const (
	WobbleEN             Convention = iota + 1 // k, rad/m, not yet multiplied by μ: μ(θ + k·x), EN 1992-1-1:2004 (5.45)
	WobbleDegrees                              // k as in EN but in degrees per metre: tables of suppliers
	WobbleBPEL                                 // φ, per metre, with f already in it: f·α + φ·x, BPEL 91 and French notes
	WobbleAASHTO                               // K, per foot, with μ already in it: K·x + μ·α, AASHTO LRFD 5.9.3.2.2 (5.9.5.2.2 before 2017)
	WobbleAASHTOPerMetre                       // the same K given per metre
)

// Law is a friction law in the convention of its source.
type Law struct {
	Convention Convention // the meaning of Wobble
	Friction   float64    // μ or f, 1/rad, 0 or 1e-6 to 1
	Wobble     float64    // k, φ or K in the unit of the convention, so that k is 0 to 0.1 rad/m
}

// EN is the pair Tendon.Friction (1/rad) and Tendon.Wobble (rad/m) of the law.
// The error wraps [ErrTendon].
func (l Law) EN() (friction, wobble float64, err error) {
	if err := withinOrZero("Law.", bound{"Friction", l.Friction, "1/rad", 1e-6, 1}); err != nil {
		return 0, 0, err
	}
	factor := 1.0
	switch l.Convention {
	case WobbleEN:
	case WobbleDegrees:
		factor = math.Pi / 180
	case WobbleBPEL, WobbleAASHTOPerMetre:
		factor = 1 / l.Friction
	case WobbleAASHTO:
		factor = 1 / l.Friction / foot
	default:
		return 0, 0, fmt.Errorf("%w: Law.Convention is not stated: must be WobbleEN, WobbleDegrees, WobbleBPEL, WobbleAASHTO or WobbleAASHTOPerMetre", ErrTendon)
	}
	if l.Wobble == 0 {
		return l.Friction, 0, nil
	}
	wobble = l.Wobble * factor
	if !(wobble >= 0 && wobble <= 0.1) {
		return 0, 0, fmt.Errorf("%w: Law.Wobble = %g is k = %g rad/m: must be 0 to 0.1 rad/m, and 0 without friction", ErrTendon, l.Wobble, wobble)
	}
	return l.Friction, wobble, nil
}

const foot = 0.3048 // m

// Friction coefficients μ (1/rad) of EN 1992-1-1:2004, Table 5.1, for tendons
// that fill about half of the duct (confirm against the edition in force).
// External tendons have no wobble.
const (
	FrictionWire                = 0.17 // internal, cold drawn wire
	FrictionStrand              = 0.19 // internal, strand
	FrictionDeformedBar         = 0.65 // internal, deformed bar
	FrictionSmoothBar           = 0.33 // internal, smooth round bar
	FrictionExternalSteelStrand = 0.24 // external, strand in a steel duct, not lubricated
	FrictionExternalHDPEStrand  = 0.12 // external, strand in a polyethylene duct, not lubricated
)

// DeviatorAllowance is the inadvertent angle that AASHTO LRFD 5.9.3.2.2 adds for an
// external tendon at each deviator (rad; confirm against the edition in force).
const DeviatorAllowance = 0.04

// FrictionFactor is exp(−μ(θ + k·s)), the part of the jacking force after an angle θ
// (rad) and a length s (m); μ is friction (1/rad), k wobble (rad/m). EN 1992-1-1:2004
// (5.45). The error wraps [ErrTendon].
func FrictionFactor(friction, angle, wobble, length float64) (float64, error) {
	err := within("",
		bound{"friction", friction, "1/rad", 0, 1}, bound{"angle", angle, "rad", 0, 100},
		bound{"wobble", wobble, "rad/m", 0, 0.1}, bound{"length", length, "m", 0, 5000})
	if err != nil {
		return 0, err
	}
	return math.Exp(-friction * (angle + wobble*length)), nil
}

// LinearDrawIn is the hand check of a draw-in on a loss of force that is linear along
// the tendon: its reach, √(Ep·Ap·Δ/p) (m), and the loss at the anchor, 2·p times that
// (N), for a fall p of the force per metre (N/m). It is valid while the reach is less
// than the tendon's length; [Tendon.Jack] has the exact curve. The error wraps
// [ErrTendon].
func LinearDrawIn(stiffness, drawIn, fall float64) (reach, loss float64, err error) {
	if err := within("", bound{"stiffness", stiffness, "N", 1e6, 1e12}, bound{"drawIn", drawIn, "m", leastDrawIn, 0.1}, bound{"fall", fall, "N/m", 1, 1e9}); err != nil {
		return 0, 0, err
	}
	reach = math.Sqrt(stiffness * drawIn / fall)
	return reach, 2 * fall * reach, nil
}
