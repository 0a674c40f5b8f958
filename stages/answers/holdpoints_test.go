package answers_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/answers"
	"github.com/tempstage/tempstage/stages/sheet"
)

func TestHoldPointsAreTheLeastStrengthsOfEachStage(t *testing.T) {
	c := handled(t)
	table, err := answers.HoldPoints(c.Subject, c.Plan, c.Standard)
	require.NoError(t, err)
	require.Len(t, table, 3)
	require.NoError(t, table.Err())
	for i, h := range table {
		c.Stage = i + 1
		s, err := answers.LeastStrength(c)
		require.Equal(t, err == nil, h.Err == nil)
		require.Equal(t, s.Required, h.Required)
		require.Equal(t, i+1, h.Stage)
	}
	require.Greater(t, table[1].Required, table[0].Required) // the lift with its dynamic factor

	p := table.Result()
	row := 0
	for _, h := range table {
		if h.Err != nil {
			continue
		}
		for k, exact := range []float64{h.Required, h.Cube, h.MeanCylinder, h.MeanCube} {
			require.GreaterOrEqual(t, p.Tables[0].Rows[row][k], exact-1)
			require.InDelta(t, exact, p.Tables[0].Rows[row][k], 1e5)
		}
		require.GreaterOrEqual(t, p.Tables[0].Rows[row][6], h.Least-1e-7)
		row++
	}
	require.Equal(t, len(p.Tables[0].Rows), row)
	require.Positive(t, row)

	r, err := c.Plan.Run(c.Subject, c.Standard)
	require.NoError(t, err)
	require.NoError(t, r.Append(table.Result()))
	require.NoError(t, r.Check())
	var text strings.Builder
	require.NoError(t, sheet.WriteMarkdown(&text, r, sheet.Settings{}))
	require.Contains(t, text.String(), "Hold points of strength")
	require.Contains(t, text.String(), "2, principal tension in the web")
}

// Strengths and ages are never rounded down; a stage without a least strength is named.
func TestHoldTableOnTheSafeSide(t *testing.T) {
	c := stressed(t, 0.3, 500e6)
	c.Plan = append(c.Plan, yard{age: 8, on: pads(dunnage(4, 8))})
	table, err := answers.HoldPoints(c.Subject, c.Plan, c.Standard)
	require.NoError(t, err)
	require.Error(t, table[2].Err)
	require.ErrorIs(t, table.Err(), answers.ErrAnswer)
	p := table.Result()
	require.Contains(t, strings.Join(p.Notes, "\n"), "Stage 3 has no least strength. answer: stage 3, f_ck_t from 2.0 to 40.0 MPa: the stage fails everywhere")
	_, err = answers.HoldPoints(c.Subject, nil, c.Standard)
	require.ErrorIs(t, err, stages.ErrStage)
	_, err = answers.HoldPoints(nil, c.Plan, c.Standard)
	require.ErrorIs(t, err, stages.ErrStage)
}
