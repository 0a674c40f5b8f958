package tendon

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// bound is a field with the values it may have.
type bound struct {
	field       string
	value       float64
	unit        string
	least, most float64
}

// Ranges of quantities that several doors ask for.
const (
	leastJacking = 50e6   // Pa, at a jack: below it is no stress that anybody stresses to
	leastSteel   = 1e6    // Pa, of steel that is stressed at all
	mostSteel    = 3000e6 // Pa, and its strength
	leastForce   = 10e3   // N, of a tendon: one wire at 500 MPa
	mostForce    = 200e6  // N
	leastChange  = 1e3    // Pa, of a change of stress or a stress of concrete that is meant
	leastDrawIn  = 1e-9   // m: below it the force along the tendon is that without
)

// within reports the first field that is out of its bounds or not a number; of
// names what the fields belong to.
func within(of string, bounds ...bound) error {
	for _, b := range bounds {
		if !b.holds(b.value) {
			return b.refused(of, "")
		}
	}
	return nil
}

// withinOrZero is within for fields that may also be zero.
func withinOrZero(of string, bounds ...bound) error {
	for _, b := range bounds {
		if b.value != 0 && !b.holds(b.value) {
			return b.refused(of, "0, or ")
		}
	}
	return nil
}

func (b bound) holds(v float64) bool { return v >= b.least && v <= b.most }

func (b bound) refused(of, also string) error {
	return fmt.Errorf("%w: %s", ErrTendon, formula.OutOfRange(of+b.field, b.value, b.unit, also, b.least, b.most))
}

// positive reports a value that is not finite and above zero.
func positive(field string, value float64, unit string) error {
	if !(value > 0) || math.IsInf(value, 1) {
		return fmt.Errorf("%w: %s = %g %s: must be finite and positive", ErrTendon, field, value, unit)
	}
	return nil
}
