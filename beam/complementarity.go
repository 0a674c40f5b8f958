package beam

import "math"

// leastTableau is the size below which a term of the tableau, which is scaled
// to order 1, is rounding.
const leastTableau = 1e-11

// complementary finds z ≥ 0 with w = M·z + q ≥ 0 and w·z = 0 for a positive
// semidefinite M, symmetric or not, with terms of order 1, by Lemke's method
// with the lexicographic rule, which cannot cycle. ok is false when there is none.
// Source: Cottle, Pang, Stone, The Linear Complementarity Problem, 4.4 and 4.9.
func complementary(matrix [][]float64, q []float64) (z []float64, ok bool) {
	n := len(q)
	t := newTableau(matrix, q)
	row := t.start()
	if row < 0 {
		return make([]float64, n), true
	}
	entering := t.artificial()
	for range 200 * (n + 1) { // in practice about n steps
		leaving := t.basis[row]
		t.pivot(row, entering)
		if leaving == t.artificial() {
			return t.solution(), true
		}
		entering = t.partner(leaving)
		if row = t.ratio(entering); row < 0 {
			return nil, false // a ray: the beam can lift off
		}
	}
	return nil, false
}

// tableau is [I, −M, −1 | q] with columns w, z, the artificial one, and q.
type tableau struct {
	n     int
	rows  [][]float64
	basis []int // column that is basic in each row
}

func newTableau(matrix [][]float64, q []float64) *tableau {
	n := len(q)
	t := &tableau{n: n, rows: make([][]float64, n), basis: make([]int, n)}
	for i := range t.rows {
		row := make([]float64, 2*n+2)
		row[i] = 1
		for j := range n {
			row[n+j] = -matrix[i][j]
		}
		row[2*n], row[2*n+1] = -1, q[i]
		t.rows[i], t.basis[i] = row, i
	}
	return t
}

func (t *tableau) artificial() int { return 2 * t.n }

// partner is the complement of a column: w of z and z of w.
func (t *tableau) partner(column int) int { return (column + t.n) % (2 * t.n) }

// start is the row with the most negative q, or −1 when none is negative.
func (t *tableau) start() int {
	row, least := -1, 0.0
	for i := range t.rows {
		if q := t.rows[i][2*t.n+1]; q < least {
			row, least = i, q
		}
	}
	return row
}

// ratio is the row that leaves when a column enters, −1 when none does. Ties
// are broken by the columns of the inverse basis; the artificial variable
// leaves whenever it can.
func (t *tableau) ratio(entering int) int {
	best := -1
	for i, row := range t.rows {
		if row[entering] <= leastTableau {
			continue
		}
		if best < 0 || t.before(i, best, entering) {
			best = i
		}
	}
	return best
}

func (t *tableau) before(i, best, entering int) bool {
	a, b := t.rows[i], t.rows[best]
	ratioA, ratioB := a[2*t.n+1]/a[entering], b[2*t.n+1]/b[entering]
	if math.Abs(ratioA-ratioB) > leastTableau*(1+math.Abs(ratioB)) {
		return ratioA < ratioB
	}
	if t.basis[best] == t.artificial() || t.basis[i] == t.artificial() {
		return t.basis[i] == t.artificial()
	}
	for j := range t.n {
		if d := a[j]/a[entering] - b[j]/b[entering]; math.Abs(d) > leastTableau {
			return d < 0
		}
	}
	return false
}

func (t *tableau) pivot(row, column int) {
	p := t.rows[row]
	factor := 1 / p[column]
	for j := range p {
		p[j] *= factor
	}
	for i, other := range t.rows {
		if i == row || other[column] == 0 {
			continue
		}
		f := other[column]
		for j := range other {
			other[j] -= f * p[j]
		}
	}
	t.basis[row] = column
}

// solution is the values of z.
func (t *tableau) solution() []float64 {
	z := make([]float64, t.n)
	for i, column := range t.basis {
		if column >= t.n && column < 2*t.n {
			z[column-t.n] = max(t.rows[i][2*t.n+1], 0)
		}
	}
	return z
}
