package answers

import (
	"context"
	"fmt"
	"math"
	"sync"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Job is one element of a line with its plan.
type Job struct {
	Subject  stages.Subject
	Plan     stages.Plan
	Standard limits.Standard
}

// Screened is the outcome of one element: what governs each stage.
type Screened struct {
	Mark   string    // of the element
	Passes bool      // every stage passes, those conditional on a hold point among them
	Stage  int       // number of the stage with the least reserve, the first is 1; 0 where there is an error
	Stages []Governs // in the order of the plan
	Err    error     // of this element; nil where it was calculated
}

// Governs is the governing check of a stage with its relative reserve.
type Governs struct {
	Check   stages.Check
	Reserve float64
}

// Screen runs n elements through their plans on all cores: job gives the one of a number
// from 0, from several goroutines at once, so that only those at work are in memory.
// Outcomes are in the order of the numbers; an element that cannot be calculated has its
// error and stops no other. Progress, where it is not nil, is called after each with how
// many are done, one call at a time. When the context ends, elements not begun have its
// error, and so has Screen; it wraps [ErrAnswer] for a job that is nil.
func Screen(ctx context.Context, n int, job func(i int) (Job, error), progress func(done int)) ([]Screened, error) {
	if job == nil || n < 0 || ctx == nil {
		return nil, fmt.Errorf("%w: %d elements, job or context nil: must be a function, a context and 0 or more elements", ErrAnswer, n)
	}
	list := make([]Screened, n)
	var lock sync.Mutex
	done := 0
	each(n, func(i int) {
		if err := ctx.Err(); err != nil {
			list[i].Err = err
			return
		}
		list[i] = screened(job, i)
		lock.Lock()
		defer lock.Unlock()
		if done++; progress != nil {
			progress(done)
		}
	})
	return list, ctx.Err()
}

// screened is the outcome of one element. What panics in a stage of the caller is an error
// of the element.
func screened(job func(i int) (Job, error), i int) (s Screened) {
	defer func() {
		if r := recover(); r != nil {
			s = Screened{Mark: s.Mark, Err: fmt.Errorf("%w: element %d %q: a stage panicked: %v", ErrAnswer, i, s.Mark, r)}
		}
	}()
	j, err := job(i)
	if err != nil {
		return Screened{Err: fmt.Errorf("%w: element %d: %w", ErrAnswer, i, err)}
	}
	a, err := j.Plan.Analyse(j.Subject, j.Standard)
	if j.Subject != nil {
		s.Mark = j.Subject.Girder().Mark
	}
	if err != nil {
		s.Err = fmt.Errorf("%w: element %d %q: %w", ErrAnswer, i, s.Mark, err)
		return s
	}
	least := math.Inf(1)
	for n := range j.Plan {
		check, reserve, err := a.Margin(n + 1)
		if err != nil {
			return Screened{Mark: s.Mark, Err: fmt.Errorf("%w: element %d %q: %w", ErrAnswer, i, s.Mark, err)}
		}
		reserve = math.Min(reserve, unlimited)
		s.Stages = append(s.Stages, Governs{check, reserve})
		if reserve < least {
			least, s.Stage = reserve, n+1
		}
	}
	s.Passes = least >= 0
	return s
}
