package beam

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/loads"
)

// SpaceLoads is the loads on a member in space. The zero value is no load.
type SpaceLoads struct {
	Points  []SpacePoint
	Lines   []SpaceLine
	Strains []SpaceStrain
}

// SpacePoint is a force and a couple at one point.
type SpacePoint struct {
	X, Y, Z float64 // m, in the girder's axes; 0 ≤ X ≤ Length
	Force   r3.Vec  // N, on the member, in its direction: {Z: −1} is down
	Couple  r3.Vec  // N·m, on the member, right hand
}

// SpaceLine is a force per metre of one direction whose size and line of
// action vary along x as polynomials in s = x − From (term k times s to the
// power k, any degree).
type SpaceLine struct {
	From, To     float64   // m, 0 ≤ From < To ≤ Length
	Direction    r3.Vec    // unit vector of the force where Intensity is positive
	Intensity    []float64 // N/m
	FirstMomentY []float64 // ∫y dF per metre, N: Intensity times the y of its line of action; empty: y = 0
	FirstMomentZ []float64 // ∫z dF per metre, N; empty: z = 0
}

// SpaceStrain is an imposed deformation between two places (prestress, creep,
// shrinkage, temperature). At must be smooth between From and To: it is
// integrated by Gauss's rule of eight points between the supports and breaks.
type SpaceStrain struct {
	From, To float64 // m, 0 ≤ From < To ≤ Length
	At       func(x float64) Strain
}

// Strain is the deformation of a unit of length. The strain of a fibre is
// Axial − CurvatureY·z − CurvatureZ·y (elongation +), with y and z of the
// girder and not from the centroid.
type Strain struct {
	Axial      float64 // of the fixed axis y = z = 0, elongation +
	CurvatureY float64 // 1/m, + sagging: the way of My
	CurvatureZ float64 // 1/m, + the way of Mz (elongation at −y)
	Twist      float64 // rad/m about the shear centre, right hand about +x
}

// Setting is the levels and preloads of the supports. The zero value is all supports
// just touching, without preload.
type Setting struct {
	Level   []float64 // per restraint, m (rad) along Direction above the level at which it would just touch, − a gap, within ±2; nil: 0
	Preload []float64 // per restraint, N (N·m): force of a Kept one, first force of an elastic one, all of a Link together, within ±1e100; nil: 0
}

func finiteVec(v r3.Vec) bool { return finite(v.X) && finite(v.Y) && finite(v.Z) }

// check reports the first load that cannot act on the member.
func (l *SpaceLoads) check(length float64) error {
	for i := range l.Points {
		p := &l.Points[i]
		if !(p.X >= 0 && p.X <= length) {
			return fmt.Errorf("%w: Points[%d].X = %g m: must be between 0 and %g m", errLoads, i, p.X, length)
		}
		if !finite(p.Y) || !finite(p.Z) || !finiteVec(p.Force) || !finiteVec(p.Couple) {
			return fmt.Errorf("%w: Points[%d] at %g m: Y, Z, Force and Couple must be finite", errLoads, i, p.X)
		}
	}
	for i := range l.Lines {
		if err := l.Lines[i].check(i, length); err != nil {
			return err
		}
	}
	for i, e := range l.Strains {
		if !(e.From >= 0 && e.To <= length && e.From < e.To) {
			return fmt.Errorf("%w: Strains[%d] from %g m to %g m: must be 0 ≤ From < To ≤ %g m", errLoads, i, e.From, e.To, length)
		}
		if e.At == nil {
			return fmt.Errorf("%w: Strains[%d].At is nil: must give the strain at x", errLoads, i)
		}
	}
	return nil
}

func (l *SpaceLine) check(i int, length float64) error {
	if !(l.From >= 0 && l.To <= length && l.From < l.To) {
		return fmt.Errorf("%w: Lines[%d] from %g m to %g m: must be 0 ≤ From < To ≤ %g m", errLoads, i, l.From, l.To, length)
	}
	if norm := r3.Norm(l.Direction); !(math.Abs(norm-1) <= unitWithin) {
		return fmt.Errorf("%w: Lines[%d].Direction = (%g, %g, %g): must be a unit vector", errLoads, i, l.Direction.X, l.Direction.Y, l.Direction.Z)
	}
	for _, terms := range [...][]float64{l.Intensity, l.FirstMomentY, l.FirstMomentZ} {
		for k, v := range terms {
			if !finite(v) {
				return fmt.Errorf("%w: Lines[%d] from %g m: term %d = %g: must be finite", errLoads, i, l.From, k, v)
			}
		}
	}
	return nil
}

// errLoads is what a load that cannot act wraps: it is both a [loads.ErrLoad]
// and an [ErrBeam].
var errLoads = fmt.Errorf("%w: %w", ErrBeam, loads.ErrLoad)

// check reports a setting that does not fit the supports.
func (g *Setting) check(supports []Restraint) error {
	for _, v := range [...]struct {
		name   string
		values []float64
		most   float64
		unit   string
	}{{"Level", g.Level, mostMove, " m (rad); is it in mm?"}, {"Preload", g.Preload, largestField, ""}} {
		if v.values == nil {
			continue
		}
		if len(v.values) != len(supports) {
			return fmt.Errorf("%w: Setting.%s has %d values: must have one for each of the %d supports", ErrBeam, v.name, len(v.values), len(supports))
		}
		for i, value := range v.values {
			if !(math.Abs(value) <= v.most) {
				return fmt.Errorf("%w: Setting.%s[%d] = %g: must be within ±%g%s", ErrBeam, v.name, i, value, v.most, v.unit)
			}
		}
	}
	for i, p := range g.Preload {
		r := &supports[i]
		if r.Kept && r.OneWay && p < 0 {
			return fmt.Errorf("%w: Setting.Preload[%d] = %g %s %s: must be ≥ 0 on a OneWay support", ErrBeam, i, p, r.unit(), r.place())
		}
		if p != 0 && !r.Kept && r.Stiffness == 0 && r.Link == "" {
			return fmt.Errorf("%w: Setting.Preload[%d] = %g %s %s: must be 0 on a rigid support, or state its Stiffness or Link, or mark it Kept",
				ErrBeam, i, p, r.unit(), r.place())
		}
	}
	return nil
}
