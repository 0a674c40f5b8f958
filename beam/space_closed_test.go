package beam_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/section"
)

// fixedAt holds all six freedoms at a point.
func fixedAt(x, y, z float64) []beam.Restraint {
	var held []beam.Restraint
	for _, couple := range []bool{false, true} {
		for _, d := range []r3.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
			held = append(held, beam.Restraint{X: x, Y: y, Z: z, Direction: d, Couple: couple})
		}
	}
	return held
}

// skew is a section without symmetry.
var skew = beam.CrossSection{
	Centroid: section.Point{Y: .2, Z: 1.1}, ShearCentre: section.Point{Y: -.4, Z: .3},
	BendingY: 4e10, BendingZ: 7e10, BendingYZ: 1.5e10, Torsional: 6e9, Axial: 3e10,
}

// A cantilever with a force at its end through the shear centre bends by
// P·L³/3 times the inverse of its 2×2 stiffness and does not twist; elsewhere
// the force twists it by P·arm·L/GJ.
func TestSpaceCantilever(t *testing.T) {
	const length, p = 9., 1e5
	l := beam.SpaceLayout{Length: length, Section: uniformSection(skew), Supports: fixedAt(0, 0, 0)}
	det := skew.BendingY*skew.BendingZ - skew.BendingYZ*skew.BendingYZ
	y, z := skew.ShearCentre.Y, skew.ShearCentre.Z
	r := inSpace(t, l, beam.SpaceLoads{Points: []beam.SpacePoint{{X: length, Y: y, Z: z, Force: r3.Vec{Z: -p}}}}, beam.Setting{})
	shift, turn := r.Move(length)
	cube := length * length * length / 3
	require.InEpsilon(t, -p*cube*skew.BendingZ/det, shift.Z, 1e-12)
	require.InEpsilon(t, p*cube*skew.BendingYZ/det, shift.Y, 1e-12)
	require.InDelta(t, 0, turn.X, 1e-15)
	require.InEpsilon(t, p*length*length/2*skew.BendingZ/det, turn.Y, 1e-12)
	require.InEpsilon(t, p*length*length/2*skew.BendingYZ/det, turn.Z, 1e-12)
	require.InDeltaSlice(t, []float64{0, 0, p, y * p, -length * p, 0}, r.Reactions(), 1e-6)
	f := r.At(0, beam.RightOf)
	require.InDelta(t, p, f.Vz, 1e-6)
	require.InDelta(t, -p*length, f.My, 1e-6)
	require.InDelta(t, 0, beam.About(f, skew).T, 1e-9)

	r = inSpace(t, l, beam.SpaceLoads{Points: []beam.SpacePoint{{X: length, Y: y + .5, Z: z + .25, Force: r3.Vec{Z: -p}}}}, beam.Setting{})
	moved, turned := r.Move(length)
	twist := -p * .5 * length / skew.Torsional
	require.InEpsilon(t, twist, turned.X, 1e-12)
	require.InEpsilon(t, shift.Z-twist*y, moved.Z, 1e-12, "the axis turns about the shear centre")
	require.InEpsilon(t, shift.Y+twist*z, moved.Y, 1e-12)
}

// A pull along x off the centroid stretches the axis and bends the member to
// the side of the pull.
func TestSpaceEccentricPull(t *testing.T) {
	const length, p = 6., 1e6
	l := beam.SpaceLayout{Length: length, Section: uniformSection(skew), Supports: fixedAt(0, 0, 0)}
	pull := beam.SpacePoint{X: length, Y: skew.Centroid.Y, Z: skew.Centroid.Z, Force: r3.Vec{X: p}}
	r := inSpace(t, l, beam.SpaceLoads{Points: []beam.SpacePoint{pull}}, beam.Setting{})
	shift, turn := r.Move(length)
	require.InEpsilon(t, p*length/skew.Axial, shift.X, 1e-12)
	require.Less(t, math.Abs(turn.X)+math.Abs(turn.Y)+math.Abs(turn.Z), 1e-15)
	f := r.At(3, beam.LeftOf)
	require.Equal(t, p, f.N, "tension")
	require.InDelta(t, -p*skew.Centroid.Z, f.My, 1e-6, "pulled above the axis: hogging about it")
	require.InDelta(t, -p*skew.Centroid.Y, f.Mz, 1e-6)
	about := beam.About(f, skew)
	require.InDelta(t, 0, about.My, 1e-6)
	require.InDelta(t, 0, about.Mz, 1e-6)
}

// The stress resultants of section.Properties.Plane under the forces about the
// centroid are the forces about the axis that they came from; T goes to the
// shear centre as section.Torsion.AboutShearCentre takes it.
func TestSpaceSignsAreThoseOfSections(t *testing.T) {
	half := section.Outline{{Y: 0, Z: 0}, {Y: 2, Z: 0}, {Y: 2, Z: .3}, {Y: .4, Z: .3}, {Y: .4, Z: 1.8}, {Y: 0, Z: 1.8}}
	shape, err := section.New([]section.Outline{half}, nil)
	require.NoError(t, err)
	p := shape.Properties()
	torsion, err := shape.Torsion()
	require.NoError(t, err)
	centre, err := torsion.ShearCentre(0)
	require.NoError(t, err)
	c := beam.CrossSection{Centroid: p.Centroid, ShearCentre: centre}
	l := beam.SpaceLayout{Length: 10, Supports: fixedAt(0, 0, 0)}
	a := beam.SpaceLoads{Points: []beam.SpacePoint{{X: 10, Y: .3, Z: .7, Force: r3.Vec{X: 3e5, Y: 2e5, Z: -1e5}}}}
	f := inSpace(t, l, a, beam.Setting{}).At(4, beam.RightOf)
	about := beam.About(f, c)
	plane := p.Plane(about)
	// ∫σ, ∫σz and ∫σy of a plane about the axis, from the properties.
	iy := p.SecondMomentY + p.Area*p.Centroid.Z*p.Centroid.Z
	iz := p.SecondMomentZ + p.Area*p.Centroid.Y*p.Centroid.Y
	iyz := p.ProductMoment + p.Area*p.Centroid.Y*p.Centroid.Z
	sy, sz := p.Area*p.Centroid.Y, p.Area*p.Centroid.Z
	require.InDelta(t, 3e5, plane.Constant*p.Area+plane.SlopeY*sy+plane.SlopeZ*sz, 1e-6)
	require.InDelta(t, f.My, -(plane.Constant*sz + plane.SlopeY*iyz + plane.SlopeZ*iy), 1e-5)
	require.InDelta(t, f.Mz, -(plane.Constant*sy + plane.SlopeY*iz + plane.SlopeZ*iyz), 1e-5)
	// Upwards force on the left part is +Vz; the moment of the end force about the cut: 6 m of lever.
	require.InDelta(t, 1e5, f.Vz, 1e-6)
	require.InDelta(t, -2e5, f.Vy, 1e-6)
	centroidal := beam.About(f, beam.CrossSection{ShearCentre: p.Centroid}) // T about the centroid
	require.InEpsilon(t, torsion.AboutShearCentre(centroidal), about.T, 1e-9)
	require.NotEqual(t, f.T, about.T)
}

// Vertical loads on vertical supports are the business of Beam as well:
// reactions, moments, shears and deflections are its own.
func TestSpaceAgainstBeam(t *testing.T) {
	for seed := range uint64(seeds) {
		s := seeded(seed)
		flat := s.layout()
		flat.Hinges = nil
		for i := range flat.Stiffness {
			flat.Stiffness[i].ShearStiffness = 0
		}
		set := s.set(flat.Length)
		want := solved(t, flat, set)
		l, g, which := flatSpace(flat)
		a := beam.SpaceLoads{}
		for _, p := range set.Points {
			a.Points = append(a.Points, beam.SpacePoint{X: p.At, Force: r3.Vec{Z: -p.Force}})
		}
		for _, p := range set.Couples { // anticlockwise in elevation: −y
			a.Points = append(a.Points, beam.SpacePoint{X: p.At, Couple: r3.Vec{Y: -p.Moment}})
		}
		for _, p := range set.Lines {
			a.Lines = append(a.Lines, beam.SpaceLine{From: p.From, To: p.To, Direction: r3.Vec{Z: -1}, Intensity: p.Intensity[:]})
		}
		for _, p := range set.Curvatures {
			a.Strains = append(a.Strains, beam.SpaceStrain{From: p.From, To: p.To, At: func(x float64) beam.Strain {
				return beam.Strain{CurvatureY: value(p.Value[:], x-p.From)}
			}})
		}
		got := inSpace(t, l, a, g)
		size := 0.0
		for _, r := range want.Reactions {
			size = max(size, math.Abs(r.Force), math.Abs(r.Moment)/flat.Length)
		}
		for i, j := range which {
			require.InDelta(t, want.Reactions[i].Force, got.Reactions()[j], 1e-8*size, "seed %d", seed)
		}
		for _, x := range stations(flat.Length) {
			for _, side := range []beam.Side{beam.LeftOf, beam.RightOf} {
				f, b := got.At(x, side), want.At(x, side)
				require.InDelta(t, b.Moment, f.My, 1e-8*size*flat.Length, "seed %d", seed)
				require.InDelta(t, b.Shear, f.Vz, 1e-8*size, "seed %d", seed)
			}
			shift, turn := got.Move(x)
			require.InDelta(t, want.Deflection(x), shift.Z, 1e-8, "seed %d at %g m", seed, x)
			require.InDelta(t, -want.Slope(x), turn.Y, 1e-8)
		}
	}
}

// flatSpace is a beam as a member in space; which says where its supports are.
func flatSpace(flat beam.Layout) (l beam.SpaceLayout, g beam.Setting, which []int) {
	step := flat.Stiffness[0].To
	first, second := skew, skew
	first.BendingY, second.BendingY = flat.Stiffness[0].BendingStiffness, flat.Stiffness[1].BendingStiffness
	first.BendingYZ, second.BendingYZ = 0, 0
	first.ShearCentre, second.ShearCentre = section.Point{}, section.Point{} // or the supports on the axis would twist it
	l = beam.SpaceLayout{Length: flat.Length, Breaks: []float64{step}, Section: stepped(step, first, second)}
	for _, p := range flat.Supports {
		which = append(which, len(l.Supports))
		l.Supports = append(l.Supports, beam.Restraint{X: p.At, Direction: up, Stiffness: p.Stiffness})
		g.Level = append(g.Level, -p.Settlement)
		if p.Fixed || p.RotationalStiffness > 0 {
			l.Supports = append(l.Supports, beam.Restraint{X: p.At, Direction: r3.Vec{Y: 1}, Couple: true, Stiffness: p.RotationalStiffness})
			g.Level = append(g.Level, 0)
		}
	}
	return l, g, which
}

// A varying stiffness: two equal spans of EI·(1 + sin(πx/2L)) under a uniform
// load, middle reaction by mpmath with 30 digits (force method, examples/verify).
func TestSpaceVaryingStiffness(t *testing.T) {
	calls := 0
	l := beam.SpaceLayout{Length: 2, Section: func(x float64) beam.CrossSection {
		calls++
		return beam.CrossSection{BendingY: 1 + math.Sin(math.Pi*x/2), BendingZ: 1, Torsional: 1}
	}}
	for _, x := range []float64{0, 1, 2} {
		l.Supports = append(l.Supports, beam.Restraint{X: x, Direction: up})
	}
	space, err := beam.NewSpace(l)
	require.NoError(t, err)
	before := calls
	r, err := space.Solve(weight(l, 1, 0), beam.Setting{})
	require.NoError(t, err)
	require.InEpsilon(t, 1.26749283669301351, r.Reactions()[1], 1e-9)
	r.Move(.5)
	require.Equal(t, before, calls, "Section is called by NewSpace only")
	l.Section = stepped(1.3, skew, beam.CrossSection{BendingY: 1, BendingZ: 1, Torsional: 1})
	_, err = beam.NewSpace(l)
	require.ErrorContains(t, err, "Section steps near 1.3")
}

// Imposed strains on a member fixed at both ends give −K·strain, and on a
// cantilever the movement of their integral.
func TestSpaceImposedStrains(t *testing.T) {
	const length = 12.
	e := beam.Strain{Axial: 3e-4, CurvatureY: 2e-4, CurvatureZ: -1e-4, Twist: 5e-4}
	a := beam.SpaceLoads{Strains: []beam.SpaceStrain{{To: length, At: func(float64) beam.Strain { return e }}}}
	free := beam.SpaceLayout{Length: length, Section: uniformSection(skew), Supports: fixedAt(0, 0, 0)}
	shift, turn := inSpace(t, free, a, beam.Setting{}).Move(length)
	y, z := skew.ShearCentre.Y, skew.ShearCentre.Z
	require.InDelta(t, e.Axial*length, shift.X, 1e-15)
	require.InDelta(t, e.CurvatureZ*length*length/2+e.Twist*length*z, shift.Y, 1e-15)
	require.InDelta(t, e.CurvatureY*length*length/2-e.Twist*length*y, shift.Z, 1e-15)
	require.InDelta(t, e.Twist*length, turn.X, 1e-15)
	require.InDelta(t, -e.CurvatureY*length, turn.Y, 1e-15)
	require.InDelta(t, e.CurvatureZ*length, turn.Z, 1e-15)

	both := free
	both.Supports = append(fixedAt(0, 0, 0), fixedAt(length, .3, -.2)...)
	r := inSpace(t, both, a, beam.Setting{})
	f := beam.About(r.At(5, beam.RightOf), skew)
	centroid := e.Axial - e.CurvatureY*skew.Centroid.Z - e.CurvatureZ*skew.Centroid.Y
	require.InEpsilon(t, -skew.Axial*centroid, f.N, 1e-9)
	require.InEpsilon(t, -(skew.BendingY*e.CurvatureY + skew.BendingYZ*e.CurvatureZ), f.My, 1e-9)
	require.InEpsilon(t, -(skew.BendingYZ*e.CurvatureY + skew.BendingZ*e.CurvatureZ), f.Mz, 1e-9)
	require.InEpsilon(t, -skew.Torsional*e.Twist, f.T, 1e-9)
	require.InDelta(t, 0, f.Vy, 1e-3)
	shift, _ = r.Move(5)
	require.Less(t, r3.Norm(shift), 1e-12, "held: nothing moves")
}

// Two sections of three metres under strains that begin between supports.
func TestSpaceStrainsAreLocal(t *testing.T) {
	l := beam.SpaceLayout{Length: 10, Section: uniformSection(skew), Supports: fixedAt(0, 0, 0)}
	a := beam.SpaceLoads{Strains: []beam.SpaceStrain{{From: 2, To: 5, At: func(x float64) beam.Strain { return beam.Strain{CurvatureY: 1e-4 * (x - 2)} }}}}
	r := inSpace(t, l, a, beam.Setting{})
	for x, want := range map[float64]float64{1: 0, 3: -.5e-4, 5: -4.5e-4, 9: -4.5e-4} {
		_, turn := r.Move(x)
		require.InDelta(t, want, turn.Y, 1e-16, "at %g m", x)
	}
}
