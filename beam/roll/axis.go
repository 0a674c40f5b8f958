package roll

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// lowest and highest are the heights of the roll axis that are looked at (m).
const lowest, highest = -20, 20

// AxisFor is the least height of the roll axis above the centre of gravity of the
// straight girder (m, from −20 to 20) with which the girder has stated factors against
// cracking and against overturning. The error wraps [ErrRoll]: a factor that is not
// above 0, at most 10, or factors that it does not have with the roll axis 20 m above.
func (h Hung) AxisFor(cracking, overturning float64) (float64, error) {
	for _, f := range []struct {
		against string
		value   float64
	}{{"cracking", cracking}, {"overturning", overturning}} {
		if !(f.value > 0 && f.value <= 10) {
			return 0, fmt.Errorf("%w: factor against %s = %g: must be above 0, at most 10", ErrRoll, f.against, f.value)
		}
	}
	h.Axis = highest
	if _, err := h.Solve(); err != nil {
		return 0, err
	}
	spare := func(axis float64) (float64, error) {
		h.Axis = axis
		r, err := h.Solve()
		return math.Min(r.Cracking/cracking, r.Overturning/overturning) - 1, err
	}
	root, err := formula.Root(lowest, highest, spare)
	if err != nil {
		return 0, fmt.Errorf("%w: no height of the roll axis from %d to %d m gives factors of %g against cracking and %g against overturning: must be a smaller offset, sweep or wind, or lift points closer together: %w",
			ErrRoll, lowest, highest, cracking, overturning, err)
	}
	// The root is short of the factors by its last digits, or at the height at which the
	// girder becomes stable.
	for step := 1e-14; ; step *= 2 {
		axis := math.Min(highest, root+step)
		if s, _ := spare(axis); s >= 0 || axis == highest { // solved without error before
			return axis, nil
		}
	}
}
