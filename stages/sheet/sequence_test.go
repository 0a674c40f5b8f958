package sheet

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// segments makes the element of [rectangle] a girder of five segments of 4 m and 150 kN;
// in the first stage the middle one is there, in the second the three in the middle.
func segments(r *stages.Record) {
	r.Weights = nil
	for i := range 5 {
		x := 4 * float64(i)
		r.Weights = append(r.Weights, stages.Load{Mark: fmt.Sprintf("segment %d", i+1), Own: true, From: x, To: x + 4, Force: 150e3, Centre: x + 2, Y: -0.1, Z: 0.75})
	}
	for i, n := range []float64{1, 3} {
		s := &r.Stages[i].Situations[0]
		s.Mass.Weight = n * 150e3
		from, to := 10-2*n, 10+2*n
		s.Diagram = derive.Rows{Columns: []string{"x", "Vz"}, Values: [][]float64{{0, 0}, {from, 0}, {10, -n * 75e3}, {10, n * 75e3}, {to, 0}, {20, 0}}}
	}
}

// Which elements are there follows from weight and centre, and where more than one set has
// them, from the internal forces: three of five segments about the middle may be 1, 3, 5
// or 2, 3, 4.
func TestTheElementsThatAreThere(t *testing.T) {
	a := passed(t, Settings{}, segments)
	of := func(stage int) []bool { return a.carried(a.record.Stages[stage].Situations[0]) }
	require.Equal(t, []bool{false, false, true, false, false}, of(0))
	require.Equal(t, []bool{false, true, true, true, false}, of(1))
	require.Equal(t, []bool{true, true, true, true, true}, of(2))
	a.record.Stages[1].Situations[0].Diagram = derive.Rows{}
	require.Equal(t, []bool{true, true, true, true, true}, of(1), "not known: drawn as they will be")
	a.record.Stages[0].Situations[0].Mass.Weight = 160e3
	require.Equal(t, []bool{true, true, true, true, true}, of(0), "no set weighs that")
	require.Equal(t, []stretch{{0, 8, true}, {8, 20, false}}, (&author{record: stages.Record{Length: 20, Weights: []stages.Load{{Own: true, To: 20}, {Own: true, To: 8}}}}).stretches([]bool{false, true}))
}

// Elements that are not there are dashed and have no weight; the others are full, with
// their joints.
func TestElementsThatAreNotThereAreDashed(t *testing.T) {
	const notThere = "fill:none;stroke:#707070;stroke-width:0.6;stroke-dasharray:2.4,2"
	f := elevationOf(t, 1, segments)
	list := drawnIn(t, f.svg)
	const soffit = hungTop - 1.5*perMetre
	rectangleOf := func(x float64) []vgPoint {
		return []vgPoint{along(x, hungTop), along(x+4, hungTop), along(x+4, soffit), along(x, soffit), along(x, hungTop)}
	}
	for i, pen := range []string{notThere, thickPen, thickPen, thickPen, notThere} {
		x := 4 * float64(i)
		n := 0
		for _, d := range list { // the first corner may be cut between sections
			if d.pen == pen && len(d.points) == 5 && near(d.points[0], rectangleOf(x)[0]) && near(d.points[2], rectangleOf(x)[2]) {
				n++
			}
		}
		require.Equal(t, 1, n, "segment %d", i+1)
		require.Equal(t, pen == thickPen, strings.Contains(f.svg, fmt.Sprintf("segment %d ", i+1)))
	}
	require.Contains(t, f.caption, "dashed: not yet erected")
	whole := elevationOf(t, 2, segments)
	require.NotContains(t, whole.caption, "dashed")
	require.Equal(t, 1, count(drawnIn(t, whole.svg), thinPen, along(8, soffitAt), along(8, topAt)), "a joint")
	require.Zero(t, count(drawnIn(t, elevationOf(t, 2).svg), thinPen, along(8, soffitAt), along(8, topAt)), "of one element none")
}

// The sequence has each situation in order with number, name and age, its supports by
// their signs, hooks where it hangs, and its tendons.
func TestTheSequenceOfStages(t *testing.T) {
	a := passed(t, Settings{}, segments, func(r *stages.Record) {
		r.Tendons = []stages.TendonRecord{{Mark: "A", Points: []stages.PathPoint{{X: 0, Z: 1}, {X: 20, Z: 1}}}, {Mark: "B", Points: []stages.PathPoint{{X: 0, Z: 0.5}, {X: 20, Z: 0.5}}}}
		r.Stages[1].Situations[0].Tendons = cables()[:1]
	})
	f, ok := a.sequenceFigure()
	require.True(t, ok)
	require.True(t, f.wide)
	require.Equal(t, "sequence", f.name)
	require.Equal(t, "Sequence of all stages, length and depth to the same scale. Tendons: bold stressed, thin not yet stressed. Dashed: not yet erected.", f.caption)
	noCollision(t, f.svg, pageWidth)
	first, second, third := middleOf(t, f.svg, "1 store, age 3 d"), middleOf(t, f.svg, "2 lift, age 7 d"), middleOf(t, f.svg, "3 set down, age 7 d")
	require.True(t, first.X < second.X && second.X < third.X)
	signs := map[string]int{}
	for _, d := range drawnIn(t, f.svg) {
		switch {
		case d.pen == "fill:none;stroke:#000000;stroke-width:0.75":
			signs["stressed"]++
		case d.pen == "fill:none;stroke:#707070;stroke-width:0.25":
			signs["not stressed"]++
		case d.pen == inGrey:
			signs["pad"]++
		case d.pen == inWhite && d.ring:
			signs["hook"]++
		case strings.Contains(d.pen, "stroke-dasharray:2.4,2"):
			signs["not there"]++
		case d.pen == inPale:
			signs["there"]++
		}
	}
	require.Equal(t, map[string]int{"stressed": 1, "not stressed": 5, "pad": 4, "hook": 2, "not there": 4 + 2, "there": 1 + 3 + 5}, signs)
}

// One situation is no sequence; a long name is set in rows and cut in the last one.
func TestSequencesOfOneStageAndOfLongNames(t *testing.T) {
	_, ok := passed(t, Settings{}, func(r *stages.Record) { r.Stages = r.Stages[:1] }).sequenceFigure()
	require.False(t, ok)
	f, ok := passed(t, Settings{}, func(r *stages.Record) {
		for i := range r.Stages {
			r.Stages[i].Situations[0].Name = strings.Repeat("lift from the bed by the straddle carrier ", i+1) + strings.Repeat("x", 60*i)
		}
	}).sequenceFigure()
	require.True(t, ok)
	noCollision(t, f.svg, pageWidth)
	require.Contains(t, f.svg, " …")
	for _, size := range printedSizes(t, f.svg) {
		require.GreaterOrEqual(t, size, 7.0)
	}
	require.Equal(t, []string{"a b", "c"}, inRows("a b c", wide([]string{"a b"})+0.1, 3))
}

// The sequence is drawn for records of all kinds, in either unit.
func TestSequencesOfTheStoredRecord(t *testing.T) {
	for _, units := range []Units{SI, US} {
		a, err := newAuthor(storedRecord(t), Settings{Units: units})
		require.NoError(t, err)
		f, ok := a.sequenceFigure()
		require.True(t, ok)
		noCollision(t, f.svg, pageWidth)
		require.Contains(t, f.svg, "<desc>This calculation is an aid.")
	}
}
