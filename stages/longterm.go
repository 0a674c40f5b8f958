package stages

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// prepareTimes computes what creep, shrinkage and relaxation need in every
// situation; without any Element.LongTerm the losses stay out.
func (r *run) prepareTimes() error {
	if !r.longTerm() {
		return nil
	}
	r.moduli = map[dayOf]float64{}
	for _, s := range r.situations {
		for i, p := range r.girder.Pieces {
			t, err := r.time(p, s)
			if err != nil {
				return fmt.Errorf("%w %d, %s at age %g d: %s: Element.LongTerm: %w", ErrStage, s.stage+1, s.Name, s.Age, p.Element.Mark, err)
			}
			t.Concrete = r.concreteAlone(i, s)
			s.times = append(s.times, t)
		}
	}
	return nil
}

// dayOf is an element on a day of the project.
type dayOf struct {
	mark string
	day  float64
}

// concreteAlone is the section on which a loss acts: empty ducts out, and the
// steel of bonded tendons out too.
func (r *run) concreteAlone(piece int, s *situation) *ledger.State {
	for b, of := range s.bodies {
		if slices.Contains(of.pieces, piece) {
			return r.stateOf(s.bodies[b], s.bonded, s, slices.Contains(s.bonded, true))
		}
	}
	return nil // not carried yet
}

// time is what the losses of a piece need in a situation.
func (r *run) time(p Piece, s *situation) (*ledger.Time, error) {
	n := len(r.tendons)
	t := &ledger.Time{Since: make([][]float64, n), Days: make([]float64, n), Periods: make([]tendon.Period, n)}
	for i := range t.Days {
		t.Days[i] = -1
	}
	model := p.Element.LongTerm
	if model == nil {
		return t, nil
	}
	age := func(day float64) float64 { return day - p.Element.Cast }
	var creep []float64
	for _, e := range r.ledger.Lasting {
		if e.Day >= s.day || age(e.Day) <= 0 {
			break // no creep yet
		}
		phi, err := model.Creep(age(s.day), age(e.Day))
		if err != nil {
			return nil, err
		}
		modulus, ok := r.moduli[dayOf{p.Element.Mark, e.Day}]
		if !ok {
			if modulus, err = tendon.CreepModulus(model, age(e.Day)); err != nil {
				return nil, err
			}
			r.moduli[dayOf{p.Element.Mark, e.Day}] = modulus
		}
		creep, t.Modulus = append(creep, phi), append(t.Modulus, modulus)
	}
	for i := range r.tendons {
		if err := r.tendonTime(model, p, s, t, i, creep); err != nil {
			return nil, err
		}
	}
	return t, nil
}

// tendonTime fills what has happened to one tendon since it was last stressed.
func (r *run) tendonTime(model concrete.TimeModel, p Piece, s *situation, t *ledger.Time, i int, creep []float64) error {
	k := -1
	for n, step := range r.steps[:s.steps] {
		if slices.Contains(step.tendons, i) {
			k = n
			if step.release {
				k = -1
			}
		}
	}
	if k < 0 {
		return nil
	}
	day := r.steps[k].day
	t.Days[i] = s.day - day
	strand, relaxing := r.tendons[i].Strand, tendon.Relaxing{}
	var err error
	if strand.Relaxation != 0 {
		largest, _ := r.steps[k].pulls[slices.Index(r.steps[k].tendons, i)].force.Largest()
		if relaxing, err = strand.Relaxation.Over(t.Days[i], strand.Fpk, largest); err != nil {
			return fmt.Errorf("tendon %s: %w", r.tendons[i].Mark, err)
		}
	}
	if t.Periods[i], err = tendon.NewPeriod(model, strand.Modulus, day-p.Element.Cast, s.day-p.Element.Cast, relaxing); err != nil {
		return err
	}
	t.Since[i] = slices.Clone(creep)
	for e := range t.Since[i] {
		if at := r.ledger.Lasting[e].Day; at < day {
			before, err := model.Creep(day-p.Element.Cast, at-p.Element.Cast)
			if err != nil {
				return err
			}
			t.Since[i][e] -= before
		}
	}
	return nil
}
