package ledger

import "slices"

// March is one question to situations that differ in what one product of causes does, as
// those of the positions of a train. What all others do is found once; what may have the
// extreme is looked at in the order of a bound on it.
type March struct {
	Numbers []int // of its demands in the list that it is made of

	of      []*Demand // the others are like the first
	product int       // in which they differ
	by      factor    // its factor, the only one of its column
	walls   []wallBase
	pairs   []wallPair // room: bounds of all
	most    largest    // room: of the product that differs
	asked   WallQuery  // for which the walls are
}

// Marches are demands gathered in marches, those that are like no other alone.
func Marches(list []*Demand) []*March {
	var marches []*March
	for i, d := range list {
		at := slices.IndexFunc(marches, func(m *March) bool { return m.takes(d) })
		if at < 0 {
			at, marches = len(marches), append(marches, &March{})
		}
		m := marches[at]
		m.Numbers, m.of = append(m.Numbers, i), append(m.of, d)
	}
	return marches
}

// InFull is the same march with all tendons in full before they have spread.
func (m *March) InFull() (*March, error) {
	full := &March{Numbers: m.Numbers, product: m.product, by: m.by}
	for _, d := range m.of {
		of, err := d.InFull()
		if err != nil {
			return nil, err
		}
		full.of = append(full.of, of)
	}
	return full, nil
}

// Forget lets go of the columns along the stretches; the next search finds them again.
func (m *March) Forget() {
	for _, d := range m.of {
		d.planes = nil
	}
}

// takes is true for a demand that differs from the first in one product, whose inner cause
// multiplies nothing else.
func (m *March) takes(d *Demand) bool {
	first := m.of[0]
	if d.situation.Moves == 0 || d.situation.Like != first.situation || !slices.Equal(d.causes, first.causes) {
		return false
	}
	d.ledger.findFields(d.situation)
	d.ledger.compare(d.situation)
	g := slices.Index(d.situation.differs, true)
	if g <= 0 || slices.Contains(d.situation.differs[g+1:], true) || d.situation.products[g].inner != d.situation.Moves-1 {
		return false
	}
	c, err := d.combination(0)
	if err != nil {
		return false
	}
	j := c.column[g]
	at := slices.IndexFunc(c.groups, func(f group) bool { return f.column == j && len(f.parts) == 0 })
	if at < 0 || slices.Index(c.column, j) != g || slices.Contains(c.column[g+1:], j) {
		return false
	}
	m.product, m.by = g, c.groups[at].factor
	return true
}

// alone is what the product that differs does in a stretch.
type alone struct {
	parts   []Part  // node by node, slot by slot
	control []Plane // where the outlines do not change: Bernstein coefficients of the planes
}

// does is what the product that differs does in one of the situations along a stretch.
func (m *March) does(i, k int) *alone {
	l, s := m.of[i].ledger, m.of[i].situation
	if s.alone == nil {
		l.findFields(s)
		s.alone = make([]*alone, len(l.grid))
	}
	if s.alone[k] != nil {
		return s.alone[k]
	}
	p := &l.grid[k]
	slots := p.At[0].slots()
	a := &alone{parts: make([]Part, Nodes*slots)}
	for n, at := range p.At {
		for _, e := range s.products[m.product].entries {
			l.spreadField(a.parts[n*slots:(n+1)*slots], s.fields[e], at, s.Entries[e].Coefficient, node{k, n})
		}
	}
	if p.constant {
		a.control = make([]Plane, Nodes)
		for n := range a.control {
			a.control[n] = a.parts[n*slots].Plane
		}
		planeControl(a.control, 1)
	}
	s.alone[k] = a
	return a
}

// row is the Bernstein coefficients of what the product that differs gives to a corner along a
// stretch (Pa).
func (a *alone) row(p *Stretch, corner int) (b control) {
	if a.control != nil {
		spot := p.At[0].Corners[corner].Spot()
		for n := range b {
			b[n] = a.control[n].At(spot)
		}
		return b
	}
	slots := p.At[0].slots()
	var values Curve
	for n, at := range p.At {
		c := at.Corners[corner]
		values[n] = a.parts[n*slots+c.Slot].Plane.At(c.Spot())
	}
	b, _ = values.control()
	for n := range b {
		b[n] += values[0]
	}
	return b
}
