package section

import (
	"math"
	"sort"
)

// Along is a section along x: the shape at each x (m from the left end, just
// right of a step) and the places where it steps or changes its law. Between
// two breaks the corners must move at most quadratically in x.
type Along interface {
	At(x float64) Shape // the section at x (m), just right of a step
	Breaks() []float64  // ascending, m
}

// At is the shape itself: a Shape is a constant section along x.
func (s Shape) At(float64) Shape { return s }

// Breaks is empty: a constant section has none.
func (s Shape) Breaks() []float64 { return nil }

// AreaPiece is the area of a section along a stretch as a polynomial.
type AreaPiece struct {
	From, To     float64    // m
	Coefficients [5]float64 // area = Σ c[i]·(x−From)^i, m²; quartic because corners move at most quadratically
	Centroid     Point      // of the section at mid-stretch, m
}

// Areas is the area along 0 ≤ x ≤ length (m) in pieces between the breaks. It
// is exact for the laws that [Along] allows; the weight per length is density
// times it. It is nil when along is nil or the length is not finite and positive.
func Areas(along Along, length float64) []AreaPiece {
	ends := ends(along, length)
	pieces := make([]AreaPiece, 0, len(ends))
	for i := 1; i < len(ends); i++ {
		pieces = append(pieces, areaPiece(along, ends[i-1], ends[i]))
	}
	return pieces
}

// ends is 0, the breaks in order, and length; nil when there is no length.
func ends(along Along, length float64) []float64 {
	if along == nil || !(length > 0) || math.IsInf(length, 0) {
		return nil
	}
	breaks := append([]float64(nil), along.Breaks()...)
	sort.Float64s(breaks)
	ends := []float64{0}
	for _, x := range breaks {
		if x > ends[len(ends)-1] && x < length {
			ends = append(ends, x)
		}
	}
	return append(ends, length)
}

// areaPiece fits the quartic through five interior points by divided
// differences (Newton), then expands it in powers of x − from.
func areaPiece(along Along, from, to float64) AreaPiece {
	piece := AreaPiece{From: from, To: to, Centroid: along.At((from + to) / 2).Properties().Centroid}
	var at, difference [5]float64
	for i := range at {
		at[i] = (to - from) * float64(2*i+1) / 10
		difference[i] = along.At(from + at[i]).Properties().Area
	}
	for order := 1; order < 5; order++ {
		for i := 4; i >= order; i-- {
			difference[i] = (difference[i] - difference[i-1]) / (at[i] - at[i-order])
		}
	}
	for i := 4; i >= 0; i-- { // Horner: c ← c·(s − at[i]) + difference[i]
		for k := 4; k > 0; k-- {
			piece.Coefficients[k] = piece.Coefficients[k-1] - at[i]*piece.Coefficients[k]
		}
		piece.Coefficients[0] = difference[i] - at[i]*piece.Coefficients[0]
	}
	return piece
}
