package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages/limits"
)

// Stage is one operation of a plan in an engineer's words. Its one method says
// what the element meets; a type of your own with this method is a stage like
// those of this package.
type Stage interface {
	// Situations are what the element meets, in order, given what went before.
	Situations(History) ([]Situation, error)
}

// Situation is one thing that the element meets.
type Situation struct {
	Name     string                                          // what it is, in words
	Age      float64                                         // of the element when it begins, d
	Until    float64                                         // age at which it ends, d; 0 means at once
	Standing bool                                            // the element stays like this: its weight is locked in; false for a passing situation
	Phase    limits.Phase                                    // what is being done
	Supports []Support                                       // where it rests or hangs; none means as before
	Dynamic  loads.Dynamic                                   // range of the factor on the weight
	Loads    loads.Set                                       // other vertical loads on the axis, e.g. equipment: they come and go together, and are left out where that is worse; give a situation for each arrangement
	Events   []Event                                         // what is done to its tendons, in order
	Check    func(Effects, limits.Standard) ([]Check, error) // checks that only this operation knows; nil for none
	Draw     func(Effects) []Figure                          // figures that only this operation knows; nil for none
}

// Event is one thing done to tendons: they are jacked, let down and taken out, or
// grouted.
type Event struct {
	Jack    *tendon.Jacking // one step of stressing; nil for none
	Release []string        // marks of tendons let down at once and taken out, e.g. temporary bars
	Grout   []string        // marks of tendons whose ducts are filled: bonded from then on
}

// History is what the element has met so far, for a Stage to build on.
type History struct {
	Element  Element   // the element
	Age      float64   // at the end of the last situation, d; 0 before the first
	Supports []Support // of the last standing situation; none before the first
	Stressed []string  // marks of the tendons stressed so far
	Released []string  // marks of the tendons let down and taken out so far
	Grouted  []string  // marks of the tendons grouted so far
}

// step takes a situation into the history, after checking it against it.
func (h *History) step(s *Situation) error {
	if !(s.Age > 0) || math.IsInf(s.Age, 0) {
		return fmt.Errorf("age = %g d: allowed finite and positive", s.Age)
	}
	if s.Age < h.Age {
		return fmt.Errorf("age = %g d: allowed at least %g d, when the situation before it ends", s.Age, h.Age)
	}
	if s.Until != 0 && !(s.Until >= s.Age) || math.IsInf(s.Until, 0) {
		return fmt.Errorf("field Until = %g d: allowed 0 (at once) or at least the age, %g d", s.Until, s.Age)
	}
	if len(s.Supports) == 0 {
		s.Supports = h.Supports
	}
	least, most, err := s.Dynamic.Range()
	if err != nil {
		return err
	}
	if s.Standing && (least != 1 || most != 1) {
		return fmt.Errorf("dynamic factors %g to %g in a standing situation: allowed 1", least, most)
	}
	if len(s.Loads.Curvatures) > 0 {
		return fmt.Errorf("in Loads: imposed curvatures: allowed none, they do nothing to a piece whose forces follow from statics")
	}
	if err := s.Loads.Check(h.Element.Length); err != nil {
		return err
	}
	if !s.Standing && len(h.Supports) == 0 {
		return fmt.Errorf("a passing situation comes first: allowed a standing one, e.g. Transfer")
	}
	grouted := false
	for _, e := range s.Events {
		if grouted && (e.Jack != nil || len(e.Release) > 0) {
			return fmt.Errorf("in Events: a jacking or a release follows a grouting: allowed before it, or in a situation of their own")
		}
		grouted = grouted || len(e.Grout) > 0
		if err := h.event(e); err != nil {
			return err
		}
	}
	if s.Standing {
		h.Supports = s.Supports
	}
	h.Age = math.Max(s.Age, s.Until)
	return nil
}

func (h *History) event(e Event) error {
	if e.Jack != nil {
		if err := e.Jack.Check(); err != nil {
			return err
		}
		for _, mark := range e.Jack.Tendons {
			if !h.has(mark) {
				return fmt.Errorf("in Jacking: tendon %s is not in the element: allowed a mark of Element.Tendons", mark)
			}
			if slices.Contains(h.Stressed, mark) {
				return fmt.Errorf("in Jacking: tendon %s is already stressed: allowed once", mark)
			}
			h.Stressed = append(slices.Clone(h.Stressed), mark)
		}
	}
	for _, mark := range e.Release {
		if !slices.Contains(h.Stressed, mark) || slices.Contains(h.Grouted, mark) || slices.Contains(h.Released, mark) {
			return fmt.Errorf("in Release: tendon %s is not stressed, is grouted or is released already: allowed stressed tendons without grout", mark)
		}
		h.Released = append(slices.Clone(h.Released), mark)
	}
	for _, mark := range e.Grout {
		if slices.Contains(h.Released, mark) {
			return fmt.Errorf("in Grout: tendon %s is released: allowed stressed tendons", mark)
		}
		if !slices.Contains(h.Stressed, mark) {
			return fmt.Errorf("in Grout: tendon %s has not been stressed: allowed stressed tendons", mark)
		}
		if slices.Contains(h.Grouted, mark) {
			return fmt.Errorf("in Grout: tendon %s is already grouted: allowed once", mark)
		}
		h.Grouted = append(slices.Clone(h.Grouted), mark)
	}
	return nil
}

func (h *History) has(mark string) bool {
	return slices.ContainsFunc(h.Element.Tendons, func(t tendon.Tendon) bool { return t.Mark == mark })
}
