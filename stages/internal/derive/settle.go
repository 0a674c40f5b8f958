package derive

import (
	"errors"
	"fmt"
	"math"
)

// finest is the last digit beyond which no column is refined: it would mean that
// the engine's numbers do not follow from each other.
const finest = -12

// settling is a table whose digits are being chosen.
type settling struct {
	draft   Draft
	states  []state   // of each row
	full    []numbers // of each row
	used    [kinds]bool
	last    [kinds]int
	product int     // last digit of products and sum
	factors [][]int // last digits of the factors of each row
}

// Table is the draft in the fewest digits with which every row recomputes; see
// the package. The error wraps [ErrDerive]: a number that is not finite, a row on
// a state that is not there, or an engine's value that does not follow from the
// row's own forces.
func (d Draft) Table(states States) (Table, error) {
	if err := d.valid(); err != nil {
		return Table{}, err
	}
	s := settling{draft: d, product: Coarsest(d.Of.Unit)}
	for _, a := range d.Rows {
		on, err := states.at(d.By, a.On)
		if err != nil {
			return Table{}, err
		}
		s.states, s.full = append(s.states, on), append(s.full, a.numbers(d.At))
		lasts := make([]int, len(a.Factors))
		for i := range lasts {
			lasts[i] = -3
		}
		s.factors = append(s.factors, lasts)
	}
	for k, head := range heads {
		s.last[k] = head.Last
	}
	s.last[pointY], s.last[pointZ], s.last[value] = -4, -4, s.product
	s.choose()
	for {
		t := s.table()
		row, kind, err := s.first(t)
		if err == nil {
			return t, nil
		}
		if !s.refine(t, row, kind) {
			return Table{}, fmt.Errorf("%w (%w)", err, errDigits)
		}
	}
}

// errDigits is wrapped where no digit of the table helps: the digits of a section
// state do not suffice, or the engine's number is another.
var errDigits = errors.New("in full precision as well")

// choose marks the columns that the table needs.
func (s *settling) choose() {
	s.used[value] = true
	switch s.draft.By {
	case Bending:
		for _, k := range []int{normal, momentY, pointZ} {
			s.used[k] = true
		}
		s.need(momentZ, other)
		for i, on := range s.states {
			if s.used[momentZ] || on.section.Iyz != 0 {
				s.used[pointY] = true
			}
			if s.draft.Rows[i].Tendons != nil {
				s.used[count], s.used[force], s.used[cosX], s.used[levelZ] = true, true, true, true
				s.used[levelY] = s.used[momentZ]
			}
		}
	case Shearing:
		s.need(shearY, shearZ, torsion)
		for _, a := range s.draft.Rows {
			if a.Tendons != nil {
				s.used[count], s.used[force] = true, true
				s.used[cosY], s.used[cosZ] = s.used[shearY], s.used[shearZ]
			}
		}
	}
}

// need marks those columns that change a value by a twentieth of its last digit.
func (s *settling) need(kinds ...int) {
	for _, k := range kinds {
		for i := range s.full {
			for _, r := range s.draft.By.rules(false) {
				without := s.full[i]
				without[k] = 0
				change := r.is(&s.full[i], &s.states[i]) - r.is(&without, &s.states[i])
				s.used[k] = s.used[k] || math.Abs(change) > scaled(0.05, s.last[value])
			}
		}
	}
}

// table is the table in the digits chosen so far.
func (s *settling) table() Table {
	of := s.draft.Of
	of.Value = Round(of.Value, s.product)
	t := Table{
		By: s.draft.By, Value: Column{of.Symbol, of.Unit, s.last[value]}, SumAt: s.product, Sum: of,
		Rows: make([]Row, len(s.full)),
	}
	if s.used[pointZ] {
		t.Y, t.Z = Round(s.draft.At.Y, s.last[pointY]), Round(s.draft.At.Z, s.last[pointZ])
		t.YAt, t.ZAt = s.last[pointY], s.last[pointZ]
	}
	for k, head := range heads {
		if s.used[k] {
			head.Last = s.last[k]
			t.Columns = append(t.Columns, head)
		}
	}
	products := s.products()
	for i, a := range s.draft.Rows {
		row := Row{Label: a.Label, On: a.On, Value: Round(a.Value, s.last[value]), Product: products[i]}
		for k := range heads {
			if s.used[k] {
				row.Cells = append(row.Cells, s.cell(i, k))
			}
		}
		for j, f := range a.Factors {
			f.Value = Round(f.Value, s.factors[i][j])
			row.Factors = append(row.Factors, f)
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
	return Cell{Round(s.full[i][k], s.last[k]), true}
}

// first is the first number that does not recompute: row and kind of the result,
// value's own kind +1 for a product.
func (s *settling) first(t Table) (row, kind int, err error) {
	for i, r := range t.Rows {
		n := t.numbers(r)
		for _, rule := range t.By.rules(s.draft.Rows[i].Tendons != nil) {
			if !s.used[rule.result] {
				continue
			}
			if err := recomputes(t, r, rule, &n, &s.states[i], s.last[rule.result]); err != nil {
				return i, rule.result, err
			}
		}
		if err := multiplies(t, r); err != nil {
			return i, kinds, err
		}
	}
	return 0, 0, nil
}

// refine gives one more digit to the number whose rounding matters most in a
// result; false where no rounding matters: by its own forces the engine's value is
// another.
func (s *settling) refine(t Table, row, kind int) bool {
	if kind == kinds {
		return s.refineFactor(t.Rows[row], row)
	}
	n := t.numbers(t.Rows[row])
	worst, effect := -1, scaled(0.02, s.last[kind])
	for _, rule := range t.By.rules(s.draft.Rows[row].Tendons != nil) {
		if rule.result != kind {
			continue
		}
		printed := rule.is(&n, &s.states[row])
		for _, k := range rule.from {
			exact := n
			exact[k] = s.full[row][k]
			if change := math.Abs(rule.is(&exact, &s.states[row]) - printed); s.used[k] && change > effect {
				worst, effect = k, change
			}
		}
	}
	if worst < 0 || s.last[worst] <= finest {
		return false
	}
	s.last[worst]--
	return true
}

// refineFactor gives one more digit to the factor or the value whose rounding
// matters most in the product of a row.
func (s *settling) refineFactor(r Row, row int) bool {
	a := s.draft.Rows[row]
	product := math.Abs(r.Product)
	relative := func(exact, printed float64) float64 {
		return math.Abs(exact-printed) / math.Max(math.Abs(exact), 1e-300)
	}
	worst, effect := -1, relative(a.Value, r.Value)
	for j, f := range a.Factors {
		if e := relative(f.Value, r.Factors[j].Value); e > effect {
			worst, effect = j, e
		}
	}
	last := &s.last[value]
	if worst >= 0 {
		last = &s.factors[row][worst]
	}
	if effect*product < scaled(0.02, s.product) && worst >= 0 || *last <= finest {
		return false
	}
	*last--
	return true
}

// products are the printed products: rounded so that they add up to the rounded
// sum. Where plain rounding leaves a difference, those nearest to half a unit go
// the other way, each once.
func (s *settling) products() []float64 {
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

// String is the place in words, for errors.
func (r Row) String() string { return fmt.Sprintf("row %q", r.Label) }
