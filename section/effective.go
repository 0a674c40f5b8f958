package section

import (
	"fmt"
	"math"
)

// Band is a rectangle of a section with its sides along y and z.
type Band struct {
	From, To Point // its corner of smallest y and z and its opposite corner, m, finite
}

// Without is the properties without the concrete that is in the bands, such as the
// parts of a flange beyond its effective width (see [EffectiveWidth]): exactly, for any
// outline inside them. Fibre distances reach to the corners of the whole shape,
// perimeters stay. The error wraps [ErrShape] when a band is not finite or has no area,
// two bands overlap, or no concrete is left.
func (s Shape) Without(bands ...Band) (Properties, error) {
	for i, b := range bands {
		size := b.To.minus(b.From)
		if !(size.Y > 0 && size.Z > 0) || math.IsInf(size.Y+size.Z, 0) {
			return Properties{}, fmt.Errorf("%w: band %d from y = %g m, z = %g m to y = %g m, z = %g m: must be finite, To above and to the left of From",
				ErrShape, i+1, b.From.Y, b.From.Z, b.To.Y, b.To.Z)
		}
		for j, other := range bands[:i] {
			if b.overlaps(other) {
				return Properties{}, fmt.Errorf("%w: band %d overlaps band %d at y = %g m, z = %g m: must be bands side by side", ErrShape, i+1, j+1, b.From.Y, b.From.Z)
			}
		}
	}
	whole := s.Properties()
	rest := whole
	for _, b := range bands {
		rest = rest.less(s.within(b).Properties())
	}
	if !(rest.Area > thinnest*whole.Area) {
		return Properties{}, fmt.Errorf("%w: %g m² of %g m² left outside the bands: must be some concrete left", ErrShape, rest.Area, whole.Area)
	}
	shift := rest.Centroid.minus(whole.Centroid)
	rest.Top, rest.Bottom = whole.Top-shift.Z, whole.Bottom+shift.Z
	rest.Left, rest.Right = whole.Left-shift.Y, whole.Right+shift.Y
	return rest, nil
}

func (b Band) overlaps(c Band) bool {
	return b.From.Y < c.To.Y && c.From.Y < b.To.Y && b.From.Z < c.To.Z && c.From.Z < b.To.Z
}

// less takes the area of q out of p; the rest stays as in p.
func (p Properties) less(q Properties) Properties {
	area := p.Area - q.Area
	d := q.Centroid.minus(p.Centroid)
	y, z := -q.Area*d.Y/area, -q.Area*d.Z/area
	p.SecondMomentY -= q.SecondMomentY + q.Area*d.Z*d.Z + area*z*z
	p.SecondMomentZ -= q.SecondMomentZ + q.Area*d.Y*d.Y + area*y*y
	p.ProductMoment -= q.ProductMoment + q.Area*d.Y*d.Z + area*y*z
	p.Area, p.Centroid = area, Point{p.Centroid.Y + y, p.Centroid.Z + z}
	return p
}

// within is the part of the shape in a band. Its outlines may run back along the
// band's sides, where they enclose nothing, so it serves for area integrals only.
func (s Shape) within(b Band) Shape {
	part := Shape{solids: s.solids}
	for _, o := range s.outlines {
		o = o.beyond(Point{Y: 1}, b.From.Y).beyond(Point{Y: -1}, -b.To.Y).beyond(Point{Z: 1}, b.From.Z).beyond(Point{Z: -1}, -b.To.Z)
		if len(o) > 2 {
			part.outlines = append(part.outlines, o)
		}
	}
	if len(part.outlines) == 0 || part.area() <= 1e-12*s.area() { // rounding: the band is in a void
		return Shape{}
	}
	return part
}

func (s Shape) area() float64 {
	sum := 0.0
	for _, o := range s.outlines {
		sum += o.twiceArea() / 2
	}
	return sum
}

// beyond cuts an outline at the line normal·(y, z) = offset and keeps what is
// on its far side (Sutherland and Hodgman, 1974).
func (o Outline) beyond(normal Point, offset float64) Outline {
	var kept Outline
	for i, a := range o {
		b := o.next(i)
		da, db := dot(normal, a)-offset, dot(normal, b)-offset
		if da >= 0 {
			kept = append(kept, a)
		}
		if (da >= 0) != (db >= 0) {
			kept = append(kept, between(a, b, da/(da-db)))
		}
	}
	return kept
}
