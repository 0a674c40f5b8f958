package stages

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/internal/derive"
)

// Rows that are left out lie on the straight line between those that stay, to what is
// near; both sides of a jump and the extremes of every column stay.
func TestThinnedRows(t *testing.T) {
	source := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		var rows [][]float64
		jump, height := 1+source.IntN(38), source.Float64()
		for i := range 41 {
			x := float64(i) / 40
			rows = append(rows, []float64{x, x * (1 - x), math.Sin(5*x) * height})
			if i == jump {
				rows = append(rows, []float64{x, x*(1-x) + height, math.Sin(5*x) * height})
			}
		}
		near := []float64{0, 5e-3, 2e-2}
		thin := thinned(rows, near)
		require.Less(t, len(thin), len(rows)/2+10)
		require.Equal(t, rows[0], thin[0])
		require.Equal(t, rows[len(rows)-1], thin[len(thin)-1])
		sides := 0
		for _, row := range thin {
			if row[0] == rows[jump][0] {
				sides++
			}
		}
		if height > near[1] {
			require.Equal(t, 2, sides, "the jump at %g", rows[jump][0])
		}
		k := 0
		for _, row := range rows {
			if k+1 < len(thin) && &thin[k+1][0] == &row[0] {
				k++
			}
			if k+1 == len(thin) {
				break
			}
			a, b := thin[k], thin[k+1]
			for j := 1; j < 3 && b[0] > a[0]; j++ {
				require.InDelta(t, a[j]+(row[0]-a[0])/(b[0]-a[0])*(b[j]-a[j]), row[j], near[j]*(1+1e-9))
			}
		}
		for j := 1; j < 3; j++ {
			most := func(list [][]float64) float64 {
				m := math.Inf(-1)
				for _, row := range list {
					m = math.Max(m, row[j])
				}
				return m
			}
			require.InDelta(t, most(rows), most(thin), near[j]/99)
		}
	}
	require.Len(t, thinned([][]float64{{0, 1}, {1, 1}}, []float64{0, 1}), 2)
}

// A column that is zero throughout is left out of the rows and read back as zero.
func TestStationsReadBack(t *testing.T) {
	one := Station{X: 2, TopLeast: -3e6, BottomMost: 1e6}
	one.Weight.My, one.Prestress.N, one.Weight.Vy = 5e4, -2e6, 1e-5
	two := Station{X: 4}
	rows, err := stationRows([][]float64{one.row(), two.row()}, tableDigits)
	require.NoError(t, err)
	require.Equal(t, []string{"x", "My", "NP", "topLeast", "bottomMost"}, rows.Columns)
	one.Weight.Vy = 0
	require.Equal(t, []Station{one, two}, StationsOf(rows))
	require.Nil(t, StationsOf(derive.Rows{Columns: []string{"x"}, Values: [][]float64{{1, 2}}}))
	require.Empty(t, StationsOf(derive.Rows{}))
}
