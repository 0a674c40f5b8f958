package formula_test

import (
	"testing"

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
