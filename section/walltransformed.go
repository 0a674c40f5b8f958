package section

import "math"

// TransformedWalls are the walls of parts that act as one, each counted with its modular
// ratio: the flows are in equilibrium with bending on the properties of [Transformed].
// Across a cut through several parts the flow is shared as their thicknesses times their
// ratios. Round a cell and in torsion a wall counts with the mean ratio across it. The
// errors are those of [Transformed] and [Shape.Walls].
func TransformedWalls(pieces ...Piece) (Walls, error) {
	p, err := Transformed(pieces...)
	if err != nil {
		return Walls{}, err
	}
	parts, more := make([]Shape, len(pieces)), false
	for i, piece := range pieces {
		parts[i], more = piece.Shape, more || piece.ModularRatio != 1
	}
	whole, err := Joined(parts...)
	if err != nil {
		return Walls{}, err
	}
	if !more {
		return whole.Walls()
	}
	return whole.wallsWith(p, newUnlike(pieces, p.Centroid))
}

// unlike are parts whose modulus is not that of reference, from the centroid.
type unlike struct {
	parts []Shape
	more  []float64 // ratio of each, less 1
}

func newUnlike(pieces []Piece, origin Point) *unlike {
	u := &unlike{}
	for _, piece := range pieces {
		if piece.ModularRatio == 1 {
			continue
		}
		part := Shape{outlines: copies(piece.Shape.outlines), solids: piece.Shape.solids}
		for _, o := range part.outlines {
			for i := range o {
				o[i] = o[i].minus(origin)
			}
		}
		u.parts, u.more = append(u.parts, part), append(u.more, piece.ModularRatio-1)
	}
	return u
}

// over is the mean modular ratio on a line across a wall, 1 without parts, and the middle
// of what passes it, which is shared as the moduli.
func (u *unlike) over(a, b Point) (ratio float64, middle Point) {
	middle = between(a, b, 0.5)
	if u == nil {
		return 1, middle
	}
	length := distance(a, b)
	sum, y, z := length, length*middle.Y, length*middle.Z
	for k, part := range u.parts {
		for _, one := range part.Within(Cut{a, b}) {
			more, at := u.more[k]*one.Thickness(), between(one.From, one.To, 0.5)
			if one.Face { // along a seam: half in each
				more /= 2
			}
			sum, y, z = sum+more, y+more*at.Y, z+more*at.Z
		}
	}
	if !(length > 0) {
		return 1, middle
	}
	return sum / length, Point{y / sum, z / sum}
}

// passing is what passes the line from a to b towards its left of a field that comes out
// of the parts and runs towards +y: at each level what is in them short of the line.
func (u *unlike) passing(a, b Point) (q flows) {
	if u == nil || a.Z == b.Z {
		return q
	}
	for k, part := range u.parts {
		for _, o := range part.outlines {
			for i := range o {
				for c, v := range short(o[i], o.next(i), a, b) {
					q[c] -= u.more[k] * v
				}
			}
		}
	}
	return q
}

// short is ∫G dz along the line from a to b where the levels of an edge are, with
// G = y, y²/2, z·y at the edge or at the line, whichever has the smaller y; with the sign
// of an edge that goes up, the right one of what it bounds.
func short(from, to, a, b Point) (sum flows) {
	sense := 1.0
	if from.Z > to.Z {
		from, to, sense = to, from, -sense
	}
	if a.Z > b.Z {
		a, b, sense = b, a, -sense
	}
	low, high := math.Max(from.Z, a.Z), math.Min(to.Z, b.Z)
	if !(high > low) {
		return sum
	}
	level := func(p, q Point, z float64) float64 { return p.Y + (z-p.Z)/(q.Z-p.Z)*(q.Y-p.Y) }
	smaller := func(z float64) float64 { return math.Min(level(from, to, z), level(a, b, z)) }
	simpson := func(low, high float64) {
		for n, weight := range [3]float64{1. / 6, 4. / 6, 1. / 6} { // exact: of the second degree
			z := low + float64(n)/2*(high-low)
			y, w := smaller(z), sense*weight*(high-low)
			sum[0] += w * y
			sum[1] += w * y * y / 2
			sum[2] += w * z * y
		}
	}
	ahead, behind := level(from, to, low)-level(a, b, low), level(from, to, high)-level(a, b, high)
	if ahead*behind < 0 { // they cross
		at := low + ahead/(ahead-behind)*(high-low)
		simpson(low, at)
		low = at
	}
	simpson(low, high)
	return sum
}
