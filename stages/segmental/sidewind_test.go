package segmental

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/limits"
)

// facedBy is the area, its moment about the pier axis and about z = 0 of what wind across sees
// of an arm of n segments of 3 m, 1.2 m above the deck: trapezia, by hand.
func facedBy(n int) (area, along, up float64) {
	depth := func(u float64) float64 { v := 1 - u/35; return 2.2 + 1.8*v*v }
	add := func(u1, u2, d1, d2 float64) {
		h1, h2, l := d1+1.2, d2+1.2, u2-u1
		area += (h1 + h2) / 2 * l
		along += l / 6 * (h1*(2*u1+u2) + h2*(u1+2*u2))
		up += 1.2*1.2/2*l - l/6*(d1*d1+d1*d2+d2*d2)
	}
	add(0, 2, depth(0), depth(0))
	for k := range n {
		u := 2 + 3*float64(k)
		add(u, u+3, depth(u), depth(u+3))
	}
	return area, along, up
}

// With one segment on the left and two on the right, yaw is that of the right arm in full less
// the stated part on the left, the force across that of both in full.
func TestWindAcrossByHand(t *testing.T) {
	d, on, steps := bare(t)
	d.Loads = ArmLoads{Width: 10, Across: 800, AcrossOther: 200, Above: 1.2}
	s := d.begin(on)
	for i := range s.carried {
		s.carried[i], s.joined[i] = i > 0, i > 1
	}
	b, err := s.balance(d.Piers[0], Move{Do: Wait})
	require.NoError(t, err)
	leftArea, leftAlong, leftUp := facedBy(1)
	rightArea, rightAlong, rightUp := facedBy(2)
	require.InEpsilon(t, 800*rightAlong-200*leftAlong, b.Yaw, 1e-9)
	require.InEpsilon(t, 800*(leftArea+rightArea), b.Transverse, 1e-9)
	require.InEpsilon(t, (leftUp+rightUp)/(leftArea+rightArea), b.Level, 1e-9)

	// The engine bends and shears both arms sideways, each from either side.
	built, err := d.Build(on, plainly{}, steps...)
	require.NoError(t, err)
	last, e := lastMove(t, built, 2)
	for side, at := range [2]float64{8 - 1e-6, 8 + 1e-6} {
		for _, of := range []struct {
			want    float64
			measure func(section.Forces) float64
		}{{800 * rightAlong, func(f section.Forces) float64 { return f.Mz }}, {800 * rightArea, func(f section.Forces) float64 { return f.Vy }}} {
			r, _, err := e.Ranges(at, limits.Factors{}, of.measure)
			require.NoError(t, err)
			require.InEpsilon(t, of.want, (r.Most-r.Least)/2, 1e-5, "side %d", side)
		}
	}
	found := false
	for _, c := range last.Checks {
		if strings.HasPrefix(c.Name, "transverse moment and yaw") {
			found = true
			require.Equal(t, limits.LocalForce, c.Kind)
			require.Contains(t, c.Note, "force across ±")
		}
	}
	require.True(t, found)
	d.Loads.AcrossOther = 900
	_, err = d.Plan(on, steps...)
	require.ErrorIs(t, err, ErrSegmental)
	require.ErrorContains(t, err, "Deck.Loads.AcrossOther = 900 Pa")
	b.Transverse = math.NaN()
	_, err = d.Piers[0].Checks(b, EN, limits.EN1992{})
	require.ErrorContains(t, err, "Balance.Transverse")
}
