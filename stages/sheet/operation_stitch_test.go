package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// joinedAt makes two bodies of the first stage, each on two supports at these places, that an
// element joins in a second situation.
func joinedAt(left, right [2]float64) func(*stages.Record) {
	return func(r *stages.Record) {
		s := r.Stages[0].Situations[0]
		s.Name, s.Phase, s.Bodies = "matched", string(limits.Seating), []stages.BodyRecord{{Elements: []string{"L"}, Total: stages.Range{Least: 360e3, Most: 380e3}}, {Elements: []string{"R"}, Total: stages.Range{Least: 360e3, Most: 380e3}}}
		pad := s.Reactions[0]
		pad.Share = &stages.Range{Least: 0.45, Most: 0.55}
		s.Reactions, s.Supports = nil, nil
		for body, places := range [][2]float64{left, right} {
			for _, x := range places {
				one := pad
				one.Body, one.X, one.Y = body+1, x, float64(2*body-1)
				s.Reactions = append(s.Reactions, one)
				s.Supports = append(s.Supports, stages.Support{X: one.X, Y: one.Y, Role: stages.Pad})
			}
		}
		pull := stages.Check{
			Kind: limits.PullForce, Name: "pull", State: stages.Pass, Sense: limits.AtMost,
			Demand: formula.Q("F", 12e3, formula.Newton, "pull"), Limit: formula.Q("F_max", 150e3, formula.Newton, "pull"), Margin: 138e3, Utilisation: 0.08,
		}
		s.Checks = append(append([]stages.Check{}, s.Checks...), pull)
		after := s
		after.Name, after.Day, after.Age, after.Bodies, after.Added, after.Joined = "joined", 10, 10, nil, []string{"S"}, []string{"S"}
		after.Reactions = append([]stages.Reaction{}, s.Reactions...)
		for i := range after.Reactions {
			after.Reactions[i].Body, after.Reactions[i].Share, after.Reactions[i].Static.Most = 0, &stages.Range{Least: 0.2, Most: 0.3}, 170e3
		}
		h := strengthPoint(2e6)
		h.Pieces, h.Tested = []string{"S"}, []formula.Quantity{formula.Q("f_ck_cube", 2.5e6, formula.Pascal, "characteristic cube"), formula.Q("f_cm", 10e6, formula.Pascal, "mean of 3 cylinders")}
		after.HoldPoints = []derive.HoldPoint{h}
		r.Stages[0].Situations = []stages.SituationRecord{s, after}
	}
}

// cantilevered are words of elements joined end to end.
var cantilevered = []string{"epoxy", "Frame position", "arms", "out-of-balance", "Segment number"}

// A stitch between halves side by side has the content of a pour: levels, braces, strength.
func TestOperationSheetOfAStitch(t *testing.T) {
	page := operationPages(passed(t, Settings{}, joinedAt([2]float64{2, 16}, [2]float64{2, 16})))[0]
	for _, words := range []string{
		"First brace both halves: braced they stay, nothing on the deck but the pour, until the stitch has its strength.",
		"Pull them level, if so: with at most 150 kN, by", "; hold it until the stitch has its strength. A limit still exceeded: do not cast, call the engineer.",
		"Cast S in one pour", "joined on project day 10 at the earliest", "released by the engineer (signed, time)", "| Braces of the halves | fixed, drawing no. ", "; off only as below, by the engineer |",
		"| Pour: date, from, to; lighting at night |  |", "| Curing: how, until |  |", "| Cubes: numbers, cured where, tested on |  |", "- a half, a brace or the shutter moves, or the pour is interrupted\n",
		"| before 1.2: Concrete strength | S: cylinder: char. ≥ 2 MPa or mean of 3+ ≥ 10 MPa; or cube: char. ≥ 2.5 MPa |",
	} {
		require.Contains(t, page, words)
	}
	for _, words := range append(cantilevered, "a joint opens", "parked", "add S") {
		require.NotContains(t, page, words)
	}
	require.Contains(t, operationPages(passed(t, Settings{Units: US}, joinedAt([2]float64{2, 16}, [2]float64{2, 16})))[0], "with at most 33.72 kip, by")
	none := func(r *stages.Record) {
		for i := range r.Stages[0].Situations {
			s := &r.Stages[0].Situations[i]
			s.Checks = s.Checks[:1]
		}
	}
	require.Contains(t, operationPages(passed(t, Settings{}, joinedAt([2]float64{2, 16}, [2]float64{2, 16}), none))[0], "Nothing is pulled level: the calculation has no force for it.")
}

// Elements that are joined end to end keep the content of a cantilever.
func TestOperationSheetOfElementsJoinedEndToEnd(t *testing.T) {
	page := operationPages(passed(t, Settings{}, joinedAt([2]float64{2, 7}, [2]float64{12, 17})))[0]
	for _, words := range append(cantilevered, "a joint opens") {
		require.Contains(t, page, words)
	}
	require.NotContains(t, page, "Braces of the halves")
	require.NotContains(t, page, "Cast S")
}

// Bands that repeat are in one table, a row for the supports that have them, with room for
// each support and situation beside its place.
func TestReadingsOfSupportsAlikeTogether(t *testing.T) {
	a := passed(t, Settings{}, joinedAt([2]float64{2, 16}, [2]float64{2, 16}))
	list := restingAlike(a.record.Stages[0])
	require.True(t, a.alikeReadings(list))
	var names []string
	bands := rowsOf(a.bandsTogether(list, true))
	for _, r := range bands {
		names = append(names, r[0])
	}
	require.Equal(t, []string{"1.1 pads 1, 2", "1.1 total of L", "1.1 pads 3, 4", "1.1 total of R", "1.2 pads 1 to 4", "1.2 total"}, names)
	require.Equal(t, []string{"155", "165", "150", "170", "140", "230"}, bands[0][1:7])
	require.Equal(t, shareBand(list[0].situation.Reactions[0]), bands[0][7])
	require.Equal(t, []string{"155", "170"}, bands[4][1:3], "the joined ones have their own")
	room := rowsOf(a.roomTogether(list))
	require.Equal(t, []string{"x m", "2.000", "16.000", "2.000", "16.000", "", ""}, room[0])
	require.Equal(t, []string{"y m", "−1.000", "−1.000", "1.000", "1.000", "", ""}, room[1])
	require.Equal(t, []string{"1.1 kN; %", "", "", "", "", "L:", "R:"}, room[2])
	require.Equal(t, []string{"1.2 kN; %", "", "", "", "", "", ""}, room[3])

	unlike := passed(t, Settings{}, joinedAt([2]float64{2, 16}, [2]float64{2, 16}), first(func(s *stages.SituationRecord) {
		for i := range s.Reactions {
			s.Reactions[i].Ultimate.Most += float64(i) * 20e3
		}
	}))
	require.False(t, unlike.alikeReadings(restingAlike(unlike.record.Stages[0])), "bands that differ have a row each")
}
