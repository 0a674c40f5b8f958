package sheet

import (
	"bytes"
	"image/color"
	"math"
	"strings"

	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/font/liberation"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"
)

// Sizes of figures: the width of the page and half of it.
const (
	pageWidth = 524 * vg.Length(1) // 185 mm in points
	halfWidth = 255 * vg.Length(1)
	letters   = 7.3 * vg.Length(1) // size of type: 7 points where a figure is printed 180 or 87 mm wide
)

// Greys that a copier keeps apart.
var (
	black = color.Gray{0}
	grey  = color.Gray{0x70}
	pale  = color.Gray{0xe4}
	white = color.Gray{0xff}
)

// The pens of a drawing office.
var (
	thin     = draw.LineStyle{Color: black, Width: 0.4}
	fine     = draw.LineStyle{Color: grey, Width: 0.35}
	thick    = draw.LineStyle{Color: black, Width: 1.1}
	dashed   = draw.LineStyle{Color: black, Width: 0.7, Dashes: []vg.Length{4, 2}}
	dotted   = draw.LineStyle{Color: black, Width: 0.8, Dashes: []vg.Length{1, 1.6}}
	absent   = draw.LineStyle{Color: grey, Width: 0.6, Dashes: []vg.Length{2.4, 2}} // an element that is not there
	medium   = draw.LineStyle{Color: black, Width: 0.75}                            // a tendon in a small picture
	hairline = draw.LineStyle{Color: grey, Width: 0.25}
	leading  = draw.LineStyle{Color: grey, Width: 0.3}
	chained  = draw.LineStyle{Color: black, Width: 0.5, Dashes: []vg.Length{7, 1.6, 1.2, 1.6}}
)

var typefaces = font.NewCache(liberation.Collection())

// sketch is a figure being drawn; it remembers where something stands, so that
// labels find free places. The origin is at the bottom left, lengths in points.
type sketch struct {
	draw.Canvas
	svg   *vgsvg.Canvas
	taken []vg.Rectangle // by lines and words
	words []vg.Rectangle
	free  vg.Rectangle  // where labels may stand
	leads [][2]vg.Point // leaders
	dots  []vg.Point    // signs to which a leader leads
}

func newSketch(width, height vg.Length) *sketch {
	canvas := vgsvg.New(width, within(height, 1, far))
	k := &sketch{Canvas: draw.New(canvas), svg: canvas}
	k.free = k.Rectangle
	return k
}

// lettering is the style of a text.
func lettering(x text.XAlignment, y text.YAlignment) text.Style {
	return text.Style{
		Color: black, Font: font.From(font.Font{Typeface: "Liberation", Variant: "Sans"}, letters),
		XAlign: x, YAlign: y, Handler: text.Plain{Fonts: typefaces},
	}
}

// done is the figure as an SVG element.
func (k *sketch) done() string {
	var out bytes.Buffer
	_, _ = k.svg.WriteTo(&out) // a buffer takes everything
	markup := out.String()
	if at := strings.Index(markup, "<svg"); at > 0 {
		markup = markup[at:]
	}
	return strings.ReplaceAll(markup, "font-family:Liberation Sans", "font-family:Arial,Helvetica,'Liberation Sans',sans-serif")
}

// far is as far off the paper as anything is drawn, in points.
const far = 1e6

// at is a point; one far off the paper is as far as far, so that it is still a number.
func at(x, y vg.Length) vg.Point {
	return vg.Point{X: within(x, -far, far), Y: within(y, -far, far)}
}

// write puts words at a fixed place and keeps others off it.
func (k *sketch) write(p vg.Point, words string, x text.XAlignment, y text.YAlignment) {
	if words = legible(words); words == "" {
		return
	}
	style := lettering(x, y)
	k.FillText(style, p, words)
	k.taken = append(k.taken, boxOf(style, p, words))
	k.words = append(k.words, boxOf(style, p, words))
}

func boxOf(style text.Style, p vg.Point, words string) vg.Rectangle {
	width, height := style.Width(words), style.Font.Size
	left := p.X + width*vg.Length(style.XAlign)
	bottom := p.Y + height*vg.Length(style.YAlign)
	return vg.Rectangle{Min: at(left-0.8, bottom-0.8), Max: at(left+width+0.8, bottom+height+0.8)}
}

// line draws a line through points and keeps labels off it.
func (k *sketch) line(pen draw.LineStyle, points ...vg.Point) {
	if len(points) < 2 {
		return
	}
	k.StrokeLines(pen, points)
	k.avoid(points)
}

// avoid keeps labels off a line.
func (k *sketch) avoid(points []vg.Point) {
	const step, half, most = 4, 1.2, 500 // a line far off the paper has no more
	for i := 1; i < len(points); i++ {
		a, b := points[i-1], points[i]
		n := max(1, int(math.Min(most, math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))/step)))
		for j := range n + 1 {
			t := vg.Length(j) / vg.Length(n)
			p := at(a.X+t*(b.X-a.X), a.Y+t*(b.Y-a.Y))
			k.taken = append(k.taken, vg.Rectangle{Min: at(p.X-half, p.Y-half), Max: at(p.X+half, p.Y+half)})
		}
	}
}

// fill fills a polygon.
func (k *sketch) fill(shade color.Color, points []vg.Point) { k.FillPolygon(shade, points) }

// arrow draws an arrow to its tip.
func (k *sketch) arrow(pen draw.LineStyle, from, tip vg.Point) {
	k.line(pen, from, tip)
	length := vg.Length(math.Hypot(float64(tip.X-from.X), float64(tip.Y-from.Y)))
	if length == 0 {
		return
	}
	u := at((tip.X-from.X)/length, (tip.Y-from.Y)/length)
	back := at(tip.X-3.6*u.X, tip.Y-3.6*u.Y)
	k.fill(black, []vg.Point{tip, at(back.X-1.3*u.Y, back.Y+1.3*u.X), at(back.X+1.3*u.Y, back.Y-1.3*u.X)})
}

// within is a length within its bounds; what is no number, of a drawing without size, is at
// the lower one.
func within(v, least, most vg.Length) vg.Length {
	if math.IsNaN(float64(v)) {
		return least
	}
	return max(least, min(most, v))
}
