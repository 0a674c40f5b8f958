package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// Hold points of a step stand once with their strictest value: a strength of the first day in
// front, one of a later day before its movement, anchors of one strength in one row, a weight
// with the smallest that stops.
func TestHoldPointsOfAStepStandOnce(t *testing.T) {
	strength := func(value float64) derive.HoldPoint {
		return derive.HoldPoint{Kind: "strength", Required: formula.Q("f", value, formula.Pascal, "characteristic cylinder strength")}
	}
	anchors := func(value float64, pieces ...string) derive.HoldPoint {
		return derive.HoldPoint{Kind: stages.AtAnchors, Required: formula.Q("f", value, formula.Pascal, "mean cylinder strength"), Pieces: pieces}
	}
	weight := func(value float64) derive.HoldPoint {
		return derive.HoldPoint{Kind: "segment L2 weighed", AtMost: true, Required: formula.Q("W", value, formula.Newton, "weight")}
	}
	document := derive.HoldPoint{Kind: "fixings", Document: &derive.Document{Number: "D1", Revision: "A", Status: "approved"}}
	stage := stages.StageRecord{Number: 2, Situations: []stages.SituationRecord{
		{Age: 40, HoldPoints: []derive.HoldPoint{strength(20e6), weight(900e3), document}},
		{Age: 40, HoldPoints: []derive.HoldPoint{strength(30e6), anchors(25e6, "L1", "L2"), weight(800e3), document}},
		{Age: 40, HoldPoints: []derive.HoldPoint{strength(25e6), anchors(25e6, "R1", "R2"), weight(850e3)}},
		{Age: 42, HoldPoints: []derive.HoldPoint{strength(35e6), anchors(30e6, "L2")}},
	}}
	a := passed(t, Settings{})
	var names, required []string
	for _, h := range a.heldThrough(stage) {
		names, required = append(names, h.name()), append(required, h.required)
	}
	require.Equal(t, []string{"Concrete strength", "Segment L2 weighed", "Fixings", "Strength at anchors of L1, L2, R1, R2, before 2.2, 2.3", "Concrete strength, before 2.4", "Strength at anchors of L2, before 2.4"}, names)
	for i, words := range []string{"30 MPa", "800 kN", "D1", "25 MPa", "35 MPa", "30 MPa"} {
		require.Contains(t, required[i], words, names[i])
	}
}
