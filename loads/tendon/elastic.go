package tendon

import (
	"fmt"
	"math"
)

// Ratios of a tendon's modulus to the concrete's: any outside has one of them in
// another unit than the other.
const (
	leastRatio = 0.5
	mostRatio  = 300 // of 300 GPa to 1 GPa
)

// ModularRatio is Ep/Ecm of a tendon and of the concrete of the day (both Pa), 0.5 to
// 300: the factor from a change of the concrete's stress beside the tendon to the
// elastic loss of the tendon. The error wraps [ErrTendon].
func ModularRatio(tendonModulus, concreteModulus float64) (float64, error) {
	if err := positive("tendonModulus", tendonModulus, "Pa"); err != nil {
		return 0, err
	}
	if err := positive("concreteModulus", concreteModulus, "Pa"); err != nil {
		return 0, err
	}
	ratio := tendonModulus / concreteModulus
	if !(ratio >= leastRatio && ratio <= mostRatio) {
		return 0, fmt.Errorf("%w: concreteModulus = %g Pa: must be of the size of tendonModulus = %g Pa, which is %g to %d times as much; are both in Pa?",
			ErrTendon, concreteModulus, tendonModulus, leastRatio, mostRatio)
	}
	return ratio, nil
}

// ElasticLoss is the loss of stress (Pa) of a tendon when the concrete beside it
// is compressed by stressChange (Pa, compression positive; less compression is a
// gain of the tendon): (Ep/Ecm)·Δσc. EN 1992-1-1:2004 (5.44) with j = 1. The ratio
// of the moduli must be 0.5 to 300, so that both are in one unit; the loss is in the
// unit of stressChange. The error wraps [ErrTendon].
func ElasticLoss(tendonModulus, concreteModulus, stressChange float64) (float64, error) {
	ratio, err := ModularRatio(tendonModulus, concreteModulus)
	if err != nil {
		return 0, err
	}
	loss := ratio * stressChange
	if math.IsNaN(loss) || math.IsInf(loss, 0) {
		return 0, fmt.Errorf("%w: stressChange = %g Pa: must be finite, also times Ep/Ecm = %g", ErrTendon, stressChange, ratio)
	}
	return loss, nil
}

// MeanElasticLoss is the mean loss of stress (Pa) of n equal tendons stressed one
// after another that together add stressChange (Pa, compression positive) at
// their level, the n-th part each: (n−1)/(2n)·(Ep/Ecm)·Δσc, 0 for one tendon. EN
// 1992-1-1:2004 (5.44). The error wraps [ErrTendon].
func MeanElasticLoss(n int, tendonModulus, concreteModulus, stressChange float64) (float64, error) {
	if n < 1 {
		return 0, fmt.Errorf("%w: n = %d tendons: must be 1 or more", ErrTendon, n)
	}
	loss, err := ElasticLoss(tendonModulus, concreteModulus, stressChange)
	return float64(n-1) / (2 * float64(n)) * loss, err
}

// ElasticLosses are the losses of stress (Pa, in the order of stressing) of tendons
// stressed one after another: each loses by those that follow, Ep·Σ Δσ/Ecm. When tendon
// number i is stressed it adds the concrete stress stressChanges[i] (Pa, compression
// positive) at the level of the tendons stressed before, and the modulus of the
// concrete is then concreteModuli[i] (Pa). EN 1992-1-1:2004 (5.44) tendon by tendon.
// The error wraps [ErrTendon].
func ElasticLosses(tendonModulus float64, concreteModuli, stressChanges []float64) ([]float64, error) {
	if len(concreteModuli) != len(stressChanges) {
		return nil, fmt.Errorf("%w: %d concreteModuli for %d stressChanges: must be as many", ErrTendon, len(concreteModuli), len(stressChanges))
	}
	losses := make([]float64, len(stressChanges))
	for i, modulus := range concreteModuli {
		loss, err := ElasticLoss(tendonModulus, modulus, stressChanges[i])
		if err != nil {
			return nil, fmt.Errorf("number %d in the order of stressing: %w", i+1, err)
		}
		for before := range i {
			losses[before] += loss
			if math.IsInf(losses[before], 0) {
				return nil, fmt.Errorf("%w: number %d in the order of stressing: stressChanges = %g Pa: must leave the sum of the losses finite", ErrTendon, i+1, stressChanges[i])
			}
		}
	}
	return losses, nil
}
