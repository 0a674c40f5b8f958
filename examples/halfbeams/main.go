// Command halfbeams takes a 26 m half beam of the invented Estuary Link, without an axis
// of symmetry, from its casting bed to its bearings on the harbour street: released,
// stored, hauled, taken up by two cranes, seated and braced; with the word pair first it
// joins two of them by a stitch. It prints the calculation.
//
// Everything about beam, cranes and ground is invented. Exit status: 0 when every check
// passes, 1 when one fails or is conditional, 2 for wrong input.
//
// An aid: a licensed engineer must confirm every result.
package main

import (
	"os"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

// standard is EN 1992 with the rules of practice for roll and for crane charts.
var standard = limits.All(limits.EN1992{}, limits.Handling{})

func main() {
	args, calculate := os.Args[1:], half
	if len(args) > 0 && args[0] == "pair" {
		args, calculate = args[1:], pair
	}
	record, err := calculate()
	os.Exit(sheet.Command(args, os.Stdout, os.Stderr, record, err))
}

// half is one half beam from its bed to its bearings.
func half() (stages.Record, error) {
	element, err := beam("H-12L", +1)
	if err != nil {
		return stages.Record{}, err
	}
	plan, err := handled(element)
	if err != nil {
		return stages.Record{}, err
	}
	return plan.Run(element, standard)
}

// handled is what one half beam goes through, everything in line with its centre of
// gravity across.
func handled(element stages.Element) (stages.Plan, error) {
	mass, err := element.CentreOfGravity()
	if err != nil {
		return nil, err
	}
	y := mass.Y
	form, err := stages.Adhesion(length, 1.3, 1*unit.Kilo, 1.35) // oiled steel below the bottom flange
	if err != nil {
		return nil, err
	}
	yard, err := limits.YardHandlingPCI.Dynamic(0.9)
	if err != nil {
		return nil, err
	}
	road, err := limits.TravelPCI.Dynamic(0.8)
	if err != nil {
		return nil, err
	}
	crane, err := limits.MobileCraneCEN.Dynamic(0.9)
	if err != nil {
		return nil, err
	}
	bearings, err := stages.Bearings(y, 600*unit.Mega, 14*unit.Mega, 0.4, length-0.4)
	if err != nil {
		return nil, err
	}
	working, err := wind(14)
	if err != nil {
		return nil, err
	}
	storm, err := wind(28)
	if err != nil {
		return nil, err
	}
	bowed := stages.Slender{Sweep: 0.015, Offset: 0.010}
	hauled, seated := bowed, bowed
	hauled.Seat = &stages.RollingSeat{Stiffness: 9 * unit.Mega, Below: 0.9, RollCentre: 0.6, HalfBase: 1.0}
	seated.Braces = &stages.Braces{
		Number: 2, Height: 1.4, Stiffness: 5 * unit.Mega, Limit: 60 * unit.Kilo, Document: "invented drawing EL-H-44",
		Places: []stages.BracePlace{{Mark: "B1", X: 0.4}, {Mark: "B2", X: length - 0.4}}, Until: "diaphragms of both ends cast and 25 MPa cylinder reached",
	}
	gantry := []stages.EquipmentItem{{Mark: "yard gantry", Kind: stages.Gantry, Supports: []int{1, 2, 3, 4}}}
	trailer := []stages.EquipmentItem{{Mark: "trailer with steered dolly", Kind: stages.Trailer, Supports: []int{1, 2, 3, 4}}}
	hooks := append(slung(2.5, y), slung(length-2.5, y)...)
	lifting := gear()
	return stages.Plan{
		stages.Transfer{Age: 2, Pretension: release(), On: across(y, 0.5, 0.3, length-0.3), Method: stages.StressingMethod{NotRead: true, Gap: 0.5 * unit.Milli, Free: "side forms, end plates, hold-downs"}},
		stages.Lift{
			Name: "release from the form", Age: 2.5, On: hooks, Dynamic: yard, Roll: 0.01, Gradient: 0.01, Slender: &bowed, Gear: &lifting,
			Actions: []stages.Action{form}, Equipment: gantry,
		},
		stages.Store{Age: 3, Until: 40, On: across(y, 0.5, 2, length-2)},
		stages.Lift{Name: "lift on to the trailer", Age: 40, On: hooks, Dynamic: yard, Roll: 0.01, Gradient: 0.01, Slender: &bowed, Gear: &lifting, Equipment: gantry},
		stages.Haul{
			Name: "haul along the harbour street", Age: 40, On: rubber(across(y, 0.5, 2.5, length-2.5)), Dynamic: road, Roll: 0.03, Gradient: 0.03, Slender: &hauled,
			Actions: []stages.Action{working, braking()}, Equipment: trailer,
		},
		stages.TakeUp{
			Name: "crane A takes up its end", Age: 40, Hanging: slung(2.5, y), Resting: across(y, 0.5, length-2.5)[:2], Dynamic: crane, Roll: 0.01, Gradient: 0.01,
			Cranes: []stages.MobileCrane{mobile("A", 9, 1, 2)}, Gear: &lifting,
		},
		stages.Lift{
			Name: "tandem lift", Age: 40, On: hooks, Dynamic: crane, Roll: 0.01, Gradient: 0.02, Slender: &bowed, Gear: &lifting,
			Actions: []stages.Action{working}, Cranes: []stages.MobileCrane{mobile("A", 9, 1, 2), mobile("B", 8.5, 3, 4)},
		},
		stages.Seat{
			Name: "seat and brace, one beam alone overnight", Age: 40, On: bearings, OutOfLevel: 2 * unit.Milli, Roll: 0.005, Slender: &seated,
			Actions: []stages.Action{storm}, Equipment: piers(),
		},
	}, nil
}

// rubber are supports on rubber mats, friction shown by the maker's test.
func rubber(supports []stages.Support) []stages.Support {
	for i := range supports {
		supports[i].Friction = 0.3
	}
	return supports
}

// wind is a gust across the beam, from either side.
func wind(speed float64) (stages.Action, error) {
	return stages.WindAcross("wind", loads.Wind{
		WindSpeed: loads.WindSpeed{Speed: speed, Averaging: loads.GustOf3s, Height: 10}, Sail: sail,
		Source: formula.Source{Document: "invented note EL-W-02"},
	}, 0, length, 0.8)
}

// braking is kN/m along the beam, either way.
func braking() stages.Action {
	return stages.Action{
		Mark: "braking", Kind: stages.Braking, Direction: stages.Along, Z: 0.95, Least: -1, Most: 1,
		Loads: loads.Set{Lines: []loads.Line{loads.Uniform(0, length, 1.2*unit.Kilo)}},
	}
}
