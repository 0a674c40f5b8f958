package sheet

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// The plan of [rectangle]: 30 points for the 1.0 m from y = −0.6 to 0.4 m, with 10
// below, so y = 0 at 10 + 0.6 · 30 = 28.
func inPlan(x, y float64) vgPoint { return along(x, 28+30*y) }

// The plan has left (y +) at the top, the outline to its width, and the axis.
func TestTheOutlineInPlan(t *testing.T) {
	list := drawnIn(t, elevationOf(t, 0).svg)
	require.Equal(t, 1, count(list, thinPen, inPlan(0, 0.4), inPlan(20, 0.4), inPlan(20, -0.6), inPlan(0, -0.6), inPlan(0, 0.4)))
	require.Equal(t, 1, count(list, chainPen, inPlan(-0.2, 0), inPlan(20.2, 0)), "the axis, 1 % beyond the ends")
}

// Each support is a dot at its x and y, full where it stands and open where it lifts,
// with its number and y beside it.
func TestSupportsInPlan(t *testing.T) {
	svg := elevationOf(t, 0).svg
	list := drawnIn(t, svg)
	for i, p := range []vgPoint{inPlan(2, -0.5), inPlan(2, 0.3), inPlan(16, -0.1)} {
		require.Equal(t, 1, rings(list, inBlack, p), "support %d", i+1)
		require.Zero(t, rings(list, inWhite, p))
	}
	for words, p := range map[string]vgPoint{"1: y = −0.5 m": inPlan(2, -0.5), "2: y = 0.3 m": inPlan(2, 0.3), "3: y = −0.1 m": inPlan(16, -0.1)} {
		at := middleOf(t, svg, words)
		require.InDelta(t, float64(p.Y), float64(at.Y), 1.5, words)
		require.Greater(t, float64(at.X), float64(p.X)+4, "beside it")
	}
	list = drawnIn(t, elevationOf(t, 1).svg)
	for _, p := range []vgPoint{inPlan(3, -0.1), inPlan(17, -0.1)} {
		require.Equal(t, 1, rings(list, inWhite, p))
		require.Zero(t, rings(list, inBlack, p))
	}
}

// The centre of gravity is a cross at its x and y.
func TestTheCentreOfGravityInPlan(t *testing.T) {
	svg := elevationOf(t, 0, first(func(s *stages.SituationRecord) { s.Mass.X, s.Mass.Y = 9, 0.2 })).svg
	list, c := drawnIn(t, svg), inPlan(9, 0.2)
	require.Equal(t, 1, count(list, thickPen, at(c.X-4, c.Y), at(c.X+4, c.Y)))
	require.Equal(t, 1, count(list, thickPen, at(c.X, c.Y-4), at(c.X, c.Y+4)))
	require.Contains(t, svg, ">CoG<")
	none := elevationOf(t, 0, first(func(s *stages.SituationRecord) { s.Mass = stages.Mass{} })).svg
	require.NotContains(t, none, ">CoG<", "none without a weight")
}

// A support beside the element widens the plan: y = 1.4 m is 2 m wide, 15 points a metre.
func TestThePlanReachesToSupportsOutside(t *testing.T) {
	list := drawnIn(t, elevationOf(t, 0, first(func(s *stages.SituationRecord) { s.Reactions[1].Y = 1.4 })).svg)
	at := func(x, y float64) vgPoint { return along(x, 10+(0.6+y)*15) }
	require.Equal(t, 1, rings(list, inBlack, at(2, 1.4)))
	require.Equal(t, 1, rings(list, inBlack, at(2, -0.5)))
	require.Equal(t, 1, count(list, thinPen, at(0, 0.4), at(20, 0.4), at(20, -0.6), at(0, -0.6), at(0, 0.4)))
}

// The widest section sets the width; one that narrows is drawn narrow.
func TestANarrowingElementInPlan(t *testing.T) {
	list := drawnIn(t, elevationOf(t, 0, func(r *stages.Record) {
		r.Outlines = append(r.Outlines, stages.Drawing{X: 15, Solids: []section.Outline{{{Y: -0.3}, {Y: 0.2}, {Y: 0.2, Z: 1.5}, {Y: -0.3, Z: 1.5}}}})
	}).svg)
	require.Equal(t, 1, count(list, thinPen, inPlan(0, 0.4), inPlan(15, 0.2), inPlan(20, 0.2), inPlan(20, -0.3), inPlan(15, -0.3), inPlan(0, -0.6), inPlan(0, 0.4)))
}

// Names of supports near the right end stand on their left and stay on the paper.
func TestNamesAtTheRightEndStayOnThePaper(t *testing.T) {
	svg := elevationOf(t, 0, first(func(s *stages.SituationRecord) { s.Reactions[2].X = 19.8 })).svg
	require.Less(t, float64(middleOf(t, svg, "3: y = −0.1 m").X), float64(inPlan(19.8, 0).X))
	noCollision(t, svg, pageWidth)
}

// Every place of an elevation has its name in both units, however close supports stand.
func TestNamesOfManySupports(t *testing.T) {
	for _, units := range []Units{SI, US} {
		a := passed(t, Settings{Units: units}, first(func(s *stages.SituationRecord) {
			s.Reactions = nil
			for i := range 6 {
				for _, y := range []float64{-0.4, 0.3} {
					s.Reactions = append(s.Reactions, stages.Reaction{X: 2 + 3*float64(i), Y: y, Role: stages.Jack, Characteristic: stages.Range{Least: 50e3, Most: 60e3}})
				}
			}
		}))
		svg := a.elevation(a.record.Stages[0], 0).svg
		words := written(t, svg)
		for i := range 6 {
			require.Len(t, words[fmt.Sprintf("jacks %d, %d at x = %s", 2*i+1, 2*i+2, units.place(2+3*float64(i)))], 1)
		}
	}
}

// The name of a support does not stand on the sign of the centre of gravity beside it.
func TestNamesInThePlanDoNotHideTheCentre(t *testing.T) {
	svg := elevationOf(t, 0, first(func(s *stages.SituationRecord) {
		s.Reactions[2].X, s.Reactions[2].Y = 9.5, -0.1
		s.Mass.X, s.Mass.Y = 10, -0.1
	})).svg
	crosses := 0
	for words, boxes := range written(t, svg) {
		for _, box := range boxes {
			for _, d := range drawnIn(t, svg) {
				if d.pen == thickPen && len(d.points) == 2 && math.Abs(float64(d.points[1].X-d.points[0].X)-8) < 0.01 {
					crosses++
					require.Greater(t, parted(box, d.points[0], d.points[1]), 0.0, words)
				}
			}
		}
	}
	require.Positive(t, crosses)
}
