package sheet

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
)

// line is a chart of one curve through these points.
func lineChart(points ...plotter.XY) chart {
	return chart{title: "F kN", unit: "m", width: halfWidth, height: chartHeight, curves: []curve{{name: "a", parts: []plotter.XYs{points}, pen: thick}}}
}

// ends are the first and the last point of the thick curve on the paper; its sample in
// the legend comes before it.
func ends(t *testing.T, c chart) (from, to vgPoint) {
	lines := 0
	for _, d := range drawnIn(t, c.svg()) {
		if d.pen == thickPen {
			from, to = d.points[0], d.points[len(d.points)-1]
			lines++
		}
	}
	require.Equal(t, 2, lines)
	return from, to
}

// The abscissa runs to the right, the ordinate up, or down where it is said.
func TestDirectionsOfTheAxes(t *testing.T) {
	c := lineChart(plotter.XY{X: 0, Y: 0}, plotter.XY{X: 10, Y: 5})
	from, to := ends(t, c)
	require.Greater(t, float64(to.X), float64(from.X)+100)
	require.Greater(t, float64(to.Y), float64(from.Y)+30)
	c.downward = true
	from, to = ends(t, c)
	require.Greater(t, float64(to.X), float64(from.X)+100)
	require.Less(t, float64(to.Y), float64(from.Y)-30)
}

// A value is where its tick says: the curve ends at 10 m and 5, on the ticks of both.
func TestTheCurveEndsAtItsTicks(t *testing.T) {
	c := lineChart(plotter.XY{X: 0, Y: 0}, plotter.XY{X: 10, Y: 5})
	svg := c.svg()
	_, to := ends(t, c)
	require.InDelta(t, float64(to.X), float64(middleOf(t, svg, "10 m").X), 1)
	require.InDelta(t, float64(to.Y), float64(middleOf(t, svg, "5").Y), 1.5)
	require.Contains(t, svg, ">F kN<")
}

// The ordinate shows zero, so that a size is read as one; a tight one does not.
func TestZeroIsInTheRangeOfTheOrdinate(t *testing.T) {
	c := lineChart(plotter.XY{X: 0, Y: 900}, plotter.XY{X: 10, Y: 1000})
	_, _, y0, y1 := c.span()
	require.Equal(t, []float64{0, 1000}, []float64{y0, y1})
	c.tight = true
	_, _, y0, y1 = c.span()
	require.Equal(t, []float64{900, 1000}, []float64{y0, y1})
}

// All that is in a chart is in its range: curves, bands, notes, limits, and the length
// that is asked for.
func TestTheRangeCoversAllThatIsDrawn(t *testing.T) {
	c := lineChart(plotter.XY{X: 1, Y: 2})
	c.from, c.to = 0, 20
	c.bands = []band{{lower: plotter.XYs{{X: 3, Y: -4}}, upper: plotter.XYs{{X: 3, Y: 6}}}}
	c.notes = []note{{x: 22, y: 7}}
	c.bounds = []bound{{value: -9}, {value: 8, above: true}}
	x0, x1, y0, y1 := c.span()
	require.Equal(t, []float64{0, 22, -9, 8}, []float64{x0, x1, y0, y1})
}

// Two axes of one scale: a square is a square.
func TestOneScaleOnBothAxes(t *testing.T) {
	c := lineChart(plotter.XY{X: 0, Y: 0}, plotter.XY{X: 4, Y: 4})
	c.equal = true
	from, to := ends(t, c)
	require.InDelta(t, float64(to.X-from.X), float64(to.Y-from.Y), 0.1)
	require.Greater(t, float64(to.Y-from.Y), 20.0)
	c = lineChart(plotter.XY{X: 0, Y: 0}, plotter.XY{X: 40, Y: 4})
	c.equal = true
	from, to = ends(t, c)
	require.InDelta(t, float64(to.X-from.X), 10*float64(to.Y-from.Y), 0.5)
}

// A limit is a line at its value hatched beyond the limit; where the ordinate
// runs down, above is below.
func TestALimitIsHatchedBeyondItself(t *testing.T) {
	for _, c := range []struct {
		above, downward bool
		rise            float64
	}{{true, false, 3}, {false, false, -3}, {true, true, -3}, {false, true, 3}} {
		picture := lineChart(plotter.XY{X: 0, Y: 0}, plotter.XY{X: 10, Y: 4})
		picture.bounds, picture.downward = []bound{{value: 2, above: c.above}}, c.downward
		from, to := ends(t, picture)
		middle := (from.Y + to.Y) / 2 // 2 of 4
		strokes := 0
		for _, d := range drawnIn(t, picture.svg()) {
			if d.pen == limitPen {
				require.InDelta(t, float64(middle), float64(d.points[0].Y), 0.05, "at its value")
			}
			if d.pen == finePen && len(d.points) == 2 && math.Abs(float64(d.points[1].X-d.points[0].X)-3) < 0.01 {
				strokes++
				require.InDelta(t, float64(middle), float64(d.points[0].Y), 0.05)
				require.InDelta(t, c.rise, float64(d.points[1].Y-d.points[0].Y), 0.01)
			}
		}
		require.Greater(t, strokes, 20)
	}
}

// The line of zero is drawn where the ordinate has both signs.
func TestTheLineOfZero(t *testing.T) {
	zero := func(c chart) (n int) {
		for _, d := range drawnIn(t, c.svg()) {
			if d.pen == thinPen && len(d.points) == 2 && d.points[0].Y == d.points[1].Y && d.points[1].X-d.points[0].X > 200 {
				n++
			}
		}
		return n
	}
	below := zero(lineChart(plotter.XY{X: 0, Y: -1}, plotter.XY{X: 10, Y: 0}))
	require.Equal(t, below+1, zero(lineChart(plotter.XY{X: 0, Y: -1}, plotter.XY{X: 10, Y: 1})))
}

// Labels of extremes: the largest and the smallest, those that are not next to nothing,
// and one of a constant.
func TestLabelsOfExtremes(t *testing.T) {
	of := func(values ...float64) (list []string) {
		var points plotter.XYs
		for i, v := range values {
			points = append(points, plotter.XY{X: float64(i), Y: v})
		}
		for _, n := range extremes(points) {
			list = append(list, n.words)
		}
		return list
	}
	require.Equal(t, []string{"−3", "7"}, of(0, 7, -3, 2))
	require.Equal(t, []string{"7"}, of(0, 7, 0.3), "0.3 is below 5 % of 7")
	require.Equal(t, []string{"0.36", "7"}, of(5, 7, 0.36))
	require.Equal(t, []string{"5"}, of(5, 5, 5))
	require.Equal(t, []string{"−5"}, of(0, -5))
	require.Empty(t, of(0, 0))
	require.Empty(t, of())
	require.Equal(t, note{1, 7, "7"}, extremes(plotter.XYs{{X: 0, Y: 0}, {X: 1, Y: 7}})[0], "at its place")
}

// Ranges that an axis can show.
func TestRangesOpenedForAnAxis(t *testing.T) {
	for _, c := range [][4]float64{{0, 1, 0, 1}, {2, 2, 1, 3}, {0, 0, -1, 1}, {5000, 5000, 4995, 5005}, {math.Inf(1), math.Inf(-1), -1, 1}, {math.NaN(), 1, -1, 1}, {0, 1e101, -1, 1}, {-1e-101, 1e-101, -1, 1}} {
		least, most := opened(c[0], c[1])
		require.InDelta(t, c[2], least, 1e-9, "%v", c)
		require.InDelta(t, c[3], most, 1e-9, "%v", c)
	}
}

// Ticks cover a range in round steps, and one at its end is kept.
func TestTicksCoverTheRange(t *testing.T) {
	for _, c := range [][2]float64{{0, 1}, {-7.3, 12.9}, {1e-6, 3e-6}, {-40000, -100}, {0, 0.3}} {
		ticks := ticksOver(c[0], c[1], 5)
		require.LessOrEqual(t, ticks[0].Value, c[0])
		require.GreaterOrEqual(t, ticks[len(ticks)-1].Value, c[1]-1e-9)
		for i := 1; i < len(ticks); i++ {
			require.InEpsilon(t, ticks[1].Value-ticks[0].Value, ticks[i].Value-ticks[i-1].Value, 1e-6)
		}
	}
	require.Len(t, inRange([]plot.Tick{{Value: -1}, {Value: 0}, {Value: 5}, {Value: 10}, {Value: 11}}, 0, 10), 3)
}

// A legend names each curve with its pen; a name too long for its row is cut with dots,
// a curve without a name has no entry.
func TestTheLegendNamesEachCurve(t *testing.T) {
	c := lineChart(plotter.XY{X: 0, Y: 0}, plotter.XY{X: 10, Y: 5})
	c.curves = append(c.curves, curve{name: "b", pen: dashed}, curve{pen: thin}, curve{name: strings.Repeat("long ", 40), pen: thin})
	entries, height := c.legend()
	require.Len(t, entries, 4)
	require.Equal(t, []string{"F kN", "a", "b"}, []string{entries[0].words, entries[1].words, entries[2].words})
	require.Nil(t, entries[0].pen, "the title")
	require.Equal(t, thick, *entries[1].pen)
	require.Equal(t, dashed, *entries[2].pen)
	require.True(t, strings.HasSuffix(entries[3].words, " …"))
	require.Equal(t, 1, entries[3].row)
	require.InDelta(t, 22, float64(height), 1e-9)
	style := lettering(text.XLeft, text.YCenter)
	require.LessOrEqual(t, float64(sample+3+style.Width(entries[3].words)), float64(halfWidth))
	require.Equal(t, "words", fitted(style, "words", 100))
	require.Empty(t, fitted(style, "words", 0))
}

// No curve shares its pen with one of the next four.
func TestPensTellCurvesApart(t *testing.T) {
	for i := range pens {
		for k := range i {
			require.NotEqual(t, pens[i], pens[k])
		}
	}
	require.Len(t, pens, 5)
}
