package ledger

import (
	"slices"

	"github.com/tempstage/tempstage/section"
)

// TensionZone is the part of a section in tension at its worst.
type TensionZone struct {
	Found       bool
	X           float64 // m
	Force, Area float64 // N, m² of concrete in tension
	Bars        float64 // m²
	Corner      int     // with the largest tension
	At          section.Point
	Value       float64 // Pa, there
	Factors     []float64
	Apart       []ApartAt
}

// ratio is force over bars (Pa): what is made largest.
func (t *TensionZone) ratio() float64 { return t.Force / t.Bars }

// BarsIn is the area of the bars in tension at x (m²), for the stress at a point.
type BarsIn func(x float64, stress func(section.Point) float64) float64

// MostTension is where the tensile force of a piece uses its bars most. At each
// node the factors are those that give any corner its largest tension, and from
// there those that give the centre of the tension zone its largest, until they do
// not change: the force is convex in the factors and grows at every step.
func (d *Demand) MostTension(piece int, bars BarsIn) (TensionZone, error) {
	var worst TensionZone
	l := d.ledger
	at := -1
	var node int
	for _, k := range l.of[piece] {
		p := &l.grid[k]
		for n := range p.At {
			changed, err := d.tensionAt(p, p.At[n], &l.measured(d.situation, k)[n], piece, bars, &worst)
			if err != nil {
				return worst, err
			}
			if changed {
				at, node = k, n
			}
		}
	}
	if at < 0 {
		return worst, nil
	}
	const ratio = 0.6180339887498949
	p := &l.grid[at]
	a, b := p.At[max(node-1, 0)].X, p.At[min(node+1, Nodes-1)].X
	value := func(x float64) (float64, error) {
		one := TensionZone{}
		station := l.at(x, p, d.situation.Steps)
		of := l.measure(d.situation, station)
		_, err := d.tensionAt(p, station, &of, piece, bars, &one)
		if one.Found && one.ratio() > worst.ratio() {
			worst = one
		}
		if !one.Found {
			return 0, err
		}
		return one.ratio(), err
	}
	for range 14 {
		x1, x2 := b-ratio*(b-a), a+ratio*(b-a)
		v1, err := value(x1)
		if err != nil {
			return worst, err
		}
		v2, err := value(x2)
		if err != nil {
			return worst, err
		}
		if v1 > v2 {
			b = x2
		} else {
			a = x1
		}
	}
	return worst, nil
}

// tensionAt looks at one station; true when it is the worst so far.
func (d *Demand) tensionAt(p *Stretch, at *Station, of *effect, piece int, bars BarsIn, worst *TensionZone) (bool, error) {
	slot := -1
	for i := range at.Pieces {
		if at.Pieces[i].Index == piece {
			slot = i
		}
	}
	if slot < 0 {
		return false, nil
	}
	may, err := d.tensile(p, of, slot)
	if err != nil {
		return false, err
	}
	changed := false
	for number, corner := range at.Corners {
		if corner.Slot != slot || !may(corner.Spot()) {
			continue
		}
		apart := d.apartAt(p, number, at.X)
		for range len(p.spreading) + 1 {
			found, zone, err := d.tensionFrom(p, at, of, slot, number, apart, bars, worst)
			if err != nil {
				return changed, err
			}
			changed = changed || found
			more := d.apartOf(p, at, slot, zone, apart)
			if len(more) == len(apart) {
				break
			}
			apart = more
		}
	}
	return changed, nil
}

// tensile says where a piece may be in tension, with every part of a tendon that
// spreads free.
func (d *Demand) tensile(p *Stretch, of *effect, slot int) (func(Spot) bool, error) {
	c, err := d.combination(len(p.spreading))
	if err != nil {
		return nil, err
	}
	column, u := d.columnOf(p, c), &d.tension
	u.free = slices.Grow(u.free[:0], c.Corners()*c.columns)[:c.Corners()*c.columns]
	clear(u.free)
	for outer := range c.Corners() {
		free := u.free[outer*c.columns:]
		for e, w := range c.weights[outer] {
			addPlane(&free[column[e]], &of.part(e, slot).Plane, w)
		}
	}
	return func(at Spot) bool {
		for outer := range c.Corners() {
			if c.Stress(u.free[outer*c.columns:], at, 1) > 0 {
				return true
			}
		}
		return false
	}, nil
}

// tensionRoom is room for a look at the tension of a station.
type tensionRoom struct {
	free, terms, planes   []Plane
	sums, factors, values []float64
}

// apartOf adds the anchors within whose spread a corner of the tension zone does
// not lie yet.
func (d *Demand) apartOf(p *Stretch, at *Station, slot int, plane Plane, apart []int) []int {
	d.unmark(p)
	for _, i := range apart {
		d.marked[i] = true
	}
	for number, c := range at.Corners {
		if c.Slot == slot && plane.At(c.Spot()) > 0 {
			d.markCorner(p, number, at.X)
		}
	}
	return d.marks()
}

// tensionFrom looks at a station from one corner, with the parts of some tendons
// not in full; plane is the stress that it ends with.
func (d *Demand) tensionFrom(p *Stretch, at *Station, of *effect, slot, number int, apart []int, bars BarsIn, worst *TensionZone) (changed bool, last Plane, err error) {
	c, err := d.layout(len(apart), d.inner && len(apart) == 0)
	if err != nil {
		return false, last, err
	}
	u := &d.tension
	terms := u.terms[:0]
	for g := range d.situation.products {
		terms = append(terms, of.part(g, slot).Plane)
	}
	for i := range p.spreading {
		plane := of.part(len(d.situation.products)+i, slot).Plane
		if slices.Contains(apart, i) {
			terms = append(terms, plane)
		} else {
			addPlane(&terms[0], &plane, 1)
		}
	}
	u.terms, u.planes = terms, slices.Grow(u.planes[:0], c.columns)[:c.columns]
	u.sums, u.factors, u.values = resize(u.sums, c.columns), resize(u.factors, len(d.causes)+len(apart)), resize(u.values, c.columns)
	planes, sums, factors := u.planes, u.sums, u.factors
	corner := at.Corners[number]
	sectorial, open := d.ledger.sectorial(&at.Pieces[slot])
	for outer := range c.Corners() {
		c.Planes(planes, outer, terms)
		if c.Stress(planes, corner.Spot(), 1) <= 0 {
			continue
		}
		look := corner.Spot()
		before := -1.0
		for range 6 {
			c.At(sums, planes, look)
			c.Factors(factors, outer, sums, 1)
			plane := underPlane(c, planes, factors, u.values)
			zone := tensionZone(at.Pieces[slot].Shape, sectorial, open, plane)
			if zone.Force <= before*(1+1e-12) {
				break
			}
			before, last = zone.Force, plane
			stress := func(p section.Point) float64 { return plane.At(spotOf(sectorial, open, p)) }
			if b := bars(at.X, stress); b > 0 && zone.Force > 0 && (!worst.Found || zone.Force/b > worst.ratio()) {
				changed = true
				*worst = TensionZone{
					Found: true, X: at.X, Force: zone.Force, Area: zone.Area, Bars: b, Corner: number, At: corner.At, Value: plane.At(corner.Spot()),
					Factors: append([]float64(nil), factors[:len(d.causes)]...),
				}
				for n, k := range apart {
					worst.Apart = append(worst.Apart, ApartAt{p.spreading[k].tendon, factors[len(d.causes)+n]})
				}
			}
			if !(zone.Area > 0) {
				break
			}
			look = spotOf(sectorial, open, zone.Centre)
		}
	}
	return changed, last, nil
}

// tensionZone is where a stress is tensile: exact for a plane, in triangles of the
// walls with warping.
func tensionZone(shape section.Shape, s section.Sectorial, open bool, plane Plane) (zone section.TensionZone) {
	if open && plane.Warping != 0 {
		return s.Tension(plane.Plane, plane.Warping)
	}
	zone.Force, zone.Area = shape.TensionForce(plane.Plane)
	if part := shape.Beyond(section.Point{Y: plane.SlopeY, Z: plane.SlopeZ}, -plane.Constant); part.Area > 0 {
		zone.Centre = section.Point{Y: part.FirstMomentZ / part.Area, Z: part.FirstMomentY / part.Area}
	}
	return zone
}

// spotOf is a point with its ω.
func spotOf(s section.Sectorial, open bool, p section.Point) Spot {
	if !open {
		return Spot{Point: p}
	}
	return Spot{p, s.At(p)}
}

// underPlane is the stress under stated factors; values is room.
func underPlane(c *Combination, planes []Plane, factors, values []float64) Plane {
	part := func(of func(*Plane) float64) float64 {
		for i := range planes {
			values[i] = of(&planes[i])
		}
		return c.Under(values, factors)
	}
	return Plane{
		Plane: section.Plane{
			Constant: part(func(p *Plane) float64 { return p.Constant }),
			SlopeY:   part(func(p *Plane) float64 { return p.SlopeY }),
			SlopeZ:   part(func(p *Plane) float64 { return p.SlopeZ }),
		},
		Warping: part(func(p *Plane) float64 { return p.Warping }),
	}
}
