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
	creep     []float64         // φ(t, t_e) of each increment before now
	since     [][]float64       // of each tendon: the part of φ(t, t_e) after it was stressed
	modulus   []float64         // Ec of each increment, to which φ relates, Pa
	shrinkage []float64         // of each tendon: strain from its stressing to now
	toStress  []float64         // φ(t, t_i) of each tendon
	relaxing  []tendon.Relaxing // of each tendon since it was stressed
	days      []float64         // since each tendon was stressed; negative for one not stressed yet, or released
	concrete  *sectionState
	ecm       float64 // Ecm at 28 d, Pa
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
		shrinkage: make([]float64, n), toStress: make([]float64, n), days: make([]float64, n), relaxing: make([]tendon.Relaxing, n), since: make([][]float64, n),
		concrete: r.concreteAlone(s.grouted),
	}
	now, err := model.Shrinkage(s.Age)
	if err != nil {
		return nil, err
	}
	state, err := model.At(28)
	if err != nil {
		return nil, err
	}
	f.ecm = state.Modulus
	for _, e := range r.increments {
		if e.age >= s.Age {
			break // no creep yet
		}
		phi, err := model.Creep(s.Age, e.age)
		if err != nil {
			return nil, err
		}
		modulus, err := model.CreepModulus(e.age)
		if err != nil {
			return nil, err
		}
		f.creep, f.modulus = append(f.creep, phi), append(f.modulus, modulus)
	}
	for i := range n {
		if err := r.tendonTime(model, s, f, i, now.Total); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// tendonTime fills the factors of one tendon: what has happened since it was
// stressed.
func (r *run) tendonTime(model concrete.TimeModel, s *situation, f *timeFactors, i int, shrinkage float64) error {
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
	then, err := model.Shrinkage(age)
	if err != nil {
		return err
	}
	f.shrinkage[i] = shrinkage - then.Total
	if strand := r.element.Tendons[i].Strand; strand.Relaxation != 0 {
		largest, _ := r.forces[i].Largest()
		if f.relaxing[i], err = strand.Relaxation.Over(f.days[i], strand.Fpk, largest); err != nil {
			return fmt.Errorf("tendon %s: %w", r.element.Tendons[i].Mark, err)
		}
	}
	if f.toStress[i], err = model.Creep(s.Age, age); err != nil {
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

// loss is (5.46) of EN 1992-1-1:2004 with the creep of each increment by itself:
// Δσ = (Ep·Δε_cs + 0.8·Δσ_pr + Ep·Σφ·σ/Ec)/(1 + Ep/Ecm·Ap/Ac·(1 + Ac/Ic·z²)·(1 + 0.8φ)).
func (s *station) loss(r *run, situation *situation, planes []section.Plane) longTerm {
	f := situation.time
	result := longTerm{losses: make([]tendon.Losses, len(s.tendons))}
	p := s.states[f.concrete.index]
	for i, t := range s.tendons {
		if !t.here || f.days[i] <= 0 {
			continue
		}
		area, level := s.stressed(r, f, i)
		steel := r.element.Tendons[i]
		creep := 0.0
		for e, phi := range f.since[i] {
			creep -= phi * planes[e].At(t.at) / f.modulus[e]
		}
		relaxation := f.relaxing[i].Loss(r.forces[i].At(s.x) / steel.Area())
		divisor := s.divisor(f, steel.Strand.Modulus, f.toStress[i], area, level)
		losses := tendon.Losses{
			Shrinkage: f.shrinkage[i] * steel.Strand.Modulus / divisor, Creep: creep * steel.Strand.Modulus / divisor, Relaxation: 0.8 * relaxation / divisor,
		}
		result.losses[i] = losses
		result.forces = result.forces.Plus(t.onConcrete(-losses.Total()*steel.Area(), p.Centroid))
	}
	result.plane = p.Plane(result.forces)
	return result
}

// stressed is the area of the tendons stressed with tendon i or before it, and
// their level: those that shorten with it from the beginning.
func (s *station) stressed(r *run, f *timeFactors, i int) (area, level float64) {
	for k, t := range s.tendons {
		if t.here && f.days[k] >= f.days[i] {
			area += r.element.Tendons[k].Area()
			level += r.element.Tendons[k].Area() * t.at.Z
		}
	}
	return area, level / math.Max(area, 1e-12)
}

// divisor is the lower part of (5.46), on the gross section.
func (s *station) divisor(f *timeFactors, modulus, phi, area, level float64) float64 {
	z := level - s.gross.Centroid.Z
	return 1 + modulus/f.ecm*area/s.gross.Area*(1+s.gross.Area/s.gross.SecondMomentY*z*z)*(1+0.8*phi)
}
