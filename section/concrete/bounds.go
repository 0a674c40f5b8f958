package concrete

import (
	"fmt"
	"math"
	"strconv"

	"github.com/tempstage/tempstage/section/formula"
)

// bound is a field with the values it may have.
type bound struct {
	field       string
	value       float64
	unit        string
	least, most float64
	because     string // what sets the bounds; "" for plain sense
}

// Ranges of quantities that several doors ask for.
const (
	leastStrength = 0.1e6   // Pa, of a cylinder or cube that was crushed
	mostStrength  = 150e6   // Pa
	leastStress   = 1e3     // Pa, of concrete under load
	negligible    = 1e-3    // Pa: the rounding of a difference of stresses
	longest       = 36500.0 // d, of curing
	leastAge      = 1e-6    // d, a tenth of a second
	oldest        = 1e9     // d, far beyond any use, up to which no creep function overflows
)

// within reports the first field that is out of its bounds or not a number.
func within(bounds ...bound) error {
	for _, b := range bounds {
		if !b.holds(b.value) {
			return fmt.Errorf("%w: %s = %g%s: must be %s to %s%s%s%s", ErrConcrete, b.field, b.value, b.in(), formula.RangeEnd(b.least), formula.RangeEnd(b.most), b.in(), b.because, formula.Misread(b.value, b.unit, b.least, b.most))
		}
	}
	return nil
}

func (b bound) holds(v float64) bool { return v >= b.least && v <= b.most }

func (b bound) in() string {
	if b.unit == "" {
		return ""
	}
	return " " + b.unit
}

// megapascals is a strength (Pa) in words, with the digits that show it.
func megapascals(v float64) string {
	if v >= 1e4 {
		return strconv.FormatFloat(v/1e6, 'f', max(1, 1-int(math.Floor(math.Log10(v/1e6)))), 64) + " MPa"
	}
	return strconv.FormatFloat(v, 'g', 4, 64) + " Pa"
}
