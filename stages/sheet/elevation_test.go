package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// Outline and height to one scale, left end on the left.
func TestTheOutlineInElevation(t *testing.T) {
	f := elevationOf(t, 0)
	list := drawnIn(t, f.svg)
	require.Equal(t, 1, count(list, inPale, along(0, topAt), along(20, topAt), along(20, soffitAt), along(0, soffitAt)))
	require.Equal(t, 1, count(list, thickPen, along(0, topAt), along(20, topAt), along(20, soffitAt), along(0, soffitAt), along(0, topAt)))
	width, height := sizeOf(t, f.svg)
	require.InDelta(t, 524, width, 0.01)
	require.InDelta(t, topAt+30, height, 0.01, "30 points for loads over an element that stands without an action")
	require.Equal(t, "1 store, length and depth to the same scale; plan seen from above, width not to scale.", f.caption)
	require.Equal(t, "stage-1-elevation", f.name)
	require.True(t, f.wide)
}

// A taper is deep where it is deep: 1.5 m at the left end, 1.0 m from x = 12 m on.
func TestATaperInElevation(t *testing.T) {
	f := elevationOf(t, 0, func(r *stages.Record) {
		r.Outlines = append(r.Outlines, stages.Drawing{X: 12, Solids: []section.Outline{{{Y: -0.6, Z: 0.5}, {Y: 0.4, Z: 0.5}, {Y: 0.4, Z: 1.5}, {Y: -0.6, Z: 1.5}}}})
	})
	const raised = soffitAt + 0.5*perMetre
	require.Equal(t, 1, count(drawnIn(t, f.svg), thickPen, along(0, topAt), along(12, topAt), along(20, topAt), along(20, raised), along(12, raised), along(0, soffitAt), along(0, topAt)))
}

// Without a section the element is still a body of its length.
func TestAnElementWithoutASectionIsDrawn(t *testing.T) {
	f := elevationOf(t, 0, func(r *stages.Record) { r.Outlines = nil })
	const top = soffitAt + 1*perMetre // levels 0 and 1 m
	require.Equal(t, 1, count(drawnIn(t, f.svg), thickPen, along(0, top), along(20, top), along(20, soffitAt), along(0, soffitAt), along(0, top)))
}

// A depth that would be drawn below 12 or above 48 points is not to scale, and says so:
// 20 m with 0.5 m is 11.4 points, with 0.53 m 12.1; with 2.1 m 47.9, with 2.2 m 50.2.
func TestADepthThatIsNotToScaleSaysSo(t *testing.T) {
	for depth, says := range map[float64]string{0.5: "depth not to scale", 0.53: "length and depth to the same scale", 2.1: "length and depth to the same scale", 2.2: "depth not to scale"} {
		f := elevationOf(t, 0, func(r *stages.Record) {
			r.Outlines[0].Solids = []section.Outline{{{Y: -0.6}, {Y: 0.4}, {Y: 0.4, Z: depth}, {Y: -0.6, Z: depth}}}
		})
		require.Contains(t, f.caption, says, "%g m", depth)
	}
	f := elevationOf(t, 0, func(r *stages.Record) {
		r.Outlines[0].Solids = []section.Outline{{{Y: -0.6}, {Y: 0.4}, {Y: 0.4, Z: 3}, {Y: -0.6, Z: 3}}}
	})
	require.Equal(t, 1, count(drawnIn(t, f.svg), inPale, along(0, soffitAt+48), along(20, soffitAt+48), along(20, soffitAt), along(0, soffitAt)))
}

// A support that stands is a grey block below the soffit at its x, with its numbers and
// its characteristic reactions under it, each beside its own.
func TestPadsUnderTheSoffit(t *testing.T) {
	svg := elevationOf(t, 0).svg
	list := drawnIn(t, svg)
	for _, x := range []float64{2, 16} {
		p := along(x, soffitAt)
		require.Equal(t, 1, count(list, inGrey, at(p.X-5, soffitAt), at(p.X+5, soffitAt), at(p.X+5, soffitAt-5), at(p.X-5, soffitAt-5)), "x = %g", x)
	}
	for words, x := range map[string]float64{"pads 1, 2 at x = 2 m": 2, "R = 150 to 170; 151 to 171 kN": 2, "pad 3 at x = 16 m": 16, "R = 410 to 450 kN": 16} {
		require.InDelta(t, float64(along(x, 0).X), float64(middleOf(t, svg, words).X), 0.5, words)
		require.Less(t, float64(middleOf(t, svg, words).Y), soffitAt-5, words)
	}
}

// Supports at one place with the same reactions say them once, "each"; one alone, or of
// two values, does not.
func TestReactionsOfSupportsAtOnePlace(t *testing.T) {
	svg := elevationOf(t, 0, first(func(s *stages.SituationRecord) { s.Reactions[1].Characteristic = s.Reactions[0].Characteristic })).svg
	require.Contains(t, svg, ">R = 150 to 170 kN each<")
	require.NotContains(t, elevationOf(t, 0).svg, "each")
}

// hung is the top of the element where it hangs: 6 points below it are enough.
const hungTop = topAt - 28 + 6

// A lift is drawn with an arrow up from each lift point, above the element, with its
// numbers and reactions at the tip.
func TestLiftPointsPullUpwards(t *testing.T) {
	svg := elevationOf(t, 1).svg
	list := drawnIn(t, svg)
	_, height := sizeOf(t, svg)
	require.InDelta(t, hungTop+39+1+2*8.5+0.75, height, 0.01)
	for _, x := range []float64{3, 17} {
		require.Equal(t, 1, arrows(list, thickPen, along(x, hungTop), along(x, hungTop+39)), "x = %g", x)
		require.Equal(t, 1, rings(list, inWhite, along(x, hungTop)), "the lift point")
	}
	for words, x := range map[string]float64{"lift point 1 at x = 3 m": 3, "lift point 2 at x = 17 m": 17} {
		p := middleOf(t, svg, words)
		require.InDelta(t, float64(along(x, 0).X), float64(p.X), 0.5, words)
		require.InDelta(t, hungTop+39+13, float64(p.Y), 3, words)
	}
	require.Len(t, written(t, svg)["R = 330 to 425 kN"], 2)
}

// A sling leans to its hook: 2 m along in 6 m of height is a third of the rise.
func TestASlingLeansToItsHook(t *testing.T) {
	for lean, hook := range map[float64]float64{13: 5, -13: 1, 0: 3} {
		svg := elevationOf(t, 1, func(r *stages.Record) { r.Stages[1].Situations[0].Supports[0].Hook = &stages.Hook{X: hook, Z: 7.5} }).svg
		tip := along(3, hungTop+39) // 39 points up, 39 · 2/6 = 13 along
		require.Equal(t, 1, arrows(drawnIn(t, svg), thickPen, along(3, hungTop), at(tip.X+vgLength(lean), tip.Y)), "hook at x = %g m", hook)
		require.InDelta(t, float64(tip.X)+lean, float64(middleOf(t, svg, "lift point 1 at x = 3 m").X), 0.5, "its label at the hook")
	}
	svg := elevationOf(t, 1, func(r *stages.Record) { r.Stages[1].Situations[0].Supports[0].Hook = &stages.Hook{X: 5, Z: 1} }).svg
	require.Equal(t, 1, arrows(drawnIn(t, svg), thickPen, along(3, hungTop), along(3, hungTop+39)), "a hook below its point has no sling to lean")
}

// A tie pulls down.
func TestATiePullsDownwards(t *testing.T) {
	svg := elevationOf(t, 0, first(func(s *stages.SituationRecord) { s.Reactions[2].Role = stages.Tie })).svg
	require.Equal(t, 1, arrows(drawnIn(t, svg), thickPen, along(16, soffitAt), along(16, soffitAt-9)))
	require.Contains(t, svg, ">tie 3 at x = 16 m<")
}

// Every other role has its own sign under its place.
func TestSignsOfSupports(t *testing.T) {
	p, y := along(16, soffitAt), func(down float64) float64 { return soffitAt - down }
	box := func(half, top, bottom float64) []point { // closed
		return []point{{-half, top}, {half, top}, {half, bottom}, {-half, bottom}, {-half, top}}
	}
	for role, lines := range map[stages.Role][][]point{
		stages.Bearing: {{{0, 0}, {-4, 7}, {4, 7}, {0, 0}}, {{-6, 9}, {6, 9}}}, stages.Jack: {box(2, 0, 4), box(4, 4, 9)},
		stages.Leg: {box(1.5, 0, 9)}, stages.Falsework: {box(5, 0, 9), {{-5, 0}, {5, 9}}, {{-5, 9}, {5, 0}}}, stages.Pad: {box(5, 0, 5)}, "": {box(5, 0, 5)},
	} {
		list := drawnIn(t, elevationOf(t, 0, first(func(s *stages.SituationRecord) { s.Reactions[2].Role = role })).svg)
		for _, line := range lines {
			var points []vgPoint
			for _, q := range line {
				points = append(points, at(p.X+vgLength(q.x), vgLength(y(q.y))))
			}
			require.Equal(t, 1, count(list, thinPen, points...), role)
		}
	}
}

// A level above the soffit is where its support is drawn.
func TestASupportIsDrawnAtItsLevel(t *testing.T) {
	svg := elevationOf(t, 0, first(func(s *stages.SituationRecord) { s.Reactions[2].Z = 0.5 })).svg
	p := along(16, soffitAt+0.5*perMetre)
	require.Equal(t, 1, count(drawnIn(t, svg), inGrey, at(p.X-5, p.Y), at(p.X+5, p.Y), at(p.X+5, p.Y-5), at(p.X-5, p.Y-5)))
}

// Only tendons that are stressed by then are drawn, at their places.
func TestOnlyStressedTendonsAreDrawn(t *testing.T) {
	paths := func(r *stages.Record) {
		r.Tendons = []stages.TendonRecord{{Mark: "A", Points: []stages.PathPoint{{X: 0, Z: 1}, {X: 10, Z: 0.2}, {X: 20, Z: 1}}}, {Mark: "B", Points: []stages.PathPoint{{X: 0, Z: 0.5}, {X: 20, Z: 0.5}}}}
		r.Stages[0].Situations[0].Tendons = cables()[:1]
	}
	list := drawnIn(t, elevationOf(t, 0, paths).svg)
	require.Equal(t, 1, count(list, dashedPen, along(0, soffitAt+perMetre), along(10, soffitAt+0.2*perMetre), along(20, soffitAt+perMetre)))
	require.Zero(t, count(list, dashedPen, along(0, soffitAt+0.5*perMetre), along(20, soffitAt+0.5*perMetre)), "B is not stressed")
	require.Zero(t, count(drawnIn(t, elevationOf(t, 1, paths).svg), dashedPen, along(0, soffitAt+perMetre), along(10, soffitAt+0.2*perMetre), along(20, soffitAt+perMetre)), "nor is A in another situation")
}
