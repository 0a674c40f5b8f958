// Command strike takes the span of 28 m that is cast in place beside the pumping station of
// the invented Estuary Link from the day on which it may be stressed: on eight rows of
// falsework towers it is stressed in three steps, by which the rows at the middle unload and
// those at the ends gain, then the rows are lowered in passes from mid-span towards the ends
// and taken away, until the span is on its bearings.
//
// The force of every row after every step is printed on the operation sheets and checked
// against its working load limit. What is below the towers is left to a document: the
// status of the record is conditional.
//
// Everything is invented. Exit status: 0 when every check passes, 1 when one fails or is
// conditional, 2 for wrong input.
//
// An aid: a licensed engineer must confirm every result.
package main

import (
	"fmt"
	"os"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

func main() {
	record, err := calculate()
	os.Exit(sheet.Command(os.Args[1:], os.Stdout, os.Stderr, record, err))
}

// calculate runs the span to its bearings.
func calculate() (stages.Record, error) {
	element, err := span()
	if err != nil {
		return stages.Record{}, err
	}
	return plan().Run(element, limits.EN1992{})
}

// plan is stressing on the falsework, striking and grouting.
func plan() stages.Plan {
	jack := func(marks ...string) tendon.Jacking {
		return tendon.Jacking{Tendons: marks, Stress: 1400 * unit.Mega, Ends: tendon.BothEnds, DrawIn: 6 * unit.Milli, Seating: tendon.PowerSeated, LockOff: tendon.AllAtOnce,
			Reading: tendon.Measuring{From: 280 * unit.Mega, Tail: 0.8, JackFriction: 0.03, Tolerance: tendon.ToleranceOfTendon}}
	}
	method := stages.StressingMethod{NotRead: true, Gap: 15 * unit.Milli, Free: "side forms, bearing locks", Protection: "ducts closed", GroutBy: 14}
	return stages.Plan{
		grounded(stages.CastInPlace{Age: 7, On: rows(), Jacking: []tendon.Jacking{jack("W1L", "W1R"), jack("W2L", "W2R"), jack("FL", "FR")}, Method: method}),
		grounded(stages.Strike{
			Age: 8, On: rows(), Missed: []string{"R1", "R3"}, Passes: []stages.StrikePass{
				{Rows: []string{"R4", "R5"}, By: 15 * unit.Milli}, {Rows: []string{"R3", "R6"}, By: 15 * unit.Milli}, {Rows: []string{"R4", "R5"}},
				{Rows: []string{"R2", "R7"}, By: 15 * unit.Milli}, {Rows: []string{"R3", "R6"}}, {Rows: []string{"R1", "R8"}, By: 15 * unit.Milli}, {Rows: []string{"R1", "R2", "R7", "R8"}},
			},
		}),
		grounded(stages.Stress{Age: 12, Grout: []string{"W1L", "W1R", "W2L", "W2R", "FL", "FR"}}),
	}
}

// rows are the eight rows of two towers and the four bearings.
func rows() stages.FalseworkRows {
	f := stages.FalseworkRows{Mark: "FW1", Bearing: 2.2 * unit.Mega, Document: "EL-FW-7"}
	for i, x := range []float64{1.5, 5.1, 8.65, 12.2, 15.8, 19.35, 22.9, 26.5} {
		r := stages.FalseworkRow{Mark: fmt.Sprintf("R%d", i+1), X: x, Y: []float64{-1.5, 1.5}, Stiffness: 60 * unit.Mega, Capacity: 400 * unit.Kilo}
		if i == 0 || i == 7 { // on the pile caps
			r.Stiffness, r.Capacity = 300*unit.Mega, 900*unit.Kilo
		}
		f.Rows = append(f.Rows, r)
	}
	f.Bearings = stages.Elastic(200*unit.Mega, stages.Pads(1.45, 0.5, length-0.5)...)
	for i := range f.Bearings {
		f.Bearings[i].Role, f.Bearings[i].Holds = stages.Bearing, stages.HoldsAcross
		if i < 2 {
			f.Bearings[i].Holds = stages.HoldsBoth
		}
	}
	return f
}

// grounded is a stage whose towers, foundations and bearings' fixings are shown by documents.
func grounded(stage stages.Stage) stages.Stage {
	return stages.Covered(stage,
		stages.Document{Covers: limits.LocalForce, Number: "EL-FW-7", Revision: "B", Status: "approved for construction"},
		stages.Document{Covers: limits.Sliding, Number: "EL-BR-12", Revision: "A", Status: "approved for construction"})
}
