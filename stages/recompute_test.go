package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// recomputes checks that every table and line of a record gives its own numbers
// again from its printed digits, and that what stands under a check ends in its
// demand and its limit.
func recomputes(t *testing.T, r stages.Record) {
	t.Helper()
	require.NoError(t, r.Lists.Check())
	for _, stage := range r.Stages {
		for _, situation := range stage.Situations {
			for _, c := range situation.Checks {
				if c.State == stages.NotEvaluated || c.Demand.Symbol == "" { // said in words
					require.NotEmpty(t, c.Note)
					continue
				}
				for _, q := range []formula.Quantity{c.Demand, c.Limit} {
					require.True(t, shown(t, r, c, q), "%s in %s, stage %d: nothing shows %s = %g", c.Name, situation.Name, stage.Number, q.Symbol, q.Value)
				}
			}
		}
	}
}

// shown is true when a line or the sum of a table under a check is the quantity, to
// the digits that are printed, cut to its safe side. A shear stress is compared by magnitude: a table
// keeps the sense in which it flows.
func shown(t *testing.T, r stages.Record, c stages.Check, q formula.Quantity) bool {
	t.Helper()
	near := func(symbol string, value float64) bool {
		size := math.Abs(q.Value)
		if q.Symbol == "τ" {
			value = math.Abs(value)
		}
		return symbol == q.Symbol && math.Abs(value-q.Value) <= math.Max(1e-4*size, map[formula.Unit]float64{formula.Pascal: 1e3, formula.Newton: 10, formula.NewtonMetre: 100, formula.Metre: 1e-5}[q.Unit])
	}
	for _, n := range c.Lines {
		line, err := r.Lists.Line(n)
		require.NoError(t, err)
		if near(line.Result.Symbol, line.Result.Value) || q.Symbol == "σ_tens" && line.Result.Symbol == "σ_c" && near(q.Symbol, line.Result.Value) {
			return true
		}
	}
	for _, n := range c.Tables {
		require.True(t, n >= 1 && n <= len(r.Tables))
		of := r.Tables[n-1]
		if near(of.Sum.Symbol, of.Sum.Value) || q.Symbol == "σ_tens" && near(q.Symbol, of.Sum.Value) {
			return true
		}
	}
	return false
}
