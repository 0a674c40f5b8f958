package sheet

import (
	"math"
	"slices"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
)

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
