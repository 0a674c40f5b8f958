package sheet

import (
	"sort"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// legendRow is the height of a row of the legend above the axes.
const legendRow = 11 * vg.Length(1)

// legendEntry is one name of the legend with its place; the title has no pen.
type legendEntry struct {
	words string
	pen   *draw.LineStyle
	x     vg.Length
	row   int
}

// sample is the length of the line that stands before a name.
const sample = 16 * vg.Length(1)

// legend lays out the title and the names of the curves, in as many rows as they
// need, and says how high they are together. A name longer than a row is cut.
func (c chart) legend() (entries []legendEntry, height vg.Length) {
	style := lettering(text.XLeft, text.YCenter)
	const gap = 7
	start := vg.Length(0)
	if c.numbered {
		entries = []legendEntry{{words: unnumbered}}
		start = style.Width(unnumbered) + 3
	}
	title := fitted(style, c.title, c.width-start)
	entries = append(entries, legendEntry{words: title, x: start})
	x, row := start+style.Width(title)+gap, 0
	for i := range c.curves {
		l := &c.curves[i]
		if l.name == "" {
			continue
		}
		words := fitted(style, l.name, c.width-sample-3)
		width := sample + 3 + style.Width(words)
		if x+width > c.width {
			x, row = 0, row+1
		}
		entries = append(entries, legendEntry{words: words, pen: &l.pen, x: x, row: row})
		x += width + gap
	}
	return entries, legendRow * vg.Length(row+1)
}

// fitted are words that are no wider than a width: cut, with dots, if need be.
func fitted(style text.Style, words string, width vg.Length) string {
	if style.Width(words) <= width {
		return words
	}
	runes := []rune(words)
	n := sort.Search(len(runes), func(n int) bool { return style.Width(string(runes[:n+1])+" …") > width })
	if n == 0 {
		return ""
	}
	return string(runes[:n]) + " …"
}

func (c chart) drawLegend(k *sketch, entries []legendEntry) {
	for _, e := range entries {
		y := k.Max.Y - legendRow*(vg.Length(e.row)+0.5)
		x := e.x
		if e.pen != nil {
			k.line(*e.pen, at(x, y), at(x+sample, y))
			x += sample + 3
		}
		k.write(at(x, y), e.words, text.XLeft, text.YCenter)
	}
}
