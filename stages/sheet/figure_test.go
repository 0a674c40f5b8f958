package sheet

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"

	"github.com/tempstage/tempstage/stages"
)

// written are the words of a figure with the boxes they take.
func written(t *testing.T, svg string) map[string][]vg.Rectangle {
	boxes := map[string][]vg.Rectangle{}
	for _, m := range regexp.MustCompile(`(?s)<text x="([-0-9.e]+)" y="([-0-9.e]+)"[^>]*>([^<]*)</text>`).FindAllStringSubmatch(svg, -1) {
		x, err := strconv.ParseFloat(m[1], 64)
		require.NoError(t, err)
		y, err := strconv.ParseFloat(m[2], 64)
		require.NoError(t, err)
		style := lettering(text.XLeft, text.YBottom)
		boxes[m[3]] = append(boxes[m[3]], vg.Rectangle{Min: at(vg.Length(x), vg.Length(-y)), Max: at(vg.Length(x)+style.Width(m[3]), vg.Length(-y)+letters*0.72)})
	}
	return boxes
}

func collide(a, b vg.Rectangle) bool {
	return a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y
}

// noCollision requires that no two words of a figure stand on each other and all
// stand on the paper.
func noCollision(t *testing.T, svg string, width vg.Length) {
	type word struct {
		words string
		box   vg.Rectangle
	}
	var all []word
	for words, boxes := range written(t, svg) {
		for _, b := range boxes {
			require.GreaterOrEqual(t, float64(b.Min.X), -0.5, words)
			require.LessOrEqual(t, float64(b.Max.X), float64(width)+0.5, words)
			for _, other := range all {
				require.False(t, collide(b, other.box), "%q on %q", words, other.words)
			}
			all = append(all, word{words, b})
		}
	}
	require.NotEmpty(t, all)
}

// Nine labels at one place find nine places.
func TestLabelsDoNotCollide(t *testing.T) {
	k := newSketch(200, 120)
	for _, mark := range strings.Fields("W1L W2L W3L W4L W1R W2R W3R W4R 15680") {
		k.label(at(100, 60), mark)
	}
	noCollision(t, k.done(), 200)
}

func TestTicksAreRound(t *testing.T) {
	for _, c := range []struct {
		from, to float64
		want     string
	}{
		{0, 34, "0 5 10 15 20 25 30"}, {-16.4, 0, "−20 −15 −10 −5 0"}, {-3088, 15680, "−5000 0 5000 10000 15000 20000"}, {2289, 2390, "2250 2300 2350 2400"}, {0, 0.004, "0 0.001 0.002 0.003 0.004"},
	} {
		ticks := ticksOver(c.from, c.to, 5)
		if c.to == 34 {
			ticks = inRange(ticksOver(c.from, c.to, 8), c.from, c.to)
		}
		var labels []string
		for _, tick := range ticks {
			labels = append(labels, tick.Label)
		}
		require.Equal(t, c.want, strings.Join(labels, " "))
	}
}

// However many curves there are and however long their names, the legend stays on
// the paper.
func TestLegendsFit(t *testing.T) {
	c := chart{title: "Tendon force kN", unit: "m", width: halfWidth, height: chartHeight}
	for i, name := range []string{"W1L, W1R", "W2L, W2R", "W3L, W3R", "W4L, W4R", strings.Repeat("a name beyond all measure ", 9)} {
		c.curves = append(c.curves, curve{name: name, pen: pens[i], parts: []plotter.XYs{{{X: 0, Y: 2300}, {X: 34, Y: 2300 + float64(i)}}}})
	}
	noCollision(t, c.svg(), halfWidth)
}

// No words of any figure of a whole calculation stand on each other, in either
// unit, hung or standing, with loads near the ends.
func TestWordsOfFiguresDoNotCollide(t *testing.T) {
	for _, units := range []Units{SI, US} {
		record := storedRecord(t)
		record.Weights = append(record.Weights, stages.Load{Mark: "diaphragm, left", From: 0.1, To: 0.5, Centre: 0.3, Force: 11e3}, stages.Load{Mark: "diaphragm, right", From: 11.5, To: 11.9, Centre: 11.7, Force: 11e3})
		second := record.Stages[0]
		second.Number, second.Situations = 2, []stages.SituationRecord{second.Situations[0]}
		for i := range second.Situations[0].Reactions {
			second.Situations[0].Reactions[i].Role, second.Situations[0].Reactions[i].Z = stages.LiftPoint, 1.6
		}
		record.Stages = append(record.Stages[:1], second)
		a, err := newAuthor(record, Settings{Units: units})
		require.NoError(t, err)
		figures := figuresIn(a.calculation().blocks)
		require.GreaterOrEqual(t, len(figures), 7)
		for _, f := range figures {
			width := halfWidth
			if !f.titled {
				width = pageWidth
			}
			noCollision(t, f.svg, width)
		}
	}
}

// A chart of nothing, of one point and of a constant is drawn like any other.
func TestChartsOfNextToNothing(t *testing.T) {
	for _, points := range []plotter.XYs{nil, {{X: 1, Y: 2}}, {{X: 0, Y: 0}, {X: 5, Y: 0}}, {{X: 3, Y: 7}, {X: 3, Y: 7}}, {{X: 0, Y: 1e17}, {X: 1, Y: 1e17 + 16}}, {{X: 0, Y: -1e300}, {X: 1, Y: 1e300}}, {{X: 0, Y: 0}, {X: 1e-310, Y: 1e-310}}} {
		for _, equal := range []bool{false, true} {
			c := chart{title: "M", unit: "m", width: halfWidth, height: chartHeight, equal: equal, curves: []curve{{name: "a", parts: []plotter.XYs{points}, pen: thin}}}
			svg := c.svg()
			require.True(t, strings.HasPrefix(svg, "<svg "))
			require.NotContains(t, svg, "NaN")
			require.NotContains(t, svg, "Inf")
		}
	}
}

func TestBoundsAreDrawnOnTheSideTheyForbid(t *testing.T) {
	hatched := func(above bool) (up, down int) {
		c := chart{title: "σ", unit: "m", width: halfWidth, height: chartHeight, curves: []curve{{parts: []plotter.XYs{{{X: 0, Y: -1}, {X: 10, Y: -2}}}, pen: thin}},
			bounds: []bound{{value: -1.5, above: above}}}
		svg := c.svg()
		require.Contains(t, written(t, svg), "10 m")
		for _, s := range strokes(t, svg) {
			if len(s) != 2 || math.Abs(float64(s[1].X-s[0].X)-3) > 1e-3 {
				continue
			}
			switch rise := float64(s[1].Y - s[0].Y); {
			case math.Abs(rise-3) < 1e-3:
				up++
			case math.Abs(rise+3) < 1e-3:
				down++
			}
		}
		return up, down
	}
	up, down := hatched(true)
	require.Greater(t, up, 20)
	require.Zero(t, down)
	up, down = hatched(false)
	require.Zero(t, up)
	require.Greater(t, down, 20)
}

func TestSupportsInPairsShareALabel(t *testing.T) {
	places := placesOf([]stages.Reaction{{X: 1, Y: -1}, {X: 1, Y: 1}, {X: 9}, {X: 9, Role: stages.Tie}})
	require.Equal(t, [][]int{{0, 1}, {2}, {3}}, places)
	require.Equal(t, "supports 1, 2", supportNames(places[0], ""))
	require.Equal(t, "bearing 3", supportNames(places[1], stages.Bearing))
	require.Equal(t, "lift points 1, 2", supportNames(places[0], stages.LiftPoint))
	require.Equal(t, "falsework supports 1, 2", supportNames(places[0], stages.Falsework))
}

// lines are the ends of the strokes of a figure, one list of points a path.
func strokes(t *testing.T, svg string) [][]vg.Point {
	var list [][]vg.Point
	for _, m := range regexp.MustCompile(`<path d="([^"]*)"`).FindAllStringSubmatch(svg, -1) {
		var points []vg.Point
		for _, p := range regexp.MustCompile(`[ML]([-0-9.e]+),([-0-9.e]+)`).FindAllStringSubmatch(m[1], -1) {
			x, err := strconv.ParseFloat(p[1], 64)
			require.NoError(t, err)
			y, err := strconv.ParseFloat(p[2], 64)
			require.NoError(t, err)
			points = append(points, at(vg.Length(x), vg.Length(y)))
		}
		list = append(list, points)
	}
	return list
}

// Each support stands at its place along, across and in height, as what it is: what
// lifts has an arrow up from the lift point, along its sling where it has a hook.
func TestSupportsAreDrawnAtTheirPlaces(t *testing.T) {
	record := storedRecord(t)
	s := &record.Stages[0].Situations[0]
	s.Tendons, record.Weights = nil, nil
	s.Supports = []stages.Support{{X: 3, Y: -0.4, Z: 1.2, Role: stages.LiftPoint, Hook: &stages.Hook{X: 4, Z: 3}}, {X: 9, Y: 0.1, Role: stages.Pad}}
	s.Reactions = []stages.Reaction{{X: 3, Y: -0.4, Z: 1.2, Role: stages.LiftPoint}, {X: 9, Y: 0.1, Role: stages.Pad}}
	a, err := newAuthor(record, Settings{})
	require.NoError(t, err)
	e := a.newElevation(*s)
	p := planSketch{elevationSketch: e, across: planWidth / 1.3, middle: planMargin + 0.6*planWidth/1.3} // y from −0.6 to 0.7
	svg := a.elevation(record.Stages[0], 0).svg
	from := func(point vg.Point) (found []vg.Point) {
		for _, path := range strokes(t, svg) {
			if len(path) == 2 && near(path[0], point) {
				found = path
			}
		}
		return found
	}
	sling := from(e.at(3, 1.2))
	require.Len(t, sling, 2, "an arrow from the lift point")
	require.Greater(t, float64(sling[1].Y), float64(e.at(3, e.high).Y), "above the top")
	require.InEpsilon(t, float64(e.along)/float64(1.8*e.deep), float64((sling[1].X-sling[0].X)/(sling[1].Y-sling[0].Y)), 1e-3, "1 m along in 1.8 m of height")
	require.Contains(t, svg, "1: y = −0.4 m")
	require.Contains(t, svg, "2: y = 0.1 m")
	boxes := written(t, svg)
	for words, place := range map[string]vg.Point{"1: y = −0.4 m": p.on(3, -0.4), "2: y = 0.1 m": p.on(9, 0.1)} {
		require.InDelta(t, float64(place.X)+5, float64(boxes[words][0].Min.X), 0.6, words)
		require.InDelta(t, float64(place.Y), float64(boxes[words][0].Min.Y+letters*0.36), 3, words)
	}
	require.Greater(t, float64(boxes["2: y = 0.1 m"][0].Min.Y), float64(boxes["1: y = −0.4 m"][0].Min.Y), "left is up in the plan")
	corner := e.at(9, 0).Add(at(-5, 0))
	require.True(t, slices.ContainsFunc(strokes(t, svg), func(path []vg.Point) bool { return len(path) == 5 && near(path[0], corner) }), "a pad below the soffit")
}

func near(a, b vg.Point) bool { return math.Hypot(float64(a.X-b.X), float64(a.Y-b.Y)) < 0.05 }

// No role is drawn like another.
func TestEachRoleHasItsSign(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	drawn := map[string]stages.Role{}
	for _, role := range []stages.Role{stages.Pad, stages.Jack, stages.Bearing, stages.LiftPoint, stages.Leg, stages.Tie, stages.Falsework} {
		e := a.newElevation(a.record.Stages[0].Situations[0])
		e.support(e.at(3, 0), role, at(0, 1), 100)
		svg := e.done()
		require.Empty(t, drawn[svg], role)
		drawn[svg] = role
	}
}
