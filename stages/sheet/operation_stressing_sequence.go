package sheet

import (
	"fmt"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/stages"
)

// stressingSequence is the numbered list of operations of a stage in which tendons are
// stressed: stress in order, accept, cut, cap, grout, and close out. Work of other kinds
// stands where it is done.
func (a *author) stressingSequence(i int) []prose {
	stage := a.record.Stages[i]
	var all []stages.Stressing
	for _, s := range stage.Situations {
		all = append(all, s.Stressing...)
	}
	steel := a.steelOf(all)
	points := pointsOf(a.building(i))
	for k := range stage.Situations {
		points = append(points, a.releasePoints(i, k)...)
	}
	points = append(points, a.stressingRules(stage, all)...)
	numbers := throughout(stage)
	open := false // stressed and not yet accepted
	accept := func() {
		if open {
			points = append(points, words("Engineer accepts every extension (signed, time): ____________________; only then cut "+steel+", date ________, fit grout caps, date ________."))
		}
		open = false
	}
	for k, s := range stage.Situations {
		marks := a.groutedIn(a.before(i, k), s.Tendons)
		head := a.stressingHead(i, k)
		switch {
		case len(s.Stressing) > 0 && onFalsework(stage) && stressedIn(numbers) > 1:
			if !open {
				points = append(points, a.stepsOnFalsework(i, numbers))
			}
			open = true
		case len(s.Stressing) > 0:
			points = append(points, head.and(plain, ": "+a.inOrder(s, numbers[k])))
			open = true
		case len(marks) > 0:
			accept()
			points = append(points, head.and(plain, ": grout "+strings.Join(marks, ", ")+", "+a.groutHere(i, marks)+"; keep the record of grouting."))
		default:
			points = append(append(points, head), a.steps(s)...)
		}
	}
	accept()
	points = append(points, pointsOf(a.movements(i))...)
	return append(points, words(a.groutLater(i)+"Close out this sheet below."))
}

// stressingRules are what a stressing crew does at every step: who keeps clear, lock-off, and
// what happens outside the limits.
func (a *author) stressingRules(stage stages.StageRecord, all []stages.Stressing) []prose {
	steel := a.steelOf(all)
	return []prose{
		words("Nobody in line with a jack or an anchor, locked off as well, until grouted; mark and read from the side, pumps stopped. " + inStep(stage) + " (± ____ % of its own full): " + datumWords(all) + ", mark the " + steel + ", full in ____ increments."),
		words("At full read gauge and extension at every end. All within limits: lock off, " + a.lockOff(all, a.endsOf(stages.SituationRecord{Stressing: all})) + ". Let off the pressure, read draw-in and extension after lock-off; next step."),
		words(outside),
	}
}

// inStep says which tendons and jacks work together in a stage.
func inStep(stage stages.StageRecord) string {
	most, count := 0, map[[2]int]int{} // tendons by situation and step
	for k, s := range stage.Situations {
		for _, p := range s.Stressing {
			count[[2]int{k, p.Step}]++
			most = max(most, count[[2]int{k, p.Step}])
		}
	}
	switch most {
	case 1:
		return "One tendon at a time, its jacks together"
	case 2:
		return "Both tendons of a step, all jacks together"
	}
	return "All tendons of a step, all jacks together"
}

// stressingHead is situation k of stage i with its age; the table of readings has its
// supports, where no two situations differ in them.
func (a *author) stressingHead(i, k int) prose {
	stage := a.record.Stages[i]
	if len(restingAlike(stage)) > 1 {
		return a.situationHead(i, k)
	}
	s := stage.Situations[k]
	return bold(numbered(stage, k)+" "+s.Name).and(plain, fmt.Sprintf(", age %s d or more, on the supports listed below", days(s.Age, up)))
}

// inOrder is the stressing of a situation in order; where something else is done between the
// steps, every step by its name.
// steps are its jackings, counted through the stage.
func (a *author) inOrder(s stages.SituationRecord, steps []stages.Stressing) string {
	first, last := steps[0].Step, steps[len(steps)-1].Step
	if len(s.Events) > last-first+1 {
		var titles []string
		for k, event := range s.Events {
			title, _, _ := strings.Cut(event.Title, ", jacked at") // the table says where
			titles = append(titles, fmt.Sprintf("(%d) %s", k+1, a.units.words(title)))
		}
		return "in order: " + strings.Join(titles, "; ") + "."
	}
	if last == first {
		return fmt.Sprintf("stress step %d of the table.", last)
	}
	return fmt.Sprintf("stress steps %d to %d of the table, in this order.", first, last)
}

// groutLater is by when the tendons stressed in a stage and not grouted in it are grouted,
// and on which sheet; "" where none is left. External tendons are not grouted to the
// element.
func (a *author) groutLater(i int) string {
	stage := a.record.Stages[i]
	last := stage.Situations[len(stage.Situations)-1]
	var where said
	marks := map[string][]string{}
	for _, s := range stage.Situations {
		for _, p := range s.Stressing {
			bonded := slices.ContainsFunc(last.Tendons, func(t stages.TendonForce) bool { return t.Mark == p.Mark && t.Bonded })
			if bonded || a.tendonOf(p.Mark).External {
				continue
			}
			sheet := a.groutedOn(i, p.Mark)
			where.once(sheet)
			if !slices.Contains(marks[sheet], p.Mark) {
				marks[sheet] = append(marks[sheet], p.Mark)
			}
		}
	}
	var list []string
	for _, sheet := range where {
		text := sheet
		if len(where) > 1 {
			text = strings.Join(marks[sheet], ", ") + " " + sheet
		}
		list = append(list, text)
	}
	if len(list) == 0 {
		return ""
	}
	m := methodOf(stage)
	if m.Protection == "" && m.GroutBy == 0 { // both by the specification: on one line
		return "Protection until grouting: __________. Grout " + strings.Join(list, "; ") + ", by (date) ________ (both: specification). "
	}
	return protection(m) + " Grout " + strings.Join(list, "; ") + ", " + latest(m) + ". "
}

// groutHere is by when tendons are grouted that are grouted in stage i: those stressed on
// another sheet by the date that it states.
func (a *author) groutHere(i int, marks []string) string {
	stage := a.record.Stages[i]
	here := func(mark string) bool {
		return slices.ContainsFunc(stage.Situations, func(s stages.SituationRecord) bool {
			return slices.ContainsFunc(s.Stressing, func(p stages.Stressing) bool { return p.Mark == mark })
		})
	}
	text := latest(methodOf(stage))
	switch {
	case !slices.ContainsFunc(marks, here):
		return "at the latest (date) ________, by the sheet of their stressing"
	case slices.ContainsFunc(marks, func(mark string) bool { return !here(mark) }):
		return text + "; those stressed before by the date of their sheet"
	}
	return text
}

// groutedOn is the sheet after stage i on which a tendon is grouted.
func (a *author) groutedOn(i int, mark string) string {
	for n := i + 1; n < len(a.record.Stages); n++ {
		for k, s := range a.record.Stages[n].Situations {
			if slices.Contains(a.groutedIn(a.before(n, k), s.Tendons), mark) {
				return fmt.Sprintf("on sheet %d, age %s d or more", a.record.Stages[n].Number, days(s.Age, up))
			}
		}
	}
	return "(not in this calculation)"
}
