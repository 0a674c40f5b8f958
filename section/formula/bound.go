package formula

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// misreadings are the units in which a value is given by mistake, and the coherent
// SI unit that was asked for.
var misreadings = []struct {
	unit, words string
	factor      float64
}{
	{"Pa", "in MPa", 1e6}, {"Pa", "in GPa", 1e9}, {"Pa", "in ksi", 6.894757293168361e6}, {"N", "in kN", 1e3}, {"m", "in mm", 1e-3}, {"m²", "in mm²", 1e-6}, {"m⁴", "in mm⁴", 1e-12},
	{"d", "in hours", 1. / 24}, {"", "in percent", 0.01}, {"%", "a fraction", 100}, {"kg/m³", "in t/m³", 1e3},
}

// Misread is the question, behind a semicolon, whether a value that is out of its
// range is given in another unit than asked, where it would then be within the range:
// "; is it in MPa?". It is empty where no unit fits. The unit is "" for a pure number.
func Misread(value float64, unit string, least, most float64) string {
	for _, m := range misreadings {
		if v := value * m.factor; m.unit == unit && v != 0 && v >= least && v <= most {
			return "; is it " + m.words + "?"
		}
	}
	return ""
}

// RangeEnd is the end of a range as written in a script: 50e6 and not 5e+07.
func RangeEnd(v float64) string {
	switch size := math.Abs(v); {
	case size >= 1e13:
	case size >= 10e9:
		return strconv.FormatFloat(v/1e9, 'g', 4, 64) + "e9"
	case size >= 1e5:
		return strconv.FormatFloat(v/1e6, 'g', 4, 64) + "e6"
	case v == math.Trunc(v):
		return strconv.FormatFloat(v, 'f', 0, 64)
	}
	return strconv.FormatFloat(v, 'g', 4, 64)
}

// OutOfRange are the words of a field whose value is out of its range: the field, the
// value with its unit, what it must be (also: what else it may be, with a comma behind,
// or ""), and the question of [Misread].
func OutOfRange(field string, value float64, unit, also string, least, most float64) string {
	behind := strings.TrimRight(" "+unit, " ")
	return fmt.Sprintf("%s = %g%s: must be %s%s to %s%s%s", field, value, behind, also, RangeEnd(least), RangeEnd(most), behind, Misread(value, unit, least, most))
}
