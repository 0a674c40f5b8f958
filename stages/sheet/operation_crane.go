package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// craneLoads is what a crane or hoist is chosen by, for each lift point and for those that
// hang on one hook: of named equipment, or that may: all at one x, and all of the body.
func (a *author) craneLoads(s stages.SituationRecord) []block {
	if !suspended(s) || allStated(s) {
		return nil
	}
	sets := hooksOf(s)
	named, chart := liftedBy(s)
	heads := []string{named + " loads, " + a.units.in(formula.Newton).unit}
	static := []string{"At rest, max: for a " + chart + " with the hoisting factor in it"}
	dynamic := []string{"With dynamic factor, max: " + chart + " without it; slings, anchors"}
	ultimate := []string{"ULS maximum, for ground and concrete"}
	gear := []string{"+ lifting gear below the gauge; × " + rounded(math.Max(1, s.Dynamic.Most), figures, up) + " with dynamic factor"}
	for _, set := range sets {
		name := numbersOf(set)
		if len(set) > 2 && len(set) == len(s.Reactions) {
			name = "all"
		}
		if mark := markOf(s, set); mark != "" {
			name = mark + ": " + name
		}
		heads, gear = append(heads, ">"+name), append(gear, "____")
		at := func(of func(stages.Reaction) float64, together func(stages.Together) float64, total stages.Range, known bool) string {
			if known && len(set) == len(s.Reactions) {
				return a.gauge(total.Most, up)
			}
			return a.gauge(atOnce(s, set, of, together), up)
		}
		c, known := characteristicTotal(s, s.Total)
		static = append(static, at(func(r stages.Reaction) float64 { return r.Static.Most }, func(t stages.Together) float64 { return t.Static.Most }, s.Total, len(s.Bodies) == 0))
		dynamic = append(dynamic, at(func(r stages.Reaction) float64 { return r.Characteristic.Most }, func(t stages.Together) float64 { return t.Characteristic.Most }, c, len(s.Bodies) == 0 && known))
		ultimate = append(ultimate, at(func(r stages.Reaction) float64 { return r.Ultimate.Most }, func(t stages.Together) float64 { return t.Ultimate.Most }, stages.Range{}, false))
	}
	g := grid{open: true, columns: columnsOf(heads...)}
	for _, cells := range [][]string{static, dynamic, gear, ultimate} {
		g.rows = append(g.rows, row(cells...))
	}
	return []block{part{name: "cranes", blocks: []block{g}}}
}

// atOnce is the greatest force of lift points together: of the record, or, on the safe
// side, the sum of their greatest forces, which need not act at once.
func atOnce(s stages.SituationRecord, set []int, of func(stages.Reaction) float64, together func(stages.Together) float64) float64 {
	for _, t := range s.Together {
		if slices.EqualFunc(t.Supports, set, func(number, index int) bool { return number == index+1 }) {
			return together(t)
		}
	}
	sum := 0.0
	for _, k := range set {
		sum += of(s.Reactions[k])
	}
	return sum
}

// allStated is true where the gross load of everything that holds a lift point is stated.
func allStated(s stages.SituationRecord) bool {
	held := map[int]bool{}
	for _, item := range s.Equipment {
		if slices.ContainsFunc(item.Facts, func(f stages.Fact) bool { return f.Name == "gross load" }) {
			for _, k := range heldBy(item) {
				held[k] = true
			}
		}
	}
	for k, p := range s.Supports {
		if p.Role == stages.LiftPoint && !held[k] {
			return false
		}
	}
	return len(held) > 0
}

// liftedBy are the words for what lifts and for what its capacity is read from.
func liftedBy(s stages.SituationRecord) (of, from string) {
	gantry := func(item stages.EquipmentItem) bool { return holdsFromAbove(item, s) && item.Kind != stages.Crane }
	crane := func(item stages.EquipmentItem) bool { return holdsFromAbove(item, s) && item.Kind == stages.Crane }
	if slices.ContainsFunc(s.Equipment, gantry) && !slices.ContainsFunc(s.Equipment, crane) {
		return "Hook", "rating"
	}
	return "Crane", "chart"
}

// markOf is the mark of the equipment that holds just a set of supports, from 0; "" for
// none.
func markOf(s stages.SituationRecord, set []int) string {
	for _, item := range s.Equipment {
		if slices.Equal(heldBy(item), set) {
			return item.Mark
		}
	}
	return ""
}

// heldBy are the supports that an item of equipment holds, in order from 0.
func heldBy(item stages.EquipmentItem) []int {
	var set []int
	for _, n := range item.Supports {
		set = append(set, n-1)
	}
	slices.Sort(set)
	return set
}

// hooksOf are the numbers of the lift points that may hang on one hook: each alone, those
// at one x, those that named equipment holds, and all.
func hooksOf(s stages.SituationRecord) [][]int {
	reactions := s.Reactions
	var sets, pairs [][]int
	all := make([]int, len(reactions))
	for i, r := range reactions {
		sets, all[i] = append(sets, []int{i}), i
		k := slices.IndexFunc(pairs, func(p []int) bool { return math.Abs(reactions[p[0]].X-r.X) < 1e-6 && reactions[p[0]].Body == r.Body })
		if k < 0 {
			pairs = append(pairs, []int{i})
		} else {
			pairs[k] = append(pairs[k], i)
		}
	}
	for _, p := range pairs {
		if len(p) > 1 && len(p) < len(reactions) {
			sets = append(sets, p)
		}
	}
	for _, item := range s.Equipment {
		set := heldBy(item)
		known := func(other []int) bool { return slices.Equal(other, set) }
		if len(set) > 1 && len(set) < len(reactions) && set[0] >= 0 && set[len(set)-1] < len(reactions) && !slices.ContainsFunc(sets, known) {
			sets = append(sets, set)
		}
	}
	if len(reactions) > 1 {
		sets = append(sets, all)
	}
	return sets
}

// numbersOf are the numbers of supports as a crew counts them: 1 + 2.
func numbersOf(set []int) string {
	texts := make([]string, len(set))
	for i, k := range set {
		texts[i] = fmt.Sprint(k + 1)
	}
	return strings.Join(texts, " + ")
}

// supportNumbers are the names of supports, those that share equally by their numbers.
func supportNumbers(reactions []stages.Reaction) []string {
	names := make([]string, len(reactions))
	for i, r := range reactions {
		group := r.Group
		r.Group = ""
		names[i] = supportName(i, r)
		if group != "" {
			names[i] += ", " + equalised(reactions, group)
		}
	}
	return names
}

// equalised names the supports of a group by their numbers.
func equalised(reactions []stages.Reaction, group string) string {
	var set []int
	for i, r := range reactions {
		if r.Group == group {
			set = append(set, i)
		}
	}
	return numbersOf(set) + " equalised"
}
