package sheet

import (
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// chart is a diagram over the length, in the units of the sheet.
type chart struct {
	title    string // what the ordinate is, with its unit
	numbered bool   // the number of the figure is before the title
	unit     string // of the abscissa
	curves   []curve
	bands    []band
	bounds   []bound
	notes    []note
	gauge    *gauge    // the least margin to a limit
	within   []float64 // ordinates that are in the range
	downward bool      // the positive ordinate is drawn downwards
	equal    bool      // both axes have the same scale
	tight    bool      // the ordinate need not begin at zero, and limits beyond it are named
	from, to float64   // range of the abscissa, at least
	width    vg.Length
	height   vg.Length // without the legend
}

// curve is a line in one or more parts.
type curve struct {
	name  string
	parts []plotter.XYs
	pen   draw.LineStyle
}

// band is what lies between two curves of the same abscissae.
type band struct{ lower, upper plotter.XYs }

// bound is a limit that the curves must stay above or below.
type bound struct {
	value float64
	above bool // beyond the limit is above
	words string
}

// gauge is the distance of a value from its limit at one place.
type gauge struct {
	x, from, to float64
	words       string
}

// note is a label at a place.
type note struct {
	x, y  float64
	words string
}

// svg draws the chart.
func (c chart) svg() string {
	c = c.onPaper()
	entries, strip := c.legend()
	k := newSketch(c.width, c.height+strip)
	c.drawLegend(k, entries)
	p := c.axes()
	area := draw.Crop(k.Canvas, 0, -4, 0, -strip)
	for _, b := range c.bands {
		if polygon, err := plotter.NewPolygon(b.outline()); err == nil {
			polygon.Color, polygon.LineStyle.Width = pale, 0
			p.Add(polygon)
		}
	}
	for _, l := range c.curves {
		for _, part := range l.parts {
			if line, err := plotter.NewLine(part); err == nil {
				line.LineStyle = l.pen
				p.Add(line)
			}
		}
	}
	if c.equal { // the ticks for what the axes have become; then again, for the ticks take room
		equalise(p, area)
		p.X.Tick.Marker, p.Y.Tick.Marker = c.abscissae(p.X.Min, p.X.Max), plot.ConstantTicks(inRange(ticksOver(p.Y.Min, p.Y.Max, 5), p.Y.Min, p.Y.Max))
		equalise(p, area)
	}
	p.Draw(area)
	c.annotate(k, p, area)
	return k.done()
}

// The sizes of numbers that an axis can show: the coordinates on the paper are numbers
// with fewer digits than these lie apart.
const (
	leastShown = 1e-30
	mostShown  = 1e30
)

// shown is a value that an axis can show.
func shown(v float64) float64 {
	switch {
	case math.Abs(v) < leastShown || math.IsNaN(v):
		return 0
	case math.Abs(v) > mostShown:
		return math.Copysign(mostShown, v)
	}
	return v
}

// onPaper is the chart with numbers that its axes can show.
func (c chart) onPaper() chart {
	points := func(list plotter.XYs) plotter.XYs {
		moved := make(plotter.XYs, len(list))
		for i, p := range list {
			moved[i] = plotter.XY{X: shown(p.X), Y: shown(p.Y)}
		}
		return moved
	}
	c.curves, c.bands, c.notes, c.bounds = slices.Clone(c.curves), slices.Clone(c.bands), slices.Clone(c.notes), slices.Clone(c.bounds)
	for i := range c.curves {
		parts := make([]plotter.XYs, len(c.curves[i].parts))
		for k, part := range c.curves[i].parts {
			parts[k] = points(part)
		}
		c.curves[i].parts = parts
	}
	for i, b := range c.bands {
		c.bands[i] = band{points(b.lower), points(b.upper)}
	}
	for i, n := range c.notes {
		c.notes[i].x, c.notes[i].y = shown(n.x), shown(n.y)
	}
	for i, b := range c.bounds {
		c.bounds[i].value = shown(b.value)
	}
	if c.gauge != nil {
		c.gauge = &gauge{shown(c.gauge.x), shown(c.gauge.from), shown(c.gauge.to), c.gauge.words}
	}
	c.within = slices.Clone(c.within)
	for i, y := range c.within {
		c.within[i] = shown(y)
	}
	c.from, c.to = shown(c.from), shown(c.to)
	return c
}

// outline is the band as a polygon.
func (b band) outline() plotter.XYs {
	outline := append(plotter.XYs{}, b.lower...)
	for i := len(b.upper) - 1; i >= 0; i-- {
		outline = append(outline, b.upper[i])
	}
	return outline
}

// annotate draws the zero line, limits and labels over the axes.
func (c chart) annotate(k *sketch, p *plot.Plot, area draw.Canvas) {
	data := p.DataCanvas(area)
	tx, ty := p.Transforms(&data)
	k.free = vg.Rectangle{Min: at(data.Min.X+1, data.Min.Y+1), Max: at(k.Max.X, data.Max.Y+4)}
	if p.Y.Min < 0 && p.Y.Max > 0 {
		k.line(thin, at(data.Min.X, ty(0)), at(data.Max.X, ty(0)))
	}
	for _, l := range c.curves {
		for _, part := range l.parts {
			points := make([]vg.Point, len(part))
			for i, q := range part {
				points[i] = at(tx(q.X), ty(q.Y))
			}
			k.avoid(points)
		}
	}
	for _, b := range c.bounds {
		if inside(b.value, p.Y) {
			c.hatch(k, data, ty(b.value), b.above != c.downward)
		}
	}
	var middle vg.Point
	if g := c.gauge; g != nil {
		middle = k.measure(at(tx(g.x), ty(g.from)), at(tx(g.x), ty(math.Max(p.Y.Min, math.Min(p.Y.Max, g.to)))))
	}
	c.limits(k, p, data, ty)
	if c.gauge != nil {
		k.label(middle, c.gauge.words)
	}
	for _, n := range c.notes {
		k.label(at(tx(n.x), ty(n.y)), n.words)
	}
}
