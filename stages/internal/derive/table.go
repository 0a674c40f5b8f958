package derive

import (
	"encoding/json"
	"errors"

	"github.com/tempstage/tempstage/section/formula"
)

// ErrDerive is wrapped by every error about numbers that cannot be written down
// so that they recompute.
var ErrDerive = errors.New("derive")

// Relation says how the value of a row follows from its cells.
type Relation string

// The relations that are known.
const (
	// Given values have no cells: reactions, moments.
	Given Relation = ""
	// Bending is σ = σ_0 + N/A − [(My·Iz − Mz·Iyz)·z + (Mz·Iy − My·Iyz)·y]/(Iy·Iz − Iyz²),
	// y and z of the point from the centroid of the row's section state; for
	// tendons N = −n·P·cos, My = n·P·cos·(z − z_c), Mz = n·P·cos·(y − y_c).
	Bending Relation = "bending"
	// Shearing is τ = Vy·τ_Vy + Vz·τ_Vz + T·τ_T of the row's cut; for tendons
	// Vy = n·P·cos_y and Vz = n·P·cos_z, with the cosines to y and z.
	Shearing Relation = "shearing"
)

// Table is how a demand adds up: a row for each action, then the sum.
type Table struct {
	Number  int              `json:"n"`            // from 1, in its Book
	By      Relation         `json:"by,omitempty"` // how values follow from cells
	Y       float64          `json:"y,omitempty"`  // of the point, m, for Bending
	Z       float64          `json:"z,omitempty"`  // of the point, m, for Bending
	YAt     int              `json:"yd,omitempty"` // last digit of Y
	ZAt     int              `json:"zd,omitempty"` // last digit of Z
	Value   Column           `json:"value"`        // of the row at factor 1
	Columns []Column         `json:"columns,omitempty"`
	Rows    []Row            `json:"rows"`
	Sum     formula.Quantity `json:"sum"` // of the products, rounded from full precision
	SumAt   int              `json:"d"`   // last digit of products and sum
}

// Column is a column of a table.
type Column struct {
	Symbol string       // P, cos, z, N, M_y …
	Unit   formula.Unit // SI
	Last   int          // the last printed digit is 10^Last in SI
}

// Row is one action.
type Row struct {
	Label   string   `json:"l"`            // the action, in words
	On      int      `json:"on,omitempty"` // number of its section state or cut; 0 for Given
	Cells   []Cell   `json:"c,omitempty"`  // one for each column
	Value   float64  `json:"v"`            // at factor 1, SI
	Factors []Factor `json:"f,omitempty"`  // none: 1
	Product float64  `json:"p"`            // Value times all factors, SI
	Rests
}

// Rests is on which supports an action rests; it is zero for tendons.
type Rests struct {
	Of       int     `json:"s,omitempty"` // number of the situation of the supports, in the order of the record; 0: none is named
	Roll     float64 `json:"r,omitempty"` // rad, + with the left side up
	Gradient float64 `json:"g,omitempty"` // rad, + with the right end up
}

// Cell is a number of a table; it may be empty.
type Cell struct {
	Value  float64 // SI
	Filled bool
}

// MarshalJSON writes the number, or null where the cell is empty.
func (c Cell) MarshalJSON() ([]byte, error) {
	if !c.Filled {
		return []byte("null"), nil
	}
	return json.Marshal(c.Value)
}

// UnmarshalJSON reads a number or null. The error is that of package json.
func (c *Cell) UnmarshalJSON(text []byte) error {
	*c = Cell{}
	if string(text) == "null" {
		return nil
	}
	c.Filled = true
	return json.Unmarshal(text, &c.Value)
}

// Factor multiplies a row.
type Factor struct {
	Symbol string  // γ_w, δ, r …
	Value  float64 // 1
	Name   string  // what it is; a Book keeps it with the symbol instead
}

// cell is the number under a symbol; 0 where the table has no such column or the
// cell is empty.
func (t Table) cell(row Row, symbol string) (value float64, filled bool) {
	for i, c := range t.Columns {
		if c.Symbol == symbol && i < len(row.Cells) {
			return row.Cells[i].Value, row.Cells[i].Filled
		}
	}
	return 0, false
}
