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

// permits are the permit sheets in Markdown, one a stage.
func permits(t *testing.T, record stages.Record) []string {
	var out bytes.Buffer
	require.NoError(t, sheet.WritePermitMarkdown(&out, record, sheet.Settings{}))
	return strings.Split(out.String(), "# Permit sheet ")[1:]
}

func TestPermitOfAStageThatPasses(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	sheets := permits(t, record)
	require.Len(t, sheets, 2)
	for _, words := range []string{
		"2 of 2: lift", "Goes with calculation", "| Age of the element | 7 d (project day 7) or more |", "| Concrete strength | characteristic cylinder strength at the age f_ck_t ≥ ",
		"stage 1, store, complete", "Survey", "mass centre, x | 6.000 m", "mass centre, y | 0.000 m", "Every check made passes; not everything is checked, see below. Governing", "Not checked in any stage: ", "no landing is in this calculation",
		"| 2 lift | 1 | 2.400 | 0.000 | 60 | 60 |", "whole weight | 120 kN", "× 1", "Stop, make safe", "the measured weight is above 120 kN",
		"not determined: tolerance of support and lift positions", "not determined: allowed wind speed", "Released by", "Caution",
	} {
		if words == "Caution" { // the words of the caution, without its heading
			words = "A licensed engineer must confirm every result"
		}
		require.Contains(t, sheets[1], words)
	}
	require.NotContains(t, sheets[1], "DO NOT PROCEED")
}

// Whatever keeps a stage from passing, its permit and those after it name no
// limit.
func TestPermitOfAStageThatDoesNotPass(t *testing.T) {
	change := map[string]func(*stages.SituationRecord){
		"fails":                   func(s *stages.SituationRecord) { s.Checks[0].State = stages.Fail },
		"holds only if something": func(s *stages.SituationRecord) { s.Checks[1].State = stages.Conditional },
		"is not evaluated":        func(s *stages.SituationRecord) { s.Checks[2].State = stages.NotEvaluated },
		"store: unanswered: concrete": func(s *stages.SituationRecord) {
			s.Unanswered = []string{"concrete compression: the standard gives no limit"}
		},
		"store: unchecked":            func(s *stages.SituationRecord) { s.Checks = nil },
		"stage 1, store, comes first": func(s *stages.SituationRecord) { s.Checks[0].State = stages.Fail },
	}
	for reason, spoil := range change {
		record, err := slab(1500e-6)
		require.NoError(t, err)
		spoil(&record.Stages[0].Situations[0])
		sheets := permits(t, record)
		require.Contains(t, sheets[0]+sheets[1], reason)
		for _, page := range sheets {
			require.Contains(t, page, "DO NOT PROCEED")
			require.NotContains(t, page, " kN")
			require.NotContains(t, page, "MPa")
			require.NotContains(t, page, "≥")
			require.NotContains(t, page, "Hold point")
			require.NotContains(t, page, "2.400")
		}
	}
}

// Questions that nobody answered stand in a box in their situation and in the
// result; places left out do not keep a stage back.
func TestUnansweredQuestionsStandInTheCalculation(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	record.Stages[0].Situations[0].NotChecked = []string{"stresses near x = 0"}
	require.NotContains(t, permits(t, record)[0], "DO NOT PROCEED")
	record.Stages[1].Situations[0].Unanswered = []string{"uplift at a support: the standard gives no limit"}
	var out bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&out, record, sheet.Settings{}))
	require.Contains(t, out.String(), "**Unanswered in this situation, which is not fully checked: uplift at a support: the standard gives no limit.**")
	require.Contains(t, out.String(), "**Result: NOT FULLY CHECKED: every check made here passes, but questions are unanswered in 2**")
	require.Contains(t, out.String(), "| pass; questions unanswered |")
	sheets := permits(t, record)
	require.NotContains(t, sheets[0], "DO NOT PROCEED")
	require.Contains(t, sheets[1], "DO NOT PROCEED")
	require.NotContains(t, sheets[1], " kN")
}

func TestACheckWithoutDerivation(t *testing.T) {
	record := stored(t)
	c := &record.Stages[0].Situations[0].Checks[0]
	c.Derivation = nil
	var out bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&out, record, sheet.Settings{}))
	require.Contains(t, out.String(), "no derivation is given with this check")
	for _, page := range pages(t, record) {
		valid(t, page)
	}
}

func TestRecordsThatCannotBePrinted(t *testing.T) {
	for name, record := range map[string]stages.Record{
		"no stage": {Element: "E-0"}, "no situation": {Element: "E-0", Stages: []stages.StageRecord{{Number: 1}}},
	} {
		var out bytes.Buffer
		for _, err := range []error{
			sheet.WriteHTML(&out, record, sheet.Settings{}), sheet.WriteMarkdown(&out, record, sheet.Settings{}),
			sheet.WritePermitHTML(&out, record, sheet.Settings{}), sheet.WritePermitMarkdown(&out, record, sheet.Settings{}),
		} {
			require.ErrorIs(t, err, sheet.ErrSheet)
			require.ErrorContains(t, err, name)
			require.ErrorContains(t, err, `"E-0"`)
		}
		require.Empty(t, out.String())
	}
}

// A record with next to nothing in it is printed all the same.
func TestABareRecord(t *testing.T) {
	record := stages.Record{Format: stages.Format, Stages: []stages.StageRecord{{Number: 1, Situations: []stages.SituationRecord{{
		Tendons:   []stages.TendonForce{{Mark: "T"}},
		Reactions: []stages.Reaction{{}},
		Stations:  []stages.Station{{}},
		Diagram:   []stages.Station{{}, {}},
		Loads:     []stages.Load{{Mark: "q"}},
		Figures:   []stages.Figure{{}, {Title: "plan", XUnit: "m", YUnit: "m", Lines: []stages.Polyline{{Name: "a", Points: [][2]float64{{0, 0}, {1, 2}}}}, Texts: []stages.Text{{Text: "here"}}}},
		Checks:    []stages.Check{{Name: "x", State: stages.Pass, Limit: formula.Q("s", 1, formula.Pascal, ""), Demand: formula.Q("d", 0, formula.Pascal, "")}},
	}}}}}
	for _, page := range pages(t, record) {
		valid(t, page)
	}
}

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
