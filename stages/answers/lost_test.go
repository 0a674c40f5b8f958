package answers_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/answers"
	"github.com/tempstage/tempstage/stages/limits"
)

// threeLinked is the block on two pads at the left and three linked ones at the right, with a rated
// load of the first and the last.
func threeLinked(t testing.TB, rated float64) stages.Case {
	c := handled(t)
	c.Standard = limits.EN1992{}
	right := stages.Equalised("right", stages.Support{X: 9.6, Y: -0.2}, stages.Support{X: 9.6}, stages.Support{X: 9.6, Y: 0.2})
	c.Plan = stages.Plan{rate{stages.Store{Age: 7, On: append(stages.Pads(0.2, 2.4), right...)}, rated}}
	c.Stage = 1
	return c
}

// Of 120 kN each end has 60. Without the middle pad of three the others have 30 kN each; lost suddenly
// its 20 kN press back (f − 1) times more: 30 + 10·(f − 1) kN.
func TestOneSupportLostByStatics(t *testing.T) {
	for _, c := range []struct {
		factor, reserve float64
		survived        bool
	}{{1.5, 1 - 35./36, true}, {2, 36./40 - 1, false}} {
		list, err := answers.OneLost(threeLinked(t, 36e3), c.factor)
		require.NoError(t, err)
		require.Len(t, list, 10)
		middle := list[6:8]
		require.Equal(t, "pad 4, x = 9.600 m, y = 0.000 m", middle[0].What)
		require.Zero(t, middle[0].Suddenly)
		require.True(t, middle[0].Survived)
		require.Equal(t, c.factor, middle[1].Suddenly)
		require.Equal(t, c.survived, middle[1].Survived)
		require.InDelta(t, c.reserve, middle[1].Reserve, 1e-6)
		require.Equal(t, "rated load", middle[1].Check.Name)
		for _, l := range list[:4] { // of the two at the left
			require.False(t, l.Survived, l.What)
		}
		p := answers.LossResult(1, list)
		require.Len(t, p.Tables[0].Rows, 10)
	}
}

// A tendon that is lost: as one that was never stressed.
func TestOneTendonLost(t *testing.T) {
	c := stressed(t, 0.3, 500e6)
	c.Plan[1] = yard{age: 7, on: pads(dunnage(1.5, 10.5))}
	_, reserve, err := c.Worst()
	require.NoError(t, err)
	require.Positive(t, reserve)
	list, err := answers.OneLost(c, 1)
	require.NoError(t, err)
	lost := list[len(list)-1]
	require.Equal(t, "tendon T", lost.What)
	require.NoError(t, lost.Refused)
	require.False(t, lost.Survived)
	require.Negative(t, lost.Reserve)
}

// A statically determinate stage survives no loss of a support.
func TestADeterminateStageSurvivesNoLoss(t *testing.T) {
	c := handled(t)
	list, err := answers.OneLost(c, 1)
	require.NoError(t, err)
	require.Len(t, list, 2)
	require.Contains(t, answers.LossResult(2, list).Tables[0].RowNames[0], "not stable, or refused")
	for _, l := range list {
		require.Error(t, l.Refused)
		require.False(t, l.Survived)
		require.EqualValues(t, -1, l.Reserve)
	}
}

func TestOneLostInWords(t *testing.T) {
	c := handled(t)
	for _, factor := range []float64{0, 0.9, 2.1} {
		_, err := answers.OneLost(c, factor)
		require.ErrorIs(t, err, answers.ErrAnswer)
		require.ErrorContains(t, err, "must be 1 to 2")
	}
	c = stressed(t, 0.3, 500e6)
	c.Plan[1] = stages.Stress{Age: 7, Release: []string{"T"}}
	_, err := answers.OneLost(c, 1)
	require.ErrorContains(t, err, "must state its own to lose one")
}
