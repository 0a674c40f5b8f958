package derive

import (
	"fmt"
	"math"
)

// Check recomputes every row, product and the sum of a table from its printed
// digits and the printed states. The error wraps [ErrDerive] and names the first
// number that, rounded, differs by more than one unit of its last digit, that has
// more digits than are printed, or that refers to no state.
func Check(t Table, states States) error {
	if err := t.shape(); err != nil {
		return err
	}
	sum := 0.0
	for _, r := range t.Rows {
		on, err := states.at(t.By, r.On)
		if err != nil {
			return err
		}
		if err := t.printed(r); err != nil {
			return err
		}
		n := t.numbers(r)
		for _, rule := range t.By.rules(t.tendons(r)) {
			last, used := t.last(rule.result)
			if !used {
				continue
			}
			if err := recomputes(t, r, rule, &n, &on, last); err != nil {
				return err
			}
		}
		if err := multiplies(t, r); err != nil {
			return err
		}
		sum += r.Product
	}
	if !within(sum, t.Sum.Value, t.SumAt) {
		return fmt.Errorf("%w: the products add up to %.9g %s and the sum is %.9g: must agree",
			ErrDerive, sum, t.Sum.Unit, t.Sum.Value)
	}
	return nil
}

// tendons is true for a row of tendons.
func (t Table) tendons(r Row) bool {
	_, filled := t.cell(r, heads[force].Symbol)
	return filled
}

// numbers are the printed numbers of a row.
func (t Table) numbers(r Row) numbers {
	n := numbers{pointY: t.Y, pointZ: t.Z, value: r.Value}
	for k, head := range heads {
		n[k], _ = t.cell(r, head.Symbol)
	}
	return n
}

// last is the last digit of a kind of number, and whether the table has it.
func (t Table) last(kind int) (last int, used bool) {
	if kind == value {
		return t.Value.Last, true
	}
	for _, c := range t.Columns {
		if c.Symbol == heads[kind].Symbol {
			return c.Last, true
		}
	}
	return 0, false
}

// printed reports a number of a row that has more digits than are printed.
func (t Table) printed(r Row) error {
	if len(r.Cells) != len(t.Columns) {
		return fmt.Errorf("%w: %v of %s with %d cells: must be %d",
			ErrDerive, r, t.Value.Symbol, len(r.Cells), len(t.Columns))
	}
	for i, c := range t.Columns {
		if v := r.Cells[i].Value; v != Round(v, c.Last) {
			return fmt.Errorf("%w: %v: %s = %.12g %s: must end at 1e%d",
				ErrDerive, r, c.Symbol, v, c.Unit, c.Last)
		}
	}
	if r.Value != Round(r.Value, t.Value.Last) || r.Product != Round(r.Product, t.SumAt) {
		return fmt.Errorf("%w: %v: value %.12g, product %.12g %s: must end at 1e%d and 1e%d",
			ErrDerive, r, r.Value, r.Product, t.Value.Unit, t.Value.Last, t.SumAt)
	}
	return nil
}

// recomputes reports a number of a row that a rule gives otherwise.
func recomputes(t Table, r Row, rule rule, n *numbers, on *state, last int) error {
	if got := rule.is(n, on); !within(got, n[rule.result], last) {
		symbol := t.Value.Symbol
		if rule.result != value {
			symbol = heads[rule.result].Symbol
		}
		return fmt.Errorf("%w: %v: %s is %.9g from its printed cells and %.9g as written, last digit 1e%d: must agree",
			ErrDerive, r, symbol, got, n[rule.result], last)
	}
	return nil
}

// multiplies reports a product that is not value times factors.
func multiplies(t Table, r Row) error {
	product := times(r.Value, r.Factors)
	if !within(product, r.Product, t.SumAt) || math.IsNaN(product) {
		return fmt.Errorf("%w: %v: value times factors is %.9g and the product %.9g, last digit 1e%d: must agree",
			ErrDerive, r, product, r.Product, t.SumAt)
	}
	return nil
}
