package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// One of each unit in US customary units by the definitions: 1 ft = 0.3048 m, 1 in =
// 25.4 mm, 1 lb = 0.45359237 kg, g = 9.80665 m/s².
func TestFactorsOfUSUnits(t *testing.T) {
	const lbf = 0.45359237 * 9.80665 // N
	for unit, want := range map[formula.Unit]printed{
		formula.One: {"", 1}, formula.Metre: {"ft", 1 / 0.3048}, formula.SquareMetre: {"ft²", 1 / (0.3048 * 0.3048)}, formula.CubicMetre: {"ft³", 1 / (0.3048 * 0.3048 * 0.3048)},
		formula.MetreToFourth: {"ft⁴", 1 / (0.3048 * 0.3048 * 0.3048 * 0.3048)}, formula.Radian: {"rad", 1}, formula.RadianPerMetre: {"rad/ft", 0.3048}, formula.PerRadian: {"1/rad", 1},
		formula.Newton: {"kip", 1 / (1000 * lbf)}, formula.NewtonPerMetre: {"kip/ft", 0.3048 / (1000 * lbf)}, formula.NewtonMetre: {"kip·ft", 1 / (1000 * lbf * 0.3048)},
		formula.NewtonPerCubic: {"lb/ft³", 0.3048 * 0.3048 * 0.3048 / lbf}, formula.NewtonSquareMetre: {"kip·ft²", 1 / (1000 * lbf * 0.3048 * 0.3048)},
		formula.Pascal: {"ksi", 0.0254 * 0.0254 / (1000 * lbf)}, formula.Day: {"d", 1}, formula.Kilogram: {"lb", 1 / 0.45359237}, formula.MetrePerSecond: {"mph", 1 / 0.44704}, formula.Kelvin: {"°F", 1.8}, formula.NewtonMetrePerRadian: {"kip·ft/rad", 1 / (1000 * lbf * 0.3048)},
		formula.SquareMetrePerKilogram: {"ft²/lb", 0.45359237 / (0.3048 * 0.3048)}, formula.NewtonPerSquareMetre: {"kip/ft²", 0.3048 * 0.3048 / (1000 * lbf)}, perArea: {"1/in²", 0.0254 * 0.0254}, perVolume: {"1/(ft·in²)", 0.3048 * 0.0254 * 0.0254},
	} {
		got := US.in(unit)
		require.Equal(t, want.unit, got.unit, unit)
		require.InEpsilon(t, want.factor, got.factor, 1e-12, unit)
	}
}

// One of each unit in SI as sheets print it.
func TestFactorsOfSIUnits(t *testing.T) {
	for unit, want := range map[formula.Unit]printed{
		formula.One: {"", 1}, formula.Metre: {"m", 1}, formula.SquareMetre: {"m²", 1}, formula.CubicMetre: {"m³", 1}, formula.MetreToFourth: {"m⁴", 1}, formula.Radian: {"rad", 1},
		formula.RadianPerMetre: {"rad/m", 1}, formula.PerRadian: {"1/rad", 1}, formula.Newton: {"kN", 1e-3}, formula.NewtonPerMetre: {"kN/m", 1e-3}, formula.NewtonMetre: {"kN·m", 1e-3},
		formula.NewtonPerCubic: {"kN/m³", 1e-3}, formula.NewtonSquareMetre: {"kN·m²", 1e-3}, formula.Pascal: {"MPa", 1e-6}, formula.Day: {"d", 1}, formula.Kilogram: {"t", 1e-3}, formula.MetrePerSecond: {"m/s", 1}, formula.Kelvin: {"K", 1}, formula.NewtonMetrePerRadian: {"kN·m/rad", 1e-3}, formula.SquareMetrePerKilogram: {"m²/t", 1e3}, formula.NewtonPerSquareMetre: {"kN/m²", 1e-3}, perArea: {"1/m²", 1}, perVolume: {"1/m³", 1},
	} {
		require.Equal(t, want, SI.in(unit), unit)
	}
	require.Len(t, table[US], len(table[SI]), "no unit is missing in one of them")
}

// A hair on either side of the size from which a length or an area is printed small.
func TestSmallLengthsAndAreasHaveSmallUnits(t *testing.T) {
	require.Equal(t, "99.9 mm", SI.quantity(0.0999, formula.Metre))
	require.Equal(t, "0.1 m", SI.quantity(0.1, formula.Metre))
	require.Equal(t, "−99.9 mm", SI.quantity(-0.0999, formula.Metre))
	require.Equal(t, "9990 mm²", SI.quantity(0.00999, formula.SquareMetre))
	require.Equal(t, "0.01 m²", SI.quantity(0.01, formula.SquareMetre))
	require.Equal(t, "23.62 in", US.quantity(0.6, formula.Metre), "0.6/0.0254 = 23.622")
	require.Equal(t, "2.001 ft", US.quantity(0.61, formula.Metre), "0.61/0.3048 = 2.0013")
	require.Equal(t, "139.5 in²", US.quantity(0.09, formula.SquareMetre), "0.09/0.0254² = 139.50")
	require.Equal(t, "1.012 ft²", US.quantity(0.094, formula.SquareMetre), "0.094/0.3048² = 1.0118")
	require.Equal(t, "0 m", SI.quantity(0, formula.Metre))
	require.Equal(t, "0 ft", US.quantity(0, formula.Metre))
}

// Coordinates stand to the millimetre whatever their size, without a sign on zero.
func TestPlacesAreToTheMillimetre(t *testing.T) {
	for value, want := range map[float64]string{0: "0 m", 0.005: "0.005 m", -0.0004: "0 m", 12.3456: "12.346 m", -2.15: "−2.15 m", 123456.789: "123456.789 m"} {
		require.Equal(t, want, SI.place(value))
	}
	require.Equal(t, "3.281 ft", US.place(1), "1/0.3048 = 3.28084")
}

// A limit in US units is rounded to its safe side after the conversion, not before:
// 18 MPa / 6.894757 = 2.61068 ksi.
func TestLimitsInUSUnitsAreRoundedToTheSafeSide(t *testing.T) {
	require.Equal(t, "2.61 ksi", US.safe(18e6, formula.Pascal, limits.AtMost))
	require.Equal(t, "2.611 ksi", US.safe(18e6, formula.Pascal, limits.AtLeast))
	require.Equal(t, "0.1968 in", US.safe(0.005, formula.Metre, limits.AtMost), "0.19685")
	require.Equal(t, "0.1969 in", US.safe(0.005, formula.Metre, limits.AtLeast))
	require.Equal(t, "168.6 kip", US.safe(750e3, formula.Newton, limits.AtMost), "168.607")
	require.Equal(t, "168.7 kip", US.safe(750e3, formula.Newton, limits.AtLeast))
}

// Figures that go over into the next decade keep the side: 9.9996 as a minimum is 10,
// as a maximum 9.999.
func TestSafeRoundingOverADecade(t *testing.T) {
	require.Equal(t, "10 kN", SI.safe(9999.6, formula.Newton, limits.AtLeast))
	require.Equal(t, "9.999 kN", SI.safe(9999.6, formula.Newton, limits.AtMost))
	require.Equal(t, "0.1 MPa", SI.safe(99999.9, formula.Pascal, limits.AtLeast))
	require.Equal(t, "−10 kN", SI.safe(-9999.6, formula.Newton, limits.AtMost))
	require.Equal(t, "−9.999 kN", SI.safe(-9999.6, formula.Newton, limits.AtLeast))
	require.Equal(t, "12350 kN", SI.safe(12341e3, formula.Newton, limits.AtLeast), "four figures of a large force")
	require.Equal(t, "12340 kN", SI.safe(12349e3, formula.Newton, limits.AtMost))
}

// What is a millionth of the last figure off is taken for what was put in; more is not.
func TestTheNoiseOfSafeRounding(t *testing.T) {
	require.Equal(t, "12.34 kN", SI.safe(12340.000005, formula.Newton, limits.AtLeast), "half a millionth of 0.01 kN")
	require.Equal(t, "12.35 kN", SI.safe(12340.00005, formula.Newton, limits.AtLeast), "five millionths")
	require.Equal(t, "12.34 kN", SI.safe(12339.999995, formula.Newton, limits.AtMost))
	require.Equal(t, "12.33 kN", SI.safe(12339.99995, formula.Newton, limits.AtMost))
}

// The heads of columns name the unit of their numbers; a plain number has none.
func TestHeadsNameTheUnit(t *testing.T) {
	require.Equal(t, "N,p kN", SI.head("N,p", formula.Newton))
	require.Equal(t, "N,p kip", US.head("N,p", formula.Newton))
	require.Equal(t, "n", SI.head("n", formula.One))
	require.Equal(t, "z m", SI.headed("z", formula.Metre).raw())
	require.Equal(t, "n", SI.headed("n", formula.One).raw())
}
