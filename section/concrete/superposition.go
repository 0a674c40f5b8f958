package concrete

import (
	"fmt"
	"math"
	"slices"
)

// Superposition is a time in steps in which stress changes; each change creeps from the
// middle of its step on, with the age of the concrete then. It is the reference for
// ageing formulas. The elastic part has the secant modulus, see [Compliance]. It is
// made by [Superpose]; the zero value, or nil, has no steps.
type Superposition struct {
	Days []float64 // ends of the steps on the project's clock, d; the first is their beginning

	elastic []float64   // 1/E at the middle of a step, 1/Pa
	creep   []float64   // 1/E to which φ relates, 1/Pa
	phi     [][]float64 // φ(end of step i, middle of step j)
}

// shortest is the least time (d) that is cut into steps.
const shortest = 1e-9

// StepDays are the ends of steps from one day to a later one, the time since the
// first growing geometrically from a hundredth of a day: creep is about linear
// in the logarithm of time. 60 steps are within 0.5 %, 100 within 0.3 % of the
// limit for redistribution over a bridge's life. The error wraps [ErrConcrete].
func StepDays(from, to float64, steps int) ([]float64, error) {
	if steps < 1 || steps > 2000 {
		return nil, fmt.Errorf("%w: steps = %d: must be 1 to 2000", ErrConcrete, steps)
	}
	if !(to-from >= shortest && to-from <= 1e7 && math.Abs(from) <= oldest) {
		return nil, fmt.Errorf("%w: steps from %g d to %g d: must be days within ±%g d in this order, %g to 1e7 d apart", ErrConcrete, from, to, oldest, shortest)
	}
	first := math.Min(0.01, (to-from)/10)
	days := make([]float64, steps+1)
	days[0] = from
	for i := 1; i <= steps; i++ {
		days[i] = from + first*math.Pow((to-from)/first, float64(i-1)/float64(max(1, steps-1)))
	}
	days[steps] = to
	return days, nil
}

// Superpose prepares the steps for a concrete cast on a day of the same clock.
// The errors are the model's.
func Superpose(m TimeModel, cast float64, days []float64) (*Superposition, error) {
	if Missing(m) {
		return nil, errMissing
	}
	for i, day := range days {
		if !(math.Abs(day) <= oldest) || i > 0 && !(day >= days[i-1]) {
			return nil, fmt.Errorf("%w: days[%d] = %g d: must be ascending within ±%g d", ErrConcrete, i, day, oldest)
		}
	}
	n := len(days)
	days = slices.Clone(days)
	s := &Superposition{Days: days, elastic: make([]float64, n), creep: make([]float64, n), phi: make([][]float64, n)}
	for j := 1; j < n; j++ {
		state, err := m.At(s.middle(j) - cast)
		if err != nil {
			return nil, err
		}
		modulus, err := m.CreepModulus(s.middle(j) - cast)
		if err != nil {
			return nil, err
		}
		s.elastic[j], s.creep[j] = 1/state.Modulus, 1/modulus
	}
	for i := 1; i < n; i++ {
		s.phi[i] = make([]float64, i+1)
		for j := 1; j <= i; j++ {
			var err error
			if s.phi[i][j], err = m.Creep(days[i]-cast, s.middle(j)-cast); err != nil {
				return nil, err
			}
		}
	}
	return s, nil
}

// middle is the middle of step j (day).
func (s *Superposition) middle(j int) float64 { return (s.Days[j-1] + s.Days[j]) / 2 }

// Strain is the strain at the end of step i for a unit stress applied in step j ≤ i,
// both counted from 1, with creep times factor (1/Pa); 0 where there is no such step,
// or where it comes later than i.
func (s *Superposition) Strain(i, j int, factor float64) float64 {
	if j < 1 || j > i || i > s.steps() {
		return 0
	}
	return s.strain(i, j, factor)
}

// steps is how many there are.
func (s *Superposition) steps() int {
	if s == nil || len(s.phi) == 0 {
		return 0
	}
	return len(s.phi) - 1
}

func (s *Superposition) strain(i, j int, factor float64) float64 {
	return s.elastic[j] + factor*s.creep[j]*s.phi[i][j]
}

// Total is the sum of the changes Δ of the steps that satisfy, at the end of every step
// i, own·ΣΔ(j) + through·ΣΔ(j)·Strain(i, j, factor) = free[i]: the restraint of a free
// movement by a stiff part and the concrete through which it acts. free has one value
// for each of Days; the first is not read, and with fewer only so many steps are taken.
// A step in which neither own nor through is stiff changes nothing.
func (s *Superposition) Total(free []float64, own, through, factor float64) float64 {
	n := min(s.steps()+1, len(free))
	changes := make([]float64, max(n, 0))
	total := 0.0
	for i := 1; i < n; i++ {
		rest := free[i] - own*total
		for j := 1; j < i; j++ {
			rest -= through * changes[j] * s.strain(i, j, factor)
		}
		if stiff := own + through*s.strain(i, i, factor); stiff != 0 {
			changes[i] = rest / stiff
		}
		total += changes[i]
	}
	return total
}
