package stages

import (
	"fmt"
	"math"
	"reflect"
	"slices"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages/limits"
)

// run is one run of a plan.
type run struct {
	element    Element
	standard   limits.Standard
	parts      []part
	axis       float64 // y about which torsion is reckoned: the centroid at mid-length
	paths      []*tendon.Path
	forces     []*tendon.Force // of each tendon once it is stressed in the plan; nil if it never is
	systems    []*system
	sections   []*sectionState
	steps      []stepOfStressing
	increments []increment // lasting changes of stress, in order of age
	situations []*situation
	grid       []piece
	cuts       []levelCut           // of the outline, where the section is constant
	zones      map[int][][2]float64 // dispersion lengths, by the number of steps of stressing
}

// situation is a Situation with what the run knows of it.
type situation struct {
	Situation
	stage    int          // index in the plan
	index    int          // in the run
	time     *timeFactors // nil where later losses are left out
	concrete concrete.State
	system   *system
	section  *sectionState // on which changes of this situation act
	steps    int           // how many steps of stressing are made at its end
	from     int           // how many were made at its beginning
	locked   []weightTerm  // weight of the standing situations on the sections of their days, less the last one on today's
	grouted  []string
	other    *beam.Response // of Situation.Loads; nil if there are none
	otherR   []float64
	dynamic  [2]float64
}

// weightTerm is coefficient × the weight on a system, acting on a section.
type weightTerm struct {
	system      *system
	section     *sectionState
	coefficient float64
}

// newRun checks the element and lays out the plan.
func newRun(plan Plan, element Element, standard limits.Standard) (*run, error) {
	if err := element.check(); err != nil {
		return nil, err
	}
	if standard == nil {
		return nil, fmt.Errorf("%w: the standard is missing: allowed one of package limits", ErrStage)
	}
	if len(plan) == 0 {
		return nil, fmt.Errorf("%w: the plan has no stage: allowed at least one", ErrStage)
	}
	r := &run{
		element: element, standard: standard, parts: element.weight(),
		axis:  element.Section.At(element.Length / 2).Properties().Centroid.Y,
		paths: make([]*tendon.Path, len(element.Tendons)), forces: make([]*tendon.Force, len(element.Tendons)),
	}
	for i, t := range element.Tendons {
		path, err := t.Path()
		if err != nil {
			return nil, err
		}
		r.paths[i] = path
	}
	if err := r.expand(plan); err != nil {
		return nil, err
	}
	return r, r.prepareTime()
}

// expand turns the stages into situations, in order.
func (r *run) expand(plan Plan) error {
	history := History{Element: r.element}
	var locked []weightTerm
	var standing *system
	for i, stage := range plan {
		if stage == nil || reflect.ValueOf(stage).Kind() == reflect.Pointer && reflect.ValueOf(stage).IsNil() {
			return fmt.Errorf("%w %d is nil: allowed a stage", ErrStage, i+1)
		}
		situations, err := stage.Situations(history)
		if err != nil {
			return fmt.Errorf("%w %d: %w", ErrStage, i+1, err)
		}
		if len(situations) == 0 {
			return fmt.Errorf("%w %d has no situation: allowed at least one", ErrStage, i+1)
		}
		for _, s := range r.withEnds(situations) {
			where := func(err error) error {
				return fmt.Errorf("%w %d, %s at age %g d: %w", ErrStage, i+1, s.Name, s.Age, err)
			}
			grouted := history.Grouted
			if err := history.step(&s); err != nil {
				return where(err)
			}
			next := &situation{Situation: s, stage: i, index: len(r.situations), grouted: history.Grouted, from: len(r.steps)}
			if err := r.prepare(next, grouted); err != nil {
				return where(err)
			}
			if standing != nil {
				locked = merged(append(slices.Clone(locked), weightTerm{standing, next.section, -1}))
			}
			next.locked = locked
			r.addIncrements(next, standing)
			if s.Standing {
				locked = merged(append(slices.Clone(locked), weightTerm{next.system, next.section, 1}))
				standing = next.system
			} else if standing != nil { // the change is undone when the piece is set down again
				locked = merged(append(slices.Clone(locked), weightTerm{standing, next.section, 1}))
			}
			r.situations = append(r.situations, next)
		}
	}
	return nil
}

// withEnds adds, behind each standing situation that lasts, the same at its end:
// with later losses the end may be worse than the beginning.
func (r *run) withEnds(situations []Situation) []Situation {
	if r.element.LongTerm == nil {
		return situations
	}
	var all []Situation
	for _, s := range situations {
		all = append(all, s)
		if s.Standing && s.Until > s.Age {
			all = append(all, Situation{
				Name: s.Name + ", at its end", Age: s.Until, Standing: true, Phase: s.Phase, Supports: s.Supports, Dynamic: s.Dynamic, Loads: s.Loads,
			})
		}
	}
	return all
}

// addIncrements notes the lasting changes of stress of a situation: if it is
// standing, the weight goes from the supports before it to its own; then the
// steps of stressing.
func (r *run) addIncrements(s *situation, before *system) {
	if s.Standing && before != s.system {
		if before != nil {
			r.increments = append(r.increments, increment{name: "weight off " + before.words(), age: s.Age, weight: &weightTerm{before, s.section, -1}})
		}
		r.increments = append(r.increments, increment{name: "weight on " + s.system.words(), age: s.Age, weight: &weightTerm{s.system, s.section, 1}})
	}
	for k := s.from; k < s.steps; k++ {
		r.increments = append(r.increments, increment{name: fmt.Sprintf("stressing step %d", k+1), age: s.Age, step: k})
	}
}

// merged adds up terms on the same system and section and drops those that
// cancel.
func merged(terms []weightTerm) []weightTerm {
	var sum []weightTerm
	for _, t := range terms {
		at := slices.IndexFunc(sum, func(u weightTerm) bool { return u.system == t.system && u.section == t.section })
		if at < 0 {
			sum = append(sum, t)
			continue
		}
		sum[at].coefficient += t.coefficient
	}
	return slices.DeleteFunc(sum, func(t weightTerm) bool { return t.coefficient == 0 })
}

// prepare finds concrete, section, system and tendon forces of a situation;
// grouted are the tendons bonded when it begins.
func (r *run) prepare(s *situation, grouted []string) error {
	var err error
	if s.concrete, err = r.element.Concrete.At(s.Age); err != nil {
		return err
	}
	if err := checkState(s.concrete); err != nil {
		return err
	}
	s.dynamic[0], s.dynamic[1], _ = s.Dynamic.Range() // checked by History.step
	s.section = r.sectionOf(grouted, s.concrete.Modulus)
	if s.system, err = r.systemOn(s.Supports); err != nil {
		return err
	}
	if len(s.Loads.Points)+len(s.Loads.Lines)+len(s.Loads.Couples) > 0 {
		if s.otherR, s.other, err = s.system.other(s.Loads); err != nil {
			return err
		}
	}
	for _, event := range s.Events {
		marks := event.Release
		if event.Jack != nil {
			marks = event.Jack.Tendons
		}
		if len(marks) == 0 {
			continue
		}
		step := stepOfStressing{release: event.Jack == nil, section: s.section, concrete: s.concrete.Modulus, bonded: grouted, age: s.Age}
		if step.ratios, err = r.modularRatios(s.concrete.Modulus); err != nil {
			return err
		}
		for _, mark := range marks {
			i := slices.IndexFunc(r.element.Tendons, func(t tendon.Tendon) bool { return t.Mark == mark })
			if step.release {
				step.tendons = append(step.tendons, i)
				continue
			}
			if r.forces[i], err = r.element.Tendons[i].Jack(*event.Jack); err != nil {
				return err
			}
			step.tendons = append(step.tendons, i)
		}
		r.steps = append(r.steps, step)
	}
	s.steps = len(r.steps)
	return nil
}

// checkState refuses a concrete without strength or stiffness, as a model of
// one's own might give: a modulus of zero would make a loss vanish.
func checkState(c concrete.State) error {
	for _, p := range []struct {
		name  string
		value float64
	}{{"Characteristic", c.Characteristic}, {"Mean", c.Mean}, {"TensileMean", c.TensileMean}, {"TensileLow", c.TensileLow}, {"Modulus", c.Modulus}} {
		if !(p.value > 0) || math.IsInf(p.value, 0) {
			return fmt.Errorf("Element.Concrete at age %g d: %s = %g Pa: allowed finite and positive", c.Age, p.name, p.value)
		}
	}
	return nil
}

// sectionOf is the state with these tendons bonded; the concrete's modulus
// matters only if there are any.
func (r *run) sectionOf(grouted []string, modulus float64) *sectionState {
	if len(grouted) == 0 {
		modulus = 0
	}
	for _, s := range r.sections {
		if slices.Equal(s.grouted, grouted) && s.concrete == modulus {
			return s
		}
	}
	s := &sectionState{index: len(r.sections), grouted: grouted, concrete: modulus}
	r.sections = append(r.sections, s)
	return s
}

func (r *run) systemOn(supports []Support) (*system, error) {
	for _, s := range r.systems {
		if s.same(supports) {
			return s, nil
		}
	}
	s, err := newSystem(supports, r.parts, r.element.Length, r.axis)
	if err == nil {
		r.systems = append(r.systems, s)
	}
	return s, err
}

// basis is the concrete stress at a station, parted by the factors that apply.
type basis struct {
	locked    section.Plane // weight factor
	weight    section.Plane // weight factor × dynamic factor
	prestress section.Plane // prestress factor
	other     section.Plane // factor of other loads, or none of it
}

func (r *run) basis(s *situation, at *station) basis {
	today := at.states[s.section.index]
	b := basis{weight: today.Plane(s.system.forces(at.x))}
	b.prestress, _ = at.prestressIn(s)
	for _, t := range s.locked {
		b.locked = b.locked.Plus(at.states[t.section.index].Plane(t.system.forces(at.x)).Times(t.coefficient))
	}
	if s.other != nil {
		b.other = today.Plane(section.Forces{My: s.other.Moment(at.x)})
	}
	return b
}

// corner is one set of factors.
type corner struct{ weight, dynamic, prestress, other float64 }

// under is the stress with the factors of a corner.
func (b basis) under(c corner) section.Plane {
	return b.locked.Times(c.weight).Plus(b.weight.Times(c.weight * c.dynamic)).
		Plus(b.prestress.Times(c.prestress)).Plus(b.other.Times(c.other))
}

// worst is the corner that makes the value at p largest (sign +1) or smallest
// (sign −1), and that value.
func (b basis) worst(sign float64, p section.Point, factors ranges) (corner, float64) {
	locked, weight := sign*b.locked.At(p), sign*b.weight.At(p)
	prestress, other := sign*b.prestress.At(p), sign*b.other.At(p)
	best, value := corner{}, math.Inf(-1)
	for _, w := range factors.weight {
		for _, d := range factors.dynamic {
			if v := w * (locked + d*weight); v > value {
				best.weight, best.dynamic, value = w, d, v
			}
		}
	}
	best.prestress = factors.prestress[0]
	if prestress > 0 {
		best.prestress = factors.prestress[1]
	}
	if other > 0 {
		best.other = factors.other
	}
	return best, sign * (value + best.prestress*prestress + best.other*other)
}

// ranges are the factors from which a corner is chosen: least and most.
type ranges struct {
	weight, dynamic, prestress [2]float64
	other                      float64
}

// rangesOf joins the element's weight tolerance, the situation's dynamic range
// and a limit's partial factors.
func (r *run) rangesOf(s *situation, f limits.Factors) ranges {
	f = f.Filled()
	least, most, _ := r.element.WeightTolerance.Range() // checked with the element
	if s.other == nil {
		f.VariableMost = 0
	}
	if s.steps == 0 {
		f.PrestressLeast, f.PrestressMost = 1, 1 // there is none yet
	}
	return ranges{
		weight:    [2]float64{least * f.WeightLeast, most * f.WeightMost},
		dynamic:   s.dynamic,
		prestress: [2]float64{f.PrestressLeast, f.PrestressMost},
		other:     f.VariableMost,
	}
}
