package beam

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack/lapack64"
)

// leastPivot is the smallest ratio of a pivot to the diagonal it came from
// that counts as held. Stable beams of up to a hundred members in a span stay
// six decades above the rounding that a mechanism leaves; 1e-9 is between.
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

// assemble is the stiffness matrix of the whole beam: the band on and below
// the diagonal, which lapack64 works off faster than the one above.
func (b *Beam) assemble() blas64.SymmetricBand {
	width := b.bandwidth()
	band := blas64.SymmetricBand{
		Uplo: blas.Lower, N: b.unknowns, K: width, Stride: width + 1,
		Data: make([]float64, b.unknowns*(width+1)),
	}
	for i := range b.members {
		if m := &b.members[i]; !m.leftTip && !m.rightTip { // an overhang restrains nothing
			addMember(band, m, b.movements(i))
		}
	}
	for i := range b.nodes {
		n := &b.nodes[i]
		if n.support == held {
			continue
		}
		s := &b.layout.Supports[n.support]
		if n.up != held {
			band.Data[n.up*band.Stride+width] += s.Stiffness
		}
		if n.right != held {
			band.Data[n.right*band.Stride+width] += s.RotationalStiffness
		}
	}
	return band
}

// addMember adds a member between the unknowns of the given numbers.
func addMember(band blas64.SymmetricBand, m *member, numbers [4]int) {
	k := m.stiffness()
	for r, row := range numbers {
		if row == held {
			continue
		}
		line := band.Data[row*band.Stride : (row+1)*band.Stride]
		for c, column := range numbers[:r+1] {
			if column == held {
				continue
			}
			if column <= row {
				line[band.K-row+column] += k[r][c]
			} else { // at a hinge the rotation comes first
				band.Data[column*band.Stride+band.K-column+row] += k[r][c]
			}
		}
	}
}

// factorise assembles and factorises the stiffness matrix and refuses a
// mechanism. lapack64 is called on the raw band: see leastPivot for the test.
func (b *Beam) factorise() error {
	if b.unknowns == 0 {
		return nil
	}
	band := b.assemble()
	diagonal := make([]float64, b.unknowns)
	for i := range diagonal {
		diagonal[i] = band.Data[i*band.Stride+band.K]
		if !positive(diagonal[i]) {
			return b.mechanism(i)
		}
	}
	factor, ok := lapack64.Pbtrf(band)
	for i, k := range diagonal {
		pivot := factor.Data[i*factor.Stride+factor.K]
		if !ok && !(pivot > 0) || ok && !(pivot*pivot > leastPivot*k) {
			return b.mechanism(i)
		}
		factor.Data[i*factor.Stride+factor.K] = 1 / pivot // what solve needs of it
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
	return fmt.Errorf("%w: mechanism, or nearly one: the beam can %s at %g m; it is supported by %s: must be a layout that supports every part",
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
		if s.Fixed {
			kind += ", fixed,"
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

// solve overwrites the right-hand side with the movements: L·Lᵀ·x = right. The
// two substitutions are written out because lapack64.Pbtrs calls a kernel for
// every row of three numbers and takes five times as long.
func (b *Beam) solve(right []float64) {
	f := &b.factor
	for i := range right {
		first := max(0, i-f.K)
		row := f.Data[i*f.Stride+f.K-i+first : (i+1)*f.Stride]
		last := len(row) - 1
		sum := right[i]
		for j, l := range row[:last] {
			sum -= l * right[first+j]
		}
		right[i] = sum * row[last]
	}
	for i := len(right) - 1; i >= 0; i-- {
		first := max(0, i-f.K)
		row := f.Data[i*f.Stride+f.K-i+first : (i+1)*f.Stride]
		last := len(row) - 1
		x := right[i] * row[last]
		for j, l := range row[:last] {
			right[first+j] -= l * x
		}
		right[i] = x
	}
}
