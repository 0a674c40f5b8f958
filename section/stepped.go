package section

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
)

// farthest is beyond the end of any element (m).
const farthest = 10000

// Stretch is a part of an element's length with one law for its section.
type Stretch struct {
	Until   float64 // x of its right end, m, up to 10 km
	Section Along   // within the stretch; its x is that of the element, not of the stretch
}

// Stepped is sections end to end: the first stretch begins at x = 0, each further one
// at the end of the one before. A solid diaphragm is a stretch whose section is
// [Shape.Filled].
type Stepped []Stretch

// Along is the sections as one. The error wraps [ErrShape] when there is no stretch, a
// right end is out of range or not beyond the one before, or a section is missing or
// empty. The last section continues beyond the last end.
func (s Stepped) Along() (Along, error) {
	if len(s) == 0 {
		return nil, fmt.Errorf("%w: Stepped has no stretch: must be at least one", ErrShape)
	}
	before := 0.0
	for i, stretch := range s {
		if !(stretch.Until > before && stretch.Until <= farthest) {
			return nil, fmt.Errorf("%w: Stepped: stretch %d: Until = %g m: must be beyond %g m, up to %d m%s", ErrShape, i+1, stretch.Until, before, farthest, formula.Misread(stretch.Until, "m", before, farthest))
		}
		if missing(stretch.Section) || stretch.Section.At((before+stretch.Until)/2).Empty() {
			return nil, fmt.Errorf("%w: Stepped: stretch %d: Section is empty: must be a shape with area", ErrShape, i+1)
		}
		before = stretch.Until
	}
	return steps(append(Stepped(nil), s...)), nil
}

// steps is a checked Stepped.
type steps Stepped

func (s steps) At(x float64) Shape {
	for _, stretch := range s[:len(s)-1] {
		if x < stretch.Until {
			return stretch.Section.At(x)
		}
	}
	return s[len(s)-1].Section.At(x)
}

func (s steps) Breaks() []float64 {
	var breaks []float64
	before := 0.0
	for i, stretch := range s {
		for _, x := range stretch.Section.Breaks() {
			if x > before && (x < stretch.Until || i == len(s)-1) {
				breaks = append(breaks, x)
			}
		}
		if i < len(s)-1 {
			breaks = append(breaks, stretch.Until)
		}
		before = stretch.Until
	}
	return breaks
}

// Filled is the shape without its voids: a solid diaphragm.
func (s Shape) Filled() Shape {
	return Shape{outlines: s.outlines[:s.solids:s.solids], solids: s.solids, kept: new(kept)}
}
