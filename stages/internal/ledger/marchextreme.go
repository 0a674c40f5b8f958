package ledger

import (
	"container/heap"
	"math"
	"slices"
)

// pair is a stretch of one of the situations of a march, with a value that it does not
// exceed.
type pair struct {
	situation, stretch int
	bound              float64
}

// ExtremeBeyond is [Demand.ExtremeBeyond] over all situations, and the number of the one
// that has it.
func (m *March) ExtremeBeyond(floor, sign float64, piece int, count func(*Stretch, Corner) bool) (Worst, int, error) {
	first := m.of[0]
	if len(m.of) == 1 {
		w, err := first.ExtremeBeyond(floor, sign, piece, count)
		return w, m.Numbers[0], err
	}
	list := make([]pair, 0, len(m.of)*len(first.ledger.of[piece]))
	size := 0.0
	if !math.IsInf(floor, -1) {
		size = math.Abs(floor)
	}
	for _, k := range first.ledger.of[piece] {
		before := len(list)
		var err error
		if list, err = m.boundsOf(list, k, sign, count); err != nil {
			return Worst{}, 0, err
		}
		for _, one := range list[before:] {
			if !math.IsInf(one.bound, 0) {
				size = math.Max(size, math.Abs(one.bound))
			}
		}
	}
	worst, best := Worst{Value: math.Inf(-1), Bound: math.Inf(-1)}, -1
	if !math.IsInf(floor, -1) {
		worst.Value = floor - 10*tolerance*size
	}
	var q queue
	for i, one := range list {
		q.list = append(q.list, queued{i, one.bound, len(first.ledger.grid[one.stretch].spreading) == 0})
	}
	heap.Init(&q)
	tables := map[int][]cornerBase{}
	fine := func(i int) (float64, error) { return m.fineBound(tables, list[i], sign, count) }
	for {
		i, _, found, err := q.next(worst.Value, fine)
		if err != nil {
			return Worst{}, 0, err
		}
		if !found {
			break
		}
		before, one := worst.Value, list[i]
		if err := m.of[one.situation].search(one.stretch, sign, count, &worst); err != nil {
			return Worst{}, 0, err
		}
		if worst.Value > before {
			best = one.situation
		}
	}
	if best < 0 {
		return Worst{}, 0, nil
	}
	exact, d := Worst{Value: math.Inf(-1), Bound: worst.Bound}, m.of[best]
	if err := d.exact(&d.best, d.bestAt, sign, &exact); err != nil {
		return Worst{}, 0, err
	}
	exact.Bound = math.Max(exact.Bound, exact.Value)
	exact.Value *= sign
	return exact, m.Numbers[best], nil
}

// boundsOf adds the bounds of a stretch in every situation: see [Demand.boundOf]. The sum
// of the others at each corner is found once; the product that differs adds its own.
func (m *March) boundsOf(list []pair, k int, sign float64, count func(*Stretch, Corner) bool) ([]pair, error) {
	d, from := m.of[0], len(list)
	p := &d.ledger.grid[k]
	for i := range m.of {
		list = append(list, pair{i, k, math.Inf(-1)})
	}
	c, err := d.stretchLayout(p)
	if err != nil {
		return nil, err
	}
	column := c.column[m.product]
	for _, corner := range slices.Clone(p.corners(d.room(p), true, count)) {
		others := make([]control, c.Corners())
		for outer := range others {
			if err := d.rowsOf(k, corner, outer); err != nil {
				return nil, err
			}
			for n := range Nodes {
				row := d.rows[n*c.columns : (n+1)*c.columns]
				row[column] = 0
				others[outer][n] = sign * c.Extreme(row, sign)
			}
		}
		for i := range m.of {
			own, one := m.does(i, k).row(p, corner), &list[from+i]
			for outer := range others {
				w := sign * c.weights[outer][m.product]
				one.bound = math.Max(one.bound, m.over(&others[outer], &own, w))
			}
		}
	}
	return list, nil
}

// over is a value that the sum of others and of the product that differs, times w and its
// worst factor, does not exceed.
func (m *March) over(others, own *control, w float64) float64 {
	most, size := math.Inf(-1), 0.0
	for n, v := range others {
		add := m.by.largest(w * own[n])
		most, size = math.Max(most, v+add), math.Max(size, math.Abs(v)+math.Abs(add))
	}
	return most + 4*rounding*size
}

// cornerBase is what all but the product that differs give at a corner over an interval in
// which it is within the spread of the same anchors.
type cornerBase struct {
	corner    int
	low, high float64 // of the stretch, 0 to 1
	others    control
	weight    float64
}

// fineBound is a bound on a pair whose stretch anchors spread in, with the parts that count at
// each corner.
func (m *March) fineBound(tables map[int][]cornerBase, one pair, sign float64, count func(*Stretch, Corner) bool) (float64, error) {
	table, known := tables[one.stretch]
	if !known {
		var err error
		if table, err = m.cornerBases(one.stretch, sign, count); err != nil {
			return 0, err
		}
		tables[one.stretch] = table
	}
	p, bound, last := &m.of[0].ledger.grid[one.stretch], math.Inf(-1), -1
	var whole control
	for i := range table {
		b := &table[i]
		if b.corner != last {
			whole, last = m.does(one.situation, one.stretch).row(p, b.corner), b.corner
		}
		own := whole
		if b.low > 0 || b.high < 1 {
			narrow(own[:], 1, b.low, b.high)
		}
		bound = math.Max(bound, m.over(&b.others, &own, b.weight))
	}
	return bound, nil
}

// cornerBases are those of all corners of a stretch that count.
func (m *March) cornerBases(k int, sign float64, count func(*Stretch, Corner) bool) (table []cornerBase, err error) {
	d := m.of[0]
	p := &d.ledger.grid[k]
	c, err := d.stretchLayout(p)
	if err != nil {
		return nil, err
	}
	column := c.column[m.product]
	for _, corner := range slices.Clone(p.corners(d.room(p), false, count)) {
		for outer := range c.Corners() {
			for _, part := range d.parts(p, corner) {
				if err := d.rowsOf(k, corner, outer); err != nil {
					return nil, err
				}
				of := candidate{stretch: k, corner: corner, outer: outer, interval: part}
				d.count(c, &of)
				b := cornerBase{corner: corner, high: 1, weight: sign * c.weights[outer][m.product]}
				if d.narrow(c, &of) {
					b.low, b.high = (p.place(part.from)+1)/2, (p.place(part.to)+1)/2
				}
				for n := range Nodes {
					row := d.rows[n*c.columns : (n+1)*c.columns]
					row[column] = 0
					b.others[n] = sign * c.Extreme(row, sign)
				}
				table = append(table, b)
			}
		}
	}
	return table, nil
}
