package stages

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// Case is a question about one stage of a plan, with all stages before it.
type Case struct {
	Subject  Subject         // an Element or a Girder
	Plan     Plan            // in order of age
	Stage    int             // number of the stage, the first is 1
	Standard limits.Standard // against which it is checked
}

// Input is an unknown of a Case.
type Input struct {
	Symbol string       // e.g. "f_ck_t"
	Unit   formula.Unit // SI unit of the value
	// Set puts a value into a copy of girder and plan. It must replace stages and
	// supports, not write into their slices, which are the caller's. [Altered] changes
	// the situations of a stage of any type.
	Set func(*Girder, *Plan, float64) error
}

// value is a value of the input with its unit, in words.
func (i Input) value(v float64) string {
	if i.Unit == formula.One {
		return fmt.Sprintf("%g", v)
	}
	return fmt.Sprintf("%g %s", v, i.Unit)
}

// Worst is the governing check of the stage and its relative reserve, see
// [Analysis.Margin]. The error is that of [Plan.Analyse] or wraps [ErrStage].
func (c Case) Worst() (Check, float64, error) {
	if c.Stage < 1 || c.Stage > len(c.Plan) {
		return Check{}, 0, fmt.Errorf("%w: Case.Stage = %d: must be 1 to %d", ErrStage, c.Stage, len(c.Plan))
	}
	return c.Plan.Margin(c.Subject, c.Standard, c.Stage)
}

// Solve is the value of the input between low and high at which the governing check of
// the stage has no reserve, and that check. Every trial runs the stages before it too.
// The error wraps [formula.ErrNoRoot] when the stage passes, or does not pass, at both
// ends, and names the checks; or it is that of Input.Set or [Plan.Analyse].
func (c Case) Solve(input Input, low, high float64) (float64, Check, error) {
	if err := c.accepts(input); err != nil {
		return 0, Check{}, err
	}
	if !(math.Abs(low) <= largest && math.Abs(high) <= largest && low != high) {
		return 0, Check{}, fmt.Errorf("%w: %s between %s and %s: must be two finite values that differ", ErrStage, input.Symbol, input.value(low), input.value(high))
	}
	var worst Check
	var ends []string
	reserve := func(value float64) (float64, error) {
		with, err := c.With(input, value)
		if err != nil {
			return 0, err
		}
		check, least, err := with.Worst()
		if worst = check; err == nil && (value == low || value == high) {
			ends = append(ends, "at "+input.value(value)+" "+check.verdict(least))
		}
		return least, err
	}
	root, err := formula.Root(low, high, reserve)
	switch {
	case errors.Is(err, formula.ErrNoRoot):
		return 0, Check{}, fmt.Errorf("stage %d, %s: %w between %s and %s: %s: must be a range in which the stage passes at one end only",
			c.Stage, input.Symbol, formula.ErrNoRoot, input.value(low), input.value(high), strings.Join(ends, ", "))
	case err != nil:
		return 0, Check{}, fmt.Errorf("stage %d, %s in %s: %w", c.Stage, input.Symbol, input.Unit, err)
	}
	if _, err := reserve(root); err != nil {
		return 0, Check{}, err
	}
	return root, worst, nil
}

// With is the case with a value of the input, in copies of girder and plan. The error is
// that of Input.Set, or wraps [ErrStage].
func (c Case) With(input Input, value float64) (Case, error) {
	if err := c.accepts(input); err != nil {
		return c, err
	}
	girder, plan := c.Subject.Girder().copied(), slices.Clone(c.Plan)
	if err := input.Set(&girder, &plan, value); err != nil {
		return c, err
	}
	return Case{girder, plan, c.Stage, c.Standard}, nil
}

// accepts reports a case without a subject and an input that sets nothing.
func (c Case) accepts(input Input) error {
	if input.Set == nil {
		return fmt.Errorf("%w: Input.Set of %q is nil: must be a function", ErrStage, input.Symbol)
	}
	if isNil(c.Subject) {
		return errNoSubject
	}
	return nil
}

// verdict is what the governing check with its reserve says of a stage.
func (c Check) verdict(reserve float64) string {
	switch {
	case c.State == NotEvaluated:
		return fmt.Sprintf("it does not pass (%s is not evaluated)", c.Name)
	case reserve < 0:
		return fmt.Sprintf("it does not pass (%s, reserve %.3g %%)", c.Name, 100*reserve)
	}
	return fmt.Sprintf("it passes (%s, reserve %.3g %%)", c.Name, 100*reserve)
}

// copied is a girder whose slices an Input may change.
func (g Girder) copied() Girder {
	g.Pieces, g.Tendons = slices.Clone(g.Pieces), slices.Clone(g.Tendons)
	for i := range g.Pieces {
		e := &g.Pieces[i].Element
		e.Extra, e.Tendons, e.Pretension, e.Bars = slices.Clone(e.Extra), slices.Clone(e.Tendons), slices.Clone(e.Pretension), slices.Clone(e.Bars)
		if e.WeightTolerance != nil {
			tolerance := *e.WeightTolerance
			e.WeightTolerance = &tolerance
		}
	}
	return g
}
