package derive

import (
	"fmt"

	"github.com/tempstage/tempstage/section/formula"
)

// Check recomputes every table and every line, and sees that every number of a list is
// that of its place; the error is the first of [Check] or [CheckLine].
func (l Lists) Check() error {
	if err := l.States.check(); err != nil {
		return err
	}
	for i, t := range l.Tables {
		if t.Number != i+1 {
			return fmt.Errorf("%w: table %d has the number %d: must be %[2]d", ErrDerive, i+1, t.Number)
		}
		if err := Check(t, l.States); err != nil {
			return fmt.Errorf("table %d: %w", t.Number, err)
		}
	}
	for i := range l.Lines {
		line, err := l.Line(i + 1)
		if err == nil {
			err = CheckLine(line)
		}
		if err != nil {
			return fmt.Errorf("line %d: %w", i+1, err)
		}
	}
	return nil
}

// Has reports a table or a line by number that is not in the lists.
func (l Lists) Has(p Proof) error {
	for _, of := range []struct {
		name    string
		numbers []int
		most    int
	}{{"table", p.Tables, len(l.Tables)}, {"line", p.Lines, len(l.Lines)}} {
		for _, n := range of.numbers {
			if n < 1 || n > of.most {
				return fmt.Errorf("%s %d: must be 1 to %d", of.name, n, of.most)
			}
		}
	}
	return nil
}

// check reports a section state or a cut that has not the number of its place, and a
// section that has no area.
func (s States) check() error {
	for i, of := range s.Sections {
		switch {
		case of.Number != i+1:
			return fmt.Errorf("%w: section state %d has the number %d: must be %[2]d", ErrDerive, i+1, of.Number)
		case !(of.A > 0 && of.Iy > 0 && of.Iz > 0 && of.Iy*of.Iz > of.Iyz*of.Iyz):
			return fmt.Errorf("%w: section state %d: A = %g m², Iy = %g m⁴, Iz = %g m⁴, Iyz = %g m⁴: must be above 0, Iyz² below Iy·Iz", ErrDerive, i+1, of.A, of.Iy, of.Iz, of.Iyz)
		}
	}
	for i, of := range s.Flows {
		if of.Number != i+1 {
			return fmt.Errorf("%w: cut %d has the number %d: must be %[2]d", ErrDerive, i+1, of.Number)
		}
	}
	return nil
}

// farthest is the place of a last digit, before or behind the point, that no table has:
// a float64 has 16 digits, and numbers of an element are within ±1e14.
const farthest = 30

// shape reports a table without a row, and a last digit that no number of a table has:
// it would be printed in as many digits.
func (t Table) shape() error {
	if len(t.Rows) == 0 {
		return fmt.Errorf("%w: %s has no row: must have at least one", ErrDerive, t.Value.Symbol)
	}
	for _, c := range append(t.Columns[:len(t.Columns):len(t.Columns)], t.Value, Column{"y", formula.Metre, t.YAt}, Column{"z", formula.Metre, t.ZAt}, Column{t.Sum.Symbol, t.Sum.Unit, t.SumAt}) {
		if c.Last < -farthest || c.Last > farthest {
			return fmt.Errorf("%w: last digit of %s at 1e%d: must be within 1e±%d", ErrDerive, c.Symbol, c.Last, farthest)
		}
	}
	return nil
}
