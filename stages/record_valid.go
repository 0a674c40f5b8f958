package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// Check reports the first fault of a record, such as one that was read or changed by
// hand. It recomputes every table, line, margin, utilisation and state from their
// written numbers. The error wraps [ErrStage] and names place, field, value and what it
// must be.
func (r Record) Check() error {
	for _, rule := range []func() error{
		r.validHead, r.validCaution, r.validOutlines, r.validWeights, r.validTendons, r.Lists.Check, r.validStates, r.validGroups, r.validResults, r.validStages, r.validDerived, r.validRests,
	} {
		if err := rule(); err != nil {
			return fmt.Errorf("%w: the record of %q: %w", ErrStage, r.Element, err)
		}
	}
	return nil
}

// longest is the largest length of a record, of a girder of many elements (m).
const longest = 1e5

func (r Record) validHead() error {
	switch {
	case r.Format != Format:
		return fmt.Errorf("format %d: must be %d", r.Format, Format)
	case strings.TrimSpace(r.Element) == "":
		return fmt.Errorf("the mark of the element is empty: must be that on the drawing")
	case !(r.Length > 0 && r.Length <= longest):
		return fmt.Errorf("length = %g m: must be above 0, at most %g m", r.Length, longest)
	}
	return nil
}

// validCaution reports a sentence of the caution that is not there.
func (r Record) validCaution() error {
	for _, sentence := range caution {
		if !slices.Contains(r.Caution, sentence) {
			return fmt.Errorf("the caution lacks %q: must open with every sentence of it", sentence)
		}
	}
	return nil
}

func (r Record) validOutlines() error {
	for i, d := range r.Outlines {
		at := fmt.Sprintf("outline %d at x = %g m", i+1, d.X)
		if !r.on(d.X) {
			return fmt.Errorf("%s: must be on the element, 0 to %g m", at, r.Length)
		}
		if len(d.Solids) == 0 {
			return fmt.Errorf("%s has no concrete: must have at least one outline", at)
		}
		for _, o := range slices.Concat(d.Solids, d.Voids, []section.Outline{{d.Centroid}}) {
			for _, p := range o {
				if !(math.Abs(p.Y) <= widest && math.Abs(p.Z) <= widest) {
					return fmt.Errorf("%s: point y = %g m, z = %g m: must be within ±%g m", at, p.Y, p.Z, widest)
				}
			}
		}
	}
	return nil
}

// widest is a distance from the axis that no part of an element or of its supports has (m).
const widest = 1e4

// on is true for a place on the element, to the digits in which rows and tables are
// written.
func (r Record) on(x float64) bool {
	slack := 1e-3 + 1e-4*r.Length // five digits of the largest
	return x >= -slack && x <= r.Length+slack
}

func (r Record) validWeights() error {
	for i, w := range r.Weights {
		if err := r.validLoad(w); err != nil {
			return fmt.Errorf("weight %d %q: %w", i+1, w.Mark, err)
		}
		if !r.on(w.Centre) || !(math.Abs(w.Y) <= widest && math.Abs(w.Z) <= widest) {
			return fmt.Errorf("weight %d %q: centre at x = %g m, y = %g m, z = %g m: must be on the element, 0 to %g m", i+1, w.Mark, w.Centre, w.Y, w.Z, r.Length)
		}
	}
	return nil
}

// validLoad reports a load that is not on the element, or whose presence or direction
// makes no sense. A train is anywhere.
func (r Record) validLoad(l Load) error {
	direction := Direction(l.Direction)
	switch {
	case !finite(l.From, l.To, l.Force, l.Couple, l.Centre, l.Y, l.Z):
		return fmt.Errorf("a number of it is not finite: must be finite")
	case direction != Down && direction != Transverse && direction != Along:
		return fmt.Errorf("direction %q: must be %q, %q or %q", l.Direction, Down, Transverse, Along)
	case !(l.From <= l.To):
		return fmt.Errorf("from x = %g to %g m: must be from left to right", l.From, l.To)
	case !l.Rolls && !(r.on(l.From) && r.on(l.To)):
		return fmt.Errorf("from x = %g to %g m: must be on the element, 0 to %g m", l.From, l.To, r.Length)
	}
	if err := l.Wind.valid(); err != nil {
		return err
	}
	return validRange("presence", l.Presence, "")
}

func (r Record) validTendons() error {
	for i, t := range r.Tendons {
		name := fmt.Sprintf("tendon %q", t.Mark)
		switch {
		case strings.TrimSpace(t.Mark) == "" || slices.ContainsFunc(r.Tendons[:i], func(o TendonRecord) bool { return o.Mark == t.Mark }):
			return fmt.Errorf("%s, number %d: must have a mark of its own", name, i+1)
		case t.Strands < 1:
			return fmt.Errorf("%s has %d strands: must have at least 1", name, t.Strands)
		}
		for k, p := range t.Points {
			if !(math.Abs(p.Y) <= widest && math.Abs(p.Z) <= widest) || !finite(p.Angle) || !r.on(p.X) || k > 0 && !(p.X >= t.Points[k-1].X && p.Length >= t.Points[k-1].Length) || !(p.Length >= 0) {
				return fmt.Errorf("%s, point %d: x = %g m, length %g m: must be on the element, from left to right", name, k+1, p.X, p.Length)
			}
		}
	}
	return nil
}

// validStates reports a section state or a cut that is not on the element.
func (r Record) validStates() error {
	for _, of := range r.Sections {
		if !r.on(of.X) {
			return fmt.Errorf("section state %d at x = %g m: must be on the element, 0 to %g m", of.Number, of.X, r.Length)
		}
	}
	for _, of := range r.Flows {
		if !r.on(of.X) {
			return fmt.Errorf("cut %d at x = %g m: must be on the element, 0 to %g m", of.Number, of.X, r.Length)
		}
		for _, v := range []float64{of.From.Y, of.From.Z, of.To.Y, of.To.Z} {
			if !(math.Abs(v) <= widest) {
				return fmt.Errorf("cut %d with an end at %g m: must be within ±%g m", of.Number, v, float64(widest))
			}
		}
	}
	return nil
}

// validRests reports a row of a table on supports of a situation that is not there, or
// tilted as none is.
func (r Record) validRests() error {
	situations := 0
	for _, stage := range r.Stages {
		situations += len(stage.Situations)
	}
	for _, t := range r.Tables {
		for _, row := range t.Rows {
			switch {
			case row.Of < 0 || row.Of > situations:
				return fmt.Errorf("table %d, %s on the supports of situation %d: must be 0 to %d", t.Number, row, row.Of, situations)
			case !(math.Abs(row.Roll) <= mostTilt && math.Abs(row.Gradient) <= mostTilt):
				return fmt.Errorf("table %d, %s: roll = %g rad, gradient = %g rad: must be within ±%g rad", t.Number, row, row.Roll, row.Gradient, mostTilt)
			}
		}
	}
	return nil
}

// mostTilt is the largest roll and the largest gradient of a situation, in the digits in which
// rows are written (rad).
const mostTilt = 0.35 + 1e-6

// validGroups reports a line of the inputs or of the appendix that is not there.
func (r Record) validGroups() error {
	for _, g := range slices.Concat(r.Inputs, r.Appendix) {
		if err := r.Has(derive.Proof{Lines: g.Lines}); err != nil {
			return fmt.Errorf("%s: %w", g.Title, err)
		}
	}
	return nil
}

// validRange reports a range whose least value is above its greatest.
func validRange(name string, of Range, unit string) error {
	if !(of.Least <= of.Most) || !finite(of.Least, of.Most) {
		return fmt.Errorf("%s from %g to %g%s: must be finite, from the least to the greatest value", name, of.Least, of.Most, unit)
	}
	return nil
}
