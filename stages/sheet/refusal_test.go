package sheet

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// refused are the reasons on the page of a stage that may not go ahead.
func refused(t *testing.T, page string) []string {
	_, rest, found := strings.Cut(page, "**"+stop+"**\n\n")
	require.True(t, found)
	list, rest, found := strings.Cut(rest, "\n\n")
	require.True(t, found)
	require.True(t, strings.HasPrefix(rest, "No limits are given for this stage. It is to be calculated again when the reasons above are removed."))
	return strings.Split(strings.ReplaceAll(list, "- ", ""), "\n")
}

// limit is anything that a crew could take for a value to work to.
var limit = regexp.MustCompile(`\d (kN|MPa|mm|m|t|%|kip|ksi|ft|in|lb)\b|[≥≤]|[0-9] to [0-9]|Hold point|Sequence|CoG|Measured`)

// What refuses one stage refuses each after it, and not those before it.
func TestARefusalReachesAllStagesAfterIt(t *testing.T) {
	pages := operationPages(passed(t, Settings{}, atStage(2, fails)))
	require.NotContains(t, pages[0], stop, "the first stage stands by itself")
	require.Contains(t, pages[1], stop, "the lift must be set down")
	require.Equal(t, []string{"the set-down may not go ahead: stage 3, set down"}, refused(t, pages[1]))
	require.Equal(t, []string{"set down: compression fails"}, refused(t, pages[2]))
	pages = operationPages(passed(t, Settings{}, atStage(0, fails)))
	require.Equal(t, []string{"store: compression fails"}, refused(t, pages[0]))
	for _, page := range pages[1:] {
		require.Equal(t, []string{"stage 1, store, precedes this stage and may not go ahead"}, refused(t, page))
	}
}

// Each reason is named, once: what fails, what is not evaluated, what nobody answered,
// what nobody checked, and a state that nobody knows.
func TestEachReasonIsNamedOnce(t *testing.T) {
	page := operationPages(passed(t, Settings{}, first(func(s *stages.SituationRecord) {
		s.Checks = append(s.Checks, stages.Check{Name: "roll", State: stages.NotEvaluated}, compression(19e6, 18e6), compression(20e6, 18e6), stages.Check{Name: "odd", State: "maybe"})
		s.Unanswered = []string{"uplift: no limit"}
	}), another(func(s *stages.SituationRecord) { s.Checks, s.Unanswered = nil, nil })))[0]
	require.Equal(t, []string{"store: unanswered: uplift: no limit", "store: roll is not evaluated", "store: compression fails", "store: odd is not evaluated", "later: unchecked"}, refused(t, page))
}

// A page that refuses names no value of the stage, whatever the record holds.
func TestARefusedPageHasNoValue(t *testing.T) {
	for name, change := range map[string]func(*stages.SituationRecord){"fails": fails, "not evaluated": evaluatedNot, "unanswered": asks, "unchecked": unaskedOf} {
		for _, units := range []Units{SI, US} {
			pages := operationPages(passed(t, Settings{Units: units}, atStage(0, change), first(func(s *stages.SituationRecord) {
				s.HoldPoints = []derive.HoldPoint{strengthPoint(30e6)}
				s.OutOfLevel, s.Roll = 0.005, 0.01
			})))
			for _, page := range pages {
				_, body, _ := strings.Cut(page, "**"+stop+"**")
				require.NotRegexp(t, limit, body, name)
				require.NotContains(t, page, invalid, "nothing to be signed")
				require.NotContains(t, page, after)
				require.Contains(t, page, "**Excluded:** ")
			}
		}
	}
}

// The expression above finds what a page that goes ahead has.
func TestAPageThatGoesAheadHasValues(t *testing.T) {
	for _, page := range operationPages(passed(t, Settings{})) {
		require.Regexp(t, limit, page)
		require.NotContains(t, page, stop)
	}
}

// A lift over several stages may begin only where every stage until the set-down, and
// that one, may go ahead.
func TestAChainOfTransientStages(t *testing.T) {
	chain := func(bad int) []string {
		return operationPages(passed(t, Settings{}, func(r *stages.Record) {
			carry := r.Stages[1]
			carry.Name, carry.Situations = "carry", append([]stages.SituationRecord{}, carry.Situations...)
			carry.Situations[0].Name, carry.Situations[0].Checks = "carry", append([]stages.Check{}, carry.Situations[0].Checks...)
			down := r.Stages[2]
			carry.Number, down.Number = 3, 4
			r.Stages = []stages.StageRecord{r.Stages[0], r.Stages[1], carry, down}
			if bad >= 0 {
				fails(&r.Stages[bad].Situations[0])
			}
		}))
	}
	for _, page := range chain(-1) {
		require.NotContains(t, page, stop)
	}
	pages := chain(3)
	require.NotContains(t, pages[0], stop)
	require.Equal(t, []string{"the set-down may not go ahead: stage 4, set down"}, refused(t, pages[1]))
	require.Equal(t, []string{"the set-down may not go ahead: stage 4, set down"}, refused(t, pages[2]))
	pages = chain(2)
	require.Equal(t, []string{"the set-down may not go ahead: stage 3, carry"}, refused(t, pages[1]))
	require.Equal(t, []string{"carry: compression fails"}, refused(t, pages[2]))
	require.Equal(t, []string{"stage 2, lift, precedes this stage and may not go ahead"}, refused(t, pages[3]), "the first that was refused")
}

// A stage is transient by its last situation: one that hangs first and stands at its end
// needs no set-down after it.
func TestAStageIsTransientByItsEnd(t *testing.T) {
	stands := func(list ...bool) stages.StageRecord {
		var s stages.StageRecord
		for _, standing := range list {
			s.Situations = append(s.Situations, stages.SituationRecord{Standing: standing})
		}
		return s
	}
	require.False(t, transient(stands(true)))
	require.False(t, transient(stands(false, true)))
	require.True(t, transient(stands(false)))
	require.True(t, transient(stands(true, false)))
}

// A stage that may go ahead warns of the first later one that may not.
func TestAStageWarnsOfALaterOneThatIsRefused(t *testing.T) {
	const words = "**WARNING: a later stage may not go ahead: stage 2, lift. Read its sheet before this stage begins.**"
	require.Contains(t, operationPages(passed(t, Settings{}, atStage(1, fails), atStage(2, fails)))[0], words)
	require.NotContains(t, strings.Join(operationPages(passed(t, Settings{})), ""), "WARNING")
	require.NotContains(t, strings.Join(operationPages(passed(t, Settings{}, atStage(0, fails))), ""), "WARNING", "no later one is refused for itself")
}

// A conditional stage may go ahead after its hold points, and so may those after it.
func TestAConditionIsNoRefusal(t *testing.T) {
	pages := operationPages(passed(t, Settings{}, atStage(0, conditional), first(func(s *stages.SituationRecord) {
		s.Checks[0].Required = formula.Q("f", 25e6, formula.Pascal, "strength")
	})))
	require.Contains(t, pages[0], "**"+after+". "+invalid+".**")
	for _, page := range pages[1:] {
		require.Contains(t, page, "**"+invalid+".**", "no praise that reads as a release")
	}
}
