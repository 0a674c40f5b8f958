package main

import (
	"fmt"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/segmental"
)

// hangers are the pairs of bars from the overhead gantry OG1, two pairs at each segment. The
// gantry is level and the deck rises by 4 %, so that the bars are of unlike length. The line
// of the pairs is straight, in the middle between the ends of the arc and its crown.
func hangers(g stages.Girder) segmental.Hangers {
	h := segmental.Hangers{
		Gantry: beam.Link{Name: "OG1", At: -14, Layout: beam.Layout{Length: 76, Stiffness: []beam.Stretch{{BendingStiffness: 27e9}}, Supports: []beam.Support{{At: 14}, {At: 14 + length}}}},
		Area:   1018 * 1e-6, Modulus: 205e9, Limit: 300 * unit.Kilo, Document: "invented certificate EL-HB-2", Spread: 5, Line: -0.27, CrossFall: -0.03, Level: depth + 0.1,
	}
	for k, p := range g.Pieces {
		for j, off := range []float64{1, 3.5} {
			x := p.At + off
			h.List = append(h.List, segmental.Hanger{Mark: fmt.Sprintf("H%d%c", k+1, "ab"[j]), X: x, Length: 6.2 - 0.04*x})
		}
	}
	return h
}

// jacks are those at the piers, in guides that hold the span along and across.
func jacks() []stages.Support {
	list := stages.Elastic(900*unit.Mega, stages.Pads(1.5, 0.5, length-0.5)...)
	for i := range list {
		list[i].Role, list[i].Holds = stages.Jack, stages.HoldsBoth
	}
	return list
}

// order is the sequence in which the segments are hung: from both ends to the middle.
var order = []string{"S1", "S8", "S2", "S7", "S3", "S6", "S4", "S5"}
