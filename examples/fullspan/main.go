// Command fullspan takes one 34 m box girder of the invented Estuary Link from
// its casting bed to its bearings and prints the calculation.
//
// Everything about the girder is invented. Exit status: 0 when every check
// passes, 1 when one fails or is conditional, 2 for wrong input.
package main

import (
	"os"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

const length = 34.0 // m

var box = section.Box{
	Depth: 2.3, TopWidth: 9.0, RootWidth: 4.9, BottomWidth: 4.3,
	TopSlab: 0.20, BottomSlab: 0.20, WebThickness: 0.34, CantileverRoot: 0.35, CantileverTip: 0.16,
	TopHaunch: section.Haunch{Width: 0.5, Height: 0.15}, BottomHaunch: section.Haunch{Width: 0.3, Height: 0.15},
}

func main() {
	record, err := calculate()
	os.Exit(sheet.Command(os.Args[1:], os.Stdout, os.Stderr, record, err))
}

func calculate() (stages.Record, error) {
	shape, err := box.Shape()
	if err != nil {
		return stages.Record{}, err
	}
	girder := stages.Element{
		Mark: "E-07", Length: length, Section: shape, WeightTolerance: loads.PlusMinus(0.03),
		Concrete: concrete.EN1992{
			Fck: 50 * unit.Mega, Cement: concrete.ClassR,
			Tests: []concrete.Test{{
				Age: 2, Strength: 46 * unit.Mega, Specimen: concrete.Cube, Specimens: 6, Statistic: concrete.Mean, Report: "invented report EL-C-0207",
			}},
		},
		Extra: []stages.ExtraWeight{
			{Mark: "diaphragm, left", From: 0.4, To: 1.2, Weight: 110 * unit.Kilo},
			{Mark: "diaphragm, right", From: length - 1.2, To: length - 0.4, Weight: 110 * unit.Kilo},
			{Mark: "anchor blocks, left", From: 0, To: 0.4, Weight: 16 * unit.Kilo},
			{Mark: "anchor blocks, right", From: length - 0.4, To: length, Weight: 16 * unit.Kilo},
		},
		Tendons: tendons(),
	}
	jack := func(marks ...string) tendon.Jacking {
		return tendon.Jacking{Tendons: marks, Stress: 1400 * unit.Mega, Ends: tendon.BothEnds, DrawIn: 6 * unit.Milli}
	}
	plan := stages.Plan{
		stages.Transfer{Age: 2, Jacking: []tendon.Jacking{jack("W2L", "W2R"), jack("W3L", "W3R"), jack("W4L", "W4R")}},
		stages.Lift{Name: "lift from the bed by straddle carrier", Age: 2.5, On: stages.At(4, length-4), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}},
		stages.Store{Age: 3, Until: 14, On: stages.Pads(1.9, 1.6, length-1.6)},
		stages.Stress{
			Age: 14, Jacking: []tendon.Jacking{jack("W1L", "W1R")},
			Grout: []string{"W1L", "W1R", "W2L", "W2R", "W3L", "W3R", "W4L", "W4R"}, GroutAge: 16,
		},
		stages.Lift{Name: "hoist by the launching gantry", Age: 28, On: stages.At(4, length-4), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}},
		stages.Seat{Name: "seat on the bearings", Age: 28, On: stages.Pads(1.9, 0.7, length-0.7)},
	}
	return plan.Run(girder, limits.EN1992{})
}

// tendons are four in each web, W1 the lowest, in the middle of the sloping webs.
func tendons() []tendon.Tendon {
	approval := tendon.Approval{Reference: "invented approval EL-PT-12", MeanStrength: 30 * unit.Mega, AnchorSpacing: 0.34, EdgeDistance: 0.165}
	lean := (box.WebCentre(1) - box.WebCentre(0)) // m/m, of the web
	var list []tendon.Tendon
	for i, level := range []struct{ anchor, low float64 }{{0.45, 0.14}, {0.83, 0.27}, {1.21, 0.40}, {1.59, 0.53}} {
		elevation := tendon.Drape(tendon.Point{X: 0, Ordinate: level.anchor}, 2.5, tendon.Point{X: 13, Ordinate: level.low}, length)
		for _, side := range []struct {
			mark string
			y    float64
		}{{"L", 1}, {"R", -1}} {
			list = append(list, tendon.Tendon{
				Mark: "W" + string(rune('1'+i)) + side.mark, Strand: tendon.Y1860S7x157, Strands: 12, Duct: 0.09,
				Elevation: elevation, Plan: elevation.Leaning(side.y*box.WebCentre(0), 0, side.y*lean),
				Friction: 0.19, Wobble: 0.005, Approval: approval,
			})
		}
	}
	return list
}
