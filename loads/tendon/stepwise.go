package tendon

import (
	"fmt"
	"math"
)

// Stepwise is the loss from From to To by superposition in time: the concrete
// creeps under Stress and under each later change that the loss itself makes,
// each with its own age; relaxation is taken at constant length and reduced by
// 0.8 as in EN 1992-1-1:2004 5.10.6 for the interplay with creep. The steps grow
// geometrically; 60 of them are within 0.5 % of the limit. Creep under Stress
// counts beyond the linear range as the model has it. The error wraps
// [ErrTendon] or the concrete's error.
func (s Sustained) Stepwise(steps int) (Losses, error) {
	if err := s.check(); err != nil {
		return Losses{}, err
	}
	if steps < 1 || steps > 2000 {
		return Losses{}, fmt.Errorf("%w: steps = %d: allowed 1 to 2000", ErrTendon, steps)
	}
	if s.To == s.From {
		return Losses{}, nil
	}
	march := &stepping{of: s, ages: stepAges(s.From, s.To, steps)}
	if err := march.free(); err != nil {
		return Losses{}, err
	}
	creep, err := march.loss(march.creep)
	if err != nil {
		return Losses{}, err
	}
	shrinkage, err := march.loss(march.shrinkage)
	if err != nil {
		return Losses{}, err
	}
	relaxation, err := march.loss(march.relaxation)
	return Losses{Shrinkage: shrinkage, Creep: creep, Relaxation: relaxation}, err
}

// stepAges are steps + 1 ages, the time under load growing geometrically from a
// ten-thousandth of the whole or a tenth of a day, whichever is less.
func stepAges(from, to float64, steps int) []float64 {
	first := math.Min(0.1, (to-from)/10)
	ages := make([]float64, steps+1)
	ages[0] = from
	for i := 1; i <= steps; i++ {
		ages[i] = from + first*math.Pow((to-from)/first, float64(i-1)/float64(max(1, steps-1)))
	}
	ages[steps] = to
	return ages
}

// stepping marches a tendon's loss through time. The system is linear, so each
// cause is marched by itself and the parts add up.
type stepping struct {
	of                           Sustained
	ages                         []float64
	creep, shrinkage, relaxation []float64 // free loss of stress up to each age, Pa, were the concrete not to give way
	compliance                   [][]float64
}

// free fills what each cause would take, and the compliances J(i, j) of a change
// of stress in the middle of step j.
func (m *stepping) free() error {
	s, n := m.of, len(m.ages)
	m.creep, m.shrinkage, m.relaxation = make([]float64, n), make([]float64, n), make([]float64, n)
	begin, err := s.Concrete.Shrinkage(s.From)
	if err != nil {
		return err
	}
	modulus, err := s.Concrete.CreepModulus(s.From)
	if err != nil {
		return err
	}
	nonlinear, err := s.nonlinear()
	if err != nil {
		return err
	}
	for i := 1; i < n; i++ {
		phi, err := s.Concrete.Creep(m.ages[i], s.From)
		if err != nil {
			return err
		}
		m.creep[i] = s.TendonModulus * s.Stress * phi * nonlinear / modulus
		now, err := s.Concrete.Shrinkage(m.ages[i])
		if err != nil {
			return err
		}
		m.shrinkage[i] = s.TendonModulus * (now.Total - begin.Total)
		relaxed, err := s.Relaxation.Loss(s.TendonStress, s.TensileStrength, m.ages[i]-s.From)
		if err != nil {
			return err
		}
		m.relaxation[i] = 0.8 * relaxed
	}
	return m.comply()
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

func (m *stepping) comply() error {
	n := len(m.ages)
	m.compliance = make([][]float64, n)
	elastic, creeping := make([]float64, n), make([]float64, n)
	for j := 1; j < n; j++ {
		middle := (m.ages[j-1] + m.ages[j]) / 2
		state, err := m.of.Concrete.At(middle)
		if err != nil {
			return err
		}
		modulus, err := m.of.Concrete.CreepModulus(middle)
		if err != nil {
			return err
		}
		elastic[j], creeping[j] = 1/state.Modulus, 1/modulus
	}
	for i := 1; i < n; i++ {
		m.compliance[i] = make([]float64, i+1)
		for j := 1; j <= i; j++ {
			phi, err := m.of.Concrete.Creep(m.ages[i], (m.ages[j-1]+m.ages[j])/2)
			if err != nil {
				return err
			}
			m.compliance[i][j] = elastic[j] + phi*creeping[j]
		}
	}
	return nil
}

// loss marches one cause: at each age the loss is what is free less what the
// concrete gives back because the tendon presses it less:
// L(i) = free(i) − Ep·κ·Σ ΔL(j)·J(i, j), κ = Ap(1/Ac + zcp²/Ic).
func (m *stepping) loss(free []float64) (float64, error) {
	back := m.of.TendonModulus * m.of.stiffening()
	changes := make([]float64, len(m.ages))
	total := 0.0
	for i := 1; i < len(m.ages); i++ {
		sum := free[i] - total
		for j := 1; j < i; j++ {
			sum -= back * changes[j] * m.compliance[i][j]
		}
		changes[i] = sum / (1 + back*m.compliance[i][i])
		total += changes[i]
	}
	if math.IsNaN(total) || math.IsInf(total, 0) {
		return 0, fmt.Errorf("%w: the stepwise loss is %g: allowed a finite value", ErrTendon, total)
	}
	return total, nil
}
