package launching_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

// A ride that cannot be as described.
func TestBadRide(t *testing.T) {
	for words, change := range map[string]func(*launching.Ride){
		"age = -1 d: must be above 0":                                    func(r *launching.Ride) { r.Age = -1 },
		"train \"girder carrier\" has no axles: must have at least":      func(r *launching.Ride) { r.Carrier.Train.Axles = nil },
		"Axles[0].Force = -430000 N: must be":                            func(r *launching.Ride) { r.Carrier.Train.Axles[0].Force = -430e3 },
		"Axles[1].Behind = 0 m: must be":                                 func(r *launching.Ride) { r.Carrier.Train.Axles[1].Behind = 0 },
		"Dynamic = 11: must be a factor of 0.01 to 10":                   func(r *launching.Ride) { r.Carrier.Train.Dynamic = 11 },
		"field Mark is empty: must be a name":                            func(r *launching.Ride) { r.Carrier.Mark = "" },
		"field Ride.Carrier.Wheel = 0 N: must be 1000 to 5e6 N":          func(r *launching.Ride) { r.Carrier.Wheel = 0 },
		"field Ride.Carrier.Brakes = 0: must be 1 to 50":                 func(r *launching.Ride) { r.Carrier.Brakes = 0 },
		"field Ride.Carrier.Brake = 60 N: must be 1000 to 5e6 N":         func(r *launching.Ride) { r.Carrier.Brake = 60 },
		"field Ride.Carrier.Drag = 0.3: must be 0 to 0.2":                func(r *launching.Ride) { r.Carrier.Drag = 0.3 },
		"field Ride.Carrier.Runaway = 0.06: must be 0 to 0.05":           func(r *launching.Ride) { r.Carrier.Runaway = 0.06 },
		"field Ride.Off = -0.3 m: must be 0 to 5 m":                      func(r *launching.Ride) { r.Off = -0.3 },
		"field Ride.Off: at x = 17 m, y = 4.9 m there is no deck of":     func(r *launching.Ride) { r.Off = 4.9 },
		"field Ride.Gradient = 0.2 rad: must be 0 to 0.1 rad":            func(r *launching.Ride) { r.Gradient = 0.2 },
		"field Ride.HoldBack = 0.9: must be 1 to 5":                      func(r *launching.Ride) { r.HoldBack = 0.9 },
		"field Ride.Earliest = -1 d: must be 0 to 0.365e6 d":             func(r *launching.Ride) { r.Earliest = -1 },
		"field Ride.Mortar.Strength = 2e+08 Pa: must be 1e6 to 100e6 Pa": func(r *launching.Ride) { r.Mortar = &launching.Mortar{Strength: 200e6, Area: 0.3} },
		"field Ride.Line.Before = 300 m: must be 0 to 200 m":             func(r *launching.Ride) { r.Line.Before = 300 },
		"field Ride.Line.Before = 1 m: must be more than twice":          func(r *launching.Ride) { r.Line.Before = 1 },
		"field Ride.Line.After = 1.4 m: must be more than twice":         func(r *launching.Ride) { r.Line.After = 1.4 },
		"field Ride.Line.Bearings = 0 m: must be 0.1 to 10 m":            func(r *launching.Ride) { r.Line.Bearings = 0 },
		"must be at most 102.0 m, the spans that carry it":               func(r *launching.Ride) { r.Carrier.Train.Axles[1].Behind = 103 },
	} {
		t.Run(words, func(t *testing.T) {
			r := short()
			change(&r)
			_, err := standing(t, r)
			refused(t, err, words)
		})
	}
	r := short()
	for _, length := range []float64{math.NaN(), -1, 0, 1.4} {
		_, _, err := r.Piers(length)
		refused(t, err, "length = ", "must be more than twice Line.Bearings")
	}
}

// Water that cannot stand in a void.
func TestBadWater(t *testing.T) {
	for words, of := range map[string][5]float64{
		"field depth = 6 m: must be 0.001 to 5 m":       {6, 3, 1.4, 32.6, 0.3},
		"field width = 0 m: must be 0.1 to 30 m":        {0.1, 0, 1.4, 32.6, 0.3},
		"field from = -1 m: must be 0 to 1000 m":        {0.1, 3, -1, 32.6, 0.3},
		"field to = 1.4 m: must be 1.5 to 1000 m":       {0.1, 3, 1.4, 1.4, 0.3},
		"field z = NaN m: must be -50 to 50 m":          {0.1, 3, 1.4, 32.6, math.NaN()},
		"field depth = NaN m: must be 0.001 to 5 m":     {math.NaN(), 3, 1.4, 32.6, 0.3},
		"field to = +Inf m: must be 1.5 to 1000 m":      {0.1, 3, 1.4, math.Inf(1), 0.3},
		"field from = NaN m: must be 0 to 1000 m":       {0.1, 3, math.NaN(), 32.6, 0.3},
		"field width = 300 m: must be 0.1 to 30 m; is ": {0.1, 300, 1.4, 32.6, 0.3},
	} {
		_, err := launching.WaterInVoid(of[0], of[1], of[2], of[3], of[4])
		require.ErrorIs(t, err, launching.ErrLaunching, words)
		require.ErrorContains(t, err, words)
	}
}

// The minimum age is asked of ages, a step and a stage that there are.
func TestBadEarliestAge(t *testing.T) {
	plan := stages.Plan{stages.Seat{Age: 1, On: bearings()}, stages.Seat{Age: 20, On: bearings()}}
	nan, inf := math.NaN(), math.Inf(1)
	for words, of := range map[string]struct {
		stage          int
		from, to, step float64
	}{
		"field from = NaN d: must be 0.01 to":        {2, nan, 30, 4},
		"field from = 0 d: must be 0.01 to":          {2, 0, 30, 4},
		"field to = 1 d: must be 2 to":               {2, 2, 1, 4},
		"field to = NaN d: must be 2 to":             {2, 2, nan, 4},
		"field to = +Inf d: must be 2 to":            {2, 2, inf, 4},
		"field step = -1 d: must be 0.028 to":        {2, 2, 30, -1},
		"field step = 0.02 d: must be 0.028 to":      {2, 2, 30, 0.02},
		"field stage = 0: must be 1 to 2":            {0, 2, 30, 4},
		"field stage = 3: must be 1 to 2":            {3, 2, 30, 4},
		"at an age of 0.5 d: stage 2, seat at age":   {2, 0.5, 0.6, 1},
		"does not pass at an age of 26 d: must pass": {2, 2, 28, 8},
	} {
		_, err := launching.EarliestAge(span(t), plan, of.stage, limits.EN1992{}, of.from, of.to, of.step)
		require.ErrorIs(t, err, launching.ErrLaunching, words)
		require.ErrorContains(t, err, words)
	}
}
