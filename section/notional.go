package section

import (
	"fmt"
	"math"
)

// Face is an edge of a section that may dry.
type Face struct {
	From, To Point // m, with the concrete on the left
	Void     bool  // true inside a void
}

// AllFaces is 1 for every face, those of voids too; for [Shape.NotionalSize].
func AllFaces(Face) float64 { return 1 }

// OuterFaces is 1 for outer faces, 0 for those of voids; for [Shape.NotionalSize].
func OuterFaces(f Face) float64 {
	if f.Void {
		return 0
	}
	return 1
}

// NotionalSize is 2A/u for creep and drying (m). exposed is the share of each face that
// dries: 1, 0 for one that is sealed or cast against, 0.5 for a void that dries half as
// fast; nil is 1 for all. The error wraps [ErrShape] when the shape is empty, a share
// is not between 0 and 1, or nothing is exposed.
func (s Shape) NotionalSize(exposed func(Face) float64) (float64, error) {
	if s.Empty() {
		return 0, fmt.Errorf("%w: notional size of an empty shape: must be a shape with area", ErrShape)
	}
	if exposed == nil {
		exposed = AllFaces
	}
	drying := 0.0
	for k, o := range s.outlines {
		for i, a := range o {
			b := o.next(i)
			share := exposed(Face{a, b, k >= s.solids})
			if !(share >= 0 && share <= 1) {
				return 0, fmt.Errorf("%w: share %g of the face from y = %g m, z = %g m: must be 0 to 1", ErrShape, share, a.Y, a.Z)
			}
			drying += share * math.Hypot(b.Y-a.Y, b.Z-a.Z)
		}
	}
	if !(drying > thinnest*extent(s.outlines)) {
		return 0, fmt.Errorf("%w: notional size with no exposed face: must be at least one", ErrShape)
	}
	return 2 * s.Properties().Area / drying, nil
}
