package section

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
)

// largestDimension is far beyond any part of a section (m); one in mm is more.
const largestDimension = 200

// dimension is a named length of a parametric shape, for its checks.
type dimension struct {
	name  string
	value float64
}

// misread asks whether a length is given in another unit.
func (d dimension) misread() string { return formula.Misread(d.value, "m", 0, largestDimension) }

// positive checks lengths that must be there.
func positive(shape string, list ...dimension) error {
	for _, d := range list {
		if !(d.value > 0 && d.value <= largestDimension) {
			return fmt.Errorf("%w: %s.%s = %g m: must be positive, up to %d m%s", ErrShape, shape, d.name, d.value, largestDimension, d.misread())
		}
	}
	return nil
}

// notNegative checks lengths that may be zero.
func notNegative(shape string, list ...dimension) error {
	for _, d := range list {
		if !(d.value >= 0 && d.value <= largestDimension) {
			return fmt.Errorf("%w: %s.%s = %g m: must be zero or positive, up to %d m%s", ErrShape, shape, d.name, d.value, largestDimension, d.misread())
		}
	}
	return nil
}

// atMost is a length with the largest that fits.
type atMost struct {
	dimension
	allowed float64
}

// fit checks lengths against what the others leave.
func fit(shape string, list ...atMost) error {
	for _, d := range list {
		if !(d.value <= d.allowed) {
			return fmt.Errorf("%w: %s.%s = %.4g m: must be at most %.4g m in this shape", ErrShape, shape, d.name, d.value, d.allowed)
		}
	}
	return nil
}

// check refuses a haunch with one side only.
func (h Haunch) check(shape, name string) error {
	if !((h.Width > 0) == (h.Height > 0)) {
		return fmt.Errorf("%w: %s.%s = %g × %g m: must be both positive or both zero", ErrShape, shape, name, h.Width, h.Height)
	}
	return notNegative(shape, dimension{name + ".Width", h.Width}, dimension{name + ".Height", h.Height})
}

// firstOf is the first error of a list.
func firstOf(errs ...error) error {
	for _, err := range errs {
		if err != nil {
			return err
		}
	}
	return nil
}
