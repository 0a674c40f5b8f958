package tendon

import "fmt"

// Ends says where a tendon is jacked.
type Ends int

// The zero value is refused: it must be stated.
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
	Stress  float64  // in the strand at the jack, before locking off, Pa
	Ends    Ends     // where the jacks stand
	DrawIn  float64  // slip of the wedges at each jacked end when locking off, m
	Given   *Given   // the force that results, where it is stated and not computed; nil to compute it
}

// Check reports the first field that is not allowed; the error wraps
// [ErrTendon].
func (j Jacking) Check() error {
	switch {
	case len(j.Tendons) == 0:
		return fmt.Errorf("%w: Jacking.Tendons is empty: must have at least one mark", ErrTendon)
	case !(j.Stress > 0 && j.Stress <= 3000e6):
		return fmt.Errorf("%w: Jacking.Stress = %g Pa for %v: must be above 0, at most 3000e6 Pa", ErrTendon, j.Stress, j.Tendons)
	case j.Ends < LeftEnd || j.Ends > BothEnds:
		return fmt.Errorf("%w: Jacking.Ends for %v is not stated: must be LeftEnd, RightEnd or BothEnds", ErrTendon, j.Tendons)
	case !(j.DrawIn >= 0 && j.DrawIn <= 0.1):
		return fmt.Errorf("%w: Jacking.DrawIn = %g m for %v: must be 0 to 0.1 m", ErrTendon, j.DrawIn, j.Tendons)
	}
	return nil
}
