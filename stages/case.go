package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// Case is a question about one stage of a plan: the element, the plan with all
// its history, the number of the stage and the standard.
type Case struct {
	Element  Element         // the element
	Plan     Plan            // its stages
	Stage    int             // number of the stage, the first is 1
	Standard limits.Standard // what is allowed
}

// Input is an unknown of a Case.
type Input struct {
	Symbol string       // e.g. "f_ck_t"
	Unit   formula.Unit // SI unit of the value
	// Set puts a value into a copy of the case. It replaces stages and supports
	// rather than writing through them: their slices are still the caller's.
	Set func(*Case, float64) error
}

// Worst is the governing check of the stage and its relative reserve: the margin
// over the larger of limit and demand, or over the scale of a zero limit;
// negative when the check fails. Checks that are not evaluated do not count. The
// error is that of [Plan.Run], or wraps [ErrStage] when the stage has no check.
func (c Case) Worst() (Check, float64, error) {
	record, err := c.Plan.Run(c.Element, c.Standard)
	if err != nil {
		return Check{}, 0, err
	}
	if c.Stage < 1 || c.Stage > len(record.Stages) {
		return Check{}, 0, fmt.Errorf("%w: Case.Stage = %d: allowed 1 to %d", ErrStage, c.Stage, len(record.Stages))
	}
	var worst Check
	least := math.Inf(1)
	for _, situation := range record.Stages[c.Stage-1].Situations {
		for _, check := range situation.Checks {
			if reserve := check.reserve(); check.State != NotEvaluated && reserve < least {
				worst, least = check, reserve
			}
		}
	}
	if math.IsInf(least, 1) {
		return Check{}, 0, fmt.Errorf("%w %d has no check to solve for: allowed a standard that answers", ErrStage, c.Stage)
	}
	return worst, least, nil
}

// reserve is the margin made a ratio that is continuous where it passes zero.
func (c Check) reserve() float64 {
	if c.Limit.Value == 0 && c.Scale.Value > 0 {
		return c.Margin / c.Scale.Value
	}
	if scale := math.Max(math.Abs(c.Limit.Value), math.Abs(c.Demand.Value)); scale > 0 {
		return c.Margin / scale
	}
	return 0
}

// Solve is the value of the input between low and high at which the governing
// check of the stage has no reserve left, and that check. The history is run for
// every trial. The error wraps [formula.ErrNoRoot] when the stage holds, or
// fails, at both ends; or is that of Input.Set or [Plan.Run].
func (c Case) Solve(input Input, low, high float64) (float64, Check, error) {
	if input.Set == nil {
		return 0, Check{}, fmt.Errorf("%w: Input.Set of %q is nil: allowed a function", ErrStage, input.Symbol)
	}
	var worst Check
	reserve := func(value float64) (float64, error) {
		trial := c.copied()
		if err := input.Set(&trial, value); err != nil {
			return 0, err
		}
		check, least, err := trial.Worst()
		worst = check
		return least, err
	}
	root, err := formula.Root(low, high, reserve)
	if err != nil {
		return 0, Check{}, fmt.Errorf("stage %d, %s in %s: %w", c.Stage, input.Symbol, input.Unit, err)
	}
	if _, err := reserve(root); err != nil {
		return 0, Check{}, err
	}
	return root, worst, nil
}

// copied is a case whose slices an Input may change.
func (c Case) copied() Case {
	c.Plan = slices.Clone(c.Plan)
	c.Element.Extra = slices.Clone(c.Element.Extra)
	c.Element.Tendons = slices.Clone(c.Element.Tendons)
	c.Element.Bars = slices.Clone(c.Element.Bars)
	if c.Element.WeightTolerance != nil {
		tolerance := *c.Element.WeightTolerance
		c.Element.WeightTolerance = &tolerance
	}
	return c
}
