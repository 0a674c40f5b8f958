package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
)

// increment is a lasting change of the concrete's stress at one age: weight that
// comes or goes with a standing situation, or a step of stressing.
type increment struct {
	name   string
	age    float64
	weight *weightTerm // nil for a step of stressing
	step   int         // of stressing, from 0
}

// timeFactors are what creep, shrinkage and relaxation need in one situation,
// the same all along the element.
type timeFactors struct {
	creep    []float64       // φ(t, t_e) of each increment before now
	since    [][]float64     // of each tendon: the part of φ(t, t_e) after it was stressed
	modulus  []float64       // by which the creep of each increment is divided, Pa
	days     []float64       // since each tendon was stressed; negative for one not stressed yet, or released
	periods  []tendon.Period // of each tendon, from its stressing to now
	concrete *sectionState
}

// longTerm is the loss by creep, shrinkage and relaxation at a station in one
// situation.
type longTerm struct {
	plane  section.Plane
	forces section.Forces
	losses []tendon.Losses // of each tendon, Pa
}

// prepareTime computes the factors of every situation; without
// Element.LongTerm there are none and later losses stay out.
func (r *run) prepareTime() error {
	model := r.element.LongTerm
	if model == nil {
		return nil
	}
	for _, s := range r.situations {
		factors, err := r.timeFactors(model, s)
		if err != nil {
			return fmt.Errorf("%w %d, %s at age %g d: Element.LongTerm: %w", ErrStage, s.stage+1, s.Name, s.Age, err)
		}
		s.time = factors
	}
	return nil
}

func (r *run) timeFactors(model concrete.TimeModel, s *situation) (*timeFactors, error) {
	n := len(r.element.Tendons)
	f := &timeFactors{
		days: make([]float64, n), periods: make([]tendon.Period, n), since: make([][]float64, n),
		concrete: r.concreteAlone(s.grouted),
	}
	for _, e := range r.increments {
		if e.age >= s.Age {
			break // no creep yet
		}
		phi, err := model.Creep(s.Age, e.age)
		if err != nil {
			return nil, err
		}
		modulus, err := tendon.CreepModulus(model, e.age)
		if err != nil {
			return nil, err
		}
		f.creep, f.modulus = append(f.creep, phi), append(f.modulus, modulus)
	}
	for i := range n {
		if err := r.tendonTime(model, s, f, i); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// tendonTime fills the factors of one tendon: what has happened since it was
// stressed.
func (r *run) tendonTime(model concrete.TimeModel, s *situation, f *timeFactors, i int) error {
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
		f.days[i] = -1
		return nil
	}
	age := r.steps[k].age
	f.days[i] = s.Age - age
	strand, relaxing := r.element.Tendons[i].Strand, tendon.Relaxing{}
	var err error
	if strand.Relaxation != 0 {
		largest, _ := r.forces[i].Largest()
		if relaxing, err = strand.Relaxation.Over(f.days[i], strand.Fpk, largest); err != nil {
			return fmt.Errorf("tendon %s: %w", r.element.Tendons[i].Mark, err)
		}
	}
	if f.periods[i], err = tendon.NewPeriod(model, strand.Modulus, age, s.Age, relaxing); err != nil {
		return err
	}
	f.since[i] = slices.Clone(f.creep)
	for e := range f.since[i] {
		if at := r.increments[e].age; at < age {
			before, err := model.Creep(age, at)
			if err != nil {
				return err
			}
			f.since[i][e] -= before
		}
	}
	return nil
}

// concreteAlone is the section on which a loss acts: empty ducts out, and the
// steel of bonded tendons out too.
func (r *run) concreteAlone(grouted []string) *sectionState {
	if len(grouted) == 0 {
		return r.sectionOf(nil, 0)
	}
	for _, s := range r.sections {
		if s.steelOut && slices.Equal(s.grouted, grouted) {
			return s
		}
	}
	s := &sectionState{index: len(r.sections), grouted: grouted, steelOut: true}
	r.sections = append(r.sections, s)
	return s
}

// lose computes the losses of every situation at a station.
func (s *station) lose(r *run) {
	if r.element.LongTerm == nil {
		return
	}
	planes := make([]section.Plane, len(r.increments))
	for e, increment := range r.increments {
		planes[e] = s.increment(increment)
	}
	s.longTerm = make([]longTerm, len(r.situations))
	for k, situation := range r.situations {
		s.longTerm[k] = s.loss(r, situation, planes)
	}
}

// increment is the stress that an increment adds at the station.
func (s *station) increment(e increment) section.Plane {
	if w := e.weight; w != nil {
		return s.states[w.section.index].Plane(w.system.forces(s.x)).Times(w.coefficient)
	}
	return s.steps[e.step+1].plane.Plus(s.steps[e.step].plane.Times(-1))
}

// loss is the time-dependent loss of each tendon, [tendon.Period.Losses] with the
// creep of each increment by itself.
func (s *station) loss(r *run, situation *situation, planes []section.Plane) longTerm {
	f := situation.time
	result := longTerm{losses: make([]tendon.Losses, len(s.tendons))}
	p := s.states[f.concrete.index]
	for i, t := range s.tendons {
		if !t.here || f.days[i] <= 0 {
			continue
		}
		area, at := s.stressed(r, f, i)
		steel := r.element.Tendons[i].Area()
		place := tendon.Place{Stress: r.forces[i].At(s.x) / steel, Stiffening: tendon.Stiffening(s.gross, area, at)}
		for e, phi := range f.since[i] {
			place.CreepStrain -= phi * planes[e].At(t.at) / f.modulus[e]
		}
		result.losses[i] = f.periods[i].Losses(place)
		result.forces = result.forces.Plus(t.onConcrete(-result.losses[i].Total()*steel, p.Centroid))
	}
	result.plane = p.Plane(result.forces)
	return result
}

// stressed is the area of the tendons stressed with tendon i or before it, and
// their centre: those that shorten with it from the beginning.
func (s *station) stressed(r *run, f *timeFactors, i int) (area float64, at section.Point) {
	for k, t := range s.tendons {
		if t.here && f.days[k] >= f.days[i] {
			steel := r.element.Tendons[k].Area()
			area += steel
			at.Y += steel * t.at.Y
			at.Z += steel * t.at.Z
		}
	}
	at.Y /= math.Max(area, 1e-12)
	at.Z /= math.Max(area, 1e-12)
	return area, at
}
