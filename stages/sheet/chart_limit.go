package sheet

import (
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

func inside(v float64, axis plot.Axis) bool { return v >= axis.Min && v <= axis.Max }

// hatch is a limit: a line hatched beyond the limit.
func (c chart) hatch(k *sketch, data draw.Canvas, y vg.Length, above bool) {
	k.line(draw.LineStyle{Color: black, Width: 0.8}, at(data.Min.X, y), at(data.Max.X, y))
	side := vg.Length(-3)
	if above {
		side = 3
	}
	for x := data.Min.X; x+3 <= data.Max.X; x += 5 {
		k.StrokeLines(fine, []vg.Point{at(x, y), at(x+3, y+side)})
	}
}

// beyond are the words of the limits that lie above a range, or below it.
func (c chart) beyond(from, to float64, above bool) string {
	var list []string
	for _, b := range c.bounds {
		if c.tight && b.words != "" && (above && b.value > to || !above && b.value < from) {
			list = append(list, strings.TrimPrefix(b.words, "limit "))
		}
	}
	switch {
	case len(list) == 0:
		return ""
	case above:
		return "limit " + strings.Join(list, ", ") + " above"
	}
	return "limit " + strings.Join(list, ", ") + " below"
}

// limits names the limits: those in the range at their lines, those beyond it with an
// arrow to where they are.
func (c chart) limits(k *sketch, p *plot.Plot, data draw.Canvas, ty func(float64) vg.Length) {
	for _, above := range []bool{false, true} {
		words := c.beyond(p.Y.Min, p.Y.Max, above)
		if words == "" {
			continue
		}
		edge, way := ty(p.Y.Min), vg.Length(9)
		if above {
			edge, way = ty(p.Y.Max), -9
		}
		left, right := at(data.Min.X+4, edge+way/2), at(data.Max.X-4, edge+way/2)
		arrow, place, align := right, at(right.X-4, right.Y), text.XRight
		if style := lettering(text.XLeft, text.YCenter); k.hidden(boxOf(lettering(align, text.YCenter), place, words)) > k.hidden(boxOf(style, at(left.X+4, left.Y), words)) {
			arrow, place, align = left, at(left.X+4, left.Y), text.XLeft
		}
		k.arrow(thin, at(arrow.X, edge+way), at(arrow.X, edge))
		k.write(place, words, align, text.YCenter)
	}
	for _, b := range c.bounds {
		if b.words != "" && inside(b.value, p.Y) {
			side := vg.Length(-5.5) // on the permissible side
			if b.above == c.downward {
				side = 5.5
			}
			k.beside(at(data.Min.X, ty(b.value)+side), at(data.Max.X, ty(b.value)+side), b.words)
		}
	}
}

// beside writes words along a line where they hide least.
func (k *sketch) beside(from, to vg.Point, words string) {
	style := lettering(text.XCenter, text.YCenter)
	half := style.Width(words)/2 + 2
	best, least := at(from.X+half, from.Y), -1.0
	for i := range 21 {
		centre := at(from.X+half+(to.X-from.X-2*half)*vg.Length(i)/20, from.Y)
		if hidden := k.hidden(boxOf(style, centre, words)); least < 0 || hidden < least-1e-9 {
			best, least = centre, hidden
		}
	}
	k.ground(boxOf(style, best, words))
	k.write(best, words, text.XCenter, text.YCenter)
}

// ground is white paper under words.
func (k *sketch) ground(box vg.Rectangle) {
	k.fill(white, []vg.Point{box.Min, at(box.Max.X, box.Min.Y), box.Max, at(box.Min.X, box.Max.Y)})
}

// measure draws the least margin: a dot at the value, an arrow to its limit and back. It
// gives the middle of the arrow.
func (k *sketch) measure(value, limit vg.Point) vg.Point {
	k.ring(value, true)
	middle := at(value.X, (value.Y+limit.Y)/2)
	k.arrow(thin, middle, limit)
	k.arrow(thin, middle, value)
	return middle
}
