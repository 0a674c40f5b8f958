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
	points = append(points, words("Nobody behind a jack under pressure. "+inStep(stage)+": to the datum, mark the "+steel+", then to full in ____ increments."),
		words("Read gauge and extension. "+outside+" Within its limits: lock off, read the draw-in, release the jacks, read after lock-off, then the next step."))
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
		case len(s.Stressing) > 0:
			points = append(points, head.and(plain, ": "+a.inOrder(s)))
			open = true
		case len(marks) > 0:
			accept()
			points = append(points, head.and(plain, ": grout "+strings.Join(marks, ", ")+" by (date) ________; keep the record of grouting."))
		default:
			points = append(append(points, head), a.steps(s)...)
		}
	}
	accept()
	points = append(points, pointsOf(a.movements(i))...)
	return append(points, words("Close out this sheet below."+a.groutLater(i)))
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
func (a *author) inOrder(s stages.SituationRecord) string {
	last := s.Stressing[len(s.Stressing)-1].Step
	if len(s.Events) > last {
		var titles []string
		for k, event := range s.Events {
			title, _, _ := strings.Cut(event.Title, ", jacked at") // the table says where
			titles = append(titles, fmt.Sprintf("(%d) %s", k+1, a.units.words(title)))
		}
		return "in order: " + strings.Join(titles, "; ") + "."
	}
	if last == 1 {
		return "stress step 1 of the table."
	}
	return fmt.Sprintf("stress steps 1 to %d of the table, in this order.", last)
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
	if slices.ContainsFunc(where, func(sheet string) bool { return !strings.HasPrefix(sheet, "on sheet") }) {
		return " Grout by (date) ________: " + strings.Join(list, "; ") + "."
	}
	return " Grout " + strings.Join(list, "; ") + ", at the latest (date) ________."
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
	return "no grouting in this calculation"
}
