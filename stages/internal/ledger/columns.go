package ledger

import (
	"math"

	"github.com/tempstage/tempstage/section"
)

// columnsOf are the planes of the columns at the nodes of a stretch, every tendon
// that spreads with a column of its own, by their Bernstein coefficients: at each
// corner of the outer causes, coefficient by coefficient, piece by piece, column by
// column.
func (d *Demand) columnsOf(k int) (*Combination, []Plane, error) {
	p := &d.ledger.grid[k]
	c, err := d.stretchLayout(p)
	if err != nil {
		return nil, nil, err
	}
	if d.planes == nil {
		d.planes = make([][]Plane, len(d.ledger.grid))
	}
	if d.planes[k] != nil {
		return c, d.planes[k], nil
	}
	data, slots, column := d.ledger.measured(d.situation, k), len(p.At[0].Pieces), c.column
	planes := make([]Plane, c.Corners()*Nodes*slots*c.columns)
	d.planes[k] = planes
	for outer := range c.Corners() {
		row := slots * c.columns
		of := planes[outer*Nodes*row : (outer+1)*Nodes*row]
		for n := range data {
			terms := len(data[n].products) + len(data[n].apart)/data[n].slots // what comes behind is not stressed yet
			for slot := range slots {
				for e, w := range c.weights[outer][:terms] {
					addPlane(&of[n*row+slot*c.columns+column[e]], &data[n].part(e, slot).Plane, w)
				}
			}
		}
		if p.constant {
			for j := range row {
				planeControl(of[j:], row)
			}
		}
	}
	return c, planes, nil
}

func addPlane(to, p *Plane, w float64) {
	addFlat(&to.Plane, &p.Plane, w)
	to.Warping += w * p.Warping
}

func addFlat(to, p *section.Plane, w float64) {
	to.Constant += w * p.Constant
	to.SlopeY += w * p.SlopeY
	to.SlopeZ += w * p.SlopeZ
}

// planeControl turns the planes at the nodes, a stride apart, into the Bernstein
// coefficients of the polynomials through them.
func planeControl(planes []Plane, stride int) {
	var constant, y, z, warping Curve
	for i := range Nodes {
		p := &planes[i*stride]
		constant[i], y[i], z[i], warping[i] = p.Constant, p.SlopeY, p.SlopeZ, p.Warping
	}
	for _, c := range [4]*Curve{&constant, &y, &z, &warping} {
		if *c != (Curve{}) { // zeros are those of a tendon that is not stressed yet, or of no warping
			c.bernstein()
		}
	}
	for i := 1; i < degree; i++ {
		p := &planes[i*stride]
		p.Constant, p.SlopeY, p.SlopeZ, p.Warping = constant[i], y[i], z[i], warping[i]
	}
}

// bernstein makes the values at the nodes the Bernstein coefficients of the polynomial
// through them.
func (c *Curve) bernstein() {
	first := c[0]
	b, _ := c.control()
	for i := 1; i < degree; i++ {
		c[i] = b[i] + first
	}
}

// rowsOf writes the Bernstein coefficients of the columns at a corner along a
// stretch, every tendon that spreads with a column of its own.
func (d *Demand) rowsOf(k, corner, outer int) error {
	c, planes, err := d.columnsOf(k)
	if err != nil {
		return err
	}
	p := &d.ledger.grid[k]
	slots, columns := len(p.At[0].Pieces), c.columns
	d.rows = resize(d.rows, Nodes*columns)
	for n, at := range p.At {
		of := planes[((outer*Nodes+n)*slots+at.Corners[corner].Slot)*columns:]
		c.At(d.rows[n*columns:], of[:columns], at.Corners[corner].Spot())
	}
	if p.constant {
		return nil
	}
	for j := range columns { // the corner moves along the stretch: through the values at the nodes
		var values Curve
		for n := range values {
			values[n] = d.rows[n*columns+j]
		}
		b, _ := values.control()
		for n, v := range b {
			d.rows[n*columns+j] = values[0] + v
		}
	}
	return nil
}

// count counts in full, in the rows, the tendons that a candidate does not keep apart.
func (d *Demand) count(c *Combination, of *candidate) {
	for i := range Nodes {
		d.inFull(d.rows[i*c.columns:(i+1)*c.columns], c, of.apart)
	}
}

// narrow makes of the rows those on the interval of a candidate alone; false where it
// is the whole stretch.
func (d *Demand) narrow(c *Combination, of *candidate) bool {
	p := &d.ledger.grid[of.stretch]
	if of.from <= p.At[0].X && of.to >= p.At[Nodes-1].X {
		return false
	}
	narrow(d.rows, c.columns, (p.place(of.from)+1)/2, (p.place(of.to)+1)/2)
	return true
}

// narrow makes the coefficients of n columns those on the part from low to high of
// 0 to 1, by de Casteljau from both sides.
func narrow(rows []float64, n int, low, high float64) {
	for left := degree; left > 0; left-- { // the part up to high: row k becomes b[0..k] at high
		for i := (degree+1)*n - 1; i >= (degree+1-left)*n; i-- {
			rows[i] = rows[i-n] + high*(rows[i]-rows[i-n])
		}
	}
	s := low / high
	for left := degree; left > 0; left-- { // of that the part from low on
		for i := range left * n {
			rows[i] += s * (rows[i+n] - rows[i])
		}
	}
}

// over is a value that the measure exceeds nowhere in a stretch: it is convex, and
// the columns are a mean of their coefficients (see Envelope.Bound).
func (d *Demand) over(c *Combination, sign float64) float64 {
	most, size := math.Inf(-1), 0.0
	for n := range Nodes {
		v := sign * c.Extreme(d.rows[n*c.columns:(n+1)*c.columns], sign)
		most, size = max(most, v), max(size, math.Abs(v))
	}
	return most + rounding*size
}

// ends is the larger value at the ends of the rows.
func (d *Demand) ends(c *Combination, sign float64) float64 {
	last := degree * c.columns
	return max(sign*c.Extreme(d.rows[:c.columns], sign), sign*c.Extreme(d.rows[last:last+c.columns], sign))
}
