package section

import "slices"

// bare is a shape without its idle corners, those that are straight between their
// neighbours. [New] keeps them: where a taper straightens a corner at one of its
// ends, corners still correspond in number and order.
type bare struct {
	Shape
	drawn   Shape   // with them
	corners [][]int // of each outline: the numbers that its corners have as drawn
}

func (s Shape) bare() bare {
	gap := onTheLine * extent(s.outlines)
	b := bare{drawn: s}
	for _, o := range s.outlines {
		b.corners = append(b.corners, turning(gap, o))
	}
	b.Shape = s.of(b.corners)
	return b
}

// of is the shape of some of its corners, itself when they are all.
func (s Shape) of(corners [][]int) Shape {
	some := Shape{solids: s.solids, kept: new(kept)}
	all := true
	for k, o := range s.outlines {
		some.outlines = append(some.outlines, o.of(corners[k]))
		all = all && len(o) == len(corners[k])
	}
	if all {
		return s
	}
	return some
}

func (o Outline) of(corners []int) Outline {
	some := make(Outline, len(corners))
	for i, number := range corners {
		some[i] = o[number]
	}
	return some
}

// turning are the numbers of the corners that are not within the gap of the line
// between their neighbours in every one of the outlines, whose corners correspond.
func turning(gap float64, outlines ...Outline) []int {
	left := make([]int, len(outlines[0]))
	for i := range left {
		left[i] = i
	}
	for i := 0; i < len(left) && len(left) > 2; {
		before, at, next := left[(i+len(left)-1)%len(left)], left[i], left[(i+1)%len(left)]
		if slices.ContainsFunc(outlines, func(o Outline) bool { return !(pointToEdge(o[at], o[before], o[next]) <= gap) }) {
			i++
		} else {
			left = slices.Delete(left, i, i+1)
		}
	}
	return left
}

// straightened drops corners within the gap of the line between their neighbours.
func (o Outline) straightened(gap float64) Outline { return o.of(turning(gap, o)) }

// piece is a part of a face of a bare shape: a face of another drawing of it.
type facePiece struct {
	face     int
	from, to float64 // its ends, as fractions of the bare face
}

// pieces are, for each face of the bare shape, those of the shape with the given
// corners of its drawing, all of its own among them.
func (b bare) pieces(corners [][]int) [][]facePiece {
	var faces [][]facePiece
	first := 0
	for k, o := range b.outlines {
		n := len(corners[k])
		for i := range o {
			at, _ := slices.BinarySearch(corners[k], b.corners[k][i])
			end, _ := slices.BinarySearch(corners[k], b.corners[k][(i+1)%len(o)])
			way := o.next(i).minus(o[i])
			var pieces []facePiece
			for from := 0.0; at != end; at = (at + 1) % n {
				to := 1.0
				if next := (at + 1) % n; next != end {
					to = dot(b.drawn.outlines[k][corners[k][next]].minus(o[i]), way) / dot(way, way)
				}
				pieces = append(pieces, facePiece{first + at, from, to})
				from = to
			}
			faces = append(faces, pieces)
		}
		first += n
	}
	return faces
}

// on is a spot of the bare shape on the faces of another drawing of it.
func (p spot) on(pieces [][]facePiece) spot {
	list := pieces[p.face]
	i, _ := slices.BinarySearchFunc(list[:len(list)-1], p.part, func(piece facePiece, part float64) int {
		if piece.to < part {
			return -1
		}
		return 1
	})
	return spot{list[i].face, (p.part - list[i].from) / (list[i].to - list[i].from), p.at}
}

// spots are those of the corners as drawn, in the order of [Shape.Corners].
func (b bare) spots(n *wallNet) []spot {
	var spots []spot
	first := 0
	for k, o := range b.drawn.outlines {
		own := b.corners[k]
		for number, p := range o {
			i, found := slices.BinarySearch(own, number)
			if !found {
				i = (i + len(own) - 1) % len(own)
			}
			part := 0.0
			if !found {
				f := &n.faces[first+i]
				part = distance(p, b.outlines[k][i]) / f.length
			}
			spots = append(spots, n.on(first+i, part))
		}
		first += len(own)
	}
	return spots
}
