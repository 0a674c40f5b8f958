package ledger

import "math"

// Nodes is how many points carry a smooth piece of the length.
const Nodes = 9

// degree of the polynomial through the nodes of a piece.
const degree = Nodes - 1

// Node is the place of node i of a piece that goes from −1 to 1, from left to
// right: Chebyshev points of the second kind.
func Node(i int) float64 { return math.Sin(math.Pi * float64(2*i-degree) / (2 * degree)) }

// Curve is the polynomial of degree 8 through its values at the nodes of a piece.
type Curve [Nodes]float64

// control is the polynomial by its Bernstein coefficients on a part of the
// piece. It starts and ends at the first and the last, and is in between the
// smallest and the largest of them, for it is their mean with positive weights.
type control [Nodes]float64

var nodePlaces, toControl = tables()

// tables are the nodes and the Bernstein coefficients of the polynomials that
// are 1 at one node and 0 at the others: first as a sum of Chebyshev polynomials
// Tk, whose Bernstein coefficients are (−1)^(k−i) C(2k, 2i)/C(k, i) (Rababah,
// Computational Methods in Applied Mathematics 3 (2003) 608), raised to degree 8.
func tables() (places [Nodes]float64, matrix [Nodes][Nodes]float64) {
	for j := range places {
		places[j] = Node(j)
	}
	for k := range Nodes {
		var t control
		for i := range k + 1 {
			t[i] = choose(2*k, 2*i) / choose(k, i)
			if (k-i)%2 == 1 {
				t[i] = -t[i]
			}
		}
		for n := k; n < degree; n++ {
			for i := n + 1; i >= 0; i-- {
				raised := (1 - float64(i)/float64(n+1)) * t[i]
				if i > 0 {
					raised += float64(i) / float64(n+1) * t[i-1]
				}
				t[i] = raised
			}
		}
		for j := range Nodes {
			share := 2.0 / degree * math.Cos(math.Pi*float64(k*(degree-j))/degree)
			if k == 0 || k == degree {
				share /= 2
			}
			if j == 0 || j == degree {
				share /= 2
			}
			for i := range Nodes {
				matrix[i][j] += share * t[i]
			}
		}
	}
	return places, matrix
}

// choose is the binomial coefficient.
func choose(n, k int) float64 {
	c := 1.0
	for i := range k {
		c = c * float64(n-i) / float64(i+1)
	}
	return math.Round(c)
}

// At is the value at t, −1 to 1, by the barycentric form on Chebyshev points of
// the second kind (Berrut and Trefethen, SIAM Review 46 (2004), (5.4)).
func (c *Curve) At(t float64) float64 {
	top, bottom := 0.0, 0.0
	for i, v := range c {
		d := t - nodePlaces[i]
		if d == 0 {
			return v
		}
		w := 1 / d
		if i%2 == 1 {
			w = -w
		}
		if i == 0 || i == degree {
			w /= 2
		}
		top += w * (v - c[0]) // exact for a constant
		bottom += w
	}
	return c[0] + top/bottom
}

// shares are the shares of the values at the nodes in the value at t.
func shares(t float64) (share Curve) {
	bottom := 0.0
	for i, place := range nodePlaces {
		d := t - place
		if d == 0 {
			share = Curve{}
			share[i] = 1
			return share
		}
		w := 1 / d
		if i%2 == 1 {
			w = -w
		}
		if i == 0 || i == degree {
			w /= 2
		}
		share[i] = w
		bottom += w
	}
	for i := range share {
		share[i] /= bottom
	}
	return share
}

// Sum is the value of which the nodes have the given shares.
func (c *Curve) Sum(share *Curve) float64 {
	sum := c[0]
	for i := 1; i < Nodes; i++ {
		sum += share[i] * (c[i] - c[0]) // exact for a constant
	}
	return sum
}

// control is the Bernstein coefficients on the whole piece, above the value at
// the left end so that they are exact relative to the range, and the range.
func (c *Curve) control() (b control, span float64) {
	var v [Nodes]float64
	for i := range v {
		v[i] = c[i] - c[0]
		span = max(span, math.Abs(v[i]))
	}
	for i := 1; i < degree; i++ {
		row := &toControl[i]
		b[i] = row[1]*v[1] + row[2]*v[2] + row[3]*v[3] + row[4]*v[4] +
			row[5]*v[5] + row[6]*v[6] + row[7]*v[7] + row[8]*v[8]
	}
	b[degree] = v[degree]
	return b, span
}

// largest of the coefficients.
func (b *control) largest() float64 {
	largest := b[0]
	for _, v := range b[1:] {
		largest = max(largest, v)
	}
	return largest
}

// magnitude is the largest of the coefficients without sign.
func (b *control) magnitude() float64 {
	largest := 0.0
	for _, v := range b {
		largest = max(largest, math.Abs(v))
	}
	return largest
}

// split cuts the part in the middle (de Casteljau): b keeps the left half.
func (b *control) split() (right control) {
	right = *b
	for n := degree; n > 0; n-- {
		b[degree-n] = right[0]
		for i := range n {
			right[i] = (right[i] + right[i+1]) / 2
		}
	}
	b[degree] = right[0]
	return right
}

// turns is how often the coefficients turn from rising to falling and from
// falling to rising: the curve turns at most as often (variation diminishing).
func (b *control) turns() (rises, falls int) {
	last := 0.0
	for i := range degree {
		d := b[i+1] - b[i]
		switch {
		case d > 0 && last < 0:
			rises++
		case d < 0 && last > 0:
			falls++
		}
		if d != 0 {
			last = d
		}
	}
	return rises, falls
}

// at is the value, the slope and its slope at s, 0 to 1, by de Casteljau.
func (b *control) at(s float64) (value, slope, bend float64) {
	q := *b
	for n := degree; n > 2; n-- {
		for i := range n {
			q[i] += s * (q[i+1] - q[i])
		}
	}
	bend = degree * (degree - 1) * (q[2] - 2*q[1] + q[0])
	q[0] += s * (q[1] - q[0])
	q[1] += s * (q[2] - q[1])
	slope = degree * (q[1] - q[0])
	return q[0] + s*(q[1]-q[0]), slope, bend
}
