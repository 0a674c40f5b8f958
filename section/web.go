package section

import "math"

// web is a plane web of even thickness; u is measured outwards from the axis.
type web struct {
	foot      float64 // u of its outer face at z = 0, m
	slope     float64 // du/dz
	thickness float64 // square to its faces, m
}

func (w web) outer(z float64) float64 { return w.foot + w.slope*z }

func (w web) inner(z float64) float64 { return w.outer(z) - w.thickness*math.Hypot(1, w.slope) }

func (w web) centre(z float64) float64 { return (w.outer(z) + w.inner(z)) / 2 }

// under is where the inner face meets the line z = level + rise·u.
func (w web) under(level, rise float64) Point {
	z := (level + rise*w.inner(0)) / (1 - rise*w.slope)
	return Point{w.inner(z), z}
}

// ceiling is the inner corner under a slab whose lower face is the line
// z = level + rise·u, from the web inwards, with its haunch.
func (w web) ceiling(level, rise float64, haunch Haunch) []Point {
	corner := w.under(level, rise)
	if haunch.Width == 0 {
		return []Point{corner}
	}
	down, in := corner.Z-haunch.Height, corner.Y-haunch.Width
	return []Point{{w.inner(down), down}, {in, level + rise*in}}
}

// floor is the inner corner on a level slab, from the slab up the web, with its
// haunch.
func (w web) floor(level float64, haunch Haunch) []Point {
	if haunch.Width == 0 {
		return []Point{{w.inner(level), level}}
	}
	up := level + haunch.Height
	return []Point{{w.inner(level) - haunch.Width, level}, {w.inner(up), up}}
}

// rightwards turns distances u to the right of the axis into places.
func rightwards(points []Point) []Point {
	places := make([]Point, len(points))
	for i, p := range points {
		places[i] = Point{-p.Y, p.Z}
	}
	return places
}

// around closes a right and a left run of corners, both from bottom to top with
// the distance from the axis as Y, into one outline.
func around(right, left []Point) Outline {
	outline := Outline(rightwards(right))
	for i := len(left) - 1; i >= 0; i-- {
		outline = append(outline, left[i])
	}
	return outline.unrepeated()
}

// unrepeated drops corners that are where the one before is: a dimension
// of zero makes them.
func (o Outline) unrepeated() Outline {
	var kept Outline
	for i, p := range o {
		if p != o[(i+len(o)-1)%len(o)] {
			kept = append(kept, p)
		}
	}
	return kept
}
