package beam

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// Bounds of what is accepted: far outside anything built, and narrow enough
// that no product of a few of them leaves float64.
const (
	farthest     = 1e30 // m
	leastStiff   = 1e-60
	largestStiff = 1e60
)

// unitWithin is how far from 1 the length of a direction may be: more digits
// than any direction is measured with. It is made exact.
const unitWithin = 1e-6

func (l SpaceLayout) clone() SpaceLayout {
	l.Breaks = slices.Clone(l.Breaks)
	l.Supports = slices.Clone(l.Supports)
	l.Links = slices.Clone(l.Links)
	for i := range l.Links {
		k := &l.Links[i].Layout
		k.Stiffness, k.Supports, k.Hinges = slices.Clone(k.Stiffness), slices.Clone(k.Supports), slices.Clone(k.Hinges)
	}
	return l
}

// check reports the first field that is out of range and makes the directions exact
// unit vectors.
func (l *SpaceLayout) check() error {
	if !(l.Length > 0 && l.Length <= farthest) {
		return fmt.Errorf("%w: Length = %g m: must be > 0, up to %g m", ErrBeam, l.Length, farthest)
	}
	for i, x := range l.Breaks {
		if !(x >= 0 && x <= l.Length) {
			return fmt.Errorf("%w: Breaks[%d] = %g m: must be between 0 and %g m", ErrBeam, i, x, l.Length)
		}
	}
	if len(l.Supports) == 0 {
		return fmt.Errorf("%w: Supports is empty: must have at least one support", ErrBeam)
	}
	for i := range l.Supports {
		if err := l.Supports[i].check(i, l.Length); err != nil {
			return err
		}
	}
	return nil
}

func (r *Restraint) check(i int, length float64) error {
	if !(r.X >= 0 && r.X <= length) {
		return fmt.Errorf("%w: Supports[%d].X = %g m: must be between 0 and %g m", ErrBeam, i, r.X, length)
	}
	for _, v := range []struct {
		name  string
		value float64
	}{{"Y", r.Y}, {"Z", r.Z}} {
		if !(math.Abs(v.value) <= farthest) {
			return fmt.Errorf("%w: Supports[%d].%s = %g m at x = %g m: must be within ±%g m", ErrBeam, i, v.name, v.value, r.X, farthest)
		}
	}
	if norm := r3.Norm(r.Direction); !(math.Abs(norm-1) <= unitWithin) {
		return fmt.Errorf("%w: Supports[%d].Direction = (%g, %g, %g) at x = %g m: must be a unit vector",
			ErrBeam, i, r.Direction.X, r.Direction.Y, r.Direction.Z, r.X)
	}
	if r.Stiffness != 0 && !(r.Stiffness >= leastStiff && r.Stiffness <= largestStiff) {
		return fmt.Errorf("%w: Supports[%d].Stiffness = %g %s at x = %g m: must be %g to %g, or 0 for rigid",
			ErrBeam, i, r.Stiffness, r.stiffnessUnit(), r.X, leastStiff, largestStiff)
	}
	r.Direction = r3.Unit(r.Direction)
	return nil
}

func (r *Restraint) stiffnessUnit() string {
	if r.Couple {
		return "N·m/rad"
	}
	return "N/m"
}

func (r *Restraint) unit() string {
	if r.Couple {
		return "N·m"
	}
	return "N"
}

// place is where a restraint is, in words.
func (r *Restraint) place() string {
	if r.Y == 0 && r.Z == 0 {
		return fmt.Sprintf("at x = %.4g m", r.X)
	}
	return fmt.Sprintf("at (%.4g, %.4g, %.4g) m", r.X, r.Y, r.Z)
}

// check refuses a section whose flexibility would not be a positive number.
func (c CrossSection) check(x float64) error {
	for _, v := range []struct {
		name  string
		value float64
		unit  string
	}{{"BendingY", c.BendingY, "N·m²"}, {"BendingZ", c.BendingZ, "N·m²"}, {"Torsional", c.Torsional, "N·m²"}} {
		if !(v.value >= leastStiff && v.value <= largestStiff) {
			return fmt.Errorf("%w: Section(%g m).%s = %g %s: must be %g to %g", ErrBeam, x, v.name, v.value, v.unit, leastStiff, largestStiff)
		}
	}
	if c.Axial != 0 && !(c.Axial >= leastStiff && c.Axial <= largestStiff) {
		return fmt.Errorf("%w: Section(%g m).Axial = %g N: must be %g to %g, or 0 for inextensible", ErrBeam, x, c.Axial, leastStiff, largestStiff)
	}
	if !(c.BendingYZ*c.BendingYZ < c.BendingY*c.BendingZ) {
		return fmt.Errorf("%w: Section(%g m).BendingYZ = %g N·m²: must be smaller than the root of BendingY × BendingZ = %g N·m²",
			ErrBeam, x, c.BendingYZ, math.Sqrt(c.BendingY)*math.Sqrt(c.BendingZ))
	}
	for _, v := range []float64{c.Centroid.Y, c.Centroid.Z, c.ShearCentre.Y, c.ShearCentre.Z} {
		if !(math.Abs(v) <= farthest) {
			return fmt.Errorf("%w: Section(%g m): Centroid (%g, %g) m, ShearCentre (%g, %g) m: must be within ±%g m",
				ErrBeam, x, c.Centroid.Y, c.Centroid.Z, c.ShearCentre.Y, c.ShearCentre.Z, farthest)
		}
	}
	return nil
}
