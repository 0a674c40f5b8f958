package segmental

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// HangSegments hangs the segments of a span one after the other, each on its two pairs of
// hangers: their forces follow from statics. The gantry goes down under each; what each pair
// has to be shortened by before the joints are closed is a table of the sheets. The two bars of
// a pair hold a segment against turning as long as both pull, which is a check; what package
// stages asks of an element that hangs free to turn is left to a document
// (limits.RollOverturning).
type HangSegments struct {
	Name      string // "" means "hang the segments"
	Age       float64
	Hangers   Hangers
	Order     []string // marks of the segments as they are hung; none: from left to right
	Equipment []stages.EquipmentItem
}

// Situations is every segment by itself. The error wraps [ErrSegmental].
func (s HangSegments) Situations(h stages.History) ([]stages.Situation, error) {
	if err := s.Hangers.check(h.Girder); err != nil {
		return nil, err
	}
	if _, err := s.Hangers.Adjustments(h.Girder, s.Order...); err != nil {
		return nil, err
	}
	return []stages.Situation{{
		Name: named(s.Name, "hang the segments"), Age: s.Age, Standing: true, Phase: limits.Storing, Supports: s.Hangers.supports(h.Girder), Equipment: s.Equipment,
		Events: []stages.Event{{Add: marksOf(h.Girder)[1:]}},
		Check: func(e stages.Effects, _ limits.Standard) ([]stages.OwnCheck, error) {
			return s.Hangers.bothPull(h.Girder, e)
		},
		Equip: func(e stages.Effects, _ limits.Standard) ([]stages.EquipmentItem, error) { return s.items(h.Girder, e) },
		Draw:  func(stages.Effects) []stages.Figure { return s.figures(h.Girder) },
	}}, nil
}

// CloseJoints closes the joints of a hung span: epoxy, and temporary bars that press them.
type CloseJoints struct {
	Name      string // "" means "close the joints"
	Age       float64
	Hangers   Hangers
	Bars      []tendon.Jacking // of the temporary bars, in order
	Epoxy     EpoxyRule
	Jacks     []stages.Support // that touch at the ends of the span, elastic; none: it is on its hangers alone
	Equipment []stages.EquipmentItem
	Method    stages.StressingMethod
}

// Situations is the span joined and pressed. The error wraps [ErrSegmental].
func (c CloseJoints) Situations(h stages.History) ([]stages.Situation, error) {
	on, err := c.Hangers.joined(h, c.Jacks)
	if err != nil {
		return nil, err
	}
	if len(c.Bars) == 0 {
		return nil, fmt.Errorf("%w: field CloseJoints.Bars is empty: must be the stressing of the bars that press the joints", ErrSegmental)
	}
	events := []stages.Event{{Join: marksOf(h.Girder)[1:]}}
	for i := range c.Bars {
		events = append(events, stages.Event{Jack: &c.Bars[i]})
	}
	return []stages.Situation{{
		Name: named(c.Name, "close the joints"), Age: c.Age, Standing: true, Phase: limits.Stressing, Supports: on, Events: events, Equipment: c.Equipment, Method: c.Method,
		Check: func(e stages.Effects, _ limits.Standard) ([]stages.OwnCheck, error) {
			pressed, err := c.Epoxy.Checks(e, h.Girder)
			if err != nil {
				return nil, err
			}
			hung, err := c.Hangers.worst(h.Girder, e)
			return append(pressed, hung...), err
		},
		Equip: func(e stages.Effects, _ limits.Standard) ([]stages.EquipmentItem, error) {
			return c.Hangers.items(e), nil
		},
		Draw: func(e stages.Effects) []stages.Figure { return c.Hangers.forces(e) },
	}}, nil
}

// StressHung is the first stage of prestress while the span hangs: the deck that hogs takes
// load off the hangers only where its ends have jacks to go to.
type StressHung struct {
	Name      string // "" means "first-stage prestress on the hangers"
	Age       float64
	Hangers   Hangers
	Jacking   []tendon.Jacking // one situation for each step
	Jacks     []stages.Support // that touch at the ends, elastic; none: all of the weight stays on the hangers
	Limit     *FirstStage      // from LargestFirstStage, for the record; nil: not stated
	Equipment []stages.EquipmentItem
	Method    stages.StressingMethod
}

// Situations are the span after each step. The error wraps [ErrSegmental].
func (s StressHung) Situations(h stages.History) (list []stages.Situation, err error) {
	on, err := s.Hangers.joined(h, s.Jacks)
	if err != nil {
		return nil, err
	}
	if len(s.Jacking) == 0 {
		return nil, fmt.Errorf("%w: field StressHung.Jacking is empty: must be at least one step", ErrSegmental)
	}
	if err := s.Limit.check(); err != nil {
		return nil, err
	}
	for i := range s.Jacking {
		name := named(s.Name, "first-stage prestress on the hangers")
		if len(s.Jacking) > 1 {
			name = fmt.Sprintf("%s, step %d", name, i+1)
		}
		last := i == len(s.Jacking)-1
		list = append(list, stages.Situation{
			Name: name, Age: s.Age, Standing: true, Phase: limits.Stressing, Supports: on, Events: []stages.Event{{Jack: &s.Jacking[i]}}, Equipment: s.Equipment, Method: s.Method,
			Check: func(e stages.Effects, _ limits.Standard) ([]stages.OwnCheck, error) {
				list, err := s.Hangers.worst(h.Girder, e)
				if err == nil && last && s.Limit != nil {
					var c stages.OwnCheck
					c, err = s.Limit.checkOf(len(s.Jacking))
					list = append(list, c)
				}
				return list, err
			},
			Equip: func(e stages.Effects, _ limits.Standard) ([]stages.EquipmentItem, error) {
				return s.Hangers.items(e), nil
			},
			Draw: func(e stages.Effects) []stages.Figure { return s.Hangers.forces(e) },
		})
	}
	return list, nil
}

// joined are the hangers of a joined span and its jacks, which must be elastic and touch: one
// may lose contact while the span hangs.
func (h Hangers) joined(history stages.History, jacks []stages.Support) ([]stages.Support, error) {
	if err := h.check(history.Girder); err != nil {
		return nil, err
	}
	for i, j := range jacks {
		if !(j.Stiffness > 0) {
			return nil, fmt.Errorf("%w: field Jacks[%d] at x = %g m: Stiffness = %g N/m: must be above 0, it shares with the hangers", ErrSegmental, i, j.X, j.Stiffness)
		}
	}
	touching := asJacks(jacks)
	for i := range touching {
		touching[i].MayLift = true // it is the hangers that must hold
	}
	return append(h.kept(history), touching...), nil
}

// kept are the pairs at the levels to which they have been lowered so far.
func (h Hangers) kept(history stages.History) []stages.Support {
	list := h.supports(history.Girder)
	for i := range list {
		for _, s := range history.Supports {
			if s.Role == stages.LiftPoint && s.X == list[i].X {
				list[i].Level = s.Level
			}
		}
	}
	return list
}

// asJacks are supports with the role of a jack where none is stated.
func asJacks(list []stages.Support) []stages.Support {
	jacks := slices.Clone(list)
	for i := range jacks {
		if jacks[i].Role == "" {
			jacks[i].Role = stages.Jack
		}
	}
	return jacks
}

// marksOf are the marks of the segments.
func marksOf(g stages.Girder) (marks []string) {
	for _, p := range g.Pieces {
		marks = append(marks, p.Element.Mark)
	}
	return marks
}

func named(name, usual string) string {
	if name == "" {
		return usual
	}
	return name
}
