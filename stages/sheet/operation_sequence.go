package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// features of a stage: what is done in it, which the crew needs other words and other
// room to write for.
type features struct{ lifts, jacks, stresses, hauls, stores, seats, builds, strikes bool }

// stressingOnly is true for a stage in which nothing but tendons is worked on.
func (f features) stressingOnly() bool { return f == features{stresses: true} }

func featuresOf(stage stages.StageRecord) features {
	var f features
	for _, s := range stage.Situations {
		phase := limits.Phase(s.Phase)
		f.lifts = f.lifts || suspended(s) || phase == limits.Lifting
		f.jacks = f.jacks || slices.ContainsFunc(s.Supports, func(p stages.Support) bool { return p.Role == stages.Jack })
		f.stresses = f.stresses || len(s.Stressing) > 0
		f.hauls = f.hauls || phase == limits.Hauling
		f.stores = f.stores || phase == limits.Storing
		f.seats = f.seats || phase == limits.Seating
		f.strikes = f.strikes || phase == limits.Striking
		f.builds = f.builds || len(s.Joined) > 0 || len(s.Added) > 0 && phase == limits.Stressing
	}
	return f
}

// sequence are the situations of a stage in order with what is done in each, then the
// movements of its kinds of work. Where tendons are stressed or strands released it is one
// list in order.
func (a *author) sequence(i int) list {
	f := featuresOf(a.record.Stages[i])
	if f.stresses {
		return list{points: a.stressingSequence(i), numbered: true}
	}
	if a.releases(i) {
		return a.releaseSequence(i)
	}
	if a.stitched(a.record.Stages[i]) >= 0 {
		return list{points: append(a.stitchSequence(i), pointsOf(a.movements(i))...)}
	}
	if hung(a.record.Stages[i]) {
		var points []prose
		for k, s := range a.record.Stages[i].Situations {
			points = append(append(points, a.situationHead(i, k)), a.steps(s)...)
		}
		return list{points: append(points, pointsOf(a.hungMoves(i))...)}
	}
	atFirst := f == features{stores: true} || f == features{seats: true} || f == features{seats: true, jacks: true} // then it only stands
	movements := a.movements(i)
	var points []prose
	for k, s := range a.record.Stages[i].Situations {
		if !planned(s) {
			continue
		}
		points = append(append(points, a.situationHead(i, k)), a.steps(s)...)
		if atFirst {
			points = append(points, pointsOf(movements)...)
			movements = nil
		}
	}
	return list{points: append(append(points, pointsOf(a.building(i))...), pointsOf(movements)...)}
}

// situationHead is situation k of stage i with its age and supports.
func (a *author) situationHead(i, k int) prose {
	stage := a.record.Stages[i]
	s := stage.Situations[k]
	system := a.onSite(s)
	if towered(s) {
		system = towersOn(s)
	}
	before := ""
	if k > 0 {
		before = a.onSite(stage.Situations[k-1])
	}
	if k > 0 && before == a.onSite(s) {
		system = "supports unchanged"
	}
	age := ""
	if featuresOf(stage).stresses {
		age = fmt.Sprintf("age %s d or more, ", days(s.Age, up))
	}
	t := bold(numbered(stage, k)+" "+s.Name).and(plain, ", "+age+system)
	if s.Until > s.Age {
		t = t.and(plain, fmt.Sprintf("; calculated to age %s d", days(s.Until, down)))
	}
	return t
}

// steps are what is done to tendons and elements in a situation, in order, with the values.
func (a *author) steps(s stages.SituationRecord) []prose {
	var points []prose
	for k, event := range s.Events {
		e := words(fmt.Sprintf("(%d) %s", k+1, a.units.words(event.Title)))
		for _, l := range a.linesOf(event.Lines) {
			e = e.and(plain, "; "+a.units.words(l.Result.Name)+" "+a.units.quantity(l.Result.Value, l.Result.Unit))
		}
		points = append(points, e)
	}
	return points
}

// building is what is done first where an element is added or joined.
func (a *author) building(i int) []string {
	stage := a.record.Stages[i]
	switch {
	case a.stitched(stage) >= 0:
		return append(a.matching(stage), hardened)
	case !featuresOf(stage).builds:
		return nil
	}
	return []string{
		"Deck clear of all that is not listed below. Trial fit; epoxy within its open time; close the joint with the bars in their order.",
		"Left and right in turn only within the greatest out-of-balance below: the calculation has both arms complete. Release bars only as below.",
	}
}

// movements are what the crew does, in order, by the other kinds of work of a stage.
func (a *author) movements(i int) []string {
	var list []string
	f := featuresOf(a.record.Stages[i])
	switch {
	case fed(a.record.Stages[i].Situations[0]):
		list = append(list, a.feeding(i)...)
	case f.lifts:
		list = append(list,
			a.setDownWords(i, "lifting")+a.freed(i)+a.takeUp(i)+" stop if the total or a hook is above its maximum.",
			"Trial lift: "+a.units.trial()+" clear, level up, hold ____ min, read every gauge; check levels, radii, anchors, brakes, outriggers. Stop also below the minimum total or with a share outside its band. "+lowered,
			a.hoisted(i),
			a.backOut(i))
	}
	if f.hauls {
		list = append(list, strings.TrimSpace(a.setDownWords(i, "setting down on the carrier")))
	}
	if f.stores || f.seats || f.hauls {
		list = append(list, a.setDownSteps(i)...)
	}
	if a.unread(a.record.Stages[i]) {
		list = append(list, passing(a.record.Stages[i])...)
	}
	if f.strikes {
		list = append(list, striking...)
	}
	if f.jacks {
		list = append(a.linkedSteps(a.record.Stages[i].Situations[0]), list...)
		list = append(list, a.jacked(a.record.Stages[i])...)
	}
	if f.hauls {
		list = append(list, "Restrain the element on the carrier before it moves. Travel at the agreed speed; stop before each change of gradient, read the levels there.")
	}
	return slices.DeleteFunc(list, func(step string) bool { return step == "" })
}

// jacked is how the jacks of a stage move.
func (a *author) jacked(stage stages.StageRecord) []string {
	list := []string{"Jack in equal increments, linked jacks together; lock rings or packing follow, never more than one increment behind. Read all gauges at each."}
	if has(equipmentOf(stage), stages.Jacks) {
		list = append(list, "After each stroke: all lock rings closed. Then one corner at a time: the packing beside it takes its load, only then its jack is relieved and its stack repacked; take the load again, next corner. Never on three corners.",
			"At the end: close every lock ring, let off the pressure of all jacks together; levels read before and after, no corner settles by more than ____ "+a.units.of(0.01, formula.Metre).unit+".")
	}
	return list
}

// takeUp is how the load comes on to the hooks: those that carry one end already hold it.
func (a *author) takeUp(i int) string {
	if i > 0 {
		list := a.record.Stages[i-1].Situations
		if last := list[len(list)-1]; (oneEnd(last) || fed(last)) && !oneEnd(a.record.Stages[i].Situations[0]) {
			return "Hooks that carry hold; take up the others alone in small increments, one signaller;"
		}
	}
	return "Take up the load in small increments, all hooks together, one signaller;"
}

// hoisted is how the element moves on the hooks: one end is only raised.
func (a *author) hoisted(i int) string {
	if oneEnd(a.record.Stages[i].Situations[0]) {
		return "Raise this end only: no travel, no slew; the other end stays on its supports."
	}
	return "Lift, travel, slew or lower: one movement at a time, all hooks together. " + a.setDownBy(i)
}

// oneEnd is true for an element that hangs by one end and rests on the other.
func oneEnd(s stages.SituationRecord) bool {
	return suspended(s) && slices.ContainsFunc(s.Supports, func(p stages.Support) bool { return p.Role != stages.LiftPoint })
}

// trial is how high a trial lift is.
func (u Units) trial() string {
	if u.filled() == US {
		return "4 in"
	}
	return "100 mm"
}
