package sheet

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// tandem are two cranes, the first with facts, on the lift points of [craned].
func tandem() []stages.EquipmentItem {
	return []stages.EquipmentItem{
		{Mark: "C1", Kind: stages.Crane, Supports: []int{2, 1}, Facts: []stages.Fact{
			{Name: "configuration", Text: "main boom 24 m"}, {Name: "radius at pick", Value: 9.99999, Unit: formula.Metre, Sense: limits.AtMost},
			{Name: "chart capacity", Value: 612.39e3, Unit: formula.Newton, Sense: limits.AtMost}, {Name: "deductions", Value: 31.411e3, Unit: formula.Newton, Sense: limits.AtLeast},
			{Name: "wind limit", Value: 9.8, Unit: formula.MetrePerSecond, Sense: limits.AtMost}, {Name: "night work", Text: "not allowed"},
		}},
		{Mark: "C2", Kind: stages.Crane, Supports: []int{3, 4}},
	}
}

// Named cranes have their form alone: no gantry, nothing to strike out, their columns named
// by mark and supports, what is stated in place of blanks, rounded to the safe side.
func TestTheFormOfNamedCranes(t *testing.T) {
	page := strings.ReplaceAll(operationPages(passed(t, Settings{}, craned, with(1, tandem()...)))[1], `\_`, "_")
	for _, line := range []string{
		"**Crane C1:** main boom 24 m", "| Set-up | crane C1, at supports 1 + 2 | signed | crane C2, at supports 3 + 4 | signed |",
		"| Configuration as above |  |  |  |  |",
		"| Radius max: pick / slew / set, m | 9.999 / ____ / ____ |  |  |  |", "| Measured: pick / slew / set, m |  |  |  |  |",
		"| Radius; chart × share = derated | ____; 612.3 kN × ____ = ____ |  |  |  |",
		"| Gross; block + rigging in it; utilisation | ____; 31.42 kN; ____ |  |  |  |",
		"| Outrigger char.; mat; permissible |  |  |  |  |", "| Out of level: limit / measured |  |  |  |  |", "| Radius: tail swing / exclusion, m |  |  |  |  |",
		"| Wind limit; its basis; parked | 9.8 m/s; ____; ____ |  |  |  |",
		"| Night work | not allowed |  |  |  |",
		"| Crane loads, kN | 1 | 2 | 3 | 4 | C1: 1 + 2 | C2: 3 + 4 | all |",
	} {
		require.Contains(t, page, line)
	}
	require.Contains(t, page, "**Wind:** stop at the smallest of the hold point above and the limits of the equipment")
	for _, words := range []string{"strike out", "Gantry", "gantry", "chart of ____"} {
		require.NotContains(t, page, words)
	}
	us := operationPages(passed(t, Settings{Units: US}, craned, with(1, tandem()...)))[1]
	require.Contains(t, us, "| Radius max: pick / slew / set, ft | 32.8 / ")
	require.Contains(t, us, "; 137.6 kip × ")
	require.Contains(t, us, "| 21.92 mph; ")
}

// A gantry has its own form, two rows beside one another, and its hooks.
func TestTheFormOfAGantry(t *testing.T) {
	gantry := stages.EquipmentItem{Mark: "LG1", Kind: stages.Gantry, Supports: []int{1, 2, 3, 4}, Facts: []stages.Fact{{Name: "last span", Text: "stressed, grout closed"}}}
	page := operationPages(passed(t, Settings{}, craned, with(1, gantry)))[1]
	for _, words := range []string{
		"**Gantry LG1, at supports 1 + 2 + 3 + 4:**", "| Position, legs |  |", "| Anchor bars: number, force |  |", "| Trolleys at x of the element, left / right, m |  |",
		"| Rated − deducted = derated; what, kN |  |", "| Span below: stressed, bedding mortar | stressed, grout closed |",
		"| Hook loads, kN | 1 | 2 | 3 | 4 | 1 + 2 | 3 + 4 | LG1: all |", "| At rest, max: for a rating with the hoisting factor in it |",
	} {
		require.Contains(t, page, words)
	}
	for _, words := range []string{"strike out", "Outriggers", "slew and set", "bedding mortar of the last span closed"} {
		require.NotContains(t, page, words)
	}
}

// Lift points that no named equipment holds keep the form of any crane or hoist.
func TestLiftPointsThatNobodyHolds(t *testing.T) {
	page := operationPages(passed(t, Settings{}, craned, with(1, tandem()[0])))[1]
	require.Contains(t, page, "| Set-up | crane C1 | signed | Set-up |  | signed |")
	require.Contains(t, page, "| Lift points 3 + 4: strike out what does not apply | Crane or hoist 1, at supports ______ |")
	none := operationPages(passed(t, Settings{}, craned))[1]
	require.Contains(t, none, "| Lifting supervisor: strike out what does not apply |")
	require.Contains(t, none, "| Gantry: bedding mortar of the last span closed |")
}

// A carrier takes the place of the blanks of any haul; piers and stacks have forms too.
func TestTheFormOfACarrierAndOfPiers(t *testing.T) {
	hauled := first(func(s *stages.SituationRecord) { s.Phase = string(limits.Hauling) })
	carrier := stages.EquipmentItem{Mark: "GC1", Kind: stages.Carrier, Supports: []int{1, 2, 3}, Facts: []stages.Fact{{Name: "speed limit", Value: 0.8333, Unit: formula.MetrePerSecond, Sense: limits.AtMost}}}
	page := operationPages(passed(t, Settings{}, hauled, with(0, carrier)))[0]
	require.Contains(t, page, "**Girder carrier GC1, at supports 1 + 2 + 3:**")
	require.Contains(t, page, "| Speed limit, m/s | 0.8333 |")
	require.NotContains(t, page, "Carrier, axle groups")
	require.Contains(t, operationPages(passed(t, Settings{}, hauled))[0], "| Carrier, axle groups, which are linked |")
	pier := func(mark string, n int) stages.EquipmentItem {
		return stages.EquipmentItem{Mark: mark, Kind: stages.Pier, Supports: []int{n}}
	}
	page = operationPages(passed(t, Settings{}, with(0, pier("P1", 1), pier("P2", 3), pier("P3", 2))))[0]
	require.Contains(t, page, "| Pier | pier P1, at supports 1 | pier P2, at supports 3 |")
	require.Contains(t, page, "| Pier | pier P3, at supports 2 |")
	require.NotContains(t, page, "strike out")
}

// The names of all facts that a form asks for are in the doc of the package.
func TestNamesOfFactsAreDocumented(t *testing.T) {
	doc, err := os.ReadFile("doc.go")
	require.NoError(t, err)
	text := strings.Join(strings.Fields(strings.ReplaceAll(string(doc), "//", " ")), " ")
	require.Len(t, forms, len(stages.EquipmentKinds()))
	for kind, rows := range forms {
		for _, r := range rows {
			for _, name := range r.facts {
				require.Regexp(t, "[:,;] "+name+"([,;]| -| #)", text, "%s", kind)
			}
		}
	}
}

// Work at night needs light: room for it on every sheet but those of stressing alone.
func TestNightWork(t *testing.T) {
	for i, page := range operationPages(passed(t, Settings{}, pulled, first(func(s *stages.SituationRecord) { s.Phase = "stressing" }))) {
		require.Equal(t, i > 0, strings.Contains(page, "| Night work: lighting |  |"))
	}
}

// Equipment that changes within a stage says from which situation on.
func TestEquipmentThatChangesWithinAStage(t *testing.T) {
	a := passed(t, Settings{}, with(0, tandem()[1]), another(func(*stages.SituationRecord) {}), another(func(s *stages.SituationRecord) {
		s.Equipment = []stages.EquipmentItem{{Mark: "C2", Kind: stages.Crane}}
	}))
	list := equipmentOf(a.record.Stages[0])
	require.Len(t, list, 2)
	require.Equal(t, "crane C2, at supports 3 + 4", list[0].head)
	require.Equal(t, "crane C2, from 1.3 on", list[1].head)
}

// An angle is stated as it is measured: 0.0207 rad are at most 20.7 mm in 1 m, 24.84 in in
// 100 ft, rounded down.
func TestAnglesOfFactsAreSlopes(t *testing.T) {
	f := stages.Fact{Name: "rope out of plumb", Value: 0.0207009, Unit: formula.Radian, Sense: limits.AtMost}
	require.Equal(t, "20.7 mm per m", passed(t, Settings{}).fact(f))
	require.Equal(t, "24.84 in per 100 ft", passed(t, Settings{Units: US}).fact(f))
}
