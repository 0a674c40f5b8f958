package stages

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// events are the steps of stressing and the grouting of a situation.
func (p *progress) events(s *situation) error {
	r := p.run
	for n, event := range s.Events {
		if err := p.release(s, event.Transfer); err != nil {
			return err
		}
		if event.Jack != nil {
			if err := p.stress(s, n, *event.Jack); err != nil {
				return err
			}
		}
		p.takeOut(s, event.Release)
		for _, mark := range event.Grout {
			p.bonded[r.tendonOf(mark)] = true
			p.grout = append(p.grout, mark)
		}
	}
	return nil
}

func (r *run) tendonOf(mark string) int {
	for i := range r.tendons {
		if r.tendons[i].Mark == mark {
			return i
		}
	}
	return -1
}

// stress adds a step of stressing, in event number n of a situation.
func (p *progress) stress(s *situation, n int, j tendon.Jacking) error {
	of, known := p.step(s), step{day: s.day}
	for _, mark := range j.Tendons {
		i := p.run.tendonOf(mark)
		pull, err := p.pulled(n, i, j)
		if err != nil {
			return err
		}
		of.Tendons, of.Force, known.pulls = append(of.Tendons, i), append(of.Force, pull.force.At), append(known.pulls, pull)
	}
	known.tendons = of.Tendons
	p.add(s, of, known)
	return nil
}

// takeOut adds the step in which tendons are let down and taken out.
func (p *progress) takeOut(s *situation, marks []string) {
	if len(marks) == 0 {
		return
	}
	of := p.step(s)
	of.Release = true
	for _, mark := range marks {
		of.Tendons, of.Force = append(of.Tendons, p.run.tendonOf(mark)), append(of.Force, nil)
	}
	p.add(s, of, step{release: true, tendons: of.Tendons, day: s.day})
}

// step is a step of a situation without tendons yet.
func (p *progress) step(s *situation) ledger.Step {
	return ledger.Step{
		States: slices.Clone(s.states), Day: s.day, Bonded: slices.Clone(p.bonded),
		Modulus: func(piece int) float64 { return s.concrete[piece].Modulus },
	}
}

// add puts a step into the ledger.
func (p *progress) add(s *situation, of ledger.Step, known step) {
	r := p.run
	r.steps = append(r.steps, known)
	r.ledger.Steps = append(r.ledger.Steps, of)
	k := len(r.ledger.Steps) - 1
	r.ledger.Lasting = append(r.ledger.Lasting, ledger.Lasting{Name: fmt.Sprintf("stressing step %d", k+1), Day: s.day, Step: k})
	for b, a := range s.acts {
		if a != nil && a.elastic {
			e := p.restraint(a, s.states[b], k, k+1)
			p.lock(s, e)
			p.held = append(p.held, e)
		}
	}
}
