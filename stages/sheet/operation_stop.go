package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/stages"
)

// What is done on a stop: of a lift, and of stressing.
const (
	lowered = "On a stop: hold, do not travel, lower back; again only when the engineer agrees."
	outside = "An end outside its limits, above its band before full, or a jack, pump or gauge fails, also at datum: all pumps stop, jacks hold (a leaking one: leave it, valves shut from the side); do NOT lock off or release, keep clear, call the engineer; re-stressing, destressing, restart by the engineer only."
)

// previous is what must be verified of the previous stage: complete, or, where the element does
// not stand at its end, signed up to there, for it is closed out after the set-down.
func previous(before stages.StageRecord) string {
	name := fmt.Sprintf("stage %d, %s", before.Number, before.Name)
	switch last := before.Situations[len(before.Situations)-1]; {
	case !transient(before):
		return name + ", complete and its sheet signed off"
	case oneEnd(last):
		return name + ": in its bands, signed so far, one end hung"
	case suspended(last):
		return name + ": trial lift in bands, signed so far, over its supports"
	}
	return name + ": in its bands, signed so far, in place"
}

// closeOut is what is closed out with a sheet: that of a transient stage with the next.
func (a *author) closeOut(i int) string {
	switch {
	case transient(a.record.Stages[i]):
		return fmt.Sprintf("Closed out by sheet %d, time", a.record.Stages[i].Number+1)
	case i > 0 && transient(a.record.Stages[i-1]):
		return fmt.Sprintf("Close out sheet %d after set-down; this sheet, time", a.record.Stages[i-1].Number)
	}
	return "Closed out, time"
}

// setDownWords are the sheets to sign before a transient stage begins, to the one on which
// the element stands again.
func (a *author) setDownWords(i int, work string) string {
	k := a.setDownAt(i)
	if k < 0 || !transient(a.record.Stages[i]) {
		return ""
	}
	sheets := fmt.Sprintf("sheet %d (set-down)", a.record.Stages[k].Number)
	if k > i+1 {
		sheets = fmt.Sprintf("sheets %d to %d (set-down)", a.record.Stages[i+1].Number, a.record.Stages[k].Number)
	}
	except := " except the previous stage"
	if a.braced(k) {
		except += " and braces (there, checked)"
	}
	return "Before " + work + ": sign the hold points of " + sheets + except + ". "
}

// setDownBy names the sheet on which a lift is set down: on a carrier, or where it stands.
func (a *author) setDownBy(i int) string {
	if on := a.restsAfter(i); on > 0 {
		return fmt.Sprintf("Set down by sheet %d only.", on)
	}
	return "Set down in the position calculated only."
}

// backOut is what is done on a stop at height: the safe states that can be reached from
// there, each calculated with a sheet of its own.
func (a *author) backOut(i int) string {
	text := "Stop at height: hold, call the engineer. Wind or settlement, at once: "
	back, on := a.restsBefore(i), a.restsAfter(i)
	if back > 0 {
		text += fmt.Sprintf("over the supports of sheet %d (they stay until left) lower back; ", back)
	}
	if on > 0 {
		text += fmt.Sprintf("over those of sheet %d lower on, in more wind as well, and hold on tight slings; ", on)
	}
	if back == 0 && on == 0 {
		return text + "____________ (engineer)."
	}
	return text + "in between: back-out sheet no. ____."
}

// safeState is the same in short.
func (a *author) safeState(i int) string {
	stage := a.record.Stages[i]
	switch by := standsBy(stage); {
	case fed(stage.Situations[0]):
		return "at rest, in a position of its row"
	case a.unread(stage) && has(by, stages.Gantry):
		return "brakes on, legs as in its row"
	case a.unread(stage) && has(by, stages.Carrier):
		return "carrier off the span"
	}
	if !featuresOf(a.record.Stages[i]).lifts {
		if a.whileHooksCarry(i) == "" {
			if i > 0 && fromJacks(a.record.Stages[i-1], stage) {
				return "jacks, rings closed"
			}
			return ""
		}
		state := fmt.Sprintf("hooks, sheet %d", a.record.Stages[i-1].Number)
		if onJacks(stage.Situations[0]) {
			state = "rings closed"
		}
		if a.braced(i) {
			state += "; released: braced"
		}
		return state
	}
	back, on := a.restsBefore(i), a.restsAfter(i)
	switch {
	case on == 0:
		return ""
	case back == 0:
		return fmt.Sprintf("hooks, sheet %d", on)
	}
	return fmt.Sprintf("sheet %d; else hooks, %d", back, on)
}

// fromJacks is true where jacks give the element to other supports.
func fromJacks(before, stage stages.StageRecord) bool {
	return onJacks(before.Situations[len(before.Situations)-1]) && !onJacks(stage.Situations[0])
}

// braced is true for a stage that braces hold.
func (a *author) braced(i int) bool {
	return slices.ContainsFunc(a.record.Stages[i].Situations, func(s stages.SituationRecord) bool { return s.Braces != nil })
}

// restsBefore and restsAfter are the numbers of the last stage before and of the next
// after stage i in which the element is not suspended; 0 for none.
func (a *author) restsBefore(i int) int {
	for k := i - 1; k >= 0; k-- {
		list := a.record.Stages[k].Situations
		if !suspended(list[len(list)-1]) {
			return a.record.Stages[k].Number
		}
	}
	return 0
}

func (a *author) restsAfter(i int) int {
	for _, next := range a.record.Stages[i+1:] {
		if !suspended(next.Situations[0]) {
			return next.Number
		}
	}
	return 0
}

// setDownAt is the next stage at whose end the element stands; −1 for none.
func (a *author) setDownAt(i int) int {
	for k := i + 1; k < len(a.record.Stages); k++ {
		if !transient(a.record.Stages[k]) {
			return k
		}
	}
	return -1
}

// freed is what must be free before the load is taken up: of the formwork on the bed only.
func (a *author) freed(i int) string {
	if a.fromBed(i) {
		return "Ropes plumb. " // what is free is a hold point
	}
	return "Hold-downs and restraints free, ropes plumb. "
}

// fromBed is true for a stage that begins on the casting bed: until then the element was
// only stressed.
func (a *author) fromBed(i int) bool {
	return !slices.ContainsFunc(a.record.Stages[:i], func(s stages.StageRecord) bool {
		return !featuresOf(s).stresses && !a.releases(slices.IndexFunc(a.record.Stages, func(t stages.StageRecord) bool { return t.Number == s.Number }))
	})
}

// stopHeading is what is done on a stop: jacks under pressure are not let off to make safe.
func stopHeading(stage stages.StageRecord) string {
	if featuresOf(stage).stresses {
		return "Stop, hold as above and consult the engineer if"
	}
	return "Stop, make safe and consult the engineer if"
}

// stopsOf are the conditions under which work stops, by the kinds of work of a stage.
func (a *author) stopsOf(i int) []string {
	f, stitch := featuresOf(a.record.Stages[i]), a.stitched(a.record.Stages[i]) >= 0
	list := []string{"a hold point above is not met"}
	if f.stresses {
		list = append(list, "extension or gauge force outside limits: do NOT lock off", "draw-in outside its limit; a strand or bar slips or breaks")
	}
	if a.releases(i) {
		list = append(list, "a strand on the bed breaks or slips, or an end cracks or spalls")
	}
	if f.lifts {
		list = append(list, "the total is above its maximum or, clear of the supports, outside a band")
	} else if notRead(a.record.Stages[i]) {
		list = append(list, gapStop(a.gap(methodOf(a.record.Stages[i]))))
	} else if !a.unread(a.record.Stages[i]) {
		list = append(list, "the measured total, or a share of it, is outside its band above")
	}
	place := "a support or lift point is not where it is listed, or settles"
	if f.lifts {
		place = "a support, lift point, outrigger or leg is not as listed, settles or lifts off"
	}
	list = append(list, place)
	switch {
	case stitch:
		list = append(list, stitchStop)
	case f.builds:
		list = append(list, "a support lifts off, a joint opens, or a level differs from its target")
	}
	if a.unread(a.record.Stages[i]) {
		list = append(list, passingStops(a.record.Stages[i])...)
	}
	hooked := a.whileHooksCarry(i) != ""
	var limited []string
	for _, of := range []struct {
		is   bool
		what string
	}{{f.lifts || f.hauls || f.builds || hooked, "the wind"}, {f.lifts || f.hauls || hooked, "a level"}, {f.lifts || hooked, "a radius or a rope out of plumb"}} {
		if of.is {
			limited = append(limited, of.what)
		}
	}
	if len(limited) > 0 {
		list = append(list, strings.Join(limited, " or ")+" exceeds its limit")
	}
	noticed := "cracking or unusual noise is noticed"
	if f.stresses || f.jacks {
		noticed = "cracking, unusual noise, anchor slip or jack leakage is noticed"
	}
	return append(list, noticed, "somebody is in the exclusion zone, or a signal is not understood", "the sequence or the equipment is not as planned")
}
