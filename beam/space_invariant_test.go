package beam_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/section"
)

// rounding is the part of the sum of all forces times levers within which
// equilibrium must close: sums of some hundred terms on supports whose least
// lever is a hundredth of the length.
const rounding = 1e-11

func inSpace(t *testing.T, l beam.SpaceLayout, a beam.SpaceLoads, g beam.Setting) *beam.SpaceResponse {
	t.Helper()
	s, err := beam.NewSpace(l)
	require.NoError(t, err)
	r, err := s.Solve(a, g)
	require.NoError(t, err)
	return r
}

// Loads and reactions balance in all six ways, and the forces in every cut
// are those of everything left of it.
func TestSpaceEquilibrium(t *testing.T) {
	for seed := range uint64(seeds) {
		s := seeded(seed)
		l := s.space(6 + int(seed%5))
		a := s.actions(l.Length)
		reactions := inSpace(t, l, a, beam.Setting{})
		carried := supportPoints(l, reactions.Reactions())
		force, moment, size := resultant(append(spread(a, l.Length), carried...), l.Length)
		require.Less(t, r3.Norm(force)+r3.Norm(moment), rounding*size, "seed %d", seed)
		for range 20 {
			x := s.in(0, l.Length)
			f, m, _ := resultant(append(spread(a, x), carried...), x)
			// The face towards +x: N = ∫σ, My = −∫σz, Mz = −∫σy, V = dM/dx.
			want := section.Forces{N: -f.X, Vy: f.Y, Vz: f.Z, T: -m.X, My: m.Y, Mz: -m.Z}
			sameForces(t, want, reactions.At(x, beam.RightOf), rounding*size)
		}
	}
}

func sameForces(t *testing.T, want, got section.Forces, within float64) {
	t.Helper()
	d := want.Plus(got.Times(-1))
	for name, v := range map[string]float64{"N": d.N, "Vy": d.Vy, "Vz": d.Vz, "T": d.T, "My": d.My, "Mz": d.Mz} {
		require.InDelta(t, 0, v, within, "%s: want %+v, got %+v", name, want, got)
	}
}

// Maxwell-Betti: the forces of one case do the same work on the movements of
// the other as the other way round. Supports give way, so their forces stand
// for themselves: only the loads do work.
func TestSpaceReciprocity(t *testing.T) {
	for seed := range uint64(seeds) {
		s := seeded(seed)
		l := s.space(6 + int(seed%5))
		space, err := beam.NewSpace(l)
		require.NoError(t, err)
		var a, b beam.SpaceLoads
		a.Points, b.Points = s.actions(l.Length).Points, s.actions(l.Length).Points
		ra, err := space.Solve(a, beam.Setting{})
		require.NoError(t, err)
		rb, err := space.Solve(b, beam.Setting{})
		require.NoError(t, err)
		ab, size := work(a.Points, rb)
		ba, other := work(b.Points, ra)
		require.InDelta(t, ab, ba, 1e-9*(size+other), "seed %d", seed)
	}
}

// work is the work of forces on a movement, and the sum of its parts by size.
func work(points []beam.SpacePoint, r *beam.SpaceResponse) (sum, size float64) {
	for _, p := range points {
		shift, turn := r.Move(p.X)
		shift = r3.Add(shift, r3.Cross(turn, r3.Vec{Y: p.Y, Z: p.Z}))
		for _, w := range []float64{r3.Dot(p.Force, shift), r3.Dot(p.Couple, turn)} {
			sum += w
			size += math.Abs(w)
		}
	}
	return sum, size
}

// Seen in a mirror (y changes its sign), forces along x and z stay and those
// along y turn; couples the other way round.
func TestSpaceMirror(t *testing.T) {
	vector := func(v r3.Vec) r3.Vec { return r3.Vec{X: v.X, Y: -v.Y, Z: v.Z} }
	couple := func(v r3.Vec) r3.Vec { return r3.Vec{X: -v.X, Y: v.Y, Z: -v.Z} }
	negative := func(terms []float64) []float64 {
		out := make([]float64, len(terms))
		for i, v := range terms {
			out[i] = -v
		}
		return out
	}
	for seed := range uint64(seeds) {
		s := seeded(seed)
		l := s.space(6 + int(seed%5))
		a := s.actions(l.Length)
		m, b := l, beam.SpaceLoads{}
		m.Supports = nil
		for _, r := range l.Supports {
			if r.Y = -r.Y; r.Couple {
				r.Direction = couple(r.Direction)
			} else {
				r.Direction = vector(r.Direction)
			}
			m.Supports = append(m.Supports, r)
		}
		m.Section = func(x float64) beam.CrossSection {
			c := l.Section(x)
			c.Centroid.Y, c.ShearCentre.Y, c.BendingYZ = -c.Centroid.Y, -c.ShearCentre.Y, -c.BendingYZ
			return c
		}
		for _, p := range a.Points {
			p.Y, p.Force, p.Couple = -p.Y, vector(p.Force), couple(p.Couple)
			b.Points = append(b.Points, p)
		}
		for _, p := range a.Lines {
			p.Direction, p.FirstMomentY = vector(p.Direction), negative(p.FirstMomentY)
			b.Lines = append(b.Lines, p)
		}
		one, two := inSpace(t, l, a, beam.Setting{}), inSpace(t, m, b, beam.Setting{})
		_, _, size := resultant(append(spread(a, l.Length), supportPoints(l, one.Reactions())...), l.Length)
		for i, force := range one.Reactions() {
			require.InDelta(t, force, two.Reactions()[i], 1e-9*size, "seed %d", seed)
		}
		for range 5 {
			x := s.in(0, l.Length)
			f := one.At(x, beam.LeftOf)
			f.Vy, f.T, f.Mz = -f.Vy, -f.T, -f.Mz
			sameForces(t, f, two.At(x, beam.LeftOf), 1e-9*size)
			shift, turn := one.Move(x)
			mirrored, turned := two.Move(x)
			require.InDelta(t, 0, r3.Norm(r3.Sub(vector(shift), mirrored)), 1e-9*(1+r3.Norm(shift)))
			require.InDelta(t, 0, r3.Norm(r3.Sub(couple(turn), turned)), 1e-9*(1+r3.Norm(turn)))
		}
	}
}

// A movement of all supports as one body moves the member and gives no force.
func TestSpaceRigidBodyMovement(t *testing.T) {
	for seed := range uint64(seeds) {
		s := seeded(seed)
		l := s.space(7 + int(seed%4))
		shift, turn := r3.Scale(.01, s.direction()), r3.Scale(1e-3, s.direction())
		var g beam.Setting
		for _, r := range l.Supports {
			v := r3.Dot(r.Direction, r3.Add(shift, r3.Cross(turn, r3.Vec{X: r.X, Y: r.Y, Z: r.Z})))
			if r.Couple {
				v = r3.Dot(r.Direction, turn)
			}
			g.Level = append(g.Level, v)
		}
		moved := inSpace(t, l, beam.SpaceLoads{}, g)
		for _, force := range moved.Reactions() {
			require.InDelta(t, 0, force, 1e-3, "of some meganewtons that 1 cm at one support would give")
		}
		x := s.in(0, l.Length)
		at, turned := moved.Move(x)
		require.InDelta(t, 0, r3.Norm(r3.Sub(at, r3.Add(shift, r3.Cross(turn, r3.Vec{X: x})))), 1e-10, "seed %d", seed)
		require.InDelta(t, 0, r3.Norm(r3.Sub(turned, turn)), 1e-11)
	}
}
