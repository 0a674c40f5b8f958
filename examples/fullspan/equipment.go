package main

import (
	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// The equipment of the Estuary Link, all invented: outlines in elevation (m, z from the
// soffit) and what the operation sheets state of it. What is left out is blank there.

// straddle is the straddle carrier of the yard.
func straddle() stages.EquipmentItem {
	return stages.EquipmentItem{
		Mark: "SC1", Kind: stages.StraddleCarrier, Supports: []int{1, 2, 3, 4},
		Outline: [][][2]float64{rectangle(0.8, length-0.8, 5.2, 5.6), rectangle(4.5, 5.3, -0.3, 5.2), rectangle(length-5.3, length-4.5, -0.3, 5.2), rectangle(3.3, 6.5, -0.7, -0.3), rectangle(length-6.5, length-3.3, -0.7, -0.3)},
		Facts: append(hoists(6600, 470, 6130),
			stages.Fact{Name: "travel speed", Value: 0.5, Unit: formula.MetrePerSecond, Sense: limits.AtMost}),
	}
}

// gantry is the launching gantry over the span.
func gantry() stages.EquipmentItem {
	return stages.EquipmentItem{
		Mark: "LG1", Kind: stages.Gantry, Supports: []int{1, 2, 3, 4},
		Outline: [][][2]float64{{{-30, 5.2}, {70, 5.2}}, {{-30, 5.6}, {70, 5.6}}, rectangle(-4, -3, 0, 5.2), rectangle(length+3, length+4, 0, 5.2)},
		Facts: append(hoists(6200, 380, 5820),
			stages.Fact{Name: "trolley left", Value: 1.7, Unit: formula.Metre}, stages.Fact{Name: "trolley right", Value: length - 1.7, Unit: formula.Metre}),
	}
}

// hoists are the facts of what lifts by four hoists: capacities in kN.
func hoists(rated, deductions, derated float64) []stages.Fact {
	return []stages.Fact{
		{Name: "hoist arrangement", Text: "4 hoists; 3 + 4 one rope"},
		{Name: "rated capacity", Value: rated * unit.Kilo, Unit: formula.Newton, Sense: limits.AtMost},
		{Name: "deductions", Value: deductions * unit.Kilo, Unit: formula.Newton, Sense: limits.AtLeast},
		{Name: "deductions are", Text: "beam, blocks, ropes"},
		{Name: "derated capacity", Value: derated * unit.Kilo, Unit: formula.Newton, Sense: limits.AtMost},
		{Name: "wind limit", Value: 15, Unit: formula.MetrePerSecond, Sense: limits.AtMost},
		{Name: "wind limit parked", Value: 28, Unit: formula.MetrePerSecond, Sense: limits.AtMost},
		{Name: "wind basis", Text: "gust, 10 m, maker"},
	}
}

// carrier is the girder carrier that rides over the finished spans.
func carrier() stages.EquipmentItem {
	return stages.EquipmentItem{
		Mark: "GC1", Kind: stages.Carrier, Supports: []int{1, 2, 3, 4},
		Outline: [][][2]float64{rectangle(0.5, length-0.5, -1, -0.5), rectangle(1, 11, -1.7, -1), rectangle(length-11, length-1, -1.7, -1)},
		Facts: []stages.Fact{
			{Name: "axle groups", Text: "2 groups of 8 axles"}, {Name: "groups linked", Text: "group at 3 + 4 left to right"},
			{Name: "rated capacity", Value: 5400 * unit.Kilo, Unit: formula.Newton, Sense: limits.AtMost},
			{Name: "own mass", Value: 182e3, Unit: formula.Kilogram, Sense: limits.AtLeast}, {Name: "axle load", Value: 412 * unit.Kilo, Unit: formula.Newton, Sense: limits.AtLeast},
			{Name: "speed limit", Value: 0.8, Unit: formula.MetrePerSecond, Sense: limits.AtMost},
			{Name: "wind limit", Value: 15, Unit: formula.MetrePerSecond, Sense: limits.AtMost},
		},
	}
}

// piers are those under the bearings of the span.
func piers() []stages.EquipmentItem {
	pier := func(mark string, x float64, supports ...int) stages.EquipmentItem {
		return stages.EquipmentItem{
			Mark: mark, Kind: stages.Pier, Supports: supports,
			Outline: [][][2]float64{rectangle(x-1.1, x+1.1, -1.1, -0.5), {{x - 0.7, -1.1}, {x - 0.7, -9}}, {{x + 0.7, -1.1}, {x + 0.7, -9}}},
			Facts:   []stages.Fact{{Name: "level", Value: 9.412, Unit: formula.Metre}},
		}
	}
	return []stages.EquipmentItem{pier("P7", 0.7, 1, 2), pier("P8", length-0.7, 3, 4)}
}

// rectangle is a closed outline.
func rectangle(left, right, bottom, top float64) [][2]float64 {
	return [][2]float64{{left, bottom}, {left, top}, {right, top}, {right, bottom}, {left, bottom}}
}
