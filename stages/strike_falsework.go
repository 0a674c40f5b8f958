package stages

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section/formula"
)

// FalseworkRows is the rows of towers on which a span is cast in place, with the bearings that
// are below it from the beginning. The towers and their foundations are not designed here:
// stiffness and working load limit are those of the document.
type FalseworkRows struct {
	Mark     string         // e.g. "FW1"; not empty
	Rows     []FalseworkRow // in order along the span, 1 to 30
	Bearings []Support      // below the span from the beginning, in at least two lines, each with a Stiffness; their Role is Bearing where none is stated
	Bearing  float64        // characteristic force that one bearing may receive, N, 1e3 to 1e9
	Document string         // of stiffnesses and working load limits
}

// FalseworkRow is a row of falsework towers across the span, alike. A tower pushes only.
type FalseworkRow struct {
	Mark      string    // e.g. "R1", unlike the others, at most 40 letters
	X         float64   // m, on the span
	Y         []float64 // of its towers, m, in order, 1 to 6
	Stiffness float64   // of one tower with packing, head, legs and ground, N/m, 1e4 to 1e11
	Capacity  float64   // working load limit of one tower, N, 1e3 to 1e8
}

// rowApart is the least distance between rows (m).
const rowApart = 0.1

// check reports what cannot be as described, on a span of that length (m).
func (f FalseworkRows) check(length float64) error {
	if err := wording("field FalseworkRows.Mark", f.Mark, mostMark); err != nil {
		return err
	}
	if f.Document == "" {
		return errors.New("field FalseworkRows.Document is empty: must be where stiffnesses and working load limits come from")
	}
	if n := len(f.Rows); n < 1 || n > 30 {
		return fmt.Errorf("field FalseworkRows.Rows has %d rows: must be 1 to 30", n)
	}
	for i, r := range f.Rows {
		if err := r.check(length); err != nil {
			return fmt.Errorf("in FalseworkRows.Rows[%d] %q: %w", i, shortened(r.Mark), err)
		}
		if i > 0 && !(r.X >= f.Rows[i-1].X+rowApart) {
			return fmt.Errorf("in FalseworkRows.Rows[%d] %q: X = %g m, the row before it is at %g m: must be in order along the span, at least %g m apart", i, r.Mark, r.X, f.Rows[i-1].X, rowApart)
		}
		if slices.ContainsFunc(f.Rows[:i], func(o FalseworkRow) bool { return o.Mark == r.Mark }) {
			return fmt.Errorf("in FalseworkRows.Rows[%d]: mark %q is that of another row: must be marks that differ", i, r.Mark)
		}
	}
	return f.checkBearings()
}

func (f FalseworkRows) checkBearings() error {
	if err := outside("FalseworkRows.", ranged{"Bearing", f.Bearing, "N", 1e3, 1e9}); err != nil {
		return err
	}
	lines := f.bearingLines()
	if len(lines) < 2 {
		return fmt.Errorf("field FalseworkRows.Bearings are in %d line: must be in at least two, on which the span stands when the rows are gone", len(lines))
	}
	for i, b := range f.Bearings {
		if !(b.Stiffness > 0) {
			return fmt.Errorf("in FalseworkRows.Bearings[%d] at x = %g m: Stiffness = 0 N/m: must be stated, they share with the rows", i, b.X)
		}
	}
	return nil
}

func (r FalseworkRow) check(length float64) error {
	if err := wording("mark", r.Mark, mostMark); err != nil {
		return err
	}
	if !(r.X >= 0 && r.X <= length) {
		return fmt.Errorf("field X = %g m: must be on the span, 0 to %g m", r.X, length)
	}
	if n := len(r.Y); n < 1 || n > 6 {
		return fmt.Errorf("field Y has %d towers: must be 1 to 6", n)
	}
	for i, y := range r.Y {
		if !(math.Abs(y) <= 50) || i > 0 && !(y >= r.Y[i-1]+rowApart) {
			return fmt.Errorf("field Y[%d] = %g m: must be within ±50 m, in order, at least %g m apart", i, y, rowApart)
		}
	}
	return outside("", ranged{"Stiffness", r.Stiffness, "N/m", 1e4, 1e11}, ranged{"Capacity", r.Capacity, "N", 1e3, 1e8})
}

// bearingLines are the x of the lines of bearings, in order (m).
func (f FalseworkRows) bearingLines() (lines []float64) {
	for _, b := range f.Bearings {
		if !slices.ContainsFunc(lines, func(x float64) bool { return math.Abs(x-b.X) < rowApart }) {
			lines = append(lines, b.X)
		}
	}
	slices.Sort(lines)
	return lines
}

// index is the place of a row; −1 where there is none.
func (f FalseworkRows) index(mark string) int {
	return slices.IndexFunc(f.Rows, func(r FalseworkRow) bool { return r.Mark == mark })
}

// lowering is how far each row is below where it was when the concrete hardened (m), +
// downwards; NaN for one that is gone.
type lowering []float64

// supports are the towers that are there, then the bearings.
func (f FalseworkRows) supports(l lowering) (list []Support) {
	for i, r := range f.Rows {
		if math.IsNaN(l[i]) {
			continue
		}
		for _, y := range r.Y {
			list = append(list, Support{X: r.X, Y: y, Role: Falsework, Stiffness: r.Stiffness, Level: 0 - l[i]})
		}
	}
	return append(list, as(Bearing, f.Bearings)...)
}

// towers are the reactions of the towers of a row among those of a situation.
func (f FalseworkRows) towers(row int, e Effects) (list []int) {
	for i, r := range e.Reactions {
		if r.Role == Falsework && r.X == f.Rows[row].X {
			list = append(list, i)
		}
	}
	return list
}

// total is the nominal force of a row or a line of bearings (N).
func total(e Effects, of []int) (sum float64) {
	for _, i := range of {
		sum += e.Reactions[i].Nominal
	}
	return sum
}

// document is the source of stiffnesses and limits.
func (f FalseworkRows) document() formula.Source { return formula.Source{Document: f.Document} }
