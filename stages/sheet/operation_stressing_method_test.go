package sheet

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// sequenceOf is the sequence of the first stage, a line for each operation.
func sequenceOf(a *author) string {
	var lines []string
	for _, p := range a.sequence(0).points {
		lines = append(lines, p.raw())
	}
	return strings.Join(lines, "\n")
}

// jackings changes every jacking of the first situation.
func jackings(change func(*stages.Stressing)) func(*stages.Record) {
	return first(func(s *stages.SituationRecord) {
		for i := range s.Stressing {
			change(&s.Stressing[i])
		}
	})
}

// The order of lock-off and the seating of wedges are stated, or boxes to tick; where one
// end is first, the jacks at the other hold.
func TestHowTendonsAreLockedOff(t *testing.T) {
	open := sequenceOf(passed(t, Settings{}, pulled))
	require.Contains(t, open, "All within limits: lock off, □\u00a0all ends at once □\u00a0one end first: ________, wedges □\u00a0power-seated □\u00a0drawn in by the strand (manual of the system). Let off")
	require.Contains(t, sequenceOf(passed(t, Settings{}, pulled, jackings(func(p *stages.Stressing) { p.LockOff, p.Seating = "all ends at once", "power-seated" }))),
		"lock off, all ends at once, wedges power-seated. Let off")
	require.Contains(t, sequenceOf(passed(t, Settings{}, pulled, jackings(func(p *stages.Stressing) { p.LockOff, p.Seating = "the right end first", "drawn in by the strand" }))),
		"lock off, end x\u00a0=\u00a020 m first, the jacks at x\u00a0=\u00a00 hold, wedges drawn in by the strand. Let off")
	require.Contains(t, sequenceOf(passed(t, Settings{}, pulled, jackings(func(p *stages.Stressing) { p.Ends, p.Seating = "the left end", "power-seated" }))),
		"lock off, wedges power-seated. Let off", "one end has no order")
	require.Contains(t, sequenceOf(passed(t, Settings{}, pulled, first(func(s *stages.SituationRecord) {
		s.Stressing[0].LockOff, s.Stressing[1].LockOff = "all ends at once", "the left end first"
	}))), "lock off, A: all ends at once, B: end x\u00a0=\u00a00 first, the jacks at x\u00a0=\u00a020 m hold, wedges")
}

// What nobody has stated is a hold point, by its names; what is stated is none.
func TestWhatTheMethodLeavesOpen(t *testing.T) {
	page := operationPages(passed(t, Settings{}, pulled, jackings(func(p *stages.Stressing) { p.Datum, p.Gauge, p.Limit = 0, p.Force, 1476e6 })))[0]
	require.Contains(t, page, "| Method of stressing | on this sheet, by the engineer: lock-off, seating, gauge unit, datum, forces A, tolerance |")
	require.Contains(t, page, ": datum ____ (none calculated: stated by the engineer), mark the strands, full in ____ increments.")
	require.NotContains(t, operationPages(passed(t, Settings{}, pulled, jackings(func(p *stages.Stressing) {
		p.LockOff, p.Seating, p.GaugeUnit, p.Limit, p.Tolerance = "all ends at once", "power-seated", "bar", 1476e6, 0.05
	})))[0], "Method of stressing |")
	require.Contains(t, operationPages(passed(t, Settings{}, pulled, first(func(s *stages.SituationRecord) { s.Phase, s.Method.NotRead = "stressing", true })))[0], "tolerance, gap |")
}

// One end outside, a jack that fails, at full and at the datum: what the others do.
func TestWhatTheOtherJacksDo(t *testing.T) {
	text := sequenceOf(passed(t, Settings{}, pulled))
	require.Contains(t, text, "An end outside its limits, above its band before full, or a jack, pump or gauge fails, also at datum: all pumps stop, jacks hold (a leaking one: leave it, valves shut from the side); do NOT lock off or release, keep clear, call the engineer; "+
		"re-stressing, destressing, restart by the engineer only.")
}

// Gauges in their unit, or boxes for it; each jack says for which calibration its pressures
// are.
func TestUnitOfThePressureGauges(t *testing.T) {
	heads := func(change func(*stages.Stressing), units Units) []string {
		a := passed(t, Settings{Units: units}, pulled, jackings(change))
		return headsOf(a.jacks(a.record.Stages[0].Situations[0])[1].(part).blocks[0].(grid))[1:6]
	}
	require.Equal(t, []string{"step 1: jack / gauge", "calibrated", "tick", "kN per bar", "bar: datum / full / never"}, heads(func(p *stages.Stressing) { p.GaugeUnit = "bar" }, SI))
	require.Equal(t, []string{"step 1: jack / gauge", "calibrated", "tick", "kip per unit", "unit: datum / full / never"}, heads(func(*stages.Stressing) {}, US))
}

// Without the friction of jack and anchorage the forces of a calibration without it are of
// the engineer; those at the anchor are as calculated.
func TestForcesWithoutFriction(t *testing.T) {
	a := passed(t, Settings{}, pulled, jackings(func(p *stages.Stressing) { p.Gauge, p.Datum = p.Force, 504e3 }))
	require.Equal(t, []string{"____", "____", "____", "504", "2520", "2656"}, rowsOf(a.jackings(a.record.Stages[0].Situations[0]))[0][5:11])
}

// unread states a method with everything in it.
func unread(s *stages.SituationRecord) {
	s.Phase, s.Method = "stressing", stages.StressingMethod{NotRead: true, Gap: 0.0005, Free: "side forms, shear keys", Protection: "capped", GroutBy: 14}
}

// Supports that are not read have room for the gap after each step, no band and no total,
// and a gap stops the work. What holds the element is a hold point.
func TestSupportsThatAreNotRead(t *testing.T) {
	page := operationPages(passed(t, Settings{}, pulled, first(unread)))[0]
	for _, words := range []string{
		"| No. | x m | y m | before | step 1 | step 2 |", "**Gap mm (not read):** 1 to ", "**Supports are not read:** after each step try the gap at every support with a feeler gauge, off the line of the jacks and strands. A gap of 0.5 mm or more at a support: no further step, hold, call the engineer.",
		"- a gap of 0.5 mm or more at a support\n", "| Free to move | side forms, shear keys free |",
		"Protection of the tendons until grouting: capped. Grout (not in this calculation), at the latest 14 d after stressing, (date) \\_\\_\\_\\_\\_\\_\\_\\_.",
	} {
		require.Contains(t, page, words)
	}
	for _, words := range []string{"go on within", "accept if", "**Readings:**", "a share of it", "Positions, readings"} {
		require.NotContains(t, page, words)
	}
	bare := operationPages(passed(t, Settings{Units: US}, pulled, first(func(s *stages.SituationRecord) { s.Phase, s.Method.NotRead = "stressing", true })))[0]
	require.Contains(t, bare, "- a gap of ____ in (stated by the engineer) or more at a support\n")
	require.Contains(t, bare, "| Free to move | ____________________ (stated by the engineer) free |")
	require.Contains(t, operationPages(passed(t, Settings{}, pulled, first(func(s *stages.SituationRecord) { s.Phase = "stressing" })))[0], "accept if", "read where nothing is stated")
	a := passed(t, Settings{}, forty, first(unread))
	require.Equal(t, []string{"No.", "x m", "y m", "step ____", "last step"}, headsOf(a.gaps(a.record.Stages[0])[1].(part).blocks[0].(grid)))
	require.Contains(t, calculationPage(passed(t, Settings{}, pulled, first(unread), jackings(func(p *stages.Stressing) { p.Seating = "power-seated" }))),
		"**Method of stressing, as stated:** supports are not read, their gaps are watched, stop at 0.5 mm; free to move before stressing: side forms, shear keys; protection of tendons until grouting: capped; grouting at the latest 14 d after stressing; wedges power-seated.")
}

// A step has one number on its sheet, also where each is a situation of its own.
func TestStepsAreCountedThroughAStage(t *testing.T) {
	a := passed(t, Settings{}, pulled, another(func(s *stages.SituationRecord) {
		s.Name, s.Stressing = "stressing, step 3", s.Stressing[:1]
	}))
	page := operationPages(a)[0]
	require.Contains(t, page, "stress steps 1 to 2 of the table, in this order.")
	require.Contains(t, page, ": stress step 3 of the table.")
	require.Contains(t, page, "\n| 3 | A | 12 |")
	require.Contains(t, page, "step 3: jack / gauge")
}

// The sketch of the end faces has the mark of every tendon at its anchor; other ends have a
// sketch of their own, and none is drawn where there is no room for the marks.
func TestAnchorsAreDrawnWithTheirMarks(t *testing.T) {
	placed := func(r *stages.Record) {
		for i := range r.Tendons {
			for k := range r.Tendons[i].Points {
				r.Tendons[i].Points[k].Y, r.Tendons[i].Points[k].Z = 0.3*float64(i)-0.3, 0.4
			}
		}
		r.Tendons = append(r.Tendons, stages.TendonRecord{Mark: "D", Points: []stages.PathPoint{{X: 0, Z: 0.8}, {X: 20, Z: 0.8}}})
		outline := section.Outline{{Y: -0.5}, {Y: 0.5}, {Y: 0.5, Z: 1}, {Y: -0.5, Z: 1}}
		r.Outlines = []stages.Drawing{{X: 10, Solids: []section.Outline{outline}}}
	}
	of := func(a *author) string {
		var all []string
		for _, b := range a.anchorPlaces(a.record.Stages[0]) {
			for _, f := range b.(drawings).figures {
				all = append(all, f.svg)
			}
		}
		return strings.Join(all, "\n")
	}
	one := of(passed(t, Settings{}, pulled, placed))
	require.Equal(t, 1, strings.Count(one, "<svg"))
	for _, words := range []string{">anchors at x\u00a0=\u00a00 and x\u00a0=\u00a020 m, looking along +x<", ">A<", ">B<", ">C<", ">D<", ">○ not on this sheet<"} {
		require.Contains(t, one, words)
	}
	two := of(passed(t, Settings{}, pulled, placed, func(r *stages.Record) { r.Tendons[0].Points[1].Z = 0.2 }))
	require.Equal(t, 2, strings.Count(two, "<svg"))
	require.Contains(t, two, ">anchors at x\u00a0=\u00a020 m, looking along +x<")
	require.Empty(t, of(passed(t, Settings{}, forty, placed)), "forty marks")
	require.Contains(t, operationPages(passed(t, Settings{}, pulled, placed))[0], "Seen from outside, the sketch is mirrored at end x\u00a0=\u00a020 m.")
	wide := fmt.Sprintf(`width="%gpt"`, float64(placesWidth))
	require.Contains(t, one, wide, "printed as large as it is drawn, so that its letters are 7 pt")
}

// Strands of the bed: how they are released, what is looked at, and when to stop.
func TestReleaseOfStrands(t *testing.T) {
	strands := func(r *stages.Record) {
		r.Tendons = append(r.Tendons, stages.TendonRecord{Mark: "P", Pretensioned: true, Strands: 8})
		s := &r.Stages[0].Situations[0]
		s.Tendons, s.Phase, s.Method.NotRead = []stages.TendonForce{{Mark: "P", Bonded: true}}, "stressing", true
	}
	a := passed(t, Settings{}, strands)
	page := operationPages(a)[0]
	for _, words := range []string{
		"**Release of P:** record of the bed checked (signed) ", "Nobody beside or behind strands under tension.",
		"Release at both ends: □\u00a0by jacks, all together and gradually □\u00a0by cutting, one by one and symmetrically, in the order ", "A crack or a slip halfway: stop, hold, call the engineer.", "every strand for slip, at most ____ mm (specification)",
		"- a strand on the bed breaks or slips, or an end cracks or spalls\n", "| Free to move |", "| No. | x m | y m | after release |",
	} {
		require.Contains(t, page, words)
	}
	require.NotContains(t, page, "go on within")
	require.NotContains(t, operationPages(a)[2], "strand on the bed", "released before")
	both := sequenceOf(passed(t, Settings{}, pulled, strands))
	require.Less(t, strings.Index(both, "Release at both ends"), strings.Index(both, "Nobody in line with a jack"))
}
