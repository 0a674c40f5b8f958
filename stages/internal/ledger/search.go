package ledger

import (
	"cmp"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
)

// Demand is a question to a situation: its causes with the ranges that a limit
// gives them.
type Demand struct {
	ledger    *Ledger
	situation *Situation
	causes    []Cause
	layouts   [2][]*Combination // prestress outer or inner, by the number of tendons kept apart
	inner     bool              // prestress may be inner: it multiplies no other cause
	planes    [][]Plane         // of each stretch, see columnsOf
	envelope  Envelope
	reach     Reach
	rows      []float64 // Bernstein coefficients of the columns, coefficient by coefficient
	whole     []float64 // those of a whole stretch
	terms     []float64 // of a corner
	sums      []float64 // of its columns
	order     []stretchBound
	corners   []int
	list      []candidate
	best      candidate // the worst so far, at bestAt (m)
	bestAt    float64
	nodes     []wallNode        // for the walls
	filling   []section.Filling // for which they are
	wall      wallRoom
	forces    []bool // of each tendon: stressed
	marked    []bool // anchors of a stretch
	apart     []int  // those marked
	tension   tensionRoom
}

// Demand lays out the causes of a situation, one range for each.
func (l *Ledger) Demand(s *Situation, causes []Cause) (*Demand, error) {
	d := &Demand{ledger: l, situation: s, causes: causes, inner: true}
	for _, g := range s.products {
		if slices.Contains(g.outer, s.Prestress) && (g.inner >= 0 || len(g.outer) > 1) {
			d.inner = false
		}
	}
	_, err := d.combination(0)
	return d, err
}

// combination is the layout with a number of tendons kept apart, each with a
// factor from 0 to 1 while a point is not within its spread. Prestress is an inner
// cause where it can be, and the factor of a tendon one of a part of it.
func (d *Demand) combination(apart int) (*Combination, error) { return d.layout(apart, d.inner) }

// layout is a combination with prestress as an inner or as an outer cause.
func (d *Demand) layout(apart int, inner bool) (*Combination, error) {
	laid := &d.layouts[0]
	if inner {
		laid = &d.layouts[1]
	}
	for len(*laid) <= apart {
		*laid = append(*laid, nil)
	}
	if (*laid)[apart] != nil {
		return (*laid)[apart], nil
	}
	s := d.situation
	causes := slices.Clone(d.causes)
	terms := make([]Term, 0, len(s.products)+apart)
	for _, g := range s.products {
		t := Term{Inner: g.inner, Outer: g.outer}
		if inner && slices.Contains(g.outer, s.Prestress) {
			t = Term{Inner: s.Prestress}
		}
		terms = append(terms, t)
	}
	causes[s.Prestress].Outer = !inner
	for range apart {
		causes = append(causes, Cause{Least: 0, Most: 1})
		t := terms[0]
		if inner {
			t.Part = []int{len(causes) - 1}
		} else {
			t.Inner = len(causes) - 1
		}
		terms = append(terms, t)
	}
	c, err := NewCombination(causes, terms)
	(*laid)[apart] = c
	return c, err
}

// Worst is the place and the factors of an extreme stress.
type Worst struct {
	Found   bool
	X       float64 // m
	Piece   int     // of the girder
	Corner  int     // of Station.Corners
	At      section.Point
	Value   float64   // Pa, tension +
	Factors []float64 // of each cause
	Apart   []ApartAt // parts of tendons not counted in full
	Bound   float64   // exceeded nowhere, Pa in the sense sought
}

// ApartAt is a tendon whose part counts with a factor because the place lies
// outside the spread of its anchor.
type ApartAt struct {
	Tendon int
	Factor float64
}

// tolerance of an extreme between the nodes, relative to the largest stress.
const tolerance = 1e-9

// candidate is a corner of a stretch, over the interval in which it lies within
// the spread of the same anchors, that may hold the extreme.
type candidate struct {
	stretch, corner, outer int
	interval
	bound float64
}

// Extreme is the largest (sign +1) or smallest (sign −1) stress of a piece, over the
// stretches and corners that count says, under the worst factors. Stretches are looked at in
// the order of a bound on them, with the parts of all tendons that spread free,
// until no bound is above what was found on the polynomials through their nodes; the
// place found is then looked at itself.
func (d *Demand) Extreme(sign float64, piece int, count func(*Stretch, Corner) bool) (Worst, error) {
	d.order = d.order[:0]
	for _, k := range d.ledger.of[piece] {
		bound, err := d.boundOf(k, sign, count)
		if err != nil {
			return Worst{}, err
		}
		d.order = append(d.order, stretchBound{k, bound})
	}
	slices.SortStableFunc(d.order, func(a, b stretchBound) int { return cmp.Compare(b.bound, a.bound) })
	worst := Worst{Value: math.Inf(-1), Bound: math.Inf(-1)}
	for _, s := range d.order {
		if s.bound <= worst.Value {
			break
		}
		if err := d.search(s.stretch, sign, count, &worst); err != nil {
			return Worst{}, err
		}
	}
	if math.IsInf(worst.Value, -1) {
		return worst, nil
	}
	exact := Worst{Value: math.Inf(-1), Bound: worst.Bound}
	if err := d.exact(&d.best, d.bestAt, sign, &exact); err != nil {
		return Worst{}, err
	}
	exact.Bound = math.Max(exact.Bound, exact.Value)
	exact.Value *= sign
	return exact, nil
}

// room is a list that holds the corners of a stretch.
func (d *Demand) room(p *Stretch) []int {
	if cap(d.corners) < len(p.all) {
		d.corners = make([]int, len(p.all))
	}
	return d.corners
}

// stretchBound is a value that no stress of a stretch exceeds.
type stretchBound struct {
	stretch int
	bound   float64
}

// search finds what a stretch holds above the worst so far.
func (d *Demand) search(k int, sign float64, count func(*Stretch, Corner) bool, worst *Worst) error {
	p := &d.ledger.grid[k]
	c, err := d.combination(len(p.spreading))
	if err != nil {
		return err
	}
	d.list = d.list[:0]
	floor := worst.Value                                                        // what is found, or is there at an end of an interval
	for _, corner := range p.corners(d.room(p), len(p.spreading) == 0, count) { // corners may be within the spread of unlike anchors
		for outer := range c.Corners() {
			if err := d.rowsOf(k, corner, outer); err != nil {
				return err
			}
			if len(p.spreading) > 0 && d.over(c, sign) <= floor { // with every part free
				continue
			}
			d.whole = append(d.whole[:0], d.rows...)
			for n, part := range d.parts(p, corner) {
				if n > 0 {
					copy(d.rows, d.whole)
				}
				one := candidate{k, corner, outer, part, 0}
				d.count(c, &one)
				if one.bound = d.over(c, sign); one.bound > floor && d.narrow(c, &one) {
					one.bound = d.over(c, sign)
				}
				if one.bound > floor {
					d.list = append(d.list, one)
					floor = math.Max(floor, d.ends(c, sign))
				}
			}
		}
	}
	slices.SortStableFunc(d.list, func(a, b candidate) int { return cmp.Compare(b.bound, a.bound) })
	for i := range d.list {
		if c := &d.list[i]; c.bound > worst.Value {
			if err := d.refine(c, sign, worst); err != nil {
				return err
			}
		}
	}
	return nil
}

// columnsOf are the planes of the columns at the nodes of a stretch, every tendon
// that spreads with a column of its own, by their Bernstein coefficients: at each
// corner of the outer causes, coefficient by coefficient, piece by piece, column by
// column.
func (d *Demand) columnsOf(k int) (*Combination, []Plane, error) {
	p := &d.ledger.grid[k]
	c, err := d.combination(len(p.spreading))
	if err != nil {
		return nil, nil, err
	}
	if d.planes == nil {
		d.planes = make([][]Plane, len(d.ledger.grid))
	}
	if d.planes[k] != nil {
		return c, d.planes[k], nil
	}
	data, slots, column := d.ledger.measured(d.situation, k), len(p.At[0].Pieces), d.columnOf(p, c)
	planes := make([]Plane, c.Corners()*Nodes*slots*c.columns)
	d.planes[k] = planes
	for outer := range c.Corners() {
		row := slots * c.columns
		of := planes[outer*Nodes*row : (outer+1)*Nodes*row]
		for n := range data {
			for slot := range slots {
				for e, w := range c.weights[outer] {
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

// columnOf is the column of each term of a stretch. Tendons without a force in the
// situation count in full whatever the place.
func (d *Demand) columnOf(p *Stretch, c *Combination) []int {
	column := c.column
	for i, s := range p.spreading {
		if !d.stressed(s.tendon) {
			if &column[0] == &c.column[0] {
				column = slices.Clone(column)
			}
			column[len(d.situation.products)+i] = column[0]
		}
	}
	return column
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
	first := planes[0]
	var off, b [Nodes]Plane
	for i := range off {
		p := &planes[i*stride]
		off[i] = *p
		addPlane(&off[i], &first, -1)
	}
	for i := 1; i < degree; i++ {
		for k := 1; k < Nodes; k++ {
			addPlane(&b[i], &off[k], toControl[i][k])
		}
		addPlane(&b[i], &first, 1)
		planes[i*stride] = b[i]
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

// over is a value that the measure exceeds nowhere in a stretch: it is convex, and
// the columns are a mean of their coefficients (see Envelope.Bound).
func (d *Demand) over(c *Combination, sign float64) float64 {
	most, size := math.Inf(-1), 0.0
	for n := range Nodes {
		v := sign * c.Extreme(d.rows[n*c.columns:(n+1)*c.columns], sign)
		most, size = math.Max(most, v), math.Max(size, math.Abs(v))
	}
	return most + rounding*size
}

// ends is the larger value at the ends of the rows.
func (d *Demand) ends(c *Combination, sign float64) float64 {
	last := degree * c.columns
	return math.Max(sign*c.Extreme(d.rows[:c.columns], sign), sign*c.Extreme(d.rows[last:last+c.columns], sign))
}

// boundOf is a value that the corners that count exceed nowhere in a stretch,
// whatever part of a tendon that spreads counts at them.
func (d *Demand) boundOf(k int, sign float64, count func(*Stretch, Corner) bool) (float64, error) {
	p, bound := &d.ledger.grid[k], math.Inf(-1)
	c, err := d.combination(len(p.spreading))
	if err != nil {
		return 0, err
	}
	for _, corner := range p.corners(d.room(p), true, count) {
		for outer := range c.Corners() {
			if err := d.rowsOf(k, corner, outer); err != nil {
				return 0, err
			}
			bound = math.Max(bound, d.over(c, sign))
		}
	}
	return bound, nil
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

// refine finds the extreme of a candidate on its polynomials and keeps its place if it
// is the worst.
func (d *Demand) refine(of *candidate, sign float64, worst *Worst) error {
	c, err := d.combination(len(d.ledger.grid[of.stretch].spreading))
	if err != nil {
		return err
	}
	if err := d.rowsOf(of.stretch, of.corner, of.outer); err != nil {
		return err
	}
	d.count(c, of)
	d.narrow(c, of)
	measure := func(columns []float64) float64 { return sign * c.Extreme(columns, sign) }
	t, value, bound := d.envelope.peakAbove(d.rows, c.columns, worst.Value, tolerance, measure)
	worst.Bound = math.Max(worst.Bound, bound)
	if value <= worst.Value {
		return nil
	}
	worst.Value, d.best, d.bestAt = value, *of, of.from+(t+1)/2*(of.to-of.from)
	return nil
}

// exact evaluates a candidate at a place on its own station.
func (d *Demand) exact(of *candidate, x, sign float64, worst *Worst) error {
	l, s := d.ledger, d.situation
	p := &l.grid[of.stretch]
	at := l.at(x, p, s.Steps)
	does := l.measure(s, at)
	return d.keep(p, at, &does, of.corner, of.outer, of.apart, sign, worst)
}

// keep evaluates a corner of a station and keeps it if it is the worst.
func (d *Demand) keep(p *Stretch, at *Station, of *effect, number, outer int, apart []int, sign float64, worst *Worst) error {
	c, err := d.combination(len(p.spreading))
	if err != nil {
		return err
	}
	corner := at.Corners[number]
	d.terms, d.sums = resize(d.terms, c.terms), resize(d.sums, c.columns)
	values, sums := d.terms, d.sums
	for e := range values {
		values[e] = of.part(e, corner.Slot).Plane.At(corner.Spot())
	}
	c.Sums(sums, outer, values)
	d.inFull(sums, c, apart)
	value := sign * c.Extreme(sums, sign)
	if value <= worst.Value {
		return nil
	}
	factors := make([]float64, len(d.causes)+len(p.spreading))
	c.Factors(factors, outer, sums, sign)
	*worst = Worst{
		Found: true, X: at.X, Piece: at.Pieces[corner.Slot].Index, Corner: number, At: corner.At, Value: value,
		Factors: factors[:len(d.causes)], Bound: worst.Bound,
	}
	for _, k := range apart {
		worst.Apart = append(worst.Apart, ApartAt{p.spreading[k].tendon, factors[len(d.causes)+k]})
	}
	return nil
}
