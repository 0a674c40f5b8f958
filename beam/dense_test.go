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
func dense(b *Beam, set loads.Set) (*mat.VecDense, error) {
	band := b.assemble()
	full := mat.NewSymDense(b.unknowns, nil)
	for i := range b.unknowns {
		for j := i; j < b.unknowns; j++ {
			full.SetSym(i, j, band.At(i, j))
		}
	}
	pieces := b.cut(set)
	nodal := make([]state, len(b.nodes))
	if err := b.apply(set, pieces, nodal); err != nil {
		return nil, err
	}
	right := make([]float64, b.unknowns)
	b.rightHandSide(right, nodal, b.particulars(pieces, nodal), nil)
	var factor mat.Cholesky
	factor.Factorize(full)
	var moved mat.VecDense
	return &moved, factor.SolveVecTo(&moved, mat.NewVecDense(len(right), right))
}

func TestBandedSolutionIsTheDenseOne(t *testing.T) {
	layout, set := onSprings(30)
	b, err := New(layout)
	require.NoError(t, err)
	r, err := b.Solve(set)
	require.NoError(t, err)
	moved, err := dense(b, set)
	require.NoError(t, err)
	for i, n := range b.nodes {
		require.InEpsilon(t, moved.AtVec(n.up), r.Deflection(n.x), 1e-9, "node %d", i)
	}
}

func BenchmarkTwoHundredNodes(b *testing.B) {
	layout, set := onSprings(199)
	b.Run("banded, assemble, factorise and solve", func(b *testing.B) {
		prepared, err := New(layout)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportAllocs()
		for b.Loop() {
			if err := prepared.factorise(); err != nil {
				b.Fatal(err)
			}
			pieces := prepared.cut(set)
			nodal := make([]state, len(prepared.nodes))
			if err := prepared.apply(set, pieces, nodal); err != nil {
				b.Fatal(err)
			}
			right := make([]float64, prepared.unknowns)
			prepared.rightHandSide(right, nodal, prepared.particulars(pieces, nodal), nil)
			prepared.solve(right)
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
	b.Run("dense mat.Cholesky, assemble, factorise and solve", func(b *testing.B) {
		prepared, err := New(layout)
		if err != nil {
			b.Fatal(err)
		}
		b.ReportAllocs()
		for b.Loop() {
			if _, err := dense(prepared, set); err != nil {
				b.Fatal(err)
			}
		}
	})
}
