package sheet

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/plotter"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// limited is a check of a stress of a corner, tension +.
func limited(kind limits.Kind, x float64, place string, demand, limit float64) stages.Check {
	c := stages.Check{Kind: kind, Name: string(kind), LimitState: limits.Serviceability, State: stages.Pass, X: x, Place: place, Sense: limits.AtMost,
		Demand: formula.Q("σ", demand, formula.Pascal, ""), Limit: formula.Q("σ_max", limit, formula.Pascal, ""), Margin: limit - demand, Utilisation: demand / limit}
	if demand > limit {
		c.State = stages.Fail
	}
	return c
}

// withChecks gives the situation of [sagging] checks.
func withChecks(checks ...stages.Check) func(*stages.Record) {
	return first(func(s *stages.SituationRecord) { s.Checks = checks })
}

// stressOf is the chart of an edge of the first situation.
func stressOf(t *testing.T, e edge, changes ...func(*stages.Record)) chart {
	a := passed(t, Settings{}, append([]func(*stages.Record){sagging}, changes...)...)
	s := a.record.Stages[0].Situations[0]
	return a.stressChart(s, stages.StationsOf(s.Diagram), e)
}

// The least margin stands at its place, from the demand of its check to its limit, with
// the margin of the check; each edge has its own.
func TestTheLeastMarginStandsAtItsPlace(t *testing.T) {
	checks := withChecks(
		limited(limits.Compression, 10, "corner 3, y = 0.400 m, z = 1.500 m", 6.1e6, 16e6),
		limited(limits.Tension, 4, "corner 4, y = −0.600 m, z = 1.500 m", 1.2e6, 3e6),
		limited(limits.Tension, 10, "corner 1, y = −0.600 m, z = 0.000 m", 4.5e6, 4e6))
	top := stressOf(t, edges[0], checks)
	require.Equal(t, &gauge{4, 1.2, 3, "margin 1.8 MPa to the limit 3"}, top.gauge)
	svg := top.svg()
	require.Contains(t, svg, ">margin 1.8 MPa to the limit 3<")
	bottom := stressOf(t, edges[1], checks)
	require.Equal(t, &gauge{10, 4.5, 4, "exceeded by 0.5 MPa to the limit 4"}, bottom.gauge)
	require.Nil(t, stressOf(t, edges[1], withChecks(limited(limits.Tension, 4, "corner 4, y = −0.600 m, z = 1.500 m", 1e6, 3e6))).gauge)
}

// The arrow of the least margin ends at the line of its limit, and its dot is at the
// demand: 1.2 of 3 MPa at x = 4 m.
func TestTheArrowOfTheLeastMargin(t *testing.T) {
	svg := stressOf(t, edges[0], withChecks(limited(limits.Tension, 4, "z = 1.500 m", 1.2e6, 3e6))).svg()
	list := drawnIn(t, svg)
	var dot, tip vgPoint
	line := 0.0
	for i, d := range list {
		switch {
		case d.ring && d.pen == inBlack:
			dot, tip = d.points[0], list[i+2].points[1]
		case d.pen == limitPen && len(d.points) == 2:
			line = float64(d.points[0].Y)
		}
	}
	require.InDelta(t, line, float64(tip.Y), 0.05)
	require.InDelta(t, float64(dot.X), float64(tip.X), 0.05)
	boxes := written(t, svg)["0"]
	require.Len(t, boxes, 2, "of both axes")
	zero := math.Max(float64(boxes[0].Min.Y), float64(boxes[1].Min.Y)) + float64(letters)*0.36 // that of the ordinate is higher
	require.InDelta(t, zero+(line-zero)*1.2/3, float64(dot.Y), 1.5)
}

// The side of a corner is that of its level; without one, that whose stress is nearer.
func TestTheEdgeOfACheck(t *testing.T) {
	a := passed(t, Settings{}, sagging)
	diagram := stages.StationsOf(a.record.Stages[0].Situations[0].Diagram)
	for place, top := range map[string]bool{"corner 1, y = 0.4 m, z = 1.500 m": true, "z = 0.800 m": true, "z = 0.700 m": false, "corner 2, y = 1.0 m, z = −0.100 m": false} {
		require.Equal(t, top, a.atTop(stages.Check{Place: place, X: 10}, 0, diagram), place)
	}
	require.True(t, a.atTop(stages.Check{Place: "a corner", X: 10}, -5.9e6, diagram))
	require.False(t, a.atTop(stages.Check{Place: "a corner", X: 10}, 3.9e6, diagram))
}

// A limit that is far off does not flatten the curves: stresses from −6 to 0 MPa fill at
// least half of the height, and the limits beyond are named with an arrow.
func TestAFarLimitDoesNotFlattenTheCurves(t *testing.T) {
	c := stressOf(t, edges[0], withChecks(limited(limits.Compression, 10, "z = 1.500 m", 6e6, 60e6), limited(limits.Tension, 10, "z = 1.500 m", -5e6, 40e6), limited(limits.Tension, 10, "z = 1.500 m", -5e6, 0.5e6)))
	svg := c.svg()
	high, low := peak(t, svg, dashedPen)
	require.Greater(t, float64(high.Y-low.Y), float64(stressHeight)*0.35)
	for _, words := range []string{">limit −60 below<", ">limit 40 above<", ">limit 0.5<", ">margin 5.5 MPa to the limit 0.5<"} {
		require.Contains(t, svg, words)
	}
	heads := 0
	for _, d := range drawnIn(t, svg) {
		if d.pen == inBlack && !d.ring {
			heads++
		}
	}
	require.Equal(t, 4, heads, "two of the margin, two to the limits beyond")
	noCollision(t, svg, halfWidth)
	require.NotContains(t, stressOf(t, edges[0], withChecks(limited(limits.Compression, 10, "z = 1.500 m", 6e6, 7e6))).svg(), "below")
}

// The arrow of a margin to a limit beyond the range ends at the edge of the chart.
func TestAMarginToALimitBeyond(t *testing.T) {
	c := stressOf(t, edges[0], withChecks(limited(limits.Compression, 10, "z = 1.500 m", 6e6, 60e6), limited(limits.Tension, 10, "z = 0.000 m", 0, 0.5e6)))
	require.Equal(t, -60.0, c.gauge.to)
	svg := c.svg()
	require.Contains(t, svg, ">margin 54 MPa to the limit −60<")
	for _, d := range drawnIn(t, svg) {
		for _, p := range d.points {
			require.GreaterOrEqual(t, float64(p.Y), 0.0)
		}
	}
}

// The nearest limit is the one with the least distance on its own side.
func TestTheNearestLimit(t *testing.T) {
	lower, upper := plotter.XYs{{X: 0, Y: -5}, {X: 1, Y: -3}}, plotter.XYs{{X: 0, Y: -4}, {X: 1, Y: 1}}
	nearest, ok := nearestBound([]bound{{-20, false, ""}, {4, true, ""}, {9, true, ""}}, lower, upper)
	require.True(t, ok)
	require.Equal(t, 4.0, nearest)
	nearest, _ = nearestBound([]bound{{-6, false, ""}, {4, true, ""}}, lower, upper)
	require.Equal(t, -6.0, nearest)
	nearest, _ = nearestBound([]bound{{-4.5, false, ""}, {1.2, true, ""}}, lower, upper)
	require.Equal(t, -4.5, nearest, "exceeded by 0.5")
	_, ok = nearestBound(nil, lower, upper)
	require.False(t, ok)
}

// Both sides of a step are labelled, left | right, at its larger end; small steps and
// slopes are not.
func TestBothSidesOfAJump(t *testing.T) {
	points := plotter.XYs{{X: 0, Y: 0}, {X: 1, Y: -190}, {X: 1, Y: 2124}, {X: 5, Y: 100}, {X: 5, Y: 120}, {X: 9, Y: -2100}, {X: 9, Y: 190}, {X: 10, Y: 0}}
	require.Equal(t, []note{{1, 2124, "−190 | 2124"}, {9, -2100, "−2100 | 190"}}, jumps(points))
	require.Empty(t, jumps(nil))
	a := passed(t, Settings{}, func(r *stages.Record) {
		sagging(r)
		rows := &r.Stages[0].Situations[0].Diagram
		rows.Values = [][]float64{{0, 0, 0, 0, 0, 0, 0}, {2, 0, -75e3, 0, 0, 0, 0}, {2, 0, 300e3, 0, 0, 0, 0}, {20, 0, -300e3, 0, 0, 0, 0}}
	})
	svg := figuresOf(a)["stage-1-shear"].svg
	require.Contains(t, svg, ">−75 | 300<")
	require.Contains(t, svg, ">V kN (left | right)<")
	require.NotContains(t, svg, ">300<", "once is enough")
	require.Contains(t, svg, ">−300<")
	noCollision(t, svg, halfWidth)
	vertical := 0
	for _, d := range drawnIn(t, svg) {
		if d.pen == thinPen && len(d.points) == 4 && d.points[1].X == d.points[2].X {
			vertical++
		}
	}
	require.Equal(t, 1, vertical, "the step is drawn upright")
}
