package derive

import (
	"fmt"
	"math"
)

// table is the table in the digits chosen so far.
func (s *settling) table() Table {
	of := s.draft.Of
	of.Value = Round(of.Value, s.product)
	t := Table{
		By: s.draft.By, Value: Column{of.Symbol, of.Unit, s.last[value]}, Sum: of, SumAt: s.product,
		Rows: make([]Row, len(s.full)),
	}
	if s.draft.By == Bending {
		t.Y, t.Z = Round(s.draft.At.Y, s.last[pointY]), Round(s.draft.At.Z, s.last[pointZ])
		t.YAt, t.ZAt = s.last[pointY], s.last[pointZ]
	}
	for k, head := range heads {
		if s.used[k] {
			head.Last = s.last[k]
			t.Columns = append(t.Columns, head)
		}
	}
	for i, a := range s.draft.Rows {
		row := Row{Label: a.Label, On: a.On, Value: s.shown[i][value], Product: s.products[i], Rests: a.Rests}
		if len(t.Columns) > 0 {
			row.Cells = make([]Cell, 0, len(t.Columns))
		}
		for k := range heads {
			if s.used[k] {
				row.Cells = append(row.Cells, s.cell(i, k))
			}
		}
		if len(a.Factors) > 0 {
			row.Factors = s.factors[i]
		}
		t.Rows[i] = row
	}
	return t
}

// cell is a number of a row in its printed digits; those of tendons are empty in
// other rows, as is a σ_0 of zero.
func (s *settling) cell(i, k int) Cell {
	if (k <= levelZ && s.draft.Rows[i].Tendons == nil) || (k == other && s.full[i][k] == 0) {
		return Cell{}
	}
	return Cell{s.shown[i][k], true}
}

// roundProducts are the printed products: rounded so that they add up to the rounded
// sum. Where plain rounding leaves a difference, those nearest to half a unit go
// the other way, each once.
func (s *settling) roundProducts() []float64 {
	products, errors := make([]float64, len(s.full)), make([]float64, len(s.full))
	rest := Round(s.draft.Of.Value, s.product)
	for i, a := range s.draft.Rows {
		exact := a.product()
		products[i] = Round(exact, s.product)
		errors[i] = exact - products[i]
		rest -= products[i]
	}
	unit := math.Copysign(scaled(1, s.product), rest)
	for range int(math.Round(math.Abs(scaled(rest, -s.product)))) {
		nearest := 0
		for i := range errors {
			if errors[i]*unit > errors[nearest]*unit {
				nearest = i
			}
		}
		products[nearest] = Round(products[nearest]+unit, s.product)
		errors[nearest] -= unit
	}
	return products
}

// String is the row in words, for errors.
func (r Row) String() string { return fmt.Sprintf("row %q", r.Label) }
