package launching

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// EarliestAge is the minimum age of the element (d) from one to another, by steps, at which a
// stage of a plan (the first is 1), usually a Ride, passes; from then on to the end it passes at
// every step. A question that is not evaluated counts as not passed; one that a
// document answers passes. Where it passes at from as well, that is the answer, though it may
// pass younger. Every age tried runs the plan up to that stage. The error wraps [ErrLaunching]: it does not pass at the end,
// or the plan does not run.
func EarliestAge(subject stages.Subject, plan stages.Plan, stage int, standard limits.Standard, from, to, step float64) (float64, error) {
	if err := within("", bound{"from", from, "d", 0.01, 365e3}, bound{"to", to, "d", from, 365e3}, bound{"step", step, "d", math.Max(0.01, (to-from)/1000), 365e3}, bound{"stage", float64(stage), "", 1, float64(len(plan))}); err != nil {
		return 0, err
	}
	least := math.NaN()
	last := math.Floor((to-from)/step + 1e-9)
	for n := last; n >= 0; n-- {
		age := from + n*step
		_, margin, err := stages.Altered(plan, stage, func(s *stages.Situation) { s.Age = age }).Margin(subject, standard, stage)
		if err != nil {
			return 0, fmt.Errorf("%w: at an age of %g d: %w", ErrLaunching, age, err)
		}
		if !(margin >= 0) {
			break
		}
		least = age
	}
	if math.IsNaN(least) {
		return 0, fmt.Errorf("%w: stage %d does not pass at an age of %g d: must pass at the end of the range", ErrLaunching, stage, from+last*step)
	}
	return least, nil
}
