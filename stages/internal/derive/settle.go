package derive

import (
	"errors"
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/formula"
)

// finest is the last digit beyond which no column is refined: it would mean that
// the engine's numbers do not follow from each other.
const finest = -12

// noticed is the part of a unit of the last digit of a result below which the
// rounding of a number that goes into it is no reason for another digit.
const noticed = 0.02

// errDigits is wrapped where no digit of the table helps: the digits of a section
// state do not suffice, or the engine's number is another.
var errDigits = errors.New("in full precision as well")

// settling is a table whose digits are being chosen.
type settling struct {
	draft  Draft
	states []state // of each row
	full   []numbers
	shown  []numbers // as printed with the digits chosen so far
	rules  [2][]rule // that give printed numbers: of other rows, of tendons
	used   [kinds]bool
	last   [kinds]int

	product     int // last digit of products and sum
	products    []float64
	factors     [][]Factor // of each row, as printed
	factorLasts [][]int
}

// Table is the draft in the fewest digits with which every row recomputes; see
// the package. The error wraps [ErrDerive]: a number that is not finite, a row on
// a state that is not there, or an engine's value that does not follow from the
// row's own forces.
func (d Draft) Table(states States) (Table, error) {
	s, err := d.settling(states)
	if err != nil {
		return Table{}, err
	}
	for {
		row, by, found := s.failing()
		if !found {
			return s.table(), nil
		}
		if !s.refine(row, by) {
			return Table{}, fmt.Errorf("%w (%w)", Check(s.table(), states), errDigits)
		}
	}
}

// settling is the beginning: every number in its coarsest digits.
func (d Draft) settling(states States) (*settling, error) {
	if err := d.valid(); err != nil {
		return nil, err
	}
	n := len(d.Rows)
	s := &settling{
		draft: d, states: make([]state, n), full: make([]numbers, n), shown: make([]numbers, n),
		product: Coarsest(d.Of.Unit), factors: make([][]Factor, n), factorLasts: make([][]int, n),
	}
	for i, a := range d.Rows {
		on, err := states.at(d.By, a.On)
		if err != nil {
			return nil, err
		}
		s.states[i], s.full[i] = on, a.numbers(d.At)
		s.factors[i], s.factorLasts[i] = make([]Factor, len(a.Factors)), make([]int, len(a.Factors))
		for j, f := range a.Factors {
			s.factorLasts[i][j], s.factors[i][j] = coarsestFactor, Factor{f.Symbol, Round(f.Value, coarsestFactor), f.Name}
		}
	}
	for k, head := range heads {
		s.last[k] = head.Last
	}
	s.last[pointY], s.last[pointZ], s.last[value] = Coarsest(formula.Metre), Coarsest(formula.Metre), s.product
	s.choose()
	for i, tendons := range []bool{false, true} {
		for _, r := range d.By.rules(tendons) {
			if s.used[r.result] {
				s.rules[i] = append(s.rules[i], r)
			}
		}
	}
	for k := range kinds {
		s.show(k)
	}
	s.products = s.roundProducts()
	return s, nil
}

// coarsestFactor: partial factors and tolerances are stated with two or three
// decimals; shares of an anchorage zone get more.
const coarsestFactor = -3

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
	r := s.draft.By.rules(false)[0]
	for i := range s.full {
		with := r.is(&s.full[i], &s.states[i])
		for _, k := range kinds {
			without := s.full[i]
			without[k] = 0
			change := with - r.is(&without, &s.states[i])
			s.used[k] = s.used[k] || math.Abs(change) > scaled(0.05, s.last[value])
		}
	}
}

// show prints a kind of number in its digits.
func (s *settling) show(kind int) {
	for i := range s.full {
		s.shown[i][kind] = 0
		if s.used[kind] {
			s.shown[i][kind] = Round(s.full[i][kind], s.last[kind])
		}
	}
}

// rulesOf are those of a row.
func (s *settling) rulesOf(row int) []rule {
	if s.draft.Rows[row].Tendons != nil {
		return s.rules[1]
	}
	return s.rules[0]
}

// failing is the first number that does not recompute: its row and its rule; no
// rule for a product.
func (s *settling) failing() (row int, by *rule, found bool) {
	for i := range s.shown {
		n, rules := &s.shown[i], s.rulesOf(i)
		for k := range rules {
			r := &rules[k]
			if !within(r.is(n, &s.states[i]), n[r.result], s.last[r.result]) {
				return i, r, true
			}
		}
		if !within(times(n[value], s.factors[i]), s.products[i], s.product) {
			return i, nil, true
		}
	}
	return 0, nil, false
}

// refine gives one more digit to the number whose rounding matters most in a
// result; false where none matters.
func (s *settling) refine(row int, by *rule) bool {
	if by == nil {
		return s.refineProduct(row)
	}
	n := s.shown[row]
	printed := by.is(&n, &s.states[row])
	worst, effect := -1, scaled(noticed, s.last[by.result])
	for _, k := range by.from {
		was := n[k]
		n[k] = s.full[row][k]
		if change := math.Abs(by.is(&n, &s.states[row]) - printed); s.used[k] && change > effect {
			worst, effect = k, change
		}
		n[k] = was
	}
	if worst < 0 || s.last[worst] <= finest {
		return false
	}
	s.last[worst]--
	s.show(worst)
	return true
}

// refineProduct gives one more digit to the factor whose rounding matters most in
// the product of a row, or to the values.
func (s *settling) refineProduct(row int) bool {
	exact := s.draft.Rows[row]
	whole := exact.product()
	worst, effect := -1, math.Abs(times(s.shown[row][value], exact.Factors)-whole)
	for j, f := range exact.Factors {
		others := append(append([]Factor{}, exact.Factors[:j]...), s.factors[row][j])
		others = append(others, exact.Factors[j+1:]...)
		if change := math.Abs(times(exact.Value, others) - whole); f != s.factors[row][j] && change > effect {
			worst, effect = j, change
		}
	}
	if worst < 0 {
		s.last[value]--
		s.show(value)
		return s.last[value] > finest
	}
	last := &s.factorLasts[row][worst]
	*last--
	s.factors[row][worst].Value = Round(exact.Factors[worst].Value, *last)
	return *last > finest
}

// times is a value multiplied by all factors.
func times(value float64, factors []Factor) float64 {
	for _, f := range factors {
		value *= f.Value
	}
	return value
}
