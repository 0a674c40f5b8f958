package sheet

import (
	"bytes"
	"image/color"
	"math"
	"slices"
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
	canvas := vgsvg.New(width, height)
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

// at is a point; one far off the paper is as far as far, so that it is still a number.
func at(x, y vg.Length) vg.Point {
	const far = 1e6
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

// label puts words near a point where they hide nothing; far from it, a thin line
// leads to the point.
func (k *sketch) label(p vg.Point, words string) {
	k.labelWhere(p, words, func(vg.Point) bool { return true })
}

// labelWhere is label with places that belong to the point: elsewhere the words stand only
// where there is no room.
func (k *sketch) labelWhere(p vg.Point, words string, belongs func(vg.Point) bool) {
	const elsewhere, far = 60, 0.5
	if words = legible(words); words == "" {
		return
	}
	style := lettering(text.XCenter, text.YCenter)
	width := style.Width(words)
	best, least := p, math.Inf(1)
	for ring := range 14 {
		reach := 3 + vg.Length(ring)*5
		for _, d := range []vg.Point{{X: 0, Y: 1}, {X: 1, Y: 0}, {X: -1, Y: 0}, {X: 0, Y: -1}, {X: 0.8, Y: 0.8}, {X: -0.8, Y: 0.8}, {X: 0.8, Y: -0.8}, {X: -0.8, Y: -0.8}, {X: 0.4, Y: 1}, {X: -0.4, Y: 1}, {X: 0.4, Y: -1}, {X: -0.4, Y: -1}} {
			centre := at(p.X+d.X*(reach+width/2), p.Y+d.Y*(reach+style.Font.Size/2))
			box := boxOf(style, centre, words)
			hidden := k.hidden(box) + k.crossed(p, nearest(p, box)) + float64(ring)*far
			if !belongs(centre) {
				hidden += elsewhere
			}
			if hidden < least {
				best, least = centre, hidden
			}
		}
		if least <= far*float64(ring+1) { // no place further off is better
			break
		}
	}
	box := boxOf(style, best, words)
	if near := nearest(p, box); math.Hypot(float64(near.X-p.X), float64(near.Y-p.Y)) > 7 {
		k.leader(p, near)
	}
	k.ground(box)
	k.write(best, words, text.XCenter, text.YCenter)
}

// leader is the line from a point to its label.
func (k *sketch) leader(from, to vg.Point) {
	k.line(leading, from, to)
	k.leads = append(k.leads, [2]vg.Point{from, to})
}

// hidden is how much of a box is taken or lies off the figure, in square points.
func (k *sketch) hidden(box vg.Rectangle) float64 {
	sum := 0.0
	if box.Min.X < k.free.Min.X || box.Max.X > k.free.Max.X || box.Min.Y < k.free.Min.Y || box.Max.Y > k.free.Max.Y {
		sum += 1e4
	}
	for _, t := range k.taken {
		sum += overlap(box, t)
	}
	for _, t := range k.words { // words on words are worse than words on a line
		sum += 20 * overlap(box, t)
	}
	return sum
}

// overlap is the area that two boxes share, in square points.
func overlap(a, b vg.Rectangle) float64 {
	w, h := min(a.Max.X, b.Max.X)-max(a.Min.X, b.Min.X), min(a.Max.Y, b.Max.Y)-max(a.Min.Y, b.Min.Y)
	if w > 0 && h > 0 {
		return float64(w * h)
	}
	return 0
}

// nearest is the point of a box that lies nearest to a point.
func nearest(p vg.Point, box vg.Rectangle) vg.Point {
	return at(within(p.X, box.Min.X, box.Max.X), within(p.Y, box.Min.Y, box.Max.Y))
}

// crossed is what it costs when a line from one point to another runs through
// words, as much as a label that hides a letter, or through a leader, which is worse.
func (k *sketch) crossed(from, to vg.Point) float64 {
	const steps, letter = 12, 20.0
	if slices.ContainsFunc(k.leads, func(l [2]vg.Point) bool { return meet(l[0], l[1], from, to) }) {
		return 50 * letter
	}
	for _, dot := range k.dots { // it would lead to that one
		if dot != from && aside(dot, from, to) < 3 {
			return 4 * letter
		}
	}
	for _, box := range k.words {
		for i := range steps + 1 {
			t := vg.Length(i) / steps
			if x, y := from.X+t*(to.X-from.X), from.Y+t*(to.Y-from.Y); x > box.Min.X && x < box.Max.X && y > box.Min.Y && y < box.Max.Y {
				return letter
			}
		}
	}
	return 0
}

// aside is how far a point is from a stretch of a line.
func aside(p, a, b vg.Point) float64 {
	length := (b.X-a.X)*(b.X-a.X) + (b.Y-a.Y)*(b.Y-a.Y)
	t := vg.Length(0)
	if length > 0 {
		t = within(((p.X-a.X)*(b.X-a.X)+(p.Y-a.Y)*(b.Y-a.Y))/length, 0, 1)
	}
	return math.Hypot(float64(a.X+t*(b.X-a.X)-p.X), float64(a.Y+t*(b.Y-a.Y)-p.Y))
}

// meet is true where two stretches of a line cross.
func meet(a, b, c, d vg.Point) bool {
	side := func(p, q, r vg.Point) vg.Length { return (q.X-p.X)*(r.Y-p.Y) - (q.Y-p.Y)*(r.X-p.X) }
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

func within(v, least, most vg.Length) vg.Length { return max(least, min(most, v)) }
