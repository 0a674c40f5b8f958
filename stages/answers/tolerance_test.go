package answers_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/answers"
)

// By statics: R = 1.03·(1.05 + 0.05)·120·(9.6 − 6)/(9.6 − 2.5) kN on the left loop, of 66 kN.
func TestWorstCornerByStatics(t *testing.T) {
	c := hung(t, 66e3)
	list, err := answers.Tolerances(c, answers.WeightWithin(0.03, 0.03), answers.DynamicWithin(2, 0.05), answers.PositionWithin(2, answers.LeftEnd, 0.1))
	require.NoError(t, err)
	var load answers.Corner
	for _, k := range list {
		require.LessOrEqual(t, k.Reserve, k.Planned)
		if k.Check.Name == "rated load" {
			load = k
		}
	}
	worst := 1.03 * 1.10 * 120 * 3.6 / 7.1
	require.InDelta(t, (66-worst)/worst, load.Reserve, 1e-5)
	require.Equal(t, []float64{0.03, 0.05, 0.1}, load.Off)
	require.InDelta(t, 1-63./66, load.Planned, 1e-5)
	require.InDelta(t, 0.03*63/66, load.Alone[0], 1e-5)
	require.InDelta(t, 0.05*60/66, load.Alone[1], 1e-5)
	require.InDelta(t, 1.05*(120*3.6/7.1-60)/66, load.Alone[2], 1e-5)
	require.Equal(t, 2, load.Worst) // the dynamic factor
	require.Equal(t, stages.Fail, load.Check.State)
}

// The corner with all at their worst is not above that of fewer tolerances; prestress and levels count.
func TestMoreTolerancesCostMore(t *testing.T) {
	c := stressed(t, 0.3, 500e6)
	c.Plan[1] = stages.Store{Age: 7, On: stages.Elastic(20e6, stages.Pads(0.2, 1.5, 10.5)...), OutOfLevel: 0.001}
	few, err := answers.Tolerances(c, answers.PrestressWithin(0.05))
	require.NoError(t, err)
	more, err := answers.Tolerances(c, answers.PrestressWithin(0.05), answers.LevelWithin(2, 0.004), answers.PositionWithin(2, answers.BothEnds, 0.05))
	require.NoError(t, err)
	require.Len(t, more, len(few))
	lost := 0
	for i := range few {
		require.Equal(t, few[i].Check.Name, more[i].Check.Name)
		require.LessOrEqual(t, more[i].Reserve, few[i].Reserve+1e-12)
		if more[i].Alone[1] > 1e-3 {
			lost++
		}
	}
	require.Positive(t, lost, "a level difference costs something")
	p := answers.CornerResult(c.Stage, more, "prestress", "level", "position")
	require.Len(t, p.Tables[0].Rows, len(more))
}

func TestTolerancesInWords(t *testing.T) {
	c := hung(t, 66e3)
	_, err := answers.Tolerances(c)
	require.ErrorIs(t, err, answers.ErrAnswer)
	require.ErrorContains(t, err, "0 tolerances: must be 1 to 10")
	for _, bad := range []answers.Tolerance{{Name: "w"}, {Name: "w", Least: 1, Most: 2}, {Name: "w", Least: math.NaN(), Most: 1}, {Name: "w", Most: math.Inf(1)}} {
		_, err = answers.Tolerances(c, bad)
		require.ErrorIs(t, err, answers.ErrAnswer)
		require.ErrorContains(t, err, `tolerance "w"`)
	}
	_, err = answers.Tolerances(c, answers.Tolerance{Name: "w", Most: 1})
	require.ErrorIs(t, err, stages.ErrStage) // it sets nothing
	_, err = answers.Tolerances(c, answers.PositionWithin(2, answers.LeftEnd, 5))
	require.ErrorIs(t, err, answers.ErrAnswer)
	c.Stage = 9
	_, err = answers.Tolerances(c, answers.WeightWithin(0, 0.1))
	require.ErrorContains(t, err, "Case.Stage = 9")
}
