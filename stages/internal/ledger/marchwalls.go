package ledger

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"github.com/tempstage/tempstage/section"
)

// wallBase is bounds on what all but the product that differs do at a node of a piece.
type wallBase struct {
	stretch, slot, node int

	walls   *wallsAt
	centres []section.Point
	bodies  []int
	outer   []wallOthers
}

// wallOthers are the least and the largest value of each force, and the largest normal stress
// of each corner of the hull (Pa), at a corner of the outer causes, and what multiplies
// the product that differs.
type wallOthers struct {
	on            [][3][2]float64
	bends         [3][2]float64
	normal        []float64
	weight, shear float64
}

// wallPair is a piece of a stretch of one of the situations, with values that it does not
// exceed.
type wallPair struct {
	situation, at int // at: first node, in the list of all
	bound         float64
	tensile       float64
	from, to      int // nodes beside those that may have cracked
}

// near is how much below the worst, as a part of it, a value is that is refined as well.
const near = 1e-3

// WorstWall is [Demand.WorstWall] over all situations, and the number of the one that has
// it; what has cracked in any of them.
func (m *March) WorstWall(q WallQuery) (worst Wall, number int, cracked [][2]float64, err error) {
	if len(m.of) == 1 {
		worst, cracked, err = m.of[0].WorstWall(q)
		return worst, m.Numbers[0], cracked, err
	}
	q.filling = make([]section.Filling, len(m.of[0].ledger.Girder.Tendons))
	for i := range q.filling {
		q.filling[i] = q.Filling(i)
	}
	if err := m.layWalls(&q); err != nil {
		return worst, 0, nil, err
	}
	pairs := m.wallPairs(&q)
	if q.Principal {
		if cracked, err = m.crackedIn(&q, pairs); err != nil {
			return worst, 0, nil, err
		}
	}
	s := marchSearch{March: m, q: &q, worst: Wall{Found: q.Floor > 0, Value: q.Floor}, best: -1}
	if err := s.look(pairs); err != nil {
		return worst, 0, nil, err
	}
	if s.best < 0 {
		return Wall{}, 0, cracked, nil
	}
	return s.worst, m.Numbers[s.best], cracked, nil
}

// layWalls finds what all but the product that differs do at every node with walls.
func (m *March) layWalls(q *WallQuery) error {
	if m.walls != nil && slices.Equal(m.asked.filling, q.filling) && slices.Equal(m.asked.Pieces, q.Pieces) {
		return nil
	}
	m.walls, m.asked = nil, *q
	d := m.of[0]
	for k := range d.ledger.grid {
		p := &d.ledger.grid[k]
		for slot := range p.At[0].Pieces {
			if !q.asks(p, slot) || !d.ledger.walled(d.situation, p, slot) {
				continue
			}
			for n := range p.At {
				one, err := m.baseAt(q, k, slot, n)
				if err != nil {
					m.walls = nil
					return err
				}
				m.walls = append(m.walls, one)
			}
		}
	}
	return nil
}

// baseAt is the bounds at one node.
func (m *March) baseAt(q *WallQuery, k, slot, n int) (b wallBase, err error) {
	d := m.of[0]
	p := &d.ledger.grid[k]
	b = wallBase{stretch: k, slot: slot, node: n, bodies: d.ledger.actingOn(d.situation, p, slot).bodies}
	if b.walls, err = d.walls(q, p, p.At[n], slot); err != nil {
		return b, err
	}
	b.centres = b.walls.centres()
	c, err := d.wallColumns(p, slot, &d.ledger.measured(d.situation, k)[n], b.centres)
	if err != nil {
		return b, err
	}
	u, column := &d.wall, c.column[m.product]
	for outer := range c.Corners() {
		from, to := outer*c.columns, (outer+1)*c.columns
		span := func(sums []float64) [2]float64 {
			if len(sums) == 0 {
				return [2]float64{}
			}
			sums[from+column] = 0
			return [2]float64{u.shearing.Extreme(sums[from:to], -1), u.shearing.Extreme(sums[from:to], 1)}
		}
		o := wallOthers{weight: c.weights[outer][m.product], shear: u.shearing.weights[outer][m.product]}
		for i := range u.on {
			o.on = append(o.on, [3][2]float64{span(u.on[i].vy), span(u.on[i].vz), span(u.on[i].t)})
		}
		for i := range o.bends {
			o.bends[i] = span(u.bends[i])
		}
		planes := u.planesAt(outer, c.columns)
		planes[column] = Plane{}
		for _, i := range p.of(slot).hull {
			o.normal = append(o.normal, c.Stress(planes, p.At[n].Corners[i].Spot(), 1))
		}
		b.outer = append(b.outer, o)
	}
	return b, nil
}

// boundIn is the largest shear and normal stress at a node in one of the situations: values
// that no cut exceeds (Pa).
func (m *March) boundIn(b *wallBase, i int, most *largest) (shear, normal float64) {
	p := &m.of[i].ledger.grid[b.stretch]
	at, slots := p.At[b.node], p.At[0].slots()
	parts := m.does(i, b.stretch).parts[b.node*slots : (b.node+1)*slots]
	most.on, most.bends = most.on[:len(b.centres)], [3]float64{}
	clear(most.on)
	normal = math.Inf(-1)
	hull := p.of(b.slot).hull
	for o := range b.outer {
		outer := &b.outer[o]
		size := func(of [2]float64, v float64) float64 {
			v *= outer.shear
			return math.Max(of[1]+m.by.largest(v), m.by.largest(-v)-of[0])
		}
		for k := range outer.on {
			f := &parts[b.slot].Forces
			if k > 0 {
				f = &parts[len(at.Pieces)+b.bodies[k-1]].Forces
			}
			t := f.T + b.centres[k].Y*f.Vz - b.centres[k].Z*f.Vy
			for n, v := range [3]float64{f.Vy, f.Vz, t} {
				most.on[k][n] = math.Max(most.on[k][n], size(outer.on[k][n], v))
			}
		}
		if b.walls.taper != nil {
			for k, v := range bends(&parts[b.slot].Forces) {
				most.bends[k] = math.Max(most.bends[k], size(outer.bends[k], v))
			}
		}
		plane := &parts[b.slot].Plane
		for n, v := range outer.normal {
			normal = math.Max(normal, v+m.by.largest(outer.weight*plane.At(at.Corners[hull[n]].Spot())))
		}
	}
	return b.walls.any(most), normal
}

// wallPairs are the bounds of every piece of every stretch in every situation.
func (m *March) wallPairs(q *WallQuery) []wallPair {
	m.pairs = m.pairs[:0]
	bodies := 1
	for i := range m.walls {
		bodies = max(bodies, len(m.walls[i].centres))
	}
	most := largest{on: make([][3]float64, bodies)}
	for i := range m.of {
		for at := 0; at < len(m.walls); at += Nodes {
			one := wallPair{situation: i, at: at, bound: math.Inf(-1), tensile: math.Inf(-1), from: Nodes}
			for n := range Nodes {
				shear, normal := m.boundIn(&m.walls[at+n], i, &most)
				shear, normal = shear*(1+1e-12), normal+1e-12*(math.Abs(normal)+shear)
				one.tensile = math.Max(one.tensile, normal)
				if q.Principal {
					if normal > q.Cracked {
						one.from, one.to = min(one.from, n), n
					}
					shear = principalTension(r2.Vec{X: normal, Y: shear})
				}
				one.bound = math.Max(one.bound, shear)
			}
			one.from, one.to = max(one.from-1, 0), min(one.to+1, Nodes-1)
			m.pairs = append(m.pairs, one)
		}
	}
	return m.pairs
}
