package sheet

import (
	"slices"

	"github.com/tempstage/tempstage/stages"
)

// toFillIn is what the site fills in: equipment, ground and limits that the record does
// not hold, and what is measured against the limits that it holds.
func (a *author) toFillIn(stage stages.StageRecord) []block {
	f, items, stitch := featuresOf(stage), equipmentOf(stage), a.stitched(stage) >= 0
	blocks := a.equipmentForms(stage)
	var pairs [][2]string
	for _, s := range stage.Situations {
		for _, p := range a.tilts(s) {
			if !hasPair(pairs, p[0]) {
				pairs = append(pairs, p)
			}
		}
	}
	for _, of := range []struct {
		is     bool
		labels []string
	}{
		{f.lifts && !states(items, "rope out of plumb"), []string{"Greatest rope out of plumb"}},
		{f.lifts, []string{"Tag lines, restraint against swing"}},
		{f.lifts && !has(items, lifting...), []string{"Gantry: bearing grout of the last span closed"}},
		{f.hauls && !has(items, hauling...), []string{"Carrier, axle groups, which are linked", "Restraint of the element on the carrier", "Speed limit; route, gradient and crossfall checked"}},
		{f.jacks, []string{"Jack numbers, which are linked, calibration", "Stroke, packing, lock rings", "Greatest difference between jacks per increment"}},
		{f.jacks && !has(items, stages.Stack), []string{"Stacks: height, horizontal force"}},
		{f.stores, []string{"Dunnage and ground, permissible pressure", "Restraint against tipping"}},
		{f.seats && !a.staysOn(stage), []string{"Bearings, packing, numbers", "Grout strength before transfer", "Survey after release: x, y, level at four points"}},
		{f.lifts || f.hauls || f.stores || f.seats && !stitch || f.builds && !stitch, []string{"Night work: lighting"}},
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
		blocks = append(blocks, paragraph{a.windLimit(stage)})
	}
	return append(blocks, part{name: "blanks", blocks: []block{form{columns: 2, pairs: pairs}}})
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
