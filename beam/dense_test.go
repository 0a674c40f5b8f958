package beam

import (
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"github.com/tempstage/tempstage/loads"
)

// onSprings is n spans of 12 m on springs: two unknowns at every node.
func onSprings(n int) (Layout, loads.Set) {
	layout := Layout{Length: 12 * float64(n), Stiffness: []Stretch{{BendingStiffness: 3e10}}}
	for i := range n + 1 {
		layout.Supports = append(layout.Supports, Support{At: 12 * float64(i), Stiffness: 5e8})
	}
	return layout, loads.Set{Lines: []loads.Line{loads.Uniform(0, layout.Length, 80e3)}}
}

// dense solves the same beam with a full matrix: what the band saves.
func dense(b *Beam, right []float64) (*mat.VecDense, error) {
	band := b.assemble()
	full := mat.NewSymDense(b.unknowns, nil)
	for i := range b.unknowns {
		for j := max(0, i-band.K); j <= i; j++ {
			full.SetSym(i, j, band.Data[i*band.Stride+band.K-i+j])
		}
	}
	var factor mat.Cholesky
	factor.Factorize(full)
	var moved mat.VecDense
	return &moved, factor.SolveVecTo(&moved, mat.NewVecDense(len(right), right))
}

// loaded is the right-hand side of a set of loads.
func loaded(t testing.TB, b *Beam, set loads.Set) []float64 {
	t.Helper()
	pieces := b.cut(set)
	nodal := make([]state, len(b.nodes))
	require.NoError(t, b.apply(set, pieces, nodal))
	right := make([]float64, b.unknowns)
	b.rightHandSide(right, nodal, b.particulars(pieces, nodal), nil)
	return right
}

func TestBandedSolutionIsTheDenseOne(t *testing.T) {
	layout, set := onSprings(30)
	b, err := New(layout)
	require.NoError(t, err)
	r, err := b.Solve(set)
	require.NoError(t, err)
	moved, err := dense(b, loaded(t, b, set))
	require.NoError(t, err)
	for i, n := range b.nodes {
		require.InEpsilon(t, moved.AtVec(n.up), r.Deflection(n.x), 1e-9, "node %d", i)
	}
}

// Two hundred nodes with two unknowns each: assembling, factorising and
// solving by the band and by the full matrix, and all of it from New to the
// response.
func BenchmarkTwoHundredNodes(b *testing.B) {
	layout, set := onSprings(199)
	prepared, err := New(layout)
	if err != nil {
		b.Fatal(err)
	}
	right := loaded(b, prepared, set)
	moved := make([]float64, len(right))
	b.Run("banded", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if err := prepared.factorise(); err != nil {
				b.Fatal(err)
			}
			copy(moved, right)
			prepared.solve(moved)
		}
	})
	b.Run("dense mat.Cholesky", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := dense(prepared, right); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("banded, from New to the response", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			prepared, err := New(layout)
			if err != nil {
				b.Fatal(err)
			}
			if _, err := prepared.Solve(set); err != nil {
				b.Fatal(err)
			}
		}
	})
}
