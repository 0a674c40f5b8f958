package section

import (
	"errors"
	"fmt"
	"math"
)

// ErrShape is wrapped by every error about a section that is not as it must be.
var ErrShape = errors.New("section")

// Bounds within which an outline is taken as meant. They only keep nonsense
// out: float64 sums stay exact to 1e-10 of the result within them.
const (
	largestCoordinate = 1e4  // m or any other unit of length: no section reaches this far
	thinnest          = 1e-6 // of the largest extent: closer edges count as touching
	mostCorners       = 4000 // in all outlines; checking is quadratic in it
)

// label names an outline in an error.
type label struct {
	kind  string
	index int
}

func (l label) String() string { return fmt.Sprintf("%s %d", l.kind, l.index+1) }

// outlineLabel names the outline with index k of a list with the solids first.
func outlineLabel(k, solids int) label {
	if k < solids {
		return label{"solid outline", k}
	}
	return label{"void outline", k - solids}
}

func validate(solids, voids []Outline) error {
	if len(solids) == 0 {
		return fmt.Errorf("%w: no solid outline: must be at least one", ErrShape)
	}
	outlines := append(append([]Outline{}, solids...), voids...)
	labels := make([]label, len(outlines))
	corners := 0
	for i, o := range outlines {
		labels[i] = outlineLabel(i, len(solids))
		if err := finite(o, labels[i]); err != nil {
			return err
		}
		corners += len(o)
	}
	if corners > mostCorners {
		return fmt.Errorf("%w: %d corners: must be at most %d", ErrShape, corners, mostCorners)
	}
	gap := thinnest * extent(outlines)
	for i, o := range outlines {
		if err := simple(o, labels[i], gap); err != nil {
			return err
		}
		for j := range i {
			if err := apart(o, outlines[j], labels[i], labels[j], gap); err != nil {
				return err
			}
		}
	}
	return nested(outlines, labels, len(solids))
}

func finite(o Outline, name label) error {
	if len(o) < 3 {
		return fmt.Errorf("%w: %s has %d corners: must be at least 3", ErrShape, name, len(o))
	}
	for i, p := range o {
		if !(math.Abs(p.Y) <= largestCoordinate && math.Abs(p.Z) <= largestCoordinate) {
			return fmt.Errorf("%w: %s: corner %d at y = %g m, z = %g m: must be finite, within ±%g m",
				ErrShape, name, i+1, p.Y, p.Z, float64(largestCoordinate))
		}
	}
	return nil
}

// extent is the larger side of the box around all outlines.
func extent(outlines []Outline) float64 {
	low, high := outlines[0][0], outlines[0][0]
	for _, o := range outlines {
		for _, p := range o {
			low = Point{math.Min(low.Y, p.Y), math.Min(low.Z, p.Z)}
			high = Point{math.Max(high.Y, p.Y), math.Max(high.Z, p.Z)}
		}
	}
	return math.Max(high.Y-low.Y, high.Z-low.Z)
}

// simple checks that an outline neither crosses, touches nor folds back on
// itself.
func simple(o Outline, name label, gap float64) error {
	for i := range o {
		a, b := o[i], o.next(i)
		if math.Hypot(b.Y-a.Y, b.Z-a.Z) <= gap {
			return fmt.Errorf("%w: %s: corners %d and %d both at y = %g m, z = %g m: must be apart",
				ErrShape, name, i+1, (i+1)%len(o)+1, a.Y, a.Z)
		}
		c := o.next((i + 1) % len(o))
		if pointToEdge(c, a, b) <= gap || pointToEdge(a, b, c) <= gap {
			return fmt.Errorf("%w: %s folds back at corner %d, y = %g m, z = %g m: must be outlines that do not touch themselves",
				ErrShape, name, (i+1)%len(o)+1, b.Y, b.Z)
		}
		for j := i + 2; j < len(o); j++ {
			if i == 0 && j == len(o)-1 {
				continue // neighbours over the closing edge
			}
			if edgeDistance(a, b, o[j], o.next(j)) <= gap {
				return fmt.Errorf("%w: %s crosses or touches itself: the edge from corner %d (y = %g m, z = %g m) meets the edge from corner %d (y = %g m, z = %g m): must be edges apart",
					ErrShape, name, i+1, a.Y, a.Z, j+1, o[j].Y, o[j].Z)
			}
		}
	}
	return nil
}

// apart checks that two outlines stay clear of each other.
func apart(o, other Outline, name, otherName label, gap float64) error {
	for i := range o {
		for j := range other {
			if edgeDistance(o[i], o.next(i), other[j], other.next(j)) <= gap {
				return fmt.Errorf("%w: %s crosses or touches %s: its edge from corner %d (y = %g m, z = %g m) meets the edge from corner %d (y = %g m, z = %g m): must be a wall thicker than %.2g m",
					ErrShape, name, otherName, i+1, o[i].Y, o[i].Z, j+1, other[j].Y, other[j].Z, gap)
			}
		}
	}
	return nil
}

// nested checks that each void is in exactly one solid and in no other void,
// and no solid in another solid. Outlines are known not to cross.
func nested(outlines []Outline, labels []label, solids int) error {
	for i, o := range outlines {
		within := 0
		for j, other := range outlines {
			if i == j || !other.contains(o[0]) {
				continue
			}
			if j >= solids || i < solids {
				return fmt.Errorf("%w: %s is inside %s (y = %g m, z = %g m): must be voids in solids only",
					ErrShape, labels[i], labels[j], o[0].Y, o[0].Z)
			}
			within++
		}
		if i >= solids && within != 1 {
			return fmt.Errorf("%w: %s (y = %g m, z = %g m) is outside every solid outline: must be inside one",
				ErrShape, labels[i], o[0].Y, o[0].Z)
		}
	}
	return nil
}

// edgeDistance is the distance between the segments ab and cd, 0 if they cross.
func edgeDistance(a, b, c, d Point) float64 {
	ab, cd := b.minus(a), d.minus(c)
	if cross(ab, c.minus(a))*cross(ab, d.minus(a)) < 0 && cross(cd, a.minus(c))*cross(cd, b.minus(c)) < 0 {
		return 0
	}
	return math.Min(
		math.Min(pointToEdge(a, c, d), pointToEdge(b, c, d)),
		math.Min(pointToEdge(c, a, b), pointToEdge(d, a, b)))
}
