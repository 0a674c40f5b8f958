package ledger

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"github.com/tempstage/tempstage/section"
)

// Outer causes at both ends, each combination once; one value counts once.
func TestCorners(t *testing.T) {
	c, err := NewCombination([]Cause{{0.9, 1.1, true}, {0.5, 2, false}, {1.35, 1.35, true}, {-1, 1, true}}, nil)
	require.NoError(t, err)
	require.Equal(t, 4, c.Corners())
	require.Equal(t, []float64{0.9, 1, 1.35, -1}, c.Corner(0))
	require.Equal(t, []float64{1.1, 1, 1.35, -1}, c.Corner(1))
	require.Equal(t, []float64{0.9, 1, 1.35, 1}, c.Corner(2))
	require.Equal(t, []float64{1.1, 1, 1.35, 1}, c.Corner(3))
	require.Equal(t, 1, c.Columns())
}

// Without causes there is one corner and the sum.
func TestNoCauses(t *testing.T) {
	c, err := NewCombination(nil, []Term{{Inner: -1}, {Inner: -1}})
	require.NoError(t, err)
	sums := make([]float64, 1)
	c.Sums(sums, 0, []float64{3, -5})
	require.Equal(t, -2.0, c.Extreme(sums, 1))
	require.Equal(t, -2.0, c.Extreme(sums, -1))
	require.Equal(t, 2.0, c.Shear(nil, 0, &Reach{}, sums))
	v, at := c.PrincipalTension(nil, 0, &Reach{}, []r2.Vec{{X: -3, Y: -2}})
	require.Equal(t, 1.0, v)
	require.Equal(t, r2.Vec{X: -3, Y: 2}, at)
}

func TestRefusedCombinations(t *testing.T) {
	good := []Cause{{0.9, 1.1, true}, {0.9, 1.1, false}, {0, 1, false}, {0, 1, false}}
	var many []Cause
	for range 11 {
		many = append(many, Cause{0, 1, true})
	}
	for _, row := range []struct {
		causes []Cause
		terms  []Term
		says   string
	}{
		{[]Cause{{1.1, 0.9, false}}, nil, "causes[0] = 1.1 to 0.9: must be finite, Least not above Most"},
		{[]Cause{{1, math.NaN(), false}}, nil, "causes[0]"},
		{[]Cause{{math.NaN(), 1, true}}, nil, "causes[0]"},
		{[]Cause{{1, math.Inf(1), false}}, nil, "causes[0]"},
		{[]Cause{{math.Inf(-1), 1, false}}, nil, "causes[0]"},
		{many, nil, "11 outer causes with a range: must be at most 10"},
		{good, []Term{{Outer: []int{1}, Inner: -1}}, "terms[0].Outer has 1: must be the index of an outer cause"},
		{good, []Term{{Outer: []int{4}, Inner: -1}}, "terms[0].Outer has 4"},
		{good, []Term{{Outer: []int{-1}, Inner: -1}}, "terms[0].Outer has -1"},
		{good, []Term{{Inner: -1}, {Inner: 0}}, "terms[1].Inner = 0: must be the index of an inner cause, or -1"},
		{good, []Term{{Inner: 4}}, "terms[0].Inner = 4"},
		{good, []Term{{Inner: -2}}, "terms[0].Inner = -2"},
		{good, []Term{{Inner: 1, Part: []int{2, 3}}}, "terms[0].Part has 2 causes: must be at most one"},
		{good, []Term{{Inner: 1, Part: []int{1}}}, "terms[0].Part has 1: must be the index of an inner cause other than Inner"},
		{good, []Term{{Inner: 1, Part: []int{0}}}, "terms[0].Part has 0"},
		{good, []Term{{Inner: 1, Part: []int{4}}}, "terms[0].Part has 4"},
		{good, []Term{{Inner: 1, Part: []int{-1}}}, "terms[0].Part has -1"},
		{good, []Term{{Inner: 1, Part: []int{2}}, {Inner: 3, Part: []int{2}}}, "causes[2] is a factor of a part of causes[1]: must be of that group only"},
		{good, []Term{{Inner: 1, Part: []int{2}}, {Inner: 2}}, "causes[2] is a factor of a part of causes[1]"},
		{good, []Term{{Inner: 1, Part: []int{2}}, {Inner: -1, Part: []int{2}}}, "causes[2] is a factor of a part of causes[1]"},
		{good, []Term{{Inner: 2}, {Inner: 1, Part: []int{2}}}, "causes[2] is a factor of a part here and of a group before: must be one of both"},
	} {
		_, err := NewCombination(row.causes, row.terms)
		require.ErrorIs(t, err, ErrLedger)
		require.ErrorContains(t, err, row.says)
	}
}

// An outer cause counts twice where a term has it twice, and its product with
// others multiplies the entry.
func TestOuterProduct(t *testing.T) {
	c, err := NewCombination([]Cause{{0.5, 2, true}, {3, 3, true}}, []Term{{Outer: []int{0, 1, 0}, Inner: -1}})
	require.NoError(t, err)
	sums := make([]float64, 1)
	c.Sums(sums, 0, []float64{10})
	require.Equal(t, 7.5, sums[0])
	c.Sums(sums, 1, []float64{10})
	require.Equal(t, 120.0, sums[0])
}

// Nothing is allocated at a station, with parts of groups and sixteen causes.
func TestNoAllocation(t *testing.T) {
	var causes []Cause
	var terms []Term
	for i := range 16 {
		causes = append(causes, Cause{0.5, 1.5, false})
		terms = append(terms, Term{Inner: i})
	}
	causes = append(causes, Cause{0, 1, false}, Cause{0.3, 1, false})
	terms = append(terms, Term{Inner: 0, Part: []int{16}}, Term{Inner: 0, Part: []int{17}})
	c, err := NewCombination(causes, terms)
	require.NoError(t, err)
	n := c.Columns()
	planes, columns := make([]Plane, len(terms)), make([]Plane, n)
	stresses, sums := make([]r2.Vec, len(terms)), make([]r2.Vec, n)
	for i := range stresses {
		stresses[i] = r2.Vec{X: math.Cos(float64(i)), Y: math.Sin(float64(3 * i))}
	}
	values, free, factors := make([]float64, n), make([]float64, n), make([]float64, len(causes))
	curves := make([]Curve, n)
	for j := range curves {
		for i := range curves[j] {
			curves[j][i] = math.Sin(float64(j) + Node(i))
		}
	}
	var r Reach
	var e Envelope
	require.Zero(t, testing.AllocsPerRun(100, func() {
		c.Planes(columns, 0, planes)
		c.Pairs(sums, 0, stresses)
		c.At(values, columns, Spot{Point: section.Point{Y: 1, Z: 2}})
		c.Stress(columns, Spot{}, -1)
		c.Extreme(values, 1)
		c.Factors(factors, 0, values, 1)
		c.Shear(factors, 0, &r, values, free)
		c.PrincipalTension(factors, 0, &r, sums, free)
		c.Share(factors, 0, &r, sums, 1)
		e.Peak(curves, 1e-9, func(v []float64) float64 { return c.Extreme(v, 1) })
		curves[0].Peak()
		curves[0].Bound()
	}))
}
