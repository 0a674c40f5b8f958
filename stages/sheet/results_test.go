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

// What was changed by hand is refused by every writer.
func TestResultsThatWereChangedAreRefused(t *testing.T) {
	for says, spoil := range map[string]func(*stages.Record){
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

// Results behind the stages of a plan are in its calculation, before the appendix.
func TestResultsBehindStagesArePrinted(t *testing.T) {
	record := rectangle()
	require.NoError(t, record.Append(stages.ResultPart{
		Title: "Casting curve", Notes: []string{"piers do not turn"},
		Tables: []stages.ValueTable{{Title: "Camber", RowHead: "Joint", RowNames: []string{"S1/S2", "S2/S3 & tip"},
			Columns: []stages.ValueColumn{{Name: "x", Unit: formula.Metre}, {Name: "camber", Unit: formula.Metre, Small: true}, {Name: "angle", Unit: formula.Radian, Small: true}},
			Rows:    [][]float64{{3, 0.01234, 0.000456}, {6, -0.1, 0.001}}}},
		Figures: []stages.Figure{{Title: "Casting curve", XUnit: "m", YUnit: "m", Exaggerated: true, Lines: []stages.Polyline{{Name: "camber", Points: [][2]float64{{0, 0}, {6, 0.0123}}}, {Name: "after pair 2", Points: [][2]float64{{0, 0}, {6, 0.004}}}}}},
	}))
	_, page, complaint := run(record, nil)
	require.Empty(t, complaint)
	require.Contains(t, page, "## Casting curve\n")
	require.Contains(t, page, "- piers do not turn\n")
	require.Contains(t, page, "| Joint | x m | camber mm | angle mrad |")
	require.Contains(t, page, "| S1/S2 | 3.000 | 12.3 | 0.456 |")
	require.Contains(t, page, "| S2/S3 &amp; tip | 6.000 | −100.0 | 1.000 |")
	require.Less(t, strings.Index(page, "## Casting curve"), strings.Index(page, "# Appendix"))
	_, page, _ = run(record, nil, "-units", "us")
	require.Contains(t, page, "| S1/S2 | 9.843 | 0.49 | 0.456 |")
	var out bytes.Buffer
	require.NoError(t, WriteHTML(&out, record, Settings{}))
	html := out.String()
	for _, words := range []string{"piers do not turn", "S2/S3 &amp; tip", "Casting curve", "after pair 2", ">mm<", "12.3"} {
		require.Contains(t, html, words)
	}
	out.Reset()
	require.NoError(t, WriteJSON(&out, record))
	back, err := ReadJSON(&out)
	require.NoError(t, err)
	require.Equal(t, record.Results, back.Results)
	record.Results[0].Tables[0].RowNames = []string{"S1/S2"}
	require.ErrorContains(t, WriteHTML(&out, record, Settings{}), "1 row names and 2 rows")
	files, err := filesOf(record, Settings{})
	require.Error(t, err)
	require.Empty(t, files)
}

// Small lengths have a scale of their own; without the word both axes have one.
func TestExaggeratedFigure(t *testing.T) {
	f := stages.Figure{Title: "camber", XUnit: "m", YUnit: "m", Lines: []stages.Polyline{{Name: "camber", Points: [][2]float64{{0, 0}, {6, 0.0123}}}}}
	a := author{}
	require.True(t, a.recordChart(f).equal)
	require.InDelta(t, 0.0123, a.recordChart(f).curves[0].parts[0][1].Y, 1e-12)
	f.Exaggerated = true
	require.False(t, a.recordChart(f).equal)
	require.Equal(t, "mm", a.recordChart(f).title)
	require.InDelta(t, 12.3, a.recordChart(f).curves[0].parts[0][1].Y, 1e-12)
}
