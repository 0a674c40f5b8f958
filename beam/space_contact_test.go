package beam_test

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
)

// pads is a random member on n pads that only push, out of level, held
// sideways and along by rigid restraints; some pads pull on a tie instead.
func (s source) pads(n int) (beam.SpaceLayout, beam.SpaceLoads, beam.Setting) {
	l := s.space(0)
	var g beam.Setting
	for i := range n {
		r := beam.Restraint{X: s.in(0, l.Length), Y: s.in(-3, 3), Z: s.in(-1, 0), Direction: up, OneWay: true}
		if s.IntN(3) == 0 {
			r.Stiffness = s.in(1e7, 1e9)
		}
		if i > 3 && s.IntN(3) == 0 {
			r.Direction = r3.Vec{Z: -1}
		}
		l.Supports = append(l.Supports, r)
		g.Level = append(g.Level, s.in(-.02, .02))
	}
	for _, r := range []beam.Restraint{
		{X: s.in(0, l.Length), Direction: r3.Vec{X: 1}},
		{X: 0, Direction: r3.Vec{Y: 1}}, {X: l.Length, Direction: r3.Vec{Y: 1}},
	} {
		l.Supports = append(l.Supports, r)
		g.Level = append(g.Level, 0)
	}
	if s.IntN(3) == 0 { // a bearing that holds both ways
		l.Supports = append(l.Supports, beam.Restraint{X: s.in(0, l.Length), Y: s.in(-2, 2), Direction: up})
		g.Level = append(g.Level, s.in(-.01, .01))
	}
	if s.IntN(3) == 0 { // two jacks on one circuit
		l.Supports[0].Group, l.Supports[1].Group = "circuit", "circuit"
	}
	a := weight(l, s.in(1e4, 1e5), s.in(-.3, .3))
	a.Points = []beam.SpacePoint{{X: s.in(0, l.Length), Y: s.in(-1, 1), Force: r3.Vec{Y: s.in(-1e5, 1e5), Z: s.in(-1e6, 1e6)}}}
	return l, a, g
}

// Contact against every choice of pads that may touch: the one whose forces
// push and whose other pads are open is the answer, and where there is none
// Solve says so.
func TestSpaceContactAgainstEveryChoice(t *testing.T) {
	opened, none := 0, 0
	for seed := range uint64(3 * seeds) {
		s := seeded(seed)
		n := 3 + int(seed%4)
		l, a, g := s.pads(n)
		space, err := beam.NewSpace(l)
		require.NoError(t, err, "seed %d", seed)
		want := everyChoice(l, a, g, n)
		got, err := space.Solve(a, g)
		if want == nil {
			require.ErrorIs(t, err, beam.ErrBeam, "seed %d", seed)
			none++
			continue
		}
		require.NoError(t, err, "seed %d", seed)
		largest := 0.0
		for _, v := range want {
			largest = max(largest, v, -v)
		}
		require.InDeltaSlice(t, want, got.Reactions(), 1e-8*largest, "seed %d", seed)
		for i, gap := range got.Gaps() {
			away := opening(l, g, got, i) + shortening(l, i)*got.Reactions()[i]
			if l.Supports[i].Group != "" { // linked: only their sum is set
				away = (opening(l, g, got, 0)+opening(l, g, got, 1))/2 + (shortening(l, 0)+shortening(l, 1))/2*got.Reactions()[i]
			}
			require.InDelta(t, away, gap, 1e-10, "seed %d: gap %d", seed, i)
			if gap > 0 {
				opened++
			}
		}
	}
	require.Greater(t, opened, 50)
	require.Greater(t, none, 20)
	require.Less(t, none, 2*seeds)
}

// opening is how far the member is off restraint i along its direction.
func opening(l beam.SpaceLayout, g beam.Setting, r *beam.SpaceResponse, i int) float64 {
	p := l.Supports[i]
	shift, turn := r.Move(p.X)
	return r3.Dot(p.Direction, r3.Add(shift, r3.Cross(turn, r3.Vec{Y: p.Y, Z: p.Z}))) - g.Level[i]
}

// shortening is that of restraint i by 1 N.
func shortening(l beam.SpaceLayout, i int) float64 {
	if k := l.Supports[i].Stiffness; k > 0 {
		return 1 / k
	}
	return 0
}

// everyChoice is the reactions of the choice that is consistent, nil if none.
func everyChoice(l beam.SpaceLayout, a beam.SpaceLoads, g beam.Setting, pads int) []float64 {
	linked := l.Supports[0].Group != ""
	for choice := range 1 << pads {
		if linked && choice&1 != choice>>1&1 {
			continue
		}
		part, set := l, beam.Setting{}
		part.Supports = nil
		var index []int
		for i, r := range l.Supports {
			if i >= pads || choice>>i&1 == 1 {
				r.OneWay = false
				part.Supports, set.Level, index = append(part.Supports, r), append(set.Level, g.Level[i]), append(index, i)
			}
		}
		space, err := beam.NewSpace(part)
		if err != nil || len(space.Freedoms()) > 0 {
			continue
		}
		r, err := space.Solve(a, set)
		if err != nil {
			continue
		}
		forces := make([]float64, len(l.Supports))
		fits := true
		for k, i := range index {
			forces[i] = r.Reactions()[k]
			fits = fits && (i >= pads || forces[i] >= 0)
		}
		for i := range pads {
			away := opening(l, g, r, i)
			if linked && i < 2 {
				away = opening(l, g, r, 0) + opening(l, g, r, 1)
			}
			fits = fits && (choice>>i&1 == 1 || away >= 0)
		}
		if fits {
			return forces
		}
	}
	return nil
}

// legs is a member on two pairs of legs; beside the first stands a tie-down
// bar that only pulls.
func legs(apart float64) beam.SpaceLayout {
	l := fourPads(0, true)
	l.Supports = append(l.Supports, beam.Restraint{X: 1 + apart, Y: 2, Direction: r3.Vec{Z: -1}, OneWay: true})
	return l
}

// A leg and its tie-down bar at one place, and 1 mm apart: the leg takes what
// pushes, the bar what pulls, and never both.
func TestSpaceLegAndTie(t *testing.T) {
	for _, apart := range []float64{0, 1e-3} {
		for _, lift := range []float64{-1, 1} {
			l := legs(apart)
			l.Supports = append(l.Supports[:2], l.Supports[3:]...) // leg, leg, leg, bar: determinate without the bar
			a := beam.SpaceLoads{Points: []beam.SpacePoint{
				{X: 17, Y: -.5, Force: r3.Vec{Z: -1e6}}, {X: 1, Y: 2, Force: r3.Vec{Z: lift * 1e6}},
			}}
			r := inSpace(t, l, a, beam.Setting{}).Reactions()
			// Across: 2·R0 − 2·(1 MN − R0) = −0.5 m · 1 MN; the second force goes straight to the leg or the bar.
			net := 375e3 - lift*1e6
			require.InDelta(t, max(net, 0), r[0], 200, "1 mm of 32 m moves a force of 1 MN by 31 N, across by its share")
			require.InDelta(t, max(-net, 0), r[3], 200)
			require.True(t, r[0] == 0 || r[3] == 0)
		}
	}
}

// Redundant legs with a tie beside each: contact decides where no stiffness does.
func TestSpaceTiesBesideAllLegs(t *testing.T) {
	l := fourPads(0, true)
	for i := range 4 {
		r := l.Supports[i]
		r.Direction = r3.Vec{Z: -1}
		l.Supports = append(l.Supports, r)
	}
	a := beam.SpaceLoads{Points: []beam.SpacePoint{{X: 17, Y: 3.5, Force: r3.Vec{Z: -1e6}}}}
	got := inSpace(t, l, a, beam.Setting{}).Reactions()
	both := fourPads(0, false)
	want := inSpace(t, both, a, beam.Setting{}).Reactions()
	for i, force := range want {
		require.InDelta(t, max(force, 0), got[i], 1e-3)
		require.InDelta(t, max(-force, 0), got[i+4], 1e-3)
	}
	require.Less(t, want[1], -1e5)
	// A slack tie: the pads on the far side come free until the ties are taut.
	slack := make([]float64, 8)
	for i := 4; i < 8; i++ {
		slack[i] = -.001
	}
	r := inSpace(t, l, a, beam.Setting{Level: slack})
	require.InDelta(t, .001, r.Gaps()[1], 1e-9)
	require.InDelta(t, -want[1], r.Reactions()[5], 1, "taut after 1 mm at both ends")
}

// Lift-off of one pad of four: R of the corner that is low reaches zero at
// d = R·(s²L/GJ + 4/k), and stays zero beyond, on three pads.
func TestSpaceLiftOff(t *testing.T) {
	l := fourPads(3e8, true)
	space, err := beam.NewSpace(l)
	require.NoError(t, err)
	a := weight(l, 200e3, 0)
	const mean = 200e3 * 34 / 4
	off := mean * (4*4*32/9e10 + 4/3e8)
	for _, d := range []float64{.5, .999, 1.001, 3} {
		r, err := space.Solve(a, beam.Setting{Level: []float64{d * off, 0, 0, 0}})
		require.NoError(t, err)
		change := min(d, 1) * mean
		require.InDeltaSlice(t, []float64{mean + change, mean - change, mean - change, mean + change}, r.Reactions(), 1e-9*mean)
		require.Equal(t, d > 1, r.Gaps()[1]+r.Gaps()[2] > 0)
	}
	_, err = space.Solve(weight(l, 200e3, 2.01), beam.Setting{})
	require.ErrorContains(t, err, "overturn")
}
