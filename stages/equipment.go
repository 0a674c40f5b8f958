package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// EquipmentKind is what an item of equipment is. It decides which form the operation
// sheet has for it.
type EquipmentKind string

// The kinds. Cranes, gantries and straddle carriers hold lift points; a girder carrier
// holds lift points or carries from below; the others carry from below.
const (
	Crane           EquipmentKind = "crane"
	Gantry          EquipmentKind = "gantry"
	StraddleCarrier EquipmentKind = "straddle carrier"
	Carrier         EquipmentKind = "girder carrier"
	Trailer         EquipmentKind = "trailer"
	Pier            EquipmentKind = "pier"
	Stack           EquipmentKind = "stack"
)

// EquipmentKinds are all kinds, in the order of their constants.
func EquipmentKinds() []EquipmentKind {
	return []EquipmentKind{Crane, Gantry, StraddleCarrier, Carrier, Trailer, Pier, Stack}
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
}

// Fact is a value or a text that an operation sheet states of an item of equipment.
type Fact struct {
	Name  string       `json:"name"`            // e.g. "radius at pick"; unlike all others of the item, at most 80 letters
	Value float64      `json:"value,omitempty"` // in Unit, within ±1e12
	Unit  formula.Unit `json:"unit,omitempty"`  // one of FactUnits; "" for a text
	Sense limits.Sense `json:"sense,omitempty"` // AtMost: not to be exceeded, rounded down; AtLeast: to be provided or allowed for, rounded up; "": to the nearest
	Text  string       `json:"text,omitempty"`  // in place of a value, at most 200 letters
}

// FactUnits are the units of facts.
func FactUnits() []formula.Unit {
	return []formula.Unit{
		formula.One, formula.Metre, formula.SquareMetre, formula.Radian, formula.Newton, formula.NewtonPerMetre, formula.NewtonMetre,
		formula.Pascal, formula.NewtonPerSquareMetre, formula.Day, formula.Kilogram, formula.MetrePerSecond,
	}
}

// The sizes of what a sheet states of equipment.
const (
	mostEquipment         = 50 // of a situation
	mostFacts             = 40 // of an item
	mostOutline           = 2000
	mostMark              = 40
	mostFactName          = 80
	mostFactText          = 200
	mostFact      float64 = 1e12
	reachBeside   float64 = 200 // m: of an outline beyond the ends, above and below
)

// lifts is true for equipment that holds lift points only.
func (k EquipmentKind) lifts() bool { return k == Crane || k == Gantry || k == StraddleCarrier }

// carries is true for equipment that carries from below only.
func (k EquipmentKind) carries() bool { return k == Trailer || k == Pier || k == Stack }

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
		case e.Kind.lifts() && !hangs:
			return fmt.Errorf("field Supports of a %s has number %d, a %s: must be a lift point", e.Kind, n, supports[n-1].word())
		case e.Kind.carries() && hangs:
			return fmt.Errorf("field Supports of a %s has number %d, a lift point: must be a support that it carries from below", e.Kind, n)
		}
	}
	if err := e.checkOutline(length); err != nil {
		return err
	}
	return e.checkFacts()
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

func (e EquipmentItem) checkFacts() error {
	if len(e.Facts) > mostFacts {
		return fmt.Errorf("%d Facts: must be at most %d", len(e.Facts), mostFacts)
	}
	for i, f := range e.Facts {
		err := f.check()
		if err == nil && slices.ContainsFunc(e.Facts[:i], func(o Fact) bool { return o.Name == f.Name }) {
			err = fmt.Errorf("name is that of another fact: must be names that differ")
		}
		if err != nil {
			return fmt.Errorf("in Facts[%d] %q: %w", i, shortened(f.Name), err)
		}
	}
	return nil
}

func (f Fact) check() error {
	if err := wording("name", f.Name, mostFactName); err != nil {
		return err
	}
	switch {
	case f.Unit == "" && (f.Value != 0 || f.Sense != ""):
		return fmt.Errorf("value = %g and sense %q without a unit: must have a unit, %q for a number", f.Value, f.Sense, formula.One)
	case f.Unit == "":
		return wording("text", f.Text, mostFactText)
	case f.Text != "":
		return fmt.Errorf("both a text and a value in %q: must be one of them", f.Unit)
	case !slices.Contains(FactUnits(), f.Unit):
		return fmt.Errorf("unit %q: must be one of %q", shortened(string(f.Unit)), FactUnits())
	case !(math.Abs(f.Value) <= mostFact):
		return fmt.Errorf("value = %g %s: must be within ±%g %[2]s", f.Value, f.Unit, mostFact)
	case f.Sense != "" && f.Sense != limits.AtMost && f.Sense != limits.AtLeast:
		return fmt.Errorf("sense %q: must be %q, %q or empty for the nearest value", shortened(string(f.Sense)), limits.AtMost, limits.AtLeast)
	}
	return nil
}

// wording reports a text that is blank or longer than a sheet has room for.
func wording(name, text string, most int) error {
	if n := utf8.RuneCountInString(text); strings.TrimSpace(text) == "" || n > most || !utf8.ValidString(text) {
		return fmt.Errorf("%s has %d letters: must be 1 to %d in UTF-8, not blank", name, n, most)
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
	}
	return list
}
