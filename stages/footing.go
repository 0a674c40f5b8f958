package stages

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
)

// Permissible distances of a support from the face on which it bears, common practice
// without a source: packing below it, bed of mortar, fall of a soffit to both sides of
// its lowest corner, slope on which a pad does not slide.
const (
	packing     = 0.5  // m
	bedding     = 0.02 // m
	soffitFall  = 0.1
	steepest    = 0.2
	aboveLift   = 2.0 // m, of a lift point above the concrete: a pin over the slab
	belowLift   = 1.0 // m, of a lift point below it: a sling around the soffit
	hairOfPlace = 1e-9
)

// bears is true for a support that pushes on a face of the concrete; the others hang
// on it or are cast with it.
func (s Support) bears() bool {
	return !s.Fixed && s.Role != LiftPoint && s.Role != Tie
}

// footed are the supports with the level of the face on which each bears; an error
// where one is off the concrete that is carried, without a bracket. A level of 0 is
// that of the soffit.
func (h *History) footed(supports []Support) ([]Support, error) {
	list := slices.Clone(supports)
	for i, s := range list {
		if s.Bracket {
			continue
		}
		z, err := h.foot(s)
		if err != nil {
			return nil, fmt.Errorf("support %d at x = %g m: %w", i+1, s.X, err)
		}
		list[i].Z = z
	}
	return list, nil
}

// foot is the level of a support on the concrete (m).
func (h *History) foot(s Support) (float64, error) {
	shapes := h.carriedAt(s.X)
	if len(shapes) == 0 {
		return 0, fmt.Errorf("field X = %g m: no piece is carried there: must be at a piece that is", s.X)
	}
	low, high := extent(shapes)
	faces := undersides(shapes, s.Y)
	switch {
	case len(faces) == 0:
		return 0, fmt.Errorf("field Y = %g m: the concrete is at y = %.3g to %.3g m: must be on the concrete", s.Y, low.Y, high.Y)
	case !s.bears() && !(s.Z >= faces[0].Z-belowLift && s.Z <= highest(shapes, s.Y)+aboveLift):
		return 0, fmt.Errorf("field Z = %g m of a %s: the concrete at y = %g m is at z = %.3g to %.3g m: must be on it, at most %g m above or %g m below", s.Z, s.word(), s.Y, faces[0].Z, highest(shapes, s.Y), aboveLift, belowLift)
	case !s.bears():
		return s.Z, nil
	case s.Z == 0:
		return s.onSoffit(faces, shapes)
	}
	for _, f := range faces {
		if s.Z <= f.Z+bedding && s.Z >= f.Z-packing && math.Abs(f.Slope) <= steepest {
			return s.Z, nil
		}
	}
	return 0, fmt.Errorf("field Z = %g m of a %s at y = %g m: the faces that look down are at %s: must be at one of them, at most %g m of packing below", s.Z, s.word(), s.Y, levels(faces), packing)
}

// onSoffit is the level of the lowest face where it is that of the soffit (m).
func (s Support) onSoffit(faces []section.Underside, shapes []section.Shape) (float64, error) {
	lowest := section.Point{Z: math.Inf(1)}
	for _, shape := range shapes {
		for _, c := range shape.Corners() {
			if c.Z < lowest.Z || c.Z == lowest.Z && math.Abs(c.Y-s.Y) < math.Abs(lowest.Y-s.Y) {
				lowest = c
			}
		}
	}
	for _, f := range faces {
		if f.Z > lowest.Z+bedding+soffitFall*math.Abs(s.Y-lowest.Y) {
			break
		}
		if math.Abs(f.Slope) <= steepest {
			return f.Z, nil
		}
	}
	return 0, fmt.Errorf("field Y = %g m of a %s: the faces that look down are at %s, the soffit at z = %.3f m: must be on the soffit, or Z must be stated where another face is meant", s.Y, s.word(), levels(faces), lowest.Z)
}

// levels are the faces in words.
func levels(faces []section.Underside) string {
	words := ""
	for i, f := range faces {
		if i > 0 {
			words += ", "
		}
		words += fmt.Sprintf("z = %.3f m", f.Z)
		if math.Abs(f.Slope) > steepest {
			words += " (too steep)"
		}
	}
	return words
}

// carriedAt are the sections at x of the pieces that are carried, on both sides of a
// step or a joint.
func (h *History) carriedAt(x float64) (shapes []section.Shape) {
	hair := hairOfPlace * h.Girder.Length()
	for _, p := range h.Girder.Pieces {
		if x < p.At-h.Girder.near() || x > p.To()+h.Girder.near() || !slices.Contains(h.Added, p.Element.Mark) {
			continue
		}
		for _, at := range [2]float64{x - p.At - hair, x - p.At + hair} {
			shapes = append(shapes, p.Element.Section.At(math.Min(math.Max(at, 0), p.Element.Length)))
		}
	}
	return shapes
}

// extent are the least and the greatest y and z of the shapes (m).
func extent(shapes []section.Shape) (low, high section.Point) {
	low, high = section.Point{Y: math.Inf(1), Z: math.Inf(1)}, section.Point{Y: math.Inf(-1), Z: math.Inf(-1)}
	for _, shape := range shapes {
		for _, c := range shape.Corners() {
			low.Y, low.Z = math.Min(low.Y, c.Y), math.Min(low.Z, c.Z)
			high.Y, high.Z = math.Max(high.Y, c.Y), math.Max(high.Z, c.Z)
		}
	}
	return low, high
}

// highest is the level of the highest concrete at y, of any of the shapes (m).
func highest(shapes []section.Shape, y float64) float64 {
	most := math.Inf(-1)
	for _, shape := range shapes {
		if z, ok := shape.Top(y); ok {
			most = math.Max(most, z)
		}
	}
	return most
}

// undersides are the faces that look down at y, of any of the shapes, the lowest first.
func undersides(shapes []section.Shape, y float64) (faces []section.Underside) {
	for _, shape := range shapes {
		for _, f := range shape.Undersides(y) {
			if !slices.Contains(faces, f) {
				faces = append(faces, f)
			}
		}
	}
	slices.SortFunc(faces, func(a, b section.Underside) int { return cmp.Compare(a.Z, b.Z) })
	return faces
}
