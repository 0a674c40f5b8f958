package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// curvaturesOf are the curvatures of an element of one concrete without steel by
// the forces of a situation, worked out from its outline, ducts and forces alone:
// all that acts on day 3 on the modulus of day 3.
func curvaturesOf(t testing.TB, e stages.Element, effects stages.Effects) func(x float64) (about, aside, axial float64) {
	var ducts []*tendon.Path
	for _, one := range e.Tendons {
		p, err := one.Path()
		require.NoError(t, err)
		ducts = append(ducts, p)
	}
	state, err := e.Concrete.At(3)
	require.NoError(t, err)
	return func(x float64) (float64, float64, float64) {
		g := e.Section.At(x).Properties()
		area, sy, sz := g.Area, g.Area*g.Centroid.Y, g.Area*g.Centroid.Z
		iy, iz, iyz := g.SecondMomentY+sz*g.Centroid.Z, g.SecondMomentZ+sy*g.Centroid.Y, g.ProductMoment+sy*g.Centroid.Z
		for i, p := range ducts {
			d, hole := p.At(x), math.Pi*math.Pow(e.Tendons[i].Duct, 2)/4
			own := hole * hole / 4 / math.Pi
			area, sy, sz = area-hole, sy-hole*d.Y, sz-hole*d.Z
			iy, iz, iyz = iy-hole*d.Z*d.Z-own, iz-hole*d.Y*d.Y-own, iyz-hole*d.Y*d.Z
		}
		y, z := sy/area, sz/area
		iy, iz, iyz = iy-area*z*z, iz-area*y*y, iyz-area*y*z
		f := effects.Forces(x)
		my, mz := f.My+f.N*z, f.Mz+f.N*y
		det := iy*iz - iyz*iyz
		about, aside := (my*iz-mz*iyz)/det/state.Modulus, (mz*iy-my*iyz)/det/state.Modulus
		return about, aside, f.N/area/state.Modulus + about*z + aside*y
	}
}

// unlikeAtTransfer is the unsymmetric element on its first supports.
func unlikeAtTransfer(t testing.TB) (stages.Effects, *stages.Movement) {
	a, err := unlikePlan(loads.Dynamic{Most: 1.15}).Analyse(unlike(t), limits.EN1992{})
	require.NoError(t, err)
	effects, err := a.Effects(1, 1)
	require.NoError(t, err)
	return effects, movedIn(t, a, 1, 1)
}

// simpson integrates the curvature twice to x, with a lever, in steps that meet the
// places where the forces change their law.
func simpson(breaks []float64, x float64, curvature func(float64) float64) float64 {
	sum := 0.0
	for i := 1; i < len(breaks); i++ {
		a, b := breaks[i-1], math.Min(breaks[i], x)
		if b <= a {
			break
		}
		const parts = 200
		h := (b - a) / parts
		for k := range parts + 1 {
			weight := []float64{2, 4}[k%2]
			if k == 0 || k == parts {
				weight = 1
			}
			at := math.Max(a+1e-7, math.Min(b-1e-7, a+float64(k)*h)) // the law of this side
			sum += weight * h / 3 * (x - at) * curvature(at)
		}
	}
	return sum
}

func TestBowOfUnlikeElementByOwnIntegration(t *testing.T) {
	effects, m := unlikeAtTransfer(t)
	curvature := curvaturesOf(t, unlike(t), effects)
	breaks := []float64{0, 0.4, 0.5, 1.3, 19.2, 19.5, 20}
	for _, of := range []struct {
		at   func(float64) float64
		got  func(stages.Move) float64
		size float64
	}{
		{func(x float64) float64 { about, _, _ := curvature(x); return about }, func(v stages.Move) float64 { return v.Deflection }, 3e-4},
		{func(x float64) float64 { _, aside, _ := curvature(x); return aside }, func(v stages.Move) float64 { return v.Bow }, 1e-3},
	} {
		left, right := simpson(breaks, 0.4, of.at), simpson(breaks, 19.5, of.at)
		largest := 0.0
		for _, x := range []float64{0, 2.2, 5, 9, 13, 17, 20} {
			want := simpson(breaks, x, of.at) - left - (right-left)*(x-0.4)/19.1
			require.InDelta(t, want, of.got(m.At(x)), 3e-10, "x = %g m", x) // 1e-7 of the largest
			largest = math.Max(largest, math.Abs(want))
		}
		require.Greater(t, largest, of.size, "the tendons lie on one side")
	}
}

// The member of package beam moves as far on the same curvature.
func TestMoveAgainstSpace(t *testing.T) {
	effects, m := unlikeAtTransfer(t)
	curvature := curvaturesOf(t, unlike(t), effects)
	var loads beam.SpaceLoads
	for _, of := range [][2]float64{{0, 0.4}, {0.4, 0.5}, {0.5, 1.3}, {1.3, 7}, {7, 13}, {13, 19.2}, {19.2, 19.5}, {19.5, 20}} {
		loads.Strains = append(loads.Strains, beam.SpaceStrain{From: of[0], To: of[1], At: func(x float64) beam.Strain {
			about, aside, axial := curvature(x)
			return beam.Strain{Axial: axial, CurvatureY: about, CurvatureZ: aside}
		}})
	}
	at := func(x float64, d r3.Vec) beam.Restraint { return beam.Restraint{X: x, Direction: d} }
	space, err := beam.NewSpace(beam.SpaceLayout{Length: 20, Breaks: []float64{0.5, 1.3, 7, 13, 19.2}, Supports: []beam.Restraint{
		at(0.4, r3.Vec{Z: 1}), at(19.5, r3.Vec{Z: 1}), at(0.4, r3.Vec{Y: 1}), at(19.5, r3.Vec{Y: 1}), at(0.4, r3.Vec{X: 1}), {X: 0.4, Direction: r3.Vec{X: 1}, Couple: true},
	}})
	require.NoError(t, err)
	response, err := space.Solve(loads, beam.Setting{})
	require.NoError(t, err)
	end, _ := response.Move(0)
	for _, x := range []float64{0.1, 1, 6.5, 10, 15.5, 19.9} {
		shift, turn := response.Move(x)
		got := m.At(x)
		require.InDelta(t, shift.Z, got.Deflection, 2e-10, "x = %g m", x) // 1e-7 of the largest
		require.InDelta(t, shift.Y, got.Bow, 2e-10, "x = %g m", x)
		require.InDelta(t, shift.X-end.X, got.Along, 2e-10, "x = %g m", x)
		up, aside := m.Slopes(x)
		require.InDelta(t, -turn.Y, up, 2e-11)
		require.InDelta(t, turn.Z, aside, 2e-11)
	}
}

// mirrored is an element with left and right exchanged.
func mirrored(t testing.TB, e stages.Element) stages.Element {
	taper := func(s section.Shape) section.Shape {
		o := s.Solids()[0]
		var other section.Outline
		for i := len(o) - 1; i >= 0; i-- {
			other = append(other, section.Point{Y: -o[i].Y, Z: o[i].Z})
		}
		shape, err := section.New([]section.Outline{other}, nil)
		require.NoError(t, err)
		return shape
	}
	along, err := section.Taper{Left: taper(e.Section.At(0)), Right: taper(e.Section.At(20)), To: 20}.Along()
	require.NoError(t, err)
	e.Section = along
	e.Extra = append([]stages.ExtraWeight(nil), e.Extra...)
	for i := range e.Extra {
		e.Extra[i].Y = -e.Extra[i].Y
	}
	e.Tendons = append([]tendon.Tendon(nil), e.Tendons...)
	for i := range e.Tendons {
		p, err := e.Tendons[i].Path()
		require.NoError(t, err)
		e.Tendons[i].Plan = straightLine(20, -p.At(0).Y, -p.At(20).Y)
	}
	return e
}

func TestMirroredElementBowsTheOtherWay(t *testing.T) {
	plan, other := unlikePlan(loads.Dynamic{Most: 1.15}), unlikePlan(loads.Dynamic{Most: 1.15})
	for i := range other {
		other = stages.Altered(other, i+1, func(s *stages.Situation) {
			s.Supports = append([]stages.Support(nil), s.Supports...)
			for k := range s.Supports {
				s.Supports[k].Y = -s.Supports[k].Y
			}
			s.Actions = append([]stages.Action(nil), s.Actions...)
			for k := range s.Actions {
				s.Actions[k].Y = -s.Actions[k].Y
			}
		})
	}
	e := unlike(t)
	e.LongTerm = mix()
	m := mirrored(t, e)
	for _, of := range [][2]int{{1, 1}, {3, 1}, {4, 1}, {4, 2}, {5, 1}} {
		left, right := moved(t, plan, e, of[0], of[1]), moved(t, other, m, of[0], of[1])
		for _, x := range []float64{0, 3, 7.5, 12, 20} {
			a, b := left.At(x), right.At(x)
			require.InDelta(t, a.Deflection, b.Deflection, 1e-11)
			require.InDelta(t, a.Most, b.Most, 1e-11)
			require.InDelta(t, a.Bow, -b.Bow, 1e-11)
			require.InDelta(t, a.Along, b.Along, 1e-11)
		}
		require.Greater(t, math.Abs(left.At(10).Bow), 5e-4)
	}
}
