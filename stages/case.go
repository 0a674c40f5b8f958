package stages

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// Case is a question about one stage of a plan: the subject, the plan with all
// its history, the number of the stage and the standard.
type Case struct {
	Subject  Subject         // an Element or a Girder
	Plan     Plan            // its stages
	Stage    int             // number of the stage, the first is 1
	Standard limits.Standard // what is permitted
}

// Input is an unknown of a Case.
type Input struct {
	Symbol string       // e.g. "f_ck_t"
	Unit   formula.Unit // SI unit of the value
	// Set puts a value into a copy of girder and plan. It replaces stages and
	// supports rather than writing through them: their slices are still the
	// caller's. [Altered] changes the situations of a stage of any type.
	Set func(*Girder, *Plan, float64) error
}

// Worst is the governing check of the stage and its relative reserve, see
// [Analysis.Margin]; what is not evaluated does not pass. The error is that of
// [Plan.Analyse] or wraps [ErrStage].
func (c Case) Worst() (Check, float64, error) {
	if c.Stage < 1 || c.Stage > len(c.Plan) {
		return Check{}, 0, fmt.Errorf("%w: Case.Stage = %d: must be 1 to %d", ErrStage, c.Stage, len(c.Plan))
	}
	a, err := c.Plan.Analyse(c.Subject, c.Standard)
	if err != nil {
		return Check{}, 0, err
	}
	return a.Margin(c.Stage)
}

// Solve is the value of the input between low and high at which the governing
// check of the stage has no reserve left, and that check. The history is run for
// every trial. The error wraps [formula.ErrNoRoot] when the stage passes, or
// does not pass, at both ends; or is that of Input.Set or [Plan.Analyse].
func (c Case) Solve(input Input, low, high float64) (float64, Check, error) {
	if input.Set == nil {
		return 0, Check{}, fmt.Errorf("%w: Input.Set of %q is nil: must be a function", ErrStage, input.Symbol)
	}
	if isNil(c.Subject) {
		return 0, Check{}, errNoSubject
	}
	var worst Check
	reserve := func(value float64) (float64, error) {
		girder, plan := c.Subject.Girder().copied(), slices.Clone(c.Plan)
		if err := input.Set(&girder, &plan, value); err != nil {
			return 0, err
		}
		check, least, err := Case{girder, plan, c.Stage, c.Standard}.Worst()
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
