package stages

import (
	"errors"
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages/limits"
)

// Transfer is the first stressing on the casting bed: release of pretensioned strands,
// stressing of tendons, at least one of them. With supports On, the element hogs off
// the bed onto them. Without, it rests on its bed over its whole length, on its two ends
// alone, or anything between: every stress is the worse of both, a bound.
type Transfer struct {
	Age        float64             // d, above 0, at most 365e3
	Pretension []PretensionRelease // strands released from the bed, all at once, before any jacking
	Jacking    []tendon.Jacking    // steps in order
	On         []Support           // after it has hogged; none means its bed, between its whole length and its two ends
	Gradient   float64             // of the bed along x, both ways, rad, 0 to 0.35
	Roll       float64             // of the bed about x, both ways, rad, 0 to 0.35
	OutOfLevel float64             // distance of any one elastic support from the plane of the other three, m, 0 to 0.1
	Equipment  []EquipmentItem     // what holds or carries it; drawn and stated, not calculated
	Method     StressingMethod     // for the operation sheet; what is not stated is left open there
}

// Situations is the element on its supports after the last step.
func (t Transfer) Situations(h History) ([]Situation, error) {
	if len(t.Jacking) == 0 && len(t.Pretension) == 0 {
		return nil, errors.New("Transfer has neither Pretension nor Jacking: must be at least one")
	}
	events := jackings(t.Jacking)
	if len(t.Pretension) > 0 {
		events = append([]Event{{Transfer: t.Pretension}}, events...)
	}
	on := t.On
	if len(on) == 0 {
		var err error
		if on, err = h.Girder.soffitEnds(); err != nil {
			return nil, err
		}
	}
	return []Situation{{
		Name: "transfer of prestress", Age: t.Age, Standing: true, Phase: limits.Stressing, Supports: as(Falsework, on),
		Gradient: t.Gradient, Roll: t.Roll, OutOfLevel: t.OutOfLevel, OnBed: len(t.On) == 0, Events: events, Equipment: t.Equipment, Method: t.Method,
	}}, nil
}

// soffitEnds are the edges of the soffit at both ends, those of the left end as one
// resultant: supports of an element that has hogged off its bed.
func (g Girder) soffitEnds() ([]Support, error) {
	var on []Support
	for _, x := range []float64{0, g.Length()} {
		least, most, level := math.Inf(1), math.Inf(-1), math.Inf(1)
		for _, p := range g.Pieces {
			if x < p.At-g.near() || x > p.To()+g.near() || p.Element.Section == nil {
				continue
			}
			for _, c := range p.Element.Section.At(x - p.At).Corners() {
				switch {
				case c.Z < level-1e-6:
					least, most, level = c.Y, c.Y, c.Z
				case c.Z < level+1e-6:
					least, most = math.Min(least, c.Y), math.Max(most, c.Y)
				}
			}
		}
		if !(most-least > 0.05) {
			return nil, fmt.Errorf("field Transfer.On is empty and the soffit at x = %g m is %.3g m wide: must be at least 0.05 m, or state the supports", x, math.Max(0, most-least))
		}
		edges := []Support{{X: x, Y: least, Z: level, Role: Falsework}, {X: x, Y: most, Z: level, Role: Falsework}}
		if x == 0 {
			edges = Equalised("soffit edge", edges...)
		}
		on = append(on, edges...)
	}
	return on, nil
}

func jackings(steps []tendon.Jacking) []Event {
	events := make([]Event, len(steps))
	for i := range steps {
		events[i].Jack = &steps[i]
	}
	return events
}

// Lift is the element suspended from lift points. Without a set-down after it in the
// plan it does not pass.
type Lift struct {
	Name      string          // e.g. "lift from the bed"; "" means "lift"
	Age       float64         // d, not before the previous situation ends
	On        []Support       // lift points, at least two; their Role is LiftPoint where none is stated
	Dynamic   loads.Dynamic   // range of the factor on the weight, 0 to 1 and 1 to 10; must be stated, loads.AtRest() for none
	Roll      float64         // of the suspended element about x, both ways, rad, 0 to 0.35
	Gradient  float64         // along x, one end above the other, both ways, rad, 0 to 0.35
	Slender   *Slender        // must be stated for an element that hangs free to turn
	Actions   []Action        // wind, equipment
	Cranes    []MobileCrane   // one for each hook, whose charts are checked; none: by others
	Gear      *Gear           // slings and lifting anchors that are checked; nil: by others
	Equipment []EquipmentItem // what holds or carries it; drawn and stated, not calculated
}

// Situations is the element suspended, a transient situation.
func (l Lift) Situations(History) ([]Situation, error) {
	if len(l.On) == 0 {
		return nil, errors.New("Lift.On has no support: must be at least two lift points")
	}
	s := Situation{
		Name: named(l.Name, "lift"), Age: l.Age, Phase: limits.Lifting, Supports: as(LiftPoint, l.On), Dynamic: l.Dynamic,
		Roll: l.Roll, Gradient: l.Gradient, Slender: l.Slender, Actions: l.Actions, Equipment: l.Equipment,
	}
	if err := onCranes(&s, l.Cranes); err != nil {
		return nil, fmt.Errorf("Lift: %w", err)
	}
	if err := onGear(&s, l.Gear); err != nil {
		return nil, fmt.Errorf("Lift: %w", err)
	}
	return []Situation{s}, nil
}

// Store is the element at rest on dunnage.
type Store struct {
	Name       string          // "" means "store"
	Age, Until float64         // d, Age not before the previous situation ends; Until 0 (at once) or Age to 365e3
	On         []Support       // dunnage, at least two; their Role is Pad where none is stated
	OutOfLevel float64         // distance of any one elastic support from the plane of the other three, m, 0 to 0.1
	Roll       float64         // cross-fall, both ways, rad, 0 to 0.35
	Gradient   float64         // fall along x, both ways, rad, 0 to 0.35
	Slender    *Slender        // of a slender element; nil leaves its roll with lateral bending out
	Actions    []Action        // imposed loads, wind
	Off        []string        // marks of actions that stayed and are taken off
	Equipment  []EquipmentItem // what holds or carries it; drawn and stated, not calculated
}

// Situations is the element on its dunnage.
func (s Store) Situations(History) ([]Situation, error) {
	if len(s.On) == 0 {
		return nil, errors.New("Store.On has no support: must be at least two lines of dunnage")
	}
	return []Situation{{
		Name: named(s.Name, "store"), Age: s.Age, Until: s.Until, Standing: true, Phase: limits.Storing, Supports: as(Pad, s.On),
		OutOfLevel: s.OutOfLevel, Roll: s.Roll, Gradient: s.Gradient, Slender: s.Slender, Actions: s.Actions, Off: s.Off, Equipment: s.Equipment,
	}}, nil
}

// Haul is the element on a trailer, a straddle carrier or a girder carrier. Without a
// set-down after it in the plan it does not pass.
type Haul struct {
	Name       string          // "" means "haul"
	Age        float64         // d, not before the previous situation ends
	On         []Support       // bunks, hangers or carrier supports, at least two; their Role is Pad where none is stated
	Dynamic    loads.Dynamic   // range of the factor on the weight, 0 to 1 and 1 to 10; must be stated, loads.AtRest() for none
	OutOfLevel float64         // distance of any one elastic support from the plane of the other three, m, 0 to 0.1
	Roll       float64         // cross-fall and superelevation, both ways, rad, 0 to 0.35
	Gradient   float64         // along x, both ways, rad, 0 to 0.35
	Slender    *Slender        // of a slender element; nil leaves its roll with lateral bending out
	Actions    []Action        // wind, braking
	Equipment  []EquipmentItem // what holds or carries it; drawn and stated, not calculated
}

// Situations is the element on its way, a transient situation.
func (h Haul) Situations(History) ([]Situation, error) {
	if len(h.On) == 0 {
		return nil, errors.New("Haul.On has no support: must be at least two bunks")
	}
	return []Situation{{
		Name: named(h.Name, "haul"), Age: h.Age, Phase: limits.Hauling, Supports: as(Pad, h.On), Dynamic: h.Dynamic,
		OutOfLevel: h.OutOfLevel, Roll: h.Roll, Gradient: h.Gradient, Slender: h.Slender, Actions: h.Actions, Equipment: h.Equipment,
	}}, nil
}

// Stress is a stressing after Transfer, the release or the grouting of tendons, at least
// one of them, on the supports of the previous standing situation or on others.
type Stress struct {
	Age       float64          // d, not before the previous situation ends
	Jacking   []tendon.Jacking // steps in order, first and further pulls; every check is made after each
	Release   []string         // marks of tendons let down and taken out after the last step, e.g. temporary bars
	Grout     []string         // marks of tendons in ducts, grouted afterwards
	GroutAge  float64          // d, not before Age; 0 means Age
	On        []Support        // none means those of the previous standing situation
	Equipment []EquipmentItem  // what holds or carries it; drawn and stated, not calculated
	Method    StressingMethod  // for the operation sheet; what is not stated is left open there
}

// Situations is the element after each step, after the release, then after
// grouting.
func (s Stress) Situations(History) ([]Situation, error) {
	if len(s.Jacking) == 0 && len(s.Release) == 0 && len(s.Grout) == 0 {
		return nil, errors.New("Stress has neither Jacking nor Release nor Grout: must be at least one")
	}
	on := as(Pad, s.On)
	var situations []Situation
	for i, event := range jackings(s.Jacking) {
		name := "stressing"
		if len(s.Jacking) > 1 {
			name = fmt.Sprintf("stressing, step %d", i+1)
		}
		situations = append(situations, Situation{Name: name, Age: s.Age, Standing: true, Phase: limits.Stressing, Supports: on, Events: []Event{event}})
	}
	if len(s.Release) > 0 {
		situations = append(situations, Situation{Name: "release", Age: s.Age, Standing: true, Phase: limits.Stressing, Supports: on, Events: []Event{{Release: s.Release}}})
	}
	if len(s.Grout) > 0 {
		age := s.GroutAge
		if age == 0 {
			age = s.Age
		}
		situations = append(situations, Situation{Name: "grouting", Age: age, Standing: true, Phase: limits.Stressing, Supports: on, Events: []Event{{Grout: s.Grout}}})
	}
	for i := range situations {
		situations[i].Equipment, situations[i].Method = s.Equipment, s.Method
	}
	return situations, nil
}

// Seat is the element on its bearings, or on jacks in their place.
type Seat struct {
	Name       string          // "" means "seat"
	Age, Until float64         // d, Age not before the previous situation ends; Until 0 (at once) or Age to 365e3
	On         []Support       // bearings, jacks or pads, at least two; their Role is Pad where none is stated
	OutOfLevel float64         // distance of any one elastic support from the plane of the other three, m, 0 to 0.1
	Roll       float64         // cross-fall, both ways, rad, 0 to 0.35
	Gradient   float64         // fall along x, both ways, rad, 0 to 0.35
	Slender    *Slender        // of a slender element; nil leaves its roll with lateral bending out
	Actions    []Action        // equipment, a train that rolls over it, wind
	Off        []string        // marks of actions that stayed and are taken off
	Equipment  []EquipmentItem // what holds or carries it; drawn and stated, not calculated
}

// Situations is the element on its bearings.
func (s Seat) Situations(History) ([]Situation, error) {
	if len(s.On) == 0 {
		return nil, errors.New("Seat.On has no support: must be at least two lines of bearings")
	}
	return []Situation{{
		Name: named(s.Name, "seat"), Age: s.Age, Until: s.Until, Standing: true, Phase: limits.Seating, Supports: as(Pad, s.On),
		OutOfLevel: s.OutOfLevel, Roll: s.Roll, Gradient: s.Gradient, Slender: s.Slender, Actions: s.Actions, Off: s.Off, Equipment: s.Equipment,
	}}, nil
}

func named(name, usual string) string {
	if name == "" {
		return usual
	}
	return name
}
