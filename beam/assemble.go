package beam

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"
)

// leastPivot is the smallest ratio of a pivot to the diagonal it came from
// that counts as held. Stable beams of up to a hundred members in a span stay
// six decades above the rounding that a mechanism leaves; 1e-9 lies between.
const leastPivot = 1e-9

// bandwidth is how far apart two unknowns that meet in a member can be.
func (b *Beam) bandwidth() int {
	widest := 0
	for i := range b.members {
		first, last := b.unknowns, 0
		for _, n := range b.movements(i) {
			if n != held {
				first, last = min(first, n), max(last, n)
			}
		}
		widest = max(widest, last-first)
	}
	return widest
}

// assemble is the stiffness matrix of the whole beam.
func (b *Beam) assemble() *mat.SymBandDense {
	matrix := mat.NewSymBandDense(b.unknowns, b.bandwidth(), nil)
	band := matrix.RawSymBand()
	add := func(i, j int, k float64) { band.Data[i*band.Stride+j-i] += k }
	for i := range b.members {
		if b.members[i].leftTip || b.members[i].rightTip {
			continue // an overhang holds nothing
		}
		k := b.members[i].stiffness()
		numbers := b.movements(i)
		for r, row := range numbers {
			if row == held {
				continue
			}
			for c := r; c < 4; c++ {
				if column := numbers[c]; column != held {
					add(min(row, column), max(row, column), k[r][c])
				}
			}
		}
	}
	for _, n := range b.nodes {
		if n.support == held {
			continue
		}
		s := b.layout.Supports[n.support]
		if n.up != held {
			add(n.up, n.up, s.Stiffness)
		}
		if n.right != held {
			add(n.right, n.right, s.RotationalStiffness)
		}
	}
	return matrix
}

// factorise assembles and factorises the stiffness matrix and refuses a
// mechanism. lapack64 is called on the raw band: see leastPivot for the test.
func (b *Beam) factorise() error {
	if b.unknowns == 0 {
		return nil
	}
	band := b.assemble().RawSymBand()
	diagonal := make([]float64, b.unknowns)
	for i := range diagonal {
		diagonal[i] = band.Data[i*band.Stride]
		if !positive(diagonal[i]) {
			return b.mechanism(i)
		}
	}
	factor, ok := lapack64.Pbtrf(band)
	for i, k := range diagonal {
		pivot := factor.Data[i*factor.Stride]
		if !ok && !(pivot > 0) || ok && !(pivot*pivot > leastPivot*k) {
			return b.mechanism(i)
		}
	}
	b.factor = factor
	return nil
}

// mechanism is the error that unknown number i is not held.
func (b *Beam) mechanism(i int) error {
	place := 0.0
	movement := "rotate"
	for _, n := range b.nodes {
		if n.up == i || n.left == i || n.right == i {
			place = n.x
			if n.up == i {
				movement = "move up and down"
			}
		}
	}
	return fmt.Errorf("%w: mechanism, or nearly one: the beam can %s at %g m; it is held by %s: allowed a layout that holds every part",
		ErrBeam, movement, place, b.layout.describe())
}

// describe is the support layout in words.
func (l Layout) describe() string {
	var words []string
	for _, s := range l.Supports {
		kind := "rigid support"
		if s.Stiffness > 0 {
			kind = fmt.Sprintf("spring of %g N/m", s.Stiffness)
		}
		if s.Clamped {
			kind += ", clamped,"
		}
		if s.RotationalStiffness > 0 {
			kind += fmt.Sprintf(" with %g N·m/rad", s.RotationalStiffness)
		}
		words = append(words, fmt.Sprintf("%s at %g m", kind, s.At))
	}
	for _, h := range l.Hinges {
		words = append(words, fmt.Sprintf("hinge at %g m", h))
	}
	const most = 12
	if len(words) > most {
		words = append(words[:most], fmt.Sprintf("and %d more", len(words)-most))
	}
	return strings.Join(words, "; ")
}

// solve overwrites the right-hand side with the movements.
func (b *Beam) solve(right []float64) {
	if b.unknowns == 0 {
		return
	}
	lapack64.Pbtrs(b.factor, blas64.General{Rows: b.unknowns, Cols: 1, Stride: 1, Data: right})
}
