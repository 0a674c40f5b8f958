package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// walking is a gantry that stands by in a position, with what the form may not ask twice.
func walking(name string, at, foot float64) stages.EquipmentItem {
	return stages.EquipmentItem{Mark: "LG1", Kind: stages.Gantry, Facts: []stages.Fact{{Name: "wind basis", Text: "gust"}}, Positions: []stages.EquipmentPosition{{Name: name, Facts: []stages.Fact{
		{Name: "rear end at x", Value: at, Unit: formula.Metre}, {Name: "main leg on", Text: "P8"}, {Name: "each foot, main", Value: foot, Unit: formula.Newton, Sense: limits.AtLeast},
	}}}}
}

// seated is an element that stands on its bearings from the first situation on, with loads.
func seated(loads ...stages.Load) func(*stages.Record) {
	return func(r *stages.Record) {
		for i := range r.Stages {
			for k := range r.Stages[i].Situations {
				s := &r.Stages[i].Situations[k]
				s.Phase = string(limits.Seating)
				for n := range s.Supports {
					s.Supports[n].Role = stages.Bearing
				}
				if i == 1 {
					s.Supports, s.Reactions, s.Bodies, s.Together = r.Stages[0].Situations[0].Supports, r.Stages[0].Situations[0].Reactions, r.Stages[0].Situations[0].Bodies, nil
					s.Total, s.Standing, s.Loads = r.Stages[0].Situations[0].Total, true, append(s.Loads, loads...)
				}
			}
		}
	}
}

// Where equipment only passes, nothing is read; its positions are a table, forces rounded up,
// what it brings is not listed again, and what it must not do is said.
func TestEquipmentThatPasses(t *testing.T) {
	foot := stages.Load{Mark: "LG1 main, left foot", From: 3, To: 3, Centre: 3, Force: 20e3, Kind: string(limits.Equipment), Presence: stages.Range{Least: 0.5, Most: 1}}
	crew := stages.Load{Mark: "crew", From: 3, To: 3, Centre: 3, Force: 2e3, Kind: string(limits.Equipment), Presence: stages.Range{Least: 0, Most: 1}}
	a := passed(t, Settings{}, seated(foot, crew), with(1, walking("rolls", -30, 1572.41e3)))
	page := operationPages(a)[1]
	for _, words := range []string{
		"| Position of gantry LG1 | rear end at x, m | main leg on | each foot, main, kN |", "| rolls | −30 | P8 | 1573 |",
		"what gantry LG1 brings as stated above; crew at x = 3 m", "- Before each position: legs, anchor bars, brakes and locked trolleys as its row below says, verified and signed: ",
		"its supports are not read", "- a leg, foot, bar or trolley of the gantry is not as listed, settles or lifts off", "- the wind exceeds its limit",
	} {
		require.Contains(t, strings.ReplaceAll(page, `\_`, "_"), words)
	}
	for _, words := range []string{"left foot", "Read kN", "accept if", "the measured total", "Hoists, which pair", "Position, legs", "Anchor bars: number"} {
		require.NotContains(t, page, words)
	}
	require.Contains(t, operationPages(passed(t, Settings{}))[0], "the measured total", "where the element is set down it is read")
}

// Positions of the situations of a stage are rows of one table; other facts make another item.
func TestPositionsOfAStage(t *testing.T) {
	second := func(of stages.EquipmentItem) func(*stages.Record) {
		return another(func(s *stages.SituationRecord) { s.Equipment = []stages.EquipmentItem{of} })
	}
	a := passed(t, Settings{}, with(0, walking("rolls", -30, 1e6)), second(walking("lands", -15, 2e6)))
	list := equipmentOf(a.record.Stages[0])
	require.Len(t, list, 1)
	require.Len(t, list[0].Positions, 2)
	require.Len(t, a.record.Stages[0].Situations[0].Equipment[0].Positions, 1, "the record is as it was")
	changed := walking("lands", -15, 2e6)
	changed.Facts = []stages.Fact{{Name: "wind basis", Text: "mean"}}
	require.Len(t, equipmentOf(passed(t, Settings{}, with(0, walking("rolls", -30, 1e6)), second(changed)).record.Stages[0]), 2)
}

// A fact in another unit than that of its column keeps its own.
func TestAColumnHasOneUnit(t *testing.T) {
	odd := walking("rolls", -30, 1e6)
	other := walking("lands", 2, 2e6)
	other.Positions[0].Facts[0] = stages.Fact{Name: "rear end at x", Value: 3e3, Unit: formula.Newton}
	odd.Positions = append(other.Positions, odd.Positions...)
	page := operationPages(passed(t, Settings{}, seated(), with(1, odd)))[1]
	require.Contains(t, page, "| lands | 3 kN | P8 | 2000 |")
	require.Contains(t, page, "| rolls | −30 | P8 | 1000 |")
}

// The jacks of an operation have a form, in place of the blanks for any.
func TestTheFormOfJacks(t *testing.T) {
	jacked := first(func(s *stages.SituationRecord) {
		s.Phase = string(limits.Seating)
		for n := range s.Supports {
			s.Supports[n].Role = stages.Jack
		}
	})
	jacks := stages.EquipmentItem{Mark: "jacks", Kind: stages.Jacks, Supports: []int{1, 2}, Facts: []stages.Fact{
		{Name: "linked", Text: "1 + 2"}, {Name: "stroke", Value: 0.2509, Unit: formula.Metre, Sense: limits.AtMost}, {Name: "difference across", Value: 0.00489, Unit: formula.Metre, Sense: limits.AtMost},
	}}
	page := strings.ReplaceAll(operationPages(passed(t, Settings{}, jacked, with(0, jacks)))[0], `\_`, "_")
	for _, words := range []string{"| Linked | 1 + 2 |", "| Jack numbers, gauges, calibration |  |", "| Stroke; residual at least | 0.2509 m; ____ |", "| Level difference ≤: along; across | ____; 4.89 mm |", "the packing beside it"} {
		require.Contains(t, page, words)
	}
	require.NotContains(t, page, "Greatest difference between jacks")
	require.Contains(t, operationPages(passed(t, Settings{}, jacked))[0], "Greatest difference between jacks")
}

// An element that rests at one end and hangs by the other is fed: its movements are those of
// two supports that go together.
func TestFeeding(t *testing.T) {
	a := passed(t, Settings{}, craned, func(r *stages.Record) {
		s := &r.Stages[1].Situations[0]
		for n := range 2 {
			s.Supports[n].Role, s.Reactions[n].Role = stages.Pad, stages.Pad
		}
	})
	page := strings.ReplaceAll(operationPages(a)[1], `\_`, "_")
	for _, words := range []string{
		"Take up this end alone in small increments, one signaller, until it is just clear", "- Feed: trolley and what carries the other end start, travel and stop together under one leader",
		"Back, or on, only to a position of a row.", "| Safe state to return to | at rest, in a position of its row |",
	} {
		require.Contains(t, page, words)
	}
	for _, words := range []string{"Trial lift", "Lift, travel, slew or lower", "over the supports of sheet"} {
		require.NotContains(t, page, words)
	}
}
