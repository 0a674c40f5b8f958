package loads

import (
	"fmt"
	"math"
)

// Check reports the first load that is not finite or is off a member of the
// given length (m); ends count as on it. The error wraps [ErrLoad] and names
// the load, the value with its unit and what it must be.
func (s Set) Check(length float64) error {
	for i, p := range s.Points {
		if err := placed("point load", i, p.At, length, p.Force, "N"); err != nil {
			return err
		}
	}
	for i, c := range s.Couples {
		if err := placed("couple", i, c.At, length, c.Moment, "N·m"); err != nil {
			return err
		}
	}
	for i, l := range s.Lines {
		if err := spread("line load", i, l.From, l.To, length, l.Intensity); err != nil {
			return err
		}
	}
	for i, c := range s.Curvatures {
		if err := spread("curvature", i, c.From, c.To, length, c.Value); err != nil {
			return err
		}
	}
	return nil
}

// placed checks what acts at one place: load number index of its kind.
func placed(kind string, index int, at, length, value float64, unit string) error {
	if !(at >= 0 && at <= length) {
		return fmt.Errorf("%w: %s %d at x = %g m: must be 0 ≤ x ≤ %g m", ErrLoad, kind, index+1, at, length)
	}
	if math.IsNaN(value) || math.IsInf(value, 0) {
		return fmt.Errorf("%w: %s %d at x = %g m: %g %s: must be a finite value", ErrLoad, kind, index+1, at, value, unit)
	}
	return nil
}

// spread checks what acts over a length.
func spread(kind string, index int, from, to, length float64, law Polynomial) error {
	for _, c := range law {
		if err := placed(kind, index, from, length, c, "(coefficient)"); err != nil {
			return err
		}
	}
	if !(to > from && to <= length) {
		return fmt.Errorf("%w: %s %d: To = %g m: must be From = %g m < To ≤ %g m", ErrLoad, kind, index+1, to, from, length)
	}
	return nil
}
