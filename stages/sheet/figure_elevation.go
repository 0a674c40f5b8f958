package sheet

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// elevation is the element of one situation on its supports, with its loads.
func (a *author) elevation(stage stages.StageRecord, i int) figure {
	s := stage.Situations[i]
	e := a.newElevation(s)
	e.beam()
	e.tendons()
	e.supports()
	e.weights()
	e.others()
	if height := a.planHeight(s); height > 0 {
		e.plan(height)
	}
	scale := "length and depth to the same scale"
	if e.exaggerated {
		scale = "depth not to scale"
	}
	if besideAxis(s) {
		scale += "; plan seen from above, width not to scale"
	}
	return figure{
		name: situationName(stage, i) + "-elevation", wide: true, svg: e.done(),
		caption: fmt.Sprintf("%s %s, %s.", numbered(stage, i), s.Name, scale),
	}
}

// situationName is the beginning of the names of a situation's figures.
func situationName(stage stages.StageRecord, i int) string {
	return "stage-" + strings.ReplaceAll(numbered(stage, i), ".", "-")
}

// elevationSketch is an elevation being drawn.
type elevationSketch struct {
	*sketch
	author      *author
	situation   stages.SituationRecord
	left        vg.Length
	along       vg.Length // points for a metre of length
	up          vg.Length // of the lowest level
	deep        vg.Length // points for a metre of depth
	low, high   float64   // levels of soffit and top, m
	exaggerated bool
}

// Heights of an elevation from the bottom, in points.
const (
	underHeight = 28 * vg.Length(1) // supports with their labels
	loadHeight  = 40 * vg.Length(1) // loads with their labels, hoists
)

func (a *author) newElevation(s stages.SituationRecord) *elevationSketch {
	low, high := a.levels()
	const margin = 34
	e := &elevationSketch{author: a, situation: s, left: margin, low: low, high: high, up: underHeight + a.planHeight(s)}
	length := math.Max(a.record.Length, 1e-3)
	e.along = (pageWidth - 2*margin) / vg.Length(length)
	e.deep = e.along
	if depth := e.along * vg.Length(high-low); depth < 12 || depth > 48 {
		e.deep, e.exaggerated = max(12, min(48, depth))/vg.Length(high-low), true
	}
	head := loadHeight
	if !suspended(s) && len(s.Loads) == 0 {
		head -= 10 // no hoist and no action above the weight
	}
	e.sketch = newSketch(pageWidth, e.up+head+e.deep*vg.Length(high-low))
	return e
}

// planHeight is the height of the plan below an elevation; 0 where all supports are
// on the axis.
func (a *author) planHeight(s stages.SituationRecord) vg.Length {
	if right, left := a.widest(s); !besideAxis(s) || !(left > right) {
		return 0
	}
	return planWidth + 2*planMargin
}

// levels are the lowest and the highest level of all sections; 0 and 1 without
// any.
func (a *author) levels() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, d := range a.record.Outlines {
		if least, most, ok := extent(d); ok {
			low, high = math.Min(low, least.Z), math.Max(high, most.Z)
		}
	}
	if !(high > low) {
		return 0, 1
	}
	return low, high
}

func (e *elevationSketch) at(x, z float64) vg.Point {
	return at(e.left+vg.Length(x)*e.along, e.up+vg.Length(z-e.low)*e.deep)
}

// beam is the outline in elevation: each section holds to the next.
func (e *elevationSketch) beam() {
	outline := e.author.around(func(x float64, p section.Point) vg.Point { return e.at(x, p.Z) })
	if length := e.author.record.Length; len(outline) == 0 {
		outline = []vg.Point{e.at(0, e.high), e.at(length, e.high), e.at(length, e.low), e.at(0, e.low), e.at(0, e.high)}
	}
	e.fill(pale, outline[:len(outline)-1])
	e.line(thick, outline...)
}

// around is the closed outline of the element seen from one side, on the paper as on
// says: along the greatest y and z of each section, and back along the least.
func (a *author) around(on func(x float64, p section.Point) vg.Point) []vg.Point {
	var there, back []vg.Point
	add := func(x float64, d stages.Drawing) {
		if least, most, ok := extent(d); ok {
			there, back = append(there, on(x, most)), append(back, on(x, least))
		}
	}
	for _, d := range a.record.Outlines {
		add(d.X, d)
	}
	if n := len(a.record.Outlines); n > 0 {
		add(a.record.Length, a.record.Outlines[n-1])
	}
	if len(there) == 0 {
		return nil
	}
	slices.Reverse(back)
	return append(append(there, back...), there[0])
}

// tendons are those stressed by then, straight between the ends of their pieces.
func (e *elevationSketch) tendons() {
	for _, t := range e.author.record.Tendons {
		if !slices.ContainsFunc(e.situation.Tendons, func(f stages.TendonForce) bool { return f.Mark == t.Mark }) {
			continue
		}
		var points []vg.Point
		for _, p := range t.Points {
			points = append(points, e.at(p.X, p.Z))
		}
		e.line(dashed, points...)
	}
}

// isLong is true for a load that is drawn as a strip, not as an arrow.
func (e *elevationSketch) isLong(l stages.Load) bool { return l.To-l.From > e.author.record.Length/8 }

// weights are the parts of the weight: strips and arrows over the top.
func (e *elevationSketch) weights() {
	for _, w := range e.author.record.Weights {
		if e.isLong(w) {
			e.strip(w, e.partWords(w))
		}
	}
	middle := e.author.record.Length / 2
	outside := slices.SortedStableFunc(slices.Values(e.author.record.Weights), func(v, w stages.Load) int { // the outer ones first, whose labels stand outside
		return cmp.Compare(math.Abs(w.Centre-middle), math.Abs(v.Centre-middle))
	})
	outside = slices.DeleteFunc(outside, e.isLong)
	for _, w := range outside {
		e.point(w)
	}
	for _, w := range outside {
		e.name(w, e.partWords(w))
	}
}

// others are the actions beside the weight; one across the element, or one that rolls,
// has its name only.
func (e *elevationSketch) others() {
	row := vg.Length(0) // of names at the top
	for _, l := range e.situation.Loads {
		switch {
		case l.Rolls, stages.Direction(l.Direction) == stages.Transverse:
			e.caption(at(pageWidth/2, e.Max.Y-5-9*row), e.actionWords(l))
			row++
			continue
		case stages.Direction(l.Direction) == stages.Along:
			tip, way := e.at(l.Centre, l.Z), vg.Length(math.Copysign(16, l.Force))
			e.arrow(thick, at(tip.X-way, tip.Y), tip)
			e.label(tip, e.actionWords(l))
			continue
		case l.Direction != string(stages.Down):
		case l.Couple != 0:
			e.couple(l)
		case e.isLong(l):
			e.strip(l, e.actionWords(l))
			continue
		default:
			e.point(l)
		}
		e.name(l, e.actionWords(l))
	}
}

func (e *elevationSketch) partWords(l stages.Load) string {
	return l.Mark + " " + e.author.units.quantity(l.Force, formula.Newton)
}

func (e *elevationSketch) actionWords(l stages.Load) string {
	return e.author.units.words(l.Mark) + " " + e.author.loadSize(l)
}

// couple is most of a circle with its sense.
func (e *elevationSketch) couple(l stages.Load) {
	const radius, steps = 7, 12
	centre := e.at(l.Centre, e.high)
	centre.Y += radius + 2
	around := func(i int) vg.Point {
		angle := math.Copysign(1, l.Couple) * (-0.75 + 1.5*float64(i)/steps) * math.Pi
		return at(centre.X+radius*vg.Length(math.Sin(-angle)), centre.Y+radius*vg.Length(math.Cos(angle)))
	}
	points := make([]vg.Point, steps)
	for i := range points {
		points[i] = around(i)
	}
	e.line(thin, points...)
	e.arrow(thin, points[steps-1], around(steps))
}

func (e *elevationSketch) strip(l stages.Load, words string) {
	from, to := e.at(l.From, e.high), e.at(l.To, e.high)
	top := from.Y + 10
	e.line(thin, at(from.X, from.Y), at(from.X, top), at(to.X, top), at(to.X, to.Y))
	const apart, most = 22, 100 // a load that ends far off the paper has no more arrows
	n := max(2, int(min(most, (to.X-from.X)/apart)))
	for i := range n + 1 {
		x := from.X + (to.X-from.X)*vg.Length(i)/vg.Length(n)
		e.force(fine, l, at(x, top), at(x, from.Y+0.5))
	}
	e.label(at((from.X+to.X)/2, top+2), words)
}

func (e *elevationSketch) point(l stages.Load) {
	tip := e.at(l.Centre, e.high)
	e.force(thick, l, at(tip.X, tip.Y+16), at(tip.X, tip.Y+0.5))
}

// force is an arrow down to the element, or up from it.
func (e *elevationSketch) force(pen draw.LineStyle, l stages.Load, from, tip vg.Point) {
	if l.Force < 0 {
		from, tip = tip, from
	}
	e.arrow(pen, from, tip)
}

// name labels a load drawn as an arrow.
func (e *elevationSketch) name(l stages.Load, words string) {
	tip := e.at(l.Centre, e.high)
	e.label(at(tip.X, tip.Y+17), words)
}
