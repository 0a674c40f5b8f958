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

// pulled stresses a pair from both ends and a third tendon from the left end. The pair has
// 12 strands of 150 mm², 1400 MPa · 1800 mm² = 2520 kN, at the gauge / 0.97 = 2597.94 kN;
// never above 1476.05 MPa · 1800 mm² / 0.97 = 2739.06 kN.
func pulled(r *stages.Record) {
	pair := stages.Stressing{
		Mark: "A", Step: 1, How: "stress", Ends: "both ends", Stress: 1400e6, Force: 2520e3, Gauge: 2520e3 / 0.97, Limit: 1476.05e6, Datum: 504e3 / 0.97, Tail: 0.8, DrawIn: 0.006,
		Area: 1800e-6, Modulus: 195e9, Extends: stages.Ends{Left: 0.10072, Right: 0.10072}, Kept: 0.18024, Tolerance: 0.15,
	}
	mirrored, single := pair, pair
	mirrored.Mark = "B"
	single.Mark, single.Step, single.Ends, single.Extends, single.Kept, single.Tolerance, single.Limit = "C", 2, "the left end", stages.Ends{Left: 0.0501}, 0.044, 0, 0
	r.Stages[0].Situations[0].Stressing = []stages.Stressing{pair, mirrored, single}
	for _, mark := range []string{"A", "B", "C"} {
		r.Tendons = append(r.Tendons, stages.TendonRecord{Mark: mark, Strands: 12, Strand: "Y-1", Approval: "PT-12", Points: []stages.PathPoint{{X: 0}, {X: 20}}})
	}
}

func headsOf(g grid) []string {
	var heads []string
	for _, c := range g.columns {
		heads = append(heads, c.title.raw())
	}
	return heads
}

func rowsOf(g grid) [][]string {
	var rows [][]string
	for _, r := range g.rows {
		var cells []string
		for _, c := range r {
			cells = append(cells, c.raw())
		}
		rows = append(rows, cells)
	}
	return rows
}

// A pair with the same values is one row of what to stress to, the ends by their places; the
// greatest gauge force is rounded down, and there is none where the standard gives none.
func TestWhatEachStepIsStressedTo(t *testing.T) {
	a := passed(t, Settings{}, pulled)
	s := a.record.Stages[0].Situations[0]
	require.Equal(t, []string{"Step", "Tendons", "Strands", "Jacks", "stress MPa", "A, kN: datum", "full", "never above", "B, kN: datum", "full", "never above", "extension mm: x = 0", "x = 20 m", "after lock-off", "draw-in mm each end"}, headsOf(a.jackings(s)))
	require.Equal(t, [][]string{
		{"1", "A + B", "12", "both ends", "1400", "520", "2598", "2739", "504", "2520", "2656", "100.7", "100.7", "180.2", "6"},
		{"2", "C", "12", "x = 0", "1400", "520", "2598", "—", "504", "2520", "—", "50.1", "—", "44", "6"},
	}, rowsOf(a.jackings(s)))
	s.Stressing[0].Limit = 1475.9e6 // 1475.9 · 1800 / 0.97 = 2738.78 kN
	require.Equal(t, "2738", a.greatest(s.Stressing[0], s.Stressing[0].Gauge), "never up to 2739")
	require.Len(t, a.jackings(s).rows, 3, "no pair any more")
	a.units = US
	require.Equal(t, []string{"1", "A", "12", "both ends", "203.1", "117", "584", "615", "113", "567", "597", "3.97", "3.97", "7.1", "0.24"}, rowsOf(a.jackings(s))[0])
	require.Equal(t, "x = 65.6 ft", headsOf(a.jackings(s))[12])
}

// Each tendon has a row for its readings, with the bands of each end and of both rounded
// inwards to 1 mm: 100.72 · 0.85 = 85.6 up, · 1.15 = 115.8 down; 171.2 up, 231.7 down.
// Without a tolerance the specification gives it.
func TestReadingsOfEachTendon(t *testing.T) {
	a := passed(t, Settings{}, pulled)
	s := a.record.Stages[0].Situations[0]
	require.Equal(t, []string{
		"Step", "Tendon", "permitted mm: x\u00a0=\u00a00", "x = 20 m", "both", "read: x\u00a0=\u00a00", "x = 20 m", "k", "÷ k: x\u00a0=\u00a00", "x = 20 m", "both",
		"after lock-off", "draw-in: x\u00a0=\u00a00", "x = 20 m", "gauge: x\u00a0=\u00a00", "x = 20 m", "lock-off time",
	}, headsOf(a.extensions(s)))
	require.Equal(t, [][]string{
		{"1", "A", "86 to 115", "86 to 115", "172 to 231", "", "", "", "", "", "", "", "", "", "", "", ""},
		{"1", "B", "86 to 115", "86 to 115", "172 to 231", "", "", "", "", "", "", "", "", "", "", "", ""},
		{"2", "C", "____ to ____", "—", "____ to ____", "", "—", "", "", "—", "", "", "", "—", "", "—", ""},
	}, rowsOf(a.extensions(s)))
	a.units = US // 171.224 mm = 6.7411 in, 231.656 mm = 9.1203 in
	require.Equal(t, []string{"3.38 to 4.56", "3.38 to 4.56", "6.75 to 9.12"}, rowsOf(a.extensions(s))[0][2:5])
}

// What the foreman needs beside the tables: tolerances, what extension and gauge force
// contain, the correction by certificate, what is not stressed, and who accepts.
func TestWordsOfTheStressingSheet(t *testing.T) {
	limit := stages.Check{Kind: limits.JackStress, Name: "jacking stress", State: stages.Pass, Sense: limits.AtMost,
		Limit: formula.Q("σ", 1476.05e6, formula.Pascal, ""), Demand: formula.Q("σ", 1400e6, formula.Pascal, ""), Source: formula.Source{Document: "Standard 1", Place: "5.10", Confirm: true}}
	page := operationPages(passed(t, Settings{}, pulled, func(r *stages.Record) {
		r.Tendons = append(r.Tendons, stages.TendonRecord{Mark: "D", Strands: 12}, stages.TendonRecord{Mark: "E", Strands: 12}, stages.TendonRecord{Mark: "L", Pretensioned: true})
	}, first(func(s *stages.SituationRecord) {
		s.Checks, s.Phase = append(s.Checks, limit), "stressing"
		s.Tendons = []stages.TendonForce{{Mark: "A"}, {Mark: "E"}}
	})))[0]
	for _, words := range []string{
		"**Limits:** read ÷ k of each end and of both together ± 15 % or ± ____ %, the bands above. By the specification: all together ± ____ % of 453 mm (read ÷ k, before the last lock-off \\_\\_\\_\\_\\_\\_\\_\\_), difference of the two ends ____ mm, draw-in ± ____ mm, gauge at full ± ____ %.",
		"**Extension:** from the datum (20 % of full) to full, with 0.8 m of steel in each jack in it; after lock-off from the same marks, the stretch in the jacks deducted, for the record. k of a coil = (E·A assumed) / (E·A certificate).",
		"**Pressure** = force ÷ (kN per unit of the gauge). **Tick for each jack: A** calibration without friction of jack and anchorage, 3 % added; **B** with both: force at the anchor; with one only: forces by the engineer. " +
			"The force stays as listed whatever k is, more only with the engineer, never above 1476 MPa, Standard 1 5.10 or ____ by the engineer where none is listed, even for the extension.",
		"**Assumed:** Y-1, E 195000 MPa, A 150 mm² each.",
		"**Anchors:** PT-12. **Anchor without a jack:** C at x = 20 m, watch it for slip. **Not stressed on this sheet:** D; E (stressed before).",
		"**4 jacks at once, 2 at each end. Do not start while blank:** gauges in □\u00a0bar □\u00a0MPa; coils, certificate, E, A, k: 1 ",
	} {
		require.Contains(t, page, words)
	}
	require.NotContains(t, page, "CoG")
	require.NotContains(t, page, "dynamic factor")
	bare := operationPages(passed(t, Settings{}, pulled, first(func(s *stages.SituationRecord) {
		for i := range s.Stressing {
			p := &s.Stressing[i]
			p.Tail, p.Datum, p.Gauge = 0, 0, p.Force
		}
	})))[0]
	require.Contains(t, bare, "from no force to full, no datum is set, without the steel in the jack;")
	require.Contains(t, bare, "calibration without friction of jack and anchorage, forces by the engineer;")
	for _, page := range operationPages(passed(t, Settings{}))[:3] {
		require.NotContains(t, page, "jack / gauge")
		require.NotContains(t, page, "Limits")
	}
	require.NotContains(t, operationPages(passed(t, Settings{}, pulled, atStage(0, fails)))[0], "2520", "no force where the stage may not go ahead")
}

// A force that a document gives has no extension, one that is let down none either.
func TestStressingWithoutExtensions(t *testing.T) {
	a := passed(t, Settings{}, pulled, first(func(s *stages.SituationRecord) {
		p := &s.Stressing[2]
		p.How, p.Extends, p.Kept, p.Given = "let down", stages.Ends{}, 0, "report R-3"
	}))
	stage := a.record.Stages[0]
	s := stage.Situations[0]
	require.Equal(t, []string{"2", "let down C", "12", "x = 0", "1400", "520", "2598", "—", "504", "2520", "—", "—", "—", "—", "6"}, rowsOf(a.jackings(s))[1])
	require.Equal(t, []string{"—", "—", "—"}, rowsOf(a.extensions(s))[2][2:5])
	require.Contains(t, a.stressingWords(stage, s).raw(), "Forces and extensions marked — are as given by report R-3.")
}

// moved gives a situation movements: up at the places x, and along (mm).
func moved(up, along [3]float64) func(*stages.SituationRecord) {
	return func(s *stages.SituationRecord) {
		s.Moves = derive.Rows{Columns: []string{"body", "x", "deflection", "least", "most", "bow", "along"}}
		for i, x := range []float64{0, 10, 20} {
			s.Moves.Values = append(s.Moves.Values, []float64{1, x, up[i] / 1000, 0, 0, 0, along[i] / 1000})
		}
	}
}

// A record that nobody checked is printed all the same: rows of movements that are too
// short, a stage with another number, a body that is not there, forces of nothing.
func TestOddRecordsArePrinted(t *testing.T) {
	page := operationPages(passed(t, Settings{}, pulled, first(apart), first(func(s *stages.SituationRecord) {
		s.Moves = derive.Rows{Columns: []string{"body", "x", "deflection", "along"}, Values: [][]float64{{1}}}
		s.Stressing[0].Force, s.Stressing[0].Area = 0, 0
		s.Reactions[2].Body = 9
		s.Total = stages.Range{Least: 1e-280, Most: 1e-280}
	}), func(r *stages.Record) { r.Stages[0].Number = 99 }))[0]
	require.NotContains(t, page, "Movement")
	require.NotContains(t, page, "NaN")
	require.Equal(t, "0 to 0", inwards(stages.Range{}, 1, 0))
	require.Less(t, len(inwards(stages.Range{Least: 1e-280, Most: 1e-280}, 1, 283)), 40)
}

// How the element moves while it is stressed, from how it stood before.
func TestMovementWhileStressing(t *testing.T) {
	hog := moved([3]float64{-1.2, 9.96, -1.2}, [3]float64{0, -3, -6})
	page := operationPages(passed(t, Settings{}, pulled, first(hog)))[0]
	require.Contains(t, page, "**Movement:** highest at x = 10 m, 10 mm; ends −1.2 mm and −1.2 mm; shortens by 6 mm; bears on the supports listed only.")
	require.NotContains(t, operationPages(passed(t, Settings{}, pulled))[0], "Movement", "the record has none")
	page = operationPages(passed(t, Settings{}, pulled, first(hog), func(r *stages.Record) {
		r.Stages[2].Situations[0].Stressing = r.Stages[0].Situations[0].Stressing
	}, func(r *stages.Record) {
		moved([3]float64{14, 11, 0}, [3]float64{0, -5, -10})(&r.Stages[2].Situations[0])
	}))[2]
	require.Contains(t, page, "**Movement:** highest at x = 0 m, 14 mm (before 10 mm); ends 14 mm and 0 mm; shortens by 4 mm; an end lifts.")
	sag := moved([3]float64{0, -8, 0}, [3]float64{0, 0.1, 0.2})
	require.Contains(t, operationPages(passed(t, Settings{}, pulled, first(sag)))[0], "highest at x = 0 m, 0 mm; ends 0 mm and 0 mm; shortens by 0 mm; stays down on its supports.")
}

// Each kind of work has the room to write that it needs, and no other.
func TestRoomToWriteByKindOfWork(t *testing.T) {
	at := func(change func(*stages.SituationRecord)) string {
		return operationPages(passed(t, Settings{}, first(change)))[0]
	}
	plain := at(func(*stages.SituationRecord) {})
	for words, page := range map[string]string{
		"| Crane: type, counterweight, boom; radius at pick / slew / set, m |  |  |":                                                         operationPages(passed(t, Settings{}))[1],
		"stop at the smaller of the hold point above and the chart ____ m/s, gust / mean, at ____ m, parked ______ m/s, chart of __________": operationPages(passed(t, Settings{}))[1],
		"Trial lift: 100 mm clear, level up, hold ____ min":                                                                                  operationPages(passed(t, Settings{}))[1],
		"stop if the total or a hook is above its maximum.":                                                                                  operationPages(passed(t, Settings{}))[1],
		"| Greatest difference between jacks per increment |  |":                                                                             at(func(s *stages.SituationRecord) { s.Supports = []stages.Support{{Role: stages.Jack}} }),
		"| Restraint of the element on the carrier |  |":                                                                                     at(func(s *stages.SituationRecord) { s.Phase = "hauling" }),
		"| Mortar strength before transfer |  |":                                                                                             at(func(s *stages.SituationRecord) { s.Phase = "seating" }),
		"| Greatest delay, left to right |  |":                                                                                               at(func(s *stages.SituationRecord) { s.Added, s.Phase = []string{"S4"}, "stressing" }),
		"| Target level and slope, equipment at, tolerance |  |":                                                                             at(func(s *stages.SituationRecord) { s.Joined = []string{"S4"} }),
	} {
		require.Contains(t, page, words)
		require.NotContains(t, plain, words)
	}
	us := operationPages(passed(t, Settings{Units: US}))[1]
	require.Contains(t, us, "Trial lift: 4 in clear, level up")
	require.Contains(t, us, "the chart ____ mph, gust / mean, at ____ ft, parked ______ mph, chart of __________")
	require.NotContains(t, at(func(s *stages.SituationRecord) { s.Added = []string{"S4"} }), "Greatest delay", "another element in the yard")
	require.Contains(t, plain, "| Dunnage and ground, permissible pressure |  |")
	require.Equal(t, 1, strings.Count(plain, "permissible difference |"))
}
