package sheet

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// forty stresses forty tendons in twenty steps of two: the first ten steps from both ends,
// the others, with anchors of their own and another force, from the right end.
func forty(r *stages.Record) {
	var list []stages.Stressing
	for step := 1; step <= 20; step++ {
		for _, side := range "LR" {
			mark := fmt.Sprintf("T%d%c", step, side)
			p := stages.Stressing{Mark: mark, Step: step, How: "stress", Ends: "both ends", Stress: 1400e6, Force: 2520e3, Gauge: 2520e3, Area: 1800e-6, Modulus: 195e9, Extends: stages.Ends{Left: 0.1, Right: 0.1}, Tolerance: 0.05}
			t := stages.TendonRecord{Mark: mark, Strands: 12, Points: []stages.PathPoint{{X: 0}, {X: 20}}}
			if step > 10 {
				p.Ends, p.Force, p.Gauge, p.Extends.Left = "the right end", 2000e3, 2000e3, 0
				t.Points[0].X = 8
			}
			list, r.Tendons = append(list, p), append(r.Tendons, t)
		}
	}
	r.Stages[0].Situations[0].Stressing = list
}

// Twenty steps are twenty rows, in order; two forces at the gauge are two groups of columns
// of one table of four jacks; each tendon says where its anchors are.
func TestManySteps(t *testing.T) {
	a := passed(t, Settings{}, forty)
	s := a.record.Stages[0].Situations[0]
	rows := rowsOf(a.jackings(s))
	require.Len(t, rows, 20)
	require.Equal(t, []string{"20", "T20L (x\u00a0=\u00a08 m, 20 m) + T20R (x\u00a0=\u00a08 m, 20 m)", "12", "greater x"}, rows[19][:4])
	require.Len(t, a.extensions(s).rows, 40)
	require.Equal(t, []string{"20", "T20R (x\u00a0=\u00a08 m, 20 m)", "—", "95 to 105", "95 to 105", "—", "", "", "—", "", "", "", "—", "", "—", "", ""}, rowsOf(a.extensions(s))[39])
	require.Len(t, a.jacks(s), 2, "how many, and one table")
	g := a.jacks(s)[1].(part).blocks[0].(grid)
	require.Equal(t, []string{
		"Jack at end", "steps 1 to 10: jack / gauge", "calibrated", "tick", "kN per unit", "unit: datum / full / never",
		"steps 11 to 20: jack / gauge", "calibrated", "tick", "kN per unit", "unit: datum / full / never",
	}, headsOf(g))
	require.Equal(t, [][]string{
		{"smaller x: tendon 1 of each step", pairBlank, "", eitherOr, "", threeBlanks, "—", "—", "—", "—", "—"},
		{"smaller x: tendon 2 of each step", pairBlank, "", eitherOr, "", threeBlanks, "—", "—", "—", "—", "—"},
		{"greater x: tendon 1 of each step", pairBlank, "", eitherOr, "", threeBlanks, pairBlank, "", eitherOr, "", threeBlanks},
		{"greater x: tendon 2 of each step", pairBlank, "", eitherOr, "", threeBlanks, pairBlank, "", eitherOr, "", threeBlanks},
	}, rowsOf(g))
	page := operationPages(a)[0]
	require.Contains(t, page, ": stress steps 1 to 20 of the table, in this order.")
	require.Contains(t, page, "Both tendons of a step, all jacks together (± ____ % of its own full): datum ____ (none calculated: stated by the engineer), mark the strands, full in ____ increments.")
}

// Jacks are counted for the step that needs most of them, and by end.
func TestJacksThatAreNeeded(t *testing.T) {
	needed := func(ends ...string) string {
		a := passed(t, Settings{}, pulled, first(func(s *stages.SituationRecord) {
			for i := range s.Stressing {
				s.Stressing[i].Ends = ends[i]
			}
		}))
		text, _, _ := strings.Cut(a.jacksNeeded(a.record.Stages[0].Situations[0]).raw(), ". Do not start")
		return text
	}
	const both, left, right = "both ends", "the left end", "the right end"
	require.Equal(t, "4 jacks at once, 2 at each end", needed(both, both, left))
	require.Equal(t, "2 jacks at once at end x\u00a0=\u00a00", needed(left, left, left))
	require.Equal(t, "2 jacks at once at end x\u00a0=\u00a020 m", needed(right, right, right))
	require.Equal(t, "2 jacks at once, 1 at each end", needed(left, right, left))
	require.Equal(t, "3 jacks at once, 2 at end x\u00a0=\u00a00, 1 at end x\u00a0=\u00a020 m", needed(both, left, right))
}

// One end jacked: no column, no band and no difference of the other end, which has an anchor
// to watch.
func TestStressingFromOneEnd(t *testing.T) {
	a := passed(t, Settings{}, pulled, first(func(s *stages.SituationRecord) {
		for i := range s.Stressing {
			p := &s.Stressing[i]
			p.Ends, p.Extends, p.Tolerance = "the right end", stages.Ends{Right: 0.1}, 0.05
		}
	}))
	s := a.record.Stages[0].Situations[0]
	require.Equal(t, []string{"Step", "Tendon", "permitted mm: x = 20 m", "read: x = 20 m", "k", "÷ k: x = 20 m", "after lock-off", "draw-in: x = 20 m", "gauge: x = 20 m", "lock-off time"}, headsOf(a.extensions(s)))
	require.Equal(t, []string{"1", "A", "95 to 105", "", "", "", "", "", "", ""}, rowsOf(a.extensions(s))[0])
	page := operationPages(a)[0]
	require.Contains(t, page, "**Limits:** read ÷ k of a tendon ± 5 %, the bands above. By the specification")
	require.NotContains(t, page, "difference of the two ends")
	require.Contains(t, page, "**Anchor without a jack:** A at x\u00a0=\u00a00, B at x\u00a0=\u00a00, C at x\u00a0=\u00a00, watch it for slip.")
}

// Re-stressing and letting down are named in the table, and grouted in the same situation is
// named in its place in the order.
func TestRestressingAndLettingDown(t *testing.T) {
	a := passed(t, Settings{}, pulled, first(func(s *stages.SituationRecord) {
		s.Stressing[0].How, s.Stressing[1].How, s.Stressing[2].How = "re-stress", "re-stress", "let down"
		s.Events = []stages.Group{{Title: "re-stress A, B, jacked at both ends"}, {Title: "grout A: bonded from here on"}, {Title: "let down C, jacked at the left end"}}
		s.Tendons = []stages.TendonForce{{Mark: "A", Bonded: true}, {Mark: "B"}, {Mark: "C"}}
	}))
	rows := rowsOf(a.jackings(a.record.Stages[0].Situations[0]))
	require.Equal(t, "re-stress A + B", rows[0][1])
	require.Equal(t, "let down C", rows[1][1])
	page := operationPages(a)[0]
	require.Contains(t, page, ": in order: (1) re-stress A, B; (2) grout A: bonded from here on; (3) let down C.\n")
}

// The order of operations: stress, accept, cut, cap, grout, close out; grouting on another
// sheet names it, and grouting is never asked for before it is done.
func TestOperationsInOrder(t *testing.T) {
	sequence := func(changes ...func(*stages.Record)) string {
		a := passed(t, Settings{}, append([]func(*stages.Record){pulled, first(func(s *stages.SituationRecord) { s.Phase = "stressing" })}, changes...)...)
		var lines []string
		for _, p := range a.sequence(0).points {
			lines = append(lines, p.raw())
		}
		return strings.Join(lines, "\n")
	}
	const accepted = "Engineer accepts every extension (signed, time): ____________________; only then cut strands, date ________, fit grout caps, date ________.\n"
	all := func(bonded bool) []stages.TendonForce {
		return []stages.TendonForce{{Mark: "A", Bonded: bonded}, {Mark: "B", Bonded: bonded}, {Mark: "C", Bonded: bonded}}
	}
	const kept = "Protection until grouting: __________. "
	require.Contains(t, sequence(), "stress steps 1 to 2 of the table, in this order.\n"+accepted+kept+"Grout (not in this calculation), by (date) ________ (both: specification). Close out this sheet below.")
	here := sequence(first(func(s *stages.SituationRecord) { s.Tendons = all(false) }), another(func(s *stages.SituationRecord) {
		s.Name, s.Age, s.Stressing, s.Tendons = "grouting", 5, nil, all(true)
	}))
	require.True(t, strings.HasSuffix(here, accepted+"1.2 grouting, age 5 d or more, on the supports listed below: grout A, B, C, at the latest (date) ________ (specification); keep the record of grouting.\nClose out this sheet below."), here)
	later := sequence(first(func(s *stages.SituationRecord) { s.Tendons = all(false) }), func(r *stages.Record) {
		r.Stages[1].Situations[0].Tendons = []stages.TendonForce{{Mark: "A", Bonded: true}, {Mark: "B"}, {Mark: "C"}}
		r.Tendons[1].External = true
	})
	require.Contains(t, later, kept+"Grout A on sheet 2, age 7 d or more; C (not in this calculation), by (date) ________ (both: specification). Close out")
	require.NotContains(t, later, "B (not in", "an external tendon has no duct in the concrete")
	require.Contains(t, sequence(first(func(s *stages.SituationRecord) { s.Added, s.Phase = []string{"S4"}, "stressing" })), "Deck clear of all that is not listed below.")
	page := renderHTML(passed(t, Settings{}, pulled).operations())
	require.Contains(t, page, "<ol>\n<li>Nobody in line with a jack or an anchor, locked off as well, until grouted;")
	require.Contains(t, operationPages(passed(t, Settings{}, pulled))[0], "\n2. At full read gauge and extension at every end. ")
}

// Bars are counted and named by their steel; a record without strands has the area, one
// without a path the ends by their direction.
func TestBarsAndTendonsThatAreNotKnown(t *testing.T) {
	a := passed(t, Settings{}, pulled, func(r *stages.Record) {
		for i := range r.Tendons {
			r.Tendons[i] = stages.TendonRecord{Mark: r.Tendons[i].Mark, Strands: 1, Strand: "bar 40"}
		}
	})
	stage := a.record.Stages[0]
	s := stage.Situations[0]
	require.Contains(t, operationPages(a)[0], "mark the strands or bars, full in")
	require.Contains(t, operationPages(a)[0], "only then cut strands or bars, date")
	require.Equal(t, []string{"1", "A + B", "1", "both ends"}, rowsOf(a.jackings(s))[0][:4])
	require.Equal(t, "extension mm: smaller x", headsOf(a.jackings(s))[11])
	require.Contains(t, a.stressingWords(stage, s).raw(), "Assumed: bar 40, E 195000 MPa, A 1800 mm² each.")
	a.record.Tendons = nil
	require.Equal(t, "1800 mm²", rowsOf(a.jackings(s))[0][2])
	require.NotContains(t, a.stressingWords(stage, s).raw(), "Anchors:")
}

// A long list of tendons that are not stressed is cut.
func TestManyTendonsThatAreNotStressed(t *testing.T) {
	a := passed(t, Settings{}, pulled, func(r *stages.Record) {
		for i := range 20 {
			r.Tendons = append(r.Tendons, stages.TendonRecord{Mark: fmt.Sprintf("D%d", i+1)})
		}
	})
	require.True(t, strings.HasSuffix(a.notStressed(a.record.Stages[0]), "D15, D16, 4 others"))
}

// Steps that follow one another are a run.
func TestNamesOfSteps(t *testing.T) {
	for want, steps := range map[string][]int{"step 3": {3}, "steps 1, 2": {1, 2}, "steps 1 to 3, 5": {1, 2, 3, 5}, "steps 1, 4 to 6": {1, 4, 5, 6}} {
		require.Equal(t, want, stepNames(steps))
	}
}

// No word of the record is markup on a stressing sheet.
func TestWordsOfStressingAreEscaped(t *testing.T) {
	a := passed(t, Settings{}, pulled, func(r *stages.Record) {
		for i := range r.Tendons {
			r.Tendons[i].Approval, r.Tendons[i].Strand = hostile, hostile
		}
		r.Stages[0].Situations[0].Stressing[2].Given = hostile
	})
	for name, page := range rendered(a) {
		require.NotContains(t, page, "<script", name)
		if strings.HasSuffix(name, "html") {
			wellFormedPage(t, page, name)
		}
	}
}
