package redistribution_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam/redistribution"
	"github.com/tempstage/tempstage/loads/tendon"
)

// Whether the monolithic effect is larger or smaller than that before, the least is the
// least: less creep leaves more of the old, more creep takes more of the new.
func TestBoundsOfAShare(t *testing.T) {
	s := redistribution.Share{Value: 0.5, Low: 0.4, High: 0.6}
	for _, c := range []struct{ before, monolithic, of, least, most float64 }{
		{100, 200, 150, 140, 160}, {200, 100, 150, 140, 160}, {-100, 100, 0, -20, 20}, {100, -100, 0, -20, 20}, {70, 70, 70, 70, 70},
	} {
		require.InDelta(t, c.of, s.Of(c.before, c.monolithic), 1e-12)
		least, most := s.Bounds(c.before, c.monolithic)
		require.InDelta(t, c.least, least, 1e-12, "%+v", c)
		require.InDelta(t, c.most, most, 1e-12, "%+v", c)
	}
	for _, share := range []func() (redistribution.Share, error){func() (redistribution.Share, error) { return soon.Aged(true) }, func() (redistribution.Share, error) { return soon.Stepwise(40) }} {
		s, err := share()
		require.NoError(t, err)
		require.Less(t, s.Low, s.Value)
		require.Less(t, s.Value, s.High)
	}
}

// The ageing form by hand, with 30 % less and more creep.
func TestBandOfTheAgeingForm(t *testing.T) {
	s, err := soon.Aged(false)
	require.NoError(t, err)
	phi := func(age, loaded float64) float64 {
		v, err := deck.Creep(age, loaded)
		require.NoError(t, err)
		return v
	}
	above, below := phi(20000, 28)-phi(90, 28), phi(20000, 90)
	for factor, got := range map[float64]float64{0.7: s.Low, 1: s.Value, 1.3: s.High} {
		require.InEpsilon(t, factor*above/(1+0.8*factor*below), got, 1e-12, "%g", factor)
	}
}

// A straight tendon that falls by 1 in 2 acts with the part of its force along the beam,
// 2/√5: without friction 2/√5·P at the level where it is.
func TestPrimaryMomentOfASteepTendon(t *testing.T) {
	tn := tendon.Tendon{Mark: "S", Strand: tendon.Y1860S7x157, NoFriction: true, Strands: 12, Duct: 0.09, Elevation: tendon.Curve{tendon.Straight(tendon.Point{Ordinate: 4}, tendon.Point{X: 10, Ordinate: -1})}, Plan: tendon.Level(0, 10, 0)}
	f, err := tn.Jack(tendon.Jacking{Tendons: []string{"S"}, Stress: 1400e6, Ends: tendon.LeftEnd})
	require.NoError(t, err)
	primary := redistribution.OfTendons([]*tendon.Force{f, f}, func(x float64) float64 { return 1 + 0.1*x })
	for _, x := range []float64{0, 2, 7, 10} {
		require.InEpsilon(t, 2*1400e6*1800e-6*2/math.Sqrt(5)*(4-x/2-1-0.1*x)+1, primary.Moment(x)+1, 1e-9, "x = %g m", x)
	}
	require.Zero(t, primary.Moment(10.01))
}
