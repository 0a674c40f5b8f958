package formula_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
)

func TestMisreadAsksForTheUnitThatFits(t *testing.T) {
	for _, c := range []struct {
		value       float64
		unit        string
		least, most float64
		asks        string
	}{
		{1400, "Pa", 50e6, 3000e6, "; is it in MPa?"},
		{200, "Pa", 50e9, 300e9, "; is it in GPa?"},
		{30, "ksi", 0, 1, ""},
		{80, "", 0, 1, "; is it in percent?"},
		{6, "m", 0, 0.1, "; is it in mm?"},
		{2.5, "kg/m³", 500, 3500, "; is it in t/m³?"},
		{0, "Pa", 0, 1, ""},
		{-1400, "Pa", 50e6, 3000e6, ""},
	} {
		require.Equal(t, c.asks, formula.Misread(c.value, c.unit, c.least, c.most), "%g %s", c.value, c.unit)
	}
}

func TestLimitsAsInAScript(t *testing.T) {
	for v, want := range map[float64]string{
		50e6: "50e6", 0.1e6: "0.1e6", 10000: "10000", 0.05: "0.05", -20e6: "-20e6", 300e9: "300e9", 1e15: "1e+15", 3000e6: "3000e6", 1e9: "1000e6", 0: "0", 36500: "36500",
	} {
		require.Equal(t, want, formula.RangeEnd(v))
	}
}

func TestOutOfRangeSaysWhatItMustBe(t *testing.T) {
	require.Equal(t, "Jacking.Stress = 1400 Pa: must be 50e6 to 3000e6 Pa; is it in MPa?", formula.OutOfRange("Jacking.Stress", 1400, "Pa", "", 50e6, 3000e6))
	require.Equal(t, "Tolerance = 7: must be 0, or 0.0001 to 0.5", formula.OutOfRange("Tolerance", 7, "", "0, or ", 1e-4, 0.5)[:42])
}
