package segmental

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// LowerSpan lowers the hangers in steps until the span is on its jacks alone, then takes
// them off; or by a part, before more prestress. The gantry rises as the load leaves it, so
// that each pair is lowered by more than the deck goes down; see [Hangers.Strokes].
type LowerSpan struct {
	Name      string // "" means "lower on to the jacks"
	Age       float64
	Hangers   Hangers
	Jacks     []stages.Support // on which the span ends, elastic
	Steps     []LoweringStep   // in order, 1 to 20
	Keep      bool             // the hangers keep what is left of the load; false: all load leaves them and they are taken off
	Stroke    float64          // that a hanger jack has, for all lowering together, m, 0.01 to 2
	Reserve   float64          // of stroke beyond what is calculated, m, 0 to 0.2
	Strokes   []Stroke         // needed at each pair, from Hangers.Strokes for the situation before; none where the hangers keep load
	Equipment []stages.EquipmentItem
}

// LoweringStep is one step of lowering.
type LoweringStep struct {
	By []float64 // at each pair of hangers, m, 0 to 0.5; one value: the same at all
}

// at is the step at a pair (m).
func (s LoweringStep) at(i int) float64 {
	if len(s.By) == 1 {
		return s.By[0]
	}
	return s.By[i]
}

// InSteps is a lowering in a number of equal parts (1 to 20): to a total at each pair of
// hangers (m).
func InSteps(number int, totals ...float64) []LoweringStep {
	var list []LoweringStep
	for range number {
		by := make([]float64, len(totals))
		for i, total := range totals {
			by[i] = total / float64(number)
		}
		list = append(list, LoweringStep{By: by})
	}
	return list
}

// check reports the first field that is not as it must be.
func (l LowerSpan) check(g stages.Girder) error {
	if len(l.Jacks) == 0 {
		return fmt.Errorf("%w: field LowerSpan.Jacks is empty: must be the jacks on which the span ends", ErrSegmental)
	}
	if err := inRange("LowerSpan.", hangerBound{"Steps, number", float64(len(l.Steps)), "", 1, 20}, hangerBound{"Stroke", l.Stroke, "m", 0.01, 2}, hangerBound{"Reserve", l.Reserve, "m", 0, 0.2}); err != nil {
		return err
	}
	if err := l.Hangers.check(g); err != nil {
		return err
	}
	for n, s := range l.Steps {
		if len(s.By) != 1 && len(s.By) != len(l.Hangers.List) {
			return fmt.Errorf("%w: lowering step %d has %d values: must be one, or one for each of the %d pairs of hangers", ErrSegmental, n+1, len(s.By), len(l.Hangers.List))
		}
		for i, h := range l.Hangers.List {
			if err := inRange(fmt.Sprintf("lowering step %d at hanger %s, ", n+1, h.Mark), hangerBound{"By", s.at(i), "m", 0, 0.5}); err != nil {
				return err
			}
		}
	}
	for i, h := range l.Hangers.List {
		if total := l.lowered(len(l.Steps), i); !(total <= 0.5) {
			return fmt.Errorf("%w: hanger %s is lowered by %.3f m in all: must be at most 0.5 m", ErrSegmental, h.Mark, total)
		}
	}
	if !l.Keep && len(l.Strokes) != len(l.Hangers.List) {
		return fmt.Errorf("%w: field LowerSpan.Strokes has %d pairs: must be those of all %d, from Strokes", ErrSegmental, len(l.Strokes), len(l.Hangers.List))
	}
	return nil
}

// lowered is how far a pair is lowered after some steps (m).
func (l LowerSpan) lowered(steps, i int) (sum float64) {
	for _, s := range l.Steps[:steps] {
		sum += s.at(i)
	}
	return sum
}

// Situations are the span after each step, and without its hangers. The error wraps
// [ErrSegmental].
func (l LowerSpan) Situations(h stages.History) (list []stages.Situation, err error) {
	if err := l.check(h.Girder); err != nil {
		return nil, err
	}
	if _, err := l.Hangers.joined(h, l.Jacks); err != nil {
		return nil, err
	}
	jacks, from := asJacks(l.Jacks), l.Hangers.kept(h)
	name := named(l.Name, "lower on to the jacks")
	for n := 1; n <= len(l.Steps); n++ {
		on := slices.Clone(from)
		for i := range on {
			on[i].Level -= l.lowered(n, i)
			on[i].MayLift = !l.Keep
		}
		last := n == len(l.Steps)
		list = append(list, stages.Situation{
			Name: fmt.Sprintf("%s, step %d", name, n), Age: l.Age, Standing: true, Phase: limits.Seating, Supports: append(on, jacks...), Equipment: l.Equipment,
			Check: func(e stages.Effects, _ limits.Standard) ([]stages.OwnCheck, error) {
				return l.checks(h.Girder, e, last)
			},
			Equip: func(e stages.Effects, _ limits.Standard) ([]stages.EquipmentItem, error) {
				return l.items(e), nil
			},
			Draw: func(e stages.Effects) []stages.Figure { return l.Hangers.forces(e) },
		})
	}
	if l.Keep {
		return list, nil
	}
	return append(list, stages.Situation{Name: name + ", hangers taken off", Age: l.Age, Standing: true, Phase: limits.Seating, Supports: jacks, Equipment: l.Equipment}), nil
}

// items are the gantry with its hangers; how far each is lowered is that of the supports.
func (l LowerSpan) items(e stages.Effects) []stages.EquipmentItem {
	item := l.Hangers.gantryItem(e)
	item.Facts = append(item.Facts, stages.Fact{Name: "stroke of a hanger jack", Value: l.Stroke, Unit: formula.Metre, Sense: limits.AtLeast})
	return []stages.EquipmentItem{item}
}
