package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"github.com/tempstage/tempstage/stages"
)

// How far an outline of equipment is drawn over the top and under the soffit, in points:
// what reaches further is cut off there and at the edges of the paper.
const (
	gearOver     = 56 * vg.Length(1)
	gearOverSite = 22 * vg.Length(1) // on an operation sheet
	gearUnder    = 30 * vg.Length(1)
)

// gearPen draws equipment: apart from the element and from leaders.
var gearPen = draw.LineStyle{Color: grey, Width: 0.8}

// gear is an item of equipment in the elevation: its outline with heights from the
// lowest level of the element, and which way its label stands.
type gear struct {
	item     stages.EquipmentItem
	lines    [][]vg.Point
	below    bool
	top, low vg.Length // of the outline
	at       vg.Length // x of the middle of what reaches furthest
}

// gears are the items of equipment that are drawn.
func (e *elevationSketch) gears() []gear {
	depth := e.deep * vg.Length(e.high-e.low)
	frame := vg.Rectangle{Min: at(1, -gearUnder), Max: at(pageWidth-1, depth+e.sized(gearOver, gearOverSite))}
	var list []gear
	for _, item := range e.situation.Equipment {
		g := gear{item: item}
		for _, line := range item.Outline {
			var points []vg.Point
			for _, p := range line {
				points = append(points, at(e.left+vg.Length(p[0])*e.along, vg.Length(p[1]-e.low)*e.deep))
			}
			g.lines = append(g.lines, clipped(points, frame)...)
		}
		if len(g.lines) == 0 {
			continue
		}
		points := slices.Concat(g.lines...)
		g.top, g.low = vg.Length(math.Inf(-1)), vg.Length(math.Inf(1))
		for _, p := range points {
			g.top, g.low = max(g.top, p.Y), min(g.low, p.Y)
		}
		g.below = -g.low > g.top-depth && !holdsFromAbove(item, e.situation)
		g.at = middleAt(points, map[bool]vg.Length{true: g.low, false: g.top}[g.below])
		list = append(list, g)
	}
	return list
}

// holdsFromAbove is true for equipment that holds a lift point.
func holdsFromAbove(item stages.EquipmentItem, s stages.SituationRecord) bool {
	return slices.ContainsFunc(item.Supports, func(n int) bool { return n >= 1 && n <= len(s.Supports) && s.Supports[n-1].Role == stages.LiftPoint })
}

// middleAt is the middle of the points of an outline at a level.
func middleAt(points []vg.Point, level vg.Length) vg.Length {
	from, to := vg.Length(math.Inf(1)), vg.Length(math.Inf(-1))
	for _, p := range points {
		if math.Abs(float64(p.Y-level)) < 0.5 {
			from, to = min(from, p.X), max(to, p.X)
		}
	}
	return (from + to) / 2
}

// clipped are the parts of a line within a frame.
func clipped(points []vg.Point, frame vg.Rectangle) [][]vg.Point {
	var parts [][]vg.Point
	for i := 1; i < len(points); i++ {
		p, q, ok := clip(points[i-1], points[i], frame)
		if !ok {
			continue
		}
		if n := len(parts); n > 0 && parts[n-1][len(parts[n-1])-1] == p {
			parts[n-1] = append(parts[n-1], q)
			continue
		}
		parts = append(parts, []vg.Point{p, q})
	}
	return parts
}

// clip is the part of a straight line within a frame, by the ranges of its parameter that
// each edge leaves (Liang and Barsky).
func clip(p, q vg.Point, frame vg.Rectangle) (from, to vg.Point, ok bool) {
	first, last := 0.0, 1.0
	for _, edge := range [][2]vg.Length{{p.X - q.X, p.X - frame.Min.X}, {q.X - p.X, frame.Max.X - p.X}, {p.Y - q.Y, p.Y - frame.Min.Y}, {q.Y - p.Y, frame.Max.Y - p.Y}} {
		step, room := float64(edge[0]), float64(edge[1])
		switch {
		case step == 0 && room < 0:
			return p, q, false
		case step < 0:
			first = math.Max(first, room/step)
		case step > 0:
			last = math.Min(last, room/step)
		}
	}
	if first > last {
		return p, q, false
	}
	on := func(t float64) vg.Point { return at(p.X+vg.Length(t)*(q.X-p.X), p.Y+vg.Length(t)*(q.Y-p.Y)) }
	from, to = p, q
	if first > 0 {
		from = on(first)
	}
	if last < 1 {
		to = on(last)
	}
	return from, to, true
}

// gearTags are the labels of equipment over the element, or under it.
func (e *elevationSketch) gearTags(below bool) []tag {
	var tags []tag
	depth := e.deep * vg.Length(e.high-e.low)
	for _, g := range e.gears() {
		if g.below != below {
			continue
		}
		t := tag{x: g.at, reach: max(0, g.top-depth), left: g.at - 1, right: g.at + 1, forms: [][]string{{gearName(g.item)}}, key: g.item.Mark, late: !below, hollow: !below}
		if below {
			t.reach = max(0, -g.low)
		}
		tags = append(tags, t)
	}
	return tags
}

// gearName is an item of equipment by kind and mark.
func gearName(item stages.EquipmentItem) string {
	if kind := string(item.Kind); !strings.HasPrefix(strings.ToLower(item.Mark), kind) {
		return kind + " " + item.Mark
	}
	return item.Mark
}

// gearHurdles are the parts of outlines over the element, or under it: no label stands on
// them.
func (e *elevationSketch) gearHurdles(below bool) []hurdle {
	const step = 8 // of a sloping line
	depth := e.deep * vg.Length(e.high-e.low)
	outwards := func(p vg.Point) vg.Length {
		if below {
			return -p.Y
		}
		return p.Y - depth
	}
	var list []hurdle
	for _, g := range e.gears() {
		for _, line := range g.lines {
			for i := 1; i < len(line); i++ {
				p, q := line[i-1], line[i]
				n := max(1, int(math.Ceil(math.Abs(float64(q.X-p.X))/step)))
				for k := range n {
					a, b := vg.Length(k)/vg.Length(n), vg.Length(k+1)/vg.Length(n)
					u, v := at(p.X+a*(q.X-p.X), p.Y+a*(q.Y-p.Y)), at(p.X+b*(q.X-p.X), p.Y+b*(q.Y-p.Y))
					if reach := max(outwards(u), outwards(v)); reach > 0 {
						list = append(list, hurdle{from: min(u.X, v.X) - 1, to: max(u.X, v.X) + 1, reach: reach, low: min(outwards(u), outwards(v))})
					}
				}
			}
		}
	}
	return list
}

// gearReach is how far outlines reach over the element, or under it.
func (e *elevationSketch) gearReach(below bool) vg.Length {
	reach := vg.Length(0)
	for _, h := range e.gearHurdles(below) {
		reach = max(reach, h.reach+1)
	}
	return reach
}

// equipment draws the outlines of equipment.
func (e *elevationSketch) equipment() {
	for _, g := range e.gears() {
		for _, line := range g.lines {
			points := make([]vg.Point, len(line))
			for i, p := range line {
				points[i] = at(p.X, p.Y+e.up)
			}
			e.line(gearPen, points...)
		}
	}
}

// equipmentWords name the equipment of a situation, what does not hold all supports with
// those that it holds; "" for none.
func equipmentWords(s stages.SituationRecord) string {
	var texts []string
	for _, item := range s.Equipment {
		text := gearName(item)
		if n := len(item.Supports); n > 0 && n < len(s.Supports) {
			text += fmt.Sprintf(" (%s)", itemSupports(item))
		}
		texts = append(texts, text)
	}
	return strings.Join(texts, ", ")
}

// itemSupports are the numbers of the supports of an item of equipment: 1 + 2.
func itemSupports(item stages.EquipmentItem) string { return numbersOf(heldBy(item)) }
