package sheet

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot/vg"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
)

// mostCorners is how many corners of a section are numbered: of more only each second,
// third and so on.
const mostCorners = 60

// cornersOf are the corners of a section in the order of their numbers: those of the
// solids, then those of the voids.
func cornersOf(d stages.Drawing) []section.Point {
	return slices.Concat(slices.Concat(d.Solids...), slices.Concat(d.Voids...))
}

// everyCorner is the step from one numbered corner to the next.
func everyCorner(n int) int { return max(1, (n+mostCorners-1)/mostCorners) }

// cornerWords say which corners have their number in the figure.
func cornerWords(corners []section.Point) string {
	if step := everyCorner(len(corners)); step > 1 {
		return fmt.Sprintf(" Corners 1, %d, %d … of %d are numbered.", 1+step, 1+2*step, len(corners))
	}
	return ""
}

// wallWords say what the marks of wall sections are.
func (a *author) wallWords() string {
	if len(a.wallPlaces()) == 0 {
		return ""
	}
	return " Dotted: wall sections of the checks, WS as in the appendix; of several at one mark the top one first."
}

// corners writes the numbers of the corners: of a solid outside of it, of a void in it.
func (k *sketch) corners(f frame, d stages.Drawing) {
	step, number := everyCorner(len(cornersOf(d))), 0
	write := func(outline section.Outline, belongs func(vg.Point) bool) {
		for _, p := range outline {
			if number%step == 0 {
				k.labelWhere(f.at(p), fmt.Sprint(number+1), belongs)
			}
			number++
		}
	}
	for _, o := range d.Solids {
		write(o, func(p vg.Point) bool {
			return !slices.ContainsFunc(d.Solids, func(solid section.Outline) bool { return encloses(f.path(solid), p) })
		})
	}
	for _, o := range d.Voids {
		write(o, func(p vg.Point) bool { return encloses(f.path(o), p) })
	}
}

// encloses is true for a point inside a closed outline: a ray from it meets the outline an
// odd number of times.
func encloses(outline []vg.Point, p vg.Point) bool {
	inside := false
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(p.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			inside = !inside
		}
	}
	return inside
}

// wall is a dimension across a wall.
func (k *sketch) wall(f frame, w stages.Wall) {
	from, to := f.at(w.From), f.at(w.To)
	k.line(thin, from, to)
	for _, p := range []vg.Point{from, to} {
		k.line(thin, at(p.X-1.6, p.Y-1.6), at(p.X+1.6, p.Y+1.6))
	}
}

// dimensioned are the walls that are dimensioned in the figure: cuts straight across a
// slab or a web, the thinnest first, none near another, of one thickness one along a slab
// or a web, not through the whole section, and of a symmetric section those of one side.
func dimensioned(d stages.Drawing, least, most section.Point) []stages.Wall {
	const straight, atMost = 0.95, 8
	wide, deep := most.Y-least.Y, most.Z-least.Z
	mirrored := symmetric(d, wide)
	alike := func(v, w stages.Wall) bool {
		p, q := middleOfWall(v), middleOfWall(w)
		if mirrored {
			p.Y, q.Y = math.Abs(p.Y-d.Centroid.Y), math.Abs(q.Y-d.Centroid.Y)
		}
		y, z := math.Abs(p.Y-q.Y), math.Abs(p.Z-q.Z)
		along := y < 0.1*wide && z < 0.5*deep // of a web
		if isSlab(v) {
			along = y < 0.5*wide && z < 0.2*deep
		}
		same := math.Abs(v.Thickness-w.Thickness) < 5e-4 && isSlab(v) == isSlab(w) // to the millimetre
		return math.Hypot(y, z) < 0.12*math.Max(wide, deep) || same && along
	}
	walls := slices.SortedStableFunc(slices.Values(d.Walls), func(v, w stages.Wall) int { return cmp.Compare(v.Thickness, w.Thickness) })
	var kept []stages.Wall
	for _, w := range walls {
		across := math.Max(math.Abs(w.To.Y-w.From.Y), math.Abs(w.To.Z-w.From.Z))
		overall := wide
		if isSlab(w) {
			overall = deep
		}
		if len(kept) < atMost && w.Thickness < 0.8*overall && across >= straight*w.Thickness && !slices.ContainsFunc(kept, func(v stages.Wall) bool { return alike(v, w) }) {
			kept = append(kept, w)
		}
	}
	return kept
}

func middleOfWall(w stages.Wall) section.Point {
	return section.Point{Y: (w.From.Y + w.To.Y) / 2, Z: (w.From.Z + w.To.Z) / 2}
}

// isSlab is true for a cut that runs up rather than across.
func isSlab(w stages.Wall) bool { return math.Abs(w.To.Z-w.From.Z) > math.Abs(w.To.Y-w.From.Y) }

// symmetric is true for a section in which each corner has its mirror image about the
// centroid, to a thousandth of the width.
func symmetric(d stages.Drawing, width float64) bool {
	corners := cornersOf(d)
	for _, p := range corners {
		if !slices.ContainsFunc(corners, func(q section.Point) bool {
			return math.Hypot(p.Y+q.Y-2*d.Centroid.Y, p.Z-q.Z) < 1e-3*width
		}) {
			return false
		}
	}
	return true
}
