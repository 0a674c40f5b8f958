package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
)

// Every table and every line of the Record recomputes from its printed digits.
func TestEveryTableAndLineRecomputes(t *testing.T) {
	r := record(t)
	require.NoError(t, r.Lists.Check())
	require.Greater(t, len(r.Tables), 50)
	require.Greater(t, len(r.Lines), 50)
	for _, group := range append(r.Inputs, r.Appendix...) {
		for _, n := range group.Lines { // recomputed by Check from their printed digits
			line, err := r.Line(n)
			require.NoError(t, err)
			require.NotEmpty(t, line.Result.Symbol, group.Title)
		}
	}
}

// Demand and limit of every check stand under it: the demand to the digits that
// are printed, as the sum of a table or the result of a line.
func TestEveryCheckHasItsDemandAndItsLimitUnderIt(t *testing.T) {
	r := record(t)
	for _, stage := range r.Stages {
		for _, s := range stage.Situations {
			for _, c := range s.Checks {
				var results []formula.Quantity
				for _, n := range c.Tables {
					require.True(t, n >= 1 && n <= len(r.Tables), c.Name)
					results = append(results, r.Tables[n-1].Sum)
				}
				for _, n := range c.Lines {
					line, err := r.Line(n)
					require.NoError(t, err, c.Name)
					results = append(results, line.Result)
				}
				for _, want := range []formula.Quantity{c.Demand, c.Limit} {
					least := math.Inf(1)
					for _, q := range results {
						if q.Unit == want.Unit {
							least = math.Min(least, math.Abs(math.Abs(q.Value)-math.Abs(want.Value)))
						}
					}
					// the last printed digit, cut to the safe side: 0.001 MPa of a stress, four figures of the rest
					require.LessOrEqual(t, least, math.Max(0.6e-3*math.Abs(want.Value), map[bool]float64{true: 1000, false: 0}[want.Unit == formula.Pascal]),
						"%s: %s: %s = %g", s.Name, c.Name, want.Symbol, want.Value)
				}
			}
		}
	}
}
