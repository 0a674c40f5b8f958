package sheet

import (
	"cmp"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg/draw"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// edge is the top or the bottom of the section.
type edge struct {
	name string
	top  bool
	of   func(stages.Station) (least, most float64)
}

var edges = []edge{
	{"top", true, func(f stages.Station) (least, most float64) { return f.TopLeast, f.TopMost }},
	{"bottom", false, func(f stages.Station) (least, most float64) { return f.BottomLeast, f.BottomMost }},
}

// stressChart is the range of the stress at one edge. Its ordinate runs over the stresses,
// the check with the least margin and its limit; limits beyond are named, not drawn.
func (a *author) stressChart(s stages.SituationRecord, diagram []stages.Station, e edge) chart {
	c := a.chart("Stress, " + e.name + " " + a.units.in(formula.Pascal).unit + ", tension +")
	low, high := curve{name: "min", pen: dashed}, curve{name: "max", pen: draw.LineStyle{Color: black, Width: 0.8}}
	var lower, upper plotter.XYs
	for _, at := range diagram {
		least, most := e.of(at)
		lower, upper = append(lower, a.xy(at.X, least, formula.Pascal)), append(upper, a.xy(at.X, most, formula.Pascal))
	}
	low.parts, high.parts, c.bands = []plotter.XYs{lower}, []plotter.XYs{upper}, []band{{lower, upper}}
	c.curves = []curve{low, high}
	c.notes = extremes(append(slices.Clone(lower), upper...))
	c.bounds, c.tight, c.height = a.bounds(s), true, stressHeight
	if nearest, ok := nearestBound(c.bounds, lower, upper); ok {
		c.within = []float64{nearest}
	}
	if c.gauge = a.leastMargin(s, diagram, e); c.gauge != nil {
		c.within = append(c.within, c.gauge.from)
		if _, _, y0, y1 := c.span(); math.Max(y1, c.gauge.to)-math.Min(y0, c.gauge.to) < 2*(y1-y0) {
			c.within = append(c.within, c.gauge.to) // a limit further off would flatten the curves
		}
	}
	return c
}

// nearestBound is the limit with the least distance from a range of stress.
func nearestBound(bounds []bound, lower, upper plotter.XYs) (float64, bool) {
	if len(bounds) == 0 || len(lower) == 0 {
		return 0, false
	}
	margin := func(b bound) float64 {
		if b.above {
			return b.value - slices.MaxFunc(upper, byOrdinate).Y
		}
		return slices.MinFunc(lower, byOrdinate).Y - b.value
	}
	return slices.MinFunc(bounds, func(b, c bound) int { return cmp.Compare(margin(b), margin(c)) }).value, true
}

func byOrdinate(p, q plotter.XY) int { return cmp.Compare(p.Y, q.Y) }

// stressLimits are the checks that limit the stress of concrete, with the sign of
// tension +.
func stressLimits(s stages.SituationRecord) (checks []stages.Check, signs []float64) {
	for _, c := range s.Checks {
		if c.Limit.Unit != formula.Pascal || c.State == stages.NotEvaluated {
			continue
		}
		switch c.Kind {
		case limits.Compression:
			checks, signs = append(checks, c), append(signs, -1)
		case limits.Tension:
			checks, signs = append(checks, c), append(signs, 1)
		}
	}
	return checks, signs
}

// bounds are the limits of compression and tension that the checks of a situation were
// made with, each once.
func (a *author) bounds(s stages.SituationRecord) []bound {
	unit := a.units.in(formula.Pascal)
	var list []bound
	checks, signs := stressLimits(s)
	for i, c := range checks {
		b := bound{signs[i] * c.Limit.Value * unit.factor, signs[i] > 0, a.boundWords(c, signs[i])}
		if !slices.Contains(list, b) {
			list = append(list, b)
		}
	}
	return list
}

// boundWords are the words for a limit with the sign of tension +.
func (a *author) boundWords(c stages.Check, sign float64) string {
	_, limit := a.compared(c)
	words := strings.TrimSuffix(limit, " "+a.units.in(formula.Pascal).unit)
	if sign < 0 && c.Limit.Value != 0 {
		words = "−" + words
	}
	return "limit " + words
}

// leastMargin is the check of the stress at one edge that has the least margin, from its
// demand to its limit; nil where no check governs there.
func (a *author) leastMargin(s stages.SituationRecord, diagram []stages.Station, e edge) *gauge {
	var found *gauge
	least := math.Inf(1)
	checks, signs := stressLimits(s)
	for i, c := range checks {
		if c.Margin >= least || a.atTop(c, signs[i]*c.Demand.Value, diagram) != e.top {
			continue
		}
		least = c.Margin
		words := "margin " + a.margin(c)
		if c.Margin < 0 {
			words = "exceeded by " + strings.TrimPrefix(a.margin(c), "−")
		}
		at, limit := a.xy(c.X, signs[i]*c.Demand.Value, formula.Pascal), a.xy(c.X, signs[i]*c.Limit.Value, formula.Pascal)
		found = &gauge{at.X, at.Y, limit.Y, words + " to the " + a.boundWords(c, signs[i])}
	}
	return found
}

// height is the level of a corner in the words of a check.
var height = regexp.MustCompile(`z = ([−-]?[0-9.]+) m`)

// atTop is true for a check of a corner in the upper half of the depth; where its words
// have no level, for one whose stress is nearer to that of the top.
func (a *author) atTop(c stages.Check, stress float64, diagram []stages.Station) bool {
	if m := height.FindStringSubmatch(c.Place); m != nil {
		if z, err := strconv.ParseFloat(strings.Replace(m[1], "−", "-", 1), 64); err == nil {
			low, high := a.levels()
			return z > (low+high)/2
		}
	}
	apart := [2]float64{math.Inf(1), math.Inf(1)}
	for _, at := range diagram {
		for k, e := range edges {
			least, most := e.of(at)
			away := math.Max(0, math.Max(least-stress, stress-most)) + math.Abs(at.X-c.X)/(1+a.record.Length)*math.Abs(stress)
			apart[k] = math.Min(apart[k], away)
		}
	}
	return apart[0] <= apart[1]
}
