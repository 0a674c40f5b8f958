package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
)

// BondedBars are bonded reinforcing bars along a stretch, counted at one place
// of the section. A circle of their area about that place must be in the concrete
// and clear of the ducts: bars that are spread wider are several entries.
type BondedBars struct {
	From, To float64       // m, over which they are fully anchored
	At       section.Point // their centre, m
	Area     float64       // of all of them, above 0, at most 1 m²
}

// radius is that of a circle of their area (m).
func (b BondedBars) radius() float64 { return math.Sqrt(b.Area / math.Pi) }

// has is true for bars of a piece that are all along from one x of the girder to another; those
// that reach an end of the piece do so whatever begins within near of it.
func (p Piece) has(b BondedBars, from, to, near float64) bool {
	left, right := p.At+b.From, p.At+b.To
	if b.From <= near {
		left -= near
	}
	if b.To >= p.Element.Length-near {
		right += near
	}
	return left <= from && to <= right
}

// checkBars checks that the bars of the element are in the concrete, and that none
// is counted twice.
func (e Element) checkBars() error {
	for i, b := range e.Bars {
		if !(b.From >= 0 && b.To > b.From && b.To <= e.Length) {
			return fmt.Errorf("%w: Element.Bars[%d] from x = %g to %g m: must be 0 ≤ From < To ≤ %g m", ErrStage, i, b.From, b.To, e.Length)
		}
		if !(b.Area > 0 && b.Area <= 1) {
			return fmt.Errorf("%w: Element.Bars[%d]: Area = %g m²: must be above 0, at most 1 m²", ErrStage, i, b.Area)
		}
		if j := slices.Index(e.Bars[:i], b); j >= 0 {
			return fmt.Errorf("%w: Element.Bars[%d] and [%d] are the same %g m² at y = %g m, z = %g m: must be one entry with the area of both", ErrStage, j, i, b.Area, b.At.Y, b.At.Z)
		}
		for _, x := range placesBetween(b.From, b.To, e.Section.Breaks()) {
			switch c := e.Section.At(x).Clearance(b.At); {
			case !(c > 0):
				return fmt.Errorf("%w: Element.Bars[%d] at x = %.3f m, y = %g m, z = %g m is %.3g m outside the concrete: must be inside", ErrStage, i, x, b.At.Y, b.At.Z, -c)
			case c < b.radius():
				return fmt.Errorf("%w: Element.Bars[%d] at x = %.3f m: %g m² as a circle has a radius of %.3f m, its centre y = %g m, z = %g m is %.3f m inside the edge: must fit in the concrete; wide groups are several entries",
					ErrStage, i, x, b.Area, b.radius(), b.At.Y, b.At.Z, c)
			}
		}
	}
	return nil
}

// placesBetween are places from one x to another, 24 to a piece between breaks; none
// where the one is beyond the other.
func placesBetween(from, to float64, breaks []float64) []float64 {
	const number = 24
	if !(from < to) {
		return nil
	}
	ends := []float64{from, to}
	for _, b := range breaks {
		if b > from && b < to {
			ends = append(ends, b)
		}
	}
	slices.Sort(ends)
	xs := make([]float64, 0, (number+1)*len(ends))
	for i := 1; i < len(ends); i++ {
		for j := range number + 1 {
			xs = append(xs, ends[i-1]+(ends[i]-ends[i-1])*float64(j)/number)
		}
	}
	return xs
}

// checkBarsApart checks that no duct runs through bars.
func (g Girder) checkBarsApart(t tendon.Tendon, path *tendon.Path) error {
	if t.External {
		return nil
	}
	for _, p := range g.Pieces {
		for i, b := range p.Element.Bars {
			for _, x := range placesBetween(math.Max(path.From(), p.At+b.From), math.Min(path.To(), p.At+b.To), path.Breaks()) {
				at := path.At(x)
				if d := math.Hypot(at.Y-b.At.Y, at.Z-b.At.Z); d < t.Duct/2+b.radius() {
					return fmt.Errorf("%w: %s: Element.Bars[%d] at x = %.3f m: tendon %s is %.3f m away: must be at least half its duct and the radius of the bars as a circle, %.3f m",
						ErrStage, p.Element.Mark, i, x, t.Mark, d, t.Duct/2+b.radius())
				}
			}
		}
	}
	return nil
}
