package sheet

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// simpleBeam is the record of a beam by hand, without stages.
func simpleBeam(t *testing.T) stages.Record {
	q, l := formula.Q("q", 25e3, formula.NewtonPerMetre, "line load"), formula.Q("L", 12, formula.Metre, "span")
	moment, err := formula.Derive(formula.Q("M", 0, formula.NewtonMetre, "moment at mid-span"), "q*L*L/8", formula.Mechanics, q, l)
	require.NoError(t, err)
	record, err := stages.Results{
		Mark: "B-1", Length: 12, Basis: []string{"Statics."}, NotChecked: []string{"any limit"},
		Inputs: []stages.Lines{{Title: "Beam", Lines: []formula.Line{formula.Given(q, formula.Source{Document: "input"}), formula.Given(l, formula.Source{Document: "input"})}}},
		Parts: []stages.ResultPart{{
			Title: "Bending moment", Lines: []formula.Line{moment},
			Tables:  []stages.ValueTable{{Title: "Moment", Columns: []stages.ValueColumn{{Name: "x", Unit: formula.Metre}, {Name: "M", Unit: formula.NewtonMetre}}, Rows: [][]float64{{0, 0}, {6, 450e3}}}},
			Figures: []stages.Figure{{Title: "Moment along the beam", XUnit: "m", YUnit: "N·m", Lines: []stages.Polyline{{Name: "M", Points: [][2]float64{{0, 0}, {6, 450e3}, {12, 0}}}}}},
		}},
	}.Record()
	require.NoError(t, err)
	return record
}

func TestResultsWithoutStagesArePrinted(t *testing.T) {
	status, page, complaint := run(simpleBeam(t), nil)
	require.Equal(t, ExitPass, status)
	require.Empty(t, complaint)
	for _, words := range []string{
		"# Calculation of B-1\n", "A licensed engineer must confirm every result before it is used.", "nothing is compared with a limit",
		"| q | line load | 25 kN/m | [1] |", "## Bending moment", "| x m | M kN·m |", "| 6.000 | 450.0 |", "| M = q·L·L/8 | 25 kN/m·12 m·12 m/8 | **450 kN·m** | [2] |", "- any limit", "[1] input",
	} {
		require.Contains(t, page, words)
	}
	require.NotContains(t, page, "passes")
	_, page, _ = run(simpleBeam(t), nil, "-units", "us")
	require.Contains(t, page, "| x ft | M kip·ft |")
	require.Contains(t, page, "| 19.685 | 331.9 |", "450 kN·m in kip·ft")
}

func TestFilesOfResultsWithoutStages(t *testing.T) {
	folder := t.TempDir()
	status, out, _ := run(simpleBeam(t), nil, "-o", folder)
	require.Equal(t, ExitPass, status)
	require.Equal(t, []string{"B-1-calculation.html", "B-1-calculation.md", "B-1-record.json", "B-1-result-1-figure-1.svg"}, strings.Fields(out))
	file, err := os.Open(folder + "/B-1-record.json")
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	back, err := ReadJSON(file)
	require.NoError(t, err)
	require.Equal(t, simpleBeam(t), back)
}

// No operation sheet without a stage: nothing says what may be done.
func TestNoOperationSheetWithoutStages(t *testing.T) {
	var out bytes.Buffer
	for _, write := range []func() error{
		func() error { return WriteOperationHTML(&out, simpleBeam(t), Settings{}) },
		func() error { return WriteOperationMarkdown(&out, simpleBeam(t), Settings{}) },
	} {
		err := write()
		require.ErrorIs(t, err, ErrSheet)
		require.ErrorContains(t, err, "must have a stage for an operation sheet")
	}
	require.Zero(t, out.Len())
}

// What was changed by hand is refused by every writer, and so are stages beside results.
func TestResultsThatWereChangedAreRefused(t *testing.T) {
	for says, spoil := range map[string]func(*stages.Record){
		"must have one of them":       func(r *stages.Record) { r.Stages = rectangle().Stages },
		"the caution lacks":           func(r *stages.Record) { r.Caution = nil },
		"line 9: must be 1 to 3":      func(r *stages.Record) { r.Results[0].Lines = []int{9} },
		"line 3":                      func(r *stages.Record) { r.Lines[2].Result.Value = 400e3 },
		"row 2 has 1 numbers: must":   func(r *stages.Record) { r.Results[0].Tables[0].Rows[1] = []float64{6} },
		"must have at least one, or ": func(r *stages.Record) { r.Results = nil },
	} {
		record := simpleBeam(t)
		spoil(&record)
		var out bytes.Buffer
		for _, err := range []error{WriteHTML(&out, record, Settings{}), WriteMarkdown(&out, record, Settings{}), WriteJSON(&out, record)} {
			require.ErrorIs(t, err, ErrSheet, says)
			require.ErrorContains(t, err, says)
		}
		status, page, _ := run(record, nil)
		require.Equal(t, ExitInput, status)
		require.Empty(t, page)
		require.Zero(t, out.Len())
	}
}
