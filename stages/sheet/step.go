package sheet

import (
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// stepping is true for a step of a balanced cantilever, in which a segment is erected. Its sheet has one page for the work and one for the record of stressing.
func stepping(stage stages.StageRecord) bool {
	return has(equipmentOf(stage), stages.Erected)
}

// step is the sheet of such a step below its banner.
func (a *author) step(i int) []block {
	stage := a.record.Stages[i]
	blocks := []block{
		heading{level: 2, words: words("Hold points: before proceeding sign each, and fill in every blank but readings, acceptance and close-out")},
		part{name: "holds", blocks: []block{a.stepHolds(i)}},
		heading{level: 2, words: words("Sequence of operations: one movement at a time, each signed before the next")},
	}
	blocks = append(blocks, a.stepMoves(i)...)
	blocks = append(blocks, list{points: pointsOf(a.stepRules(i)), numbered: true})
	blocks = append(blocks, a.stepParts(stage)...)
	blocks = append(blocks, a.stepLevels(stage)...)
	if text := together(a.otherActions(stage)); len(text) > 0 {
		blocks = append(blocks, paragraph{text})
	}
	blocks = append(blocks, paragraph{a.windLimit(stage)}, form{columns: 2, pairs: a.stepBlanks(stage)})
	blocks = append(blocks, heading{level: 2, words: words("Stop, make safe (jacks under pressure: hold) and consult the engineer if")}, list{points: pointsOf(stepStops(stage)), columns: 2})
	blocks = append(append(blocks, a.exclusions(stage)...), a.signedOff(i))
	return append([]block{part{name: "step", blocks: blocks}}, a.stepStressing(i)...)
}

// stepRules are what the crew does in every such step.
func (a *author) stepRules(i int) []string {
	stage := a.record.Stages[i]
	list := []string{
		"Deck clear of all not listed. Trial fit before the epoxy; joint closed by its bars within the open time; hoist eased when they are at full and accepted.",
		"Left and right in turn as above only; between two rows nothing else moves or is added. Bars come out in the step named." + map[bool]string{true: " Stressing: next page."}[featuresOf(stage).stresses],
	}
	if has(equipmentOf(stage), stages.LiftingFrame) {
		list = append(list, "A frame lifts only locked, its anchor bars stressed and read; it advances only when the tendons of the step are accepted and nothing hangs.")
	}
	for k, s := range stage.Situations {
		if marks := a.groutedIn(a.before(i, k), s.Tendons); len(marks) > 0 {
			list = append(list, numbered(stage, k)+" grout "+alikeMarks(marks)+", "+a.groutHere(i, marks)+"; keep the record of grouting.")
		}
	}
	return list
}

// stepStops are the conditions under which such a step stops.
func stepStops(stage stages.StageRecord) []string {
	items := equipmentOf(stage)
	list := []string{"a hold point is not met" + map[bool]string{true: ", before stressing one of the next page"}[featuresOf(stage).stresses], "a segment weighs outside its range, or the epoxy is past its open time"}
	if has(items, stages.Pier) {
		list = append(list, "a row of the pier lifts off, or a tie changes its force")
	}
	if has(items, stages.LiftingFrame) {
		list = append(list, "a foot of a frame settles or lifts off, or an anchor bar changes its force")
	}
	return append(list, "a joint opens or slips, or a level differs from its target", "the wind exceeds its limit", "cracking, unusual noise, anchor slip or jack leakage is noticed",
		"somebody is in the exclusion zone, or a signal is not understood", "the sequence or the equipment is not as planned")
}

// otherActions are the actions that no item of a step brings; none where there are none.
func (a *author) otherActions(stage stages.StageRecord) []prose {
	others := func(s stages.SituationRecord) stages.SituationRecord {
		s.Loads = slices.DeleteFunc(slices.Clone(s.Loads), func(l stages.Load) bool {
			return slices.ContainsFunc(s.Equipment, func(e stages.EquipmentItem) bool { return slices.Contains(e.Brings, l.Mark) })
		})
		return s
	}
	if !slices.ContainsFunc(stage.Situations, func(s stages.SituationRecord) bool { return len(others(s).Loads) > 0 }) {
		return nil
	}
	return bySituation(stage, "Other actions", func(s stages.SituationRecord) string {
		if s = others(s); len(s.Loads) == 0 {
			return "none."
		}
		return a.loadList(s, a.windy(stage), nil)
	})
}

// stepBlanks are what only the site knows.
func (a *author) stepBlanks(stage stages.StageRecord) (pairs [][2]string) {
	labels := []string{"Lifting supervisor", "Night work: lighting", "Greatest delay, left to right, permitted / taken", "Survey before and after, temperature"}
	if len(a.piersOf(stage)) == 0 {
		labels = append(labels, "Greatest out-of-balance; nothing else on the deck", "Pier props and ties, readings")
	}
	if len(a.levelsOf(stage)) == 0 {
		labels = append(labels, "Target level and slope, equipment at, tolerance")
	}
	for _, label := range labels {
		pairs = append(pairs, [2]string{label, ""})
	}
	return pairs
}

// signedOff is the form at the end of a sheet.
func (a *author) signedOff(i int) block {
	return part{name: "signed", blocks: []block{form{columns: 3, pairs: [][2]string{
		{"Safe state to return to", a.safeState(i)}, {a.closeOut(i), ""}, {"Signed off", ""}, {"Prepared", ""}, {"Checked", ""}, {"Responsible engineer", ""},
	}}}}
}

// stateOf is a fact in words; "" where it is not stated.
func (a *author) stateOf(facts []stages.Fact, name string) string {
	if k := slices.IndexFunc(facts, func(f stages.Fact) bool { return f.Name == name }); k >= 0 {
		return a.fact(facts[k])
	}
	return ""
}

// bareFact is a fact in words without its unit.
func (a *author) bareFact(facts []stages.Fact, name string) string {
	for _, f := range facts {
		if f.Name == name {
			return strings.TrimSuffix(a.fact(f), " "+a.units.of(f.Value, f.Unit).unit)
		}
	}
	return ""
}

// stateIn is a fact without its unit, cut as its sense says: of a force or moment the next
// whole number of the unit of the sheet; a dash where it is not stated.
func (a *author) stateIn(facts []stages.Fact, name string) string {
	k := slices.IndexFunc(facts, func(f stages.Fact) bool { return f.Name == name })
	if k < 0 {
		return "–"
	}
	f := facts[k]
	return trimmed(sideOf(f.Sense)(f.Value*a.units.in(f.Unit).factor), 0)
}

// stepItem are the facts of an item of equipment through a step, those of the last situation
// that states them, and its positions, each once.
type stepItem struct {
	mark      string // without the kind before it
	head      string // of its column; "": its mark
	kind      stages.EquipmentKind
	facts     []stages.Fact
	positions []stages.EquipmentPosition
}

// stepItems are the items of a kind in a step, in order.
func stepItems(stage stages.StageRecord, kind stages.EquipmentKind) (list []stepItem) {
	for _, s := range stage.Situations {
		for _, item := range s.Equipment {
			if item.Kind != kind {
				continue
			}
			mark := strings.TrimPrefix(item.Mark, string(kind)+" ")
			k := slices.IndexFunc(list, func(o stepItem) bool { return o.mark == mark })
			if k < 0 {
				k, list = len(list), append(list, stepItem{mark: mark, kind: kind})
			}
			list[k].take(item)
		}
	}
	return list
}

// take takes up what is stated of an item in a further situation.
func (i *stepItem) take(item stages.EquipmentItem) {
	for _, f := range item.Facts {
		if k := slices.IndexFunc(i.facts, func(o stages.Fact) bool { return o.Name == f.Name }); k >= 0 {
			i.facts[k] = f
			continue
		}
		i.facts = append(i.facts, f)
	}
	for _, p := range item.Positions {
		if !slices.ContainsFunc(i.positions, func(o stages.EquipmentPosition) bool { return o.Name == p.Name && slices.Equal(o.Facts, p.Facts) }) {
			i.positions = append(i.positions, p)
		}
	}
}

// countOf is the number in a fact without a unit.
func (a *author) countOf(facts []stages.Fact, name string) string {
	for _, f := range facts {
		if f.Name == name && f.Unit == formula.One {
			return number(f.Value)
		}
	}
	return ""
}
