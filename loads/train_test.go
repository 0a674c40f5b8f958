package loads_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
)

func ExampleTrain_On() {
	lorry := loads.Train{Name: "lorry", Axles: []loads.Axle{{Force: 35e3}, {Force: 145e3, Behind: 4.3}, {Force: 145e3, Behind: 4.3}}}
	for _, p := range lorry.On(20, 6).Points {
		fmt.Printf("%.0f kN at %.1f m\n", p.Force/1e3, p.At)
	}
	// Output:
	// 35 kN at 6.0 m
	// 145 kN at 1.7 m
}

func TestTurnedTrain(t *testing.T) {
	train := loads.Train{Axles: []loads.Axle{{Force: 1}, {Force: 2, Behind: 3}, {Force: 4, Behind: 5}}, Dynamic: 1.2}
	require.Equal(t, []loads.Axle{{Force: 4}, {Force: 2, Behind: 5}, {Force: 1, Behind: 3}}, train.Turned().Axles)
	require.Equal(t, train, train.Turned().Turned())
	require.InDelta(t, 8, train.Length(), 0)
	require.InDelta(t, 7, train.Weight(), 0)
	require.InDelta(t, 7*1.2, train.On(8, 8).Total(), 1e-14)
	require.Empty(t, train.On(8, -1).Points)
	require.InDelta(t, 1, loads.Train{}.Factor(), 0)
}

func TestTrainsThatCannotRoll(t *testing.T) {
	for says, train := range map[string]loads.Train{
		"has no axles":                  {},
		"Axles[0].Force = 0 N":          {Axles: []loads.Axle{{}}},
		"Axles[0].Behind = 1 m":         {Axles: []loads.Axle{{Force: 1, Behind: 1}}},
		"Axles[1].Behind = -2 m":        {Axles: []loads.Axle{{Force: 1}, {Force: 1, Behind: -2}}},
		"Axles[1].Behind = 0 m":         {Axles: []loads.Axle{{Force: 1}, {Force: 1}}},
		"Axles[1].Behind = NaN m":       {Axles: []loads.Axle{{Force: 1}, {Force: 1, Behind: math.NaN()}}},
		"Axles[1].Behind = +Inf m":      {Axles: []loads.Axle{{Force: 1}, {Force: 1, Behind: math.Inf(1)}}},
		"Axles[1].Force = NaN N":        {Axles: []loads.Axle{{Force: 1}, {Force: math.NaN(), Behind: 1}}},
		"Dynamic = -1: must be a facto": {Axles: []loads.Axle{{Force: 1}}, Dynamic: -1},
	} {
		err := train.Rolls()
		require.ErrorIs(t, err, loads.ErrLoad)
		require.ErrorContains(t, err, says)
	}
	long := loads.Train{Name: "endless", Axles: []loads.Axle{{Force: 1e3}}}
	for range 999 {
		long.Axles = append(long.Axles, loads.Axle{Force: 1e3, Behind: 1})
	}
	require.NoError(t, long.Check())
	long.Axles = append(long.Axles, loads.Axle{Force: 1e3, Behind: 1})
	require.ErrorIs(t, long.Check(), loads.ErrLoad)
	require.ErrorContains(t, long.Check(), `train "endless" has 1001 axles: must have up to 1000`)
	require.NoError(t, loads.Train{Axles: []loads.Axle{{Force: 1}}}.Rolls())
	for factor, open := range map[float64]bool{0.01: true, 0.0099: false, 10: true, 10.01: false, 115: false} {
		require.Equal(t, open, loads.Train{Axles: []loads.Axle{{Force: 1e3}}, Dynamic: factor}.Check() == nil, "%g", factor)
	}
}

// An axle in kN weighs a thousandth, one in mm behind the other never stands on the
// girder with it: both would make a girder safe that is not.
func TestAxlesInAnotherUnit(t *testing.T) {
	for says, axle := range map[string]loads.Axle{
		"Axles[1].Force = 250 N: must be 1000 to 100e6 N; is it in kN?": {Force: 250, Behind: 1.5},
		"Axles[1].Force = 1e+09 N: must be 1000 to 100e6 N":             {Force: 1e9, Behind: 1.5},
		"Axles[1].Behind = 1500 m: must be 0.1 to 1000 m; is it in mm?": {Force: 250e3, Behind: 1500},
		"Axles[1].Behind = 0.01 m: must be 0.1 to 1000 m":               {Force: 250e3, Behind: 0.01},
	} {
		train := loads.Train{Name: "carrier", Axles: []loads.Axle{{Force: 250e3}, axle}}
		require.NoError(t, train.Rolls())
		require.ErrorIs(t, train.Check(), loads.ErrLoad)
		require.ErrorContains(t, train.Check(), says)
	}
}
