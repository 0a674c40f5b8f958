package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// calculation is the sheet for an independent checker: what comes out, then what it
// rests on, then each stage; what derives the numbers is its appendix.
func (a *author) calculation() document {
	d := document{title: "Temporary stages of element " + a.record.Element, foot: a.foot("Calculation")}
	for _, part := range [][]block{
		a.head(d.title), a.comesOut(), a.governing(), a.drawn(), a.basis(), a.materials(), a.weights(), a.tendons(),
	} {
		d.blocks = append(d.blocks, part...)
	}
	if a.brief() {
		d.blocks = append(d.blocks, paragraph{words(leftOut)})
	}
	for _, stage := range a.record.Stages {
		d.blocks = append(d.blocks, a.stage(stage)...)
	}
	for i, p := range a.record.Results {
		d.blocks = append(d.blocks, a.result(i, p)...)
	}
	tables, figures, n := 0, 0, register{}
	n.tables(d.blocks, "M", &tables)
	d.blocks = append(d.blocks, heading{level: 1, words: words("Appendix"), fresh: true})
	d.blocks = append(d.blocks, n.chapters(a.appendix())...)
	n.figures(d.blocks, &figures)
	n.write(d.blocks)
	return d
}

func (a *author) foot(kind string) string {
	return fmt.Sprintf("%s, element %s, fingerprint %s", kind, a.record.Element, a.fingerprint)
}

func (a *author) head(title string) []block {
	caution := pointsOf(append(append([]string{}, a.record.Caution...), "† not checked against the printed standard: confirm against the edition in force."))
	return []block{
		heading{level: 1, words: words(title)},
		form{columns: 2, pairs: [][2]string{
			{"Project", a.settings.Project}, {"Revision", a.settings.Revision},
			{"Element", a.record.Element + ", " + a.units.quantity(a.record.Length, formula.Metre) + " long"}, {"Fingerprint", a.fingerprint},
			{"Prepared, date", ""}, {"Checked, date", ""}, {"Approved, date", ""}, {"Units", a.unitWords()},
		}},
		heading{level: 4, words: words("Caution")},
		list{points: caution, columns: 2},
	}
}

func (a *author) unitWords() string {
	if a.units == US {
		return "US customary: kip = 1000 lb, ksi, ft, in"
	}
	return "SI: kN, MPa, m, t = 1000 kg"
}

// verdict is the outcome in words, as it stands at the head of the sheet.
func (a *author) verdict() string {
	if len(a.record.Stages) == 0 {
		return "values for information: nothing is compared with a limit in this calculation"
	}
	outcome, end := "every check made here passes", "; see exclusions"
	switch perStage, worst := a.record.Governing(); perStage[worst].State {
	case stages.Fail:
		return "FAIL: a check fails"
	case stages.NotEvaluated:
		if len(a.situationsThat(waits)) == 0 {
			return "NOT EVALUATED: a check could not be made; the stage does not pass"
		}
		outcome, end = onHoldPoints, ""
	case stages.Conditional:
		outcome, end = onHoldPoints, ""
	}
	var open []string
	for _, of := range []struct {
		what string
		is   func(stages.SituationRecord) bool
	}{
		{"questions are unanswered in ", func(s stages.SituationRecord) bool { return len(s.Unanswered) > 0 }},
		{"a check is not evaluated in ", func(s stages.SituationRecord) bool { return slices.ContainsFunc(s.Checks, notEvaluated) }},
		{"nothing is checked in ", func(s stages.SituationRecord) bool { return len(s.Checks) == 0 }},
	} {
		if numbers := a.situationsThat(of.is); len(numbers) > 0 {
			open = append(open, of.what+strings.Join(numbers, ", "))
		}
	}
	if len(open) > 0 {
		return "NOT FULLY CHECKED: " + outcome + ", but " + strings.Join(open, "; ")
	}
	return outcome + end
}

// onHoldPoints is the outcome that waits for a value to be shown.
const onHoldPoints = "CONDITIONAL on the hold points of the operation sheets"

func waits(s stages.SituationRecord) bool {
	return slices.ContainsFunc(s.Checks, func(c stages.Check) bool { return c.State == stages.Conditional })
}

func notEvaluated(c stages.Check) bool { return c.State == stages.NotEvaluated }

// checksOf are all checks of a stage.
func checksOf(stage stages.StageRecord) []stages.Check {
	var all []stages.Check
	for _, s := range stage.Situations {
		all = append(all, s.Checks...)
	}
	return all
}

// situationsThat are the numbers of the situations of which something is true.
func (a *author) situationsThat(is func(stages.SituationRecord) bool) []string {
	var numbers []string
	for _, stage := range a.record.Stages {
		for i, s := range stage.Situations {
			if is(s) {
				numbers = append(numbers, numbered(stage, i))
			}
		}
	}
	return numbers
}

// unanswered is a box with the questions of a situation that nobody answered.
func (a *author) unanswered(s stages.SituationRecord) []block {
	if len(s.Unanswered) == 0 {
		return nil
	}
	return []block{alarm{words("Unanswered in this situation, which is not fully checked: " + a.units.words(strings.Join(s.Unanswered, "; ")) + ".")}}
}

// stateOf is the state of a stage's governing check, and that questions are open.
func stateOf(stage stages.StageRecord, c stages.Check) string {
	if slices.ContainsFunc(stage.Situations, func(s stages.SituationRecord) bool { return len(s.Unanswered) > 0 }) {
		return string(c.State) + "; questions unanswered"
	}
	return string(c.State)
}

func (a *author) governing() []block {
	perStage, worst := a.record.Governing()
	g := grid{caption: words("Demand and limit as derived, margin rounded down, utilisation up"), columns: columnsOf("Stage", ">Age d", "Governing check", ">x "+a.units.in(formula.Metre).unit, ">Demand", "", ">Limit", ">Margin", ">Utilisation", "State"), strong: worst + 1}
	x := a.units.aligned(formula.Metre)
	for i, c := range perStage {
		mark := ""
		if i == worst {
			mark = " (governing)"
		}
		s := a.record.Stages[i]
		cells := []string{fmt.Sprintf("%d %s", s.Number, s.Name), days(s.Age, math.Round), c.Name + mark, x.text(c.X)}
		switch {
		case c.State == stages.NotEvaluated && len(checksOf(s)) == 0:
			cells = append(cells[:3], "", "", "", "", "", "", stateOf(s, c)+": "+c.Note)
		case c.State == stages.NotEvaluated:
			cells = append(append(cells, a.numbersOf(c)...), stateOf(s, c)+": "+a.units.words(c.Note))
		default:
			cells = append(append(cells, a.numbersOf(c)...), stateOf(s, c))
		}
		g.rows = append(g.rows, row(cells...))
		if most, ok := mostUsed(s); ok && !numeric(c) {
			g.rows = append(g.rows, row(append(append([]string{"", "", "of those with numbers: " + most.Name, x.text(most.X)}, a.numbersOf(most)...), stateOf(s, most))...))
			if i < worst {
				g.strong++
			}
		}
	}
	return []block{heading{level: 2, words: words("Governing check of each stage")}, g}
}

// mostUsed is the check of a stage with the largest utilisation of those that have numbers.
func mostUsed(stage stages.StageRecord) (most stages.Check, found bool) {
	for _, c := range checksOf(stage) {
		if numeric(c) && (!found || c.Utilisation > most.Utilisation) {
			most, found = c, true
		}
	}
	return most, found
}

// numbered is the number of a situation: of its stage, and its own where the
// stage has more.
func numbered(stage stages.StageRecord, i int) string {
	if len(stage.Situations) == 1 {
		return fmt.Sprint(stage.Number)
	}
	return fmt.Sprintf("%d.%d", stage.Number, i+1)
}

// kindOf is whether the weight of a situation is carried forward.
func kindOf(s stages.SituationRecord) string {
	if s.Standing {
		return "carried forward"
	}
	return "transient"
}

// rangeOf is the minimum and the maximum of a factor.
func rangeOf(r stages.Range) string {
	if r.Least == r.Most {
		return number(r.Least)
	}
	return number(r.Least) + " to " + number(r.Most)
}
