package sheet

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// The head of each sheet: what it is, of which element, project and revision, with
// which calculation it goes, and room for who is in charge.
func TestTheHeadOfAnOperationSheet(t *testing.T) {
	a := passed(t, Settings{Project: "Estuary Link", Revision: "C"})
	fingerprint, err := Fingerprint(rectangle())
	require.NoError(t, err)
	for i, page := range operationPages(a) {
		require.True(t, strings.HasPrefix(page, []string{"1 of 3: store\n", "2 of 3: lift\n", "3 of 3: set down\n"}[i]))
		for _, row := range []string{
			"| Project | Estuary Link |", "| Element | G-3 |", "| Revision | C |", "| Goes with calculation | " + fingerprint + " |",
			"| Place, date, time |  |", "| In charge |  |", "| May stop the work |  |", "| Exclusion zone |  |", "| Signals |  |",
			"An aid. Valid only together with the calculation of the same fingerprint, checked and approved.",
		} {
			require.Contains(t, page, row)
		}
	}
}

// The foot of each sheet: who prepared and checked, who is responsible, to what state
// the work goes back, and when it was closed.
func TestTheFootOfAnOperationSheet(t *testing.T) {
	closed := []string{"Closed out, time", "Closed out by sheet 3, time", "Close out sheet 2 after set-down; this sheet, time"}
	safe := []string{"", "sheet 1; else hooks, 3", "hooks, sheet 2"}
	for i, page := range operationPages(passed(t, Settings{})) {
		require.Contains(t, page, "| Safe state to return to | "+safe[i]+" |\n| "+closed[i]+" |  |\n| Signed off |  |\n| Prepared |  |\n| Checked |  |\n| Responsible engineer |  |\n")
	}
}

// The type of an operation sheet is read at arm's length: 8 pt and more, and nothing that
// the style sets is below 7 pt.
func TestTypeOfOperationSheets(t *testing.T) {
	sizes := regexp.MustCompile(`font(?:-size)?: ([\d.]+)pt`).FindAllStringSubmatch(operationStyle, -1)
	require.NotEmpty(t, sizes)
	for _, m := range sizes {
		size, err := strconv.ParseFloat(m[1], 64)
		require.NoError(t, err)
		require.GreaterOrEqual(t, size, 7.0, m[0])
	}
	for _, rule := range []string{".site { font-size: 8pt;", ".site table, .site caption, .site ul, .site ul.two, .site ol { font-size: 8pt;"} {
		require.Contains(t, operationStyle, rule)
	}
	require.NotRegexp(t, `font-size: [\d.]+(%|em)`, operationStyle)
}

// Every reason to stop is on every sheet, in full, with those of its kind of work.
func TestEveryReasonToStopIsThere(t *testing.T) {
	const listed = "\n\n- a hold point above is not met\n"
	const head = "## Stop, make safe and consult the engineer if" + listed
	const place = "- a support or lift point is not where it is listed, or settles\n"
	const rest = "- the measured total, or a share of it, is outside its band above\n" + place
	const jacks, tail = "- cracking, unusual noise, anchor slip or jack leakage is noticed\n", "- somebody is in the exclusion zone, or a signal is not understood\n- the sequence or the equipment is not as planned\n"
	pages := operationPages(passed(t, Settings{}, pulled))
	require.Contains(t, pages[0], "## Stop, hold as above and consult the engineer if"+listed+"- extension or gauge force outside limits: do NOT lock off\n- draw-in outside its limit; a strand or bar slips or breaks\n"+rest+jacks+tail)
	require.Contains(t, pages[1], head+"- the total is above its maximum or, clear of the supports, outside a band\n"+
		"- a support, lift point, outrigger or leg is not as listed, settles or lifts off\n"+"- the wind or a level or a radius or a rope out of plumb exceeds its limit\n- cracking or unusual noise is noticed\n"+tail)
	require.Contains(t, pages[2], head+rest+"- the wind or a level or a radius or a rope out of plumb exceeds its limit\n- cracking or unusual noise is noticed\n"+tail)
	for _, page := range pages[1:] {
		require.NotContains(t, page, "jack leakage", "no jack is there")
	}
	require.NotContains(t, pages[0], "plumb", "nothing hangs")
	built := operationPages(passed(t, Settings{}, first(func(s *stages.SituationRecord) { s.Joined = []string{"S4"} })))[0]
	require.Contains(t, built, rest+"- a support lifts off, a joint opens, or a level differs from its target\n- the wind exceeds its limit\n- cracking or unusual noise is noticed\n"+tail)
}

// The blocks stand in the order in which the crew works through them.
func TestTheOrderOfTheBlocks(t *testing.T) {
	page, last := operationPages(passed(t, Settings{}))[0], -1
	for _, words := range []string{
		"| Project |", "An aid.", invalid, "## Hold points: before proceeding sign each, and fill in every blank but readings, acceptance and close-out", "## Sequence of operations: one movement at a time",
		"## Positions, readings and reactions", "| Support", "**Readings:**", "| Levels of the supports, permissible difference |", "**Weight:**", "**Other actions:**", "## Stop, make safe", "**Excluded:**", "| Prepared |",
	} {
		at := strings.Index(page, words)
		require.Greater(t, at, last, words)
		last = at
	}
}

// What a crew cannot rely on is one line that names the kinds.
func TestExclusionsAreOneLine(t *testing.T) {
	a := passed(t, Settings{Units: US}, first(func(s *stages.SituationRecord) { s.NotChecked = []string{"stresses within 2.400 m", "spalling"} }), another(func(s *stages.SituationRecord) { s.NotChecked = []string{"spalling", "bursting"} }))
	page := operationPages(a)[0]
	require.Contains(t, page, "**Excluded:** equipment, rigging, jacks, bearings and ground under the reactions given; all that the calculation lists as not checked.\n")
	calculation := calculationPage(a)
	require.Contains(t, calculation, "Excluded from this situation: stresses within 7.874 ft (2.400 m); spalling.")
	require.Contains(t, calculation, "Excluded from this situation: spalling; bursting.")
	require.Contains(t, calculation, "**Exclusions: not checked here**\n\n- scour\n")
}

// The sequence has each situation in order with its number and supports; supports
// that stay are said to be unchanged.
func TestTheSequenceOfSituations(t *testing.T) {
	page := operationPages(passed(t, Settings{}, another(func(s *stages.SituationRecord) { s.Age = 4 }), another(func(s *stages.SituationRecord) {
		s.Name, s.Age, s.Supports = "moved", 5, []stages.Support{{X: 1, Role: stages.Pad}, {X: 19, Role: stages.Pad}}
	})))[0]
	last := -1
	for _, line := range []string{
		"- **1.1 store**, on pads 1, 2 at 2 m from end x = 0; pad 3 at 16 m\n- Lower in small increments on to all supports;", "in its place.\n- **1.2 later**, supports unchanged\n- **1.3 moved**, on pad 1 at 1 m from end x = 0; pad 2 at 19 m\n\n",
	} {
		at := strings.Index(page, line)
		require.Greater(t, at, last, line)
		last = at
	}
	require.Equal(t, 1, strings.Count(page, "Lower in small increments"))
}

// What is done to tendons is a numbered step in the order of the record, with its
// values.
func TestStepsOfASituation(t *testing.T) {
	a := passed(t, Settings{}, stressed)
	require.Contains(t, operationPages(a)[0], "- (1) stress A, jacked at both ends; jacking stress 1400 MPa; draw-in 6 mm\n- (2) grout A\n")
	calculation := calculationPage(a)
	require.Contains(t, calculation, "**Stressing and grouting**\n\n- stress A, jacked at both ends; jacking stress σ_0 = 1400 MPa [1]; draw-in w = 6 mm [1]\n- grout A\n")
}

// stressed adds two steps to the first situation, the first with two lines.
func stressed(r *stages.Record) {
	r.Sources = append(r.Sources, formula.Source{Document: "input"})
	for _, q := range []formula.Quantity{formula.Q("σ_0", 1400e6, formula.Pascal, "jacking stress"), formula.Q("w", 0.006, formula.Metre, "draw-in")} {
		r.Symbols = append(r.Symbols, derive.Symbol{Symbol: q.Symbol, Unit: q.Unit, Name: q.Name})
		r.Lines = append(r.Lines, derive.Line{Result: derive.Number{Symbol: len(r.Symbols), Value: q.Value}, Source: len(r.Sources)})
	}
	n := len(r.Lines)
	r.Stages[0].Situations[0].Events = []stages.Group{{Title: "stress A, jacked at both ends", Lines: []int{n - 1, n}}, {Title: "grout A"}}
}

// Out of level, roll and gradient are differences of level in the form, rounded
// down: 0.02 · 14 m, 0.0123456 · 0.8 m = 9.876 mm; of supports in one line as a slope.
func TestTheTiltOfASituationIsNamed(t *testing.T) {
	page := func(units Units, change func(*stages.SituationRecord)) string {
		return operationPages(passed(t, Settings{Units: units}, first(change)))[0]
	}
	tilted := func(s *stages.SituationRecord) { s.OutOfLevel, s.Roll, s.Gradient = 0.00456, 0.0123456, 0.02 }
	for units, rows := range map[Units][]string{
		SI: {"| Level difference along, over 14 m, ≤ 280 mm |  |", "| Level difference across, over 0.8 m, ≤ 9.8 mm |  |", "| One support out of the plane of the others ≤ 4.5 mm |  |"},
		US: {" ft, ≤ 11.02 in |  |", " ft, ≤ 0.38 in |  |", "others ≤ 0.17 in |  |"},
	} {
		for _, row := range rows {
			require.Contains(t, page(units, tilted), row)
		}
	}
	require.Contains(t, page(SI, tilted), "pad 3 at 16 m\n", "not a second time in the sequence")
	line := func(s *stages.SituationRecord) {
		s.Roll, s.Supports, s.Reactions = 0.0123456, slices.Clone(s.Supports), slices.Clone(s.Reactions)
		for i := range s.Supports {
			s.Supports[i].Y, s.Reactions[i].Y = 0, 0
		}
	}
	require.Contains(t, page(SI, line), "| Slope across ≤ 12.3 mm/m |  |")
	require.Contains(t, page(US, line), "| Slope across ≤ 0.14 in/ft |  |")
	require.Contains(t, calculationPage(passed(t, Settings{}, first(func(s *stages.SituationRecord) { s.OutOfLevel, s.Roll = 0.00456789, 0.0123456 }))), "one support out of level by 4.567 mm; roll ±0.01234 rad")
	shared := func(s *stages.SituationRecord) {
		s.OutOfLevel = 0.00456789
		s.Supports = append(slices.Clone(s.Supports), s.Supports[2])
	}
	require.Contains(t, passed(t, Settings{}, first(shared)).sharing(passed(t, Settings{}, first(shared)).record.Stages[0].Situations[0]), "one support 4.567 mm out of level")
}

// Each arrangement of supports within a stage has its elevation on the sheet, one that
// stays is drawn once.
func TestEachArrangementOfAStageIsDrawn(t *testing.T) {
	drawn := func(changes ...func(*stages.Record)) int {
		a := passed(t, Settings{}, changes...)
		return len(figuresIn(a.operationSupports(a.record.Stages[0])))
	}
	same := another(func(*stages.SituationRecord) {})
	moved := another(func(s *stages.SituationRecord) {
		s.Reactions = append([]stages.Reaction{}, s.Reactions...)
		s.Reactions[2].X += 2
	})
	require.Equal(t, 1, drawn())
	require.Equal(t, 1, drawn(same))
	require.Equal(t, 2, drawn(moved))
	require.Equal(t, 2, drawn(same, moved))
	require.Equal(t, 3, drawn(moved, same), "back to the first")
}
