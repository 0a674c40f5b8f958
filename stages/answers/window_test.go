package answers_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/answers"
)

// at puts the supports of stage 2 at these distances from the ends.
func ends(t testing.TB, c stages.Case, left, right float64) float64 {
	t.Helper()
	c.Plan = append(stages.Plan{}, c.Plan...)
	c.Plan[1] = yard{age: 7, on: pads(dunnage(left, 12-right))}
	_, reserve, err := c.Worst()
	require.NoError(t, err)
	return reserve
}

func TestLiftWindowIsThatOfTheTheoryOfBeams(t *testing.T) {
	c := stressed(t, 0.3, 500e6)
	a, err := answers.LiftWindow(c, answers.Moved{})
	require.NoError(t, err)
	require.Len(t, a.Intervals, 1)
	least, most := window(0.3, 500e6)
	require.InDelta(t, least, a.Intervals[0].From.Value, 1e-5*least)
	require.InDelta(t, most, a.Intervals[0].To.Value, 1e-5*most)
	require.Equal(t, "supports from both ends", a.Asked)
	require.Zero(t, a.Low)
	require.InDelta(t, 5.88, a.High, 1e-9)
	proved(t, c, moved(yard{age: 7}), a)
}

// A tolerance narrows the window: at its ends one corner of the tolerances has no reserve
// left and the others have some.
func TestToleranceNarrowsTheWindow(t *testing.T) {
	c := stressed(t, 0.3, 500e6)
	free, err := answers.LiftWindow(c, answers.Moved{Low: 0.2, High: 4})
	require.NoError(t, err)
	const off = 0.05
	a, err := answers.LiftWindow(c, answers.Moved{Low: 0.2, High: 4, Tolerance: off})
	require.NoError(t, err)
	require.Len(t, a.Intervals, 1)
	for k, e := range []answers.End{a.Intervals[0].From, a.Intervals[0].To} {
		worst := 1.0
		for _, l := range []float64{-off, 0, off} {
			for _, r := range []float64{-off, 0, off} {
				worst = min(worst, ends(t, c, e.Value+l, e.Value+r))
			}
		}
		require.InDelta(t, 0, worst, 1e-6)
		require.GreaterOrEqual(t, worst, 0.0)
		outer := []answers.End{free.Intervals[0].From, free.Intervals[0].To}[k]
		require.InDelta(t, off, []float64{1, -1}[k]*(e.Value-outer.Value), 0.2*off) // both ends off in the same sense, nearly
	}
	require.Contains(t, a.Notes[0], "each end may be off by 0.05 m")
}

// One end is moved alone; what is moved from the right is the mirror of what is moved from the left.
func TestOneEndAlone(t *testing.T) {
	c := stressed(t, 0.3, 500e6)
	c.Plan[1] = yard{age: 7, on: pads(dunnage(1.5, 10.6))}
	left, err := answers.LiftWindow(c, answers.Moved{Ends: answers.LeftEnd, High: 4})
	require.NoError(t, err)
	e := left.Intervals[0]
	require.InDelta(t, 0, ends(t, c, e.From.Value, 1.4), 1e-6)
	require.InDelta(t, 0, ends(t, c, e.To.Value, 1.4), 1e-6)
	require.Contains(t, left.Sentence(), "supports, from the left end: a from")
	c.Plan[1] = yard{age: 7, on: pads(dunnage(1.4, 10.5))}
	right, err := answers.LiftWindow(c, answers.Moved{Ends: answers.RightEnd, High: 4})
	require.NoError(t, err)
	require.InDelta(t, e.From.Value, right.Intervals[0].From.Value, 1e-5)
	require.InDelta(t, e.To.Value, right.Intervals[0].To.Value, 1e-5)

	both, err := answers.LiftWindow(c, answers.Moved{High: 4})
	require.NoError(t, err)
	require.Contains(t, both.Asked, "on the right 0.100 m more")
	require.InDelta(t, 0, ends(t, c, both.Intervals[0].To.Value, both.Intervals[0].To.Value+0.1), 1e-6)
}

// Lift points of a stage of the library.
func TestLiftWindowOfALift(t *testing.T) {
	c := handled(t)
	a, err := answers.LiftWindow(c, answers.Moved{Tolerance: 0.02})
	require.NoError(t, err)
	require.Equal(t, "lift points from both ends", a.Asked)
	require.Less(t, a.Intervals[0].From.Value, 2.42)
	require.Greater(t, a.Intervals[0].To.Value, 2.7)
	input := stages.Input{Symbol: "a", Unit: formula.Metre, Set: func(_ *stages.Girder, p *stages.Plan, v float64) error {
		l := (*p)[1].(stages.Lift)
		l.On = loops(v-0.02, 12-v+0.02)
		(*p)[1] = l
		return nil
	}}
	with, err := c.With(input, a.Intervals[0].From.Value)
	require.NoError(t, err)
	_, reserve, err := with.Worst()
	require.NoError(t, err)
	require.InDelta(t, 0, reserve, 1e-6)
}

func TestLiftWindowInWords(t *testing.T) {
	c := stressed(t, 0.3, 500e6)
	for _, w := range []struct {
		m    answers.Moved
		says string
	}{
		{answers.Moved{Tolerance: -1}, "Moved.Tolerance = -1 m: must be 0 to 1 m"}, {answers.Moved{Tolerance: 50}, "is it in mm?"},
		{answers.Moved{Ends: "top"}, "must be BothEnds, LeftEnd or RightEnd"}, {answers.Moved{Low: 3, High: 1}, "from the smaller to the larger"},
	} {
		_, err := answers.LiftWindow(c, w.m)
		require.ErrorIs(t, err, answers.ErrAnswer)
		require.ErrorContains(t, err, w.says)
	}
	c.Plan[1] = stages.Stress{Age: 7, Release: []string{"T"}}
	_, err := answers.LiftWindow(c, answers.Moved{})
	require.ErrorIs(t, err, answers.ErrAnswer)
	require.ErrorContains(t, err, "must state its own to move them")
	c.Plan[1] = yard{age: 7, on: []stages.Support{{X: 6, Fixed: true, Role: stages.Pad}}}
	_, err = answers.LiftWindow(c, answers.Moved{})
	require.ErrorIs(t, err, answers.ErrAnswer)
}
