package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/vg"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// elevation is the element of one situation on its supports, with its loads. One that is
// drawn as that of the situation before it is the same in every letter, so that it is
// printed once.
func (a *author) elevation(stage stages.StageRecord, i int) figure {
	f := a.elevationOf(stage, i)
	first := f
	for k := i - 1; k >= 0; k-- {
		before := a.elevationOf(stage, k)
		if before.svg != f.svg || before.equipment != f.equipment {
			break
		}
		first = before
	}
	f.svg = a.described(first).svg
	return f
}

func (a *author) elevationOf(stage stages.StageRecord, i int) figure {
	s := stage.Situations[i]
	e := a.newElevation(s)
	e.beam()
	e.equipment()
	e.tendons()
	e.supports()
	e.loads()
	e.over.draw(e.sketch, e.at(0, e.high).Y, false)
	e.under.draw(e.sketch, e.up, true)
	if height := a.planHeight(s); height > 0 {
		e.plan(height)
	}
	scale := "length and depth to the same scale"
	if e.exaggerated {
		scale = "depth not to scale"
	}
	if slices.Contains(e.carried, false) {
		scale += "; dashed: not yet erected"
	}
	if !a.site && a.manySegments() {
		scale += "; self-weight of the segments not drawn"
	}
	if besideAxis(s) {
		scale += "; plan seen from above, width not to scale"
	}
	name := "-elevation"
	if a.site {
		name = "-positions"
	}
	return figure{
		name: situationName(stage, i) + name, wide: true, svg: e.done(), titled: !a.site && !a.manySegments() && !e.exaggerated && !slices.Contains(e.carried, false), equipment: equipmentWords(s),
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
	carried     []bool // the parts of the weight that are there
	over, under *tagging
	strips      []strip
	stacked     int // strips over each other
}

// Least heights of an elevation above and below the element, in points.
const (
	loadHeight     = 30 * vg.Length(1) // the weight with its label
	loadHeightSite = 16 * vg.Length(1) // a label on an operation sheet
	deepest        = 48 * vg.Length(1) // depth of the element at most
	deepestSite    = 19 * vg.Length(1) // the same on an operation sheet
	underHeight    = 28 * vg.Length(1) // supports with their labels
	underSite      = 20 * vg.Length(1) // the same on an operation sheet
	hookHeight     = 39 * vg.Length(1) // tip of a lift line over the top
	hookHeightSite = 21 * vg.Length(1) // the same on an operation sheet
	freeHeight     = 6 * vg.Length(1)  // below an element that hangs
)

// sized is the first of two sizes, the second on an operation sheet, which has little room.
func (e *elevationSketch) sized(size, onSite vg.Length) vg.Length {
	if e.author.site {
		return onSite
	}
	return size
}

func (a *author) newElevation(s stages.SituationRecord) *elevationSketch {
	low, high := a.levels()
	const margin = 34
	e := &elevationSketch{author: a, situation: s, carried: a.carried(s), left: margin, low: low, high: high}
	length := math.Max(a.record.Length, 1e-3)
	e.along = (pageWidth - 2*margin) / vg.Length(length)
	e.deep = e.along
	if depth, most := e.along*vg.Length(high-low), e.sized(deepest, deepestSite); depth < 12 || depth > most {
		e.deep, e.exaggerated = max(12, min(most, depth))/vg.Length(high-low), true
	}
	e.stackStrips()
	e.over = placeTags(slices.Concat(e.loadTags(), e.hookTags(), e.gearTags(false)), append(e.hurdles(), e.gearHurdles(false)...), pageWidth)
	e.under = placeTags(append(e.supportTags(), e.gearTags(true)...), e.gearHurdles(true), pageWidth)
	below := max(freeHeight, e.gearReach(true))
	if len(e.under.placed) > 0 {
		below = max(e.sized(underHeight, underSite), below, e.under.height())
	}
	e.up = below + a.planHeight(s)
	e.sketch = newSketch(pageWidth, e.up+e.deep*vg.Length(high-low)+max(e.topHeight(), e.over.height()+0.75, e.gearReach(false)))
	return e
}

// topHeight is the least height above the element: on an operation sheet without a label
// there only what keeps it from the heading.
func (e *elevationSketch) topHeight() vg.Length {
	if e.author.site && len(e.over.placed) == 0 {
		return freeHeight
	}
	return e.sized(loadHeight, loadHeightSite)
}

// planHeight is the height of the plan below an elevation; 0 where all supports are
// on the axis.
func (a *author) planHeight(s stages.SituationRecord) vg.Length {
	if right, left := a.widest(s); !besideAxis(s) || !(left > right) {
		return 0
	}
	if a.site {
		return planWidthSite + 2*planMargin
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

// beam is the outline in elevation: of a girder, elements that are there are full, others
// dashed, with their joints.
func (e *elevationSketch) beam() {
	parts := e.author.stretches(e.carried)
	if !slices.ContainsFunc(parts, func(p stretch) bool { return !p.there }) {
		outline := e.outline(0, e.author.record.Length)
		e.fill(pale, outline[:len(outline)-1])
		e.line(thick, outline...)
		parts = parts[min(1, len(parts)):]
		for _, p := range parts {
			e.line(thin, e.at(p.from, e.low), e.at(p.from, e.high))
		}
		return
	}
	for _, there := range []bool{false, true} {
		for _, p := range parts {
			outline := e.outline(p.from, p.to)
			switch {
			case p.there != there:
			case there:
				e.fill(pale, outline[:len(outline)-1])
				e.line(thick, outline...)
			default:
				e.line(absent, outline...)
			}
		}
	}
}

// outline is the element in elevation between two places; without a section a rectangle.
func (e *elevationSketch) outline(from, to float64) []vg.Point {
	if outline := e.author.around(from, to, func(x float64, p section.Point) vg.Point { return e.at(x, p.Z) }); len(outline) > 0 {
		return outline
	}
	return []vg.Point{e.at(from, e.high), e.at(to, e.high), e.at(to, e.low), e.at(from, e.low), e.at(from, e.high)}
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
