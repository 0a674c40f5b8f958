package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages/limits"
)

// Stage is one operation of a plan. A type of your own with its one method is a stage
// like those of this package.
type Stage interface {
	// Situations are the situations of the operation, in order, after a history.
	Situations(History) ([]Situation, error)
}

// Situation is one state of the element during an operation: supports, age, actions and
// what is done to tendons.
type Situation struct {
	Name       string                                                  // in words, for the sheets
	Age        float64                                                 // of the element when it begins, d, above 0, at most 365e3, not before the previous situation ends; for pieces of unlike Cast state Day
	Day        float64                                                 // of the project, d; 0 means from Age
	Until      float64                                                 // age (or day, as stated above) at which it ends, d; 0 (at once) or from its beginning to 365e3
	Standing   bool                                                    // its weight is carried forward; false for a transient situation
	Brief      bool                                                    // its checks are tabulated; a derivation is written only where a check fails or governs; see SituationRecord
	Phase      limits.Phase                                            // kind of operation, one of limits.Phases
	Supports   []Support                                               // on which it rests or from which it is suspended; none means those of the previous standing situation
	Equipment  []EquipmentItem                                         // what holds or carries it, at most 50; drawn and stated, not calculated
	Method     StressingMethod                                         // of a stressing, for the operation sheet; what is not stated is left open there
	Cast       bool                                                    // it has hardened on its Supports, cast in place there: free of bending, each row with its tributary weight; its first situation
	OnBed      bool                                                    // it rests on its bed, anything between its whole length and its supports
	OutOfLevel float64                                                 // distance of any one elastic support from the plane of the other three, m, 0 to 0.1
	Roll       float64                                                 // of the element about x, both ways, rad, 0 to 0.35
	Gradient   float64                                                 // of the element along x, both ways, rad, 0 to 0.35
	Dynamic    loads.Dynamic                                           // range of the factor on the weight; must be stated for a lift or a haul, loads.AtRest() for none; must be 1 in a standing situation
	Slender    *Slender                                                // what the check of its roll needs: for an element that hangs free to turn, and for a slender one on what gives way; nil: not stated
	Actions    []Action                                                // loads beside the weight, at most 400
	Off        []string                                                // marks of actions that stayed and are taken off
	Events     []Event                                                 // what is done to tendons and pieces, in order; grouting last
	Covered    []Document                                              // that answer what is not evaluated; see the function Covered
	Elsewhere  string                                                  // which calculation checks it, in words: here it is carried along with its loads, creep and movements, and none of the checks of this package is made; a document must cover limits.Elsewhere
	Check      func(Effects, limits.Standard) ([]OwnCheck, error)      // checks that only this operation knows; nil for none
	Equip      func(Effects, limits.Standard) ([]EquipmentItem, error) // equipment that is stated by the results, beside Equipment; nil for none
	Draw       func(Effects) []Figure                                  // figures that only this operation knows; nil for none
}

// Event is one step of an operation: pretensioned strands are released from the bed; tendons
// are jacked, let down and taken out, or grouted; pieces are added or joined.
//
// A jacking of a tendon that is stressed already is a further pull: above the
// stress at its anchors it is re-stressed, below it is let down to the new stress.
// Losses up to that day are then inside the force that is measured; time-dependent
// losses, relaxation with them, are counted from the last pull.
type Event struct {
	Transfer []PretensionRelease // pretensioned strands released from the bed, all at once
	Jack     *tendon.Jacking     // one step of stressing; nil for none
	Release  []string            // marks of tendons let down at once and taken out, e.g. temporary bars
	Grout    []string            // marks of tendons whose ducts are filled: bonded from then on
	Add      []string            // marks of elements whose weight is carried from then on
	Join     []string            // marks of elements that act with their neighbours from then on
}

// History is the state of the girder after the situations so far, for a Stage.
type History struct {
	Girder   Girder    // the girder
	Element  Element   // its first piece
	Age      float64   // of the first piece at the end of the last situation, d; 0 before the first
	Supports []Support // of the last standing situation; none before the first
	Stressed []string  // marks of the tendons stressed so far
	Released []string  // marks of the tendons let down and taken out so far
	Grouted  []string  // marks of the tendons grouted so far
	Staying  []Action  // actions carried forward
	Added    []string  // marks of the pieces carried so far

	Transferred []string // marks of the pretensioned layers released so far

	deadlines []deadline // of the grouting of tendons stressed so far
}

// step takes a situation into the history, after checking it against it.
func (h *History) step(s *Situation) error {
	if err := h.checkTimes(s); err != nil {
		return err
	}
	s.Supports = as(roleIn(s.Phase), s.Supports)
	if len(s.Supports) == 0 {
		s.Supports = h.Supports
	} else if err := checkSupports(s.Supports, h.Girder.Length()); err != nil {
		return err
	}
	if err := checkEquipment(s.Equipment, s.Supports, h.Girder.Length()); err != nil {
		return err
	}
	if err := h.checkRange(s); err != nil {
		return err
	}
	if err := s.Method.check(); err != nil {
		return err
	}
	if err := s.Slender.check(h.Girder.Length()); err != nil {
		return err
	}
	if err := h.actions(s); err != nil {
		return err
	}
	if !s.Standing && len(h.Supports) == 0 {
		return fmt.Errorf("a transient situation comes first: must be a standing one, e.g. Transfer")
	}
	grouted := false
	for _, e := range s.Events {
		if grouted && (e.Jack != nil || len(e.Release) > 0 || len(e.Transfer) > 0) {
			return fmt.Errorf("in Events: a jacking or a release follows a grouting: must be before it, or in a situation of their own")
		}
		grouted = grouted || len(e.Grout) > 0
		if err := h.event(e); err != nil {
			return err
		}
	}
	for _, e := range s.Events {
		if err := h.onCarried(e); err != nil {
			return err
		}
	}
	if err := h.onBed(); err != nil {
		return err
	}
	h.groutWithin(s)
	if err := h.inTime(s); err != nil {
		return err
	}
	var err error
	if s.Supports, err = h.footed(s.Supports); err != nil {
		return err
	}
	if s.Standing {
		h.Supports = s.Supports
	}
	h.Age = math.Max(s.Age, s.Until)
	return nil
}

// oldest is the largest age that is looked at, 1000 years (d).
const oldest = 365e3

// checkTimes checks day, age and end, and makes them one.
func (h *History) checkTimes(s *Situation) error {
	if !(s.Age > 0 && s.Age <= oldest) {
		return fmt.Errorf("age = %g d: must be above 0, at most %g d", s.Age, oldest)
	}
	if s.Age < h.Age {
		return fmt.Errorf("age = %g d: must be at least %g d, when the previous situation ends", s.Age, h.Age)
	}
	if s.Until != 0 && !(s.Until >= s.Age && s.Until <= oldest) {
		return fmt.Errorf("field Until = %g d: must be 0 (at once) or at least the age, %g d, at most %g d", s.Until, s.Age, oldest)
	}
	return nil
}

// checkRange checks phase, dynamic factors, roll, gradient and level.
func (h *History) checkRange(s *Situation) error {
	least, most, err := s.Dynamic.Range()
	switch {
	case err != nil:
		return err
	case !slices.Contains(limits.Phases(), s.Phase):
		return fmt.Errorf("field Phase = %q: must be one of %q", s.Phase, limits.Phases())
	case s.Dynamic == loads.Dynamic{} && (s.Phase == limits.Lifting || s.Phase == limits.Hauling):
		return fmt.Errorf("field Dynamic of %s is not stated: must be a range, loads.AtRest() for none", s.Phase)
	case s.Standing && (least != 1 || most != 1):
		return fmt.Errorf("dynamic factors %g to %g in a standing situation: must be 1", least, most)
	case !(s.Roll >= 0 && s.Roll <= 0.35):
		return fmt.Errorf("field Roll = %g rad: must be 0 to 0.35 rad, both ways; is it in degrees?", s.Roll)
	case !(s.Gradient >= 0 && s.Gradient <= 0.35):
		return fmt.Errorf("field Gradient = %g rad: must be 0 to 0.35 rad, both ways; is it in per cent?", s.Gradient)
	case !(s.OutOfLevel >= 0 && s.OutOfLevel <= 0.1):
		return fmt.Errorf("field OutOfLevel = %g m: must be 0 to 0.1 m; is it in mm?", s.OutOfLevel)
	}
	return nil
}

// actions checks what acts and keeps what stays.
func (h *History) actions(s *Situation) error {
	staying := slices.Clone(h.Staying)
	for _, mark := range s.Off {
		at := slices.IndexFunc(staying, func(a Action) bool { return a.Mark == mark })
		if at < 0 {
			return fmt.Errorf("in Off: action %s is not present: must be an action that stays", mark)
		}
		staying = slices.Delete(staying, at, at+1)
	}
	for i, a := range s.Actions {
		if err := a.check(h.Girder.Length()); err != nil {
			return fmt.Errorf("in Actions[%d] %s: %w", i, a.Mark, err)
		}
		if slices.ContainsFunc(append(staying, s.Actions[:i]...), func(b Action) bool { return b.Mark == a.Mark }) {
			return fmt.Errorf("in Actions[%d]: action %s is present already: must be marks that differ", i, a.Mark)
		}
	}
	for _, a := range s.Actions {
		if a.Stays && !s.Standing {
			return fmt.Errorf("in Actions: %s stays in a transient situation: must be put on in a standing one", a.Mark)
		}
		if a.Stays {
			staying = append(staying, a)
		}
	}
	h.Staying = staying
	return nil
}

func (h *History) event(e Event) error {
	if err := h.transfer(e.Transfer); err != nil {
		return err
	}
	if e.Jack != nil {
		if err := h.jack(*e.Jack); err != nil {
			return err
		}
	}
	for _, mark := range e.Release {
		if !slices.Contains(h.Stressed, mark) || slices.Contains(h.Grouted, mark) || slices.Contains(h.Released, mark) {
			return fmt.Errorf("in Release: tendon %s is not stressed, is grouted or is released already: must be stressed and without grout", mark)
		}
		h.Released = append(slices.Clone(h.Released), mark)
	}
	for _, mark := range e.Grout {
		switch {
		case slices.Contains(h.Released, mark):
			return fmt.Errorf("in Grout: tendon %s is released: must be a stressed tendon", mark)
		case !slices.Contains(h.Stressed, mark):
			return fmt.Errorf("in Grout: tendon %s has not been stressed: must be a stressed tendon", mark)
		case h.external(mark):
			return fmt.Errorf("in Grout: tendon %s is external: must be a tendon in a duct in the concrete; a filling of its pipe does not bond it", mark)
		case slices.Contains(h.Grouted, mark):
			return fmt.Errorf("in Grout: tendon %s is already grouted: must be grouted once", mark)
		}
		h.Grouted = append(slices.Clone(h.Grouted), mark)
	}
	return h.pieces(e)
}

// jack takes a step of stressing: a first one, or a further pull of a tendon that is
// stressed and free in its duct.
func (h *History) jack(j tendon.Jacking) error {
	if err := j.Check(); err != nil {
		return err
	}
	layers, _ := h.Girder.layers()
	for n, mark := range j.Tendons {
		switch {
		case slices.ContainsFunc(layers, func(l tendon.Pretension) bool { return l.Mark == mark }):
			return fmt.Errorf("in Jacking: %s is pretensioned: must be a tendon; strands on the bed are released by Transfer.Pretension", mark)
		case !h.has(mark):
			return fmt.Errorf("in Jacking: tendon %s is not in the element: must be a mark of Element.Tendons", mark)
		case slices.Contains(j.Tendons[:n], mark):
			return fmt.Errorf("in Jacking: tendon %s is named twice: must be named once", mark)
		case slices.Contains(h.Grouted, mark):
			return fmt.Errorf("in Jacking: tendon %s is grouted: must be free in its duct to be re-stressed or let down", mark)
		case slices.Contains(h.Released, mark):
			return fmt.Errorf("in Jacking: tendon %s is released and taken out: must be a tendon that is not released", mark)
		}
		if !slices.Contains(h.Stressed, mark) {
			h.Stressed = append(slices.Clone(h.Stressed), mark)
		}
	}
	return nil
}

// pieces takes the pieces that an event adds or joins.
func (h *History) pieces(e Event) error {
	for _, mark := range append(slices.Clone(e.Add), e.Join...) {
		if !slices.ContainsFunc(h.Girder.Pieces, func(p Piece) bool { return p.Element.Mark == mark }) {
			return fmt.Errorf("in Add or Join: piece %s is not in the girder: must be the mark of a piece", mark)
		}
	}
	for _, mark := range e.Add {
		if slices.Contains(h.Added, mark) {
			return fmt.Errorf("in Add: piece %s is carried already: must be added once", mark)
		}
		h.Added = append(slices.Clone(h.Added), mark)
	}
	for _, mark := range e.Join {
		if !slices.Contains(h.Added, mark) {
			return fmt.Errorf("in Join: piece %s is not carried yet: must be added before or with it", mark)
		}
	}
	return nil
}

func (h *History) has(mark string) bool {
	list, _ := h.Girder.tendons()
	return slices.ContainsFunc(list, func(t tendon.Tendon) bool { return t.Mark == mark })
}

// roleIn is what a support is whose role is not stated.
func roleIn(phase limits.Phase) Role {
	if phase == limits.Lifting {
		return LiftPoint
	}
	return Pad
}

func (h *History) external(mark string) bool {
	list, _ := h.Girder.tendons()
	return slices.ContainsFunc(list, func(t tendon.Tendon) bool { return t.Mark == mark && t.External })
}
