package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// A lift and its set-down do not wait for each other: before lifting all of the set-down is
// signed but the previous stage, which asks for the trial lift only; the lift is closed out
// with the set-down.
func TestALiftAndItsSetDownDoNotWaitForEachOther(t *testing.T) {
	pages := operationPages(passed(t, Settings{}))
	require.Contains(t, pages[1], "- Before lifting: sign the hold points of sheet 3 (set-down) except the previous stage. Hold-downs and restraints free, ropes plumb.")
	require.Contains(t, pages[1], "all hooks together. Set down by sheet 3 only.\n- Stop at height: hold, call the engineer. Wind or settlement, at once: over the supports of sheet 1 (they stay until left) lower back; over those of sheet 3 lower on, in more wind as well, and hold on tight slings; in between: back-out sheet no. \\_\\_\\_\\_.")
	require.Contains(t, pages[1], "| Closed out by sheet 3, time |")
	require.Contains(t, pages[2], "| Previous stage | stage 2, lift: trial lift in bands, signed so far, over its supports |")
	require.Contains(t, pages[2], "| Close out sheet 2 after set-down; this sheet, time |")
	for _, page := range []string{pages[0], pages[2]} {
		require.NotContains(t, page, "Before lifting")
	}
}

// A lift on to a carrier is set down by the sheet of the haul, on which it stands.
func TestALiftOnToACarrier(t *testing.T) {
	pages := operationPages(passed(t, Settings{}, func(r *stages.Record) {
		haul := r.Stages[0]
		haul.Situations = []stages.SituationRecord{haul.Situations[0]}
		s := &haul.Situations[0]
		s.Age, s.Day, s.Standing, s.Phase = 7, 7, false, string(limits.Hauling)
		r.Stages = []stages.StageRecord{r.Stages[0], r.Stages[1], haul, r.Stages[2]}
		for i := range r.Stages {
			r.Stages[i].Number = i + 1
		}
	}))
	require.Contains(t, pages[1], "Before lifting: sign the hold points of sheets 3 to 4 (set-down)")
	require.Contains(t, pages[1], "Set down by sheet 3 only.")
	require.Contains(t, pages[2], "left on all hooks together, lifting gear still attached")
}

// A haul before a lift is not suspended, and all sheets to the set-down are signed first.
func TestAHaulBeforeALift(t *testing.T) {
	a := passed(t, Settings{}, func(r *stages.Record) {
		haul := r.Stages[0]
		haul.Situations = []stages.SituationRecord{haul.Situations[0]}
		haul.Situations[0].Standing, haul.Situations[0].Phase = false, string(limits.Hauling)
		r.Stages[0] = haul
	})
	pages := operationPages(a)
	require.Contains(t, pages[0], "- Before setting down on the carrier: sign the hold points of sheets 2 to 3 (set-down) except the previous stage.\n- Lower in small increments on to all supports;")
	require.Contains(t, pages[0], "- Restrain the element on the carrier before it moves. Travel at the agreed speed;")
	require.Contains(t, pages[1], "| Previous stage | stage 1, store: in its bands, signed so far, in place |")
	require.NotContains(t, pages[0], "plumb")
}

// At take-up a total that is still too small is no reason to stop; clear of the supports it
// is. The formwork is named on a lift from the bed only.
func TestTakeUpAndTrialLift(t *testing.T) {
	page := operationPages(passed(t, Settings{}))[1]
	for _, words := range []string{
		"Take up the load in small increments, all hooks together, one signaller; stop if the total or a hook is above its maximum.\n",
		"- Trial lift: 100 mm clear, level up, hold ____ min, read every gauge; check levels, radii, anchors, brakes, outriggers.", "Stop also below the minimum total or with a share outside its band. On a stop: hold, do not travel, lower back; again only when the engineer agrees.\n",
	} {
		require.Contains(t, page, words)
	}
	require.NotContains(t, page, "shear keys")
	page = operationPages(passed(t, Settings{}, pulled))[1]
	require.Contains(t, page, "| Free to move | formwork, hold-downs, shear keys; until then stop at ____ kN |")
	require.Contains(t, page, "Ropes plumb. Take up")
}

// Limits without a number are blanks, and once on the page it says that nothing starts
// while one is blank; the wind of the calculation is the upper limit.
func TestBlanksAndTheWindOfTheCalculation(t *testing.T) {
	wind := stages.Load{Mark: "wind, 15 m/s", Kind: "wind", Wind: &stages.WindRecord{Speed: 15, Averaging: 3, Height: 10, Document: "invented"}, Direction: string(stages.Transverse), To: 20, Centre: 10, Force: 20.4e3, Presence: stages.Range{Least: -1, Most: 1}}
	a := passed(t, Settings{}, atStage(1, func(s *stages.SituationRecord) {
		s.Loads = []stages.Load{wind, {Mark: "form", Centre: 3, Force: 4e3, Presence: always}}
	}))
	pages := operationPages(a)
	require.Contains(t, pages[1], "**Wind:** stop at the smaller of calculation 15 m/s (3 s gust at 10 m) and the chart ____ m/s, gust / mean, at ____ m, parked ______ m/s, chart of __________")
	require.Contains(t, pages[1], "**Other actions:** form at x = 3 m, 4 kN, always present; no others permitted.", "the wind is not said twice")
	for _, page := range pages {
		require.Equal(t, 1, strings.Count(page, "fill in every blank but readings, acceptance and close-out"))
	}
}

// Of an element that hangs by one end only that end is raised; the hooks that hold it then
// hold, while the others take up. Braces at the set-down cannot be fixed before the lift.
func TestOneEndIsTakenUpFirst(t *testing.T) {
	oneEnd := first(func(s *stages.SituationRecord) {
		s.Phase, s.Standing = "lifting", false
		for i := range s.Supports {
			s.Supports[i].Role, s.Reactions[i].Role = stages.LiftPoint, stages.LiftPoint
		}
		last := len(s.Supports) - 1
		s.Supports[last].Role, s.Reactions[last].Role = stages.Pad, stages.Pad
	})
	a := passed(t, Settings{}, oneEnd, atStage(2, func(s *stages.SituationRecord) { s.Braces = &stages.Bracing{Number: 2, Document: "EL-H-44"} }))
	require.Contains(t, a.hoisted(0), "Raise this end only: no travel, no slew")
	require.Contains(t, a.takeUp(1), "Hooks that carry hold; take up the others alone")
	require.Contains(t, a.takeUp(0), "all hooks together")
	require.Contains(t, a.setDownWords(1, "lifting"), "except the previous stage and braces (there, checked). ")
	require.Equal(t, "hooks, sheet 2; released: braced", a.safeState(2))
}
