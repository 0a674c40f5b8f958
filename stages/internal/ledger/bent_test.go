package ledger

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// power is a polynomial Σ c·(x − from)^k, and its integrals from there.
type power struct {
	from float64
	c    []float64
}

func (p power) at(x float64) (value, once, twice float64) {
	s := x - p.from
	for k, c := range p.c {
		n := float64(k)
		value += c * math.Pow(s, n)
		once += c * math.Pow(s, n+1) / (n + 1)
		twice += c * math.Pow(s, n+2) / ((n + 1) * (n + 2))
	}
	return value, once, twice
}

func (p power) curve(to float64) *Curve {
	var c Curve
	for i := range c {
		c[i], _, _ = p.at(p.from + (to-p.from)*(1+Node(i))/2)
	}
	return &c
}

// Random polynomials of degree 8 in unequal stretches, with kinks between them, by
// their antiderivatives.
func TestBentIsExact(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 1))
	for range 50 {
		var line Bent
		value, slope, x := 0.0, 0.0, random.Float64()
		start := x
		for n := range 6 {
			to := x + 0.1 + 3*random.Float64()
			p := power{from: x, c: make([]float64, 9)}
			for k := range p.c {
				p.c[k] = (random.Float64() - 0.5) / math.Pow(to-x, float64(k))
			}
			line.Add(x, to, p.curve(to))
			if n > 0 {
				k := Kink{X: x, Slope: random.Float64() - 0.5, Offset: random.Float64() - 0.5}
				line.Break(k)
				value, slope = value+k.Offset, slope+k.Slope
			}
			for range 5 {
				at := x + (to-x)*random.Float64()
				_, once, twice := p.at(at)
				v, s := line.At(at)
				require.InDelta(t, value+slope*(at-x)+twice, v, 1e-12)
				require.InDelta(t, slope+once, s, 1e-12)
			}
			_, once, twice := p.at(to)
			value, slope, x = value+slope*(to-x)+twice, slope+once, to
		}
		v, s := line.At(x)
		require.InDelta(t, value, v, 1e-12)
		require.InDelta(t, slope, s, 1e-12)
		v, s = line.At(x + 2) // straight beyond the end
		require.InDelta(t, value+2*slope, v, 1e-12)
		require.InDelta(t, slope, s, 1e-12)
		v, s = line.At(start - 1)
		require.Zero(t, v)
		require.Zero(t, s)
	}
}

func TestBentOfNothing(t *testing.T) {
	v, s := new(Bent).At(3)
	require.Zero(t, v)
	require.Zero(t, s)
}

func TestTurnsOfASine(t *testing.T) {
	at := func(x float64) (float64, float64) { return math.Sin(x), math.Cos(x) }
	got := Turns(at, []float64{0, 1, 2, 3, 4, 5, 6})
	require.Len(t, got, 2)
	require.InDelta(t, math.Pi/2, got[0], 1e-12)
	require.InDelta(t, 3*math.Pi/2, got[1], 1e-12)
	require.Empty(t, Turns(at, []float64{0, 1, 1.5}))
}
