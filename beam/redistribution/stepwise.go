package redistribution

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/concrete"
)

// Stepwise is the share by superposition in time, see [concrete.Superposition]: the
// moment at the closed joint changes so that creep under the old load and all earlier
// changes gives no movement there. It is the reference; 100 steps are within 0.3 % of
// the limit. As in [Change.Aged] the shares stop at 1: a model whose creep falls much
// with age at loading gives more than 1 by superposition, see Share.Capped. The error
// wraps [ErrRedistribution] or [concrete.ErrConcrete].
func (c Change) Stepwise(steps int) (Share, error) {
	if err := c.check(); err != nil {
		return Share{}, err
	}
	if steps < 1 || steps > 2000 {
		return Share{}, fmt.Errorf("%w: steps = %d: must be 1 to 2000", ErrRedistribution, steps)
	}
	if c.Until == c.Changed {
		return Share{}, nil
	}
	days, err := concrete.StepDays(c.Changed, c.Until, steps)
	if err != nil {
		return Share{}, err
	}
	free, err := creeping(c.Concrete, c.Loaded, days)
	if err != nil {
		return Share{}, err
	}
	time, err := concrete.Superpose(c.Concrete, 0, days)
	if err != nil {
		return Share{}, err
	}
	share := func(factor float64) float64 {
		scaled := make([]float64, len(free))
		for i := range free {
			scaled[i] = factor * free[i]
		}
		return time.Total(scaled, 0, 1, factor)
	}
	whole := share(1)
	return Share{
		Value: math.Min(1, whole), Low: math.Min(1, share(1-Band)), High: math.Min(1, share(1+Band)),
		Capped: whole > 1, Uncapped: whole,
	}, nil
}

// creeping is the strain (1/Pa) by which a unit stress that has acted since the
// age loaded creeps from the first of the ages to each of them.
func creeping(m concrete.TimeModel, loaded float64, ages []float64) ([]float64, error) {
	modulus, err := m.CreepModulus(loaded)
	if err != nil {
		return nil, err
	}
	strains := make([]float64, len(ages))
	for i, age := range ages {
		phi, err := m.Creep(age, loaded)
		if err != nil {
			return nil, err
		}
		strains[i] = phi / modulus
	}
	for i := len(strains) - 1; i >= 0; i-- {
		strains[i] -= strains[0]
	}
	return strains, nil
}
