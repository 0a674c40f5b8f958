package stages

import (
	"fmt"
	"math"
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
	for _, s := range r.situations {
		alike := map[castOf]*ledger.Time{}
		stressed := r.lastSteps(s.steps)
		for i, p := range r.girder.Pieces {
			key := castOf{r.mixes[i].slow, p.Element.Cast}
			t := alike[key]
			if t == nil {
				var err error
				if t, err = r.time(key, s, stressed); err != nil {
					return fmt.Errorf("%w %d, %s at age %g d: %s: Element.LongTerm: %w", ErrStage, s.stage+1, s.Name, s.Age, p.Element.Mark, err)
				}
				alike[key] = t
			}
			of := *t
			of.Concrete = r.concreteAlone(i, s)
			s.times = append(s.times, &of)
		}
	}
	return nil
}

// strengthAge is the age at which two models of one concrete are compared (d).
const strengthAge = 28

// otherConcrete is how far the characteristic strengths of Concrete and LongTerm may differ: by
// one strength class and a test, not by more. sameConcrete is rounding.
const (
	otherConcrete = 0.25
	sameConcrete  = 0.01
)

// checkLongTerm refuses creep and shrinkage of another concrete than the element's.
func (e Element) checkLongTerm() error {
	own, slow, ok := e.strengths()
	if ok && math.Abs(slow-own) > otherConcrete*own {
		return fmt.Errorf("%w: %s: Element.LongTerm has a characteristic strength of %.1f MPa at 28 d, Element.Concrete of %.1f MPa: must be the same concrete", ErrStage, e.Mark, slow/1e6, own/1e6)
	}
	return nil
}

// strengths are those of Concrete and LongTerm at 28 days (Pa).
func (e Element) strengths() (own, slow float64, ok bool) {
	if concrete.Missing(e.LongTerm) {
		return 0, 0, false
	}
	a, errA := e.Concrete.At(strengthAge)
	b, errB := e.LongTerm.At(strengthAge)
	return a.Characteristic, b.Characteristic, errA == nil && errB == nil
}

// unlikeConcretes are the remarks on elements whose creep is that of a concrete that
// is not quite the one that is checked.
func (g Girder) unlikeConcretes() (words []string) {
	for _, p := range g.Pieces {
		if own, slow, ok := p.Element.strengths(); ok && math.Abs(slow-own) > sameConcrete*own {
			words = append(words, fmt.Sprintf("creep and shrinkage of %s are those of a concrete with a characteristic strength of %.1f MPa at 28 d; its stresses are checked with one of %.1f MPa", p.Element.Mark, slow/1e6, own/1e6))
		}
	}
	return words
}

// castOf is a concrete cast on a day: what it creeps is the same in all its pieces.
type castOf struct {
	model *rememberedTime
	day   float64
}

// lastSteps are the steps, of the first of all, that stressed each tendon last; -1 for a
// tendon that is not stressed, or let down.
func (r *run) lastSteps(number int) []int {
	last := make([]int, len(r.tendons))
	for i := range last {
		last[i] = -1
	}
	for n, step := range r.steps[:number] {
		for _, i := range step.tendons {
			if last[i] = n; step.release {
				last[i] = -1
			}
		}
	}
	return last
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

// time is what the losses of a concrete need in a situation.
func (r *run) time(of castOf, s *situation, stressed []int) (*ledger.Time, error) {
	n := len(r.tendons)
	t := &ledger.Time{Since: make([][]float64, n), Days: make([]float64, n), Periods: make([]tendon.Period, n)}
	for i := range t.Days {
		t.Days[i] = -1
	}
	model := of.model
	if model == nil {
		return t, nil
	}
	age := func(day float64) float64 { return day - of.day }
	var creep []float64
	for _, e := range r.ledger.Lasting {
		if e.Day >= s.day {
			break // no creep yet
		}
		if age(e.Day) <= 0 { // acted on others before this was cast
			creep, t.Modulus = append(creep, 0), append(t.Modulus, 1)
			continue
		}
		phi, err := model.Creep(age(s.day), age(e.Day))
		if err != nil {
			return nil, err
		}
		modulus, err := tendon.CreepModulus(model, age(e.Day))
		if err != nil {
			return nil, err
		}
		creep, t.Modulus = append(creep, phi), append(t.Modulus, modulus)
	}
	since := map[float64][]float64{} // by the day of stressing
	for i, k := range stressed {
		if k < 0 {
			continue
		}
		day := r.steps[k].day
		if age(day) <= 0 {
			continue // in another element, stressed before this was cast
		}
		t.Days[i] = s.day - day
		var err error
		if t.Periods[i], err = r.period(model, of.day, i, k, s.day); err != nil {
			return nil, err
		}
		if t.Since[i] = since[day]; t.Since[i] != nil {
			continue
		}
		if t.Since[i], err = r.creptSince(of, creep, day); err != nil {
			return nil, err
		}
		since[day] = t.Since[i]
	}
	return t, nil
}

// period is what happens to a tendon from step k that stressed it to a day.
func (r *run) period(model *rememberedTime, cast float64, i, k int, now float64) (tendon.Period, error) {
	strand, relaxing, day := r.tendons[i].Strand, tendon.Relaxing{}, r.steps[k].day
	if strand.Relaxation != 0 {
		largest, _ := r.steps[k].pulls[slices.Index(r.steps[k].tendons, i)].force.Largest()
		var err error
		if relaxing, err = strand.Relaxation.Over(now-day, strand.Fpk, largest); err != nil {
			return tendon.Period{}, fmt.Errorf("tendon %s: %w", r.tendons[i].Mark, err)
		}
	}
	return tendon.NewPeriod(model, strand.Modulus, day-cast, now-cast, relaxing)
}

// creptSince is the part of creep coefficients, one for each of the first lasting
// entries, after a day.
func (r *run) creptSince(of castOf, creep []float64, day float64) ([]float64, error) {
	since := slices.Clone(creep)
	for e := range since {
		if at := r.ledger.Lasting[e].Day; at < day && at > of.day {
			before, err := of.model.Creep(day-of.day, at-of.day)
			if err != nil {
				return nil, err
			}
			since[e] -= before
		}
	}
	return since, nil
}
