package ledger

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"github.com/tempstage/tempstage/section"
)

// agreement is relative to the sum of all magnitudes: some 20 products and
// sums, and the way round a reach of up to 20 edges.
const agreement = 1e-14

// model is a random ledger at one place, and all its corners by brute force.
type model struct {
	causes []Cause
	terms  []Term
	corner [][]float64 // the factor of each cause at each corner of all causes
	dst    []float64
}

// randomRange is unsymmetric, both ways, the other way, or no range at all.
func randomRange(rng *rand.Rand) (least, most float64) {
	switch rng.IntN(6) {
	case 0:
		return -1, 1
	case 1:
		v := rng.Float64()
		return v, v
	case 2:
		return 0, 1
	case 3:
		return -1.5, -0.25
	default:
		return 0.8 + 0.2*rng.Float64(), 1 + 0.7*rng.Float64()
	}
}

// randomModel has outer causes 0 to outer−1, then inner ones; the last causes
// are factors of parts.
func randomModel(rng *rand.Rand, outer, inner, parts, terms int) *model {
	m := &model{}
	for i := range outer + inner + parts {
		least, most := randomRange(rng)
		m.causes = append(m.causes, Cause{least, most, i < outer})
	}
	groupOf := make([]int, parts) // each part belongs to one group, or to none
	for i := range groupOf {
		groupOf[i] = outer + rng.IntN(inner)
		if rng.IntN(4) == 0 {
			groupOf[i] = -1
		}
	}
	for range terms {
		t := Term{Inner: -1}
		for i := range outer {
			if rng.IntN(2) == 0 {
				t.Outer = append(t.Outer, i)
			}
		}
		switch kind := rng.IntN(5); {
		case kind < 3:
			t.Inner = outer + rng.IntN(inner)
		case kind == 3 && parts > 0:
			i := rng.IntN(parts)
			t.Inner, t.Part = groupOf[i], []int{outer + inner + i}
		}
		m.terms = append(m.terms, t)
	}
	for k := range 1 << len(m.causes) {
		f := make([]float64, len(m.causes))
		for i, c := range m.causes {
			f[i] = c.Least
			if k>>i&1 == 1 {
				f[i] = c.Most
			}
		}
		m.corner = append(m.corner, f)
	}
	m.dst = make([]float64, len(m.causes))
	return m
}

// anyModel is of a random size.
func anyModel(rng *rand.Rand) *model {
	return randomModel(rng, rng.IntN(3), 1+rng.IntN(4), rng.IntN(4), 1+rng.IntN(10))
}

// total is the sum of the entries under the factors, by the definition.
func (m *model) total(values, factors []float64) float64 {
	sum := 0.0
	for e, t := range m.terms {
		f := 1.0
		for _, i := range t.Outer {
			f *= factors[i]
		}
		if t.Inner >= 0 {
			f *= factors[t.Inner]
		}
		for _, i := range t.Part {
			f *= factors[i]
		}
		sum += f * values[e]
	}
	return sum
}

// scale is the sum of the largest magnitudes, with all factors up to 1.7.
func (m *model) scale(values []float64) float64 {
	sum := 0.0
	for e, t := range m.terms {
		sum += math.Abs(values[e]) * math.Pow(1.7, float64(len(t.Outer)+len(t.Part)+1))
	}
	return sum
}

// atEnds fails where a factor is no end of its range.
func (m *model) atEnds(t *testing.T, used map[int]bool, factors []float64) {
	t.Helper()
	for i, c := range m.causes {
		if used[i] || c.Outer {
			require.True(t, factors[i] == c.Least || factors[i] == c.Most, "cause %d: %g of %v", i, factors[i], c)
		} else {
			require.Equal(t, 1.0, factors[i], "no term has cause %d", i)
		}
	}
}

func (m *model) used() map[int]bool {
	used := map[int]bool{}
	for _, t := range m.terms {
		used[t.Inner] = true
		for _, i := range t.Part {
			used[i] = true
		}
	}
	return used
}

func (m *model) random(rng *rand.Rand) []float64 {
	v := make([]float64, len(m.terms))
	for e := range v {
		if rng.IntN(8) > 0 {
			v[e] = rng.NormFloat64() * math.Pow(10, float64(rng.IntN(4)))
		}
	}
	return v
}

func pairs(x, y []float64) []r2.Vec {
	p := make([]r2.Vec, len(x))
	for i := range p {
		p[i] = r2.Vec{X: x[i], Y: y[i]}
	}
	return p
}

// Linear measures: equal to the best of all corners, and the printed factors
// give that value.
func TestExtremeIsTheBestCorner(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 4))
	worst := 0.0
	for range 20000 {
		m := anyModel(rng)
		c, err := NewCombination(m.causes, m.terms)
		require.NoError(t, err)
		p := Spot{section.Point{Y: rng.NormFloat64(), Z: rng.NormFloat64()}, rng.NormFloat64()}
		planes := make([]Plane, len(m.terms))
		values := m.random(rng)
		for e := range planes { // of these values at p
			planes[e] = Plane{section.Plane{SlopeY: values[e], SlopeZ: -2 * values[e]}, 3 * values[e]}
			planes[e].Constant = values[e] - values[e]*p.Y + 2*values[e]*p.Z - 3*values[e]*p.Warping
			values[e] = planes[e].At(p)
		}
		scale := m.scale(values)
		for _, sign := range []float64{1, -1} {
			want := math.Inf(-1)
			for _, f := range m.corner {
				want = max(want, sign*m.total(values, f))
			}
			sums, columns := make([]float64, c.Columns()), make([]Plane, c.Columns())
			got := math.Inf(-1)
			for k := range c.Corners() {
				c.Sums(sums, k, values)
				v := c.Extreme(sums, sign)
				c.Factors(m.dst, k, sums, sign)
				m.atEnds(t, m.used(), m.dst)
				require.InDelta(t, v, m.total(values, m.dst), agreement*scale)
				require.InDelta(t, v, c.Under(sums, m.dst), agreement*scale)
				got = max(got, sign*v)
				c.Planes(columns, k, planes)
				plane := 0.0 // slopes and constants are up to so much larger than the stress
				for _, q := range planes {
					plane += 10 * (math.Abs(q.Constant) + math.Abs(q.SlopeY*p.Y) + math.Abs(q.SlopeZ*p.Z) + math.Abs(q.Warping*p.Warping))
				}
				require.InDelta(t, v, c.Stress(columns, p, sign), agreement*(scale+plane))
				c.At(sums, columns, p)
				require.InDelta(t, v, c.Extreme(sums, sign), agreement*(scale+plane))
			}
			require.InDelta(t, want, got, agreement*scale)
			if scale > 0 {
				worst = max(worst, math.Abs(want-got)/scale)
			}
		}
	}
	t.Log("largest difference, of the scale:", worst)
}

// Principal tension and |τ|, with none to two parts by magnitude.
func TestPrincipalTensionIsTheBestCorner(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	var r Reach
	worst := 0.0
	for range 20000 {
		m := anyModel(rng)
		c, err := NewCombination(m.causes, m.terms)
		require.NoError(t, err)
		sigma, tau := m.random(rng), m.random(rng)
		free := make([][]float64, rng.IntN(3))
		scale := m.scale(sigma) + m.scale(tau)
		for i := range free {
			free[i] = m.random(rng)
			scale += m.scale(free[i])
		}
		pair := func(f []float64) (s, shear float64) {
			shear = math.Abs(m.total(tau, f))
			for _, list := range free {
				shear += math.Abs(m.total(list, f))
			}
			return m.total(sigma, f), shear
		}
		wantTension, wantShear := math.Inf(-1), math.Inf(-1)
		for _, f := range m.corner {
			s, shear := pair(f)
			wantTension = max(wantTension, s/2+math.Hypot(s/2, shear))
			wantShear = max(wantShear, shear)
		}
		gotTension, gotShear := math.Inf(-1), math.Inf(-1)
		columns, shears := make([]r2.Vec, c.Columns()), make([]float64, c.Columns())
		magnitudes := make([][]float64, len(free))
		for k := range c.Corners() {
			c.Pairs(columns, k, pairs(sigma, tau))
			c.Sums(shears, k, tau)
			for i, list := range free {
				magnitudes[i] = make([]float64, c.Columns())
				c.Sums(magnitudes[i], k, list)
			}
			v, at := c.PrincipalTension(m.dst, k, &r, columns, magnitudes...)
			m.atEnds(t, m.used(), m.dst)
			s, shear := pair(m.dst)
			require.InDelta(t, v, s/2+math.Hypot(s/2, shear), agreement*scale)
			require.InDelta(t, at.X, s, agreement*scale)
			require.InDelta(t, at.Y, shear, agreement*scale)
			gotTension = max(gotTension, v)
			v = c.Shear(m.dst, k, &r, shears, magnitudes...)
			m.atEnds(t, m.used(), m.dst)
			_, shear = pair(m.dst)
			require.InDelta(t, v, shear, agreement*scale)
			gotShear = max(gotShear, v)
		}
		require.InDelta(t, wantTension, gotTension, agreement*scale)
		require.InDelta(t, wantShear, gotShear, agreement*scale)
		if scale > 0 {
			worst = max(worst, math.Abs(wantTension-gotTension)/scale)
		}
	}
	t.Log("largest difference, of the scale:", worst)
}

// The share of one support, of totals that stay positive; others are refused.
func TestShareIsTheBestCorner(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	var r Reach
	refused, tried := 0, 0
	for tried < 20000 {
		m := anyModel(rng)
		part, total := m.random(rng), m.random(rng)
		scale := m.scale(part) + m.scale(total)
		m.terms = append(m.terms, Term{Inner: -1}) // a dead weight
		c, err := NewCombination(m.causes, m.terms)
		require.NoError(t, err)
		part, total = append(part, scale*rng.Float64()), append(total, 0.5*scale)
		least, most, smallest := math.Inf(1), math.Inf(-1), math.Inf(1)
		for _, f := range m.corner {
			a, b := m.total(part, f), m.total(total, f)
			least, most, smallest = min(least, a/b), max(most, a/b), min(smallest, b)
		}
		if smallest < 0.01*scale && smallest > -1e-12*scale || scale == 0 {
			continue // where rounding decides
		}
		tried++
		columns := make([]r2.Vec, c.Columns())
		gotLeast, gotMost, good := math.Inf(1), math.Inf(-1), true
		for k := range c.Corners() {
			c.Pairs(columns, k, pairs(part, total))
			for _, sign := range []float64{1, -1} {
				v, ok := c.Share(m.dst, k, &r, columns, sign)
				good = good && ok
				if !ok {
					continue
				}
				m.atEnds(t, m.used(), m.dst)
				b := m.total(total, m.dst) // a small one amplifies rounding
				require.InDelta(t, v, m.total(part, m.dst)/b, agreement*scale/b*(1+math.Abs(v)))
				gotLeast, gotMost = min(gotLeast, v), max(gotMost, v)
			}
		}
		if smallest <= 0 {
			require.False(t, good)
			refused++
			continue
		}
		require.True(t, good)
		tolerance := 2 * agreement * scale / smallest * (1 + math.Abs(most) + math.Abs(least))
		require.InDelta(t, least, gotLeast, tolerance)
		require.InDelta(t, most, gotMost, tolerance)
	}
	require.Greater(t, refused, 500) // some, not most
	require.Less(t, refused, 5000)
}

// A plain case by hand: entries are summed by cause before a factor is chosen.
func TestEntriesOfOneCauseShareTheirFactor(t *testing.T) {
	causes := []Cause{{0.9, 1.2, true}, {0.95, 1.05, false}, {0.7, 1.1, false}}
	terms := []Term{{Outer: []int{0}, Inner: 1}, {Outer: []int{0}, Inner: 1}, {Inner: 2}, {Inner: -1}}
	c, err := NewCombination(causes, terms)
	require.NoError(t, err)
	require.Equal(t, 2, c.Corners())
	require.Equal(t, 3, c.Columns())
	sums, factors := make([]float64, 3), make([]float64, 3)
	c.Sums(sums, 1, []float64{10, -7, -4, 2})
	require.InDeltaSlice(t, []float64{2, 3.6, -4}, sums, 1e-15) // (10 − 7) · 1.2
	require.InDelta(t, 2+3.6*1.05-4*0.7, c.Extreme(sums, 1), 1e-15)
	require.InDelta(t, 2+3.6*0.95-4*1.1, c.Extreme(sums, -1), 1e-15)
	c.Factors(factors, 1, sums, 1)
	require.Equal(t, []float64{1.2, 1.05, 0.7}, factors)
	c.Factors(factors, 0, sums, -1)
	require.Equal(t, []float64{0.9, 0.95, 1.1}, factors)
}

// A factor on one tendon of a group that has a range of its own: 1.1 · (5 − 0 · 3)
// is the most, 0.9 · (5 − 1 · 3) the least, and with the signs turned the
// group's factor turns as well.
func TestPartOfAGroup(t *testing.T) {
	c, err := NewCombination([]Cause{{0.9, 1.1, false}, {0, 1, false}},
		[]Term{{Inner: 0}, {Inner: 0, Part: []int{1}}})
	require.NoError(t, err)
	factors := make([]float64, 2)
	for _, row := range []struct{ rest, part, most, least float64 }{
		{5, -3, 5.5, 1.8}, {-5, 3, -1.8, -5.5}, {2, -3, 2.2, -1.1}, {-2, -3, -1.8, -5.5},
	} {
		sums := []float64{0, row.rest, row.part}
		require.InDelta(t, row.most, c.Extreme(sums, 1), 1e-15)
		require.InDelta(t, row.least, c.Extreme(sums, -1), 1e-15)
		c.Factors(factors, 0, sums, -1)
		require.InDelta(t, row.least, c.Under(sums, factors), 1e-15)
	}
}

// typical is 12 entries of 4 inner and 2 outer causes.
func typical(tb testing.TB) (*Combination, *rand.Rand) {
	causes := []Cause{{0.9, 1.1, true}, {0.9, 1.1, true}, {0.97, 1.03, false}, {-1, 1, false}, {0, 1, false}, {0.8, 1.2, false}}
	var terms []Term
	for e := range 12 {
		terms = append(terms, Term{Outer: [][]int{{0}, {1}, nil}[e%3], Inner: []int{2, 3, 4, 5, -1}[e%5]})
	}
	c, err := NewCombination(causes, terms)
	require.NoError(tb, err)
	return c, rand.New(rand.NewPCG(9, 10))
}

func BenchmarkStation(b *testing.B) {
	c, rng := typical(b)
	planes, stresses := make([]Plane, 12), make([]r2.Vec, 12)
	for e := range planes {
		planes[e].Plane = section.Plane{Constant: rng.NormFloat64(), SlopeY: rng.NormFloat64(), SlopeZ: rng.NormFloat64()}
		stresses[e] = r2.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64()}
	}
	columns, sums := make([]Plane, c.Columns()), make([]r2.Vec, c.Columns())
	free := make([]float64, c.Columns())
	var r Reach
	b.Run("planes of 12 entries", func(b *testing.B) {
		b.ReportAllocs()
		for i := 0; b.Loop(); i++ {
			c.Planes(columns, i&3, planes)
		}
	})
	b.Run("stress at a point", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			sink += c.Stress(columns, Spot{Point: section.Point{Y: 1, Z: 2}}, 1)
		}
	})
	b.Run("pairs of 12 entries", func(b *testing.B) {
		b.ReportAllocs()
		for i := 0; b.Loop(); i++ {
			c.Pairs(sums, i&3, stresses)
		}
	})
	b.Run("principal tension", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			v, _ := c.PrincipalTension(nil, 0, &r, sums)
			sink += v
		}
	})
	b.Run("principal tension, torsion by magnitude", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			v, _ := c.PrincipalTension(nil, 0, &r, sums, free)
			sink += v
		}
	})
	b.Run("station, four corners, one point", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			for k := range c.Corners() {
				c.Planes(columns, k, planes)
				sink += c.Stress(columns, Spot{Point: section.Point{Y: 1, Z: 2}}, 1)
			}
		}
	})
}
