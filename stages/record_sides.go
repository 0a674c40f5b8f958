package stages

import (
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// onSides cuts what derives demand and limit of every check to the safe side: a demand that
// must not be more is rounded up, its limit down; a demand that must not be less down, its
// limit up.
func (r *Record) onSides() {
	for _, stage := range r.Stages {
		for _, s := range stage.Situations {
			for _, c := range s.Checks {
				if c.State == NotEvaluated {
					continue
				}
				most := c.Sense == limits.AtMost
				r.onSide(c, c.Demand, most)
				r.onSide(c, c.Limit, !most)
			}
		}
	}
}

// onSide cuts the lines and the table that give a quantity of a check.
func (r *Record) onSide(c Check, q formula.Quantity, upwards bool) {
	near := func(value float64) bool {
		return q.Value != 0 && math.Abs(math.Abs(value)-math.Abs(q.Value)) <= 1e-3*math.Abs(q.Value)
	}
	for _, n := range c.Lines {
		if line, err := r.Line(n); err == nil && line.Result.Symbol == q.Symbol && line.Result.Unit == q.Unit && near(line.Result.Value) {
			r.CutLine(n, q.Value, upwards)
		}
	}
	for _, n := range c.Tables {
		if sum := r.Tables[n-1].Sum; sum.Unit == q.Unit && near(sum.Value) {
			r.CutSum(n, q.Value, upwards == (q.Value > 0))
		}
	}
}
