package sheet

import (
	"math"
	"strconv"
	"strings"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// figures is how many significant figures a sheet prints.
const figures = 4

// noise is the part of the last printed figure that counts as rounding of the
// computation, so that a limit of 0.165 m is printed as it was put in.
const noise = 1e-6

// number is a value with four significant figures, as an engineer writes it.
func number(value float64) string { return significant(value, math.Round) }

// significant is a value with [figures] significant figures; cut brings the
// scaled value to a whole number.
func significant(value float64, cut func(float64) float64) string {
	if value == 0 || math.IsNaN(value) || math.IsInf(value, 0) {
		return "0"
	}
	size := int(math.Floor(math.Log10(math.Abs(value))))
	decimals := figures - 1 - size
	scale := math.Pow(10, float64(decimals))
	rounded := cut(value*scale) / scale
	if size >= 7 || size < -4 {
		mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(rounded, 'e', figures-1, 64), "e")
		power, _ := strconv.Atoi(exponent) // FormatFloat writes a whole number
		return minus(strings.TrimRight(strings.TrimRight(mantissa, "0"), ".") + "·10^" + strconv.Itoa(power))
	}
	return trimmed(rounded, max(0, decimals))
}

// safe is a value with its unit, rounded to the side where nobody is misled: a
// least value up, a most value down. A part of [noise] of the last figure is
// taken for rounding of the computation.
func (u Units) safe(value float64, unit formula.Unit, sense limits.Sense) string {
	p := u.of(value, unit)
	cut := func(v float64) float64 { return math.Floor(v + noise) }
	if sense == limits.AtLeast {
		cut = func(v float64) float64 { return math.Ceil(v - noise) }
	}
	return strings.TrimSpace(significant(value*p.factor, cut) + " " + p.unit)
}

// trimmed is a value with at most that many decimals, without zeros at the end.
func trimmed(value float64, decimals int) string {
	text := strconv.FormatFloat(value, 'f', decimals, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return minus(text)
}

// minus writes the sign as a printer does and drops it from a zero.
func minus(text string) string {
	if strings.Trim(text, "-0.") == "" {
		return strings.TrimPrefix(text, "-")
	}
	return strings.ReplaceAll(text, "-", "−")
}

// aligned prints the values of a table's column in one unit with the same
// decimals: four significant figures for the largest, lengths to the millimetre.
type aligned struct {
	factor   float64
	decimals int
}

func (u Units) aligned(unit formula.Unit, values ...float64) aligned {
	a := aligned{factor: u.in(unit).factor}
	if unit == formula.Metre {
		a.decimals = 3
		return a
	}
	largest := 0.0
	for _, v := range values {
		largest = math.Max(largest, math.Abs(v*a.factor))
	}
	if largest > 0 && !math.IsInf(largest, 0) {
		a.decimals = max(0, min(figures, figures-1-int(math.Floor(math.Log10(largest)))))
	}
	return a
}

func (a aligned) text(value float64) string {
	return minus(strconv.FormatFloat(value*a.factor, 'f', a.decimals, 64))
}

// stress is a stress with its sign and C for compression or T for tension.
func (a aligned) stress(value float64) string {
	text := a.text(value)
	switch {
	case strings.Trim(text, "0.") == "":
		return text
	case value < 0:
		return text + " C"
	}
	return "+" + text + " T"
}
