package segmental

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// FirstStage is the largest first stage of prestress that may be applied while the span
// hangs.
type FirstStage struct {
	Steps   int    // of stressing that pass, one after the other
	Of      int    // steps that were tried
	Governs string // the check that does not pass with one step more; "" where all pass
	Place   string // of it
}

// LargestFirstStage is how many steps of stressing may be done while the span hangs: with
// that many the stage of the plan (the first is 1) passes, and with one more a joint opens,
// a hanger is slack or beyond its working load limit, or another check of the stage fails.
// The plan with a number of steps is made by a function; every number from one to the most
// is run through the engine until one does not pass. The error wraps [ErrSegmental]: none
// passes, or a plan does not run.
func LargestFirstStage(subject stages.Subject, with func(steps int) stages.Plan, stage int, standard limits.Standard, most int) (FirstStage, error) {
	if with == nil || most < 1 || most > 200 {
		return FirstStage{}, fmt.Errorf("%w: first stage of up to %d steps: must be 1 to 200, with a function that makes the plan", ErrSegmental, most)
	}
	of := FirstStage{Of: most}
	for n := 1; n <= most; n++ {
		check, margin, err := with(n).Margin(subject, standard, stage)
		if err != nil {
			return FirstStage{}, fmt.Errorf("%w: first stage of %d steps: %w", ErrSegmental, n, err)
		}
		if !(margin >= 0) {
			of.Governs, of.Place = check.Name, check.Place
			break
		}
		of.Steps = n
	}
	if of.Steps == 0 {
		return of, fmt.Errorf("%w: first stage: stage %d does not pass after the first step: %s, %s: must be less prestress at first", ErrSegmental, stage, of.Governs, of.Place)
	}
	return of, nil
}

func (f *FirstStage) check() error {
	if f != nil && !(f.Steps >= 1 && f.Of >= f.Steps) {
		return fmt.Errorf("%w: field StressHung.Limit: %d of %d steps: must be 1 to the number tried, from LargestFirstStage", ErrSegmental, f.Steps, f.Of)
	}
	return nil
}

// checkOf compares the steps that are done while the span hangs with the largest number.
func (f *FirstStage) checkOf(chosen int) (stages.OwnCheck, error) {
	source := formula.Source{Document: "this calculation, run with each number of steps"}
	c := &formula.Chain{}
	demand := c.Given(formula.Q("n_1", float64(chosen), formula.One, "steps of stressing while the span hangs, chosen"), formula.Source{Document: "input"}, "")
	limit := c.Given(formula.Q("n_1_max", float64(f.Steps), formula.One, "largest number of steps with which every check of this stage passes"), source, f.words())
	lines, err := c.Lines()
	if err != nil {
		return stages.OwnCheck{}, err
	}
	check := stages.NewCheck(limits.Limit{Name: "first-stage prestress on the hangers", LimitState: limits.Serviceability, Sense: limits.AtMost, Source: source, Line: formula.Given(limit, source)}, demand)
	check.Place, check.Note = "all hangers and joints", f.words()
	return check.Derived(lines...), nil
}

// words say what governs.
func (f *FirstStage) words() string {
	if f.Governs == "" {
		return fmt.Sprintf("all %d steps pass", f.Of)
	}
	return fmt.Sprintf("step %d does not pass: %s, %s", f.Steps+1, f.Governs, f.Place)
}
