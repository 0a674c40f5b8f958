package derive

import (
	"fmt"
	"math"
)

// Rows are numbers under named columns, in SI: stations along an element, points
// of a tendon, curves of a figure.
type Rows struct {
	Columns []string    `json:"c"` // name of each column
	Values  [][]float64 `json:"v"` // one row of them for each place
}

// NewRows is rows with that many significant digits of the largest number of each
// column; the others end at the same place, so that noise is not written down: six
// are 0.1 mm for x on 34 m, 10 Pa in 20 MPa. The values are not changed. The error
// wraps [ErrDerive]: a row of another length, or a number that is not finite.
func NewRows(columns []string, values [][]float64, digits int) (Rows, error) {
	size := make([]float64, len(columns))
	for i, row := range values {
		if len(row) != len(columns) {
			return Rows{}, fmt.Errorf("%w: row %d with %d numbers: must be %d", ErrDerive, i+1, len(row), len(columns))
		}
		for j, v := range row {
			if math.IsNaN(v) || math.IsInf(v, 0) {
				return Rows{}, fmt.Errorf("%w: row %d, column %s = %g: must be finite", ErrDerive, i+1, columns[j], v)
			}
			size[j] = math.Max(size[j], math.Abs(v))
		}
	}
	rows := Rows{columns, make([][]float64, len(values))}
	for i, row := range values {
		rows.Values[i] = make([]float64, len(row))
		for j, v := range row {
			if size[j] > 0 {
				rows.Values[i][j] = Round(v, lastOf(size[j], digits))
			}
		}
	}
	return rows, nil
}

// Column is the numbers of a column, nil where there is none of that name.
func (r Rows) Column(name string) []float64 {
	for j, c := range r.Columns {
		if c != name {
			continue
		}
		numbers := make([]float64, len(r.Values))
		for i, row := range r.Values {
			numbers[i] = row[j]
		}
		return numbers
	}
	return nil
}
