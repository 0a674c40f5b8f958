package segmental_test

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
	"github.com/tempstage/tempstage/stages/sheet"
)

// The curve in the record and on the calculation of its plan.
func TestCastingCurveInTheCalculation(t *testing.T) {
	f := fan{n: 2, depth: level(2), concrete: mixOf(), slow: mixOf(), tendons: true, inTendon: 12}
	d, on, steps := f.deck(t), f.on(), f.steps(10, 3)
	steps[1].Moves = append(steps[1].Moves, segmental.Move{Do: segmental.Wait, Until: 100})
	plan, err := d.Plan(on, steps...)
	require.NoError(t, err)
	g, err := d.Girder()
	require.NoError(t, err)
	a, err := plan.Analyse(g, limits.EN1992{})
	require.NoError(t, err)
	record, err := a.Record()
	require.NoError(t, err)
	status := record.Status()
	for _, rule := range []segmental.CastingRule{segmental.MatchCast, segmental.FormReset} {
		curve, err := segmental.Casting{Rule: rule, Profile: func(x float64) float64 { return 12 + 0.02*x }, Shifts: []segmental.PierShift{{Segment: "P", Step: 2, Rotation: 0.0004, Settlement: 0.0021}}}.Curve(d, a, on, steps...)
		require.NoError(t, err)
		require.NoError(t, record.Append(curve.Result()))
	}
	require.NoError(t, record.Check())
	require.Equal(t, status, record.Status(), "values for information")
	match := record.Results[0]
	require.Len(t, match.Tables, 2+1+2)
	require.Equal(t, []string{"P/R1", "R1/R2", "R2, right end (nothing cast against it)"}, match.Tables[1].RowNames)
	require.Equal(t, []string{"L1/P", "L2/L1", "L2, left end (nothing cast against it)"}, match.Tables[0].RowNames, "from the pier outwards")
	require.Equal(t, []float64{6, 2, 0.006, 0.003}, match.Tables[2].Rows[1], "6 m beyond the joint, 2 m deep")
	require.Len(t, match.Figures[1].Lines, 2)
	tip, last := match.Tables[1].Rows[2], match.Tables[4].Rows[5] // R2, right end: in the curve, and after the last step
	require.InDelta(t, (tip[3]-tip[2])/2, last[3], 1e-8, "creep ±")
	require.Greater(t, last[3], 1e-4)
	require.InDelta(t, tip[1], last[2], 1e-8)
	require.Len(t, record.Results[1].Tables[0].Columns, 7, "no offset in a cell")

	var page bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&page, record, sheet.Settings{}))
	for _, words := range []string{
		"## Casting curve, match-cast\n", "## Casting curve, form reset\n", "| Joint | x m | deflection mm | min mm | max mm | camber mm | ordinate mm | angle mrad | offset mm |",
		"Target levels after step 2, pair 2: wait, day 100; no frame on the deck", "| Joint | x m | level m | deflection so far mm | creep ± mm | slope mrad |",
		"- Stated: pier segment P turns by 0.400 mrad (+ raises the right arm) and settles by 2.1 mm in step 2.", "only the deflection after the form of a segment is set counts",
		"| P/R1 | 6.000 | 2.000 | 6.0 | 3.0 |",
	} {
		require.Contains(t, page.String(), words)
	}
	page.Reset()
	require.NoError(t, sheet.WriteHTML(&page, record, sheet.Settings{}))
	require.Contains(t, page.String(), "step 2.4")
	require.Contains(t, page.String(), "deflection, minimum")
	page.Reset()
	require.NoError(t, sheet.WriteJSON(&page, record))
	back, err := sheet.ReadJSON(&page)
	require.NoError(t, err)
	require.Equal(t, record.Results, back.Results)
}

// Of many steps five are drawn, evenly apart, the last among them.
func TestDrawnSteps(t *testing.T) {
	var c segmental.CastingCurve
	for i := range 23 {
		c.Levels = append(c.Levels, segmental.StepLevels{Step: i + 1, Move: 1, Joints: []segmental.JointLevel{{Name: "a"}}})
	}
	c.Joints = []segmental.CastingJoint{{Name: "a", Arm: "left arm of P"}}
	var names []string
	for _, l := range c.Result().Figures[1].Lines {
		names = append(names, l.Name)
	}
	require.Equal(t, []string{"step 5.1", "step 10.1", "step 14.1", "step 19.1", "step 23.1"}, names)
}
