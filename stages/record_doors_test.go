package stages_test

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// looked is the record of a stage with its own checks and figures.
func looked(checks []stages.Check, figures []stages.Figure) (stages.Record, error) {
	look := odd{situations: []stages.Situation{{
		Name: "look", Age: 28, Standing: true, Supports: pads(paired(stages.Pads(0.2, 2.4, 9.6))), Phase: limits.Storing,
		Check: func(stages.Effects, limits.Standard) ([]stages.OwnCheck, error) { return owned(checks...), nil },
		Draw:  func(stages.Effects) []stages.Figure { return figures },
	}}}
	return stages.Plan{look}.Run(block(), limits.EN1992{})
}

// drawing is a figure that can be drawn.
func drawing() stages.Figure {
	return stages.Figure{
		Title: "drift", XUnit: "m", YUnit: "m", Texts: []stages.Text{{At: [2]float64{1, 1}, Text: "here"}},
		Lines: []stages.Polyline{{Name: "a", Points: [][2]float64{{0, 0}, {1, 1}}}, {Name: "b", Points: [][2]float64{{0, 2}, {1, 3}}}},
	}
}

// What a stage draws is checked at the door: the words name figure, curve, point and
// value.
func TestAFigureThatCannotBeDrawnIsRefused(t *testing.T) {
	for _, c := range []struct {
		says  string
		spoil func(*stages.Figure)
	}{
		{`figure 2: "drift", curve 2 "b", point 1: ordinate = NaN: must be finite, at most 1e+30 in size`, func(f *stages.Figure) { f.Lines[1].Points[0][1] = math.NaN() }},
		{`figure 2: "drift": curve 2 "b" has 1 points and the first`, func(f *stages.Figure) { f.Tabulated, f.Lines[1].Points = true, f.Lines[1].Points[:1] }},
		{`figure 2: "drift": curve 2 "b", point 1 at 7 and that of the first`, func(f *stages.Figure) { f.Tabulated, f.Lines[1].Points[0][0] = true, 7 }},
		{`figure 2: "drift", curve 1 "a", point 2: abscissa = +Inf: must be finite`, func(f *stages.Figure) { f.Lines[0].Points[1][0] = math.Inf(1) }},
		{`figure 2: "drift", curve 1 "a", point 2: abscissa = -1e+300: must be finite, at most 1e+30 in size`, func(f *stages.Figure) { f.Lines[0].Points[1][0] = -1e300 }},
		{`figure 2: "drift", text 1 "here": ordinate = -Inf: must be finite`, func(f *stages.Figure) { f.Texts[0].At[1] = math.Inf(-1) }},
		{`figure 2: "drift", curve 2 "b" has no point: must have at least one`, func(f *stages.Figure) { f.Lines[1].Points = nil }},
		{`figure 2: title is empty: must be the caption`, func(f *stages.Figure) { f.Title = " " }},
	} {
		spoilt := drawing()
		c.spoil(&spoilt)
		record, err := looked(nil, []stages.Figure{drawing(), spoilt})
		require.ErrorIs(t, err, stages.ErrStage, c.says)
		require.ErrorContains(t, err, "stage 1, look at age 28 d: "+c.says)
		_, err = json.Marshal(record)
		require.NoError(t, err, "what was written before can be printed")
	}
}

// A number too small to be shown is 0; an empty frame is a figure; the stage's own data
// are not changed.
func TestWhatAFigureMayBe(t *testing.T) {
	tiny := drawing()
	tiny.Lines[0].Points[1] = [2]float64{5e-324, -1e-200}
	tiny.Texts[0].At[0] = 5e-324
	record, err := looked(nil, []stages.Figure{tiny, {Title: "nothing"}})
	require.NoError(t, err)
	figures := record.Stages[0].Situations[0].Figures
	require.Len(t, figures, 2)
	require.Equal(t, [2]float64{}, figures[0].Lines[0].Points[1])
	require.Equal(t, [2]float64{0, 1}, figures[0].Texts[0].At)
	require.Equal(t, [2]float64{5e-324, -1e-200}, tiny.Lines[0].Points[1])
	require.Equal(t, stages.Figure{Title: "nothing"}, figures[1])
	record, err = looked(nil, []stages.Figure{drawing()})
	require.NoError(t, err)
	require.Equal(t, []stages.Figure{drawing()}, record.Stages[0].Situations[0].Figures)
}

// A check of a stage's own that contradicts itself is refused in words.
func TestACheckThatContradictsItselfIsRefused(t *testing.T) {
	good := stages.NewCheck(limited(limits.AtMost, 2, 0), formula.Q("d", 1, formula.Pascal, "demand"))
	bad := stages.NewCheck(limited(limits.AtMost, 2, 0), formula.Q("d", 3, formula.Pascal, "demand"))
	for _, c := range []struct {
		says  string
		of    stages.Check
		spoil func(*stages.Check)
	}{
		{`has no name: must have one`, good, func(c *stages.Check) { c.Name = " " }},
		{`check "own": utilisation = 7: must be 0.5 by demand 1 Pa at most 2 Pa`, good, func(c *stages.Check) { c.Utilisation = 7 }},
		{`check "own": utilisation = -0.5: must be 0.5`, good, func(c *stages.Check) { c.Utilisation = -0.5 }},
		{`check "own": margin = -1 Pa: must be 1 Pa, demand 1 at most 2 Pa`, good, func(c *stages.Check) { c.Margin = -1 }},
		{`check "own": margin = 1 Pa: must be -1 Pa, demand 1 at least 2 Pa`, good, func(c *stages.Check) { c.Sense = limits.AtLeast }},
		{`check "own": state "pass" at a margin of -1 Pa: must be "fail"`, bad, func(c *stages.Check) { c.State = stages.Pass }},
		{`check "own": state "conditional" at a margin of -1 Pa: must be "fail"`, bad, func(c *stages.Check) { c.State, c.Condition = stages.Conditional, "a test" }},
		{`check "own": state "fail" at a margin of 1 Pa: must be "pass" or "conditional"`, good, func(c *stages.Check) { c.State = stages.Fail }},
		{`check "own": state "fine": must be "pass", "fail", "conditional" or "not evaluated"`, good, func(c *stages.Check) { c.State = "fine" }},
		{`check "own": sense "": must be "at most" or "at least"`, good, func(c *stages.Check) { c.Sense = "" }},
		{`check "own": demand in "Pa" and limit in "N": must be in one unit`, good, func(c *stages.Check) { c.Limit.Unit = formula.Newton }},
		{`check "own": margin = NaN: must be finite`, good, func(c *stages.Check) { c.Margin = math.NaN() }},
		{`check "own": factor of wind = +Inf: must be finite`, good, func(c *stages.Check) { c.Factors = []stages.Factor{{Cause: "wind", Value: math.Inf(1)}} }},
		{`check "own": conditional without a condition: must say what must be shown first`, good, func(c *stages.Check) { c.State = stages.Conditional }},
		{`check "own": not evaluated without a note: must say why`, good, func(c *stages.Check) { c.State, c.Note = stages.NotEvaluated, "" }},
		{`check "own": passes without a demand and a limit: must compare them`, stages.Check{Name: "own", State: stages.Pass, Sense: limits.AtMost}, func(*stages.Check) {}},
		{`check "own": margin = 3 and utilisation = 0 without a demand and a limit: must be 0`, stages.Check{Name: "own", State: stages.Fail, Sense: limits.AtMost, Margin: 3}, func(*stages.Check) {}},
		{`check "own" refers to 1 tables and 1 lines: must refer to none`, good, func(c *stages.Check) { c.Tables, c.Lines = []int{1}, []int{2} }},
	} {
		spoilt := c.of
		c.spoil(&spoilt)
		for _, list := range [][]stages.Check{{spoilt}, {good, spoilt}, {spoilt, good}} {
			_, err := looked(list, nil)
			require.ErrorIs(t, err, stages.ErrStage, c.says)
			require.ErrorContains(t, err, c.says)
		}
	}
}

// Whatever NewCheck gives passes its own door, and only numbers that are finite leave it.
func TestNewCheckDoesNotContradictItself(t *testing.T) {
	values := []float64{0, 5e-324, 1e-300, -1e-300, 0.1, -0.3, 1, 30e6, -30e6, 1e308, -1e308, math.Inf(1), math.NaN()}
	var list []stages.Check
	for _, sense := range []limits.Sense{limits.AtMost, limits.AtLeast, "", "minimum"} {
		for _, limit := range values {
			for _, demand := range values {
				for _, scale := range []float64{0, 5e-324, 1, math.NaN()} {
					c := stages.NewCheck(limited(sense, limit, scale), formula.Q("d", demand, formula.Pascal, "demand"))
					for _, v := range []float64{c.Demand.Value, c.Limit.Value, c.Scale.Value, c.Margin, c.Utilisation} {
						require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%s %g: %g", sense, limit, demand)
					}
					if c.State != stages.NotEvaluated {
						require.Contains(t, []limits.Sense{limits.AtMost, limits.AtLeast}, sense, "a limit without a sense never passes")
					}
					c.Name = fmt.Sprintf("%s %g: %g", sense, limit, demand)
					list = append(list, c)
				}
			}
		}
	}
	record, err := looked(list, nil)
	require.NoError(t, err)
	require.Equal(t, stages.Fail, record.Status())
}
