// Command launching takes one bay of the salt-marsh viaduct of the invented Estuary Link
// through the full-span method: first stressing, hoist from the bed, storage, second
// stressing, lift on to transporters and haul, feed and lowering by the launching gantry,
// jack-down, load transfer to the bearings, the self-launch of the gantry to the next bay in
// three operations, and the next element that passes over the span on its transporters, at
// an age at which it may, while the rear leg of the gantry stands on the span.
//
// The numbers that a site asks for are checks of the record: the permissible warp of the
// locked jacks and of each bearing in mm, the minimum age of the span when the transporters
// pass, and the wind and the place of the trolleys up to which the self-launch may go on. What is below wheels, feet and jacks, and the dowels of
// the bearings, are left to documents: the status of the record is conditional.
//
// Everything is invented. Exit status: 0 when every check passes, 1 when one fails or is
// conditional, 2 for wrong input.
//
// An aid: a licensed engineer must confirm every result.
package main

import (
	"os"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

func main() {
	record, err := calculate()
	os.Exit(sheet.Command(os.Args[1:], os.Stdout, os.Stderr, record, err))
}

// calculate runs the bay with the minimum age, in whole days, at which the next element may
// pass.
func calculate() (stages.Record, error) {
	element, err := girder()
	if err != nil {
		return stages.Record{}, err
	}
	plan, err := plan()
	if err != nil {
		return stages.Record{}, err
	}
	passage := len(plan)
	earliest, err := launching.EarliestAge(element, append(plan[:passage:passage], passing(0)), passage+1, limits.EN1992{}, 38, 40, 1)
	if err != nil {
		return stages.Record{}, err
	}
	return append(plan, passing(earliest)).Run(element, limits.EN1992{})
}

// plan is the bay up to the self-launch of the gantry.
func plan() (stages.Plan, error) {
	jack := func(marks ...string) tendon.Jacking {
		return tendon.Jacking{Tendons: marks, Stress: 1400 * unit.Mega, Ends: tendon.BothEnds, DrawIn: 6 * unit.Milli,
			Reading: tendon.Measuring{From: 280 * unit.Mega, Tail: 0.8, JackFriction: 0.03, Tolerance: tendon.ToleranceOfTendon}}
	}
	water, err := launching.WaterInVoid(0.10, 2.2, 1.4, length-1.4, 0.30)
	if err != nil {
		return nil, err
	}
	swinging, err := blowing(breeze.Speed)
	if err != nil {
		return nil, err
	}
	standing, err := blowing(33)
	if err != nil {
		return nil, err
	}
	head, err := oneSided()
	if err != nil {
		return nil, err
	}
	gusty, err := blowing(20)
	if err != nil {
		return nil, err
	}
	jackDown := launching.JackDown{
		Age: 28, Linked: 2, Jacks: [4]launching.JackPlace{{X: 1.5, Y: -1.2}, {X: 1.5, Y: 1.2}, {X: length - 1.5, Y: -1.2}, {X: length - 1.5, Y: 1.2}},
		Jack:  launching.Jack{Rated: 2.5 * unit.Mega, Stroke: 0.25, Stiffness: 400 * unit.Mega, Side: 0.08, Friction: 0.3},
		Stack: launching.Stack{Height: 0.6, Base: 0.6, Packing: 0.10, Spare: 0.03}, Warp: 0.5 * unit.Milli, Travel: 0.5, Hog: 0.01,
		SafetyPacking: &launching.SafetyPacking{Gap: 1 * unit.Milli, Capacity: 3.3 * unit.Mega, Document: "EL-LG-31"},
		Roll:          0.002, Gradient: 0.005, Actions: []stages.Action{gusty},
	}
	lifted := loads.Dynamic{Least: 0.9, Most: 1.1}
	points := four(1.7, 1.5, depth, stages.LiftPoint)
	return stages.Plan{
		stages.Transfer{
			Age: 3, Jacking: []tendon.Jacking{jack("F1L", "F1R"), jack("F2L", "F2R"), jack("W2L", "W2R"), jack("W3L", "W3R")},
			On: four(0.9, 1.5, 0, ""),
		},
		launching.Hoist{
			Name: "hoist from the bed by the straddle carrier", Age: 3.5, On: points, Dynamic: lifted, Stop: 0.08, Roll: 0.01, Gradient: 0.01, Actions: []stages.Action{swinging, water},
			Hooks: []launching.Hook{{Supports: []int{1, 2}, Rated: 3.4 * unit.Mega}, {Supports: []int{3, 4}, Rated: 3.4 * unit.Mega}}, Equipment: []stages.EquipmentItem{straddle},
		},
		stages.Store{Age: 4, Until: 14, On: stages.Elastic(80*unit.Mega, stages.Pads(1.5, 1.3, length-1.3)...), OutOfLevel: 5 * unit.Milli, Actions: []stages.Action{standing}},
		stages.Stress{Age: 14, Jacking: []tendon.Jacking{jack("W1L", "W1R")}, Grout: []string{"F1L", "F1R", "F2L", "F2R", "W1L", "W1R", "W2L", "W2R", "W3L", "W3R"}, GroutAge: 16},
		stages.Lift{Name: "lift on to the transporters", Age: 27, On: points, Dynamic: lifted, Roll: 0.01, Gradient: 0.01, Actions: []stages.Action{swinging}, Equipment: []stages.EquipmentItem{straddle}},
		stages.Haul{Name: "haul to the gantry", Age: 27, On: hauled(), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}, Gradient: 0.03, Roll: 0.02, Equipment: transporters(1, 2, 3, 4)},
		local(launching.Hoist{
			Name: "feed into the gantry, rear end on transporter GT1", Age: 28, On: fed(), Dynamic: lifted, Stop: 0.08, Gradient: 0.01,
			Hooks: []launching.Hook{{Trolley: 1, Supports: []int{3, 4}, Rated: 3.4 * unit.Mega}}, Gantry: &gantry, Positions: feeding(), Piers: piers,
		}),
		local(launching.Hoist{
			Name: "lower", Age: 28, On: points, Dynamic: lifted, Stop: 0.08, Roll: 0.01, Gradient: 0.01, Actions: []stages.Action{swinging},
			Hooks:  []launching.Hook{{Trolley: 0, Supports: []int{1, 2}, Rated: 3.4 * unit.Mega}, {Trolley: 1, Supports: []int{3, 4}, Rated: 3.4 * unit.Mega}},
			Gantry: &gantry, Positions: lowering(), Piers: piers,
		}),
		local(jackDown),
		seated(launching.OnPier(launching.OnFourPoints(launching.LoadTransfer{Age: 30, From: &jackDown, Bearings: bearings(), Actions: []stages.Action{gusty}, OffLevel: 1 * unit.Milli, Mortar: launching.Mortar{Strength: 20 * unit.Mega, Area: bedding.Area}}, 0.1), head)),
		seated(launching.Launch{Name: "self-launch to the pier", Age: 31, Gantry: gantry, Positions: toThePier(), Piers: piers}),
		seated(launching.Launch{Name: "self-launch, rear leg", Age: 31, Gantry: gantry, Positions: toTheBay()[:2], Piers: piers, Mortar: &bedding}),
		seated(launching.Launch{Name: "self-launch to the bay", Age: 31, Gantry: gantry, Positions: toTheBay()[2:], Piers: piers, Mortar: &bedding, Stays: true}),
	}, nil
}

// passing is the next element on its way, when the span is of the earliest age, if stated.
func passing(earliest float64) stages.Stage {
	return seated(carrierPasses(earliest))
}

// local is a stage whose forces on decks, piers and stacks are shown by a document.
func local(stage stages.Stage) stages.Stage {
	return stages.Covered(stage, stages.Document{Covers: limits.LocalForce, Number: "EL-LG-31", Revision: "B", Status: "approved for construction"})
}

// seated is such a stage on the bearings, whose dowels hold the span along and across.
func seated(stage stages.Stage) stages.Stage {
	return stages.Covered(local(stage), stages.Document{Covers: limits.Sliding, Number: "EL-BR-12", Revision: "A", Status: "approved for construction"})
}

// four are two supports at each end; the right pair carries equal forces.
func four(x, y, z float64, role stages.Role) []stages.Support {
	list := stages.Pads(y, x, length-x)
	for i := range list {
		list[i].Z, list[i].Role = z, role
	}
	return append(list[:2], stages.Equalised("right pair", list[2:]...)...)
}

// bedding is the mortar below the bearings when the gantry stands on the span and the next
// element passes.
var bedding = launching.Mortar{Strength: 30 * unit.Mega, Area: 0.36}

// hauled is the element on its transporters: the pair of the front one is linked.
func hauled() []stages.Support {
	list := four(1.7, 1.3, 0, "")
	for i := range list {
		list[i].Friction = 0.3
	}
	return list
}

// fed is the rear end on the carrier, the front end on one rope.
func fed() []stages.Support {
	list := four(1.7, 1.5, depth, stages.LiftPoint)
	for i := range 2 {
		list[i].Y, list[i].Z, list[i].Role, list[i].Friction = list[i].Y*1.3/1.5, 0, stages.Pad, 0.3
	}
	return list
}

// bearings are four on elastomer: fixed along at the left end.
func bearings() []stages.Support {
	list := stages.Elastic(500*unit.Mega, stages.Pads(1.5, 0.7, length-0.7)...)
	for i := range list {
		list[i].Role, list[i].Holds = stages.Bearing, stages.HoldsAcross
		if i < 2 {
			list[i].Holds = stages.HoldsBoth
		}
	}
	return list
}

// blowing is a wind of a speed across the element (m/s, mean over 3 s at 10 m), both ways.
func blowing(speed float64) (stages.Action, error) {
	const form = 1.5 // force coefficient, invented
	wind := loads.Wind{WindSpeed: loads.WindSpeed{Speed: speed, Averaging: loads.GustOf3s, Height: 10}, Sail: form * length * depth, Source: formula.Source{Document: "invented design basis EL-DB-3"}}
	return stages.WindAcross("wind", wind, 0, length, depth/2)
}
