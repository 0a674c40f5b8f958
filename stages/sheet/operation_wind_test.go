package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// breeze is a wind on the element, with a speed or without.
func breeze(speed *stages.WindRecord) stages.Load {
	return stages.Load{Mark: "breeze", Kind: "wind", Wind: speed, Direction: string(stages.Transverse), To: 20, Centre: 10, Force: 20.4e3, Presence: stages.Range{Least: -1, Most: 1}}
}

func blowing(i int, l stages.Load) func(*stages.Record) {
	return atStage(i, func(s *stages.SituationRecord) { s.Loads = []stages.Load{l} })
}

// Page i with its blanks as they are printed.
func printedPage(i int, settings Settings, t *testing.T, changes ...func(*stages.Record)) string {
	t.Helper()
	return strings.ReplaceAll(operationPages(passed(t, settings, changes...))[i], `\_`, "_")
}

// A wind without a speed stops a lift at a hold point that asks the engineer for it; with
// one its speed is printed, rounded down, with gust or mean and height.
func TestTheWindIsASpeedOrAHoldPoint(t *testing.T) {
	page := printedPage(1, Settings{}, t, blowing(1, breeze(nil)))
	require.Contains(t, page, "| Wind limit | not evaluated: no speed stated for 20.4 kN across in total, both ways; the engineer: ____ m/s, gust / mean, at ____ m |")
	require.Contains(t, page, "stop at the smaller of the hold point above and the chart")
	speed := &stages.WindRecord{Speed: 14.9999, Averaging: 600, Height: 10, Document: "invented"}
	page = printedPage(1, Settings{}, t, blowing(1, breeze(speed)))
	require.NotContains(t, page, "| Wind limit |")
	require.Contains(t, page, "stop at the smaller of calculation 14.99 m/s (10 min mean at 10 m) and the chart")
	require.Contains(t, printedPage(1, Settings{Units: US}, t, blowing(1, breeze(speed))), "calculation 33.55 mph (10 min mean at 32.8 ft)")
	require.Contains(t, printedPage(2, Settings{}, t, blowing(2, breeze(speed))), "**Other actions:** wind, 14.99 m/s (10 min mean at 10 m); no others permitted.")
	require.Contains(t, printedPage(2, Settings{}, t, blowing(2, breeze(nil))), "**Other actions:** wind, not evaluated: no speed stated, 20.4 kN across in total, both ways;")
}

// As long as hooks carry, a set-down repeats wind, ropes and radius of the lift before it;
// what is not stated is a blank.
func TestASetDownRepeatsTheLimitsOfTheLift(t *testing.T) {
	facts := func(radius float64) []stages.Fact {
		return []stages.Fact{
			{Name: "wind limit", Value: 9, Unit: formula.MetrePerSecond, Sense: limits.AtMost}, {Name: "wind basis", Text: "3 s gust at 10 m, chart"},
			{Name: "rope out of plumb", Value: 0.02, Unit: formula.Radian, Sense: limits.AtMost}, {Name: "radius at set", Value: radius, Unit: formula.Metre, Sense: limits.AtMost},
		}
	}
	cranes := tandem()
	cranes[0].Facts, cranes[1].Facts = facts(9), facts(8.5)
	speed := &stages.WindRecord{Speed: 14, Averaging: 3, Height: 10, Document: "invented"}
	page := printedPage(2, Settings{}, t, craned, with(1, cranes...), blowing(1, breeze(speed)))
	require.Contains(t, page, "- While hooks carry: wind at most the smallest of 9 m/s (3 s gust at 10 m, chart), calculation 14 m/s (3 s gust at 10 m); ropes out of plumb at most 20 mm per m; "+
		"radius at set-down at most crane C1 9 m, crane C2 8.5 m. Over the supports, just clear: level up on the hooks to the levels of this sheet.")
	require.Contains(t, page, "- the wind or a level or a radius or a rope out of plumb exceeds its limit\n")
	page = printedPage(2, Settings{}, t)
	require.Contains(t, page, "wind at most the smallest of the engineer's limit ____ m/s, gust / mean, at ____ m; ropes out of plumb at most ______; radius at set-down at most ______.")
	require.NotContains(t, printedPage(0, Settings{}, t), "While hooks carry")
}

// Braces have marks, places, an order and an end; what is not stated is a blank.
func TestBracesOnTheSheet(t *testing.T) {
	row := func(b stages.Bracing) string {
		return printedPage(2, Settings{}, t, atStage(2, func(s *stages.SituationRecord) {
			n := formula.Q("n_brace", float64(b.Number), formula.One, "braces fixed before the slings are released")
			s.Braces, s.HoldPoints = &b, []derive.HoldPoint{{Kind: "braces fixed", Required: n, Assumed: &n}}
		}))
	}
	require.Contains(t, row(stages.Bracing{Number: 2, Places: []stages.BracePlace{{Mark: "B2", X: 19.6}, {Mark: "B1", X: 0.4}}, Until: "diaphragms cast", Document: "EL-H-44"}),
		"| Braces fixed | 2 before the slings are slackened, in this order: B2 at x = 19.6 m, B1 at x = 0.4 m (EL-H-44). Removed only when: diaphragms cast; the engineer signs | 2 |")
	require.Contains(t, row(stages.Bracing{Number: 3, Document: "EL-H-44"}), "| 3 before the slings are slackened, marks and x, in this order: ______________ (EL-H-44). Removed only when: ______________; the engineer signs |")
}

// The first lift of a plan has no supports to go back to by a sheet of its own; one without
// supports ahead leaves the safe state to the engineer.
func TestTheSafeStateAtHeight(t *testing.T) {
	a := passed(t, Settings{})
	require.Contains(t, a.backOut(1), "over the supports of sheet 1 (they stay until left) lower back; over those of sheet 3 lower on, in more wind as well, and hold on tight slings; in between")
	require.Equal(t, "sheet 1; else hooks, 3", a.safeState(1))
	require.Empty(t, a.safeState(0))
	a.record.Stages = a.record.Stages[1:]
	require.NotContains(t, a.backOut(0), "lower back")
	require.Equal(t, "hooks, sheet 3", a.safeState(0))
	a.record.Stages = a.record.Stages[:1]
	require.Contains(t, a.backOut(0), "at once: ____________ (engineer).")
	require.Empty(t, a.safeState(0))
}

// Only the cranes that hold a reserve for the centre of gravity make the sheet say that it
// widens no band.
func TestTheReserveForTheCoGWidensNoBand(t *testing.T) {
	cranes := tandem()
	require.Contains(t, printedPage(1, Settings{}, t, craned, with(1, cranes...)), "Bands include ± 1 % for the gauges; those used")
	cranes[0].Facts = append(cranes[0].Facts, stages.Fact{Name: "tolerance of CoG", Value: 0.1, Unit: formula.Metre, Sense: limits.AtMost})
	require.Contains(t, printedPage(1, Settings{}, t, craned, with(1, cranes...)), "Bands include ± 1 % for the gauges, no reserve for CoG; those used")
}
