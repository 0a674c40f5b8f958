package sheet_test

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

// A stage of several situations says what each needs; what is equal stands once.
func TestOperationSheetOfAStageOfSeveralSituations(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	first := record.Stages[0].Situations[0]
	second := first
	second.Name, second.Age, second.Day = "second", 6, 6
	second.Dynamic.Most = 1.25
	second.Tendons = []stages.TendonForce{{Mark: "T1", Bonded: true}}
	second.Loads = []stages.Load{{Mark: "jack", From: 3, To: 3, Centre: 3, Force: 40e3}}
	second.Checks = append(slices.Clone(first.Checks), stages.Check{
		Kind: limits.StressingStrength, Name: string(limits.StressingStrength), Sense: limits.AtLeast, State: stages.Pass, Limit: formula.Q("f_cm0", 30.0001e6, formula.Pascal, "mean cylinder strength"), Demand: formula.Q("f", 40e6, formula.Pascal, ""),
	})
	third := second
	third.Name = "third"
	record.Stages[0].Situations = []stages.SituationRecord{first, second, third}
	page := operations(t, record)[0]
	for _, words := range []string{
		"before 1.2: Age of the element | 6 d", "before 1.2: Strength at stressing | mean cylinder strength ≥ 30.5 MPa | 40 MPa |", "**1.2 second**, supports unchanged",
		"before 1.3: Tendons grouted | T1, by the record |", "Weight from 1.1 on:** 120 kN", "dynamic × 1.", "Weight from 1.2 on:** 120 kN", "dynamic × 1 to 1.25.",
		"Other actions from 1.1 on:** none permitted.", "Other actions from 1.2 on:** jack at x = 3 m", "| **119 to 121 kN** |",
	} {
		require.Contains(t, page, words)
	}
	for _, words := range []string{"before 1.3: Age", "before 1.3: Strength", "1.3: Grouting", "from 1.3 on"} {
		require.NotContains(t, page, words)
	}
	require.Equal(t, 1, strings.Count(page, "|---|---:|---:|---:|---:|"), "one table of readings")
}

// What other loads are and where stands on both sheets, a magnitude rounded down.
func TestOtherLoadsOfEachKind(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	for i := range record.Stages {
		record.Stages[i].Situations[0].Loads = []stages.Load{
			{Mark: "line load", From: 2, To: 6, Centre: 4, Force: 40.0077e3}, {Mark: "point load", From: 3, To: 3, Centre: 3, Y: -0.05, Force: -12.3456e3},
			{Mark: "wind", Direction: "transverse", From: 0, To: 12, Centre: 6, Force: -5e3}, {Mark: "braking", Direction: "along", From: 4, To: 4, Centre: 4, Force: 3e3},
			{Mark: "couple", From: 5, To: 5, Centre: 5, Couple: -60.0077e3},
		}
	}
	var out bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&out, record, sheet.Settings{}))
	require.Contains(t, out.String(), "**Actions beside self-weight:** line load from 2 m to 6 m, resultant at x = 4 m, 40 kN in total; point load at x = 3 m, y = −0.05 m, 12.34 kN upwards; wind from 0 m to 12 m, resultant at x = 6 m, 5 kN to the right in total, at z = 0 m; braking at x = 4 m, 3 kN towards +x, at z = 0 m; couple at x = 5 m, 60 kN·m clockwise. **")
	page := operations(t, record)[0]
	for _, words := range []string{
		"**Other actions:** line load from 2 m to 6 m, resultant at x = 4 m, 40 kN in total; point load at x = 3 m, y = −0.05 m, 12.34 kN upwards;", "; couple at x = 5 m, 60 kN·m clockwise; no others permitted.",
	} {
		require.Contains(t, page, words)
	}
	out.Reset()
	require.NoError(t, sheet.WriteOperationMarkdown(&out, record, sheet.Settings{Units: sheet.US}))
	require.Contains(t, out.String(), "couple at x = 16.404 ft, 44.25 kip·ft clockwise")
	for i := range record.Stages {
		record.Stages[i].Situations[0].Loads = record.Stages[i].Situations[0].Loads[4:]
	}
	out.Reset()
	require.NoError(t, sheet.WriteMarkdown(&out, record, sheet.Settings{}))
	require.NotContains(t, out.String(), "| none |")
	require.NotContains(t, operations(t, record)[0], "none permitted")
	for _, page := range pages(t, record) {
		valid(t, page)
	}
}

// A lift goes ahead only if what follows holds, to where the element stands again;
// a stage that stands is warned of what follows.
func TestALiftNeedsItsSetDown(t *testing.T) {
	plan := func(t *testing.T, fails int) []string {
		record, err := slab(1500e-6)
		require.NoError(t, err)
		store, lift := record.Stages[0], record.Stages[1]
		record.Stages = []stages.StageRecord{store, lift, lift, store, lift, store}
		for i := range record.Stages {
			record.Stages[i].Number = i + 1
			record.Stages[i].Situations = slices.Clone(record.Stages[i].Situations)
		}
		record.Stages[fails-1].Situations[0].Unanswered = []string{"anything"}
		return operations(t, record)
	}
	sheets := plan(t, 4)
	require.Contains(t, sheets[0], "**WARNING: a later stage may not go ahead: stage 4, store.")
	for _, page := range sheets[1:3] {
		require.Contains(t, page, "DO NOT PROCEED")
		require.Contains(t, page, "the set-down may not go ahead: stage 4, store")
		require.NotContains(t, page, " kN")
		require.Contains(t, page, "**Excluded:** ")
	}
	sheets = plan(t, 3)
	require.Contains(t, sheets[1], "the set-down may not go ahead: stage 3, lift")
	sheets = plan(t, 6)
	for _, page := range sheets[:4] {
		require.NotContains(t, page, "DO NOT PROCEED")
		require.Contains(t, page, "**WARNING: a later stage may not go ahead: stage 6, store.")
	}
	require.Contains(t, sheets[4], "the set-down may not go ahead")
}

func TestEachPagesFootNamesItsStage(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	var out bytes.Buffer
	require.NoError(t, sheet.WriteOperationHTML(&out, record, sheet.Settings{}))
	require.Regexp(t, `@page stage-2 \{ @bottom-left \{ content: "Operation sheet 2 of 3\\00003a  lift, element`, out.String())
	require.Contains(t, out.String(), ".stage-2 { page: stage-2; }")
}

func TestACheckThatIsNotEvaluatedHasNoNumbers(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	c := &record.Stages[0].Situations[0].Checks[0]
	*c = stages.Check{Name: "tipping", State: stages.NotEvaluated, X: 2, Note: "beyond the model"}
	var out bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&out, record, sheet.Settings{}))
	require.Contains(t, out.String(), "| **n/e** | **n/e** | **n/e** | **not evaluated: beyond the model** |")
	require.Contains(t, out.String(), "| **n/e** |  | **n/e** | **n/e** | **n/e** | **not evaluated: beyond the model** |")
}

// A lifted element is suspended from lift points, supports that share say their
// group, and each y has its own sign.
func TestALiftIsSuspendedFromItsLiftPoints(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	s := &record.Stages[1].Situations[0]
	s.Roll, s.Gradient, s.OutOfLevel = 0.035, 0.01, 0.005
	s.Supports[2].Stiffness, s.Supports[3].Stiffness = 80e6, 80e6
	const system = "suspended from 2 lift points at x = 2.4 m, y = −0.2 m and 0.2 m (equalised: blocks); 2 lift points at x = 9.6 m, y = −0.2 m and 0.15 m, 80000 kN/m each; one support out of level by 5 mm; roll ±0.035 rad; gradient ±0.01 rad"
	var out bytes.Buffer
	require.NoError(t, sheet.WriteMarkdown(&out, record, sheet.Settings{}))
	require.Contains(t, out.String(), "(project day 7), weight transient, "+system+".")
	require.Contains(t, out.String(), "| 1 lift point, equalised (blocks) | 2.400 | −0.200 |")
	require.Contains(t, out.String(), "| 4 lift point | 9.600 | 0.150 |")
	require.Contains(t, out.String(), "carried forward, on 2 pads at x = 2.4 m, y = −0.2 m and 0.15 m; 1 pad at x = 9.6 m, y = −0.05 m.")
	require.NotContains(t, out.String(), "±0.2")
	sheets := operations(t, record)
	require.Contains(t, sheets[0], "on pads 1, 2 at 2.4 m from end x = 0; pad 3 at 9.6 m\n")
	require.Contains(t, sheets[1], "suspended from lift points 1, 2 at 2.4 m from end x = 0 (1 + 2 equalised); lift points 3, 4 at 9.6 m, 80000 kN/m each\n")
	require.Contains(t, sheets[0], "| Levels of the supports, permissible difference |  |")
	require.NotContains(t, sheets[1], "permissible difference", "it is stated")
	for _, limit := range []string{
		"| Level difference along, over 7.2 m, ≤ 72 mm |  |",  // 0.01 rad · 7.2 m
		"| Level difference across, over 0.4 m, ≤ 14 mm |  |", // 0.035 rad · 0.4 m
		"| One support out of the plane of the others ≤ 5 mm |  |",
	} {
		require.Contains(t, sheets[1], limit)
	}
}

// The plan ends with the element suspended: no set-down, so it may not be lifted,
// whatever the checks of the record say.
func TestALiftWithoutASetDownMayNotGoAhead(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	record.Stages = record.Stages[:2]
	sheets := operations(t, record)
	require.NotContains(t, sheets[0], "DO NOT PROCEED")
	require.Contains(t, sheets[1], "DO NOT PROCEED")
	require.Contains(t, sheets[1], "no set-down follows in this calculation")
}

// A train is no load at x = 0, and a stage with one does not say that other actions
// are not permitted; each action says when it is present.
func TestTrainAndPresenceOnTheOperationSheet(t *testing.T) {
	record, err := slab(1500e-6)
	require.NoError(t, err)
	s := &record.Stages[0].Situations[0]
	require.Contains(t, operations(t, record)[0], "**Other actions:** none permitted.")
	s.Loads = []stages.Load{
		{Mark: "carrier, bogie", Rolls: true, To: 6.5, Force: 61.2e3, Y: 0.2, Presence: stages.Range{Most: 1}},
		{Mark: "wind", Direction: string(stages.Transverse), To: 12, Centre: 6, Force: 8e3, Presence: stages.Range{Least: -1, Most: 1}},
		{Mark: "form", From: 3, To: 3, Centre: 3, Force: 4e3, Presence: stages.Range{Least: 1, Most: 1}},
		{Mark: "crew", From: 2, To: 2, Centre: 2, Force: 2e3, Presence: stages.Range{Least: 0.5, Most: 1.5}},
	}
	page := operations(t, record)[0]
	for _, words := range []string{
		"**Other actions:** carrier, bogie, rolling, at any place of the element, y = 0.2 m, 61.2 kN in total, over 6.5 m, present or absent; ",
		"; wind, not evaluated: no speed stated, 8 kN across in total, both ways; ",
		"; form at x = 3 m, 4 kN, always present; crew at x = 2 m, 2 kN, × 0.5 to 1.5; no others permitted.",
	} {
		require.Contains(t, page, words)
	}
	require.NotContains(t, page, "none permitted")
	s.Mass = stages.Mass{Weight: 98.0665e3, Mass: 10e3, X: 5.5, Y: -0.1, Z: 0.4}
	require.Contains(t, operations(t, record)[0], "98.07 kN (10 t)")
	require.Contains(t, operations(t, record)[0], "x = 5.5 m, y = −0.1 m, z = 0.4 m")
}
