package formula_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
)

// The largest and the smallest count wherever they stand, of one to four.
func TestLargestAndSmallestOfSeveral(t *testing.T) {
	for _, order := range []string{"a, b, c", "a, c, b", "b, a, c", "b, c, a", "c, a, b", "c, b, a", "c, c, a, b", "b, c"} {
		for function, want := range map[string]float64{"max": 3, "min": -5} {
			got, err := formula.Line{Expression: function + "(" + order + ")", Operands: []formula.Quantity{
				{Symbol: "a", Value: -1}, {Symbol: "b", Value: 3}, {Symbol: "c", Value: -5},
			}}.Recompute()
			require.NoError(t, err)
			require.Equal(t, want, got, "%s(%s)", function, order)
		}
	}
	got, err := formula.Line{Expression: "max(a) + min(a, 2*a)", Operands: []formula.Quantity{{Symbol: "a", Value: -1}}}.Recompute()
	require.NoError(t, err)
	require.Equal(t, -3.0, got)
}

// Whatever number an operand, an end of an interval or of a range is, the answer is
// finite or an error, and soon there.
func TestHostileNumbers(t *testing.T) {
	start := time.Now()
	for _, bad := range []float64{math.NaN(), math.Inf(1), math.Inf(-1), -1, 0, 1e300, -1e300, 5e-324, -5e-324} {
		for i := range 2 {
			operands := []formula.Quantity{{Symbol: "a", Value: 2}, {Symbol: "b", Value: 3}}
			operands[i].Value = bad
			for _, expression := range []string{"a/b", "sqrt(a) + ln(b)", "pow(a, b)", "exp(a)*sin(b)", "min(a, b) - max(a, b)", "a"} {
				line, err := formula.Derive(formula.Quantity{Symbol: "r"}, expression, formula.Mechanics, operands...)
				if v := line.Result.Value; err == nil {
					require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%s with %g", expression, bad)
				} else {
					require.ErrorIs(t, err, formula.ErrExpression)
				}
			}
			ends := [2]float64{-2, 3}
			ends[i] = bad
			x, err := formula.Root(ends[0], ends[1], func(x float64) (float64, error) { return x*x*x - 1, nil })
			if err == nil {
				require.InDelta(t, 1, x, 1e-9, "%g", bad)
			} else {
				require.ErrorIs(t, err, formula.ErrNoRoot)
			}
		}
		for _, unit := range []string{"Pa", "N", "m", "", "%"} {
			require.NotPanics(t, func() { formula.Misread(bad, unit, 1, 10); formula.Misread(5, unit, bad, bad); formula.RangeEnd(bad) })
		}
	}
	require.Less(t, time.Since(start), 2*time.Second)
}
