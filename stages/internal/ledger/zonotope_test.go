package ledger

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// randomSummand is up to seven points: scattered, on a line, on a coarse raster
// (coincident and parallel), or one point several times.
func randomSummand(rng *rand.Rand) Summand {
	var s Summand
	kind := rng.IntN(4)
	along := r2.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64()}
	for range 1 + rng.IntN(7) {
		p := r2.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64()}
		switch kind {
		case 1:
			p = r2.Scale(p.X, along)
		case 2:
			p = r2.Vec{X: float64(rng.IntN(3)), Y: float64(rng.IntN(3))}
		case 3:
			p = along
		}
		s.Vertices = append(s.Vertices, p)
	}
	return s
}

// every calls f with all sums of one vertex of each summand.
func every(summands []Summand, from r2.Vec, f func(r2.Vec)) {
	if len(summands) == 0 {
		f(from)
		return
	}
	for _, v := range summands[0].Vertices {
		every(summands[1:], r2.Add(from, v), f)
	}
}

// The largest value over the reach is that over all sums of vertices, for
// convex functions of every shape, and the choice of vertices gives it.
func TestReachOfPolygons(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	var r Reach
	var choice []int
	for range 20000 {
		origin := r2.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64()}
		summands := make([]Summand, 1+rng.IntN(4))
		r.Reset(origin)
		for i := range summands {
			summands[i] = randomSummand(rng)
			if v := summands[i].Vertices; len(v) == 2 {
				r.Segment(v[0], v[1])
				continue
			}
			r.Add(summands[i])
		}
		a, b := rng.NormFloat64(), rng.NormFloat64()
		for _, f := range []func(r2.Vec) float64{
			principalTension,
			func(p r2.Vec) float64 { return a*p.X + b*p.Y },
			func(p r2.Vec) float64 { return math.Hypot(p.X-a, p.Y-b) },
			func(p r2.Vec) float64 { return max(p.X, -a*p.Y) },
		} {
			want := math.Inf(-1)
			every(summands, origin, func(p r2.Vec) { want = max(want, f(p)) })
			got, at := r.Largest(f)
			require.InDelta(t, want, got, 1e-13) // magnitudes up to 50
			sum := origin
			choice = r.Choice(choice)
			for i, n := range choice {
				sum = r2.Add(sum, summands[i].Vertices[n])
			}
			require.InDelta(t, at.X, sum.X, 1e-13)
			require.InDelta(t, at.Y, sum.Y, 1e-13)
		}
	}
}

// The outline closes, turns to the left only, and has two vertices a segment.
func TestReachIsAConvexOutline(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 14))
	var r Reach
	for range 2000 {
		n := 1 + rng.IntN(16)
		r.Reset(r2.Vec{})
		for range n {
			r.Segment(r2.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64()}, r2.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64()})
		}
		v := r.vertices(nil)
		require.Len(t, v, 2*n+1)
		require.InDelta(t, 0, r2.Norm(r2.Sub(v[0], v[2*n])), 1e-13)
		for i := 2; i < len(v); i++ {
			require.Greater(t, turn(v[i-2], v[i-1], v[i]), -1e-13)
			require.GreaterOrEqual(t, v[i-1].Y, v[0].Y)
		}
	}
}

// A unit square and a triangle on its tip, by hand.
func TestSquareAndTriangle(t *testing.T) {
	var r Reach
	r.Reset(r2.Vec{X: 10})
	r.Segment(r2.Vec{}, r2.Vec{X: 1})
	r.Segment(r2.Vec{Y: 1}, r2.Vec{})
	r.Add(Summand{[]r2.Vec{{X: 1, Y: 2}, {X: 0, Y: 1}, {X: 0, Y: 0}, {X: -1, Y: 2}}}) // the second lies inside
	require.Equal(t, []r2.Vec{{X: 10}, {X: 11}, {X: 12, Y: 2}, {X: 12, Y: 3}, {X: 11, Y: 3}, {X: 9, Y: 3}, {X: 9, Y: 2}, {X: 10}},
		r.vertices(nil))
	value, at := r.Largest(func(p r2.Vec) float64 { return p.Y - p.X })
	require.Equal(t, -6.0, value)
	require.Equal(t, r2.Vec{X: 9, Y: 3}, at)
	require.Equal(t, []int{0, 0, 3}, r.Choice(nil))
}

// Positions of a train are a polygon beside the inner factors: all positions
// with all corners give the same.
func TestTrainBesideFactors(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 16))
	var r Reach
	for range 5000 {
		m := randomModel(rng, 0, 3, 1, 8)
		c, err := NewCombination(m.causes, m.terms)
		require.NoError(t, err)
		sigma, tau, train := m.random(rng), m.random(rng), randomSummand(rng)
		want := math.Inf(-1)
		for _, f := range m.corner {
			for _, p := range train.Vertices {
				want = max(want, principalTension(r2.Vec{X: m.total(sigma, f) + p.X, Y: m.total(tau, f) + p.Y}))
			}
		}
		columns := make([]r2.Vec, c.Columns())
		c.Pairs(columns, 0, pairs(sigma, tau))
		c.Reach(&r, columns)
		r.Add(train)
		got, at := r.Largest(principalTension)
		scale := m.scale(sigma) + m.scale(tau) + 10
		require.InDelta(t, want, got, agreement*scale)
		c.Choose(m.dst, 0, &r, columns)
		p := train.Vertices[r.Choice(nil)[len(c.groups)]]
		require.InDelta(t, at.X, m.total(sigma, m.dst)+p.X, agreement*scale)
		require.InDelta(t, at.Y, m.total(tau, m.dst)+p.Y, agreement*scale)
	}
}

// Principal tension: uniaxial, pure shear and both, by hand.
func TestPrincipalTensionByHand(t *testing.T) {
	require.Equal(t, 3.0, principalTension(r2.Vec{X: 3}))
	require.Equal(t, 0.0, principalTension(r2.Vec{X: -3}))
	require.Equal(t, 2.0, principalTension(r2.Vec{Y: -2}))
	require.InDelta(t, 1.0, principalTension(r2.Vec{X: -3, Y: 2}), 1e-15) // −1.5 + 2.5
}
