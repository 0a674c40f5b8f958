package tendon

import (
	"fmt"
	"math"
	"strings"
)

// bound is a field with the values it may have.
type bound struct {
	field       string
	value       float64
	unit        string
	least, most float64
}

// within reports the first field that is out of its bounds or not a number; of
// names what the fields belong to.
func within(of string, bounds ...bound) error {
	for _, b := range bounds {
		if !(b.value >= b.least && b.value <= b.most) {
			unit := strings.TrimRight(" "+b.unit, " ")
			return fmt.Errorf("%w: %s%s = %g%s: must be %.4g to %.4g%s", ErrTendon, of, b.field, b.value, unit, b.least, b.most, unit)
		}
	}
	return nil
}

// positive reports a value that is not finite and above zero.
func positive(field string, value float64, unit string) error {
	if !(value > 0) || math.IsInf(value, 1) {
		return fmt.Errorf("%w: %s = %g %s: must be finite and positive", ErrTendon, field, value, unit)
	}
	return nil
}
