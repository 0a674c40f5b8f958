package beam

import (
	"errors"
	"fmt"
	"math"
)

// ErrBeam is wrapped by every error about a beam or its loads that are not as they must
// be.
var ErrBeam = errors.New("beam")

// samePlace is the distance, as a fraction of the beam's length, below which
// two places count as one: far above the rounding of a sum of spans (1e-15),
// far below anything that can be set out (a nanometre in a metre).
const samePlace = 1e-9

// mostMove is how far a support may be set off its place (m, or rad for a rotation):
// more is no small movement, and is in another unit.
const mostMove = 2

// Layout is a line beam: its length, stiffness and supports.
type Layout struct {
	Length    float64   // m, positive, from the left end x = 0
	Stiffness []Stretch // from left to right; together they cover the length
	Supports  []Support // in any order; reactions come back in the same order
	Hinges    []float64 // m, places inside the beam without bending moment
}

// Stretch is a length of the beam with one law of stiffness. It begins at the end of
// the one before; the last may leave To zero to reach the right end.
//
// Where the stiffness varies, BendingAt or ShearAt gives it at x (m from the left end
// of the beam) and the constant must be zero. New alone calls the function, between the
// ends of the stretch, from one goroutine. It must be smooth: a stretch must end where
// the stiffness jumps or has a kink.
type Stretch struct {
	To               float64                 // m, its right end, beyond that before, up to the length; 0 in the last stretch = end of the beam
	BendingStiffness float64                 // EI, N·m², positive
	BendingAt        func(x float64) float64 `json:"-"` // EI at x, N·m², where it varies
	ShearStiffness   float64                 // G·A effective in shear, N, positive; 0 = rigid in shear
	ShearAt          func(x float64) float64 `json:"-"` // G·A at x, N, where it varies
}

// Support supports the beam at one place. The zero value of everything but At is a
// rigid bearing up and down, with free rotation. Several may be at one place if all but
// one have a Stiffness: a leg and its tie-down bar.
type Support struct {
	At                  float64 // m from the left end, 0 to the length
	Fixed               bool    // rotation held
	Stiffness           float64 // vertical spring, N/m, positive; 0 = rigid
	RotationalStiffness float64 // N·m/rad, positive; 0 = free to rotate, unless Fixed
	Settlement          float64 // prescribed movement of its foot, m, positive downwards, within ±2
	Contact             bool    // pushes up only: lifts off instead of pulling; must not restrain the rotation
}

// check reports the first field of the layout that is out of range.
func (l Layout) check() error {
	if !(l.Length > 0) || math.IsInf(l.Length, 0) {
		return fmt.Errorf("%w: Length = %g m: must be a finite length > 0", ErrBeam, l.Length)
	}
	if err := l.checkStiffness(); err != nil {
		return err
	}
	if err := l.checkSupports(); err != nil {
		return err
	}
	return l.checkHinges()
}

func (l Layout) checkStiffness() error {
	if len(l.Stiffness) == 0 {
		return fmt.Errorf("%w: Stiffness is empty: must have at least one stretch", ErrBeam)
	}
	from := 0.0
	for i := range l.Stiffness {
		to := l.stretchEnd(i)
		if !(to > from+samePlace*l.Length && to <= l.Length*(1+samePlace)) {
			return fmt.Errorf("%w: Stiffness[%d]: To = %g m: must be more than %g m (where it begins) and at most %g m",
				ErrBeam, i, to, from, l.Length)
		}
		if err := l.Stiffness[i].check(i); err != nil {
			return err
		}
		from = to
	}
	if from < l.Length*(1-samePlace) {
		return fmt.Errorf("%w: Stiffness ends at %g m: must be the end of the beam, %g m", ErrBeam, from, l.Length)
	}
	return nil
}

// stretchEnd is the right end of stretch i (m).
func (l Layout) stretchEnd(i int) float64 {
	if to := l.Stiffness[i].To; to != 0 || i < len(l.Stiffness)-1 {
		return to
	}
	return l.Length
}

func (s Stretch) check(i int) error {
	switch {
	case s.BendingAt == nil && !positive(s.BendingStiffness):
		return fmt.Errorf("%w: Stiffness[%d].BendingStiffness = %g N·m²: must be a finite stiffness > 0", ErrBeam, i, s.BendingStiffness)
	case s.BendingAt != nil && s.BendingStiffness != 0:
		return fmt.Errorf("%w: Stiffness[%d].BendingStiffness = %g N·m²: must be 0 where BendingAt gives it", ErrBeam, i, s.BendingStiffness)
	case !(s.ShearStiffness >= 0) || math.IsInf(s.ShearStiffness, 0):
		return fmt.Errorf("%w: Stiffness[%d].ShearStiffness = %g N: must be a finite stiffness > 0, or 0 for rigid in shear", ErrBeam, i, s.ShearStiffness)
	case s.ShearAt != nil && s.ShearStiffness != 0:
		return fmt.Errorf("%w: Stiffness[%d].ShearStiffness = %g N: must be 0 where ShearAt gives it", ErrBeam, i, s.ShearStiffness)
	}
	return nil
}

func positive(v float64) bool { return v > 0 && !math.IsInf(v, 0) }

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

func (l Layout) checkSupports() error {
	if len(l.Supports) == 0 {
		return fmt.Errorf("%w: Supports is empty: must be two supports, or one that is fixed", ErrBeam)
	}
	for i, s := range l.Supports {
		if err := s.check(i, l.Length); err != nil {
			return err
		}
	}
	if s := l.Supports[0]; len(l.Supports) == 1 && !s.Fixed && s.RotationalStiffness == 0 {
		return fmt.Errorf("%w: a single support at %g m that is not fixed: must be two supports, or one that is fixed", ErrBeam, s.At)
	}
	return nil
}

func (s Support) check(i int, length float64) error {
	switch {
	case !(s.At >= 0 && s.At <= length):
		return fmt.Errorf("%w: Supports[%d].At = %g m: must be 0 ≤ At ≤ %g m", ErrBeam, i, s.At, length)
	case !(s.Stiffness >= 0) || math.IsInf(s.Stiffness, 0):
		return fmt.Errorf("%w: Supports[%d].Stiffness = %g N/m at %g m: must be a finite stiffness > 0, or 0 for a rigid support", ErrBeam, i, s.Stiffness, s.At)
	case !(s.RotationalStiffness >= 0) || math.IsInf(s.RotationalStiffness, 0):
		return fmt.Errorf("%w: Supports[%d].RotationalStiffness = %g N·m/rad at %g m: must be a finite stiffness > 0, or 0 for free rotation", ErrBeam, i, s.RotationalStiffness, s.At)
	case s.Fixed && s.RotationalStiffness > 0:
		return fmt.Errorf("%w: Supports[%d].RotationalStiffness = %g N·m/rad at %g m: must be 0 where the support is Fixed", ErrBeam, i, s.RotationalStiffness, s.At)
	case s.Contact && (s.Fixed || s.RotationalStiffness > 0):
		return fmt.Errorf("%w: Supports[%d].Contact at %g m: must be false where the support restrains the rotation", ErrBeam, i, s.At)
	case !(math.Abs(s.Settlement) <= mostMove):
		return fmt.Errorf("%w: Supports[%d].Settlement = %g m at %g m: must be within ±%d m; is it in mm?", ErrBeam, i, s.Settlement, s.At, mostMove)
	}
	return nil
}

func (l Layout) checkHinges() error {
	near := samePlace * l.Length
	for i, h := range l.Hinges {
		if !(h > near && h < l.Length-near) {
			return fmt.Errorf("%w: Hinges[%d] = %g m: must be inside the beam, 0 < x < %g m", ErrBeam, i, h, l.Length)
		}
		for _, s := range l.Supports {
			if (s.Fixed || s.RotationalStiffness > 0) && math.Abs(s.At-h) <= near {
				return fmt.Errorf("%w: Hinges[%d] = %g m: must be away from supports that restrain the rotation (at %g m)", ErrBeam, i, h, s.At)
			}
		}
	}
	return nil
}
