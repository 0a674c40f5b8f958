package launching_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages/launching"
)

// gantry is the launching gantry of the salt-marsh viaduct: 84 m, lighter towards its
// nose, a counterweight at its rear end, one trolley.
func gantry() launching.Gantry {
	return launching.Gantry{
		Mark: "LG-1", Length: 84,
		Weights: []launching.Weight{
			{Mark: "main girder", Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, 52, 40e3), loads.Trapezoid(52, 84, 40e3, 28e3)}}},
			{Mark: "counterweight", Loads: loads.Set{Points: []loads.Point{{At: 1.5, Force: 420e3}}}, Counterweight: true},
		},
		Trolleys: []launching.Trolley{{Mark: "T1", Weight: 900e3, From: 1, To: 82}},
		Legs: []launching.Leg{
			{Mark: "rear", Weight: 90e3, Width: 5, Capacity: 4.2e6}, {Mark: "main", Weight: 160e3, Width: 5, Capacity: 5.5e6},
			{Mark: "front", Weight: 60e3, Width: 4, Capacity: 2.5e6},
		},
		Tolerance: loads.PlusMinus(0.03), Stiffness: []beam.Stretch{{BendingStiffness: 60e9}},
		Height: 4.5, SideArea: 210, EndArea: 22, AreaAt: 4.8, RopeAt: 6.5,
	}
}

// rolling is the gantry as it rolls forward over the rear leg on the span before and the
// main leg on E-07, until its nose is over the next pier. Piers are at −0.5, 34.5 and 69.5 m.
func rolling(trolley float64) launching.Position {
	return launching.Position{
		Name: "roll to the next pier", At: -24, Roll: 9.5,
		Stands:   []launching.Stand{{Leg: "rear", X: -6, On: "E-06"}, {Leg: "main", X: 33, On: "E-07", Holds: true}},
		Trolleys: []launching.Placed{{At: trolley, Locked: true}},
		Hanging:  []launching.Hanging{{Leg: "front", At: 82}},
		Wind:     launching.Wind{WindSpeed: loads.WindSpeed{Speed: 12, Averaging: loads.GustOf3s, Height: 10}},
	}
}

// uniform is a gantry of one weight per metre on two legs, or on three.
func uniform(length float64, third ...launching.Leg) launching.Gantry {
	return launching.Gantry{
		Mark: "U", Length: length, Tolerance: loads.PlusMinus(0), Weights: []launching.Weight{{Mark: "girder", Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, length, 10e3)}}}},
		Legs:      append([]launching.Leg{{Mark: "a", Width: 4, Capacity: 1e7}, {Mark: "b", Width: 4, Capacity: 1e7}}, third...),
		Stiffness: []beam.Stretch{{BendingStiffness: 20e9}},
	}
}

func balances(t *testing.T, g launching.Gantry, p launching.Position) []launching.Balance {
	list, err := g.Balances(p)
	require.NoError(t, err)
	return list
}

// third is a third leg of a uniform gantry.
var third = launching.Leg{Mark: "c", Width: 4, Capacity: 1e7}
