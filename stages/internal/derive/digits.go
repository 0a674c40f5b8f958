package derive

import (
	"math"
	"strconv"

	"github.com/tempstage/tempstage/section/formula"
)

// Round is value rounded to the digit 10^last, halves away from zero. The result
// is the float64 nearest to that decimal number, so that it is written short.
func Round(value float64, last int) float64 {
	rounded := math.Round(scaled(value, -last))
	if math.IsInf(rounded, 0) || math.IsNaN(rounded) {
		return value
	}
	return scaled(rounded, last) + 0 // no negative zero
}

// scaled is value·10^power. It divides for negative powers: 10^−n is no float64.
func scaled(value float64, power int) float64 {
	if power < 0 {
		return value / math.Pow10(-power)
	}
	return value * math.Pow10(power)
}

// Significant is value rounded to that many significant digits.
func Significant(value float64, digits int) float64 { return Round(value, lastOf(value, digits)) }

// lastOf is the place of the last of that many significant digits of value.
func lastOf(value float64, digits int) int {
	if value == 0 || math.IsInf(value, 0) || math.IsNaN(value) {
		return 0
	}
	return int(math.Floor(math.Log10(math.Abs(value)))) - digits + 1
}

// Coarsest is the place of the last digit with which a quantity of that unit is
// printed at least: 0.1 kN, 1 kN·m, 0.001 MPa, 0.1 mm, others three decimals.
func Coarsest(unit formula.Unit) int {
	switch unit {
	case formula.Newton:
		return 2
	case formula.NewtonMetre, formula.Pascal:
		return 3
	case formula.NewtonPerMetre, formula.NewtonPerCubic:
		return 1
	case formula.Kilogram, formula.NewtonSquareMetre:
		return 0
	case formula.Metre:
		return -4
	}
	return -3
}

// Decimals is how many decimals show the digit 10^last of a value in SI when it
// is printed in a unit of which one SI unit is factor: last 2 in kN (1e-3) is one.
// In units that are no power of ten of SI the last decimal is the finer one; tables
// that are to be recomputed in such units need one decimal more (last − 1), because
// their numbers are rounded twice.
func Decimals(last int, factor float64) int {
	return max(0, int(math.Ceil(-float64(last)-math.Log10(factor)-1e-9)))
}

// Text is a value in SI printed in a unit of which one SI unit is factor, with
// the decimals that show its last digit.
func Text(value float64, last int, factor float64) string {
	decimals := Decimals(last, factor)
	return strconv.FormatFloat(Round(value*factor, -decimals), 'f', decimals, 64)
}
