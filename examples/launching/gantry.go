package main

import (
	"math"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

// gantry is the launching gantry, 84 m: lighter towards its nose, a counterweight at its
// rear end, two trolleys.
var gantry = launching.Gantry{
	Mark: "LG1", Length: 84,
	Weights: []launching.Weight{
		{Mark: "girder", Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, 52, 40*unit.Kilo), loads.Trapezoid(52, 84, 40*unit.Kilo, 28*unit.Kilo)}}},
		{Mark: "counterweight", Loads: loads.Set{Points: []loads.Point{{At: 1.5, Force: 300 * unit.Kilo}}}, Counterweight: true},
	},
	Trolleys: []launching.Trolley{{Mark: "T1", Weight: 650 * unit.Kilo, From: 1, To: 82}, {Mark: "T2", Weight: 650 * unit.Kilo, From: 1, To: 82}},
	Legs: []launching.Leg{
		{Mark: "rear", Weight: 90 * unit.Kilo, Width: 3, Capacity: 4.5 * unit.Mega, Stiffness: 2e9},
		{Mark: "main", Weight: 160 * unit.Kilo, Width: 3, Capacity: 4.5 * unit.Mega, Stiffness: 3e9},
		{Mark: "front", Weight: 60 * unit.Kilo, Width: 3, Capacity: 2.5 * unit.Mega, Stiffness: 1e9},
	},
	Tolerance: loads.PlusMinus(0.03), Stiffness: []beam.Stretch{{BendingStiffness: 60e9}}, Height: 4.5, SideArea: 210, EndArea: 22, AreaAt: 4.8, RopeAt: 6.5,
}

// straddle is the straddle carrier of the yard.
var straddle = stages.EquipmentItem{Mark: "SC1", Kind: stages.StraddleCarrier, Supports: []int{1, 2, 3, 4}, Facts: []stages.Fact{
	{Name: "hoist arrangement", Text: "3 + 4 one rope"}, {Name: "travel speed", Value: 0.5, Unit: formula.MetrePerSecond, Sense: limits.AtMost},
	{Name: "wind limit", Value: 12, Unit: formula.MetrePerSecond, Sense: limits.AtMost}, {Name: "wind limit parked", Value: 28, Unit: formula.MetrePerSecond, Sense: limits.AtMost}, {Name: "wind basis", Text: "gust, 10 m, maker"},
}}

// piers are those of the bay and its neighbours.
var piers = []launching.Pier{{Mark: "P6", X: -34.5, Top: -0.5, Width: 2.2}, {Mark: "P7", X: -0.5, Top: -0.5, Width: 2.2}, {Mark: "P8", X: 34.5, Top: -0.5, Width: 2.2}, {Mark: "P9", X: 69.5, Top: -0.5, Width: 2.2}}

var breeze = launching.Wind{WindSpeed: loads.WindSpeed{Speed: 12, Averaging: loads.GustOf3s, Height: 10}}

// stands are the legs while the element comes: on the span before and on the pier in front.
var stands = []launching.Stand{{Leg: "rear", X: -3, On: "E-06", Holds: true}, {Leg: "main", X: 34.5, On: "P8"}}

// at is the gantry over the bay with its trolleys (m from its rear end).
func at(name string, rear, front float64) launching.Position {
	return launching.Position{Name: name, At: -24, Stands: stands, Trolleys: []launching.Placed{{At: rear}, {At: front}}, Hanging: []launching.Hanging{{Leg: "front", At: 82}}, Wind: breeze}
}

// feeding is the front trolley with the front end of the element, whose rear end is on
// a transporter, until the rear trolley can take it.
func feeding() []launching.Position {
	return []launching.Position{at("front end on the front trolley", 1.5, 16), at("half way", 1.5, 30), at("rear end below the rear trolley", 15, 45.6)}
}

// lowering is the element on both trolleys, as it is taken over and over its place.
func lowering() []launching.Position {
	return []launching.Position{at("taken over", 15, 45.6), at("over its place", 25.7, 56.3)}
}

// selfLaunch is the gantry on its way to the next bay: legs step forward, it rolls until
// its nose is over the next pier, and lands.
func selfLaunch() []launching.Position {
	trolleys := []launching.Placed{{At: 12, Locked: true}, {At: 20, Locked: true}}
	front := []launching.Hanging{{Leg: "front", At: 82}}
	rear := launching.Stand{Leg: "rear", X: -6, On: "E-06"}
	main := launching.Stand{Leg: "main", X: 33.3, On: "E-07", Holds: true}
	landed := launching.Stand{Leg: "front", X: 69, On: "P9"}
	return []launching.Position{
		{Name: "roll forward", At: -30, Roll: 15, Stands: []launching.Stand{rear, main}, Trolleys: trolleys, Hanging: front, Wind: breeze, Gradient: -0.005, CrossFall: 0.002, Shift: 0.02},
		{Name: "front leg lands", At: -15, Stands: []launching.Stand{rear, main, landed}, Trolleys: trolleys, Wind: breeze, CrossFall: 0.002, Shift: 0.02},
	}
}

// carrierPasses is the next element on two light transporters, one under each end, of five
// bogies each: they spread its weight over 51 m and weigh a tenth of it. Nothing is in hand
// for a girder carrier in one piece, of a third of the element's weight or more: principal
// tension governs.
func carrierPasses(earliest float64) launching.Ride {
	train := loads.Train{Name: "two transporters with an element", Dynamic: 1.05}
	for _, behind := range []float64{0, 5, 5, 5, 5, 11, 5, 5, 5, 5} { // bogies of four axles, each as one force
		train.Axles = append(train.Axles, loads.Axle{Force: 620 * unit.Kilo, Behind: behind})
	}
	return launching.Ride{
		Name: "next element passes on its transporters", Age: math.Max(33, earliest), Earliest: earliest, Off: 0.15, Gradient: 0.01, Grout: 30 * unit.Mega,
		Carrier: launching.Carrier{Mark: "GT1 and GT2", Train: train, Wheel: 85 * unit.Kilo, Brakes: 12, Brake: 50 * unit.Kilo, Drag: 0.02},
		Line:    launching.Spans{Before: 34, After: 34, Bearings: 0.7},
	}
}
