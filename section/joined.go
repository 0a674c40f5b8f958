package section

import (
	"fmt"
	"math"
)

// Mirrored is the shape seen in a mirror on the z axis: y becomes −y.
func (s Shape) Mirrored() Shape {
	image := Shape{solids: s.solids, outlines: make([]Outline, len(s.outlines)), kept: new(kept)}
	for k, outline := range s.outlines {
		back := make(Outline, len(outline))
		for i, p := range outline {
			back[len(outline)-1-i] = Point{-p.Y, p.Z}
		}
		image.outlines[k] = back
	}
	return image
}

// Moved is the shape moved by the vector by (m). The error wraps [ErrShape] when
// beyond the range of coordinates.
func (s Shape) Moved(by Point) (Shape, error) {
	outlines := copies(s.outlines)
	for k, outline := range outlines {
		for i := range outline {
			outline[i] = Point{outline[i].Y + by.Y, outline[i].Z + by.Z}
		}
		if err := finite(outline, outlineLabel(k, s.solids)); err != nil {
			return Shape{}, err
		}
	}
	return Shape{outlines: outlines, solids: s.solids, kept: new(kept)}, nil
}

// Joined makes one shape of parts that meet along straight edges without
// overlapping, such as two half beams and the stitch between them; edges that
// two parts share vanish. Edges closer than a millionth of the whole count as
// shared. The error wraps [ErrShape] when parts overlap, or when one of them
// does not meet the others along an edge: it names a place.
func Joined(parts ...Shape) (Shape, error) {
	whole, err := cancel(parts)
	if err != nil {
		return Shape{}, err
	}
	var solids, voids []Outline
	for _, loop := range whole.loops() {
		if loop.twiceArea() > 0 {
			solids = append(solids, loop)
		} else {
			voids = append(voids, loop)
		}
	}
	joined, err := New(solids, voids)
	if err != nil {
		return Shape{}, fmt.Errorf("joined parts: %w", err)
	}
	if len(solids) > 1 {
		return Shape{}, fmt.Errorf("%w: joined parts: the one at y = %.4g m, z = %.4g m does not meet that at y = %.4g m, z = %.4g m: must be parts that share an edge",
			ErrShape, solids[1][0].Y, solids[1][0].Z, solids[0][0].Y, solids[0][0].Z)
	}
	return joined, nil
}

// seams is the directed edges that remain when shared ones are gone, between
// numbered places.
type seams struct {
	places []Point
	next   map[int][]int // ends of the edges that begin at a place
	gap    float64
}

// cancel cuts every edge at the corners that are on it and drops pairs of
// pieces that run opposite ways: concrete is on both sides of them.
func cancel(parts []Shape) (seams, error) {
	var outlines []Outline
	for i, part := range parts {
		if part.Empty() {
			return seams{}, fmt.Errorf("%w: joined part %d is empty: must be shapes with area", ErrShape, i+1)
		}
		outlines = append(outlines, part.outlines...)
	}
	if len(outlines) == 0 {
		return seams{}, fmt.Errorf("%w: no parts to join: must be at least one", ErrShape)
	}
	s := seams{next: map[int][]int{}, gap: thinnest * extent(outlines)}
	numbered := make([][]int, len(outlines))
	for k, outline := range outlines {
		for _, p := range outline {
			numbered[k] = append(numbered[k], s.number(p))
		}
	}
	if len(s.places) > mostCorners {
		return seams{}, fmt.Errorf("%w: %d corners in all parts: must be at most %d", ErrShape, len(s.places), mostCorners)
	}
	for _, outline := range numbered {
		for i, from := range outline {
			if err := s.add(from, outline[(i+1)%len(outline)]); err != nil {
				return seams{}, err
			}
		}
	}
	return s, nil
}

// number is the index of the place at p, a new one if none is within the gap.
func (s *seams) number(p Point) int {
	for i, q := range s.places {
		if math.Hypot(p.Y-q.Y, p.Z-q.Z) <= s.gap {
			return i
		}
	}
	s.places = append(s.places, p)
	return len(s.places) - 1
}

// add lays the edge from one place to another in pieces between the places on
// it, each against any that runs the other way.
func (s *seams) add(from, to int) error {
	for from != to {
		near := s.nearest(from, to)
		if s.remove(near, from) {
			from = near
			continue
		}
		for _, end := range s.next[from] {
			if end == near {
				return fmt.Errorf("%w: joined parts overlap at the edge from y = %.4g m, z = %.4g m: must be parts side by side",
					ErrShape, s.places[from].Y, s.places[from].Z)
			}
		}
		s.next[from] = append(s.next[from], near)
		from = near
	}
	return nil
}

// nearest is the first place on the way from one place to another.
func (s *seams) nearest(from, to int) int {
	nearest, a, b := to, s.places[from], s.places[to]
	least := dot(b.minus(a), b.minus(a))
	for i, p := range s.places {
		if i == from || i == to || pointToEdge(p, a, b) > s.gap {
			continue
		}
		if d := dot(p.minus(a), p.minus(a)); d < least {
			nearest, least = i, d
		}
	}
	return nearest
}

// remove takes the edge out, if it is there.
func (s *seams) remove(from, to int) bool {
	for i, end := range s.next[from] {
		if end == to {
			s.next[from] = append(s.next[from][:i], s.next[from][i+1:]...)
			return true
		}
	}
	return false
}

// loops are the closed runs of the remaining edges, without corners that are
// straight between their neighbours.
func (s *seams) loops() []Outline {
	var loops []Outline
	for start := range s.places {
		for len(s.next[start]) > 0 {
			var loop Outline
			for at := start; len(s.next[at]) > 0; {
				loop = append(loop, s.places[at])
				end := s.next[at][0]
				s.remove(at, end)
				at = end
			}
			if loop = loop.straightened(s.gap); len(loop) > 2 {
				loops = append(loops, loop)
			}
		}
	}
	return loops
}
