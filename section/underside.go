package section

import (
	"cmp"
	"math"
	"slices"
)

// Underside is a face of the concrete that faces downwards, on a vertical line: a
// possible bearing face of a pad.
type Underside struct {
	Z     float64 // of the face on the line, m
	Slope float64 // dz/dy of the face
}

// Undersides are the faces of the concrete that face downwards on the vertical line at
// y (m), the lowest first, those of voids among them; on a line through a corner, the
// faces on both sides of it. None where the line misses the concrete.
func (s Shape) Undersides(y float64) []Underside {
	return s.facesAt(y, 1) // solids run anticlockwise and voids clockwise: what looks down runs to +y
}

// Top is the level of the highest concrete on the vertical line at y (m); ok is false
// where the line misses the concrete.
func (s Shape) Top(y float64) (z float64, ok bool) {
	list := s.facesAt(y, -1)
	if len(list) == 0 {
		return 0, false
	}
	return list[len(list)-1].Z, true
}

// facesAt are the faces on the vertical line at y whose edge runs to +y or −y, the lowest
// first.
func (s Shape) facesAt(y, way float64) []Underside {
	var list []Underside
	for _, o := range s.outlines {
		for i, a := range o {
			b := o.next(i)
			near := 1e-9 * (math.Abs(a.Y) + math.Abs(b.Y))
			if way*(b.Y-a.Y) > near && y >= math.Min(a.Y, b.Y)-near && y <= math.Max(a.Y, b.Y)+near {
				slope := (b.Z - a.Z) / (b.Y - a.Y)
				list = append(list, Underside{Z: a.Z + slope*(y-a.Y), Slope: slope})
			}
		}
	}
	slices.SortFunc(list, func(a, b Underside) int { return cmp.Compare(a.Z, b.Z) })
	return list
}
