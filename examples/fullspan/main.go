// Command fullspan takes one 34 m box girder of the invented Estuary Link from
// its casting bed to its bearings and prints the calculation.
//
// Everything about the girder is invented. Exit status: 0 when every check
// passes, 1 when one fails or is conditional, 2 for wrong input.
//
// An aid: a licensed engineer must confirm every result.
package main

import (
	"fmt"
	"os"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

const length = 34.0 // m

var box = section.Box{
	Depth: 2.4, TopWidth: 9.6, RootWidth: 3.8, BottomWidth: 3.5,
	TopSlab: 0.22, BottomSlab: 0.26, WebThickness: 0.40, CantileverRoot: 0.38, CantileverTip: 0.20,
	TopHaunch: section.Haunch{Width: 0.5, Height: 0.15}, BottomHaunch: section.Haunch{Width: 0.3, Height: 0.15},
}

func main() {
	record, err := calculate()
	os.Exit(sheet.Command(os.Args[1:], os.Stdout, os.Stderr, record, err))
}

func calculate() (stages.Record, error) {
	element, err := girder()
	if err != nil {
		return stages.Record{}, err
	}
	return plan().Run(element, limits.EN1992{})
}

// plan is what the girder goes through. Of every four supports that do not share
// by stiffness the right pair is linked and the left two are independent.
func plan() stages.Plan {
	jack := func(marks ...string) tendon.Jacking {
		return tendon.Jacking{
			Tendons: marks, Stress: 1400 * unit.Mega, Ends: tendon.BothEnds, DrawIn: 6 * unit.Milli,
			Seating: tendon.PowerSeated, LockOff: tendon.AllAtOnce,
			Reading: tendon.Measuring{From: 280 * unit.Mega, Tail: 0.8, JackFriction: 0.03, Tolerance: tendon.ToleranceOfTendon, GaugeUnit: tendon.GaugeBar},
		}
	}
	swinging := []stages.Action{gust("wind, 15 m/s", 15, 0.6)}
	standing := []stages.Action{gust("wind, storm", 34, 3)}
	braking := action("braking", stages.Braking, stages.Along, 6.8, 1.5)
	points := four(stages.Support{X: 1.7, Y: 1.7, Z: 2.4})
	dynamic := loads.Dynamic{Least: 0.9, Most: 1.1}
	onBed := stages.StressingMethod{NotRead: true, Gap: 0.5 * unit.Milli, Free: "side forms, inner form, shear keys, hold-downs", Protection: "grout caps, vents closed, ducts drained", GroutBy: 14}
	onPads := onBed
	onPads.Free = "lashings, stops and props at the pads"
	return stages.Plan{
		stages.Transfer{
			Age: 3, Jacking: []tendon.Jacking{jack("F1L", "F1R"), jack("F2L", "F2R"), jack("W2L", "W2R"), jack("W3L", "W3R")},
			On: four(stages.Support{X: 0.9, Y: 1.5}), Roll: 0.005, Gradient: 0.005, Method: onBed,
		},
		stages.Lift{Name: "lift from the bed by the straddle carrier", Age: 3.5, On: points, Dynamic: dynamic, Roll: 0.01, Gradient: 0.01, Actions: swinging, Equipment: []stages.EquipmentItem{straddle()}},
		stages.Store{Age: 4, Until: 14, On: stages.Elastic(80*unit.Mega, stages.Pads(1.5, 1.3, length-1.3)...), OutOfLevel: 5 * unit.Milli, Actions: standing},
		stages.Stress{
			Age: 14, Jacking: []tendon.Jacking{jack("W1L", "W1R")},
			Grout: []string{"F1L", "F1R", "F2L", "F2R", "W1L", "W1R", "W2L", "W2R", "W3L", "W3R"}, GroutAge: 16, Method: onPads,
		},
		stages.Lift{Name: "lift on to the girder carrier", Age: 28, On: points, Dynamic: dynamic, Roll: 0.01, Gradient: 0.01, Actions: swinging, Equipment: []stages.EquipmentItem{straddle()}},
		stages.Haul{ // on rubber, friction shown by the maker's test
			Name: "haul over the finished spans", Age: 28, On: four(stages.Support{X: 1.7, Y: 1.5, Friction: 0.3}), Dynamic: dynamic,
			Roll: 0.02, Gradient: 0.02, Actions: append(swinging, braking), Equipment: []stages.EquipmentItem{carrier()},
		},
		stages.Lift{Name: "hoist by the launching gantry", Age: 28, On: points, Dynamic: dynamic, Roll: 0.01, Gradient: 0.02, Actions: swinging, Equipment: []stages.EquipmentItem{gantry()}},
		stages.Seat{Name: "seat on the bearings", Age: 28, On: stages.Elastic(500*unit.Mega, stages.Pads(1.5, 0.7, length-0.7)...), OutOfLevel: 2 * unit.Milli, Actions: standing, Equipment: piers()},
	}
}

// four are a support and its images across and at the other end, there as a
// linked pair.
func four(s stages.Support) []stages.Support {
	list := stages.Pads(s.Y, s.X, length-s.X)
	for i := range list {
		list[i].Z, list[i].Friction = s.Z, s.Friction
	}
	return append(list[:2], stages.Equalised("right pair", list[2:]...)...)
}

// action is kN/m over the girder, both ways, at a level.
func action(mark string, kind limits.ActionKind, direction stages.Direction, intensity, z float64) stages.Action {
	return stages.Action{
		Mark: mark, Kind: kind, Direction: direction, Z: z, Least: -1, Most: 1,
		Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, length, intensity*unit.Kilo)}},
	}
}

// gust is a wind of kN/m on the side, not below what its speed gives.
func gust(mark string, speed, intensity float64) stages.Action {
	wind := action(mark, stages.Wind, stages.Transverse, intensity, 1.2)
	wind.Wind = &loads.Wind{
		WindSpeed: loads.WindSpeed{Speed: speed, Averaging: loads.GustOf3s, Height: 10}, Sail: 1.7 * 2.4 * length,
		Source: formula.Source{Document: "invented note EL-W-01"},
	}
	return wind
}

// girder is the element: outline, concrete, weight, tendons, bonded bars.
func girder() (stages.Element, error) {
	shape, err := box.Shape()
	if err != nil {
		return stages.Element{}, err
	}
	size, err := shape.NotionalSize(section.AllFaces)
	test := concrete.Test{Age: 3, Strength: 56 * unit.Mega, Specimen: concrete.Cube, Specimens: 6, Statistic: concrete.Mean, Report: "invented report EL-C-0207"}
	mix := concrete.EN1992{
		Fck: 55 * unit.Mega, Cement: concrete.ClassR, Tests: []concrete.Test{test},
		Exposure: concrete.Exposure{Humidity: 0.75, NotionalSize: size, DryingFrom: 3},
	}
	element := stages.Element{
		Mark: "E-07", Length: length, Section: shape, WeightTolerance: loads.PlusMinus(0.03), Concrete: mix, LongTerm: mix, Tendons: tendons(),
		Extra: []stages.ExtraWeight{
			{Mark: "diaphragm, left", From: 0.4, To: 1.4, Weight: 150 * unit.Kilo, Z: 1.2},
			{Mark: "diaphragm, right", From: length - 1.4, To: length - 0.4, Weight: 150 * unit.Kilo, Z: 1.2},
		},
	}
	// Ordinary reinforcement of both end zones, where the anchor forces spread:
	// cantilevers, top slab, both halves of the bottom slab (m, m, mm²).
	for _, from := range []float64{0, length - 8} {
		for _, b := range [][3]float64{{-3.3, 2.28, 5000}, {0, 2.28, 8000}, {3.3, 2.28, 5000}, {-0.9, 0.13, 4500}, {0.9, 0.13, 4500}} {
			element.Bars = append(element.Bars, stages.BondedBars{From: from, To: from + 8, At: section.Point{Y: b[0], Z: b[1]}, Area: b[2] * 1e-6})
		}
	}
	return element, err
}

// tendons are three in the middle of each web, W1 the lowest, and two straight
// ones in each half of the bottom slab.
func tendons() (list []tendon.Tendon) {
	web := tendon.Tendon{Strand: tendon.Y1860S7x157, Strands: 12, Duct: 0.09, Friction: 0.19, Wobble: 0.005}
	web.Approval = tendon.Approval{Reference: "invented approval EL-PT-12", MeanStrength: 30 * unit.Mega, AnchorSpacing: 0.34, EdgeDistance: 0.165}
	slab := web
	slab.Strands, slab.Duct = 7, 0.07
	slab.Approval = tendon.Approval{Reference: "invented approval EL-PT-07", MeanStrength: 30 * unit.Mega, AnchorSpacing: 0.26, EdgeDistance: 0.125}
	lean := box.WebCentre(1) - box.WebCentre(0) // m/m
	for side, y := range []float64{1, -1} {
		for i, z := range [][2]float64{{1.15, 0.15}, {1.55, 0.34}, {1.95, 0.53}} { // at the anchor, at mid-span
			web.Mark = fmt.Sprintf("W%d%c", i+1, "LR"[side])
			web.Elevation = tendon.Drape(tendon.Point{Ordinate: z[0]}, 2.5, tendon.Point{X: 15, Ordinate: z[1]}, length)
			web.Plan = web.Elevation.Leaning(y*box.WebCentre(0), 0, y*lean)
			list = append(list, web)
		}
		for i, off := range []float64{0.15, 0.45} {
			slab.Mark, slab.Elevation, slab.Plan = fmt.Sprintf("F%d%c", i+1, "LR"[side]), tendon.Level(0, length, 0.13), tendon.Level(0, length, y*off)
			list = append(list, slab)
		}
	}
	return list
}
