package segmental

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

// stepped is a deck of n pairs with bars in both slabs and anchored frames on a pier with ties.
func stepped(t testing.TB, n int) Deck {
	d := haunched(t, n)
	d.Rule = EN
	bar := d.Bars[0].Bar
	d.Bars = nil
	for k := 1; k <= n; k++ {
		low := func(x float64) float64 { u := 1 - x/35; return -2.2 - 1.8*u*u }
		x := 3*float64(k) - 1
		z, rise, back := low(x)+0.18, (low(x+2.9)-low(x-2.9))/5.8, 2.9
		if k == 1 { // the segment on the pier has a level soffit
			z, rise, back = low(x)+0.30, 0.06, 1.9
		}
		of := Bars{Of: []string{fmt.Sprintf("L%d", k), fmt.Sprintf("R%d", k)}, Back: back, Over: 2.9, Stress: 700e6, DrawIn: 0.001, Bar: bar}
		for i, y := range []float64{4.15, 0.45, 2.1, 1.2} {
			y += 0.3 * float64(k-1)
			at := BarPlace{Y: y, Z: -0.14}
			if i > 1 {
				at = BarPlace{Y: y - 0.45*float64(k-1), Z: z, Rise: rise}
			}
			other := at
			other.Y = -at.Y
			of.At = append(of.At, at, other)
		}
		d.Bars = append(d.Bars, of)
	}
	for i := range d.Tendons {
		d.Tendons[i].Strands = 19
	}
	for i := range d.Segments {
		e := &d.Segments[i].Element
		for _, y := range []float64{-4.7, -2.5, 0, 2.5, 4.7} {
			e.Bars = append(e.Bars, stages.BondedBars{From: 0, To: e.Length, At: section.Point{Y: y, Z: -0.13}, Area: 5e-3})
		}
		low := -4.0
		if axis, at := 2+3*float64(n), d.at(); d.Segments[i].Type == Typical {
			u := 1 - max(math.Abs(at[i]-axis), math.Abs(at[i+1]-axis))/35
			low = -2.2 - 1.8*u*u
		}
		for _, y := range []float64{-1.5, 0, 1.5} {
			e.Bars = append(e.Bars, stages.BondedBars{From: 0, To: e.Length, At: section.Point{Y: y, Z: low + 0.13}, Area: 3e-3})
		}
	}
	for i := range d.Frames {
		d.Frames[i].Foot, d.Frames[i].Document = 1.5e6, "invented manual"
		d.Frames[i].Anchors = &Anchors{Number: 4, Preload: 200e3, Capacity: 450e3, Document: "invented manual"}
	}
	d.Piers = []Pier{{Mark: "P1", At: 2 + 3*float64(n), Rows: 3, Row: 20e6, Document: "invented", Ties: &Ties{Number: 10, Preload: 300e3, Capacity: 800e3, Document: "invented"}}}
	return d
}

// twoStages are the steps of a deck, the second and later pairs by frames.
func twoStages(t testing.TB, d Deck, keepBars int) []Step {
	steps, err := Usual{Pier: "P1", First: 40, Days: 3, Frames: [2]string{"F1", "F2"}, ByCrane: 1, KeepBars: keepBars, Jacking: tendon.Jacking{Stress: 1400e6, Ends: tendon.BothEnds, DrawIn: 0.006}}.Steps(d)
	require.NoError(t, err)
	covers(steps)
	return steps
}

// builtBy is a deck of n pairs calculated through these steps, with its casting curve after
// every move.
func builtBy(t testing.TB, d Deck, n, keepBars int) (Built, CastingCurve) {
	steps := twoStages(t, d, keepBars)
	on := []stages.Support{{X: 2 + 3*float64(n), Z: -4, Fixed: true, Role: stages.Pad}}
	b, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	curve, err := Casting{Rule: MatchCast, Profile: func(x float64) float64 { return 20 + x/100 }, EveryMove: true}.Curve(d, b.Analysis, on, steps...)
	require.NoError(t, err)
	return b, curve
}

// covers answers all that a document must answer, so that the sheet has its limits.
func covers(steps []Step) {
	for i := range steps {
		for k := range steps[i].Moves {
			steps[i].Moves[k].Covered = []stages.Document{{Covers: limits.LocalForce, Number: "D1", Revision: "A", Status: "approved"}, {Covers: limits.JointSpread, Number: "D2", Revision: "A", Status: "approved"}}
		}
	}
}

// stated are the facts of an item in a situation, those of its positions among them.
func stated(t testing.TB, s stages.SituationRecord, mark string) map[string]stages.Fact {
	list := map[string]stages.Fact{}
	k := slices.IndexFunc(s.Equipment, func(e stages.EquipmentItem) bool { return e.Mark == mark })
	require.GreaterOrEqual(t, k, 0, "%s in %s", mark, s.Name)
	facts := slices.Clone(s.Equipment[k].Facts)
	for _, p := range s.Equipment[k].Positions {
		facts = append(facts, p.Facts...)
	}
	for _, f := range facts {
		list[f.Name] = f
	}
	return list
}

// The facts of a move are those of its deck, by hand, and of its checks.
func TestFactsOfAMove(t *testing.T) {
	const n = 2
	d := stepped(t, n)
	d.Piers[0].Ties.Preload = 20e3 // less than what the worst combination pulls
	b, _ := builtBy(t, d, n, 1)
	stage := b.Record.Stages[1] // lift L2, attach L2, lift R2, attach R2, stress, remove
	lift, attach := stage.Situations[0], stage.Situations[1]
	require.Equal(t, "P1, pair 2: attach L2, frame F1", attach.Name)

	mass, err := d.weight(0)
	require.NoError(t, err)
	segment := stated(t, attach, "segment L2")
	for name, want := range map[string]float64{"weight": mass.Weight, "minimum weight": 0.98 * mass.Weight, "maximum weight": 1.02 * mass.Weight, "CoG from the joint": 3 - mass.X} {
		require.InDelta(t, want, segment[name].Value, 1e-9*mass.Weight, name)
	}
	require.Equal(t, "L2/L1", segment["joint"].Text)
	require.Equal(t, "frame F1", segment["lifted by"].Text)
	require.Equal(t, "not in this calculation", segment["bars released"].Text)
	require.Equal(t, "in P1, pair 2", stated(t, b.Record.Stages[0].Situations[0], "segment L1")["bars released"].Text)
	require.NotContains(t, stated(t, lift, "segment L2"), "mean pressure", "its joint is open")
	require.Equal(t, b.Moves[6].EpoxyMean, segment["mean pressure"].Value)
	require.Equal(t, b.Moves[6].EpoxyMinimum, segment["minimum pressure"].Value)
	require.Equal(t, [2]float64{0.28e6, 0.21e6}, [2]float64{segment["mean pressure required"].Value, segment["minimum pressure required"].Value})

	frame := stated(t, lift, "lifting frame F1")
	before := 3 - mass.X // of L2 before the face of L1
	require.InDelta(t, 1.02*1.1*mass.Weight*(1+(before+0.5)/5)+300e3*(1-1.0/5), frame["front feet"].Value, 1, "300 kN at 1.5 m, feet at 0.5 and 5.5 m")
	require.InDelta(t, math.Max(200e3, frame["pull on the anchors"].Value/4), frame["force of an anchor bar"].Value, 1e-6)
	require.Equal(t, "on L1, with L2", lift.Equipment[1].Positions[0].Name)
	alone := stated(t, lift, "lifting frame F2")
	require.InDelta(t, 300e3*4/5, alone["front feet"].Value, 1)
	require.InDelta(t, 300e3/5, alone["rear feet"].Value, 1)

	pier := stated(t, lift, "pier P1")
	require.Equal(t, "to L1 with F1, L2 hung", pier["left arm"].Text)
	require.Equal(t, "to R1 with F2", pier["right arm"].Text)
	r := b.Moves[5].Piers[0]
	require.InDelta(t, mass.Weight*(mass.X-8), pier["out-of-balance moment"].Value, 1, "frames and segments alike on both arms but for L2")
	require.Equal(t, [3]float64{r.Vertical, r.Largest, r.LeastRow}, [3]float64{pier["vertical force"].Value, pier["maximum out-of-balance moment"].Value, pier["minimum force of a row"].Value})
	require.Greater(t, pier["maximum force of a row"].Value, r.Vertical/2+math.Abs(r.Along)/3-1, "at least that of the nominal resultant")
	require.Less(t, r.LeastRow, -200e3)
	require.InDelta(t, -r.LeastRow/10, pier["maximum force of a tie"].Value, 1e-6)
	require.Equal(t, 20e3, stated(t, stage.Situations[3], "pier P1")["maximum force of a tie"].Value, "the row presses: the preload")
	require.Equal(t, []int{1}, lift.Equipment[3].Supports)
}

// What an item brings is an action of its situation by its mark: nothing is left out of the
// sheet that is not stated.
func TestItemsBringActionsOfTheirSituation(t *testing.T) {
	const n = 2
	b, _ := builtBy(t, stepped(t, n), n, 1)
	for _, stage := range b.Record.Stages {
		for _, s := range stage.Situations {
			var brought []string
			for _, e := range s.Equipment {
				brought = append(brought, e.Brings...)
			}
			for _, l := range s.Loads {
				require.Contains(t, brought, l.Mark, s.Name)
			}
		}
	}
}

// sheetOf is the operation sheet of the last step of a deck of n pairs.
func sheetOf(t testing.TB, change func(*Deck)) string {
	const n = 2
	d := stepped(t, n)
	change(&d)
	b, _ := builtBy(t, d, n, -1)
	var page strings.Builder
	require.NoError(t, sheet.WriteOperationMarkdown(&page, b.Record, sheet.Settings{}))
	_, last, found := strings.Cut(page.String(), "# Operation sheet 2 of 2")
	require.True(t, found)
	require.NotContains(t, last, "DO NOT PROCEED")
	return last
}

// The sheet of a step states the deck: another deck has another sheet.
func TestTheSheetOfAStepStatesItsDeck(t *testing.T) {
	same := sheetOf(t, func(*Deck) {})
	other := sheetOf(t, func(d *Deck) {
		d.Frames[0].Weight, d.Frames[0].Foot = 350e3, 1.6e6
		d.Frames[0].Anchors = &Anchors{Number: 6, Preload: 250e3, Capacity: 450e3, Document: "D"}
		d.Piers[0].Row, d.Piers[0].Ties.Number, d.Piers[0].Ties.Preload = 21e6, 12, 320e3
		d.Loads.OneArm, d.Loads.OtherArm = 500, 100
		d.Epoxy, d.Bars[1].Stress = EpoxyFIP, 710e6
	})
	for _, words := range [][2]string{
		{"| 300 kN (240, 60) | 300 kN (240, 60) |", "| 350 kN (280, 70) | 300 kN (240, 60) |"},
		{"| 4 × 200 kN; 450 kN | 4 × 200 kN; 450 kN |", "| 6 × 250 kN; 450 kN | 4 × 200 kN; 450 kN |"},
		{"of 1500 kN | 1153 kN of 1500 kN |", "of 1600 kN | 1153 kN of 1500 kN |"},
		{"10 ties at each row, preload 300 kN each, in the worst combination 300 of 800 kN", "12 ties at each row, preload 320 kN each, in the worst combination 320 of 800 kN"},
		{"with them at most 20000 kN", "with them at most 21000 kN"},
		{"at most 0.48 kN/m² on one arm with 0.24 kN/m² on the other", "at most 0.5 kN/m² on one arm with 0.1 kN/m² on the other"},
		{"; ≥ 0.28 MPa", "; ≥ 0.3 MPa"}, {"; ≥ 0.21 MPa", "; ≥ 0.2 MPa"},
		{"B_L2_1 to B_L2_8, 712.6 kN each, together", "B_L2_1 to B_L2_8, 722.8 kN each, together"},
	} {
		require.Contains(t, same, words[0])
		require.NotContains(t, same, words[1])
		require.Contains(t, other, words[1])
	}
}

// Target levels are those of the joints of the step at its last move, and only of them; without
// a casting curve they are left blank.
func TestTheSheetOfAStepHasItsTargetLevels(t *testing.T) {
	const n = 2
	d := stepped(t, n)
	b, curve := builtBy(t, d, n, -1)
	pageOf := func() string {
		var page strings.Builder
		require.NoError(t, sheet.WriteOperationMarkdown(&page, b.Record, sheet.Settings{}))
		first, _, _ := strings.Cut(page.String(), "# Operation sheet 2 of 2")
		return first
	}
	require.Contains(t, pageOf(), "| Target level and slope, equipment at, tolerance |  |")
	require.NoError(t, b.Record.Append(curve.Result()))
	page := pageOf()
	require.NotContains(t, page, "| Target level and slope, equipment at, tolerance |  |")
	require.Contains(t, page, "**Target levels after step 1, P1, pair 1: set frame F2 to R1, day 40; frame F1 on L1, frame F2 on R1**")
	found := 0
	for _, s := range curve.Levels {
		if s.Step != 1 || s.Move != 5 {
			continue
		}
		for _, j := range s.Joints {
			row := fmt.Sprintf("| %s | %.3f | %.3f |", j.Name, j.X, j.Level)
			require.Equal(t, j.Name == "L2/L1" || j.Name == "R1/R2", j.New, j.Name)
			require.Equal(t, j.New, strings.Contains(page, row), row)
			found++
		}
	}
	require.Equal(t, 4, found)
}

// Rows of a table for a sheet must be rows of it, for a stage of the record.
func TestRowsForASheetAreChecked(t *testing.T) {
	const n = 1
	b, _ := builtBy(t, stepped(t, n), n, 1)
	part := func(stage int, rows ...int) stages.ResultPart {
		return stages.ResultPart{Title: "levels", Tables: []stages.ValueTable{{Title: "t", Columns: []stages.ValueColumn{{Name: "level", Unit: formula.Metre}}, Rows: [][]float64{{1}}, Stage: stage, Stated: rows}}}
	}
	for says, p := range map[string]stages.ResultPart{"Stage = 2: must be 0 to 1": part(2, 1), "has row 2: must be 1 to 1": part(1, 2), "has row 0: must be": part(1, 0), "Stated without Stage": part(0, 1), "Stage = -1": part(-1)} {
		require.ErrorContains(t, b.Record.Append(p), says)
	}
	require.NoError(t, b.Record.Append(part(1, 1)))
}
