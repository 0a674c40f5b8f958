package stages

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// Plan is the stages of an element or a girder in order of age.
type Plan []Stage

// Analysis is a plan calculated in numbers: every check with its margin, without a
// record.
type Analysis struct {
	run        *run
	situations []situationChecks
	unchecked  bool // see Plan.Follow
}

// situationChecks are the checks of a situation and its unanswered questions.
type situationChecks struct {
	checks     []checked
	unanswered []unanswered
	documents  []derive.HoldPoint
}

// Analyse calculates a subject through the plan and checks every situation against the
// standard, in numbers. The error wraps [ErrStage] or the sentinel of the package
// whose input is wrong, and names stage, field, value and what it must be.
func (p Plan) Analyse(subject Subject, standard limits.Standard) (*Analysis, error) {
	return p.analyse(subject, standard, func(int) bool { return true })
}

// Follow is the analysis without any check: of it only [Analysis.Effects] can be asked. The error
// is that of [Plan.Analyse].
func (p Plan) Follow(subject Subject, standard limits.Standard) (*Analysis, error) {
	r, err := newRun(p, subject, standard)
	if err != nil {
		return nil, err
	}
	return &Analysis{run: r, unchecked: true}, nil
}

// Margin is [Analysis.Margin] of one stage (the first is 1), whose checks alone are looked
// at. The error is that of [Plan.Analyse].
func (p Plan) Margin(subject Subject, standard limits.Standard, stage int) (Check, float64, error) {
	a, err := p.analyse(subject, standard, func(of int) bool { return of+1 == stage })
	if err != nil {
		return Check{}, 0, err
	}
	return a.Margin(stage)
}

// analyse checks the situations of some stages, counted from 0.
func (p Plan) analyse(subject Subject, standard limits.Standard, asked func(stage int) bool) (*Analysis, error) {
	r, err := newRun(p, subject, standard)
	if err != nil {
		return nil, err
	}
	a := &Analysis{run: r}
	for _, s := range r.situations {
		if !asked(s.stage) {
			a.situations = append(a.situations, situationChecks{})
			continue
		}
		checks, notChecked, err := r.checks(s)
		s.forget()
		if err != nil {
			return a, fmt.Errorf("%w %d, %s at age %g d: %w", ErrStage, s.stage+1, s.Name, s.Age, err)
		}
		of := situationChecks{checks: checks}
		for _, u := range append(notChecked, r.beyond(s, checks)...) {
			if !slices.Contains(of.unanswered, u) {
				of.unanswered = append(of.unanswered, u)
			}
		}
		if !s.Standing && !r.setDownAfter(s) {
			of.checks = append(of.checks, checked{Check: Check{
				Kind: limits.SetDown, Name: string(limits.SetDown), State: NotEvaluated, Sense: limits.AtMost,
				Note: "the plan ends while the element is off its supports: add the stage that sets it down",
			}})
		}
		of.discharge(s.Covered)
		a.situations = append(a.situations, of)
	}
	return a, nil
}

// setDownAfter is true where a standing situation follows.
func (r *run) setDownAfter(s *situation) bool {
	return slices.ContainsFunc(r.situations[s.index+1:], func(t *situation) bool { return t.Standing })
}

// beyond are assumptions that a situation leaves: creep is linear up to a lasting
// compression of 0.45·fck(t), EN 1992-1-1:2004 3.1.4(4) and 5.10.2.2(5).
func (r *run) beyond(s *situation, checks []checked) []unanswered {
	if !r.longTerm() || !s.Standing {
		return nil
	}
	for _, c := range checks {
		if c.Kind != limits.Compression || c.State == NotEvaluated {
			continue
		}
		for _, k := range s.carried() {
			if c.Demand.Value > 0.45*s.concrete[k].Characteristic {
				return []unanswered{{limits.Compression, "creep beyond the linear range: a lasting compression above 0.45·fck(t)"}}
			}
		}
	}
	return nil
}

// Margin is the governing check of a stage (the first is 1) and its relative
// reserve: the margin over the larger of limit and demand, or over the scale of a
// zero limit; negative when the check fails. A check that is not evaluated and an
// unanswered question have the reserve −1: they do not pass. The error wraps [ErrStage]
// when there is no such stage.
func (a *Analysis) Margin(stage int) (Check, float64, error) {
	if a == nil || a.run == nil || a.unchecked {
		return Check{}, 0, errNoAnalysis
	}
	var worst checked
	least := math.Inf(1)
	for i, s := range a.run.situations {
		if s.stage+1 != stage {
			continue
		}
		for _, c := range a.situations[i].checks {
			if reserve := c.Reserve(); reserve < least {
				worst, least = c, reserve
			}
		}
		if words := a.situations[i].words(); len(words) > 0 && least > -1 {
			worst, least = checked{Check: Check{Name: words[0], State: NotEvaluated, Sense: limits.AtMost, Note: words[0]}}, -1
		}
	}
	if math.IsInf(least, 1) {
		return Check{}, 0, fmt.Errorf("%w: stage %d: must be 1 to %d", ErrStage, stage, a.stages())
	}
	return worst.Check, least, nil
}

// Reserve is the margin made a ratio that is continuous where it passes zero: over the larger
// of limit and demand, or over the scale of a zero limit. It is −1 for what is not evaluated,
// and infinite for what a document covers.
func (c Check) Reserve() float64 {
	if c.State == NotEvaluated {
		return -1
	}
	if c.Limit.Value == 0 && c.Scale.Value > 0 {
		return c.Margin / c.Scale.Value
	}
	if scale := math.Max(math.Abs(c.Limit.Value), math.Abs(c.Demand.Value)); scale > 0 {
		return c.Margin / scale
	}
	if c.State == Conditional { // covered by a document: no number of its own
		return math.Inf(1)
	}
	return 0
}

// errNoAnalysis is the error of an analysis that was not made by a plan.
var errNoAnalysis = fmt.Errorf("%w: the analysis is empty, or was only followed: must be that of Plan.Analyse", ErrStage)

// stages is how many stages were analysed.
func (a *Analysis) stages() int { return a.run.situations[len(a.run.situations)-1].stage + 1 }

// Effects are the effects of a situation of a stage, both counted from 1. The error
// wraps [ErrStage] when there is no such situation.
func (a *Analysis) Effects(stage, number int) (Effects, error) {
	if a == nil || a.run == nil {
		return Effects{}, errNoAnalysis
	}
	of := 0
	for _, s := range a.run.situations {
		if s.stage+1 != stage {
			continue
		}
		if of++; of == number {
			return a.run.effects(s)
		}
	}
	if of == 0 {
		return Effects{}, fmt.Errorf("%w: stage %d: must be 1 to %d", ErrStage, stage, a.stages())
	}
	return Effects{}, fmt.Errorf("%w: situation %d of stage %d: must be 1 to %d", ErrStage, number, stage, of)
}

// Altered is the plan with every situation of one stage (the first is 1) changed, for
// stages of any type. The plan of the caller is not changed. A number without a stage
// changes nothing.
func Altered(p Plan, stage int, change func(*Situation)) Plan {
	plan := slices.Clone(p)
	if stage >= 1 && stage <= len(plan) {
		plan[stage-1] = altered{plan[stage-1], change}
	}
	return plan
}

// altered is a stage whose situations are changed.
type altered struct {
	stage  Stage
	change func(*Situation)
}

func (a altered) Situations(h History) ([]Situation, error) {
	situations, err := a.stage.Situations(h)
	list := slices.Clone(situations)
	for i := range list {
		a.change(&list[i])
	}
	return list, err
}

// Run calculates a subject through the plan and writes the record. The error is that of
// [Plan.Analyse]; the Record returned with it has the situations before the one that
// failed.
func (p Plan) Run(subject Subject, standard limits.Standard) (Record, error) {
	a, err := p.Analyse(subject, standard)
	switch {
	case err == nil:
		return a.Record()
	case a != nil: // the situations before the one that failed
		record, wrong := a.Record()
		return record, errors.Join(err, wrong)
	case isNil(subject):
		return Record{Format: Format, Caution: caution}, err
	}
	return Record{Format: Format, Caution: caution, Element: subject.Girder().Mark}, err
}
