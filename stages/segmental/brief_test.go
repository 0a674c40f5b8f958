package segmental

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

// haunched is a deck of n segments on each side of a pier, with tendons and temporary bars.
func haunched(t testing.TB, n int) Deck {
	depth := func(x float64) float64 { // x from the pier axis
		u := 1 - x/35
		return 2.2 + 1.8*u*u
	}
	box := func(x float64) section.Shape {
		h := depth(x)
		s, err := section.Box{Depth: h, TopWidth: 10, RootWidth: 5.2, BottomWidth: 5.0, TopSlab: 0.28, BottomSlab: 0.25 + 0.3*(h-2.2)/1.8, WebThickness: 0.4,
			CantileverRoot: 0.45, CantileverTip: 0.22, TopHaunch: section.Haunch{Width: 0.9, Height: 0.25}, BottomHaunch: section.Haunch{Width: 0.4, Height: 0.2}}.Shape()
		require.NoError(t, err)
		s, err = s.Moved(section.Point{Z: -h})
		require.NoError(t, err)
		return s
	}
	mix := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR}
	seg := func(mark string, a, b float64, ty Type) Segment {
		along, err := section.Taper{From: 0, To: b - a, Left: box(math.Abs(a)), Right: box(math.Abs(b))}.Along()
		require.NoError(t, err)
		return Segment{Type: ty, Element: stages.Element{Mark: mark, Length: b - a, Section: along, Concrete: mix, WeightTolerance: loads.PlusMinus(0.02), Cast: 0}}
	}
	d := Deck{Mark: "P1", Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}, Epoxy: EpoxyAASHTO, Loads: ArmLoads{Width: 10, OneArm: 480, OtherArm: 240, Uplift: 240},
		Frames: []Frame{{Mark: "F1", Weight: 300e3, CoG: 1.5, Front: 0.5, Rear: 5.5}, {Mark: "F2", Weight: 300e3, CoG: 1.5, Front: 0.5, Rear: 5.5}}}
	for k := n; k >= 1; k-- {
		d.Segments = append(d.Segments, seg(fmt.Sprintf("L%d", k), -2-3*float64(k), -2-3*float64(k-1), Typical))
	}
	pier := Segment{Type: OnPier, Element: stages.Element{Mark: "P1", Length: 4, Section: box(0), Concrete: mix, WeightTolerance: loads.PlusMinus(0.02), Cast: 0}}
	d.Segments = append(d.Segments, pier)
	for k := 1; k <= n; k++ {
		d.Segments = append(d.Segments, seg(fmt.Sprintf("R%d", k), 2+3*float64(k-1), 2+3*float64(k), Typical))
	}
	app := tendon.Approval{Reference: "invented", MeanStrength: 30e6, AnchorSpacing: 0.3, EdgeDistance: 0.14}
	for k := 1; k <= n; k++ {
		for s, side := range []float64{1, -1} {
			d.Tendons = append(d.Tendons, Tendon{Tendon: tendon.Tendon{Mark: fmt.Sprintf("T%d%c", k, "LR"[s]), Strand: tendon.Y1860S7x157, Strands: 12, Duct: 0.09, Friction: 0.19, Wobble: 0.005, Approval: app},
				First: fmt.Sprintf("L%d", k), Last: fmt.Sprintf("R%d", k), At: section.Point{Y: side * (1.75 + 0.3*float64((k-1)%4)), Z: -0.16}})
		}
	}
	d.Bars = []Bars{{Bar: tendon.Tendon{Strand: tendon.Y1050H36, Strands: 1, Duct: 0.05, NoFriction: true, Approval: tendon.Approval{Reference: "invented", MeanStrength: 25e6, AnchorSpacing: 0.2, EdgeDistance: 0.1}},
		At: []BarPlace{{Y: 4.0, Z: -0.14}, {Y: -4.0, Z: -0.14}, {Y: 0.6, Z: -0.14}, {Y: -0.6, Z: -0.14}}, Back: 1.4, Over: 1.4, Stress: 600e6, DrawIn: 0.001}}
	return d
}

// recordOf is the record of a deck whose steps are changed before it is built.
func recordOf(t testing.TB, d Deck, n int, change func([]Step)) stages.Record {
	steps, err := Usual{Pier: "P1", First: 40, Days: 3, Frames: [2]string{"F1", "F2"}, ByCrane: 2, Jacking: tendon.Jacking{Stress: 1400e6, Ends: tendon.BothEnds, DrawIn: 0.006}}.Steps(d)
	require.NoError(t, err)
	change(steps)
	girder, err := d.Girder()
	require.NoError(t, err)
	plan, err := d.Plan([]stages.Support{{X: 2 + 3*float64(n), Z: -4, Fixed: true, Role: stages.Pad}}, steps...)
	require.NoError(t, err)
	record, err := plan.Run(girder, limits.EN1992{})
	require.NoError(t, err)
	return record
}

// A move is brief unless it is to be derived, and its calculation has a row for each move,
// kind of check and joint of a step; operation sheets are made all the same.
func TestTheCalculationOfADeckIsBrief(t *testing.T) {
	const n = 2
	record := recordOf(t, haunched(t, n), n, func(steps []Step) { steps[1].Moves[2].Derive = true })
	require.NoError(t, record.Check())
	for i, stage := range record.Stages {
		for k, s := range stage.Situations {
			require.Equal(t, i != 1 || k != 2, s.Brief, s.Name)
		}
	}
	var calculation, operations, us strings.Builder
	require.NoError(t, sheet.WriteMarkdown(&calculation, record, sheet.Settings{}))
	require.NoError(t, sheet.WriteMarkdown(&us, record, sheet.Settings{Units: sheet.US}))
	require.NoError(t, sheet.WriteOperationMarkdown(&operations, record, sheet.Settings{}))
	page := calculation.String()
	require.Less(t, strings.Count(page, "\n"), 1100, "one of its moves in full")
	require.Equal(t, 1, strings.Count(page, "Stages are printed in brief"))
	for _, words := range []string{
		"## Stage 2: P1, pair 2, age 43 d", "| 2.3 | stress T2L, T2R | 43 | 1 pad |", "### 2.3 P1, pair 2: stress T2L, T2R",
		"| L2/L1 | 3.000 |", "| R1/R2 | 13.000 |", "| 1 P1, pair 1; 1.",
	} {
		require.Contains(t, page, words)
	}
	require.NotContains(t, page, "### 2.2 P1, pair 2: attach R2, crane\n\n**Age", "a brief move has no section of its own")
	require.Contains(t, us.String(), "| L2/L1 | 9.843 |")
	require.Equal(t, len(record.Stages), strings.Count(operations.String(), "# Operation sheet "))
}

// The table of outlines has both ends of the level soffit of the segment on the pier and both ends of
// the deck: between its rows every corner recomputes to the millimetre.
func TestEveryBreakOfTheOutlineHasARow(t *testing.T) {
	const n = 2
	d := haunched(t, n)
	record := recordOf(t, d, n, func([]Step) {})
	var out strings.Builder
	require.NoError(t, sheet.WriteMarkdown(&out, record, sheet.Settings{}))
	_, table, found := strings.Cut(out.String(), "Outlines of the other sections, m: ")
	require.True(t, found)
	var rows [][]float64
	var names []string
	for _, line := range strings.Split(table, "\n")[1:] {
		cells := strings.Split(strings.Trim(line, "| "), " | ")
		if strings.HasPrefix(line, "|---") || line == "" {
			continue
		}
		if cells[0] == "x m" {
			names = cells[1:]
			continue
		}
		if !strings.HasPrefix(line, "| ") {
			break
		}
		var row []float64
		for _, cell := range cells {
			v, err := strconv.ParseFloat(strings.ReplaceAll(cell, "−", "-"), 64)
			require.NoError(t, err, line)
			row = append(row, v)
		}
		rows = append(rows, row)
	}
	var at []float64
	for _, row := range rows {
		at = append(at, row[0])
	}
	require.Equal(t, []float64{0, 3, 6, 6, 10, 10, 13, 16}, at, "twice where the section steps")
	for _, x := range []float64{0, 1, 2.5, 3, 5, 8, 11, 13, 14.5, 16} {
		k := max(1, slices.IndexFunc(at, func(v float64) bool { return v >= x }))
		share := (x - at[k-1]) / (at[k] - at[k-1])
		i := slices.IndexFunc(d.Segments, func(g Segment) bool { x -= g.Element.Length; return x <= 1e-9 })
		shape := d.Segments[i].Element.Section.At(x + d.Segments[i].Element.Length)
		var corners []section.Point
		for _, outlines := range [][]section.Outline{shape.Solids(), shape.Voids()} {
			for _, o := range outlines {
				corners = append(corners, o...)
			}
		}
		for c, name := range names {
			got := rows[k-1][c+1] + share*(rows[k][c+1]-rows[k-1][c+1])
			for _, one := range strings.Fields(name) {
				number, err := strconv.Atoi(one[1:])
				require.NoError(t, err)
				want := corners[number-1].Z
				if one[0] == 'y' {
					want = corners[number-1].Y
				}
				require.InDelta(t, want, got, 1e-3, "%s at segment %d", one, i)
			}
		}
	}
}

// The table of joints has the extremes over the moves of the step, each with the move that
// has it.
func TestJointsOfAStepAreTheExtremesOfItsMoves(t *testing.T) {
	const n = 2
	record := recordOf(t, haunched(t, n), n, func([]Step) {})
	var page strings.Builder
	require.NoError(t, sheet.WriteMarkdown(&page, record, sheet.Settings{}))
	stage := record.Stages[1]
	least, at := math.Inf(1), 0
	for k, s := range stage.Situations {
		i := slices.IndexFunc(s.Joints, func(j stages.JointRecord) bool { return j.Name == "L1/P1" })
		require.GreaterOrEqual(t, i, 0)
		if m := s.Joints[i].Margin(); m < least {
			least, at = m, k
		}
	}
	row := page.String()[strings.Index(page.String(), "## Stage 2"):]
	row = row[strings.Index(row, "| L1/P1 | 6.000 |"):]
	row = row[:strings.Index(row, "\n")]
	margin := strings.ReplaceAll(fmt.Sprintf("%.3f", math.Floor(least/1e3+1e-6)/1e3), "-", "−")
	require.True(t, strings.HasSuffix(row, fmt.Sprintf("| %s | 2.%d |", margin, at+1)), row)
}
