package tendon

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/concrete"
)

// Stepwise is the loss from From to To by superposition in time, see
// [concrete.Superposition]: the concrete creeps under Stress and under each
// later change that the loss itself makes, each with its own age; relaxation is
// taken at constant length and reduced by 0.8 as in EN 1992-1-1:2004 5.10.6 for
// the interplay with creep. 60 steps are within 0.5 % of the limit. Creep under
// Stress counts beyond the linear range as the model has it. The error wraps
// [ErrTendon] or [concrete.ErrConcrete].
func (s Sustained) Stepwise(steps int) (Losses, error) {
	if err := s.check(); err != nil {
		return Losses{}, err
	}
	if steps < 1 || steps > 2000 {
		return Losses{}, fmt.Errorf("%w: steps = %d: must be 1 to 2000", ErrTendon, steps)
	}
	if s.To == s.From {
		return Losses{}, nil
	}
	days, err := concrete.StepDays(s.From, s.To, steps)
	if err != nil {
		return Losses{}, err
	}
	creep, shrinkage, relaxation, err := s.free(days)
	if err != nil {
		return Losses{}, err
	}
	time, err := concrete.Superpose(s.Concrete, 0, days)
	if err != nil {
		return Losses{}, err
	}
	// The system is linear: each cause is marched by itself and the parts add up.
	back := s.TendonModulus * s.stiffening()
	l := Losses{
		Shrinkage: time.Total(shrinkage, 1, back, 1), Creep: time.Total(creep, 1, back, 1), Relaxation: time.Total(relaxation, 1, back, 1),
	}
	if total := l.Total(); math.IsNaN(total) || math.IsInf(total, 0) {
		return Losses{}, fmt.Errorf("%w: the stepwise loss is %g: must be a finite value", ErrTendon, total)
	}
	return l, nil
}

// free is the loss of stress (Pa) that each cause would take up to each day, were
// the concrete not to give way when the tendon presses it less.
func (s Sustained) free(days []float64) (creep, shrinkage, relaxation []float64, err error) {
	begin, err := s.Concrete.Shrinkage(s.From)
	if err != nil {
		return nil, nil, nil, err
	}
	modulus, err := s.Concrete.CreepModulus(s.From)
	if err != nil {
		return nil, nil, nil, err
	}
	nonlinear, err := s.nonlinear()
	if err != nil {
		return nil, nil, nil, err
	}
	n := len(days)
	creep, shrinkage, relaxation = make([]float64, n), make([]float64, n), make([]float64, n)
	for i := 1; i < n; i++ {
		phi, err := s.Concrete.Creep(days[i], s.From)
		if err != nil {
			return nil, nil, nil, err
		}
		now, err := s.Concrete.Shrinkage(days[i])
		if err != nil {
			return nil, nil, nil, err
		}
		relaxed, err := s.Relaxation.Loss(s.TendonStress, s.TensileStrength, days[i]-s.From)
		if err != nil {
			return nil, nil, nil, err
		}
		creep[i] = s.TendonModulus * s.Stress * phi * nonlinear / modulus
		shrinkage[i] = s.TendonModulus * (now.Total - begin.Total)
		relaxation[i] = 0.8 * relaxed
	}
	return creep, shrinkage, relaxation, nil
}

// nonlinear is the factor on φ for a stress beyond the linear range.
func (s Sustained) nonlinear() (float64, error) {
	linear, err := s.Concrete.Creep(s.To, s.From)
	if err != nil || linear == 0 {
		return 1, err
	}
	whole, err := s.Concrete.CreepUnder(s.To, s.From, math.Max(0, s.Stress))
	return whole / linear, err
}
