package sheet

import (
	"bytes"
	"io"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// outcomes change the record, and what the head of the calculation then says.
var outcomes = []struct {
	name    string
	changes []func(*stages.Record)
	says    string
	status  int
}{
	{"all pass", nil, "every check made here passes; see exclusions", ExitPass},
	{"one fails", changes(atStage(1, fails)), "FAIL: a check fails", ExitFail},
	{"one is conditional", changes(atStage(1, conditional)), "CONDITIONAL on the hold points of the operation sheets", ExitFail},
	{"one is not evaluated", changes(atStage(0, evaluatedNot)), "NOT EVALUATED: a check could not be made; the stage does not pass", ExitFail},
	{"a failure beside what is conditional", changes(atStage(0, conditional), atStage(2, fails)), "FAIL: a check fails", ExitFail},
	{"a failure beside what is not evaluated", changes(atStage(0, evaluatedNot), atStage(2, fails)), "FAIL: a check fails", ExitFail},
	{"conditional, another not evaluated", changes(atStage(0, conditional), atStage(2, evaluatedNot)),
		"NOT FULLY CHECKED: CONDITIONAL on the hold points of the operation sheets, but a check is not evaluated in 3", ExitFail},
	{"conditional with an open question", changes(atStage(0, conditional), atStage(1, asks)),
		"NOT FULLY CHECKED: CONDITIONAL on the hold points of the operation sheets, but questions are unanswered in 2", ExitFail},
	{"two open questions", changes(atStage(0, asks), atStage(2, asks)),
		"NOT FULLY CHECKED: every check made here passes, but questions are unanswered in 1, 3", ExitFail},
	{"a stage without a check", changes(atStage(1, unaskedOf)), "NOT EVALUATED: a check could not be made; the stage does not pass", ExitFail},
	{"a second situation without a check", changes(second),
		"NOT FULLY CHECKED: every check made here passes, but nothing is checked in 1.2", ExitFail},
}

func changes(list ...func(*stages.Record)) []func(*stages.Record) { return list }

// atStage changes the first situation of the stage with that index.
func atStage(i int, change func(*stages.SituationRecord)) func(*stages.Record) {
	return func(r *stages.Record) { change(&r.Stages[i].Situations[0]) }
}

func fails(s *stages.SituationRecord) { s.Checks[0] = compression(19e6, 18e6) }
func conditional(s *stages.SituationRecord) {
	s.Checks[0].State, s.Checks[0].Condition = stages.Conditional, "strength to be shown"
}
func evaluatedNot(s *stages.SituationRecord) {
	s.Checks = append(s.Checks, stages.Check{Name: "roll", State: stages.NotEvaluated, Note: "beyond the model"})
}
func asks(s *stages.SituationRecord)      { s.Unanswered = []string{"uplift: no limit"} }
func unaskedOf(s *stages.SituationRecord) { s.Checks = nil }

// second appends a situation without a check to the first stage.
func second(r *stages.Record) {
	s := r.Stages[0].Situations[0]
	s.Name, s.Checks = "later", nil
	r.Stages[0].Situations = append(r.Stages[0].Situations, s)
}

// Nothing that is open is hidden behind a state that outranks it.
func TestTheHeadOfTheCalculationSaysAllThatIsOpen(t *testing.T) {
	for _, c := range outcomes {
		page := calculationPage(passed(t, Settings{}, c.changes...))
		require.Contains(t, page, "**Result: "+c.says+"**", c.name)
	}
}

// A script ends with status 0 exactly where every operation sheet may be signed
// without a condition.
func TestTheExitStatusAgreesWithTheOperationSheets(t *testing.T) {
	for _, c := range outcomes {
		a := passed(t, Settings{}, c.changes...)
		var stderr bytes.Buffer
		require.Equal(t, c.status, Command(nil, io.Discard, &stderr, a.record, nil), c.name)
		require.Empty(t, stderr.String(), c.name)
		free := true
		for _, page := range operationPages(a) {
			require.True(t, contains(page, stop) || contains(page, invalid), "%s: one banner or the other", c.name)
			free = free && !contains(page, stop) && !contains(page, after)
		}
		require.Equal(t, c.status == ExitPass, free, c.name)
	}
}

// The table of the governing checks has no number for a check that is not evaluated,
// and never the word pass alone where a question is open.
func TestTheGoverningTableNeverLooksLikePass(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, atStage(1, asks), atStage(2, unaskedOf)))
	require.Contains(t, page, "| 1 store | 3 | compression | 10.000 | 12 MPa | ≤ | 18 MPa | 6 MPa | 0.67 | pass |")
	require.Contains(t, page, "| 2 lift | 7 | compression | 10.000 | 12 MPa | ≤ | 18 MPa | 6 MPa | 0.67 | pass; questions unanswered |")
	require.Contains(t, page, "| **3 set down** | **7** | **no check (governing)** |  |  |  |  |  |  | **not evaluated: no standard answered a question of this stage** |")
	page = calculationPage(passed(t, Settings{}, atStage(0, func(s *stages.SituationRecord) { s.Checks = nil; evaluatedNot(s) })))
	require.Contains(t, page, "| **1 store** | **3** | **roll (governing)** | **0.000** | **n/e** |  | **n/e** | **n/e** | **n/e** | **not evaluated: beyond the model** |")
}

// The box in the situation itself names each open question.
func TestOpenQuestionsStandInABoxOfTheirSituation(t *testing.T) {
	a := passed(t, Settings{}, first(func(s *stages.SituationRecord) { s.Unanswered = []string{"uplift: no limit", "sliding: no limit"} }))
	require.Contains(t, calculationPage(a), "**Unanswered in this situation, which is not fully checked: uplift: no limit; sliding: no limit.**")
	require.NotContains(t, calculationPage(passed(t, Settings{})), "nanswered")
}
