package loads

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// Axle is one axle of a train, or a bogie taken as one force.
type Axle struct {
	Force  float64 // N, positive downwards, 1e3 to 100e6
	Behind float64 // m behind the axle in front of it, 0.1 to 1000; 0 for the first
}

// Train is a vehicle that rolls over a member: a girder carrier, a trailer, a
// crane. Its first axle is the front one.
type Train struct {
	Name    string  // for the sheet
	Axles   []Axle  // from the front backwards, up to 1000
	Dynamic float64 // factor on every force, 0.01 to 10; 0 means 1
}

// leastDynamic is the least factor on the forces of a train.
const leastDynamic = 0.01

// mostAxles is how many axles a train may have: more than any road or rail train, and
// few enough that a crossing takes seconds.
const mostAxles = 1000

// Ranges of axles: a wheel of a trolley and a girder carrier on one bogie; axles
// farther behind are another train.
const (
	leastAxle, mostAxle     = 1e3, 100e6 // N
	leastBehind, mostBehind = 0.1, 1000  // m
)

// Check reports the first field that is out of range, and the errors of [Train.Rolls].
// The error wraps [ErrLoad].
func (t Train) Check() error {
	if err := t.Rolls(); err != nil {
		return err
	}
	for i, a := range t.Axles {
		if !(a.Force >= leastAxle && a.Force <= mostAxle) {
			return fmt.Errorf("%w: train %q: Axles[%d].Force = %g N: must be %s to %s N%s", ErrLoad, t.Name, i, a.Force,
				formula.RangeEnd(leastAxle), formula.RangeEnd(mostAxle), formula.Misread(a.Force, "N", leastAxle, mostAxle))
		}
		if i > 0 && !(a.Behind >= leastBehind && a.Behind <= mostBehind) {
			return fmt.Errorf("%w: train %q: Axles[%d].Behind = %g m: must be %s to %s m%s", ErrLoad, t.Name, i, a.Behind,
				formula.RangeEnd(leastBehind), formula.RangeEnd(mostBehind), formula.Misread(a.Behind, "m", leastBehind, mostBehind))
		}
	}
	return nil
}

// Rolls reports what prevents the train from rolling, in any consistent units: no axle,
// a force that is not finite and positive, an axle not behind the one in front of it, a
// factor out of range. The error wraps [ErrLoad].
func (t Train) Rolls() error {
	if n := len(t.Axles); n == 0 {
		return fmt.Errorf("%w: train %q has no axles: must have at least one", ErrLoad, t.Name)
	} else if n > mostAxles {
		return fmt.Errorf("%w: train %q has %d axles: must have up to %d; what is longer is a line load", ErrLoad, t.Name, n, mostAxles)
	}
	if t.Dynamic != 0 && !(t.Dynamic >= leastDynamic && t.Dynamic <= mostDynamic) {
		return fmt.Errorf("%w: train %q: Dynamic = %g: must be a factor of %g to %d (15 %% more is 1.15), or 0 for 1", ErrLoad, t.Name, t.Dynamic, leastDynamic, mostDynamic)
	}
	for i, a := range t.Axles {
		if !(a.Force > 0) || math.IsInf(a.Force, 0) {
			return fmt.Errorf("%w: train %q: Axles[%d].Force = %g N: must be a finite force > 0", ErrLoad, t.Name, i, a.Force)
		}
		if i == 0 && a.Behind != 0 {
			return fmt.Errorf("%w: train %q: Axles[0].Behind = %g m: must be 0 for the front axle", ErrLoad, t.Name, a.Behind)
		}
		if i > 0 && !(a.Behind > 0) || math.IsInf(a.Behind, 0) {
			return fmt.Errorf("%w: train %q: Axles[%d].Behind = %g m: must be a finite spacing > 0", ErrLoad, t.Name, i, a.Behind)
		}
	}
	return nil
}

// Factor is the dynamic factor, 1 where Dynamic is 0.
func (t Train) Factor() float64 {
	if t.Dynamic == 0 {
		return 1
	}
	return t.Dynamic
}

// Length is the distance from the first axle to the last (m).
func (t Train) Length() float64 {
	length := 0.0
	for _, a := range t.Axles {
		length += a.Behind
	}
	return length
}

// Weight is the sum of the axle forces without the dynamic factor (N).
func (t Train) Weight() float64 {
	weight := 0.0
	for _, a := range t.Axles {
		weight += a.Force
	}
	return weight
}

// Turned is the train reversed.
func (t Train) Turned() Train {
	n := len(t.Axles)
	turned := Train{Name: t.Name, Dynamic: t.Dynamic, Axles: make([]Axle, n)}
	for i := range t.Axles {
		turned.Axles[i].Force = t.Axles[n-1-i].Force
		if i > 0 {
			turned.Axles[i].Behind = t.Axles[n-i].Behind
		}
	}
	return turned
}

// On is the forces, with the dynamic factor, on a member of the given length (m) when
// the front axle is at front (m), the train heading to the right; axles off the member
// are left out. The ends count as on it.
func (t Train) On(length, front float64) Set {
	const near = 1e-12 // of the length: rounding of a position, which counts as on the end
	var set Set
	x := front
	for _, a := range t.Axles {
		x -= a.Behind
		if x >= -near*length && x <= length*(1+near) {
			set.Points = append(set.Points, Point{At: min(max(x, 0), length), Force: a.Force * t.Factor()})
		}
	}
	return set
}
