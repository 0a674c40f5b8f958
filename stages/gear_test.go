package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/rigging"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

func anchorOf(load float64) *rigging.Anchor {
	return &rigging.Anchor{
		Mark: "invented anchor 32", Source: formula.Source{Document: "invented maker's manual"}, Specimen: concrete.Cube,
		Loads:  []rigging.AtStrength{{Strength: 15e6, Load: 0.6 * load}, {Strength: 25e6, Load: 0.8 * load}, {Strength: 35e6, Load: load}},
		Angles: []rigging.AtAngle{{FromAxis: 0.2, Share: 1}, {FromAxis: 0.6, Share: 0.8}}, Edges: []rigging.AtEdge{{Distance: 0.2, Share: 0.9}, {Distance: 0.4, Share: 1}},
	}
}

func geared(t testing.TB, gear stages.Gear) stages.Plan {
	plan := tandem(t)
	lift := plan[1].(stages.Lift)
	lift.Gear = &gear
	plan[1] = lift
	return plan
}

// The sling with the largest force: half of the hook along its inclined length, against
// the limit of sling and anchor; the strength that the maker asks for is a hold point.
func TestGearByHand(t *testing.T) {
	beam := slenderBeam(t)
	mass, err := beam.CentreOfGravity()
	require.NoError(t, err)
	// On two hooks, two slings each from ±0.3 m to 5.1 m above.
	incline := math.Hypot(0.3, 5.1) / 5.1
	force := 1.02 * 1.1 * mass.Weight / 4 * incline
	run := func(sling, load float64) stages.SituationRecord {
		record, err := geared(t, stages.Gear{Sling: sling, Anchor: anchorOf(load), Edge: 0.3, Document: "invented certificate"}).Run(beam, handling)
		require.NoError(t, err)
		require.NoError(t, record.Check())
		return record.Stages[1].Situations[0]
	}
	s := run(force*1.0001, force/0.9*1.0001)
	sling, anchor, angle := rollOf(t, s, limits.SlingForce), rollOf(t, s, limits.AnchorForce), rollOf(t, s, limits.SlingAngle)
	require.InEpsilon(t, force, sling.Demand.Value, 1e-6)
	require.Equal(t, stages.Pass, sling.State)
	require.InEpsilon(t, math.Atan(0.3/5.1), angle.Demand.Value, 1e-6)
	require.InEpsilon(t, math.Pi/3, angle.Limit.Value, 1e-12)
	require.Equal(t, stages.Pass, anchor.State)
	required := 0.0
	for _, h := range s.HoldPoints {
		if h.Kind == "lifting anchors" {
			required = h.Required.Value
		}
	}
	require.Equal(t, 35e6, required)
	s = run(force*0.9999, force/0.9*0.9999)
	require.Equal(t, stages.Fail, rollOf(t, s, limits.SlingForce).State)
	require.Equal(t, stages.Fail, rollOf(t, s, limits.AnchorForce).State)
	s = run(0, 2*force)
	require.Nil(t, rollOf(t, s, limits.SlingForce))
	for _, h := range s.HoldPoints {
		if h.Kind == "lifting anchors" {
			required = h.Required.Value
		}
	}
	require.Equal(t, 15e6, required, "the lowest row of the table that is enough")
}

// An anchor whose table ends above the strength of the day is not evaluated and does not
// pass.
func TestAnchorBelowItsTable(t *testing.T) {
	anchor := anchorOf(1e6)
	for i := range anchor.Loads {
		anchor.Loads[i].Strength += 60e6
	}
	record, err := geared(t, stages.Gear{Anchor: anchor, Edge: 0.3}).Run(slenderBeam(t), handling)
	require.NoError(t, err)
	c := rollOf(t, record.Stages[1].Situations[0], limits.AnchorForce)
	require.Equal(t, stages.NotEvaluated, c.State)
	require.Contains(t, c.Note, "invented anchor 32")
}

func TestGearMustBe(t *testing.T) {
	for words, gear := range map[string]stages.Gear{
		"Gear.Sling = 5 N": {Sling: 5, Document: "d"}, "Gear.Document": {Sling: 50e3}, "Gear.FromVertical": {FromVertical: 60}, "Gear.FromAxis": {FromAxis: math.NaN()},
		"Gear.Edge = 0 m": {Anchor: anchorOf(1e5)}, "Anchor.Mark": {Anchor: &rigging.Anchor{}, Edge: 1},
	} {
		_, err := geared(t, gear).Run(slenderBeam(t), handling)
		require.ErrorContains(t, err, words)
		require.ErrorContains(t, err, "must be")
	}
}
