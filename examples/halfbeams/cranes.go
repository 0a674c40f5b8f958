package main

import (
	"math"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/rigging"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// slung are two slings side by side at x that meet at a hook above the centre of gravity.
func slung(x, y float64) []stages.Support {
	return stages.Slings(stages.Hook{X: x, Y: y, Z: 6}, stages.Support{X: x, Y: y - 0.2, Z: 1.6}, stages.Support{X: x, Y: y + 0.2, Z: 1.6})
}

// mobile is a 250 t crane on outriggers beside the street.
func mobile(mark string, radius float64, supports ...int) stages.MobileCrane {
	return stages.MobileCrane{
		Mark: mark, Supports: supports, Pick: radius - 1, Slew: radius, Set: radius, HookBlock: 18 * unit.Kilo, Rigging: 12 * unit.Kilo, CoG: 0.10, Plumb: 0.02, SailArea: sail / 2,
		Chart: rigging.Chart{
			Crane: "invented 250 t", Configuration: "boom 26 m, counterweight 70 t, outriggers 8.4 × 8.3 m",
			Source: formula.Source{Document: "invented chart M-250, edition 3"}, Hoisting: true, Wind: 9, Averaging: loads.GustOf3s, Height: 10,
			Rows: []rigging.Capacity{{Radius: 7, Load: 1010 * unit.Kilo}, {Radius: 8, Load: 930 * unit.Kilo}, {Radius: 9, Load: 850 * unit.Kilo}, {Radius: 10, Load: 770 * unit.Kilo}},
		},
		Stand: &stages.CraneStand{
			Outriggers: rigging.Outriggers{Along: 8.4, Across: 8.3, Carrier: 420 * unit.Kilo, Upper: 980 * unit.Kilo, UpperRadius: -2.6},
			From:       -math.Pi / 2, To: math.Pi / 2, Tail: 4.6, Report: "invented report EL-G-031",
			Mat: rigging.Mat{Length: 4, Width: 2, Weight: 24 * unit.Kilo, Foot: 0.7, Bending: 900 * unit.Kilo, Ground: 200 * unit.Kilo, Edge: 3.5, EdgeNeeded: 3},
		},
	}
}

// gear is the slings and the lifting anchors of all lifts.
func gear() stages.Gear {
	return stages.Gear{
		Sling: 500 * unit.Kilo, Document: "invented certificate EL-S-7", Edge: 0.25,
		Anchor: &rigging.Anchor{
			Mark: "invented anchor, type L", Source: formula.Source{Document: "invented manual of the anchor, 2.3"}, Specimen: concrete.Cube,
			Loads:  []rigging.AtStrength{{Strength: 30 * unit.Mega, Load: 340 * unit.Kilo}, {Strength: 45 * unit.Mega, Load: 480 * unit.Kilo}},
			Angles: []rigging.AtAngle{{FromAxis: 0.26, Share: 1}, {FromAxis: 0.52, Share: 0.8}}, Edges: []rigging.AtEdge{{Distance: 0.2, Share: 1}},
		},
	}
}

// piers are drawn below both bearings.
func piers() []stages.EquipmentItem {
	pier := func(mark string, x float64, supports ...int) stages.EquipmentItem {
		return stages.EquipmentItem{Mark: mark, Kind: stages.Pier, Supports: supports, Outline: [][][2]float64{{{x - 0.8, -3}, {x - 0.8, -0.2}, {x + 0.8, -0.2}, {x + 0.8, -3}}}}
	}
	return []stages.EquipmentItem{pier("pier P12", 0.4, 1, 2), pier("pier P13", length-0.4, 3, 4)}
}
