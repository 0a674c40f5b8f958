package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// twoSegments are segments of 9 m and 7 m that act together, with a tendon through both, one
// in the first and a bar; the first is stressed, re-stressed to more, and let down.
func twoSegments(t *testing.T) stages.Record {
	shape, err := section.New([]section.Outline{{{Y: -0.6}, {Y: 0.6}, {Y: 0.6, Z: 1.5}, {Y: -0.6, Z: 1.5}}}, nil)
	require.NoError(t, err)
	segment := func(mark string, length float64) stages.Element {
		return stages.Element{Mark: mark, Length: length, Section: shape, Concrete: concrete.EN1992{Fck: 45e6, Cement: concrete.ClassR}, WeightTolerance: loads.PlusMinus(0.02)}
	}
	line := func(from, to, ordinate float64) tendon.Curve {
		return tendon.Curve{tendon.Straight(tendon.Point{X: from, Ordinate: ordinate}, tendon.Point{X: to, Ordinate: ordinate})}
	}
	of := func(mark string, steel tendon.Strand, count int, from, to, y float64) tendon.Tendon {
		return tendon.Tendon{Mark: mark, Strand: steel, Strands: count, Duct: 0.07, Elevation: line(from, to, 0.7), Plan: line(from, to, y), Friction: 0.2, Wobble: 0.005,
			Approval: tendon.Approval{Reference: "invented " + mark, MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1}}
	}
	girder := stages.Girder{Mark: "G-9", Pieces: stages.EndToEnd(stages.Monolithic, segment("S1", 9), segment("S2", 7)), Tendons: []tendon.Tendon{
		of("A", tendon.Y1860S7x157, 7, 0, 16, 0), of("B", tendon.Y1860S7x157, 4, 0, 9, 0.3), of("bar", tendon.Y1050H36, 1, 0, 16, -0.3),
	}}
	pull := func(stress float64, ends tendon.Ends, marks ...string) tendon.Jacking {
		return tendon.Jacking{Tendons: marks, Stress: stress, Ends: ends, DrawIn: 0.004, Reading: tendon.Measuring{Tolerance: 0.05}}
	}
	record, err := stages.Plan{
		stages.Transfer{Age: 5, On: stages.Pads(0.4, 0.5, 15.5), Jacking: []tendon.Jacking{pull(1200e6, tendon.LeftEnd, "A"), pull(1100e6, tendon.BothEnds, "B"), pull(600e6, tendon.RightEnd, "bar")}},
		stages.Stress{Age: 8, Jacking: []tendon.Jacking{pull(1350e6, tendon.LeftEnd, "A")}},
		stages.Stress{Age: 9, Jacking: []tendon.Jacking{pull(900e6, tendon.LeftEnd, "A")}},
	}.Run(girder, limits.EN1992{})
	require.NoError(t, err)
	return record
}

// The tendons of a girder of segments say where their own anchors are; one of another length
// is not taken for one from end to end.
func TestStressingOfAGirderOfSegments(t *testing.T) {
	a, err := newAuthor(twoSegments(t), Settings{})
	require.NoError(t, err)
	of := func(i int) stages.SituationRecord { return a.record.Stages[i].Situations[0] }
	var names [][]string
	for _, r := range rowsOf(a.jackings(of(0))) {
		names = append(names, r[:4])
	}
	require.Equal(t, [][]string{
		{"1", "A (x\u00a0=\u00a00, 16 m)", "7", "smaller x"}, {"2", "B (x\u00a0=\u00a00, 9 m)", "4", "both ends"}, {"3", "bar (x\u00a0=\u00a00, 16 m)", "1", "greater x"},
	}, names)
	require.Equal(t, "Strands or bars", headsOf(a.jackings(of(0)))[2])
	require.Contains(t, a.jacksNeeded(of(0)).raw(), "2 jacks at once, 1 at each end")
	text := a.stressingWords(a.record.Stages[0], of(0)).raw()
	require.Contains(t, text, "Anchor without a jack: A at greater x, bar at smaller x, watch it for slip.")
	require.Contains(t, text, "Anchors: invented A; invented B; invented bar.")
	require.Contains(t, text, "EN 1992-1-1:2004 5.10.2.1(1), (5.41)")

	again := rowsOf(a.jackings(of(1)))
	require.Equal(t, []string{"1", "re-stress A", "7", "x\u00a0=\u00a00"}, again[0][:4])
	require.NotEqual(t, "—", again[0][11], "its extension is calculated")
	require.Contains(t, a.stressingWords(a.record.Stages[1], of(1)).raw(), "Not stressed on this sheet: B, bar (stressed before).")
	down := rowsOf(a.jackings(of(2)))
	require.Equal(t, "let down A", down[0][1])
	require.Equal(t, "—", down[0][11])
	require.Equal(t, "—", rowsOf(a.extensions(of(2)))[0][2])
}
