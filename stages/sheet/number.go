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

// down and up are the next whole number in a direction; a part of [noise] is taken
// for rounding of the computation.
func down(v float64) float64 { return math.Floor(v + noise) }
func up(v float64) float64   { return math.Ceil(v-noise) + 0 } // + 0: no −0

// cutOf is how a limit is rounded to the safe side: a least value up, a most value
// down.
func cutOf(sense limits.Sense) func(float64) float64 {
	if sense == limits.AtLeast {
		return up
	}
	return down
}

// least is the smallest value that is not nothing: no quantity of a record comes near.
const least = 1e-290

// number is a value with four significant figures, as an engineer writes it.
func number(value float64) string { return rounded(value, figures, math.Round) }

// rounded is a value with so many significant digits; cut brings the scaled value
// to a whole number.
func rounded(value float64, digits int, cut func(float64) float64) string {
	switch {
	case math.IsNaN(value) || math.IsInf(value, 0):
		return unknown
	case math.Abs(value) < least:
		return "0"
	}
	size := int(math.Floor(math.Log10(math.Abs(value))))
	decimals := digits - 1 - size
	scale := math.Pow(10, float64(decimals))
	short := cut(value*scale) / scale
	if size >= 7 || size < -4 {
		mantissa, exponent, _ := strings.Cut(strconv.FormatFloat(short, 'e', digits-1, 64), "e")
		power, _ := strconv.Atoi(exponent) // FormatFloat writes a whole number
		return minus(strings.TrimRight(strings.TrimRight(mantissa, "0"), ".") + "·10^" + strconv.Itoa(power))
	}
	return trimmed(short, max(0, decimals))
}

// days is an age or a day of the project, to a thousandth of a day: a minimum is cut
// [up], a maximum [down].
func days(value float64, cut func(float64) float64) string { return trimmed(cut(value*1000)/1000, 3) }

// safe is a value with its unit, rounded to the side where nobody is misled, see
// [cutOf].
func (u Units) safe(value float64, unit formula.Unit, sense limits.Sense) string {
	return u.cut(value, unit, figures, sense)
}

// cut is a value with so many figures and its unit, rounded as [Units.safe] does.
func (u Units) cut(value float64, unit formula.Unit, digits int, sense limits.Sense) string {
	p := u.of(value, unit)
	return strings.TrimSpace(rounded(value*p.factor, digits, cutOf(sense)) + " " + p.unit)
}

// shortest is a value with all the digits that it was written down with, and so many
// more.
func shortest(value float64, more int) string { return scaled(value, 1, more) }

// mostDigits are more than a record writes of a rounded number.
const mostDigits = 10

// scaled is value times a factor with as many significant digits as the value has,
// and so many more.
func scaled(value, factor float64, more int) string { return scaledTo(value, factor, more, math.Round) }

// scaledTo is scaled, cut to a side.
func scaledTo(value, factor float64, more int, cut func(float64) float64) string {
	mantissa, _, _ := strings.Cut(strconv.FormatFloat(math.Abs(value), 'e', -1, 64), "e")
	digits := min(mostDigits, max(1, len(mantissa)-1))
	if more > 0 { // 20 MPa, one digit, are 2.9008 ksi
		digits = max(digits, figures) + more
	}
	return rounded(value*factor, digits, cut)
}

// exact is a number of the record that was rounded when it was written down, with
// its unit: all its digits, in US units one more.
func (u Units) exact(value float64, unit formula.Unit) string {
	p := u.of(value, unit)
	return strings.TrimSpace(scaled(value, p.factor, u.more()) + " " + p.unit)
}

// column is exact in the unit of a column.
func (u Units) column(value float64, unit formula.Unit) string {
	return scaled(value, u.in(unit).factor, u.more())
}

// more is one digit in units in which numbers are rounded twice.
func (u Units) more() int {
	if u.filled() == US {
		return 1
	}
	return 0
}

// trimmed is a value with at most that many decimals, without zeros at the end.
func trimmed(value float64, decimals int) string {
	text := strconv.FormatFloat(value, 'f', decimals, 64)
	if strings.Contains(text, ".") {
		text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	}
	return minus(text)
}

// minus writes the sign as a printer does and drops it from a zero; what is no number
// is unknown.
func minus(text string) string {
	if strings.ContainsAny(text, "NI") { // NaN, +Inf
		return unknown
	}
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

// fine are head and format of a column of small lengths or angles, to 0.1 mm, 0.01 in and
// 0.001 mrad; of another unit those given.
func (u Units) fine(title string, unit formula.Unit, other aligned) (string, aligned) {
	switch p := short[u.filled()][unit].printed; {
	case unit == formula.Radian:
		return title + " mrad", aligned{1e3, 3}
	case p.unit == "mm":
		return title + " mm", aligned{p.factor, 1}
	case p.unit == "in":
		return title + " in", aligned{p.factor, 2}
	}
	return u.head(title, unit), other
}

func (a aligned) text(value float64) string {
	return minus(strconv.FormatFloat(value*a.factor, 'f', a.decimals, 64))
}
