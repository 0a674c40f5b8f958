package stages

import (
	"errors"
	"fmt"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages/limits"
)

// Transfer is the first stressing on the casting bed. The piece hogs off the bed
// and then stands on the supports On with its whole weight.
type Transfer struct {
	Age     float64          // d
	Jacking []tendon.Jacking // steps in order
	On      []Support        // where it stands after it hogs; none means on its two ends, in line with its mass centre
}

// Situations is the piece on its supports after the last step.
func (t Transfer) Situations(h History) ([]Situation, error) {
	if len(t.Jacking) == 0 {
		return nil, errors.New("Transfer.Jacking is empty: allowed at least one step")
	}
	on := t.On
	if len(on) == 0 {
		mass, err := h.Element.MassCentre()
		if err != nil {
			return nil, err
		}
		on = []Support{{X: 0, Y: mass.Y}, {X: h.Element.Length, Y: mass.Y}}
	}
	return []Situation{{
		Name: "transfer of prestress", Age: t.Age, Standing: true, Phase: limits.Stressing, Supports: on, Events: jackings(t.Jacking),
	}}, nil
}

func jackings(steps []tendon.Jacking) []Event {
	events := make([]Event, len(steps))
	for i := range steps {
		events[i].Jack = &steps[i]
	}
	return events
}

// Lift is the piece hung from two points, or from more that are stated as
// equalised.
type Lift struct {
	Name    string        // e.g. "lift from the bed"; "" means "lift"
	Age     float64       // d
	On      []Support     // lift points
	Dynamic loads.Dynamic // range of the factor on the weight
}

// Situations is the piece hanging; the situation passes.
func (l Lift) Situations(History) ([]Situation, error) {
	if len(l.On) == 0 {
		return nil, errors.New("Lift.On has no support: allowed two lift points, or more that are equalised")
	}
	return []Situation{{Name: named(l.Name, "lift"), Age: l.Age, Phase: limits.Lifting, Supports: l.On, Dynamic: l.Dynamic}}, nil
}

// Store is the piece standing on dunnage.
type Store struct {
	Name       string    // "" means "store"
	Age, Until float64   // d; Until 0 means at once
	On         []Support // dunnage
	Loads      loads.Set // other loads that may stand on it
}

// Situations is the piece on its dunnage.
func (s Store) Situations(History) ([]Situation, error) {
	if len(s.On) == 0 {
		return nil, errors.New("Store.On has no support: allowed two lines of dunnage")
	}
	return []Situation{{
		Name: named(s.Name, "store"), Age: s.Age, Until: s.Until, Standing: true, Phase: limits.Storing, Supports: s.On, Loads: s.Loads,
	}}, nil
}

// Stress is a stressing of its own, on whatever supports the piece stands on
// then, and the grouting of tendons.
type Stress struct {
	Age      float64          // d
	Jacking  []tendon.Jacking // steps in order; the piece is checked after each
	Release  []string         // marks of tendons let down and taken out after the last step, e.g. temporary bars
	Grout    []string         // marks of tendons grouted afterwards
	GroutAge float64          // d; 0 means at Age
	On       []Support        // none means as before
}

// Situations is the piece after each step, after the release, then after grouting.
func (s Stress) Situations(History) ([]Situation, error) {
	if len(s.Jacking) == 0 && len(s.Release) == 0 && len(s.Grout) == 0 {
		return nil, errors.New("Stress has neither Jacking nor Release nor Grout: allowed at least one")
	}
	var situations []Situation
	for i, event := range jackings(s.Jacking) {
		name := "stressing"
		if len(s.Jacking) > 1 {
			name = fmt.Sprintf("stressing, step %d", i+1)
		}
		situations = append(situations, Situation{Name: name, Age: s.Age, Standing: true, Phase: limits.Stressing, Supports: s.On, Events: []Event{event}})
	}
	if len(s.Release) > 0 {
		situations = append(situations, Situation{Name: "release", Age: s.Age, Standing: true, Phase: limits.Stressing, Supports: s.On, Events: []Event{{Release: s.Release}}})
	}
	if len(s.Grout) > 0 {
		age := s.GroutAge
		if age == 0 {
			age = s.Age
		}
		situations = append(situations, Situation{Name: "grouting", Age: age, Standing: true, Phase: limits.Stressing, Supports: s.On, Events: []Event{{Grout: s.Grout}}})
	}
	return situations, nil
}

// Seat is the piece on its bearings, or on jacks in their place.
type Seat struct {
	Name  string    // "" means "seat"
	Age   float64   // d
	On    []Support // bearings
	Loads loads.Set // other loads that may stand on it
}

// Situations is the piece on its bearings.
func (s Seat) Situations(History) ([]Situation, error) {
	if len(s.On) == 0 {
		return nil, errors.New("Seat.On has no support: allowed two lines of bearings")
	}
	return []Situation{{Name: named(s.Name, "seat"), Age: s.Age, Standing: true, Phase: limits.Seating, Supports: s.On, Loads: s.Loads}}, nil
}

func named(name, usual string) string {
	if name == "" {
		return usual
	}
	return name
}
