package sheet

import (
	"slices"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// toFillIn is what the site fills in: equipment, ground and limits that the record does
// not hold, and what is measured against the limits that it holds.
func (a *author) toFillIn(stage stages.StageRecord) []block {
	f, items, stitch := featuresOf(stage), equipmentOf(stage), a.stitched(stage) >= 0
	forms := a.equipmentForms(stage)
	var pairs [][2]string
	for _, s := range stage.Situations {
		stated := states(items, "difference along") || states(items, "difference across")
		for _, p := range a.tilts(s, !f.stressingOnly() && !stated) {
			if !hasPair(pairs, p[0]) {
				pairs = append(pairs, p)
			}
		}
	}
	for _, of := range []struct {
		is     bool
		labels []string
	}{
		{f.lifts && !hung(stage) && !states(items, "rope out of plumb"), []string{"Greatest rope out of plumb"}},
		{f.lifts && !hung(stage), []string{"Tag lines, restraint against swing"}},
		{f.lifts && !has(items, lifting...), []string{"Gantry: bedding mortar of the last span closed"}},
		{f.hauls && !has(items, hauling...), []string{"Carrier, axle groups, which are linked", "Restraint of the element on the carrier", "Speed limit; route, gradient and crossfall checked"}},
		{f.jacks && !has(items, stages.Jacks), []string{"Jack numbers, which are linked, calibration", "Stroke, packing, lock rings", "Greatest difference between jacks per increment"}},
		{f.jacks && !has(items, stages.Stack, stages.Jacks), []string{"Stacks: height, horizontal force"}},
		{f.stores, []string{"Dunnage and ground, permissible pressure", "Restraint against tipping"}},
		{f.seats && !f.jacks && !a.stays(stage), []string{"Bearings, packing, numbers"}},
		{f.seats && !f.jacks && !a.stays(stage) && !holds(stage, "bedding mortar"), []string{"Mortar strength before transfer"}},
		{f.seats && !a.stays(stage) && !has(items, stages.Jacks), []string{"Survey after release: x, y, level at four points"}},
		{f.strikes, []string{"Survey before and after: mid-span, both ends"}},
		{f.lifts || f.hauls || f.strikes || f.stores || f.seats && !stitch || f.builds && !stitch, []string{"Night work: lighting"}},
		{stitch, stitchBlanks},
		{f.builds && !stitch, []string{
			"Segment number; weighed, weight", "Frame position; anchor bars, number and force", "Other arm: state, equipment on it", "Greatest out-of-balance; nothing else on the deck",
			"Pier props and ties, readings", "Trial fit; epoxy batch, open time", "Bars: order, force; face pressure, mean and min", "Bars released when",
			"Greatest delay, left to right", "Target level and slope, equipment at, tolerance",
		}},
	} {
		if of.is {
			for _, label := range of.labels {
				pairs = append(pairs, [2]string{label, ""})
			}
		}
	}
	if a.windy(stage) && !stitch {
		forms = append(forms, paragraph{a.windLimit(stage)})
	}
	if last := len(pairs) - 1; last > 0 && last%2 == 0 && evened(forms, pairs[last]) {
		pairs = pairs[:last]
	}
	return append(forms, part{name: "blanks", blocks: []block{form{columns: 2, pairs: pairs}}})
}

// evened is true where a form of one item had an odd number of rows, which a further one
// fills up.
func evened(blocks []block, pair [2]string) bool {
	for _, b := range blocks {
		if p, ok := b.(part); ok && p.name == "equipment" {
			if f, ok := p.blocks[0].(form); ok && len(f.pairs)%2 == 1 {
				f.pairs = append(f.pairs, pair)
				p.blocks[0] = f
				return true
			}
		}
	}
	return false
}

// holds is true where a hold point of that kind is on the sheet.
func holds(stage stages.StageRecord, kind string) bool {
	return slices.ContainsFunc(stage.Situations, func(s stages.SituationRecord) bool {
		return slices.ContainsFunc(s.HoldPoints, func(h derive.HoldPoint) bool { return h.Kind == kind })
	})
}

// states is true where a fact is stated of an item.
func states(items []titled, fact string) bool {
	return slices.ContainsFunc(items, func(t titled) bool {
		return slices.ContainsFunc(t.Facts, func(f stages.Fact) bool { return f.Name == fact })
	})
}

func hasPair(pairs [][2]string, label string) bool {
	for _, p := range pairs {
		if p[0] == label {
			return true
		}
	}
	return false
}
