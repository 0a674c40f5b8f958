package tendon

import "fmt"

// Seating is how the wedges of a jacked anchor are seated at lock-off, by the manual of
// the stressing system. It is stated on the operation sheet; the draw-in is
// Jacking.DrawIn in either case.
type Seating int

// The zero value is not stated: the sheet leaves room for it.
const (
	PowerSeated Seating = iota + 1 // pressed in by the jack before its pressure is let off
	DrawnIn                        // drawn in by the strand while the pressure is let off
)

func (s Seating) String() string {
	return stated(int(s), "power-seated", "drawn in by the strand")
}

// LockOff is the order in which the jacked ends of the tendons of a step are locked off. It
// is stated on the operation sheet; forces are those of ends that are locked off at once.
type LockOff int

// The zero value is not stated: the sheet leaves room for it.
const (
	AllAtOnce  LockOff = iota + 1
	LeftFirst          // small x, while the jack at the other end holds its force
	RightFirst         // large x, likewise
)

func (o LockOff) String() string {
	return stated(int(o), "all ends at once", "the left end first", "the right end first")
}

// GaugeUnit is the unit of the dial of a pressure gauge, in which the crew reads it.
type GaugeUnit int

// The zero value is not stated: the sheet leaves room for it.
const (
	GaugeBar GaugeUnit = iota + 1
	GaugeMPa
	GaugePSI
)

func (u GaugeUnit) String() string { return stated(int(u), "bar", "MPa", "psi") }

// stated is word n of a list, the first is 1.
func stated(n int, words ...string) string {
	if n < 1 || n > len(words) {
		return "not stated"
	}
	return words[n-1]
}

// checkLockOff reports words of the lock-off that are not known, and an order of two ends
// where one is jacked.
func (j Jacking) checkLockOff(of string) error {
	switch {
	case j.Seating < 0 || j.Seating > DrawnIn:
		return fmt.Errorf("%w: %sSeating = %d: must be PowerSeated, DrawnIn or 0, not stated", ErrTendon, of, int(j.Seating))
	case j.LockOff < 0 || j.LockOff > RightFirst:
		return fmt.Errorf("%w: %sLockOff = %d: must be AllAtOnce, LeftFirst, RightFirst or 0, not stated", ErrTendon, of, int(j.LockOff))
	case j.LockOff > AllAtOnce && j.Ends != BothEnds:
		return fmt.Errorf("%w: %sLockOff is %v with a jack at %v: must be AllAtOnce or not stated, or Ends BothEnds", ErrTendon, of, j.LockOff, j.Ends)
	}
	return nil
}
