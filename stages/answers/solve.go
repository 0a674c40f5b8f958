package answers

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// Question asks for the values of an input at which a stage passes.
type Question struct {
	Asked     string       // the quantity in words; ""  means the symbol
	Input     stages.Input // symbol, unit and how a value is put into the plan
	Low, High float64      // range to try, Low below High
	Sense     Sense        // which end is asked for; "" every interval
	Steps     int          // equal steps in which the range is tried, 2 to 10,000; 0 means 24
	Percent   bool         // the value is a fraction, in words a percentage
	Small     bool         // the value is a small length, in words in mm
}

// usualSteps find two windows whose gap is a twentieth of the range.
const usualSteps = 24

// mostSteps bound the work of one question.
const mostSteps = 10_000

// largest is a bound on every number of an input, as in package stages.
const largest = 1e15

// Solve is the answer of a case to a question. The error wraps [ErrAnswer]: a range or a
// number of steps that is none; a stage that passes, or fails, everywhere in the range,
// where the Answer with it says so too and has the governing checks; every value refused,
// where it wraps the first refusal as well.
func Solve(c stages.Case, q Question) (Answer, error) { return q.worst(c, q.Input) }

// holds is true where the whole plan gives the same reserve at every end.
func (a Answer) holds(run reserves) bool {
	for _, i := range a.Intervals {
		for _, e := range []End{i.From, i.To} {
			if _, reserve, err := run(e.Value); err != nil || math.Abs(reserve-e.Reserve) > 1e-12 {
				return false
			}
		}
	}
	return true
}

// check reports the first field that is not as it must be.
func (q Question) check(c stages.Case) error {
	switch {
	case !(math.Abs(q.Low) <= largest && math.Abs(q.High) <= largest):
		return fmt.Errorf("%w: %s from %g to %g %s: must be finite", ErrAnswer, q.Input.Symbol, q.Low, q.High, q.Input.Unit)
	case !(q.Low < q.High):
		return fmt.Errorf("%w: %s from %g to %g %s: must be from the smaller to the larger value", ErrAnswer, q.Input.Symbol, q.Low, q.High, q.Input.Unit)
	case q.Steps != 0 && (q.Steps < 2 || q.Steps > mostSteps):
		return fmt.Errorf("%w: Question.Steps = %d: must be 2 to %d, or 0 for %d", ErrAnswer, q.Steps, mostSteps, usualSteps)
	case c.Stage < 1 || c.Stage > len(c.Plan):
		return fmt.Errorf("%w: Case.Stage = %d: must be 1 to %d", ErrAnswer, c.Stage, len(c.Plan))
	case q.Sense != Window && q.Sense != Minimum && q.Sense != Maximum:
		return fmt.Errorf("%w: Question.Sense = %q: must be Window, Minimum or Maximum", ErrAnswer, q.Sense)
	}
	return nil
}

// solve tries the range and finds the ends of the intervals.
func (q Question) solve(stage int, run reserves) (Answer, error) {
	a := Answer{
		Asked: q.Asked, Symbol: q.Input.Symbol, Unit: q.Input.Unit, Sense: q.Sense, Stage: stage, Low: q.Low, High: q.High, Percent: q.Percent, Small: q.Small,
	}
	if a.Asked == "" {
		a.Asked = a.Symbol
	}
	t := newTrials(run)
	points := t.scan(q.Low, q.High, q.Steps)
	a.Intervals = t.intervals(points, q.High-q.Low)
	a.Trials = t.count
	if end := a.limit(); end != nil && !end.Open {
		a.Value = end.Value
		return a, nil
	}
	return a, a.without(points)
}

// without is the error of an answer that has no limit of the sense asked for, nil for a
// window that has one.
func (a Answer) without(points []point) error {
	worst, best := points[0], points[0]
	refused := true
	for _, p := range points {
		refused = refused && p.refused != nil
		if p.reserve < worst.reserve {
			worst = p
		}
		if p.reserve > best.reserve {
			best = p
		}
	}
	where := fmt.Sprintf("stage %d, %s from %s", a.Stage, a.Symbol, a.span(a.Low, a.High))
	least := func(p point) string {
		return fmt.Sprintf("%s, reserve %.3g %% at %s", named(p.check), 100*p.reserve, a.words(p.value, nearest))
	}
	depends := ""
	if worst.reserve == best.reserve && worst.check.Name == best.check.Name {
		depends = fmt.Sprintf("; this check does not depend on %s", a.Symbol)
	}
	const ask = ": must be a range in which the stage passes in a part only"
	switch {
	case refused:
		return fmt.Errorf("%w: %s: every value is refused: %w", ErrAnswer, where, points[0].refused)
	case len(a.Intervals) == 0:
		return fmt.Errorf("%w: %s: the stage fails everywhere (nearest: %s%s)%s", ErrAnswer, where, least(best), depends, ask)
	case worst.passes():
		return fmt.Errorf("%w: %s: the stage passes everywhere (nearest: %s%s)%s", ErrAnswer, where, least(worst), depends, ask)
	case a.Sense == Window:
		return nil
	case a.Sense == Minimum:
		return fmt.Errorf("%w: %s: the stage does not pass at the upper end (%s): must be a range with a minimum; ask for the window", ErrAnswer, where, least(points[len(points)-1]))
	}
	return fmt.Errorf("%w: %s: the stage does not pass at the lower end (%s): must be a range with a maximum; ask for the window", ErrAnswer, where, least(points[0]))
}

// named is a check in an error, with why it is not evaluated.
func named(c stages.Check) string {
	if c.State == stages.NotEvaluated {
		return c.Name + ", not evaluated: " + c.Note
	}
	return c.Name
}

// quantity is a quantity of the answer as a line.
func (a Answer) quantity(symbol string, value float64, name string) formula.Quantity {
	return formula.Q(symbol, value, a.Unit, name)
}
