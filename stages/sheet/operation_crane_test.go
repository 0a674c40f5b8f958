package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// craned are four lift points, the right two equalised: 1 and 2 at x = 3 m, 3 and 4 at 17 m.
func craned(r *stages.Record) {
	s := &r.Stages[1].Situations[0]
	point := func(x, y float64, group string) stages.Reaction {
		return stages.Reaction{X: x, Y: y, Z: 1.5, Role: stages.LiftPoint, Group: group, Nominal: 187.5e3, Static: stages.Range{Least: 181e3, Most: 195.2e3},
			Share: &stages.Range{Least: 0.25, Most: 0.25}, Characteristic: stages.Range{Least: 160e3, Most: 216.4e3}, Ultimate: stages.Range{Least: 150e3, Most: 290e3}}
	}
	s.Reactions = []stages.Reaction{point(3, -0.5, ""), point(3, 0.3, ""), point(17, -0.5, "rear"), point(17, 0.3, "rear")}
	s.Supports = nil
	for _, p := range s.Reactions {
		s.Supports = append(s.Supports, stages.Support{X: p.X, Y: p.Y, Z: p.Z, Role: p.Role, Group: p.Group})
	}
	s.Dynamic = stages.Range{Least: 0.9, Most: 1.1}
}

// What a chart is entered with: maxima at rest, and with the dynamic factor, both rounded up, for
// each point, for two on one hook (195.2 + 195.2 = 390.4) and for all, which carry the total:
// 772.5 kN and 772.5 · 1.1 = 849.75 kN; 4 · 290 = 1160 kN.
func TestCraneLoads(t *testing.T) {
	page := operationPages(passed(t, Settings{}, craned))[1]
	for _, line := range []string{
		"| Crane loads, kN | 1 | 2 | 3 | 4 | 1 + 2 | 3 + 4 | all |",
		"| At rest, max: for a chart with the hoisting factor in it | 196 | 196 | 196 | 196 | 391 | 391 | 773 |",
		"| With dynamic factor, max: chart without it; slings, anchors | 217 | 217 | 217 | 217 | 433 | 433 | 850 |",
		"| + lifting gear below the gauge; × 1.1 with dynamic factor | ____ | ____ | ____ | ____ | ____ | ____ | ____ |",
		"| ULS maximum, for ground and concrete | 290 | 290 | 290 | 290 | 580 | 580 | 1160 |",
	} {
		require.Contains(t, page, line)
	}
	page = operationPages(passed(t, Settings{}, craned, atStage(1, func(s *stages.SituationRecord) {
		s.Loads = []stages.Load{{Mark: "form", Centre: 3, Force: 4e3, Presence: always}}
	})))[1]
	require.Contains(t, page, "| 433 | 433 | 866 |", "with a vertical action the sum of the maxima, 4 · 216.4 kN")
	for _, other := range []int{0, 2} {
		require.NotContains(t, operationPages(passed(t, Settings{}, craned))[other], "Crane loads")
	}
}

// Supports that share equally are named by their numbers in table and sequence.
func TestGroupsAreNamedByTheNumbersOfTheirSupports(t *testing.T) {
	page := operationPages(passed(t, Settings{}, craned))[1]
	require.Contains(t, page, "| 3 lift point, 3 + 4 equalised | 17.000 |")
	require.Contains(t, page, "suspended from lift points 1, 2 at 3 m from end x = 0; lift points 3, 4 at 17 m (3 + 4 equalised)")
	require.NotContains(t, page, "rear")
}

// Beside its share each point has its band at the nominal total: 24.626 to 25.376 % inwards
// are 24.7 to 25.3 %, of 750 kN 185.25 to 189.75, inwards; 195.2 kN and 1 % at most.
func TestEachPointHasItsBandAtTheNominalTotal(t *testing.T) {
	page := operationPages(passed(t, Settings{}, craned))[1]
	require.Contains(t, page, "| accept if | of 750 kN |")
	require.Contains(t, page, "| 1 lift point | 3.000 | −0.500 | 1.500 | 24.7 to 25.3 % | 186 to 189 | 197 |  |  |  |  |  |")
}

// The total under a vertical action has no characteristic value in the record: it is left
// to the engineer, as that of ULS is.
func TestTotalsThatTheRecordDoesNotHave(t *testing.T) {
	loads := func(l ...stages.Load) string {
		return operationPages(passed(t, Settings{}, first(func(s *stages.SituationRecord) { s.Loads, s.Dynamic = l, stages.Range{Least: 0.9, Most: 1.1} })))[0]
	}
	require.Contains(t, loads(), "| **727** | **773** | **654** | **850** | **____** | **____** |", "727.5 · 0.9 = 654.75, 772.5 · 1.1 = 849.75")
	across := stages.Load{Mark: "wind", Direction: string(stages.Transverse), To: 20, Centre: 10, Force: 8e3, Presence: always}
	require.Contains(t, loads(across), "| **654** | **850** |")
	require.Contains(t, loads(stages.Load{Mark: "form", Centre: 3, Force: 4e3, Presence: always}), "| **727** | **773** | **____** | **____** | **____** | **____** |")
}

// The elevation of an operation sheet has places and names, and no number that reads as a
// limit of the gauges; that of the calculation has them.
func TestTheElevationOnSiteHasNoForces(t *testing.T) {
	a := passed(t, Settings{}, weighed(stages.Load{Mark: "diaphragm", From: 4, To: 5, Centre: 4.5, Force: 50e3}))
	for i := range a.record.Stages {
		list := figuresIn(a.operationSupports(a.record.Stages[i]))
		require.Len(t, list, 1)
		require.NotRegexp(t, `R = |\d kN`, list[0].svg)
		require.Contains(t, list[0].svg, ">diaphragm<")
		require.Contains(t, list[0].svg, "at x = ")
		require.True(t, strings.HasSuffix(list[0].name, "-positions"))
		require.Regexp(t, `R = .* kN`, a.elevation(a.record.Stages[i], 0).svg)
	}
}

// Nothing is released before the supports carry what they must: part of the load is read
// with the hooks, all of it with the gear attached.
func TestSetDownIsReadWithTheGearAttached(t *testing.T) {
	page := strings.ReplaceAll(operationPages(passed(t, Settings{}))[2], `\_`, "_")
	for _, words := range []string{
		"Over the supports, just clear: level up on the hooks to the levels of this sheet. Lower in small increments on to all supports; check contact, position and level of each. Stop with ______ kN left on all hooks together, lifting gear still attached; brace and restrain before slackening.",
		"Read supports and hooks: their sum, ______ kN, must be within the band of the total.\n- Slacken all hooks together, none alone, until the hooks show the lifting gear only, lifting gear still attached. Read every support by jack or load cell: total and every share within their bands. ",
		"Out of band: take the load back on the hooks, at least the ______ kN above, only then free braces; consult the engineer. Within the bands release the hooks (braces stay): order ____________, released by ____________.\n- Where a support cannot be read: write \"not read\"; the engineer signs contact and level of every support in its place.\n",
	} {
		require.Contains(t, page, words)
	}
	require.NotContains(t, page, "equaliser")
	on := func(role stages.Role, group string) func(*stages.Record) {
		return atStage(2, func(s *stages.SituationRecord) {
			for i := range s.Supports[:2] {
				s.Supports[i].Role, s.Supports[i].Group, s.Reactions[i].Role, s.Reactions[i].Group = role, group, role, group
			}
		})
	}
	require.Contains(t, operationPages(passed(t, Settings{}, on(stages.Pad, "left")))[2], "- Supports 1 + 2 equalised: the equaliser free to move")
	require.Contains(t, operationPages(passed(t, Settings{}, on(stages.Jack, "left")))[2], "- Jacks 1 + 2 equalised: one pump, the valves between them open until their lock rings are closed; every other jack on a circuit of its own.")
}

// What holds the element before is named: hooks after a lift, jacks after a stage on jacks;
// on the same supports nothing is lowered.
func TestWhatAnElementIsLoweredFrom(t *testing.T) {
	require.Contains(t, operationPages(passed(t, Settings{}))[0], "left on all hooks or jacks together, still attached or in place")
	standing := func(r *stages.Record) { r.Stages = append(r.Stages[:1], r.Stages[2]); r.Stages[1].Number = 2 }
	require.NotContains(t, operationPages(passed(t, Settings{}, standing))[1], "Lower in steps")
	jacked := func(r *stages.Record) {
		s := &r.Stages[0].Situations[0]
		for i := range s.Supports {
			s.Supports[i].Role, s.Reactions[i].Role = stages.Jack, stages.Jack
		}
	}
	page := operationPages(passed(t, Settings{}, standing, jacked))[1]
	require.Contains(t, page, "left on all jacks together, jacks still in place")
	require.Contains(t, page, "- Lower until the jacks carry no load, jacks still in place.")
}

// A sheet on which nothing but stressing is done has the bands and no forces for design.
func TestAStressingSheetHasNoForcesForDesign(t *testing.T) {
	page := operationPages(passed(t, Settings{}, pulled, first(func(s *stages.SituationRecord) { s.Phase = "stressing" })))[0]
	require.Contains(t, page, "| No. | x m | y m | accept if | of 750 kN | Read kN | % |")
	require.Contains(t, page, "**Supports, read:** 1 to 3 pad")
	require.NotContains(t, page, "Positions, readings and reactions", "the table is beside the words of the stressing")
	require.Contains(t, page, "**Weight:** 750 kN (76.48 t) nominal. ")
	for _, words := range []string{"CoG", "dynamic factor", "Static:", "ULS", "char."} {
		require.NotContains(t, page, words)
	}
}
