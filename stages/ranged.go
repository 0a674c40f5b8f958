package stages

import (
	"errors"

	"github.com/tempstage/tempstage/section/formula"
)

// ranged is a field with the values that it may have.
type ranged struct {
	field       string
	value       float64
	unit        string
	least, most float64
}

// outside reports the first field that is out of its range or not a number.
func outside(of string, fields ...ranged) error {
	for _, f := range fields {
		if !(f.value >= f.least && f.value <= f.most) {
			return errors.New("field " + formula.OutOfRange(of+f.field, f.value, f.unit, "", f.least, f.most))
		}
	}
	return nil
}
