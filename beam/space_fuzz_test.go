package beam_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
)

// Whatever goes in, there is an error or finite numbers in equilibrium.
func FuzzSpace(f *testing.F) {
	f.Add(uint64(1), 34., 2., 3e8, .005, 1e5, 3e11)
	f.Add(uint64(2), 1e-3, 0., 0., 1e3, -1e9, 1.)
	f.Add(uint64(3), 1e12, 1e-9, 1e-30, -1e20, 1e60, 1e50)
	f.Add(uint64(51), .015, -1017., 11., 1018., -1e9, 13.) // arms of 70,000 lengths
	f.Add(uint64(96), 1e-4, 0., 0., 1e3, -1e9, 1.)         // 1e16 N of a closed contact that opens
	f.Add(uint64(4), math.Inf(1), math.NaN(), -1., math.NaN(), math.Inf(-1), 0.)
	f.Fuzz(func(t *testing.T, seed uint64, length, y, k, level, w, stiffness float64) {
		s := seeded(seed)
		l := beam.SpaceLayout{Length: length, Section: uniformSection(beam.CrossSection{
			BendingY: stiffness, BendingZ: 2 * stiffness, BendingYZ: stiffness / 3, Torsional: stiffness / 7, Axial: stiffness * float64(s.IntN(2)),
		})}
		var g beam.Setting
		for range 2 + s.IntN(7) {
			r := beam.Restraint{X: length * float64(s.IntN(4)) / 3, Y: y * float64(s.IntN(3)-1), Direction: up, Stiffness: k * float64(s.IntN(2)), OneWay: s.IntN(2) == 0}
			switch s.IntN(5) {
			case 0:
				r.Direction = s.direction()
			case 1:
				r.Couple = true
			}
			l.Supports, g.Level = append(l.Supports, r), append(g.Level, level*float64(s.IntN(3)-1))
		}
		if s.IntN(3) == 0 { // some of them suspended from a second member
			l.Links = []beam.Link{{Name: "g", At: -length / 7, Layout: beam.Layout{
				Length: 2 * length, Stiffness: []beam.Stretch{{BendingStiffness: stiffness * 3}}, Supports: []beam.Support{{At: 0}, {At: 2 * length, Stiffness: k}},
			}}}
			for i := range l.Supports {
				if r := &l.Supports[i]; !r.Couple && r.Direction == up && s.IntN(2) == 0 {
					r.Link = "g"
				}
			}
		}
		space, err := beam.NewSpace(l)
		if err != nil {
			require.ErrorIs(t, err, beam.ErrBeam)
			return
		}
		a := weight(l, w, y/10)
		r, err := space.Solve(a, g)
		if err != nil {
			require.ErrorIs(t, err, beam.ErrBeam)
			return
		}
		for i, v := range append(r.Reactions(), r.Gaps()...) {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%d: %g", i, v)
		}
		force, moment, size := resultant(append(spread(a, length), supportPoints(l, r.Reactions())...), length)
		require.LessOrEqual(t, r3.Norm(force)+r3.Norm(moment)/(length+math.Abs(y)), 1e-6*size)
		at := r.At(length/2, beam.LeftOf)
		shift, turn := r.Move(length / 2)
		for i, v := range []float64{at.N, at.Vy, at.Vz, at.T, at.My, at.Mz, shift.X, shift.Y, shift.Z, turn.X, turn.Y, turn.Z} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%d: %g", i, v)
		}
	})
}
