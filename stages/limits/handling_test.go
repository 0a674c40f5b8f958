package limits_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/limits"
)

// Rules of practice have their source, values that are stated are those of the input,
// and what EN 1992 asks about is left to it.
func TestHandling(t *testing.T) {
	for _, c := range []struct {
		q      limits.Question
		rules  limits.Handling
		value  float64
		sense  limits.Sense
		source string
	}{
		{limits.Question{Kind: limits.RollCracking}, limits.Handling{}, 1, limits.AtLeast, "Mast"},
		{limits.Question{Kind: limits.RollCracking}, limits.Handling{RollCracking: 1.2}, 1.2, limits.AtLeast, "input"},
		{limits.Question{Kind: limits.RollOverturning}, limits.Handling{}, 1.5, limits.AtLeast, "Mast"},
		{limits.Question{Kind: limits.CraneUse, Cranes: 1}, limits.Handling{}, 1, limits.AtMost, "chart"},
		{limits.Question{Kind: limits.CraneUse, Cranes: 2}, limits.Handling{}, 0.75, limits.AtMost, "BS 7121"},
		{limits.Question{Kind: limits.CraneUse, Cranes: 2}, limits.Handling{TwoCranes: 0.8}, 0.8, limits.AtMost, "input"},
		{limits.Question{Kind: limits.CraneUse, Cranes: 3}, limits.Handling{}, 0.75, limits.AtMost, "Queensland"},
		{limits.Question{Kind: limits.CraneUse, Cranes: 4}, limits.Handling{}, 2. / 3, limits.AtMost, "Queensland"},
	} {
		list, err := limits.All(limits.EN1992{}, c.rules).Limits(c.q)
		require.NoError(t, err)
		require.Len(t, list, 1, "%+v", c.q)
		require.InDelta(t, c.value, list[0].Line.Result.Value, 1e-12)
		require.Equal(t, c.sense, list[0].Sense)
		require.Contains(t, list[0].Source.Document, c.source)
		require.Equal(t, c.q.Kind, list[0].Kind)
	}
	for _, kind := range []limits.Kind{limits.Compression, limits.Uplift, limits.Roll, limits.SetDown} {
		list, err := limits.Handling{}.Limits(limits.Question{Kind: kind})
		require.NoError(t, err)
		require.Empty(t, list)
	}
}

// A value that no rule can have is refused, whatever is asked.
func TestHandlingOutOfRange(t *testing.T) {
	for field, rules := range map[string]limits.Handling{
		"RollCracking": {RollCracking: 0.9}, "RollOverturning": {RollOverturning: -1}, "OneCrane": {OneCrane: 1.1},
		"TwoCranes": {TwoCranes: 75}, "ThreeCranes": {ThreeCranes: 0.05}, "MoreCranes": {MoreCranes: -0.5},
	} {
		_, err := rules.Limits(limits.Question{Kind: limits.Compression})
		require.ErrorIs(t, err, limits.ErrLimits)
		require.ErrorContains(t, err, field)
		require.ErrorContains(t, err, "must be")
	}
	_, err := limits.Handling{}.Limits(limits.Question{Kind: limits.CraneUse, Cranes: -1})
	require.ErrorContains(t, err, "must be 0 to 100")
}
