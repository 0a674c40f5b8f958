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

// BarsIn is the area of the bars in tension at x (m²), for the stress at a point: of all
// of them where the stress is positive everywhere.
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
	return worst, d.narrowTension(at, node, piece, bars, &worst)
}

// narrowTension narrows the place of the worst by golden section between the neighbours of
// its node.
func (d *Demand) narrowTension(k, node, piece int, bars BarsIn, worst *TensionZone) error {
	const ratio = 0.6180339887498949
	p := &d.ledger.grid[k]
	a, b := p.At[max(node-1, 0)].X, p.At[min(node+1, Nodes-1)].X
	value := func(x float64) (float64, error) {
		one := TensionZone{}
		station := d.ledger.at(x, p, d.situation.Steps)
		of := d.ledger.measure(d.situation, station)
		_, err := d.tensionAt(p, station, &of, piece, bars, &one)
		if one.Found && one.ratio() > worst.ratio() {
			*worst = one
		}
		if !one.Found {
			return 0, err
		}
		return one.ratio(), err
	}
	x1, x2 := b-ratio*(b-a), a+ratio*(b-a)
	v1, err := value(x1)
	if err != nil {
		return err
	}
	v2, err := value(x2)
	for n := 1; n < 14 && err == nil; n++ {
		if v1 > v2 {
			b, x2, v2 = x2, x1, v1
			x1 = b - ratio*(b-a)
			v1, err = value(x1)
		} else {
			a, x1, v1 = x1, x2, v2
			x2 = a + ratio*(b-a)
			v2, err = value(x2)
		}
	}
	return err
}

// tensionAt looks at one station; true when it is the worst so far.
func (d *Demand) tensionAt(p *Stretch, at *Station, of *effect, piece int, bars BarsIn, worst *TensionZone) (bool, error) {
	slot := slices.IndexFunc(at.Pieces, func(on PieceAt) bool { return on.Index == piece })
	if slot < 0 || !(bars(at.X, func(section.Point) float64 { return 1 }) > 0) {
		return false, nil
	}
	may, err := d.tensile(p, of, slot)
	if err != nil {
		return false, err
	}
	if p.constant && !slices.ContainsFunc(p.hull, func(i int) bool { return may(at.Corners[i].Spot()) }) {
		return false, nil // the largest stress of the section is at a corner of its hull
	}
	s := tensionSearch{Demand: d, p: p, at: at, of: of, slot: slot, bars: bars, worst: worst}
	s.sectorial, s.open = d.ledger.sectorial(&at.Pieces[slot])
	s.stress = func(p section.Point) float64 { return s.plane.At(spotOf(s.sectorial, s.open, p)) }
	d.tension.sets = d.tension.sets[:0]
	for number, corner := range at.Corners {
		if corner.Slot != slot || !may(corner.Spot()) {
			continue
		}
		set, err := s.set(d.apartAt(p, number, at.X))
		for range len(p.spreading) + 1 {
			if err != nil {
				return s.changed, err
			}
			last := s.from(set, number)
			if last == nil {
				break
			}
			before := set
			if set, err = s.apartOf(set, last); set == before {
				break
			}
		}
		if err != nil {
			return s.changed, err
		}
	}
	return s.changed, nil
}

// tensile says where a piece may be in tension, with every part of a tendon that
// spreads free.
func (d *Demand) tensile(p *Stretch, of *effect, slot int) (func(Spot) bool, error) {
	c, err := d.stretchLayout(p)
	if err != nil {
		return nil, err
	}
	column, u := c.column, &d.tension
	u.free = slices.Grow(u.free[:0], c.Corners()*c.columns)[:c.Corners()*c.columns]
	clear(u.free)
	for outer := range c.Corners() {
		free := u.free[outer*c.columns:]
		for e, w := range c.weights[outer] {
			addPlane(&free[column[e]], &of.part(e, slot).Plane, w)
		}
	}
	planes := u.free
	return func(at Spot) bool {
		for outer := range c.Corners() {
			if c.Stress(planes[outer*c.columns:], at, 1) > 0 {
				return true
			}
		}
		return false
	}, nil
}

// tensionZone is where a stress is tensile: exact for a plane, in triangles of the
// walls with warping.
func tensionZone(shape section.Shape, s section.Sectorial, open bool, plane Plane) (zone section.TensionZone) {
	if open && plane.Warping != 0 {
		return s.Tension(plane.Plane, plane.Warping)
	}
	if plane.SlopeY*plane.SlopeY+plane.SlopeZ*plane.SlopeZ == 0 {
		zone.Force, zone.Area = shape.TensionForce(plane.Plane)
		return zone
	}
	part := shape.Beyond(section.Point{Y: plane.SlopeY, Z: plane.SlopeZ}, -plane.Constant)
	if zone.Force, zone.Area = part.Force(plane.Plane), part.Area; part.Area > 0 {
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
