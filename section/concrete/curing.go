package concrete

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Curing is the temperature of the concrete from casting on, step by step.
// Without steps, and after the last one, the concrete is at 20 °C and its age
// is the calendar age.
type Curing []CuringStep

// CuringStep is a time at one temperature.
type CuringStep struct {
	Until   float64 // age at its end, d, ascending
	Celsius float64 // temperature of the concrete, °C, 0 to 80
}

// Check reports the first step out of order or out of the range of (B.10), 0 to
// 80 °C; the error wraps [ErrConcrete].
func (c Curing) Check() error {
	from := 0.0
	for i, step := range c {
		if !(step.Until > from && step.Until <= longest) {
			return fmt.Errorf("%w: Curing[%d].Until = %g d: must be above %g d, up to %g d", ErrConcrete, i, step.Until, from, longest)
		}
		if err := within(bound{fmt.Sprintf("Curing[%d].Celsius", i), step.Celsius, "°C", 0, 80, " (EN 1992-1-1 B.1(3))"}); err != nil {
			return err
		}
		from = step.Until
	}
	return nil
}

// StrengthAge is the temperature-adjusted age tT (d) at a calendar age (d), for the
// growth of strength: Σ exp(−(4000/(273 + T) − 13.65))·Δt. EN 1992-1-1:2004 B.1(3),
// (B.10), 0 to 80 °C; the same in the fib Model Code 2010, (5.1-85). At a stated 20 °C
// a day counts 0.998 d, as the constants of the formula are rounded. Confirm against
// the edition in force.
func (c Curing) StrengthAge(age float64) float64 {
	adjusted, from := 0.0, 0.0
	for _, step := range c {
		if age <= from {
			return adjusted
		}
		to := math.Min(age, step.Until)
		adjusted += math.Exp(13.65-4000/(273+step.Celsius)) * (to - from)
		from = to
	}
	return adjusted + math.Max(0, age-from)
}

// CreepAge is the age t0 (d) at loading for a creep coefficient, from the calendar age
// at loading (d): the temperature-adjusted age changed for the cement, tT·(9/(2 +
// tT^1.2) + 1)^α with α = −1, 0 and 1 for the classes S, N and R, at least 0.5 d. EN
// 1992-1-1:2004 B.1(2) and (3), (B.9); the same in the fib Model Code 2010, (5.1-73).
// It is not a strength age, and the time under load stays calendar time. Confirm
// against the edition in force.
func (c Curing) CreepAge(age float64, cement Cement) float64 {
	t := c.StrengthAge(age)
	return math.Max(0.5, t*math.Pow(9/(2+math.Pow(t, 1.2))+1, cement.alpha()))
}

// alpha is α of (B.9).
func (c Cement) alpha() float64 { return float64(c) - 2 }

// inputs are the steps as given lines.
func (c Curing) inputs() []formula.Line {
	var lines []formula.Line
	for i, step := range c {
		lines = append(lines, formula.Given(formula.Q(fmt.Sprintf("T_%d", i+1), step.Celsius, "°C",
			fmt.Sprintf("temperature of the concrete up to %g d", step.Until)), formula.Source{Document: "curing record"}))
	}
	return lines
}
