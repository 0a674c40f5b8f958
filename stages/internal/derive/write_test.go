package derive

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
)

// Rows are written as package json would write their fields.
func TestRowsAsPackageJSON(t *testing.T) {
	rng := rand.New(rand.NewPCG(71, 72))
	words := []string{"", "T1", "weight, reactions applied: supports at x = 3 m", `a "quoted" \ one`, "σ <&> é", "tab\tand\x7f", "\xff\u2028"}
	number := func() float64 {
		special := []float64{0, math.Copysign(0, -1), 1e-7, -1e-7, 1e-6, 1e21, 9.99e20, 1e15, -1e15, 1e15 + 2, 123456, -0.5, 0.1 + 0.2, math.MaxFloat64, 5e-324}
		if n := rng.IntN(2 * len(special)); n < len(special) {
			return special[n]
		}
		return math.Round(rng.NormFloat64()*1e6) / math.Pow10(rng.IntN(9))
	}
	for range 4000 {
		row := Row{Label: words[rng.IntN(len(words))], On: rng.IntN(3), Value: number(), Product: number(), Rests: Rests{Of: rng.IntN(2), Roll: float64(rng.IntN(2)) * number(), Gradient: float64(rng.IntN(2)) * number()}}
		for range rng.IntN(4) {
			row.Cells = append(row.Cells, Cell{number(), rng.IntN(3) > 0})
		}
		for range rng.IntN(3) {
			row.Factors = append(row.Factors, Factor{words[rng.IntN(len(words))], number(), words[rng.IntN(len(words))]})
		}
		want, err := json.Marshal(row)
		require.NoError(t, err)
		var got text
		got.row(&row)
		require.NoError(t, got.err)
		require.Equal(t, string(want), string(got.out))
	}
	for range 400 {
		table := Table{Number: rng.IntN(3), By: []Relation{Given, Bending}[rng.IntN(2)], Value: Column{"σ", "Pa", 3}, Sum: formula.Q("σ", number(), formula.Pascal, "stress & more"), SumAt: 2 - rng.IntN(4)}
		if rng.IntN(2) > 0 {
			table.Y, table.Z, table.YAt, table.ZAt = number(), number(), -rng.IntN(5), -rng.IntN(5)
		}
		for range rng.IntN(3) {
			table.Columns = append(table.Columns, Column{words[rng.IntN(len(words))], "N", rng.IntN(4)})
			table.Rows = append(table.Rows, Row{Label: "a", Cells: []Cell{{number(), true}, {number(), false}}[:rng.IntN(3)], Value: number()})
		}
		type plain Table
		want, err := json.Marshal(plain(table.inDigits(func(v float64, last int) float64 { return math.Round(scaled(v, -last)) })))
		require.NoError(t, err)
		got, err := json.Marshal(table)
		require.NoError(t, err)
		require.Equal(t, string(want), string(got))
	}
	var got text
	got.row(&Row{Value: math.NaN()})
	require.Error(t, got.err)
}
