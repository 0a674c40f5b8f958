package sheet_test

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/sheet"
)

// operations are the operation sheets in Markdown, one a stage.
func operations(t *testing.T, record stages.Record) []string {
	var out bytes.Buffer
	require.NoError(t, sheet.WriteOperationMarkdown(&out, record, sheet.Settings{}))
	return strings.Split(out.String(), "# Operation sheet ")[1:]
}

// The operation sheets of the stored record are what they were to the last figure: a value
// rounded to the other side is another value.
func TestStoredOperationSheetsAreExact(t *testing.T) {
	for _, units := range []sheet.Units{sheet.SI, sheet.US} {
		var out bytes.Buffer
		require.NoError(t, sheet.WriteOperationMarkdown(&out, stored(t), sheet.Settings{Units: units, Project: "Estuary Link", Revision: "A"}))
		path := "testdata/operation-2-" + string(units) + ".md"
		if *update {
			require.NoError(t, os.WriteFile(path, out.Bytes(), 0o644))
		}
		golden, err := os.ReadFile(path)
		require.NoError(t, err)
		require.Equal(t, string(golden), out.String())
	}
}

func TestOperationSheetOfAStageThatPasses(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	sheets := operations(t, record)
	require.Len(t, sheets, 3)
	for _, words := range []string{
		"2 of 3: lift", "Goes with calculation", "| Age of the element | 7 d (project day 7) or more |", "| Previous stage | stage 1, store, complete and its sheet signed off |", "Survey",
		"**Weight:** 120 kN (12.24 t) calculated, × 1; CoG x = 6 m, y = 0 m, z = 0.4 m; dynamic × 1 to 1.1.", "**Other actions:** none permitted.",
		"**Not valid until signed below by the responsible engineer.**", "Hold points: before proceeding sign each, and fill in every blank but readings, acceptance and close-out", "**Excluded:** ",
		"Sequence of operations", "Positions, readings and reactions", "Stop, make safe and consult the engineer if", "cracking or unusual noise",
		"| Wind limit | none in the calculation; the engineer: ____ m/s, gust / mean, at ____ m |", "Set down by sheet 3 only.", "Responsible engineer", "A licensed engineer must confirm every result", "Exclusion zone", "Safe state to return to", "Signals",
	} {
		require.Contains(t, sheets[1], words)
	}
	for _, page := range sheets {
		require.NotContains(t, page, "DO NOT PROCEED")
		require.NotContains(t, page, "PROCEED ONLY AFTER")
		require.NotContains(t, strings.ReplaceAll(page, "It is no permit to lift", ""), "ermit ")
		require.NotContains(t, page, "tilisation")
	}
}

// What keeps a stage from going ahead keeps those after it, and no limit is named.
func TestOperationSheetOfAStageThatMayNotGoAhead(t *testing.T) {
	change := map[string]func(*stages.SituationRecord){
		"fails":                    func(s *stages.SituationRecord) { s.Checks[0].State = stages.Fail },
		"is not evaluated":         func(s *stages.SituationRecord) { s.Checks[2].State = stages.NotEvaluated },
		"store: unchecked":         func(s *stages.SituationRecord) { s.Checks = nil },
		"stage 1, store, precedes": func(s *stages.SituationRecord) { s.Checks[0].State = stages.Fail },
		"store: unanswered: concrete": func(s *stages.SituationRecord) {
			s.Unanswered = []string{"concrete compression: the standard gives no limit"}
		},
	}
	for reason, spoil := range change {
		record, err := slab(1500e-6)
		require.NoError(t, err)
		spoil(&record.Stages[0].Situations[0])
		sheets := operations(t, record)
		require.Contains(t, sheets[0]+sheets[1], reason)
		for _, page := range sheets {
			require.Contains(t, page, "DO NOT PROCEED")
			for _, limit := range []string{" kN", "MPa", "≥", "Hold point", "2.400", "2.4 m", "% "} {
				require.NotContains(t, page, limit)
			}
		}
	}
}

// A conditional stage names its limits, under the condition, with the required
// value, the assumed one and an empty field for the result; the next stages do not
// repeat the condition.
func TestOperationSheetOfAConditionalStage(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	s := &record.Stages[0].Situations[0]
	s.Checks[0].State, s.Checks[0].Condition = stages.Conditional, "strength to be proved by test at age 5 d"
	required := formula.Q("f_ck_t", 21.0001e6, formula.Pascal, "characteristic cylinder strength")
	assumed := formula.Q("anything", 27.36e6, formula.Pascal, "")
	s.HoldPoints = []derive.HoldPoint{
		{Kind: "strength", Required: required, Assumed: &assumed, Check: 1, Tested: []formula.Quantity{formula.Q("f_ck_cube", 25.9991e6, formula.Pascal, "characteristic cube strength"), formula.Q("f_cm_cube", 37.451e6, formula.Pascal, "mean of 3 cubes")}},
		{Kind: "friction", Required: formula.Q("μ_min", 0.0312, formula.One, "coefficient of friction"), Assumed: &formula.Quantity{Value: 0.1, Unit: formula.One}, Pieces: []string{"P", "Q"}},
		{Kind: "level", Required: formula.Q("u", 0.0050001, formula.Metre, "level difference"), AtMost: true},
		{Kind: "document", Document: &derive.Document{Number: "TW-7", Revision: "B", Status: "approved"}},
	}
	sheets := operations(t, record)
	for _, words := range []string{
		"**PROCEED ONLY AFTER the hold points below are verified and signed.", "| Concrete strength | cylinder: characteristic ≥ 21.5 MPa | fck 27.36 MPa |  |  |", "| or concrete strength | cube: characteristic ≥ 26 MPa, or mean of 3 or more ≥ 37.5 MPa |  |  |  |",
		"| Friction of P, Q | between element and supports (clean, dry, no oil or ice) ≥ 0.032 | 0.1 |", "| Condition | strength to be proved by test at age 5 d |  |  |  |", "| Level | level difference ≤ 5 mm |  |  |  |", "| Document | document TW-7, revision B, approved |  |  |  |", "| 1 pad | 2.400 | −0.200 |", " kN |",
	} {
		require.Contains(t, sheets[0], words)
	}
	require.NotContains(t, sheets[0], "DO NOT PROCEED")
	require.NotContains(t, sheets[1], "PROCEED ONLY AFTER")
	s.Checks[1].State, s.Checks[1].Required = stages.Conditional, formula.Q("p", 10.0001e3, formula.Newton, "preload of the ties")
	require.Contains(t, operations(t, record)[0], "| Condition | of the check "+s.Checks[1].Name+"; preload of the ties ≥ 10.01 kN |", "no condition goes unsaid")
	s.Checks[1].State = stages.Fail
	require.Contains(t, operations(t, record)[0], "DO NOT PROCEED", "a failure outweighs a condition")
}

// Design reactions are characteristic and ULS; the gauges are compared with the
// static total and with shares, which no dynamic factor widens.
func TestReactionsHaveEachTheirUse(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	s := &record.Stages[1].Situations[0]
	s.Weight = stages.Range{Least: 0.97, Most: 1.03}
	share := stages.Range{Least: 0.24321, Most: 0.25}
	s.Reactions[0].Share, s.Reactions[0].Y, s.Reactions[0].Characteristic, s.Reactions[0].Ultimate = &share, -0.123, stages.Range{Least: 27.0004e3, Most: 33.0004e3}, stages.Range{Least: 20e3, Most: 44.5501e3}
	s.Total = stages.Range{Least: 116.4001e3, Most: 123.5901e3}
	s.Reactions[1].Bounded, s.Reactions[1].Share = true, nil
	page := operations(t, record)[1]
	for _, words := range []string{
		"| 1 lift point, 1 + 2 equalised | 2.400 | −0.123 | 0.800 | 24.0 to 25.3 % | 28.80 to 30.36 | 30.3 |  |  |  |  |  |",
		"| 2 lift point, bounded, 1 + 2 equalised | 2.400 | 0.200 | 0.800 |", "| no measuring band | — |", "| **116 to 124 kN** |  |",
		"| With dynamic factor, max: chart without it; slings, anchors | 33.01 |", "| ULS maximum, for ground and concrete | 44.56 |",
	} {
		require.Contains(t, page, words)
	}
	var out bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&out, record, sheet.Settings{}))
	require.Contains(t, out.String(), "| 1 lift point, equalised (blocks) | 2.400 | −0.123 |")
	require.Contains(t, out.String(), "| bounded |")
	s.Reactions[2].Share = nil
	require.Contains(t, operations(t, record)[1], "| — | — | 25.97 |", "no share of a total that may vanish")
}

// Questions that nobody answered stand in a box in their situation and in the
// result; places left out do not keep a stage back.
func TestUnansweredQuestionsStandInTheCalculation(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	record.Stages[0].Situations[0].NotChecked = []string{"stresses near x = 0"}
	require.NotContains(t, operations(t, record)[0], "DO NOT PROCEED")
	record.Stages[1].Situations[0].Unanswered = []string{"uplift at a support: the standard gives no limit"}
	var out bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&out, record, sheet.Settings{}))
	require.Contains(t, out.String(), "**Unanswered in this situation, which is not fully checked: uplift at a support: the standard gives no limit.**")
	require.Contains(t, out.String(), "**Result: NOT FULLY CHECKED: every check made here passes, but questions are unanswered in 2**")
	require.Regexp(t, `\| (\*\*)?pass; questions unanswered(\*\*)? \|`, out.String()) // bold in the governing stage
	sheets := operations(t, record)
	require.NotContains(t, sheets[0], "DO NOT PROCEED")
	require.Contains(t, sheets[1], "DO NOT PROCEED")
	require.NotContains(t, sheets[1], " kN")
}

func TestACheckWithoutDerivation(t *testing.T) {
	record := stored(t)
	c := &record.Stages[0].Situations[0].Checks[0]
	c.Proof = derive.Proof{}
	var out bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&out, record, sheet.Settings{}))
	require.Contains(t, out.String(), "No derivation is given with this check.")
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
			sheet.WriteOperationHTML(&out, record, sheet.Settings{}), sheet.WriteOperationMarkdown(&out, record, sheet.Settings{}),
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
		Stations:  derive.Rows{Columns: make([]string, 17), Values: [][]float64{make([]float64, 17)}},
		Diagram:   derive.Rows{Columns: make([]string, 17), Values: [][]float64{make([]float64, 17), make([]float64, 17)}},
		Supports:  []stages.Support{{}},
		Loads:     []stages.Load{{Mark: "q"}},
		Figures:   []stages.Figure{{}, {Title: "plan", XUnit: "m", YUnit: "m", Lines: []stages.Polyline{{Name: "a", Points: [][2]float64{{0, 0}, {1, 2}}}}, Texts: []stages.Text{{Text: "here"}}}},
		Checks:    []stages.Check{{Name: "x", State: stages.Pass, Limit: formula.Q("s", 1, formula.Pascal, ""), Demand: formula.Q("d", 0, formula.Pascal, "")}},
	}}}}}
	for _, page := range pages(t, record) {
		valid(t, page)
	}
}
