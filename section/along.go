package section

import (
	"reflect"
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

// missing is true for nil and for a nil pointer in an Along, which has no section
// to give.
func missing(along Along) bool {
	if along == nil {
		return true
	}
	v := reflect.ValueOf(along)
	return v.Kind() == reflect.Pointer && v.IsNil()
}

// Lengths of elements within which sums along them keep their digits.
const (
	shortestElement = 1e-6 // m
	longestElement  = 1e9  // m
)

// ends is 0, the breaks in order, and length; nil when there is no length. What is
// between breaks that are as one by rounding adds nothing.
func ends(along Along, length float64) []float64 {
	if missing(along) || !(length >= shortestElement && length <= longestElement) {
		return nil
	}
	breaks := append([]float64(nil), along.Breaks()...)
	sort.Float64s(breaks)
	ends, gap := []float64{0}, onTheLine*length
	for _, x := range breaks {
		if x > ends[len(ends)-1]+gap && x < length-gap {
			ends = append(ends, x)
		}
	}
	return append(ends, length)
}
