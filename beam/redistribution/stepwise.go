package redistribution

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/concrete"
)

// Stepwise is the share by superposition in time, in steps that grow
// geometrically from a hundredth of a day: each change of the forces creeps from
// the middle of its step on. It is the reference; 100 steps are within 0.3 % of
// the limit. The error wraps [ErrRedistribution] or [concrete.ErrConcrete].
func (c Change) Stepwise(steps int) (Share, error) {
	if err := c.check(); err != nil {
		return Share{}, err
	}
	if steps < 1 || steps > 2000 {
		return Share{}, fmt.Errorf("%w: steps = %d: allowed 1 to 2000", ErrRedistribution, steps)
	}
	if c.Until == c.Changed {
		return Share{}, nil
	}
	ages := stepAges(c.Changed, c.Until, steps)
	free := make([]float64, len(ages)) // what the old load creeps after the change, 1/Pa
	old, err := newCompliance(c.Concrete, c.Loaded)
	if err != nil {
		return Share{}, err
	}
	before, err := old.at(c.Changed)
	if err != nil {
		return Share{}, err
	}
	for i := 1; i < len(ages); i++ {
		if free[i], err = old.at(ages[i]); err != nil {
			return Share{}, err
		}
		free[i] -= before
	}
	steady, err := table(c.Concrete, 0, ages)
	if err != nil {
		return Share{}, err
	}
	s := Share{Value: solve(free, old.creep, steady, 1), Low: solve(free, old.creep, steady, 1-Band), High: solve(free, old.creep, steady, 1+Band)}
	s.Uncapped = s.Value
	return s, nil
}

// compliance is J(t, loaded) = elastic + creep·φ(t, loaded), 1/Pa.
type compliance struct {
	model   concrete.TimeModel
	loaded  float64 // d
	elastic float64 // 1/E(loaded)
	creep   float64 // 1/E to which φ relates
}

func newCompliance(m concrete.TimeModel, loaded float64) (compliance, error) {
	state, err := m.At(loaded)
	if err != nil {
		return compliance{}, err
	}
	modulus, err := m.CreepModulus(loaded)
	return compliance{m, loaded, 1 / state.Modulus, 1 / modulus}, err
}

// at is φ(age, loaded).
func (j compliance) at(age float64) (float64, error) { return j.model.Creep(age, j.loaded) }

// changes is what a stress that changes in the middle of each step does at the
// end of each later step.
type changes struct {
	elastic []float64   // 1/Pa, by step
	creep   []float64   // 1/Pa, by step
	phi     [][]float64 // φ(end of step i, middle of step j)
}

// strain is J(end of i, middle of j) with all creep times factor, 1/Pa.
func (c *changes) strain(i, j int, factor float64) float64 {
	return c.elastic[j] + factor*c.creep[j]*c.phi[i][j]
}

// table is the changes of a concrete that was cast on a day of a clock whose
// ages are given.
func table(m concrete.TimeModel, cast float64, days []float64) (*changes, error) {
	n := len(days)
	c := &changes{make([]float64, n), make([]float64, n), make([][]float64, n)}
	steps := make([]compliance, n)
	for j := 1; j < n; j++ {
		var err error
		if steps[j], err = newCompliance(m, (days[j-1]+days[j])/2-cast); err != nil {
			return nil, err
		}
		c.elastic[j], c.creep[j] = steps[j].elastic, steps[j].creep
	}
	for i := 1; i < n; i++ {
		c.phi[i] = make([]float64, i+1)
		for j := 1; j <= i; j++ {
			var err error
			if c.phi[i][j], err = steps[j].at(days[i] - cast); err != nil {
				return nil, err
			}
		}
	}
	return c, nil
}

// solve is Σ of the changes that keep the strain at the closed joint zero:
// factor·creep·free(i) = Σ Δρ(j)·J(i, j).
func solve(free []float64, creep float64, c *changes, factor float64) float64 {
	steps := make([]float64, len(free))
	total := 0.0
	for i := 1; i < len(free); i++ {
		rest := factor * creep * free[i]
		for j := 1; j < i; j++ {
			rest -= steps[j] * c.strain(i, j, factor)
		}
		steps[i] = rest / c.strain(i, i, factor)
		total += steps[i]
	}
	return total
}

// stepAges are steps + 1 ages, the time since from growing geometrically.
func stepAges(from, to float64, steps int) []float64 {
	first := math.Min(0.01, (to-from)/10)
	ages := make([]float64, steps+1)
	ages[0] = from
	for i := 1; i <= steps; i++ {
		ages[i] = from + first*math.Pow((to-from)/first, float64(i-1)/float64(max(1, steps-1)))
	}
	ages[steps] = to
	return ages
}
