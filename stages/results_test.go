package stages_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// beamResults is a simple beam by hand: M = q·L²/8.
func beamResults(t *testing.T) stages.Results {
	q := formula.Q("q", 25e3, formula.NewtonPerMetre, "line load")
	l := formula.Q("L", 12, formula.Metre, "span")
	moment, err := formula.Derive(formula.Q("M", 0, formula.NewtonMetre, "moment at mid-span"), "q*L*L/8", formula.Mechanics, q, l)
	require.NoError(t, err)
	return stages.Results{
		Mark: "B-1", Length: 12, Basis: []string{"Statics."}, NotChecked: []string{"any limit"},
		Inputs: []stages.Lines{{Title: "Beam", Lines: []formula.Line{formula.Given(q, formula.Source{Document: "input"}), formula.Given(l, formula.Source{Document: "input"})}}},
		Parts: []stages.ResultPart{{
			Title: "Moment", Lines: []formula.Line{moment}, Figures: []stages.Figure{drawing()},
			Tables: []stages.ValueTable{{Title: "Moment", Columns: []stages.ValueColumn{{Name: "x", Unit: formula.Metre}, {Name: "M", Unit: formula.NewtonMetre}}, Rows: [][]float64{{0, 0}, {6, 450e3}, {8, 400000.4}}}},
		}},
	}
}

func TestResultsMakeARecordWithoutStages(t *testing.T) {
	record, err := beamResults(t).Record()
	require.NoError(t, err)
	require.NoError(t, record.Check())
	require.Equal(t, "B-1", record.Element)
	require.NotEmpty(t, record.Caution, "the caution is on every record")
	require.Empty(t, record.Stages)
	require.Equal(t, stages.NotEvaluated, record.Status(), "nothing is compared with a limit")
	part := record.Results[0]
	require.Equal(t, [][]float64{{0, 0}, {6, 450e3}, {8, 400e3}}, part.Tables[0].Rows, "six digits of the largest of a column")
	line, err := record.Line(part.Lines[0])
	require.NoError(t, err)
	require.InEpsilon(t, 450e3, line.Result.Value, 1e-12)
	text, err := json.Marshal(record)
	require.NoError(t, err)
	var back stages.Record
	require.NoError(t, json.Unmarshal(text, &back))
	require.Equal(t, record, back)
}

// Section, concrete and tendons bring their inputs, the section its outline and the
// tendons their paths.
func TestResultsPrintTheirInputs(t *testing.T) {
	e := block()
	r := beamResults(t)
	r.Section, r.Concrete, r.Inputs = e.Section, e.Concrete, nil
	r.Tendons = []tendon.Tendon{{
		Mark: "T1", Strand: tendon.Y1860S7x157, Strands: 7, Duct: 0.07, Friction: 0.19, Wobble: 0.005,
		Elevation: tendon.Level(0, 12, 0.4), Plan: tendon.Level(0, 12, 0),
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
	}}
	record, err := r.Record()
	require.NoError(t, err)
	var titles []string
	for _, g := range record.Inputs {
		titles = append(titles, g.Title)
	}
	require.Equal(t, []string{"Concrete", "Gross section at mid-length", "Tendons T1"}, titles)
	require.Len(t, record.Outlines, 1)
	require.Len(t, record.Tendons, 1)
	require.InDelta(t, 12, record.Tendons[0].Points[1].Length, 1e-12)
}

func TestResultsThatAreNotCompleteAreRefused(t *testing.T) {
	for _, c := range []struct {
		says  string
		spoil func(*stages.Results)
	}{
		{"the mark of the element is empty", func(r *stages.Results) { r.Mark = " " }},
		{"length = 0 m: must be above 0", func(r *stages.Results) { r.Length = 0 }},
		{"it has results and no inputs: must have at least one group of them", func(r *stages.Results) { r.Inputs = nil }},
		{"a group of inputs has no title: must have one", func(r *stages.Results) { r.Inputs[0].Title = "" }},
		{"it has no stage: must have at least one, or results", func(r *stages.Results) { r.Parts = nil }},
		{"title is empty: must be the heading", func(r *stages.Results) { r.Parts[0].Title = "" }},
		{"it has no line, table or figure: must have at least one", func(r *stages.Results) { r.Parts[0] = stages.ResultPart{Title: "none"} }},
		{"table 1 \"\": title is empty: must be the caption", func(r *stages.Results) { r.Parts[0].Tables[0].Title = "" }},
		{"table 1 \"Moment\": 2 columns and 0 rows: must have at least one of each", func(r *stages.Results) { r.Parts[0].Tables[0].Rows = nil }},
		{"column 2 \"M\" in \"\": must have a name and a unit", func(r *stages.Results) { r.Parts[0].Tables[0].Columns[1].Unit = "" }},
		{"row 2 with 1 numbers: must be 2", func(r *stages.Results) { r.Parts[0].Tables[0].Rows[1] = []float64{1} }},
		{"row 1, column M = NaN: must be finite", func(r *stages.Results) { r.Parts[0].Tables[0].Rows[0][1] = math.NaN() }},
		{"figure 1: title is empty", func(r *stages.Results) { r.Parts[0].Figures = []stages.Figure{{}} }},
		{"outline 1 at x = 0 m has no concrete", func(r *stages.Results) { r.Section = section.Shape{} }},
		{"Duct = 0", func(r *stages.Results) {
			r.Tendons = []tendon.Tendon{{Mark: "T1", Strand: tendon.Y1860S7x157, Strands: 7}}
		}},
		{"part 1, \"Moment\"", func(r *stages.Results) { r.Parts[0].Lines[0].Result.Value = 1 }},
	} {
		r := beamResults(t)
		c.spoil(&r)
		_, err := r.Record()
		require.ErrorIs(t, err, stages.ErrStage, c.says)
		require.ErrorContains(t, err, c.says)
	}
}

// Results may stand behind the stages of a plan. Without stages there are no factors.
func TestResultsBehindTheStagesOfAPlan(t *testing.T) {
	results, err := beamResults(t).Record()
	require.NoError(t, err)
	staged, err := looked(nil, nil)
	require.NoError(t, err)
	part := stages.ResultPart{Title: "Camber", Notes: []string{"rigid piers"}, Figures: []stages.Figure{drawing()}, Tables: []stages.ValueTable{{
		Title: "Camber", Columns: []stages.ValueColumn{{Name: "camber", Unit: formula.Metre, Small: true}}, Rows: [][]float64{{0.0123456789}, {0.001}},
		RowHead: "Joint", RowNames: []string{"S1/S2", "S2/S3"}}}}
	before := staged.Status()
	require.NoError(t, staged.Append(part, part))
	require.NoError(t, staged.Check())
	require.Len(t, staged.Results, 2)
	require.Equal(t, [][]float64{{0.0123457}, {0.001}}, staged.Results[0].Tables[0].Rows, "six digits")
	require.Equal(t, []string{"S1/S2", "S2/S3"}, staged.Results[1].Tables[0].RowNames)
	require.Equal(t, before, staged.Status())
	text, err := json.Marshal(staged)
	require.NoError(t, err)
	var back stages.Record
	require.NoError(t, json.Unmarshal(text, &back))
	require.Equal(t, staged.Results, back.Results)

	for says, spoil := range map[string]func(*stages.ResultPart){
		"it has 1 lines: must be tables and figures":              func(p *stages.ResultPart) { p.Lines = beamResults(t).Parts[0].Lines },
		"part 1, \"\": title is empty: must be the heading":       func(p *stages.ResultPart) { p.Title = "" },
		"1 row names and 2 rows: must have one for each row":      func(p *stages.ResultPart) { p.Tables[0].RowNames = []string{"S1/S2"} },
		"note 1 is empty: must be its words":                      func(p *stages.ResultPart) { p.Notes = []string{" "} },
		"it has row names and no row head":                        func(p *stages.ResultPart) { p.Tables[0].RowHead = " " },
		"0 row names and 2 rows":                                  func(p *stages.ResultPart) { p.Tables[0].RowNames = nil },
		"the name of row 2 is empty: must be its words":           func(p *stages.ResultPart) { p.Tables[0].RowNames = []string{"S1/S2", ""} },
		"row 1, column camber = NaN: must be finite":              func(p *stages.ResultPart) { p.Tables[0].Rows = [][]float64{{math.NaN()}, {0}} },
		"it has no line, table or figure: must have at least one": func(p *stages.ResultPart) { p.Tables, p.Figures = nil, nil },
	} {
		bad := part
		bad.Tables = []stages.ValueTable{part.Tables[0]}
		spoil(&bad)
		err := staged.Append(bad)
		require.ErrorIs(t, err, stages.ErrStage, says)
		require.ErrorContains(t, err, says)
		require.Len(t, staged.Results, 2, "as it was")
	}
	require.ErrorContains(t, results.Append(part), "the record of \"B-1\" has no stage: must be that of a plan")
	factored := results
	factored.Factors = []stages.PartialFactors{{LimitState: "SLS"}}
	require.ErrorContains(t, factored.Check(), "it has results with 1 partial factors and 0 groups of an appendix: must have none")
	results.Results[0].Lines = []int{99}
	require.ErrorContains(t, results.Check(), "line 99: must be 1 to 3")
}

// An analysis that no plan has made answers with an error.
func TestEmptyAnalysis(t *testing.T) {
	for _, a := range []*stages.Analysis{nil, {}} {
		_, err := a.Effects(1, 1)
		require.ErrorIs(t, err, stages.ErrStage)
		_, _, err = a.Margin(1)
		require.ErrorIs(t, err, stages.ErrStage)
		_, err = a.Record()
		require.ErrorContains(t, err, "must be that of Plan.Analyse")
	}
}
