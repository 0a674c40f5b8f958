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
	if c.equal {
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

// axes are the axes of the chart, over the range of all that is in it.
func (c chart) axes() *plot.Plot {
	p := plot.New()
	p.BackgroundColor = nil
	x0, x1, y0, y1 := c.span()
	p.X.Min, p.X.Max = x0, x1
	yTicks := ticksOver(y0, y1, 5)
	p.Y.Min, p.Y.Max = math.Min(y0, yTicks[0].Value), math.Max(y1, yTicks[len(yTicks)-1].Value)
	if c.tight || len(c.notes) > 0 {
		p.Y.Min, p.Y.Max = c.aired(p.Y, y0, y1)
	}
	room := 0.2 * (p.Y.Max - p.Y.Min) // for the names of limits beyond the range
	if c.beyond(p.Y.Min, p.Y.Max, false) != "" {
		p.Y.Min -= room
	}
	if c.beyond(p.Y.Min, p.Y.Max, true) != "" {
		p.Y.Max += room
	}
	xTicks := ticksOver(x0, x1, 8)
	xTicks = inRange(xTicks, x0, x1)
	if len(xTicks) > 0 {
		xTicks[len(xTicks)-1].Label += " " + legible(c.unit)
	}
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.Tick.Label = lettering(axis.Tick.Label.XAlign, axis.Tick.Label.YAlign)
		axis.LineStyle, axis.Tick.LineStyle, axis.Tick.Length, axis.Padding = thin, thin, 3, 0
	}
	p.X.Tick.Marker, p.Y.Tick.Marker = plot.ConstantTicks(xTicks), plot.ConstantTicks(yTicks)
	if c.downward {
		p.Y.Scale = plot.InvertedScale{Normalizer: plot.LinearScale{}}
	}
	return p
}

// aired is the range of the ordinate with room for labels beyond the largest and the
// smallest value: about the height of a line.
func (c chart) aired(axis plot.Axis, y0, y1 float64) (low, high float64) {
	if c.equal {
		return axis.Min, axis.Max
	}
	line := 0.14 * (axis.Max - axis.Min)
	return math.Min(axis.Min, y0-line), math.Max(axis.Max, y1+line)
}

// span is the range of both axes; zero is in that of the ordinate.
func (c chart) span() (x0, x1, y0, y1 float64) {
	x0, x1 = math.Inf(1), math.Inf(-1)
	if c.to > c.from {
		x0, x1 = c.from, c.to
	}
	if c.tight || c.equal {
		y0, y1 = math.Inf(1), math.Inf(-1)
	}
	take := func(points plotter.XYs) {
		for _, q := range points {
			x0, x1, y0, y1 = math.Min(x0, q.X), math.Max(x1, q.X), math.Min(y0, q.Y), math.Max(y1, q.Y)
		}
	}
	for _, l := range c.curves {
		for _, part := range l.parts {
			take(part)
		}
	}
	for _, b := range c.bands {
		take(b.lower)
		take(b.upper)
	}
	for _, n := range c.notes {
		take(plotter.XYs{{X: n.x, Y: n.y}})
	}
	for _, b := range c.bounds {
		if !c.tight {
			y0, y1 = math.Min(y0, b.value), math.Max(y1, b.value)
		}
	}
	for _, y := range c.within {
		y0, y1 = math.Min(y0, y), math.Max(y1, y)
	}
	x0, x1 = opened(x0, x1)
	y0, y1 = opened(y0, y1)
	return x0, x1, y0, y1
}

// opened is a range that an axis can show: from −1 to 1 where there is nothing,
// and some width about a single value. A width below 1e-9 of the values is
// rounding of the computation.
func opened(from, to float64) (least, most float64) {
	size := math.Max(math.Abs(from), math.Abs(to))
	switch {
	case !(to >= from) || size > 1e100:
		return -1, 1
	case to-from <= 1e-9*size || size < 1e-100:
		return from - math.Max(1, 1e-3*size), to + math.Max(1, 1e-3*size)
	}
	return from, to
}

// ticksOver are round values that cover a range.
func ticksOver(from, to float64, about int) []plot.Tick {
	step := (to - from) / float64(about)
	size := math.Pow(10, math.Floor(math.Log10(step)))
	for _, round := range []float64{1, 2, 5, 10} {
		if size*round >= step*0.999 {
			step = size * round
			break
		}
	}
	decimals := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	var ticks []plot.Tick
	for i := math.Floor(from/step + 1e-9); i*step < to+step*(1-1e-9); i++ {
		ticks = append(ticks, plot.Tick{Value: i * step, Label: trimmed(i*step, decimals)})
	}
	return ticks
}

func inRange(ticks []plot.Tick, from, to float64) []plot.Tick {
	var kept []plot.Tick
	for _, t := range ticks {
		if t.Value >= from-1e-9*(to-from) && t.Value <= to+1e-9*(to-from) {
			kept = append(kept, t)
		}
	}
	return kept
}

// equalise widens the axes until both have the same scale: a wider axis has its labels
// elsewhere, which leaves another room for the curves. All that is drawn must be in the
// plot, for lines take room by their width.
func equalise(p *plot.Plot, area draw.Canvas) {
	widen := func(a *plot.Axis, by float64) {
		middle, half := (a.Min+a.Max)/2, (a.Max-a.Min)/2*by
		a.Min, a.Max = middle-half, middle+half
	}
	for range 8 {
		data := p.DataCanvas(area)
		size := data.Size()
		across, up := (p.X.Max-p.X.Min)/float64(size.X), (p.Y.Max-p.Y.Min)/float64(size.Y)
		if across > up {
			widen(&p.Y, across/up)
		} else {
			widen(&p.X, up/across)
		}
	}
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
