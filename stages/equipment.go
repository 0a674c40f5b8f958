package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// EquipmentKind is what an item of equipment is. It decides which form the operation
// sheet has for it.
type EquipmentKind string

// The kinds. Cranes, gantries and straddle carriers hold lift points; a girder carrier
// holds lift points or carries from below; a lifting frame stands on the deck and a segment
// is what it erects, both hold no support; the others carry from below. Jacks are all
// those of an operation with their stacks.
const (
	Crane           EquipmentKind = "crane"
	Gantry          EquipmentKind = "gantry"
	StraddleCarrier EquipmentKind = "straddle carrier"
	Carrier         EquipmentKind = "girder carrier"
	Trailer         EquipmentKind = "trailer"
	Pier            EquipmentKind = "pier"
	Stack           EquipmentKind = "stack"
	Jacks           EquipmentKind = "jacks"
	Towers          EquipmentKind = "falsework"
	LiftingFrame    EquipmentKind = "lifting frame"
	Erected         EquipmentKind = "segment"
)

// EquipmentKinds are all kinds, in the order of their constants.
func EquipmentKinds() []EquipmentKind {
	return []EquipmentKind{Crane, Gantry, StraddleCarrier, Carrier, Trailer, Pier, Stack, Jacks, Towers, LiftingFrame, Erected}
}

// EquipmentItem is what holds or carries the element in a situation. It is drawn in the
// elevation and stated on the operation sheet; nothing is calculated from it: its
// capacity, its ground and its own weight are not checked.
type EquipmentItem struct {
	Mark     string         `json:"mark"`               // name on the drawing, unlike all others of the situation, at most 40 letters
	Kind     EquipmentKind  `json:"kind"`               // one of EquipmentKinds
	Supports []int          `json:"supports,omitempty"` // numbers of the supports that it holds or carries, from 1; none for equipment that only stands by
	Outline  [][][2]float64 `json:"outline,omitempty"`  // polylines of its elevation: x and z in the coordinates of the element, m; x within 200 m of it, z within ±200 m
	Facts    []Fact         `json:"facts,omitempty"`    // what the operation sheet states of it, at most 40

	Positions []EquipmentPosition `json:"positions,omitempty"` // where it is one after the other during the situation, at most 40
	Brings    []string            `json:"brings,omitempty"`    // marks of actions of the situation that its facts cover, at most 40: the sheet of a step does not list them again
}

// EquipmentPosition is a place that an item takes up during an operation, with what the
// operation sheet states of it there, in a table with a row for each position.
type EquipmentPosition struct {
	Name  string `json:"name"`            // at most 80 letters
	Facts []Fact `json:"facts,omitempty"` // at most 40, of like name in all positions of the item
}

// The sizes of what a sheet states of equipment.
const (
	mostEquipment         = 50 // of a situation
	mostFacts             = 40 // of an item, of one of its positions
	mostPositions         = 40 // of an item
	mostOutline           = 2000
	mostMark              = 40
	mostFactName          = 80
	mostFactText          = 200
	mostFact      float64 = 1e12
	reachBeside   float64 = 200 // m: of an outline beyond the ends, above and below
)

// onDeck is true for equipment that holds no support.
func (k EquipmentKind) onDeck() bool { return k == LiftingFrame || k == Erected }

// lifts is true for equipment that holds lift points only.
func (k EquipmentKind) lifts() bool { return k == Crane || k == Gantry || k == StraddleCarrier }

// carries is true for equipment that carries from below only.
func (k EquipmentKind) carries() bool {
	return k == Trailer || k == Pier || k == Stack || k == Jacks || k == Towers
}

// checkEquipment reports the first item that cannot be as described, of an element of
// that length (m) on its supports.
func checkEquipment(items []EquipmentItem, supports []Support, length float64) error {
	if len(items) > mostEquipment {
		return fmt.Errorf("in Equipment: %d items: must be at most %d", len(items), mostEquipment)
	}
	holder := map[int]string{} // mark of what holds a lift point
	for i, item := range items {
		err := item.check(supports, length)
		if err == nil && slices.ContainsFunc(items[:i], func(o EquipmentItem) bool { return o.Mark == item.Mark }) {
			err = fmt.Errorf("mark is that of another item: must be marks that differ")
		}
		for _, n := range item.Supports {
			if err != nil || supports[n-1].Role != LiftPoint {
				continue
			}
			if other, held := holder[n]; held {
				err = fmt.Errorf("field Supports has lift point %d, which %q holds: must be held by one item", n, other)
			}
			holder[n] = item.Mark
		}
		if err != nil {
			return fmt.Errorf("in Equipment[%d] %q: %w", i, shortened(item.Mark), err)
		}
	}
	return nil
}

// shortened is a text that an error names, without the rest of one that is too long.
func shortened(text string) string {
	if r := []rune(text); len(r) > mostMark {
		return string(r[:mostMark]) + "…"
	}
	return text
}

func (e EquipmentItem) check(supports []Support, length float64) error {
	if err := wording("mark", e.Mark, mostMark); err != nil {
		return err
	}
	if !slices.Contains(EquipmentKinds(), e.Kind) {
		return fmt.Errorf("field Kind = %q: must be one of %q", shortened(string(e.Kind)), EquipmentKinds())
	}
	for i, n := range e.Supports {
		if n < 1 || n > len(supports) {
			return fmt.Errorf("field Supports has number %d: must be 1 to %d, the supports of the situation", n, len(supports))
		}
		if slices.Contains(e.Supports[:i], n) {
			return fmt.Errorf("field Supports has number %d twice: must be named once", n)
		}
		switch hangs := supports[n-1].Role == LiftPoint; {
		case e.Kind.onDeck():
			return fmt.Errorf("field Supports of a %s has number %d: must be none", e.Kind, n)
		case e.Kind.lifts() && !hangs:
			return fmt.Errorf("field Supports of a %s has number %d, a %s: must be a lift point", e.Kind, n, supports[n-1].word())
		case e.Kind.carries() && hangs:
			return fmt.Errorf("field Supports of a %s has number %d, a lift point: must be a support that it carries from below", e.Kind, n)
		}
	}
	if err := e.checkOutline(length); err != nil {
		return err
	}
	if err := checkFacts(e.Facts); err != nil {
		return err
	}
	if len(e.Positions) > mostPositions {
		return fmt.Errorf("%d Positions: must be at most %d", len(e.Positions), mostPositions)
	}
	if len(e.Brings) > mostFacts {
		return fmt.Errorf("%d Brings: must be at most %d", len(e.Brings), mostFacts)
	}
	for i, mark := range e.Brings {
		if strings.TrimSpace(mark) == "" {
			return fmt.Errorf("field Brings[%d] is empty: must be the mark of an action", i)
		}
	}
	for i, p := range e.Positions {
		err := wording("name", p.Name, mostFactName)
		if err == nil {
			err = checkFacts(p.Facts)
		}
		if err != nil {
			return fmt.Errorf("in Positions[%d] %q: %w", i, shortened(p.Name), err)
		}
	}
	return nil
}

func (e EquipmentItem) checkOutline(length float64) error {
	points := 0
	for i, line := range e.Outline {
		if len(line) < 2 {
			return fmt.Errorf("field Outline, line %d has %d points: must be at least 2", i+1, len(line))
		}
		if points += len(line); points > mostOutline {
			return fmt.Errorf("field Outline has more than %d points: must be at most %[1]d", mostOutline)
		}
		for k, p := range line {
			if !(p[0] >= -reachBeside && p[0] <= length+reachBeside) || !(math.Abs(p[1]) <= reachBeside) {
				return fmt.Errorf("field Outline, line %d, point %d: x = %g m, z = %g m: must be x within %g m of the element, %g to %g m, z within ±%[5]g m",
					i+1, k+1, p[0], p[1], reachBeside, -reachBeside, length+reachBeside)
			}
		}
	}
	return nil
}

// equipmentRecord is equipment that shares nothing with the caller's.
func equipmentRecord(items []EquipmentItem) []EquipmentItem {
	list := slices.Clone(items)
	for i := range list {
		e := &list[i]
		e.Supports, e.Facts, e.Outline = slices.Clone(e.Supports), slices.Clone(e.Facts), slices.Clone(e.Outline)
		for k := range e.Outline {
			e.Outline[k] = slices.Clone(e.Outline[k])
		}
		e.Positions, e.Brings = slices.Clone(e.Positions), slices.Clone(e.Brings)
		for k := range e.Positions {
			e.Positions[k].Facts = slices.Clone(e.Positions[k].Facts)
		}
	}
	return list
}
