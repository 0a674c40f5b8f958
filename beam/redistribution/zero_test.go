package redistribution_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam/redistribution"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
)

// What nobody made has no moments.
func TestZeroValuesHaveNoMoments(t *testing.T) {
	for _, r := range []*redistribution.Restraint{nil, {}} {
		require.Zero(t, r.Secondary(3)+r.Total(3))
	}
	for _, m := range []*redistribution.Moved{nil, {}} {
		require.Zero(t, m.Moment(3)+m.Restraint(3))
	}
	primary := redistribution.OfTendons([]*tendon.Force{nil, {}}, func(float64) float64 { return 1 }, 4)
	require.Equal(t, []float64{4}, primary.Breaks)
	require.Zero(t, primary.Moment(3))
	_, err := redistribution.Restrain(fixed(), redistribution.OfTendons(nil, nil))
	require.ErrorIs(t, err, redistribution.ErrRedistribution)
	require.ErrorContains(t, err, "Primary.Moment is missing")
}

// A model that is a nil pointer is none.
func TestNoModelIsSaid(t *testing.T) {
	left, right := arms(t)
	for _, none := range []concrete.TimeModel{nil, (*concrete.EN1992)(nil), (*concrete.AASHTO)(nil)} {
		c := soon
		c.Concrete = none
		_, err := c.Aged(true)
		require.ErrorContains(t, err, "Change.Concrete is missing")
		_, err = c.Stepwise(5)
		require.ErrorIs(t, err, redistribution.ErrRedistribution)
		_, err = redistribution.Staged{Final: fixed(), Loaded: 128, Changed: 190, Until: 20100, Parts: []redistribution.Part{{Concrete: none, Cast: 100, Inertia: 3}},
			Before: []redistribution.Body{{Response: left}, {From: 60, Response: right}}}.March(5)
		require.ErrorContains(t, err, "Parts[0].Concrete is missing")
	}
}
