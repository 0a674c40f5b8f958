package tendon_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/concrete"
)

// A straight tendon of 40 m pulled at both ends stretches by σ0/Ep·(1 − e^(−μk·20))/(μk)
// towards each, each jack also pulls its own tail, and each anchor draws in once.
func TestExtensionWithTwoJacks(t *testing.T) {
	const fall, ep = 0.2 * 0.01, 195e9
	tn := straight(40, 0.2, 0.01)
	half := 1400e6 / ep * (1 - math.Exp(-fall*20)) / fall
	for from, read := range map[float64]float64{0: 1, 350e6: 0.75} {
		e, err := jack(t, tn, tendon.BothEnds, 0.006).Elongation(tendon.Measuring{From: from, Tail: 0.8, Tolerance: 0.05})
		require.NoError(t, err)
		one := read * (half + 0.8*1400e6/ep)
		require.InEpsilon(t, one, e.Left, 1e-9)
		require.InEpsilon(t, one, e.Right, 1e-9)
		require.InEpsilon(t, 2*one, e.Total, 1e-9)
		require.InEpsilon(t, 2*read*half-2*0.006, e.Kept, 1e-9)
		require.InDelta(t, 0.95*2*one, e.Least, 1e-9)
		require.InDelta(t, 1.05*2*one, e.Most, 1e-9)
	}
	// From one end it is the whole length towards that one.
	e, err := jack(t, tn, tendon.RightEnd, 0.006).Elongation(tendon.Measuring{Tail: 0.8, Tolerance: 0.05})
	require.NoError(t, err)
	whole := 1400e6 / ep * (1 - math.Exp(-fall*40)) / fall
	require.Zero(t, e.Left)
	require.InEpsilon(t, whole+0.8*1400e6/ep, e.Right, 1e-9)
	require.InEpsilon(t, whole-0.006, e.Kept, 1e-9)
}

// Above 0.45·fck(t0) the concrete creeps by exp(1.5(kσ − 0.45)) more: at 0.55 by e^0.15,
// in (5.46), in its line and step by step.
func TestLossUnderNonlinearCreep(t *testing.T) {
	s := mid
	model := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Exposure: concrete.Exposure{Humidity: 0.7, NotionalSize: 0.3, DryingFrom: 1}}
	s.Concrete, s.From, s.To = model, 7, 3650
	state, err := model.At(7)
	require.NoError(t, err)
	phi, err := model.Creep(3650, 7)
	require.NoError(t, err)
	old, err := model.At(28)
	require.NoError(t, err)
	creep := func(ratio float64) (simple, steps float64) {
		s.Stress = ratio * state.Characteristic
		a, err := s.Simplified()
		require.NoError(t, err)
		b, err := s.Stepwise(20)
		require.NoError(t, err)
		lines, err := s.Lines()
		require.NoError(t, err)
		require.InEpsilon(t, a.Total(), lines[0].Result.Value, 1e-12)
		return a.Creep, b.Creep
	}
	n := 195e9 / old.Modulus
	stiffening := 6000e-6 * (1/1.05 + 0.6*0.6/0.36)
	byHand := func(ratio, phi float64) float64 {
		return n * phi * ratio * state.Characteristic / (1 + n*stiffening*(1+0.8*phi))
	}
	linear, linearSteps := creep(0.45)
	require.InEpsilon(t, byHand(0.45, phi), linear, 1e-9)
	more, moreSteps := creep(0.55)
	require.InEpsilon(t, byHand(0.55, phi*math.Exp(0.15)), more, 1e-9)
	require.InEpsilon(t, 0.55/0.45*math.Exp(0.15), moreSteps/linearSteps, 1e-9)
}
