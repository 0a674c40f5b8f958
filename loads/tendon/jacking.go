package tendon

import (
	"fmt"
	"math"
)

// Ends says where a tendon is jacked.
type Ends int

// The zero value is refused: it must be stated.
const (
	LeftEnd  Ends = iota + 1 // small x
	RightEnd                 // large x
	BothEnds                 // both at once, to the same stress
)

func (e Ends) String() string {
	if e < LeftEnd || e > BothEnds {
		return "not stated"
	}
	return [...]string{"", "the left end", "the right end", "both ends"}[e]
}

// Jacking is one step of stressing: the tendons that are stressed at the same
// time, from which ends and how far.
type Jacking struct {
	Tendons []string // marks
	Stress  float64  // in the strand at the jack, before locking off, Pa
	Ends    Ends     // where the jacks stand
	DrawIn  float64  // slip of the wedges at each jacked end when locking off, m
}

// Check reports the first field that is not allowed; the error wraps
// [ErrTendon].
func (j Jacking) Check() error {
	switch {
	case len(j.Tendons) == 0:
		return fmt.Errorf("%w: Jacking.Tendons is empty: allowed at least one mark", ErrTendon)
	case !(j.Stress > 0 && j.Stress <= 3000e6):
		return fmt.Errorf("%w: Jacking.Stress = %g Pa for %v: allowed above 0, at most 3000e6 Pa", ErrTendon, j.Stress, j.Tendons)
	case j.Ends < LeftEnd || j.Ends > BothEnds:
		return fmt.Errorf("%w: Jacking.Ends for %v is not stated: allowed LeftEnd, RightEnd or BothEnds", ErrTendon, j.Tendons)
	case !(j.DrawIn >= 0 && j.DrawIn <= 0.1):
		return fmt.Errorf("%w: Jacking.DrawIn = %g m for %v: allowed 0 to 0.1 m", ErrTendon, j.DrawIn, j.Tendons)
	}
	return nil
}

// FrictionFactor is exp(−μ(θ + k·s)), what is left of the jacking force after
// an angle θ (rad) and a length s (m); μ is friction (1/rad), k wobble (rad/m).
// 0 where a value is not a finite number. EN 1992-1-1:2004 (5.45).
func FrictionFactor(friction, angle, wobble, length float64) float64 {
	return finite(math.Exp(-friction * (angle + wobble*length)))
}

// finite is v, or 0 for what is not a finite number: the short formulas of this
// package have no error to return.
func finite(v float64) float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return 0
	}
	return v
}

// MeanElasticLoss is the mean loss of stress (Pa, a magnitude) in n equal
// tendons stressed one after another, each adding the same concrete stress at
// their level: the n-th part of stressChange each, (n−1)/(2n)·(Ep/Ecm)·Δσc
// together; 0 for one tendon or none, and where the loss is not a finite number.
// EN 1992-1-1:2004 (5.44).
func MeanElasticLoss(n int, tendonModulus, concreteModulus, stressChange float64) float64 {
	if n < 1 {
		return 0
	}
	return finite(float64(n-1) / (2 * float64(n)) * tendonModulus / concreteModulus * stressChange)
}

// ElasticLoss is the loss of stress (Pa, a magnitude for compression) of a
// tendon when the concrete beside it is compressed by stressChange (Pa, a
// magnitude): (Ep/Ecm)·Δσc; 0 where that is not a finite number, as without a
// modulus. EN 1992-1-1:2004 (5.44) with j = 1.
func ElasticLoss(tendonModulus, concreteModulus, stressChange float64) float64 {
	return finite(tendonModulus / concreteModulus * stressChange)
}

// ElasticLosses are the losses of stress (Pa, in the order of stressing) of
// tendons stressed one after another: each loses by those that follow, Ep·Σ
// Δσ/Ecm. When tendon number i is stressed it adds the concrete stress
// stressChanges[i] (Pa, compression positive) at the level of the tendons that
// are there, and the concrete has then the modulus concreteModuli[i] (Pa). EN
// 1992-1-1:2004 (5.44) tendon by tendon. The error wraps [ErrTendon].
func ElasticLosses(tendonModulus float64, concreteModuli, stressChanges []float64) ([]float64, error) {
	if len(concreteModuli) != len(stressChanges) {
		return nil, fmt.Errorf("%w: %d concreteModuli for %d stressChanges: allowed as many", ErrTendon, len(concreteModuli), len(stressChanges))
	}
	losses := make([]float64, len(stressChanges))
	for i, modulus := range concreteModuli {
		loss := tendonModulus / modulus * stressChanges[i]
		if !(modulus > 0) || math.IsNaN(loss) || math.IsInf(loss, 0) {
			return nil, fmt.Errorf("%w: tendon %d: concreteModuli = %g Pa, stressChanges = %g Pa, tendonModulus = %g Pa: allowed finite values and a positive modulus",
				ErrTendon, i+1, modulus, stressChanges[i], tendonModulus)
		}
		for before := range i {
			losses[before] += loss
		}
	}
	return losses, nil
}
