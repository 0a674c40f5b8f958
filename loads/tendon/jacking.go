package tendon

import (
	"fmt"
	"slices"
)

// Ends is the ends at which a tendon is jacked.
type Ends int

// The zero value is an error: it must be stated.
const (
	LeftEnd  Ends = iota + 1 // small x
	RightEnd                 // large x
	BothEnds                 // both at once, to the same stress
)

func (e Ends) String() string {
	if e < LeftEnd || e > BothEnds {
		return "not stated"
	}
	return [...]string{"", "the left end", "the right end", "both ends"}[e]
}

// Jacking is one step of stressing: the tendons that are stressed at the same
// time, from which ends and how far.
type Jacking struct {
	Tendons []string // marks
	Stress  float64  // in the strand at the jack, before lock-off, Pa, 50e6 to 3000e6
	Ends    Ends     // the ends at which there is a jack
	DrawIn  float64  // slip of the wedges at each jacked end at lock-off, m, 0 or 1e-9 to 0.1
	Given   *Given   // the resulting force where the designer states it; nil to compute it
	Seating Seating  // of the wedges; 0: not stated, left open on the operation sheet
	LockOff LockOff  // order of the jacked ends; 0: not stated, left open on the operation sheet

	// Reading is how force and extension are read on site, for the operation sheet; the
	// zero value reads from no force, without tail and jack friction, and leaves the
	// tolerance to the specification.
	Reading Measuring
}

// Check reports the first field that is out of range; the error wraps [ErrTendon].
func (j Jacking) Check() error {
	if len(j.Tendons) == 0 {
		return fmt.Errorf("%w: Jacking.Tendons is empty: must have at least one mark", ErrTendon)
	}
	of := fmt.Sprintf("%v: Jacking.", j.Tendons)
	if err := within(of, bound{"Stress", j.Stress, "Pa", leastJacking, mostSteel}); err != nil {
		return err
	}
	if j.Ends < LeftEnd || j.Ends > BothEnds {
		return fmt.Errorf("%w: %sEnds is not stated: must be LeftEnd, RightEnd or BothEnds", ErrTendon, of)
	}
	if err := withinOrZero(of, bound{"DrawIn", j.DrawIn, "m", leastDrawIn, 0.1}); err != nil {
		return err
	}
	if err := j.checkLockOff(of); err != nil {
		return err
	}
	return j.Reading.check(j.Stress)
}

// of is Check for a jacking of the tendon with the mark.
func (j Jacking) of(mark string) error {
	if err := j.Check(); err != nil {
		return err
	}
	if !slices.Contains(j.Tendons, mark) {
		return fmt.Errorf("%w: Jacking.Tendons %v: must name tendon %s, which is jacked", ErrTendon, j.Tendons, mark)
	}
	return nil
}
