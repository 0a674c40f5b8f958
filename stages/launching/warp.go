package launching

import (
	"fmt"
	"math"
)

// FourPoints is an element on four supports, two on each of two lines across, as a torsion
// member between them: what a support out of the plane of the other three changes. It
// neglects distortion of the section and takes diaphragms at both lines as rigid.
type FourPoints struct {
	Length    float64    // between the lines, m, 0.5 to 200
	Widths    [2]float64 // between the two supports of each line, m, 0.2 to 30
	Torsion   float64    // GJ of the element, N·m², 1e6 to 1e14
	Stiffness [4]float64 // of the supports, N/m; 0 rigid: right and left of the first line, right and left of the second
	Level     [4]float64 // their forces with all of them in one plane, N, more than 0
	Equalised [2]bool    // the two supports of a line are linked hydraulically or are one rope: equal forces, no warp
}

// Warped is what a warp does to one support.
type Warped struct {
	PerMetre float64 // change of its force for a metre that it alone is out of the plane of the other three, N/m: + when it is above
	LiftOff  float64 // how far out it may be until a support lifts off, m, up or down the smaller; 0 with Always
	Always   bool    // a pair is equalised: levels change nothing
}

func (f FourPoints) check() error {
	if err := within("FourPoints.", bound{"Length", f.Length, "m", 0.5, 200}, bound{"Widths[0]", f.Widths[0], "m", 0.2, 30}, bound{"Widths[1]", f.Widths[1], "m", 0.2, 30}, bound{"Torsion", f.Torsion, "N·m²", 1e6, 1e14}); err != nil {
		return err
	}
	for i := range 4 {
		if err := within("FourPoints.", bound{fmt.Sprintf("Level[%d]", i), f.Level[i], "N", math.SmallestNonzeroFloat64, 1e9}); err != nil {
			return err
		}
		if f.Stiffness[i] != 0 {
			if err := within("FourPoints.", bound{fmt.Sprintf("Stiffness[%d]", i), f.Stiffness[i], "N/m", 1e3, 1e12}); err != nil {
				return err
			}
		}
	}
	if f.Equalised[0] && f.Equalised[1] {
		return fmt.Errorf("%w: both pairs of FourPoints are Equalised: must be one at most, two linked pairs are a mechanism", ErrLaunching)
	}
	return nil
}

// torque is the couple in the element for a relative rotation of its lines of 1 rad (N·m/rad).
func (f FourPoints) torque() float64 {
	give := f.Length / f.Torsion
	for i, k := range f.Stiffness {
		if k > 0 {
			w := f.Widths[i/2]
			give += 1 / (k * w * w)
		}
	}
	return 1 / give
}

// Warp is what a level difference of a support (0 to 3, in the order of Stiffness) does to
// its force, as long as none lifts off: a support out by d turns its line by d/s against
// the other, for equal widths the change is d/(s²·L/GJ + Σ1/k). After lift-off the other
// three carry by statics and no force changes any more. The error wraps [ErrLaunching].
func (f FourPoints) Warp(support int) (Warped, error) {
	if err := f.check(); err != nil {
		return Warped{}, err
	}
	if support < 0 || support > 3 {
		return Warped{}, fmt.Errorf("%w: support number %d: must be 0 to 3", ErrLaunching, support)
	}
	if f.Equalised[0] || f.Equalised[1] {
		return Warped{Always: true}, nil
	}
	w := Warped{LiftOff: math.Inf(1)}
	for i, per := range f.changes(support) {
		if i == support {
			w.PerMetre = per
		}
		w.LiftOff = math.Min(w.LiftOff, f.Level[i]/math.Abs(per))
	}
	return w, nil
}

// changes are the changes of all four forces for a metre that one support is up (N/m).
func (f FourPoints) changes(support int) (list [4]float64) {
	line := support / 2
	couple := f.torque() / f.Widths[line]
	for i := range list {
		sense := 1.0
		if (i/2 == line) != (i%2 == support%2) {
			sense = -1
		}
		list[i] = sense * couple / f.Widths[i/2]
	}
	return list
}

// At are the forces of the four supports when one is out of the plane of the other three
// (m, + up), also beyond lift-off (N). The error wraps [ErrLaunching].
func (f FourPoints) At(support int, out float64) ([4]float64, error) {
	w, err := f.Warp(support)
	if err != nil || w.Always {
		return f.Level, err
	}
	if !(math.Abs(out) <= 1) {
		return f.Level, fmt.Errorf("%w: out of the plane by %g m: must be within ±1 m", ErrLaunching, out)
	}
	changes := f.changes(support)
	lift := math.Inf(1)
	for i, per := range changes {
		if per*out < 0 {
			lift = math.Min(lift, f.Level[i]/math.Abs(per))
		}
	}
	out = math.Copysign(math.Min(math.Abs(out), lift), out)
	forces := f.Level
	for i, per := range changes {
		forces[i] += per * out
	}
	return forces, nil
}

// Permissible is how far each support alone may be out of the plane of the other three (m)
// until the force of one has changed by a part of what it is on a plane: 0.05 for ± 5 %.
// With an equalised pair levels change nothing: warps is false, and the zeros are no limit. The error wraps
// [ErrLaunching].
func (f FourPoints) Permissible(part float64) (list [4]float64, warps bool, err error) {
	if err := within("", bound{"part", part, "", 0.001, 1}); err != nil {
		return list, false, err
	}
	if err := f.check(); err != nil || f.Equalised[0] || f.Equalised[1] {
		return list, false, err
	}
	for support := range list {
		list[support] = math.Inf(1)
		for i, per := range f.changes(support) {
			list[support] = math.Min(list[support], part*f.Level[i]/math.Abs(per))
		}
	}
	return list, true, nil
}
