package stages

import (
	"errors"
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages/limits"
)

// CastInPlace is a span that was cast on falsework and is stressed there. When it has
// hardened each row carries its tributary weight and the span is free of bending: the forms
// carried the fluid concrete. Each stressing hogs the span: rows at the middle unload and
// rebound until they are without force, rows and bearings at the ends gain. Every row is
// checked against its working load limit after every step.
//
// Neglected: friction of the forms along the span, the bending by which forms between rows
// rebound, creep and settlement of falsework and ground while the concrete hardens.
type CastInPlace struct {
	Name      string           // "" means "stressing on falsework"
	Age       float64          // of the concrete at the first stressing, d
	On        FalseworkRows    // falsework and bearings
	Jacking   []tendon.Jacking // steps in order; none: it is struck without prestress
	Grout     []string         // marks of tendons that are grouted afterwards
	GroutAge  float64          // d, not before Age; 0 means Age
	Actions   []Action         // wind, equipment that stays
	Equipment []EquipmentItem  // what else is there; drawn and stated, not calculated
	Method    StressingMethod  // for the operation sheet: what must be free before stressing, e.g. "side forms, bearing locks"
}

// Situations is the span as it has hardened, after each step, then after grouting.
func (c CastInPlace) Situations(h History) ([]Situation, error) {
	if len(h.Supports) > 0 {
		return nil, errors.New("CastInPlace is not the first stage: must be, the span is cast there")
	}
	if err := c.On.check(h.Girder.Length()); err != nil {
		return nil, err
	}
	name, age := named(c.Name, "stressing on falsework"), c.GroutAge
	if age == 0 {
		age = c.Age
	}
	still := make(lowering, len(c.On.Rows))
	list := []Situation{{Name: name + ", hardened", Age: c.Age, Phase: limits.Stressing, Cast: true, Actions: c.Actions}}
	for i, event := range jackings(c.Jacking) {
		list = append(list, Situation{Name: fmt.Sprintf("%s, step %d", name, i+1), Age: c.Age, Phase: limits.Stressing, Events: []Event{event}})
	}
	if len(c.Grout) > 0 {
		list = append(list, Situation{Name: name + ", grouting", Age: age, Phase: limits.Stressing, Events: []Event{{Grout: c.Grout}}})
	}
	for i := range list {
		s := &list[i]
		s.Standing, s.Supports, s.Equipment, s.Method = true, c.On.supports(still), c.Equipment, c.Method
		c.On.look(s, still, nil, i == 0)
	}
	return list, nil
}

// Strike takes the falsework away: rows are lowered in passes, each row of a pass by the same
// distance, until they are free, and taken away. The load goes over to the rows that are left
// and to the bearings; what a pass leaves too long carries the span like a prop, and every
// check is made after every pass. The stage before it is [CastInPlace].
type Strike struct {
	Name      string          // "" means "striking"
	Age       float64         // of the concrete, d, not before the previous situation ends
	On        FalseworkRows   // as in CastInPlace
	Passes    []StrikePass    // in order, 1 to 60
	Keeps     []string        // marks of rows that are still there at the end; none: all are gone
	Missed    []string        // marks of rows, each of which may be left as it was in the pass in which it is to be lowered; each such case is checked
	Actions   []Action        // wind, equipment
	Off       []string        // marks of actions that stayed and are taken off
	Equipment []EquipmentItem // what else is there; drawn and stated, not calculated
}

// StrikePass is one pass of striking.
type StrikePass struct {
	Rows []string // marks, at least one
	By   float64  // distance by which they are lowered below where they were, m, 1e-4 to 0.5; 0: they are taken away
}

// most passes of a striking: each is a situation.
const mostPasses = 60

// Situations is the span after each pass, and with each row that may be missed in it.
func (t Strike) Situations(h History) ([]Situation, error) {
	if err := t.On.check(h.Girder.Length()); err != nil {
		return nil, err
	}
	if n := len(t.Passes); n < 1 || n > mostPasses {
		return nil, fmt.Errorf("field Strike.Passes has %d: must be 1 to %d", n, mostPasses)
	}
	for i, mark := range t.Missed {
		if t.On.index(mark) < 0 || slices.Contains(t.Missed[:i], mark) {
			return nil, fmt.Errorf("field Strike.Missed names row %q, which is not there or is named twice: must be marks of FalseworkRows.Rows", mark)
		}
	}
	levels, err := t.levels()
	if err != nil {
		return nil, err
	}
	if err := t.follows(h); err != nil {
		return nil, err
	}
	name := named(t.Name, "striking")
	var list []Situation
	for i, p := range t.Passes {
		s := Situation{Name: fmt.Sprintf("%s, pass %d: %s", name, i+1, t.words(i)), Standing: true, Supports: t.On.supports(levels[i+1])}
		if i == 0 {
			s.Actions, s.Off = t.Actions, t.Off
		}
		t.On.look(&s, levels[i+1], t.next(i), i == 0)
		for _, mark := range t.Missed { // before the pass is complete, so that the stage ends on it
			if row := t.On.index(mark); p.By > 0 && slices.Contains(p.Rows, mark) {
				left := slices.Clone(levels[i+1])
				left[row] = levels[i][row]
				m := Situation{Name: fmt.Sprintf("%s, pass %d with row %s missed", name, i+1, mark), Supports: t.On.supports(left)}
				t.On.look(&m, left, nil, false)
				list = append(list, m)
			}
		}
		list = append(list, s)
	}
	for i := range list {
		list[i].Age, list[i].Phase, list[i].Equipment = t.Age, limits.Striking, t.Equipment
	}
	return list, nil
}
