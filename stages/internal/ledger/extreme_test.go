package ledger

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// randomCurve is a polynomial of that degree: monomials, Chebyshev polynomials
// that fall off as smooth stresses do, or a product of close roots.
func randomCurve(rng *rand.Rand, deg, kind int) Curve {
	var coefficients, roots [Nodes]float64
	for k := range coefficients {
		coefficients[k] = rng.NormFloat64()
		if kind == 1 {
			coefficients[k] *= math.Pow(10, -float64(k)/2)
		}
		roots[k] = 0.3 + 0.001*rng.Float64()
		if k%2 == 0 {
			roots[k] = 2*rng.Float64() - 1
		}
	}
	offset := 0.0
	if rng.IntN(4) == 0 {
		offset = 50 * rng.NormFloat64()
	}
	var c Curve
	for i := range c {
		t := Node(i)
		c[i] = offset
		switch kind {
		case 0, 1:
			for k := range deg + 1 {
				c[i] += coefficients[k] * math.Cos(float64(k)*math.Acos(max(-1, min(1, t))))
			}
		case 2:
			v := coefficients[0]
			for k := range deg {
				v *= t - roots[k]
			}
			c[i] += v
		}
	}
	return c
}

func (c *Curve) span() float64 {
	low, high := c[0], c[0]
	for _, v := range c {
		low, high = min(low, v), max(high, v)
	}
	return high - low
}

// Between the nodes nothing is above the peak, the peak is taken, and the bound
// is above it.
func TestPeak(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	const samples = 400
	var excess, count [3]float64
	for range 1000 {
		for deg := range Nodes {
			kind := rng.IntN(3)
			c := randomCurve(rng, deg, kind)
			span := c.span()
			at, value := c.Peak()
			require.InDelta(t, c.At(at), value, 1e-13*span)
			// 1e-12 of the range, and what the values themselves are rounded to
			tolerance := 1e-12*span + 4e-16*math.Abs(value)
			for i := range samples + 1 {
				s := -1 + 2*float64(i)/samples
				require.LessOrEqual(t, c.At(s), value+tolerance, "degree %d kind %d at %g: %v", deg, kind, s, c)
			}
			for i := -50; i <= 50; i++ { // close to the peak
				s := max(-1, min(1, at+1e-4*float64(i)))
				require.LessOrEqual(t, c.At(s), value+tolerance)
			}
			require.GreaterOrEqual(t, c.Bound(), value)
			if span > 0 {
				excess[kind] += (c.Bound() - value) / span
				count[kind]++
			}
		}
	}
	t.Log("mean excess of the bound over the peak, of the range:", excess[0]/count[0], excess[1]/count[1], excess[2]/count[2])
}

// Two maxima close together, 2.3h apart, one higher by little, the other way
// round in the mirror: told apart down to where rounding hides the difference.
func TestPeakOfTwoCloseMaxima(t *testing.T) {
	law := func(u float64) float64 { return -u * u * (u*u/4 - 1.1*u + 1.15) } // slope −u(u − 1)(u − 2.3)
	for _, h := range []float64{0.1, 0.05, 0.02, 0.01, 0.005} {
		for _, place := range []float64{-0.94, -0.4, 0.01, 0.126, 0.31, 0.52} {
			for _, way := range []float64{1, -1} {
				var c Curve
				for i := range c {
					c[i] = law((way*Node(i) - place) / h)
				}
				at, value := c.Peak()
				require.InDelta(t, law(2.3), value, 1e-12*c.span(), "h = %g at %g", h, place)
				require.InDelta(t, place+2.3*h, way*at, 0.1*h)
			}
		}
	}
}

// The bound of a level, of a rising line, and of a parabola: above its peak by less than
// 1/7 of the rise.
func TestBoundOfAParabola(t *testing.T) {
	var level, rising, parabola Curve
	for i := range level {
		x := Node(i)
		level[i], rising[i], parabola[i] = 7, 3+2*x, 5-(x-0.1)*(x-0.1)
	}
	require.InDelta(t, 7, level.Bound(), 1e-14)
	require.InDelta(t, 5, rising.Bound(), 1e-11)
	_, value := parabola.Peak()
	require.InDelta(t, 5, value, 1e-15)
	require.Less(t, parabola.Bound(), 5+1.21/7)
	require.Greater(t, parabola.Bound(), 5.0)
	x := 1 / math.Sqrt2 // a node: the value itself
	require.Equal(t, parabola[6], parabola.At(nodePlaces[6]))
	require.InDelta(t, x, nodePlaces[6], 1e-15)
	require.Equal(t, []float64{-1, 0, 1}, []float64{Node(0), Node(4), Node(8)})
}

var sink float64

func BenchmarkPeak(b *testing.B) {
	rng := rand.New(rand.NewPCG(1, 2))
	for _, kind := range []string{"rough", "smooth"} {
		curves := make([]Curve, 64)
		for i := range curves {
			curves[i] = randomCurve(rng, 8, map[string]int{"rough": 0, "smooth": 1}[kind])
		}
		b.Run(kind, func(b *testing.B) {
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				_, v := curves[i&63].Peak()
				sink += v
			}
		})
	}
}

func BenchmarkBound(b *testing.B) {
	c := randomCurve(rand.New(rand.NewPCG(1, 2)), 8, 1)
	b.ReportAllocs()
	for b.Loop() {
		sink += c.Bound()
	}
}
