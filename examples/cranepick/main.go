// Command cranepick is a single pick by one crane on outriggers beside a quay wall of the
// invented Estuary Link. Exit status: 0 when all is kept, 1 when not, 2 for wrong input.
//
// An aid: a licensed engineer must confirm every result.
package main

import (
	"math"
	"os"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/rigging"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/sheet"
)

const mass, sail = 41e3, 26.0 // kg, m²: a parapet frame

func main() {
	record, kept, err := pick()
	if status := sheet.Command(os.Args[1:], os.Stdout, os.Stderr, record, err); status != 0 || kept {
		os.Exit(status)
	}
	os.Exit(1)
}

func pick() (record stages.Record, kept bool, err error) {
	chart := rigging.Chart{
		Crane: "invented crane, 100 t", Configuration: "boom 31 m, counterweight 24 t", Source: formula.Source{Document: "invented chart M-100, edition 2"},
		Rows: []rigging.Capacity{{Radius: 6, Load: 690e3}, {Radius: 8, Load: 560e3}, {Radius: 10, Load: 430e3}}, Wind: 9.8, Averaging: loads.GustOf3s, Height: 10,
	}
	lift := rigging.Pick{Chart: chart, Radius: 7.4, Load: rigging.Range{Least: 0.97 * mass * 9.80665, Most: 1.03 * mass * 9.80665}, Dynamic: 1.15, Rigging: 9e3, HookBlock: 7e3, Part: 1}
	use, err := lift.Solve()
	if err != nil {
		return record, false, err
	}
	stand := rigging.Outriggers{Along: 7.6, Across: 7.0, Carrier: 360e3, Upper: 380e3, UpperRadius: -1.2, Load: use.Gross, Radius: lift.Radius}
	legs, err := stand.Worst(0, math.Pi)
	if err != nil {
		return record, false, err
	}
	mat := rigging.Mat{Length: 3, Width: 2, Weight: 15e3, Foot: 0.6, Bending: 350e3, Ground: 180e3, Edge: 4.2, EdgeNeeded: 4, Force: legs.Most()}
	pressed, err := mat.Solve()
	parts := []stages.ResultPart{{Title: "Use of the chart"}, {Title: "Outriggers at the worst slew"}, {Title: "Mat below the largest"}, {Title: "Wind limit"}}
	wind, at := func() ([]formula.Line, error) { return chart.WindLines(mass, sail) }, func() ([]formula.Line, error) { return stand.Lines(legs.Slew) }
	for i, lines := range []func() ([]formula.Line, error){lift.Lines, at, mat.Lines, wind} {
		if err == nil {
			parts[i].Lines, err = lines()
		}
	}
	if err != nil {
		return record, false, err
	}
	load := formula.Given(formula.Q("m", mass, formula.Kilogram, "mass of the frame, weighed"), formula.Source{Document: "input"})
	record, err = stages.Results{
		Mark: "parapet frame", Length: 12, Inputs: []stages.Lines{{Title: "Load", Lines: []formula.Line{load}}}, Parts: parts, NotChecked: []string{"slings, frame, ground below the load spread"},
	}.Record()
	return record, use.Utilisation <= 1 && pressed.Utilisation <= 1 && pressed.EdgeKept, err
}
