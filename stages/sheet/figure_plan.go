package sheet

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// planSketch is the element seen from above, y to the left looking along +x, so
// upwards on the paper.
type planSketch struct {
	*elevationSketch
	middle vg.Length // height of the axis on the paper
	across vg.Length // points for a metre of width
	signs  []vg.Rectangle
}

// Heights of a plan, in points.
const (
	planMargin = 10 * vg.Length(1) // above and below the widest place
	planWidth  = 30 * vg.Length(1) // of the widest place at most

	planWidthSite = 17 * vg.Length(1) // the same on an operation sheet
)

// besideAxis is true where a support acts beside the axis of the element.
func besideAxis(s stages.SituationRecord) bool {
	return slices.ContainsFunc(s.Reactions, func(r stages.Reaction) bool { return r.Y != 0 })
}

// widest is the range of y of all sections and supports.
func (a *author) widest(s stages.SituationRecord) (right, left float64) {
	for _, d := range a.record.Outlines {
		if least, most, ok := extent(d); ok {
			right, left = math.Min(right, least.Y), math.Max(left, most.Y)
		}
	}
	for _, r := range s.Reactions {
		right, left = math.Min(right, r.Y), math.Max(left, r.Y)
	}
	return right, left
}

// plan draws the plan below the elevation, in so much height.
func (e *elevationSketch) plan(height vg.Length) {
	right, left := e.author.widest(e.situation)
	p := planSketch{elevationSketch: e, across: (height - 2*planMargin) / vg.Length(left-right)}
	p.middle = planMargin - vg.Length(right)*p.across
	e.line(thin, e.author.around(0, e.author.record.Length, func(x float64, of section.Point) vg.Point { return p.on(x, of.Y) })...)
	e.line(chained, p.on(-0.01*e.author.record.Length, 0), p.on(1.01*e.author.record.Length, 0))
	e.write(at(2, p.middle), "plan", text.XLeft, text.YCenter)
	for _, r := range e.situation.Reactions {
		e.ring(p.on(r.X, r.Y), r.Role != stages.LiftPoint)
	}
	for _, r := range e.situation.Reactions {
		c := p.on(r.X, r.Y)
		p.signs = append(p.signs, vg.Rectangle{Min: at(c.X-3, c.Y-3), Max: at(c.X+3, c.Y+3)})
	}
	m := e.situation.Mass
	centre := p.on(m.X, m.Y)
	if m.Weight > 0 {
		e.line(thick, at(centre.X-4, centre.Y), at(centre.X+4, centre.Y))
		e.line(thick, at(centre.X, centre.Y-4), at(centre.X, centre.Y+4))
		p.signs = append(p.signs, vg.Rectangle{Min: at(centre.X-5, centre.Y-5), Max: at(centre.X+5, centre.Y+5)})
	}
	for i, r := range e.situation.Reactions {
		p.name(p.on(r.X, r.Y), i+1, e.author.units.place(r.Y))
	}
	if m.Weight > 0 {
		e.label(centre, "CoG")
	}
}

func (p planSketch) on(x, y float64) vg.Point {
	return at(p.left+vg.Length(x)*p.along, p.middle+vg.Length(y)*p.across)
}

// name writes the name of a support beside it; where others stand, only its number, for
// the table of reactions says where it is.
func (p planSketch) name(of vg.Point, number int, y string) {
	for _, words := range []string{fmt.Sprintf("%d: y = %s", number, y), fmt.Sprint(number)} {
		style := lettering(text.XLeft, text.YCenter)
		width, end := style.Width(words), p.on(p.author.record.Length, 0).X
		for _, place := range []vg.Point{{X: of.X + 5, Y: of.Y}, {X: of.X - 5 - width, Y: of.Y}, {X: of.X - width/2, Y: of.Y + 7}, {X: of.X - width/2, Y: of.Y - 7}} {
			box := boxOf(style, place, words)
			if p.clear(box, of.X < end, end) {
				p.ground(box)
				p.write(place, words, text.XLeft, text.YCenter)
				return
			}
		}
	}
	p.label(of, fmt.Sprint(number))
}

// clear is true for a box on the plan that hides neither words nor another support.
func (p planSketch) clear(box vg.Rectangle, inside bool, end vg.Length) bool {
	if box.Min.Y < p.Rectangle.Min.Y || box.Min.X < 2 || box.Max.X > pageWidth-2 || inside && box.Max.X > end {
		return false
	}
	hides := func(w vg.Rectangle) bool { return overlap(box, w) > 0 }
	return !slices.ContainsFunc(p.words, hides) && !slices.ContainsFunc(p.signs, hides)
}
