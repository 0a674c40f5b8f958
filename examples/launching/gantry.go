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

// gantry is the launching gantry, 84 m: lighter towards both ends, a small counterweight at
// its rear end, two trolleys.
var gantry = launching.Gantry{
	Mark: "LG1", Length: 84,
	Weights: []launching.Weight{
		{Mark: "girder", Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, 20, 28*unit.Kilo), loads.Uniform(20, 52, 40*unit.Kilo), loads.Trapezoid(52, 84, 40*unit.Kilo, 28*unit.Kilo)}}},
		{Mark: "counterweight", Loads: loads.Set{Points: []loads.Point{{At: 1.5, Force: 60 * unit.Kilo}}}, Counterweight: true},
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
	{Name: "hoist arrangement", Text: "3 + 4 one rope; 1, 2 alone"}, {Name: "travel speed", Value: 0.5, Unit: formula.MetrePerSecond, Sense: limits.AtMost},
	{Name: "wind limit", Value: 12, Unit: formula.MetrePerSecond, Sense: limits.AtMost}, {Name: "wind limit parked", Value: 28, Unit: formula.MetrePerSecond, Sense: limits.AtMost}, {Name: "wind basis", Text: "gust, 10 m, maker"},
}}

// transporters are the two under the element, one below each end.
func transporters(supports ...int) []stages.EquipmentItem {
	return []stages.EquipmentItem{{Mark: "GT1 and GT2", Kind: stages.Carrier, Supports: supports, Facts: []stages.Fact{
		{Name: "axle groups", Text: "5 below each end"}, {Name: "groups linked", Text: "those of GT2, left to right"}, {Name: "restraint", Text: "stops and lashings, 2 each end"},
		{Name: "speed limit", Value: 0.8, Unit: formula.MetrePerSecond, Sense: limits.AtMost}, {Name: "wind limit", Value: 12, Unit: formula.MetrePerSecond, Sense: limits.AtMost}, {Name: "wind basis", Text: "gust, 10 m, maker"},
	}}}
}

// piers are those of the bay and its neighbours.
var piers = []launching.Pier{{Mark: "P6", X: -34.5, Top: -0.5, Width: 2.8}, {Mark: "P7", X: -0.5, Top: -0.5, Width: 2.8}, {Mark: "P8", X: 34.5, Top: -0.5, Width: 2.8}, {Mark: "P9", X: 69.5, Top: -0.5, Width: 2.8}}

var breeze = launching.Wind{WindSpeed: loads.WindSpeed{Speed: 12, Averaging: loads.GustOf3s, Height: 10}}

// stands are the legs while the element comes: on the span before and on the pier in front.
var stands = []launching.Stand{{Leg: "rear", X: -1.7, On: "E-06", Holds: true}, {Leg: "main", X: 34.5, On: "P8"}}

// frontHangs is the front leg on the gantry.
var frontHangs = []launching.Hanging{{Leg: "front", At: 82}}

// at is the gantry over the bay with its trolleys (m from its rear end).
func at(name string, rear, front float64) launching.Position {
	return launching.Position{Name: name, At: -24, Stands: stands, Trolleys: []launching.Placed{{At: rear}, {At: front}}, Hanging: frontHangs, Wind: breeze}
}

// feeding is the front trolley with the front end of the element, whose rear end is on
// a transporter, until the rear trolley can take it.
func feeding() []launching.Position {
	return []launching.Position{at("front end on T2", 1.5, 16), at("half way", 1.5, 30), at("rear end below T1", 15, 45.6)}
}

// lowering is the element on both trolleys, as it is taken over and over its place.
func lowering() []launching.Position {
	return []launching.Position{at("taken over by T1", 15, 45.6), at("over its place", 25.7, 56.3)}
}

// locked are both trolleys fixed at their places.
func locked(rear, front float64) []launching.Placed {
	return []launching.Placed{{At: rear, Locked: true}, {At: front, Locked: true}}
}

// oneSided is the head of pier P8 with this span on one side, none on the other and the main
// leg of the gantry on it.
func oneSided() (launching.PierHead, error) {
	const middle, leg, level = 34.5, 0.0, 0.4 // m: x of the pier, heights of foot and bearings
	feet, err := gantry.Across(toThePier()[0])
	if err != nil {
		return launching.PierHead{}, err
	}
	return launching.PierHead{Mark: "P8", At: middle, Bearings: []int{3, 4}, BearingsAt: level, NominalAt: level, Forces: []launching.HeadForce{feet[1].OnHead(middle, leg)}}, nil
}

// toThePier is the self-launch until the front leg stands on the next pier: from where the
// gantry has set the element down, with its trolleys back.
func toThePier() []launching.Position {
	rolls := launching.Position{Name: "rolls forward", At: -24, Roll: 12.2, Stands: stands, Trolleys: locked(12, 20), Hanging: frontHangs, Wind: breeze, Gradient: -0.005, CrossFall: 0.002, Shift: 0.02}
	lands := rolls
	lands.Name, lands.At, lands.Roll, lands.Hanging = "front leg on P9", -11.8, 0, nil
	lands.Stands = append(stands[:2:2], launching.Stand{Leg: "front", X: 70.2, On: "P9"})
	return []launching.Position{rolls, lands}
}

// toTheBay is the rest: the trolleys go forward, the rear leg is taken up and stands on the
// new span, the main leg is taken up, the gantry rolls and the main leg stands on the pier.
func toTheBay() []launching.Position {
	main, front := launching.Stand{Leg: "main", X: 34.5, On: "P8", Holds: true}, launching.Stand{Leg: "front", X: 70.2, On: "P9"}
	rear := launching.Stand{Leg: "rear", X: length - 0.7, On: "E-07", Holds: true}
	p := launching.Position{At: -11.8, Trolleys: locked(72, 80), Wind: breeze, Gradient: -0.005, CrossFall: 0.002, Shift: 0.02}
	up, stood, rolls, done := p, p, p, p
	up.Name, up.Stands, up.Hanging = "rear leg taken up", []launching.Stand{main, front}, []launching.Hanging{{Leg: "rear", At: 30}}
	stood.Name, stood.Stands = "rear leg on E-07", []launching.Stand{rear, main, front}
	rolls.Name, rolls.Roll, rolls.Trolleys = "main leg up, rolls on", 22.8, locked(64, 72)
	rolls.Stands, rolls.Hanging = []launching.Stand{rear, front}, []launching.Hanging{{Leg: "main", At: 58.5}}
	done.Name, done.At, done.Trolleys = "main leg on P9", 11, locked(12, 20)
	done.Stands, done.Hanging = []launching.Stand{rear, {Leg: "main", X: 69.5, On: "P9"}}, frontHangs
	return []launching.Position{up, stood, rolls, done}
}

// carrierPasses is the next element on the two transporters, of five bogies each: they
// spread its weight over 51 m. A girder carrier in one piece, of a third of the element's
// weight or more, would need more of the webs.
func carrierPasses(earliest float64) launching.Ride {
	train := loads.Train{Name: "two transporters with an element", Dynamic: 1.05}
	for _, behind := range []float64{0, 5, 5, 5, 5, 11, 5, 5, 5, 5} { // bogies of four axles, each as one force
		train.Axles = append(train.Axles, loads.Axle{Force: 620 * unit.Kilo, Behind: behind})
	}
	return launching.Ride{
		Name: "next element passes on its transporters", Age: math.Max(42, earliest), Earliest: earliest, Off: 0.05, Gradient: 0.01, Mortar: &bedding,
		Carrier: launching.Carrier{Mark: "GT1 and GT2", Train: train, Wheel: 90 * unit.Kilo, Brakes: 12, Brake: 50 * unit.Kilo, Drag: 0.02, Speed: 0.8},
		Line:    launching.Spans{Before: 34, After: 34, Bearings: 0.7},
	}
}
