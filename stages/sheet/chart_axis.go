package sheet

import (
	"math"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"
)

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
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.Tick.Label = lettering(axis.Tick.Label.XAlign, axis.Tick.Label.YAlign)
		axis.LineStyle, axis.Tick.LineStyle, axis.Tick.Length, axis.Padding = thin, thin, 3, 0
	}
	p.X.Tick.Marker, p.Y.Tick.Marker = c.abscissae(x0, x1), plot.ConstantTicks(yTicks)
	if c.downward {
		p.Y.Scale = plot.InvertedScale{Normalizer: plot.LinearScale{}}
	}
	return p
}

// abscissae are the ticks of the abscissa, with its unit at the last.
func (c chart) abscissae(from, to float64) plot.ConstantTicks {
	ticks := inRange(ticksOver(from, to, 8), from, to)
	if len(ticks) > 0 {
		ticks[len(ticks)-1].Label += " " + legible(c.unit)
	}
	return ticks
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
