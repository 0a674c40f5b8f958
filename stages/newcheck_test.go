package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// limited is a limit of a value in Pa with the scale for a limit of zero.
func limited(sense limits.Sense, value, scale float64) limits.Limit {
	return limits.Limit{
		Kind: limits.Compression, Name: "own", LimitState: limits.Serviceability, Sense: sense,
		Line:  formula.Given(formula.Q("lim", value, formula.Pascal, "limit"), formula.Source{Document: "test"}),
		Scale: formula.Q("scale", scale, formula.Pascal, "scale"), Note: "a note",
	}
}

// A demand half a per cent over its limit fails, on its limit it passes, whatever the
// sense, the sign and the size.
func TestNewCheckAHairOnEitherSideOfTheLimit(t *testing.T) {
	for _, size := range []float64{1e-9, 0.04, 1, 30e6, 1e12} {
		for _, c := range []struct {
			sense         limits.Sense
			limit, demand float64 // in size
			state         stages.State
			util          float64
		}{
			{limits.AtMost, 1, 1, stages.Pass, 1},
			{limits.AtMost, 1, 1.005, stages.Fail, 1.005},
			{limits.AtMost, 1, 0.995, stages.Pass, 0.995},
			{limits.AtMost, 1, math.Nextafter(1, 2), stages.Fail, 1},
			{limits.AtMost, 1, math.Nextafter(1, 0), stages.Pass, 1},
			{limits.AtMost, 1, 0, stages.Pass, 0},
			{limits.AtMost, 1, -3, stages.Pass, 0},
			{limits.AtMost, -1, -1.005, stages.Pass, 0},
			{limits.AtMost, -1, -0.995, stages.Fail, 999},
			{limits.AtLeast, 1, 1, stages.Pass, 1},
			{limits.AtLeast, 1, 1.005, stages.Pass, 1 / 1.005},
			{limits.AtLeast, 1, 0.995, stages.Fail, 1 / 0.995},
			{limits.AtLeast, 1, math.Nextafter(1, 2), stages.Pass, 1},
			{limits.AtLeast, 1, math.Nextafter(1, 0), stages.Fail, 1},
			{limits.AtLeast, 1, 0, stages.Fail, 999},
			{limits.AtLeast, 1, -2, stages.Fail, 999},
			{limits.AtLeast, 1, 1e-4, stages.Fail, 999},
		} {
			got := stages.NewCheck(limited(c.sense, c.limit*size, 0), formula.Q("d", c.demand*size, formula.Pascal, "demand"))
			require.Equal(t, c.state, got.State, "%s %g × %g: %g", c.sense, c.limit, size, c.demand)
			margin := (c.limit - c.demand) * size
			if c.sense == limits.AtLeast {
				margin = -margin
			}
			require.InDelta(t, margin, got.Margin, 1e-12*size)
			require.InDelta(t, c.util, got.Utilisation, 1e-12*c.util, "%s %g × %g: %g", c.sense, c.limit, size, c.demand)
			require.Equal(t, limits.Compression, got.Kind)
			require.Equal(t, []string{"own", limits.Serviceability, "a note"}, []string{got.Name, got.LimitState, got.Note})
		}
	}
}

// Where the limit is zero the utilisation is 1 − margin/scale, and a hair over zero
// fails.
func TestNewCheckOfALimitOfZero(t *testing.T) {
	for _, c := range []struct {
		sense  limits.Sense
		demand float64
		state  stages.State
		util   float64
	}{
		{limits.AtMost, 0, stages.Pass, 1},
		{limits.AtMost, 1e-300, stages.Fail, 1},
		{limits.AtMost, 0.6e6, stages.Fail, 1 + 0.6/3},
		{limits.AtMost, -0.6e6, stages.Pass, 1 - 0.6/3},
		{limits.AtMost, -30e6, stages.Pass, 0},
		{limits.AtMost, 30e9, stages.Fail, 999},
		{limits.AtLeast, 0, stages.Pass, 1},
		{limits.AtLeast, -1e-300, stages.Fail, 1},
		{limits.AtLeast, 0.6e6, stages.Pass, 1 - 0.6/3},
		{limits.AtLeast, -0.6e6, stages.Fail, 1 + 0.6/3},
	} {
		got := stages.NewCheck(limited(c.sense, 0, 3e6), formula.Q("d", c.demand, formula.Pascal, "demand"))
		require.Equal(t, c.state, got.State, "%s 0: %g", c.sense, c.demand)
		require.InDelta(t, c.util, got.Utilisation, 1e-12)
	}
	// Without a scale only the state is right: no utilisation, or one without bound.
	require.Zero(t, stages.NewCheck(limited(limits.AtMost, 0, 0), formula.Q("d", -1, formula.Pascal, "demand")).Utilisation)
	require.Equal(t, 999.0, stages.NewCheck(limited(limits.AtMost, 0, 0), formula.Q("d", 1, formula.Pascal, "demand")).Utilisation)
}

// What is no number is not evaluated: never a pass, and no number of it is kept.
func TestNewCheckOfWhatIsNoNumber(t *testing.T) {
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		for i, values := range [][3]float64{{bad, 1, 1}, {1, bad, 1}, {1, 1, bad}, {bad, bad, bad}} {
			for _, sense := range []limits.Sense{limits.AtMost, limits.AtLeast} {
				got := stages.NewCheck(limited(sense, values[1], values[2]), formula.Q("d", values[0], formula.Pascal, "demand"))
				require.Equal(t, stages.NotEvaluated, got.State, "%d %g", i, bad)
				require.Contains(t, got.Note, "is not a finite number")
				for _, v := range []float64{got.Demand.Value, got.Limit.Value, got.Scale.Value, got.Margin, got.Utilisation} {
					require.False(t, math.IsNaN(v) || math.IsInf(v, 0))
				}
			}
		}
	}
}

// owned are checks of a stage's own without lines that show them.
func owned(list ...stages.Check) (own []stages.OwnCheck) {
	for _, c := range list {
		own = append(own, c.Derived())
	}
	return own
}

// A check of a stage's own is taken as it is: a failure of it fails the whole, one that
// is no check is refused, wherever it stands in the list.
func TestOwnChecksCountWhereverTheyStand(t *testing.T) {
	good := stages.NewCheck(limited(limits.AtMost, 2, 0), formula.Q("d", 1, formula.Pascal, "demand"))
	of := func(list ...stages.Check) (stages.Record, error) {
		look := odd{situations: []stages.Situation{{Name: "look", Age: 28, Standing: true, Supports: pads(paired(stages.Pads(0.2, 2.4, 9.6))), Phase: limits.Storing,
			Check: func(stages.Effects, limits.Standard) ([]stages.OwnCheck, error) { return owned(list...), nil }}}}
		return stages.Plan{look}.Run(block(), limits.EN1992{})
	}
	r, err := of(good, good)
	require.NoError(t, err)
	require.Equal(t, stages.Pass, r.Status())
	bad := stages.NewCheck(limited(limits.AtMost, 1, 0), formula.Q("d", 1.005, formula.Pascal, "demand"))
	for _, list := range [][]stages.Check{{bad}, {bad, good}, {good, bad}, {good, bad, good}} {
		r, err := of(list...)
		require.NoError(t, err)
		require.Equal(t, stages.Fail, r.Status())
	}
	for i, spoil := range []func(*stages.Check){
		func(c *stages.Check) { c.State = "" }, func(c *stages.Check) { c.State = "fine" }, func(c *stages.Check) { c.Margin = math.NaN() },
		func(c *stages.Check) { c.Demand.Value = math.Inf(1) }, func(c *stages.Check) { c.Limit.Value = math.Inf(-1) }, func(c *stages.Check) { c.X = math.NaN() },
		func(c *stages.Check) { c.Utilisation = math.Inf(1) }, func(c *stages.Check) { c.Scale.Value = math.NaN() }, func(c *stages.Check) { c.Required.Value = math.NaN() },
	} {
		spoilt := good
		spoil(&spoilt)
		for _, list := range [][]stages.Check{{spoilt}, {spoilt, good}, {good, spoilt}} {
			_, err := of(list...)
			require.ErrorContains(t, err, `check "own"`, "%d", i)
		}
	}
}

// What nobody evaluated governs over what waits for a value to be shown, and only a
// failure governs over it.
func TestWhatIsNotEvaluatedGovernsOverACondition(t *testing.T) {
	states := []stages.State{stages.Pass, stages.Conditional, stages.NotEvaluated, stages.Fail}
	for worse, s := range states {
		for _, better := range states[:worse] {
			for _, checks := range [][]stages.Check{{{State: s}, {State: better, Utilisation: 0.9}}, {{State: better, Utilisation: 0.9}, {State: s}}} {
				record := stages.Record{Stages: []stages.StageRecord{{Situations: []stages.SituationRecord{{Checks: checks}}}}}
				list, worst := record.Governing()
				require.Equal(t, s, list[worst].State)
			}
		}
	}
}
