package sheet_test

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
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
