package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// The middle of three elastic pads goes at once: the two others carry the weight,
// and the factor times its force once more, by statics.
func TestLossOfSupport(t *testing.T) {
	e := beamOf(t, false)
	three := stages.Elastic(5e7, stages.At(1, 8, 19)...)
	two := []stages.Support{three[0], three[2]}
	analyse := func(actions ...stages.Action) *stages.Analysis {
		a, err := stages.Plan{
			steps{{Name: "on three", Age: 8, Standing: true, Phase: limits.Storing, Supports: three, OutOfLevel: 0.001}},
			steps{{Name: "on two", Age: 9, Standing: true, Phase: limits.Storing, Supports: two, Actions: actions}},
		}.Analyse(e, limits.EN1992{})
		require.NoError(t, err)
		return a
	}
	before, err := analyse().Effects(1, 1)
	require.NoError(t, err)
	force := before.Reactions[1].Static.Most
	require.Greater(t, force, before.Reactions[1].Nominal)
	loss, err := before.Loss(1, 0.7)
	require.NoError(t, err)
	require.Equal(t, stages.Accidental, loss.Kind)
	require.Equal(t, 0.7*force, loss.Loads.Points[0].Force, "downwards, where the pad was pushing up")

	without, err := analyse().Effects(2, 1)
	require.NoError(t, err)
	loss.Least, loss.Most = 1, 1
	with, err := analyse(loss).Effects(2, 1)
	require.NoError(t, err)
	for i, share := range []float64{11. / 18, 7. / 18} {
		require.InDelta(t, 0.7*force*share, with.Reactions[i].Nominal-without.Reactions[i].Nominal, 1e-3)
	}
}

// A hanger of a gantry that breaks gives its force to the others by the stiffness
// of gantry and span; the action doubles that change.
func TestLossOfHanger(t *testing.T) {
	e := beamOf(t, false)
	e.WeightTolerance = loads.PlusMinus(0)
	xs := []float64{2, 7, 11, 14, 18}
	preloads := continuous(t, 20, xs...)
	for i := range preloads {
		preloads[i] *= beamWeight
	}
	all := stages.Hung(gantry(3e9), stages.Elastic(4e7, hangers(preloads, xs...)...)...)
	rest := append(append([]stages.Support{}, all[:2]...), all[3:]...)
	analyse := func(actions ...stages.Action) *stages.Analysis {
		a, err := stages.Plan{
			steps{{Name: "hung", Age: 8, Standing: true, Phase: limits.Storing, Supports: all}},
			steps{{Name: "one lost", Age: 8, Standing: true, Phase: limits.Storing, Supports: rest, Actions: actions}},
		}.Analyse(e, limits.EN1992{})
		require.NoError(t, err)
		return a
	}
	before, err := analyse().Effects(1, 1)
	require.NoError(t, err)
	loss, err := before.Loss(2, 1)
	require.NoError(t, err)
	require.Equal(t, "loss of lift point at x = 11.00 m, y = 0.00 m", loss.Mark)
	loss.Least, loss.Most = 1, 1
	once, err := analyse().Effects(2, 1)
	require.NoError(t, err)
	twice, err := analyse(loss).Effects(2, 1)
	require.NoError(t, err)
	for i, at := range []int{0, 1, 3, 4} {
		change := once.Reactions[i].Nominal - before.Reactions[at].Nominal
		require.Greater(t, math.Abs(change), 500.0)
		require.InDelta(t, 2*change, twice.Reactions[i].Nominal-before.Reactions[at].Nominal, 1, "hanger at %g m", xs[at])
	}
}

// A tie that pulls the element down is lost upwards.
func TestLossOfTie(t *testing.T) {
	e := beamOf(t, false)
	on := stages.Elastic(5e7, stages.At(1, 8, 19)...)
	on[1].Role, on[1].Preload, on[1].Stiffness = stages.Tie, -9e4, 3e6
	a, err := stages.Plan{steps{{Name: "tied", Age: 8, Standing: true, Phase: limits.Storing, Supports: on, OutOfLevel: 1e-4}}}.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	effects, err := a.Effects(1, 1)
	require.NoError(t, err)
	require.Negative(t, effects.Reactions[1].Static.Most)
	loss, err := effects.Loss(1, 1)
	require.NoError(t, err)
	require.Equal(t, effects.Reactions[1].Static.Least, loss.Loads.Points[0].Force)
	require.Equal(t, 8.0, loss.Loads.Points[0].At)
}

func TestLossesThatCannotBe(t *testing.T) {
	e := beamOf(t, false)
	a, err := stages.Plan{steps{{Name: "cantilever", Age: 8, Standing: true, Phase: limits.Storing, Supports: []stages.Support{{X: 3, Fixed: true}}}}}.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	effects, err := a.Effects(1, 1)
	require.NoError(t, err)
	for says, loss := range map[string]func() (stages.Action, error){
		"support -1: must be 0 to 0":  func() (stages.Action, error) { return effects.Loss(-1, 1) },
		"support 1: must be 0 to 0":   func() (stages.Action, error) { return effects.Loss(1, 1) },
		"factor = NaN: must be above": func() (stages.Action, error) { return effects.Loss(0, math.NaN()) },
		"factor = 0: must be above 0": func() (stages.Action, error) { return effects.Loss(0, 0) },
		"must be a support that is n": func() (stages.Action, error) { return effects.Loss(0, 1) },
	} {
		_, err := loss()
		require.ErrorIs(t, err, stages.ErrStage, says)
		require.ErrorContains(t, err, says)
	}
}
