// Command hangers builds one span of the quarry curve of the invented Estuary Link
// span by span: ten match-cast segments of 3.6 m are suspended from an overhead gantry, two
// pairs of hanger bars each, glued and pressed by temporary bars, stressed in part while
// they hang, lowered by a part, stressed again, lowered until all load is on the pier jacks,
// stressed in full and set on bearings. The span is curved in plan and has a cross-fall, so
// that the bars of a pair do not carry alike.
//
// The numbers that a site asks for are in the record: forces of the hangers after each step,
// by how much each is shortened before the joints are closed and lowered afterwards, the
// pressure on the epoxy of each joint, the largest first stage of prestress, and what the
// others carry when one pair is lost. What holds the span along and across while it hangs,
// and the dowels of the bearings, are left to documents: the status of the record is
// conditional.
//
// Everything is invented. Exit status: 0 when every check passes, 1 when one fails or is
// conditional, 2 for wrong input.
//
// An aid: a licensed engineer must confirm every result.
package main

import (
	"math"
	"os"

	"gonum.org/v1/gonum/unit"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
	"github.com/tempstage/tempstage/stages/sheet"
)

func main() {
	record, err := calculate()
	os.Exit(sheet.Command(os.Args[1:], os.Stdout, os.Stderr, record, err))
}

var standard = limits.EN1992{}

// Steps of stressing: pairs of tendons, those of the bottom row first.
var (
	first  = []tendon.Jacking{pull("T2L", "T2R"), pull("T3L", "T3R"), pull("T1L", "T1R"), pull("T4L", "T4R")}
	chosen = 2 // of first, while the whole span hangs
	second = []tendon.Jacking{pull("T1L", "T1R")}
	rest   = []tendon.Jacking{pull("T4L", "T4R")}
)

// pull is a stressing of tendons from both ends.
func pull(marks ...string) tendon.Jacking {
	return tendon.Jacking{Tendons: marks, Stress: 1350 * unit.Mega, Ends: tendon.BothEnds, DrawIn: 6 * unit.Milli,
		Reading: tendon.Measuring{From: 270 * unit.Mega, Tail: 0.8, JackFriction: 0.03, Tolerance: tendon.ToleranceOfTendon}}
}

// pressed is the stressing of temporary bars.
func pressed(marks ...string) tendon.Jacking {
	return tendon.Jacking{Tendons: marks, Stress: 350 * unit.Mega, Ends: tendon.LeftEnd}
}

// calculate runs the span with the largest first stage of prestress and the strokes that are
// found by the engine.
func calculate() (stages.Record, error) {
	g, err := span()
	if err != nil {
		return stages.Record{}, err
	}
	h := hangers(g)
	plan := stages.Plan{
		local(segmental.HangSegments{Age: 28, Hangers: h, Order: order}),
		local(segmental.CloseJoints{Age: 29, Hangers: h, Jacks: jacks(), Epoxy: segmental.EpoxyAASHTO, Bars: []tendon.Jacking{pressed("B1L", "B1R", "B2L", "B2R")}}),
	}
	stressed := segmental.StressHung{Age: 30, Hangers: h, Jacks: jacks(), Jacking: first}
	with := func(steps int) stages.Plan {
		some := stressed
		some.Jacking = first[:steps]
		return append(plan[:2:2], local(some))
	}
	limit, err := segmental.LargestFirstStage(g, with, 3, standard, len(first))
	if err != nil {
		return stages.Record{}, err
	}
	stressed.Jacking, stressed.Limit = first[:chosen], &limit
	plan = append(plan, local(stressed))
	lost, err := segmental.HangerLost(g, plan, standard, h, 1, documents...)
	if err != nil {
		return stages.Record{}, err
	}
	strokes, err := h.Strokes(g, plan, 3, chosen, standard)
	if err != nil {
		return stages.Record{}, err
	}
	plan = append(plan, local(lost),
		local(segmental.LowerSpan{Name: "lower by a part", Age: 30, Hangers: h, Jacks: jacks(), Keep: true, Stroke: 0.25, Steps: segmental.InSteps(2, lowering(strokes, part, 0)...)}),
		local(segmental.StressHung{Name: "second-stage prestress", Age: 30.5, Hangers: h, Jacks: jacks(), Jacking: second}),
	)
	if strokes, err = h.Strokes(g, plan, len(plan), 1, standard); err != nil {
		return stages.Record{}, err
	}
	return append(plan,
		local(segmental.LowerSpan{Age: 31, Hangers: h, Jacks: jacks(), Stroke: 0.25, Reserve: reserve, Strokes: strokes, Steps: segmental.InSteps(3, lowering(strokes, 1, reserve)...)}),
		local(stages.Stress{Age: 31.5, Jacking: rest, Release: []string{"B1L", "B1R", "B2L", "B2R"}, Grout: []string{"T1L", "T1R", "T2L", "T2R", "T3L", "T3R", "T4L", "T4R"}, GroutAge: 34}),
		local(stages.Seat{Age: 36, On: bearings(), OutOfLevel: 1 * unit.Milli}),
	).Run(g, standard)
}

// What is lowered before the second stage of prestress, as a part of what takes all load off,
// and the reserve (m) of the last lowering.
const (
	part    = 0.45
	reserve = 0.006
)

// lowering is how far each pair is lowered (m): a part of its stroke and a reserve, in steps of
// 0.5 mm upwards, so that all pairs lose their load together.
func lowering(strokes []segmental.Stroke, part, reserve float64) (list []float64) {
	for _, s := range strokes {
		list = append(list, math.Ceil((part*s.Needed+reserve)/0.0005)*0.0005)
	}
	return list
}

// documents cover what the calculation does not.
var documents = []stages.Document{
	{Covers: limits.Sliding, Number: "EL-OG-07", Revision: "B", Status: "approved for construction"},
	{Covers: limits.WallSpread, Number: "EL-AZ-03", Revision: "A", Status: "approved for construction"},
	{Covers: limits.RollOverturning, Number: "EL-OG-07", Revision: "B", Status: "approved for construction"},
}

// local is a stage with those documents.
func local(stage stages.Stage) stages.Stage { return stages.Covered(stage, documents...) }

// bearings are four on elastomer, fixed along at the left end.
func bearings() []stages.Support {
	list := stages.Elastic(600*unit.Mega, stages.Pads(1.5, 0.5, length-0.5)...)
	for i := range list {
		list[i].Role, list[i].Holds = stages.Bearing, stages.HoldsAcross
		if i < 2 {
			list[i].Holds = stages.HoldsBoth
		}
	}
	return list
}
