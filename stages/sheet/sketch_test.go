package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
)

// Words are written where they are put, aligned as said.
func TestWordsAreWrittenAtTheirPlace(t *testing.T) {
	style := lettering(text.XLeft, text.YBottom)
	wide := float64(style.Width("F = 12 kN"))
	for _, c := range []struct {
		align text.XAlignment
		left  float64
	}{{text.XLeft, 50}, {text.XCenter, 50 - wide/2}, {text.XRight, 50 - wide}} {
		k := newSketch(200, 40)
		k.write(at(50, 20), "F = 12 kN", c.align, text.YBottom)
		box := written(t, k.done())["F = 12 kN"][0]
		require.InDelta(t, c.left, float64(box.Min.X), 0.1)
		require.InDelta(t, 20, float64(box.Min.Y), 2)
	}
}

// Nothing is written of nothing, and what no document may hold is left out.
func TestOnlyLegibleWordsAreWritten(t *testing.T) {
	k := newSketch(200, 40)
	k.write(at(50, 20), "\x00", text.XLeft, text.YBottom)
	k.label(at(50, 20), "")
	require.Empty(t, k.words)
	k.write(at(50, 20), "a\x07<b>&", text.XLeft, text.YBottom)
	svg := k.done()
	require.Contains(t, svg, "a&lt;b&gt;&amp;")
}

// A label stands close to its point where there is room; pushed away, a thin line leads
// back to the point.
func TestALabelFarFromItsPointIsLedToIt(t *testing.T) {
	k := newSketch(200, 120)
	k.label(at(100, 60), "one")
	require.Len(t, drawnIn(t, k.done()), 1, "its white ground only")
	k = newSketch(200, 120)
	k.taken = append(k.taken, vg.Rectangle{Min: at(60, 30), Max: at(140, 90)})
	k.label(at(100, 60), "far")
	lines := 0
	for _, d := range drawnIn(t, k.done()) {
		if d.pen == leadPen {
			lines++
			require.True(t, near(d.points[0], at(100, 60)))
		}
	}
	require.Equal(t, 1, lines)
}

// A label does not leave the place where labels may stand.
func TestALabelStaysOnTheFigure(t *testing.T) {
	for _, p := range []vgPoint{at(0, 0), at(200, 0), at(0, 60), at(200, 60), at(100, 60)} {
		k := newSketch(200, 60)
		k.label(p, "R = 1110 kN")
		box := k.words[0]
		require.GreaterOrEqual(t, float64(box.Min.X), 0.0)
		require.LessOrEqual(t, float64(box.Max.X), 200.0)
		require.GreaterOrEqual(t, float64(box.Min.Y), 0.0)
		require.LessOrEqual(t, float64(box.Max.Y), 60.0)
	}
}

// Boxes share an area, or none; the nearest point of a box is on it.
func TestBoxes(t *testing.T) {
	box := func(x0, y0, x1, y1 vg.Length) vg.Rectangle { return vg.Rectangle{Min: at(x0, y0), Max: at(x1, y1)} }
	require.InDelta(t, 6, overlap(box(0, 0, 4, 4), box(2, 1, 9, 9)), 1e-9, "2 by 3")
	require.Zero(t, overlap(box(0, 0, 4, 4), box(4, 0, 9, 9)), "they touch")
	require.Zero(t, overlap(box(0, 0, 4, 4), box(5, 5, 9, 9)))
	require.Equal(t, at(4, 2), nearest(at(9, 2), box(0, 0, 4, 4)))
	require.Equal(t, at(0, 4), nearest(at(-1, 9), box(0, 0, 4, 4)))
	require.Equal(t, at(1, 2), nearest(at(1, 2), box(0, 0, 4, 4)))
}

// A line through words costs as much as a hidden letter, one beside them nothing.
func TestLeadersDoNotCrossWords(t *testing.T) {
	k := newSketch(200, 60)
	k.words = []vg.Rectangle{{Min: at(40, 20), Max: at(60, 30)}}
	require.InDelta(t, 20, k.crossed(at(0, 25), at(100, 25)), 1e-9)
	require.Zero(t, k.crossed(at(0, 35), at(100, 35)))
}

// An arrow without a length has no head that points somewhere.
func TestAnArrowOfNoLengthHasNoHead(t *testing.T) {
	k := newSketch(20, 20)
	k.arrow(thick, at(5, 5), at(5, 5))
	for _, d := range drawnIn(t, k.done()) {
		require.NotEqual(t, inBlack, d.pen)
	}
	k = newSketch(20, 20)
	k.line(thick, at(5, 5))
	require.Empty(t, drawnIn(t, k.done()), "a line has two ends")
}

// Figures print without the fonts of the machine that made them.
func TestFontsOfFigures(t *testing.T) {
	k := newSketch(20, 20)
	k.write(at(5, 5), "x", text.XLeft, text.YBottom)
	require.Contains(t, k.done(), "font-family:Arial,Helvetica,'Liberation Sans',sans-serif")
}

// Words on words are worse than words on a line, and worst is what leaves the figure.
func TestWhatALabelHides(t *testing.T) {
	k := newSketch(200, 60)
	box := vg.Rectangle{Min: at(10, 10), Max: at(30, 20)}
	require.Zero(t, k.hidden(box))
	k.taken = []vg.Rectangle{{Min: at(10, 10), Max: at(20, 12)}}
	require.InDelta(t, 20, k.hidden(box), 1e-9, "10 by 2 points of a line")
	k.words = k.taken
	require.InDelta(t, 20+20*20, k.hidden(box), 1e-9)
	require.InDelta(t, 1e4, k.hidden(vg.Rectangle{Min: at(190, 50), Max: at(201, 55)}), 1e-9)
}
