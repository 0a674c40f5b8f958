package answers

import (
	"math"

	"github.com/tempstage/tempstage/stages"
)

// point is the outcome of a trial.
type point struct {
	value   float64
	reserve float64
	check   stages.Check
	refused error // of the plan with this value
}

// passes is true where everything is evaluated and nothing fails.
func (p point) passes() bool { return p.reserve >= 0 }

// reserves is the governing check and its reserve with a value.
type reserves func(value float64) (stages.Check, float64, error)

// trials are the outcomes of values, each made once.
type trials struct {
	run   reserves
	known map[float64]point
	count int
}

func newTrials(run reserves) *trials { return &trials{run: run, known: map[float64]point{}} }

// refusal is the name of what stands for a check where the plan refuses a value.
const refusal = "refused by the plan"

// unlimited replaces a reserve without a number.
const unlimited = 999

// at is the outcome at a value. What the plan refuses does not pass.
func (t *trials) at(value float64) point {
	if p, ok := t.known[value]; ok {
		return p
	}
	t.count++
	check, reserve, err := t.run(value)
	p := point{value: value, reserve: math.Min(reserve, unlimited), check: check}
	if err != nil {
		p = point{value: value, reserve: -1, refused: err,
			check: stages.Check{Name: refusal, State: stages.NotEvaluated, Note: err.Error()}}
	}
	t.known[value] = p
	return p
}

// shortened is the case with as few stages behind the one asked for as leave its outcome
// as it is: a lift needs the stage that sets the element down.
func shortened(c stages.Case) int {
	check, reserve, err := c.Worst()
	if err != nil {
		return len(c.Plan)
	}
	for n := c.Stage; n < min(len(c.Plan), c.Stage+2); n++ {
		short := c
		short.Plan = c.Plan[:n]
		if one, least, err := short.Worst(); err == nil && least == reserve && one.Name == check.Name {
			return n
		}
	}
	return len(c.Plan)
}

// of are the reserves of a case with values of an input, on the first n stages.
func of(c stages.Case, input stages.Input, n int) reserves {
	return func(value float64) (stages.Check, float64, error) {
		with, err := c.With(input, value)
		if err != nil {
			return stages.Check{}, 0, err
		}
		with.Plan = with.Plan[:min(n, len(with.Plan))]
		return with.Worst()
	}
}
