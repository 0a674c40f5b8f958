package ledger

import "math"

// Envelope searches a piece for the largest value of a measure whose factors may
// change along the piece. Its buffers are kept between uses.
type Envelope struct {
	rows  []float64 // of each part, Nodes rows of Bernstein coefficients of all columns
	parts []stretch
	at    []float64
	whole []float64 // the rows of the whole piece
	room  []float64
}

// stretch is from where to where a part goes.
type stretch struct{ from, width float64 }

// patience is after how many parts the search is content with four times the
// tolerance, and so on.
const patience = 200

// Peak is where on −1 to 1 the measure of the columns is largest, its value
// there, and a bound that it exceeds nowhere. The measure must be convex in the
// values of the columns: Combination.Extreme with sign +1, the opposite of it with −1,
// PrincipalTension, Shear. The bound is above the value by at most tolerance
// times the largest magnitude of the measure at the nodes. Where the measure is
// level and its columns are not, that may take too long: the bound is then
// farther above.
//
// At any x the columns are the mean of their Bernstein coefficients with the
// same positive weights, so a convex measure is at most that mean of the measure
// of the coefficients (Jensen): a polynomial whose peak is a bound, and the
// maximum itself where the worst factors do not change. Parts with a bound above
// the best value are halved.
func (e *Envelope) Peak(curves []Curve, tolerance float64, measure func(columns []float64) float64) (t, value, bound float64) {
	e.at = resize(e.at, len(curves))
	t, value = -1, math.Inf(-1)
	scale := 0.0
	for _, x := range nodePlaces {
		e.sample(curves, x)
		v := measure(e.at)
		scale = max(scale, math.Abs(v))
		if v > value {
			t, value = x, v
		}
	}
	e.begin(curves)
	return e.search(len(curves), t, value, tolerance*scale, measure, func(x float64) { e.sample(curves, x) })
}

// peakAbove is Peak of n columns whose Bernstein coefficients are in rows, coefficient by
// coefficient, where it is above a floor; elsewhere the value is the floor. The
// magnitude of the measure is that at the coefficients.
func (e *Envelope) peakAbove(rows []float64, n int, floor, tolerance float64, measure func(columns []float64) float64) (t, value, bound float64) {
	e.at, e.whole = resize(e.at, n), append(e.whole[:0], rows[:Nodes*n]...)
	e.rows, e.parts = append(e.rows[:0], e.whole...), append(e.parts[:0], stretch{-1, 2})
	over := e.over(0, n, measure)
	return e.search(n, -1, floor, tolerance*over.magnitude(), measure, func(x float64) { e.evaluate(n, (x+1)/2) })
}

// evaluate is the values of the columns at s, 0 to 1, by de Casteljau.
func (e *Envelope) evaluate(n int, s float64) {
	e.room = append(e.room[:0], e.whole...)
	q := e.room
	for left := degree; left > 0; left-- {
		for i := range left * n {
			q[i] += s * (q[i+n] - q[i])
		}
	}
	copy(e.at, q[:n])
}

// search halves the parts on the list until none can hold more than the value by a
// quarter of the error allowed; sample gives the columns at a place.
func (e *Envelope) search(n int, t, value, allowed float64, measure func([]float64) float64, sample func(float64)) (at, best, bound float64) {
	slack := allowed / 4 // four times that at the first part
	bound = value
	for looked := 1; len(e.parts) > 0; looked++ {
		last := len(e.parts) - 1
		p := e.parts[last]
		over := e.over(last, n, measure)
		if looked == 1 || looked%patience == 0 {
			slack = max(4*slack, 1e-14*over.magnitude())
		}
		s, upper := over.peak(-1, max(over[0], over[degree]), slack/8)
		if over[degree] >= upper {
			s = 1
		}
		upper += slack / 8
		if upper > value { // a look at the measure itself
			sample(p.from + (s+1)/2*p.width)
			if v := measure(e.at); v > value {
				t, value = p.from+(s+1)/2*p.width, v
			}
		}
		if !(upper > value+slack) { // nor where it is no number
			bound = max(bound, upper)
			e.parts = e.parts[:last]
			continue
		}
		e.halve(last, n)
	}
	return t, value, max(bound, value)
}

// Bound is a value that a convex measure of the columns exceeds nowhere on the
// piece: the largest of the measure of their Bernstein coefficients.
func (e *Envelope) Bound(curves []Curve, measure func(columns []float64) float64) float64 {
	e.begin(curves)
	over := e.over(0, len(curves), measure)
	return over.largest() + rounding*over.magnitude()
}

// sample is the values of the columns at x.
func (e *Envelope) sample(curves []Curve, x float64) {
	for j := range curves {
		e.at[j] = curves[j].At(x)
	}
}

// begin puts the whole piece on the list.
func (e *Envelope) begin(curves []Curve) {
	n := len(curves)
	e.parts = append(e.parts[:0], stretch{-1, 2})
	e.rows = resize(e.rows, Nodes*n)
	for j := range curves {
		b, _ := curves[j].control()
		for i, v := range b {
			e.rows[i*n+j] = curves[j][0] + v
		}
	}
}

// over is the Bernstein coefficients of a polynomial above the measure.
func (e *Envelope) over(last, n int, measure func([]float64) float64) (b control) {
	rows := e.rows[last*Nodes*n:]
	for i := range b {
		b[i] = measure(rows[i*n : (i+1)*n : (i+1)*n])
	}
	return b
}

// halve cuts the last part in the middle (de Casteljau).
func (e *Envelope) halve(last, n int) {
	size := Nodes * n
	e.rows = resize(e.rows, (last+2)*size)
	left, right := e.rows[last*size:(last+1)*size], e.rows[(last+1)*size:(last+2)*size]
	copy(right, left)
	for rows := degree; rows > 0; rows-- {
		copy(left[(degree-rows)*n:], right[:n])
		for i := range rows * n {
			right[i] = (right[i] + right[i+n]) / 2
		}
	}
	copy(left[degree*n:], right[:n])
	p := &e.parts[last]
	p.width /= 2
	e.parts = append(e.parts, stretch{p.from + p.width, p.width})
}

// resize keeps what is there and the room it has.
func resize(s []float64, n int) []float64 {
	if n <= cap(s) {
		return s[:n]
	}
	return append(s[:cap(s)], make([]float64, n-cap(s))...)
}
