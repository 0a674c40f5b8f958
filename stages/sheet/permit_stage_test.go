package sheet_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

// A stage of several situations says what each needs; what is equal stands once.
func TestPermitOfAStageOfSeveralSituations(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	first := record.Stages[0].Situations[0]
	second := first
	second.Name, second.Age, second.Day = "second", 6, 6
	second.Factors = slices.Clone(first.Factors)
	for i, l := range second.Factors {
		if l.Result.Symbol == "δ_most" {
			second.Factors[i].Result.Value = 1.25
		}
	}
	second.Tendons = []stages.TendonForce{{Mark: "T1", Bonded: true}}
	second.Loads = []stages.Load{{Mark: "jack", From: 3, To: 3, Centre: 3, Force: 40e3}}
	second.Checks = append(slices.Clone(first.Checks), stages.Check{
		Name: string(limits.StressingStrength), Sense: limits.AtLeast, State: stages.Pass, Limit: formula.Q("f_cm0", 30.0001e6, formula.Pascal, ""), Demand: formula.Q("f", 40e6, formula.Pascal, ""),
	})
	third := second
	third.Name = "third"
	record.Stages[0].Situations = []stages.SituationRecord{first, second, third}
	page := permits(t, record)[0]
	for _, words := range []string{
		"before 1.2: Age of the element | 6 d", "before 1.2: Concrete strength | concrete strength at stressing f_cm0 ≥ 30.01 MPa", "1.2: Grouting | ducts of T1 filled",
		"before 1.3: Tendons stressed | T1; all grouted", "from 1.1 on: dynamic factor | × 1 ", "from 1.2 on: dynamic factor | × 1 to 1.25",
		"from 1.1 on: other loads | none allowed", "from 1.2 on: other load: jack", "the measured weight is below 120 kN", "| 1.1 store; 1.2 second; 1.3 third | 1 |",
	} {
		require.Contains(t, page, words)
	}
	for _, words := range []string{"before 1.3: Age", "before 1.3: Concrete", "from 1.3 on"} {
		require.NotContains(t, page, words)
	}
	require.Equal(t, 1, strings.Count(page, "weight tolerance |"))
}

// What other loads are and where stands on both sheets, a magnitude rounded down.
func TestOtherLoadsOfEachKind(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	for i := range record.Stages {
		record.Stages[i].Situations[0].Loads = []stages.Load{
			{Mark: "line load", From: 2, To: 6, Centre: 4, Force: 40.0077e3}, {Mark: "point load", From: 3, To: 3, Centre: 3, Force: -12.3456e3}, {Mark: "couple", From: 5, To: 5, Centre: 5, Couple: -60.0077e3},
		}
	}
	var out bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&out, record, sheet.Settings{}))
	require.Contains(t, out.String(), "| line load from 2 m to 6 m, resultant at x = 4 m, 40 kN in all (spread); point load at x = 3 m, 12.34 kN upwards; couple at x = 5 m, 60 kN·m clockwise; may be there or not, together |")
	page := permits(t, record)[0]
	for _, words := range []string{
		"| other load: line load from 2 m to 6 m, resultant at x = 4 m | 40 kN in all (spread) | input; may be there or not, together |",
		"point load at x = 3 m | 12.34 kN upwards |", "couple at x = 5 m | 60 kN·m clockwise |",
	} {
		require.Contains(t, page, words)
	}
	out.Reset()
	require.NoError(t, sheet.WritePermitMarkdown(&out, record, sheet.Settings{Units: sheet.US}))
	require.Contains(t, out.String(), "couple at x = 16.404 ft | 44.25 kip·ft clockwise |")
	for i := range record.Stages {
		record.Stages[i].Situations[0].Loads = record.Stages[i].Situations[0].Loads[2:]
	}
	out.Reset()
	require.NoError(t, sheet.WriteMarkdown(&out, record, sheet.Settings{}))
	require.NotContains(t, out.String(), "| none |")
	require.NotContains(t, permits(t, record)[0], "none allowed")
	for _, page := range pages(t, record) {
		valid(t, page)
	}
}

// A lift goes ahead only if what follows holds, to where the element stands again;
// a stage that stands is warned of what follows.
func TestALiftNeedsItsLanding(t *testing.T) {
	plan := func(t *testing.T, fails int) []string {
		record, err := slab(1500e-6)
		require.NoError(t, err)
		store, lift := record.Stages[0], record.Stages[1]
		record.Stages = []stages.StageRecord{store, lift, lift, store, lift, store}
		for i := range record.Stages {
			record.Stages[i].Number = i + 1
			record.Stages[i].Situations = slices.Clone(record.Stages[i].Situations)
		}
		record.Stages[fails-1].Situations[0].Unanswered = []string{"anything"}
		return permits(t, record)
	}
	sheets := plan(t, 4)
	require.Contains(t, sheets[0], "**WARNING: a later stage does not hold: stage 4, store.")
	for _, page := range sheets[1:3] {
		require.Contains(t, page, "DO NOT PROCEED")
		require.Contains(t, page, "the landing does not hold: stage 4, store")
		require.NotContains(t, page, " kN")
		require.Contains(t, page, "Not checked in any stage: ")
	}
	sheets = plan(t, 3)
	require.Contains(t, sheets[1], "the landing does not hold: stage 3, lift")
	sheets = plan(t, 6)
	for _, page := range sheets[:4] {
		require.NotContains(t, page, "DO NOT PROCEED")
		require.Contains(t, page, "**WARNING: a later stage does not hold: stage 6, store.")
	}
	require.Contains(t, sheets[4], "the landing does not hold")
}

func TestEachPagesFootNamesItsStage(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, sheet.WritePermitHTML(&out, record, sheet.Settings{}))
	require.Regexp(t, `@page stage-2 \{ @bottom-left \{ content: "Permit sheet 2 of 2\\00003a  lift, element`, out.String())
	require.Contains(t, out.String(), ".stage-2 { page: stage-2; }")
}

func TestACheckThatIsNotEvaluatedHasNoNumbers(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	c := &record.Stages[0].Situations[0].Checks[0]
	*c = stages.Check{Name: "tipping", State: stages.NotEvaluated, X: 2, Note: "beyond the model"}
	var out bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&out, record, sheet.Settings{}))
	require.Contains(t, out.String(), "| **—** | **—** | **—** | **not evaluated: beyond the model** |")
	require.Contains(t, out.String(), "| **2.000** | **—** |  | **—** | **—** | **not evaluated: beyond the model** |")
}

// A lifted element hangs from lift points, and supports that share say their group.
func TestALiftHangsFromItsLiftPoints(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	s := &record.Stages[1].Situations[0]
	s.System = "supports at x = 2.400 m (equalised, blocks); x = 9.600 m"
	var out bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&out, record, sheet.Settings{}))
	require.Contains(t, out.String(), "not locked in, hung from lift points at x = 2.400 m (equalised, blocks); x = 9.600 m.")
	require.Contains(t, out.String(), "| passing | hung from lift points at x = 2.400 m")
	require.Contains(t, out.String(), "| Lift point |")
	require.Contains(t, out.String(), "| 1, group blocks | 2.400 |")
	require.Contains(t, out.String(), "| 2 | 9.600 |")
	sheets := permits(t, record)
	require.Contains(t, sheets[0], "on supports at x = 2.400 m")
	require.Contains(t, sheets[1], "age 7 d or more, hung from lift points at x = 2.400 m")
	require.Contains(t, sheets[1], "| 2 lift | 1, group blocks | 2.400 |")
	require.NotContains(t, sheets[1], "on supports at")
}
