package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/stages/internal/derive"
)

// validRows are stations, diagrams and movements of a situation.
func (r Record) validRows(s SituationRecord) error {
	for _, of := range []struct {
		name   string
		rows   derive.Rows
		known  []string
		bodies bool
	}{{"stations", s.Stations, stationColumns, false}, {"diagram", s.Diagram, stationColumns, false}, {"movements", s.Moves, moveColumns, true}} {
		if err := r.validTable(of.rows, of.known, of.bodies); err != nil {
			return fmt.Errorf("%s: %w", of.name, err)
		}
	}
	for _, rows := range []derive.Rows{s.Stations, s.Diagram} {
		stations, most := StationsOf(rows), 0.0
		for _, at := range stations {
			for _, stress := range [4]float64{at.TopLeast, at.TopMost, at.BottomLeast, at.BottomMost} {
				most = math.Max(most, math.Abs(stress))
			}
		}
		for _, at := range stations {
			if crossed(at.TopLeast, at.TopMost, most) || crossed(at.BottomLeast, at.BottomMost, most) {
				return fmt.Errorf("stresses at x = %g m from %g to %g Pa at the top, from %g to %g Pa at the bottom: must be from minimum to maximum",
					at.X, at.TopLeast, at.TopMost, at.BottomLeast, at.BottomMost)
			}
		}
	}
	return nil
}

// crossed is true where a least value is above the greatest by more than columns of
// unlike size are rounded: each by half of the last of five digits of its largest value
// (diagramDigits), at most 5e-5 of it.
func crossed(least, most, largest float64) bool {
	return least-most > 1e3+1e-3*math.Max(math.Abs(least), math.Abs(most))+1e-4*largest
}

// validTable are rows of numbers under known columns, each once, with x from left to
// right on the element; those of several bodies one body after another.
func (r Record) validTable(rows derive.Rows, known []string, bodies bool) error {
	for i, c := range rows.Columns {
		if !slices.Contains(known, c) || slices.Contains(rows.Columns[:i], c) {
			return fmt.Errorf("column %d %q: must be one of %q, each once", i+1, c, known)
		}
	}
	if len(rows.Values) > 0 && (rows.Column("x") == nil || bodies && rows.Column("body") == nil) {
		return fmt.Errorf("columns %q: must have x, and movements the body", rows.Columns)
	}
	for i, row := range rows.Values {
		if len(row) != len(rows.Columns) {
			return fmt.Errorf("row %d has %d numbers: must have %d", i+1, len(row), len(rows.Columns))
		}
		if !finite(row...) {
			return fmt.Errorf("row %d has a number that is not finite: must be finite", i+1)
		}
	}
	return r.inOrder(rows, bodies)
}

// inOrder reports an x that is not on the element or is left of the one before.
func (r Record) inOrder(rows derive.Rows, bodies bool) error {
	of := rows.Column("body")
	before := math.Inf(-1)
	for i, x := range rows.Column("x") {
		if bodies && i > 0 && of[i] > of[i-1] {
			before = math.Inf(-1)
		}
		switch {
		case !r.on(x):
			return fmt.Errorf("x = %g m: must be on the element, 0 to %g m", x, r.Length)
		case x < before:
			return fmt.Errorf("x = %g m behind %g m: must be from left to right", x, before)
		case bodies && i > 0 && of[i] < of[i-1]:
			return fmt.Errorf("body %g behind %g: must be in order", of[i], of[i-1])
		}
		before = x
	}
	return nil
}

// validForces are the forces of tendons of the record, along the element.
func (r Record) validForces(s SituationRecord) error {
	for i, t := range s.Tendons {
		switch {
		case !slices.ContainsFunc(r.Tendons, func(of TendonRecord) bool { return of.Mark == t.Mark }):
			return fmt.Errorf("force of tendon %q: must be a tendon of the record", t.Mark)
		case slices.ContainsFunc(s.Tendons[:i], func(of TendonForce) bool { return of.Mark == t.Mark }):
			return fmt.Errorf("force of tendon %q twice: must be once", t.Mark)
		case !finite(t.Left, t.Middle, t.Right) || math.Min(t.Left, math.Min(t.Middle, t.Right)) < 0:
			return fmt.Errorf("force of tendon %q: %g N at the left, %g N in the middle, %g N at the right: must be 0 or more", t.Mark, t.Left, t.Middle, t.Right)
		}
		before := math.Inf(-1)
		for _, p := range t.Along {
			if !r.on(p[0]) || p[0] < before || !finite(p[1]) {
				return fmt.Errorf("force of tendon %q, %g N at x = %g m: must be finite, on the element, from left to right", t.Mark, p[1], p[0])
			}
			before = p[0]
		}
	}
	return nil
}
