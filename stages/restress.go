package stages

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// how a tendon is brought to its force.
type how string

const (
	firstPull  how = "stress"
	restressed how = "re-stress"
	letDown    how = "let down"
)

// pull is one tendon in one step of stressing, or of release from the bed.
type pull struct {
	tendon int
	how    how
	force  *tendon.Force // after it
	jack   float64       // largest jacking stress, Pa
}

// pulled is a tendon after a jacking. A tendon that is stressed already is pulled further, or let down to a lower
// stress. Its losses so far are then inside the force that is measured at the jack:
// what comes later is counted from this day.
func (p *progress) pulled(event, i int, j tendon.Jacking) (pull, error) {
	r := p.run
	of := pull{tendon: i, how: firstPull, jack: j.Stress}
	before := r.forceAt(len(r.steps), i)
	if before == nil {
		var err error
		of.force, err = r.tendons[i].Jack(j)
		return of, err
	}
	left, err := p.retained(event, i)
	if err != nil {
		return of, err
	}
	f, err := before.Retained(left)
	if err != nil {
		return of, err
	}
	least, most := anchored(f, j.Ends)
	switch {
	case j.Stress > most:
		of.how = restressed
		of.force, err = f.Restress(j)
		return of, err
	case j.Stress < least:
		of.how, of.jack = letDown, most // the wedges are freed first
		of.force, err = f.Detension(j)
		return of, err
	}
	return of, fmt.Errorf("in Jacking: tendon %s has %.4g to %.4g MPa at %s: Stress = %.4g MPa must be above that, to re-stress it, or below, to let it down; with other stresses at the two ends, one end after the other",
		r.tendons[i].Mark, least/1e6, most/1e6, j.Ends, j.Stress/1e6)
}

// anchored are the least and the largest stress at the anchors named (Pa).
func anchored(f *tendon.Force, ends tendon.Ends) (least, most float64) {
	area := f.Tendon.Area()
	left, right := f.At(f.Path.From())/area, f.At(f.Path.To())/area
	switch ends {
	case tendon.LeftEnd:
		return left, left
	case tendon.RightEnd:
		return right, right
	}
	return math.Min(left, right), math.Max(left, right)
}

// retained is the part of the force after the last stressing that is left of a
// tendon before an event of the last situation: the mean along it after elastic and
// time-dependent losses. A gain is left out. It is asked of a run of the plan so
// far.
func (p *progress) retained(event, i int) (float64, error) {
	r := p.run
	if n := len(r.retained); n < len(r.known) {
		r.retained = append(r.retained, r.known[n])
		return r.known[n], nil
	}
	past, err := r.soFar(event)
	if err != nil {
		return 0, fmt.Errorf("force of tendon %s before it is stressed again: %w", r.tendons[i].Mark, err)
	}
	s := past.situations[len(past.situations)-1]
	f := past.forceAt(s.steps, i)
	inset := ledger.Inset * r.girder.Length()
	now := func(x float64) float64 {
		x = math.Max(f.Path.From()+inset, math.Min(f.Path.To()-inset, past.inside(x)))
		force, _ := past.ledger.TendonForce(s.cases[0].ledger, x, i)
		return force
	}
	from, to := f.Path.From(), f.Path.To()
	left := math.Min(1, f.Path.Mean(from, to, now, f.Breaks()...)/f.Path.Mean(from, to, f.At, f.Breaks()...))
	r.retained = append(r.retained, left)
	return left, nil
}

// soFar is a run of the situations up to an event of the last one; tendons of one
// jacking share it.
func (r *run) soFar(event int) (*run, error) {
	if n := len(r.taken); r.past == nil || len(r.past.taken) != n || len(r.past.taken[n-1].Events) != event {
		past := &run{girder: r.girder, mixes: r.mixes, standard: r.standard, known: r.retained, motion: newMotion()}
		last := r.taken[n-1]
		last.Events = last.Events[:event]
		if err := past.replay(append(r.taken[:n-1:n-1], last)); err != nil {
			return nil, err
		}
		r.past = past
	}
	return r.past, nil
}

// taken is a situation as a stage gave it, and the number of the stage.
type taken struct {
	timed
	stage int
}

// replay runs situations that were taken before.
func (r *run) replay(list []taken) error {
	if err := r.numbers(); err != nil {
		return err
	}
	history, state := r.begin(), newProgress(r)
	for _, t := range list {
		if err := r.addSituation(t.stage, t.timed, &history, state); err != nil {
			return err
		}
	}
	return r.lay()
}

// forceAt is the force of a tendon after its last stressing among a number of
// steps; nil where it is not stressed, or released.
func (r *run) forceAt(steps, i int) *tendon.Force {
	for k := steps - 1; k >= 0; k-- {
		for n, t := range r.steps[k].tendons {
			if t == i {
				if r.steps[k].release {
					return nil
				}
				return r.steps[k].pulls[n].force
			}
		}
	}
	return nil
}
