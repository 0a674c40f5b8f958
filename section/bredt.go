package section

import (
	"fmt"
	"math"
)

// Bredt is the torsion constant 4·A²/∮(ds/t) of a closed thin wall (m⁴): A is the
// area inside its middle line, thickness (m, up to 200) is one for each side of the middle
// line, from the corner with the same number on, or a single one for all (Bredt
// 1896). It is a hand check: concrete boxes have 7 to 12 % more, see
// [Shape.Torsion]. The error wraps [ErrShape] when the middle line is not an
// outline or a thickness is out of range.
func Bredt(middle Outline, thickness ...float64) (float64, error) {
	if err := validate([]Outline{middle}, nil); err != nil {
		return 0, fmt.Errorf("middle line: %w", err)
	}
	if len(thickness) != 1 && len(thickness) != len(middle) {
		return 0, fmt.Errorf("%w: %d thicknesses for a middle line of %d sides: must be one or one for each", ErrShape, len(thickness), len(middle))
	}
	slenderness := 0.0
	for i, a := range middle {
		t := thickness[i%len(thickness)]
		if err := positive("Bredt", dimension{fmt.Sprintf("thickness[%d]", i%len(thickness)), t}); err != nil {
			return 0, err
		}
		b := middle.next(i)
		slenderness += math.Hypot(b.Y-a.Y, b.Z-a.Z) / t
	}
	area := middle.twiceArea() / 2
	return 4 * area * area / slenderness, nil
}

// Bredt is the torsion constant of the cell alone by Bredt's formula (m⁴), with
// even slabs and webs and without haunches and cantilevers; see [Bredt]. The
// error is that of [Box.Shape].
func (b Box) Bredt() (float64, error) {
	if _, err := b.Shape(); err != nil {
		return 0, err
	}
	right, left := b.side(-1), b.side(1)
	ends := func(s boxSide) []Point {
		middle := s.web
		middle.foot, middle.thickness = middle.foot-middle.thickness/2*math.Hypot(1, middle.slope), 0
		return []Point{{middle.inner(b.BottomSlab / 2), b.BottomSlab / 2}, middle.under(b.Depth-b.TopSlab/2, s.rise)}
	}
	return Bredt(around(ends(right), ends(left)), right.web.thickness, b.TopSlab, left.web.thickness, b.BottomSlab)
}

// Strip is a thin wall of an open section.
type Strip struct {
	Length    float64 // m, positive, up to 10 km
	Thickness float64 // m, positive, up to 200
}

// ThinWalled is the torsion constant Σ l·t³/3 of an open section of thin walls
// (m⁴), a hand check like [Bredt]. The error wraps [ErrShape] when a length or a
// thickness is out of range.
func ThinWalled(strips ...Strip) (float64, error) {
	sum := 0.0
	for i, s := range strips {
		if err := positive(fmt.Sprintf("strips[%d]", i), dimension{"Thickness", s.Thickness}); err != nil {
			return 0, err
		}
		if !(s.Length > 0 && s.Length <= largestCoordinate) {
			return 0, fmt.Errorf("%w: strips[%d].Length = %g m: must be positive, up to %g m", ErrShape, i, s.Length, float64(largestCoordinate))
		}
		sum += s.Length * s.Thickness * s.Thickness * s.Thickness / 3
	}
	return sum, nil
}
