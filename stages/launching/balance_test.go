package launching_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages/launching"
)

// A uniform gantry of length L that cantilevers x beyond its leg has the factor ((L − x)/x)².
func TestSimpleFactorOfAUniformGantry(t *testing.T) {
	for _, x := range []float64{20, 33.4, 35.9, 39.9} {
		list := balances(t, uniform(80), launching.Position{Stands: []launching.Stand{{Leg: "a", X: 5, On: "p"}, {Leg: "b", X: 80 - x, On: "q", Holds: true}}})
		factor, turns := list[0].Simple()
		require.True(t, turns)
		require.InEpsilon(t, math.Pow((80-x)/x, 2), factor, 1e-12)
		require.True(t, list[0].Forward)
	}
}

// Nothing beyond the leg turns nothing.
func TestNothingBeyond(t *testing.T) {
	list := balances(t, uniform(40), launching.Position{Stands: []launching.Stand{{Leg: "a", X: 0, On: "p"}, {Leg: "b", X: 40, On: "q", Holds: true}}})
	for _, b := range list {
		factor, turns := b.Simple()
		require.False(t, turns)
		require.Zero(t, factor)
	}
}

// The moments of any gantry are those of many thin slices.
func TestMomentsAgainstSlices(t *testing.T) {
	random := rand.New(rand.NewPCG(4, 9))
	for range 40 {
		g := gantry()
		p := rolling(1 + 81*random.Float64())
		p.At, p.Roll = -14-20*random.Float64(), 0
		p.Trolleys[0].Hook, p.Dynamic = 2e6*random.Float64(), loads.AtRest()
		for _, b := range balances(t, g, p) {
			var all launching.Moments
			add := func(x, force float64) {
				lever := x - b.X
				if !b.Forward {
					lever = -lever
				}
				all.Beyond += force * math.Max(0, lever)
				all.Inside += force * math.Max(0, -lever)
			}
			const n = 210000 // 52 m is between two slices
			for i := range n {
				at := 84 * (float64(i) + 0.5) / n
				w := 40e3
				if at > 52 {
					w = 40e3 - 12e3*(at-52)/32
				}
				add(p.At+at, w*84/n)
			}
			add(p.At+82, 60e3)
			require.InEpsilon(t, all.Inside, b.Structure.Inside, 1e-6)
			require.InEpsilon(t, all.Beyond+1, b.Structure.Beyond+1, 1e-6)
			all = launching.Moments{}
			add(p.At+p.Trolleys[0].At, 900e3+p.Trolleys[0].Hook)
			require.InDelta(t, all.Beyond, b.Trolleys.Beyond, 1e-6*(1+all.Beyond))
			require.InDelta(t, all.Inside, b.Trolleys.Inside, 1e-6*(1+all.Inside))
			require.InDelta(t, all.Inside*900e3/(900e3+p.Trolleys[0].Hook), b.Locked, 1e-6*(1+all.Inside))
		}
	}
}

// Over a roll the worst balance and the extreme forces are at its ends: a march finds none worse.
func TestExtremesOfARollAreAtItsEnds(t *testing.T) {
	g, p := gantry(), rolling(30)
	least := math.Inf(1)
	for _, b := range balances(t, g, p) {
		if factor, turns := b.Simple(); turns && b.Forward {
			least = math.Min(least, factor)
		}
	}
	whole, err := g.Reactions(p)
	require.NoError(t, err)
	for i := range 161 {
		one := p
		one.At, one.Roll = p.At+p.Roll*float64(i)/160, 0
		for _, b := range balances(t, g, one) {
			if factor, turns := b.Simple(); turns && b.Forward {
				require.GreaterOrEqual(t, factor, least*(1-1e-12))
			}
		}
		at, err := g.Reactions(one)
		require.NoError(t, err)
		for k := range at {
			require.LessOrEqual(t, at[k].Force.Most, whole[k].Force.Most+1e-3)
			require.GreaterOrEqual(t, at[k].Force.Least, whole[k].Force.Least-1e-3)
		}
	}
}

// A counterweight that was weighed is out of place towards the leg, whichever it is.
func TestWeighedCounterweight(t *testing.T) {
	g, p := gantry(), rolling(30)
	p.Roll = 0
	g.Weights[1].OutOfPlace = 1
	before, after := balances(t, gantry(), p), balances(t, g, p)
	require.InDelta(t, before[0].Counter.Inside-420e3, after[0].Weighed.Inside, 1e-3)
	require.Zero(t, after[0].Counter.Inside)
	require.InDelta(t, before[1].Counter.Beyond+420e3, after[1].Weighed.Beyond, 1e-3, "beyond the rear leg it turns the more")
}

// Rising forward, the weight down the gradient turns it back and not forward.
func TestGradientTurnsOneWay(t *testing.T) {
	g, p := gantry(), rolling(30)
	p.Gradient, p.Roll = 0.03, 0
	list := balances(t, g, p)
	require.Zero(t, list[0].Slope)
	require.InEpsilon(t, list[1].Vertical*math.Sin(0.03)*4.5, list[1].Slope, 1e-12)
	p.Gradient = -0.03
	require.Positive(t, balances(t, g, p)[0].Slope)
}
