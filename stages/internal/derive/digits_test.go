package derive_test

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

func TestRound(t *testing.T) {
	for _, c := range []struct {
		value float64
		last  int
		want  float64
	}{
		{2296651, 2, 2296700}, {-4584413, 3, -4584000}, {0.54874, -4, 0.5487}, {0.54875, -4, 0.5488}, {-0.00004, -4, 0},
		{338500, 3, 339000}, {-338500, 3, -339000}, {0, 3, 0}, {1e300, -12, 1e300}, {12, 0, 12}, {0.998043, -5, 0.99804},
	} {
		got := derive.Round(c.value, c.last)
		require.Equal(t, c.want, got, "%g to 1e%d", c.value, c.last)
		require.False(t, got == 0 && math.Signbit(got), "no negative zero")
	}
	require.True(t, math.IsNaN(derive.Round(math.NaN(), 2)), "refused at the door of a table, not here")
}

// A rounded number is written short, and rounding it again changes nothing.
func TestRoundedNumbersAreShort(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 20000 {
		value, last := between(r, 1e-4, 1e9)*sign(r), r.IntN(10)-5 // 15 digits at most
		once := derive.Round(value, last)
		require.Equal(t, once, derive.Round(once, last))
		require.LessOrEqual(t, math.Abs(once-value), 0.5000001*math.Pow10(last)+2.3e-16*math.Abs(value), "half a unit, or the spacing of float64")
		text, err := json.Marshal(once)
		require.NoError(t, err)
		require.Less(t, len(text), 20, "%s: no tail of binary digits", text)
		require.LessOrEqual(t, decimals(string(text)), max(0, -last))
	}
}

func decimals(text string) int {
	for i := range text {
		if text[i] == '.' {
			return len(text) - i - 1
		}
	}
	return 0
}

func TestSignificant(t *testing.T) {
	require.Equal(t, 5.12346, derive.Significant(5.1234567, 6))
	require.Equal(t, 0.0123457, derive.Significant(0.01234567, 6))
	require.Equal(t, -123457e3, derive.Significant(-123456789, 6))
	require.Equal(t, 0.0, derive.Significant(0, 6))
}

func TestTextInTheSheetsUnits(t *testing.T) {
	require.Equal(t, "2296.7", derive.Text(2296700, 2, 1e-3))
	require.Equal(t, "-4585", derive.Text(-4585000, 3, 1e-3))
	require.Equal(t, "0.384", derive.Text(384000, 3, 1e-6))
	require.Equal(t, "0.5480", derive.Text(0.548, -4, 1), "a zero at the end is a digit")
	require.Equal(t, "0.000", derive.Text(-12, 3, 1e-6))
	require.Equal(t, "516.32", derive.Text(2296700, 2, 1/4448.2216), "100 N are 0.022 kip: two decimals")
	require.Equal(t, 0, derive.Decimals(5, 1e-3), "never tens of kilonewtons")
	require.Equal(t, 2, derive.Coarsest(formula.Newton))
	require.Equal(t, 3, derive.Coarsest(formula.NewtonMetre))
	require.Equal(t, 3, derive.Coarsest(formula.Pascal))
	require.Equal(t, -4, derive.Coarsest(formula.Metre))
	require.Equal(t, -3, derive.Coarsest(formula.One))
	require.Equal(t, 1, derive.Coarsest(formula.NewtonPerMetre))
	require.Equal(t, 0, derive.Coarsest(formula.Kilogram))
}

func TestRows(t *testing.T) {
	columns := []string{"x", "M", "noise"}
	values := [][]float64{{0, 1234567.8, 1e-9}, {34.00004, -12.3456, 0}}
	rows, err := derive.NewRows(columns, values, 6)
	require.NoError(t, err)
	require.Equal(t, [][]float64{{0, 1234570, 1e-9}, {34, -10, 0}}, rows.Values, "six digits of the largest of a column")
	require.Equal(t, []float64{1234570, -10}, rows.Column("M"))
	require.Nil(t, rows.Column("V"))
	require.Equal(t, 1234567.8, values[0][1], "what was given is not changed")
	text, err := json.Marshal(rows)
	require.NoError(t, err)
	var back derive.Rows
	require.NoError(t, json.Unmarshal(text, &back))
	require.Equal(t, rows, back)
	_, err = derive.NewRows(columns, [][]float64{{1, 2}}, 6)
	require.ErrorIs(t, err, derive.ErrDerive)
	require.ErrorContains(t, err, "row 1 with 2 numbers: must be 3")
	_, err = derive.NewRows(columns, [][]float64{{1, 2, 3}, {1, math.Inf(1), 3}}, 6)
	require.ErrorIs(t, err, derive.ErrDerive)
	require.ErrorContains(t, err, "row 2, column M = +Inf")
}

// Fifteen situations of 60 stations and 12 columns stay far below the 300 kB of a
// whole record.
func TestRowsAreCompact(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 6))
	values := make([][]float64, 60)
	for i := range values {
		values[i] = make([]float64, 12)
		for j := range values[i] {
			values[i][j] = 1e7 * r.NormFloat64()
		}
	}
	rows, err := derive.NewRows(make([]string, 12), values, 6)
	require.NoError(t, err)
	text, err := json.Marshal(rows)
	require.NoError(t, err)
	require.Less(t, 15*len(text), 115000)
}

func TestRangeCoversWhatWasFound(t *testing.T) {
	require.Equal(t, derive.Range{Least: 412300, Most: 530100}, derive.NewRange(412399, 530001, 2))
	require.Equal(t, derive.Range{Least: -200, Most: -100}, derive.NewRange(-101, -100, 2))
	require.Equal(t, derive.Range{Least: 100, Most: 100}, derive.NewRange(100-1e-6, 100+1e-6, 2), "noise is no unit")
}
