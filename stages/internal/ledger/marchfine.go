package ledger

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// wallFine is what all but the product that differs do at each cut of a node.
type wallFine struct {
	shear  []float64      // of each cut: the largest shear stress, Pa
	normal [][2][]float64 // of each cut, at its ends: the largest normal stress at each corner of the outer causes, Pa
}

// fineWall is a bound on a pair, cut by cut, with the parts of tendons that count at its ends.
func (m *March) fineWall(tables map[int][]wallFine, q *WallQuery, one wallPair) (float64, error) {
	table, known := tables[one.at]
	if !known {
		for n := range Nodes {
			fine, err := m.fineAt(q, &m.walls[one.at+n])
			if err != nil {
				return 0, err
			}
			table = append(table, fine)
		}
		tables[one.at] = table
	}
	bound := math.Inf(-1)
	for n := range table {
		bound = math.Max(bound, m.fineNode(q, &m.walls[one.at+n], &table[n], one.situation))
	}
	return bound * (1 + 1e-12), nil
}

// fineAt is the table of a node.
func (m *March) fineAt(q *WallQuery, b *wallBase) (fine wallFine, err error) {
	d := m.of[0]
	p := &d.ledger.grid[b.stretch]
	if err := d.ledger.measureEnds(p, b.slot); err != nil {
		return fine, err
	}
	c, err := d.wallColumns(p, b.slot, &d.ledger.measured(d.situation, b.stretch)[b.node], b.centres)
	if err != nil {
		return fine, err
	}
	u, w := &d.wall, b.walls
	for outer := range c.Corners() {
		u.without(outer*c.columns + c.column[m.product])
	}
	fine.shear, fine.normal = make([]float64, w.number()), make([][2][]float64, w.number())
	for i := range w.net {
		for outer := range c.Corners() {
			u.lay(w, i, c, outer)
			fine.shear[i] = math.Max(fine.shear[i], u.shearing.Shear(nil, outer, &d.reach, u.flow, u.free...))
			if !q.Principal {
				continue
			}
			for k, spot := range w.ends(i) {
				u.values = resize(u.values, c.columns)
				c.At(u.values, u.planesAt(outer, c.columns), spot)
				d.inFull(u.values, c, d.apartAtEnd(p, b.slot, p.At[b.node].X, w, &wallEnd{cut: i, side: k, at: spot}))
				fine.normal[i][k] = append(fine.normal[i][k], c.Extreme(u.values, 1))
			}
		}
	}
	return fine, nil
}

// without leaves a column out.
func (u *wallRoom) without(column int) {
	u.planes[column] = Plane{}
	for k := range u.on {
		u.on[k].vy[column], u.on[k].vz[column], u.on[k].t[column] = 0, 0, 0
	}
	for k := range u.bends {
		if len(u.bends[k]) > 0 {
			u.bends[k][column] = 0
		}
	}
}

// fineNode is a bound on the value sought at a node in one of the situations.
func (m *March) fineNode(q *WallQuery, b *wallBase, fine *wallFine, i int) float64 {
	at := m.of[i].ledger.grid[b.stretch].At[b.node]
	slots := at.slots()
	parts := m.does(i, b.stretch).parts[b.node*slots : (b.node+1)*slots]
	factor := 0.0 // the largest by magnitude
	for _, o := range b.outer {
		factor = math.Max(factor, math.Abs(o.shear)*math.Max(math.Abs(m.by.least), math.Abs(m.by.most)))
	}
	m.most.on = resizeForces(m.most.on, len(b.centres))
	for k, centre := range b.centres {
		f := &parts[b.slot].Forces
		if k > 0 {
			f = &parts[len(at.Pieces)+b.bodies[k-1]].Forces
		}
		m.most.on[k] = [3]float64{factor * math.Abs(f.Vy), factor * math.Abs(f.Vz), factor * math.Abs(f.T+centre.Y*f.Vz-centre.Z*f.Vy)}
	}
	for k, v := range bends(&parts[b.slot].Forces) {
		m.most.bends[k] = factor * math.Abs(v)
	}
	plane, most := &parts[b.slot].Plane, math.Inf(-1)
	for cut, shear := range fine.shear {
		shear += b.walls.most(cut, &m.most)
		if !q.Principal {
			most = math.Max(most, shear)
			continue
		}
		for k, spot := range b.walls.ends(cut) {
			v := plane.At(spot)
			for o, normal := range fine.normal[cut][k] {
				normal += m.by.largest(b.outer[o].weight * v)
				most = math.Max(most, principalTension(r2.Vec{X: normal, Y: shear}))
			}
		}
	}
	return most
}

func resizeForces(list [][3]float64, n int) [][3]float64 {
	if cap(list) < n {
		return make([][3]float64, n)
	}
	return list[:n]
}
