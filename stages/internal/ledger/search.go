package ledger

import (
	"cmp"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
)

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
	Ending  []ApartAt // tendons that end at the place and are not counted
	Bound   float64   // exceeded nowhere, Pa in the sense sought
}

// ApartAt is a tendon whose part counts with a factor because the place is
// outside the spread of its anchor.
type ApartAt struct {
	Tendon int
	Factor float64
}

// tolerance of an extreme between the nodes, relative to the largest stress.
const tolerance = 1e-9

// candidate is a corner of a stretch, over the interval in which it is within
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
	return d.ExtremeBeyond(math.Inf(-1), sign, piece, count)
}

// ExtremeBeyond is Extreme where it is beyond a floor, in the sense sought (Pa); where
// it is not, it need not be found.
func (d *Demand) ExtremeBeyond(floor, sign float64, piece int, count func(*Stretch, Corner) bool) (Worst, error) {
	d.order = d.order[:0]
	size := math.Abs(floor)
	for _, k := range d.ledger.of[piece] {
		bound, err := d.boundOf(k, sign, count)
		if err != nil {
			return Worst{}, err
		}
		if !math.IsInf(bound, 0) {
			size = math.Max(size, math.Abs(bound))
		}
		d.order = append(d.order, stretchBound{k, bound})
	}
	slices.SortStableFunc(d.order, func(a, b stretchBound) int { return cmp.Compare(b.bound, a.bound) })
	worst := Worst{Value: math.Inf(-1), Bound: math.Inf(-1)}
	if !math.IsInf(floor, -1) {
		worst.Value = floor - 10*tolerance*size // more than the polynomials are off
	}
	for _, s := range d.order {
		if s.bound <= worst.Value {
			break
		}
		if err := d.search(s.stretch, sign, count, &worst); err != nil {
			return Worst{}, err
		}
	}
	if !worst.Found {
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
	c, err := d.stretchLayout(p)
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

// boundOf is a value that the corners that count exceed nowhere in a stretch,
// whatever part of a tendon that spreads counts at them.
func (d *Demand) boundOf(k int, sign float64, count func(*Stretch, Corner) bool) (float64, error) {
	p, bound := &d.ledger.grid[k], math.Inf(-1)
	c, err := d.stretchLayout(p)
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

// refine finds the extreme of a candidate on its polynomials and keeps its place if it
// is the worst.
func (d *Demand) refine(of *candidate, sign float64, worst *Worst) error {
	c, err := d.stretchLayout(&d.ledger.grid[of.stretch])
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
	worst.Found, worst.Value, d.best, d.bestAt = true, value, *of, of.from+(t+1)/2*(of.to-of.from)
	if t == 1 {
		d.bestAt = of.to
	}
	return nil
}

// exact evaluates a candidate at a place on its own station: at an end of its stretch
// that is there.
func (d *Demand) exact(of *candidate, x, sign float64, worst *Worst) error {
	l, s := d.ledger, d.situation
	p := &l.grid[of.stretch]
	for _, n := range [2]int{0, Nodes - 1} {
		if at := p.At[n]; at.X == x {
			return d.keep(p, at, &l.measured(s, of.stretch)[n], of.corner, of.outer, of.apart, nil, sign, worst)
		}
	}
	at := l.at(x, p, s.Steps)
	does := l.measure(s, at)
	return d.keep(p, at, &does, of.corner, of.outer, of.apart, nil, sign, worst)
}

// keep evaluates a corner of a station and keeps it if it is the worst; without is tendons
// that count nowhere.
func (d *Demand) keep(p *Stretch, at *Station, of *effect, number, outer int, apart, without []int, sign float64, worst *Worst) error {
	c, err := d.stretchLayout(p)
	if err != nil {
		return err
	}
	corner := at.Corners[number]
	d.terms, d.sums = resize(d.terms, c.terms), resize(d.sums, c.columns)
	values, sums := d.terms, d.sums
	for e := range values {
		values[e] = of.part(e, corner.Slot).Plane.At(corner.Spot())
	}
	for _, i := range without {
		values[len(d.situation.products)+i] = 0
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
		worst.Apart = d.appendApart(worst.Apart, &p.spreading[k], factors[len(d.causes)+k])
	}
	return nil
}
