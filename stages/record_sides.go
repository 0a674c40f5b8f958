package stages

import (
	"math"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// sideOf is the safe side of a result that is the demand or the limit of a check: a demand
// that must not be more is rounded up, its limit down; a demand that must not be less down,
// its limit up.
func (c Check) sideOf(q formula.Quantity) derive.Side {
	demand, limit := derive.Up, derive.Down
	if c.Sense == limits.AtLeast {
		demand, limit = limit, demand
	}
	is := func(of formula.Quantity) bool {
		return q.Symbol == of.Symbol && q.Unit == of.Unit && math.Abs(q.Value-of.Value) <= 1e-9*math.Abs(of.Value)
	}
	switch {
	case c.State == NotEvaluated:
	case is(c.Demand):
		return demand
	case is(c.Limit):
		return limit
	}
	return derive.Nearest
}

// sumsOnSides cuts the sums of tables that are the demand of a check to its safe side. A
// table that shows demands of several checks that would be cut apart stays as it is.
func (r *Record) sumsOnSides() {
	type cut struct {
		exact float64 // by magnitude
		side  derive.Side
		apart bool
	}
	cuts := map[int]cut{}
	for _, stage := range r.Stages {
		for _, s := range stage.Situations {
			for _, c := range s.Checks {
				side := c.sideOf(c.Demand)
				if c.Demand.Value < 0 {
					side = map[derive.Side]derive.Side{derive.Up: derive.Down, derive.Down: derive.Up}[side]
				}
				exact := math.Abs(c.Demand.Value)
				for _, n := range c.Tables {
					t := r.Tables[n-1]
					if t.Sum.Unit != c.Demand.Unit || math.Abs(math.Abs(t.Sum.Value)-exact) > math.Pow10(t.SumAt) {
						continue
					}
					if known, ok := cuts[n]; ok && (known.side != side || side.Round(known.exact, t.SumAt) != side.Round(exact, t.SumAt)) {
						cuts[n] = cut{apart: true}
					} else if !ok {
						cuts[n] = cut{exact: exact, side: side}
					}
				}
			}
		}
	}
	for n, c := range cuts {
		if !c.apart {
			r.CutSum(n, c.exact, c.side)
		}
	}
}
