package tendon_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
)

// Without wobble the force of a harped tendon is constant between kinks: 1 in 10 down,
// level, 1 in 10 up, each kink takes exp(−μ·arctan 0.1).
func TestForceOnEitherSideOfAKink(t *testing.T) {
	tn := harped(0.2, 0, tendon.Point{Ordinate: 1.2}, tendon.Point{X: 10, Ordinate: 0.2}, tendon.Point{X: 20, Ordinate: 0.2}, tendon.Point{X: 30, Ordinate: 1.2})
	f := jack(t, tn, tendon.LeftEnd, 0)
	jacked, left := 1400e6*tn.Area(), math.Exp(-0.2*math.Atan(0.1))
	for _, c := range [][3]float64{{0, 0, 1}, {5, 1, 1}, {10, 1, left}, {15, left, left}, {20, left, left * left}, {30, left * left, 0}, {31, 0, 0}, {-1, 0, 0}} {
		before, after := f.Beside(c[0])
		require.InDelta(t, c[1]*jacked, before, 1e-6*jacked, "left of %g m", c[0])
		require.InDelta(t, c[2]*jacked, after, 1e-6*jacked, "right of %g m", c[0])
	}
	slope := math.Sqrt(1.01)
	length := 10*slope + 10 + 10*slope
	require.InEpsilon(t, jacked*(10*slope+10*left+10*slope*left*left)/length, f.Mean(), 1e-9)
	x, ok := f.NullPoint()
	require.True(t, ok)
	require.Equal(t, 30.0, x)
}

// The same force stated by its designer has the same sides and the same mean, but no
// null point.
func TestPlacesOfAGivenForce(t *testing.T) {
	f, err := draped().Jack(stated(tendon.Stated{X: 0, Value: 1.5e6}, tendon.Stated{X: 17, Value: 1.5e6}, tendon.Stated{X: 17, Value: 1.1e6}, tendon.Stated{X: 34, Value: 1.1e6}))
	require.NoError(t, err)
	before, after := f.Beside(17)
	require.Equal(t, [2]float64{1.5e6, 1.1e6}, [2]float64{before, after})
	require.InEpsilon(t, 1.3e6, f.Mean(), 1e-9, "the two halves are as long")
	_, ok := f.NullPoint()
	require.False(t, ok)
}

// A straight tendon jacked at both ends parts in its middle; its mean force after no
// draw-in is P(1 − e^(−μkL/2))/(μkL/2).
func TestMeanAndNullPointOfAStraightTendon(t *testing.T) {
	tn := straight(40, 0.2, 0.01)
	f := jack(t, tn, tendon.BothEnds, 0)
	x, ok := f.NullPoint()
	require.True(t, ok)
	require.InDelta(t, 20, x, 1e-6)
	fall := 0.2 * 0.01 * 20
	require.InEpsilon(t, 1400e6*tn.Area()*(1-math.Exp(-fall))/fall, f.Mean(), 1e-9)
	require.Less(t, jack(t, tn, tendon.BothEnds, 0.006).Mean(), f.Mean())
	require.Zero(t, (*tendon.Force)(nil).Mean())
}

// A force does not rest on the approval of the post-tensioning system, which need not be invented; a
// tendon that is built does, and half an approval is none.
func TestFrictionWithoutAnApproval(t *testing.T) {
	with := draped()
	without := with
	without.Approval = tendon.Approval{}
	j := step("D", 1400e6, tendon.BothEnds, 0.006)
	a, err := with.Jack(j)
	require.NoError(t, err)
	b, err := without.Jack(j)
	require.NoError(t, err)
	for x := 0.0; x <= 34; x++ {
		require.Equal(t, a.At(x), b.At(x))
	}
	require.ErrorContains(t, without.Check(), "Approval.MeanStrength = 0 Pa")
	_, err = without.Path()
	require.ErrorContains(t, err, "Approval.MeanStrength")
	without.Approval.EdgeDistance = 0.2
	_, err = without.Jack(j)
	require.ErrorContains(t, err, "Approval.MeanStrength")
}

// Left of a kink behind a bend the bend is gone through and the kink is not: a parabola
// that turns by arctan 0.2, then a kink back to level.
func TestForceLeftOfAKinkBehindABend(t *testing.T) {
	tn := straight(20, 0.2, 0)
	low := tendon.Point{X: 10, Ordinate: 1}
	tn.Harped, tn.Elevation = true, tendon.Curve{tendon.Parabola(tendon.Point{}, 0, low), tendon.Straight(low, tendon.Point{X: 20, Ordinate: 1})}
	before, after := jack(t, tn, tendon.LeftEnd, 0).Beside(10)
	jacked, turn := 1400e6*tn.Area(), math.Atan(0.2)
	require.InEpsilon(t, jacked*math.Exp(-0.2*turn), before, 1e-12)
	require.InEpsilon(t, jacked*math.Exp(-0.4*turn), after, 1e-12)
}
