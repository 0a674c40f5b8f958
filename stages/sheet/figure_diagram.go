package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// chartHeight is the height of a diagram below its legend.
const chartHeight = 66 * vg.Length(1)

// forceHeight is that of a diagram of tendon forces.
const forceHeight = 66 * vg.Length(1)

// stressHeight is that of a diagram of stresses.
const stressHeight = 84 * vg.Length(1)

// diagrams are the figures of a situation over the length, two beside each other.
func (a *author) diagrams(stage stages.StageRecord, i int) []block {
	s, name := stage.Situations[i], situationName(stage, i)
	var figures []figure
	add := func(kind, file, caption string, c chart) {
		if svg := c.svg(); !a.repeats(kind, svg, numbered(stage, i)) {
			figures = append(figures, a.described(figure{name: name + "-" + file, svg: svg, caption: caption, titled: true}))
		}
	}
	if diagram := stages.StationsOf(s.Diagram); len(diagram) > 1 {
		moment := a.effectChart("M", "sagging down", formula.NewtonMetre, diagram, func(f stages.Station) (w, p float64) { return f.Weight.My, f.Prestress.My })
		moment.downward = true
		add("moment", "moment", "Bending moment, nominal: self-weight and actions always present, mean prestress.", moment)
		add("shear", "shear", "Shear, nominal: self-weight and actions always present, vertical part of the mean prestress.",
			a.effectChart("V", "", formula.Newton, diagram, func(f stages.Station) (w, p float64) { return f.Weight.Vz, f.Prestress.Vz }))
		for _, e := range edges {
			add("stress at the "+e.name, e.name, "Stress at the "+e.name+" over all service factors, with the least margin to a limit at that age.", a.stressChart(s, diagram, e))
		}
	}
	for k, f := range s.Figures {
		c := a.recordChart(f)
		figures = append(figures, a.described(figure{name: fmt.Sprintf("%s-figure-%d", name, k+1), svg: c.svg(), caption: f.Title, wide: c.width == pageWidth}))
	}
	return append(inPairs(figures), a.figureTables(s)...)
}

// inPairs are figures two beside each other, wide ones alone.
func inPairs(figures []figure) []block {
	var blocks []block
	for len(figures) > 0 {
		n := min(2, len(figures))
		if figures[0].wide || figures[n-1].wide {
			n = 1
		}
		blocks, figures = append(blocks, drawings{figures[:n:n]}), figures[n:]
	}
	return blocks
}

// xy is a point of a diagram in the units of the sheet.
func (a *author) xy(x, value float64, unit formula.Unit) plotter.XY {
	return plotter.XY{X: x * a.units.in(formula.Metre).factor, Y: value * a.units.in(unit).factor}
}

func (a *author) chart(title string) chart {
	metre := a.units.in(formula.Metre)
	return chart{title: title, numbered: true, unit: metre.unit, to: a.record.Length * metre.factor, width: halfWidth, height: chartHeight}
}

// effectChart is an internal force from weight, from prestress and in total.
func (a *author) effectChart(title, sense string, unit formula.Unit, diagram []stages.Station, of func(stages.Station) (weight, prestress float64)) chart {
	c := a.chart(strings.TrimSuffix(fmt.Sprintf("%s %s, %s", title, a.units.in(unit).unit, sense), ", "))
	var weight, prestress, total plotter.XYs
	stressed := false
	for _, s := range diagram {
		w, p := of(s)
		weight, prestress, total = append(weight, a.xy(s.X, w, unit)), append(prestress, a.xy(s.X, p, unit)), append(total, a.xy(s.X, w+p, unit))
		stressed = stressed || p != 0
	}
	c.curves = []curve{{name: "weight", parts: []plotter.XYs{weight}, pen: thin}}
	if stressed {
		c.curves = append(c.curves, curve{name: "prestress", parts: []plotter.XYs{prestress}, pen: dashed}, curve{name: "total", parts: []plotter.XYs{total}, pen: thick})
	}
	for i, l := range slices.Backward(c.curves) { // the total first: it has the best places
		steps := jumps(l.parts[0])
		if i < len(c.curves)-1 && len(steps) > 4 {
			steps = nil // of many supports the table has the rest
		}
		c.notes = append(c.notes, steps...)
		for _, n := range extremes(l.parts[0]) {
			if !slices.ContainsFunc(c.notes, func(s note) bool { return s.x == n.x && slices.Contains(strings.Split(s.words, " | "), n.words) }) {
				c.notes = append(c.notes, n)
			}
		}
	}
	if slices.ContainsFunc(c.notes, func(n note) bool { return strings.Contains(n.words, " | ") }) {
		c.title += " (left | right)"
	}
	return c
}

// jumps are labels with both sides of each step of a curve, left | right, but for small
// ones.
func jumps(points plotter.XYs) []note {
	scale, length := 0.0, 0.0
	for _, p := range points {
		scale, length = math.Max(scale, math.Abs(p.Y)), math.Max(length, math.Abs(p.X))
	}
	var notes []note
	for i := 1; i < len(points); i++ {
		p, q := points[i-1], points[i]
		if q.X-p.X > 1e-6*length || math.Abs(q.Y-p.Y) < 0.05*scale {
			continue
		}
		end := p
		if math.Abs(q.Y) > math.Abs(p.Y) {
			end = q
		}
		notes = append(notes, note{end.X, end.Y, number(p.Y) + " | " + number(q.Y)})
	}
	return notes
}

// extremes are labels at the largest and the smallest value of a curve, those
// apart from zero.
func extremes(points plotter.XYs) []note {
	if len(points) == 0 {
		return nil
	}
	least, most := points[0], points[0]
	for _, p := range points {
		if p.Y < least.Y {
			least = p
		}
		if p.Y > most.Y {
			most = p
		}
	}
	var notes []note
	scale := math.Max(math.Abs(least.Y), math.Abs(most.Y))
	for _, p := range []plotter.XY{least, most} {
		if math.Abs(p.Y) > 0.05*scale && (len(notes) == 0 || most.Y-least.Y > 1e-9*scale) {
			notes = append(notes, note{p.X, p.Y, number(p.Y)})
		}
	}
	return notes
}

// pens tell curves apart, in turn.
var pens = []draw.LineStyle{thick, dashed, thin, dotted, chained}

// forceFigure is the force of each tendon along the element; tendons alike share
// a curve.
func (a *author) forceFigure(stage stages.StageRecord, i int) (figure, bool) {
	c := a.chart("Tendon force " + a.units.in(formula.Newton).unit)
	c.tight, c.height = true, forceHeight
	for k, group := range alikeTendons(stage.Situations[i].Tendons) {
		var points plotter.XYs
		for _, p := range group[0].Along {
			points = append(points, a.xy(p[0], p[1], formula.Newton))
		}
		if len(points) > 1 {
			c.curves = append(c.curves, curve{name: briefly(group), parts: []plotter.XYs{points}, pen: pens[k%len(pens)]})
		}
	}
	if len(c.curves) == 0 {
		return figure{}, false
	}
	return a.described(figure{name: situationName(stage, i) + "-tendons", wide: true, titled: true, svg: c.svg(), caption: "Tendon force along the element at this stage."}), true
}

// briefly are the marks of tendons for a legend: the first and the last where
// there are many.
func briefly(tendons []stages.TendonForce) string {
	if n := len(tendons); n > 4 {
		return fmt.Sprintf("%s … %s (%d)", tendons[0].Mark, tendons[n-1].Mark, n)
	}
	return marksOf(tendons)
}

// recordChart is a figure that an operation brought as plain data.
func (a *author) recordChart(f stages.Figure) chart {
	x, y := a.units.in(formula.Unit(f.XUnit)), a.units.in(formula.Unit(f.YUnit))
	lengths := f.XUnit == f.YUnit && f.XUnit == string(formula.Metre)
	if f.Exaggerated {
		if p, ok := short[a.units.filled()][formula.Unit(f.YUnit)]; ok {
			y = p.printed
		}
	}
	c := chart{title: y.unit, unit: x.unit, width: halfWidth, height: chartHeight, equal: lengths && !f.Exaggerated}
	for _, l := range f.Lines { // those of one name are one curve
		var points plotter.XYs
		for _, p := range l.Points {
			points = append(points, plotter.XY{X: p[0] * x.factor, Y: p[1] * y.factor})
		}
		at := slices.IndexFunc(c.curves, func(o curve) bool { return o.name == l.Name })
		if at < 0 {
			at = len(c.curves)
			c.curves = append(c.curves, curve{name: l.Name, pen: pens[at%len(pens)]})
		}
		c.curves[at].parts = append(c.curves[at].parts, points)
	}
	for _, t := range f.Texts {
		c.notes = append(c.notes, note{t.At[0] * x.factor, t.At[1] * y.factor, a.units.words(t.Text)})
	}
	if c.equal {
		c.width, c.height = c.onPaper().shape()
	}
	return c
}

// shape is the size of a picture of one scale: over the page where it is much longer than
// high, and as high as it then needs.
func (c chart) shape() (width, height vg.Length) {
	const long, axis, most = 2.5, 30, 1.8
	x0, x1, y0, y1 := c.span()
	width = halfWidth
	if x1-x0 > long*(y1-y0) {
		width = pageWidth
	}
	height = axis + (width-axis)*vg.Length((y1-y0)/(x1-x0))
	return width, max(chartHeight*0.55, min(chartHeight*most, height))
}
