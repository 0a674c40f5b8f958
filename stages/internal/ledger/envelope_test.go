package ledger

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
)

// field is a random combination whose entries vary along a piece.
type field struct {
	*model
	c       *Combination
	entries []Curve // of each term
	columns []Curve // there is one corner of outer causes
}

func randomField(t *testing.T, rng *rand.Rand, kind int) *field {
	f := &field{model: randomModel(rng, 0, 1+rng.IntN(3), rng.IntN(2), 2+rng.IntN(6))}
	var err error
	f.c, err = NewCombination(f.causes, f.terms)
	require.NoError(t, err)
	for range f.terms {
		f.entries = append(f.entries, randomCurve(rng, rng.IntN(Nodes), kind))
	}
	f.columns = f.columnsOf(f.entries)
	return f
}

func (f *field) columnsOf(entries []Curve) []Curve {
	columns, sums, values := make([]Curve, f.c.Columns()), make([]float64, f.c.Columns()), make([]float64, len(f.terms))
	for i := range Nodes {
		for e := range values {
			values[e] = entries[e][i]
		}
		f.c.Sums(sums, 0, values)
		for j := range columns {
			columns[j][i] = sums[j]
		}
	}
	return columns
}

// The largest and smallest stress along a piece under factors that change on
// the way is the best of the peaks under each corner of all factors.
func TestEnvelopeIsTheBestPeakOfAllCorners(t *testing.T) {
	rng := rand.New(rand.NewPCG(17, 18))
	var e Envelope
	at := make([]float64, 32)
	switches := 0
	for n := range 3000 {
		f := randomField(t, rng, n%3)
		for _, sign := range []float64{1, -1} {
			want, scale := math.Inf(-1), 0.0
			for _, factors := range f.corner {
				var c Curve
				for i := range c {
					for k := range f.terms {
						c[i] += sign * f.entries[k][i] * f.factor(k, factors)
						scale = max(scale, math.Abs(c[i]))
					}
				}
				_, v := c.Peak()
				want = max(want, v)
			}
			x, value, bound := e.Peak(f.columns, 1e-9, func(v []float64) float64 { return sign * f.c.Extreme(v, sign) })
			require.InDelta(t, want, value, 1e-9*scale)
			require.GreaterOrEqual(t, bound, want-1e-12*scale)
			require.LessOrEqual(t, bound, value+1.2e-9*scale)
			require.GreaterOrEqual(t, e.Bound(f.columns, func(v []float64) float64 { return sign * f.c.Extreme(v, sign) }), value-1e-15*scale)
			for j := range f.columns {
				at[j] = f.columns[j].At(x)
				if f.columns[j][0]*f.columns[j][8] < 0 {
					switches++
				}
			}
			require.InDelta(t, sign*f.c.Extreme(at, sign), value, 1e-12*scale)
		}
	}
	require.Greater(t, switches, 3000) // the worst factors do change on the way
}

// factor of term k under those of the causes, by the definition.
func (m *model) factor(k int, factors []float64) float64 {
	unit := make([]float64, len(m.terms))
	unit[k] = 1
	return m.total(unit, factors)
}

// Principal tension along a piece: no sample is above the bound, nor above the
// value by more than the tolerance.
func TestEnvelopeOfPrincipalTension(t *testing.T) {
	rng := rand.New(rand.NewPCG(19, 20))
	var e Envelope
	var r Reach
	for n := range 300 {
		f := randomField(t, rng, n%3)
		var tau []Curve
		for range f.terms {
			tau = append(tau, randomCurve(rng, rng.IntN(Nodes), n%3))
		}
		both := append(f.columns, f.columnsOf(tau)...)
		sums := make([]r2.Vec, f.c.Columns())
		measure := func(v []float64) float64 {
			for j := range sums {
				sums[j] = r2.Vec{X: v[j], Y: v[j+len(sums)]}
			}
			s, _ := f.c.PrincipalTension(nil, 0, &r, sums)
			return s
		}
		at := make([]float64, len(both))
		sample := func(x float64) float64 {
			for j := range both {
				at[j] = both[j].At(x)
			}
			return measure(at)
		}
		x, value, bound := e.Peak(both, 1e-6, measure)
		require.InDelta(t, sample(x), value, 1e-12*value)
		scale := 0.0
		for i := range Nodes {
			scale = max(scale, sample(Node(i)))
		}
		require.LessOrEqual(t, bound, value+1e-6*scale)
		for i := range 301 {
			require.LessOrEqual(t, sample(-1+2*float64(i)/300), bound+1e-12*scale)
		}
	}
}

// Two stresses that change over: |t| + 0.3·t by factors −1 to 1 on t is largest
// at the right end; its opposite, −|t| + …, at the kink, is no convex measure.
func TestEnvelopeByHand(t *testing.T) {
	c, err := NewCombination([]Cause{{-1, 1, false}}, []Term{{Inner: -1}, {Inner: 0}})
	require.NoError(t, err)
	var fixed, both Curve
	for i := range Nodes {
		x := Node(i)
		fixed[i], both[i] = 0.3*x-x*x, x-0.2
	}
	// t − 0.2 > 0: 1.3t − t² − 0.2, largest at 0.65; else −0.7t − t² + 0.2 at −0.35
	var e Envelope
	x, value, bound := e.Peak([]Curve{fixed, both}, 1e-9, func(v []float64) float64 { return c.Extreme(v, 1) })
	require.InDelta(t, -0.35, x, 1e-4)
	require.InDelta(t, 0.2+0.35*0.35, value, 1e-9)
	require.InDelta(t, value, bound, 1e-9)
}

// A level measure of columns that are not level is given up in time, and the
// bound stays true.
func TestEnvelopeThatIsLevel(t *testing.T) {
	var x, y Curve
	for i := range Nodes {
		y[i], x[i] = math.Sincos(1.5 * Node(i))
	}
	calls := 0
	var e Envelope
	_, value, bound := e.Peak([]Curve{x, y}, 1e-13, func(v []float64) float64 {
		calls++
		return math.Hypot(v[0], v[1])
	})
	require.Less(t, calls, 30000)
	require.InDelta(t, 1, value, 1e-5) // sine and cosine are no polynomials of degree 8
	require.Less(t, bound, value+1e-4)
	for i := range 1001 {
		s := -1 + 0.002*float64(i)
		require.LessOrEqual(t, math.Hypot(x.At(s), y.At(s)), bound)
	}
}

// All zero is zero everywhere.
func TestEnvelopeOfNothing(t *testing.T) {
	var e Envelope
	_, value, bound := e.Peak(make([]Curve, 2), 1e-9, func(v []float64) float64 { return math.Abs(v[0]) + v[1] })
	require.Zero(t, value)
	require.Zero(t, bound)
}

// Values that are no numbers end the search.
func TestEnvelopeOfNoNumbers(t *testing.T) {
	var e Envelope
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		_, value, _ := e.Peak([]Curve{{1, 2, v, 3}}, 1e-9, func(v []float64) float64 { return v[0] })
		require.False(t, value > 3 && !math.IsInf(value, 1))
	}
}

func BenchmarkEnvelope(b *testing.B) {
	rng := rand.New(rand.NewPCG(21, 22))
	c, err := NewCombination([]Cause{{0.97, 1.03, false}, {-1, 1, false}, {0, 1, false}, {0.8, 1.2, false}},
		[]Term{{Inner: -1}, {Inner: 0}, {Inner: 1}, {Inner: 2}, {Inner: 3}})
	require.NoError(b, err)
	fields := make([][]Curve, 32)
	for i := range fields {
		for range 5 {
			fields[i] = append(fields[i], randomCurve(rng, 8, 1))
		}
	}
	var e Envelope
	b.Run("linear", func(b *testing.B) {
		b.ReportAllocs()
		for i := 0; b.Loop(); i++ {
			_, v, _ := e.Peak(fields[i&31], 1e-9, func(v []float64) float64 { return c.Extreme(v, 1) })
			sink += v
		}
	})
	b.Run("linear, bound", func(b *testing.B) {
		b.ReportAllocs()
		for i := 0; b.Loop(); i++ {
			sink += e.Bound(fields[i&31], func(v []float64) float64 { return c.Extreme(v, 1) })
		}
	})
	var r Reach
	sums := make([]r2.Vec, 5)
	for _, row := range []struct {
		name      string
		tolerance float64
	}{{"principal tension, 1e-4", 1e-4}, {"principal tension, 1e-6", 1e-6}} {
		b.Run(row.name, func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				x, y := fields[i&31], fields[(i+7)&31]
				_, v, _ := e.Peak(x, row.tolerance, func(v []float64) float64 {
					for j := range sums {
						sums[j] = r2.Vec{X: v[j], Y: 0.3 * v[(j+1)%5]}
					}
					s, _ := c.PrincipalTension(nil, 0, &r, sums)
					return s
				})
				sink += v + y[0][0]
			}
		})
	}
}
