package ledger

import (
	"math"
	"slices"
)

// wallNodes are the nodes with walls, kept for the next limit with the same ranges.
func (d *Demand) wallNodes(q *WallQuery) ([]wallNode, error) {
	if d.nodes != nil && slices.Equal(d.filling, q.filling) && slices.Equal(d.walled, q.Pieces) {
		return d.nodes, nil
	}
	d.nodes, d.filling, d.walled = make([]wallNode, 0, Nodes*len(d.ledger.grid)), q.filling, q.Pieces
	for k := range d.ledger.grid {
		p := &d.ledger.grid[k]
		for slot := range p.At[0].Pieces {
			if !q.asks(p, slot) || !d.ledger.walled(d.situation, p, slot) {
				continue
			}
			for n := range p.At {
				one := wallNode{stretch: k, slot: slot, node: n}
				if err := d.boundWalls(q, &one); err != nil {
					d.nodes = nil
					return nil, err
				}
				d.nodes = append(d.nodes, one)
			}
		}
	}
	return d.nodes, nil
}

// asks is true where a query is about a piece of a stretch.
func (q *WallQuery) asks(p *Stretch, slot int) bool {
	return q.Pieces == nil || slices.Contains(q.Pieces, p.At[0].Pieces[slot].Index)
}

// boundWalls finds stresses that no cut of a node exceeds.
func (d *Demand) boundWalls(q *WallQuery, to *wallNode) error {
	l := d.ledger
	p := &l.grid[to.stretch]
	at, of := p.At[to.node], &l.measured(d.situation, to.stretch)[to.node]
	w, err := d.walls(q, p, at, to.slot)
	if err != nil {
		return err
	}
	c, err := d.wallColumns(p, to.slot, of, w.centres())
	if err != nil {
		return err
	}
	most := d.wall.largest(c)
	to.shear = w.any(&most)
	to.normal = math.Inf(-1)
	for outer := range c.Corners() {
		planes := d.wall.planesAt(outer, c.columns)
		for _, i := range p.of(to.slot).hull {
			to.normal = math.Max(to.normal, c.Stress(planes, at.Corners[i].Spot(), 1))
		}
	}
	to.tensile, to.reached = to.normal, math.Inf(-1)
	if len(p.spreading) == 0 {
		to.reached = to.normal
	}
	return nil
}

// cracks is true where a corner of a node has a larger tensile stress than a query
// allows, with the parts of the tendons within whose spread it is.
func (d *Demand) cracks(q *WallQuery, n *wallNode) (bool, error) {
	switch {
	case !(n.tensile > q.Cracked):
		return false, nil
	case n.reached > q.Cracked:
		return true, nil
	}
	p := &d.ledger.grid[n.stretch]
	at := p.At[n.node]
	c, err := d.wallColumns(p, n.slot, &d.ledger.measured(d.situation, n.stretch)[n.node], nil)
	if err != nil {
		return false, err
	}
	if d.tensileBeyond(p, n.slot, at.Corners, at.X, c, q.Cracked, &n.reached) {
		return true, nil
	}
	n.tensile = math.Min(n.tensile, q.Cracked)
	return false, nil
}

// walls are those of a piece at a station of a stretch, with the flows of all sections on
// which forces act there.
func (d *Demand) walls(q *WallQuery, p *Stretch, at *Station, slot int) (*wallsAt, error) {
	on := d.ledger.actingOn(d.situation, p, slot)
	if len(on.bodies) == 0 {
		return d.ledger.wallsAt(at, slot, q.filling)
	}
	c, err := d.ledger.crossAsOne(at, p.At[0].bodies, slot, on)
	if err != nil {
		return nil, err
	}
	return d.ledger.fillDucts(c, q.filling)
}

// wallsIn are the walls at a place of a stretch, whose outline is then in the room of
// walls. Where all along it is the same, that at its middle serves.
func (d *Demand) wallsIn(q *WallQuery, p *Stretch, slot int, x float64) (*wallsAt, error) {
	at := p.At[Nodes/2]
	if !p.level {
		at = d.ledger.outlineAt(x)
	}
	w, err := d.walls(q, p, at, slot)
	d.wall.between = *at
	d.wall.between.X = x
	return w, err
}

// largest are forces by magnitude.
type largest struct {
	on    [][3]float64 // Vy, Vz, T on each section
	bends [3]float64   // N, My, Mz
}

// largest are the largest shear forces and torques at a station by magnitude, until the
// next question of this kind.
func (u *wallRoom) largest(c *Combination) (most largest) {
	size := func(sums []float64) float64 {
		return math.Max(u.shearing.Extreme(sums, 1), -u.shearing.Extreme(sums, -1))
	}
	u.most = slices.Grow(u.most[:0], len(u.on))[:len(u.on)]
	clear(u.most)
	most.on = u.most
	for outer := range c.Corners() {
		from, to := outer*c.columns, (outer+1)*c.columns
		for k := range u.on {
			for n, sums := range [3][]float64{u.on[k].vy[from:to], u.on[k].vz[from:to], u.on[k].t[from:to]} {
				most.on[k][n] = math.Max(most.on[k][n], size(sums))
			}
		}
		for k, sums := range u.bends {
			if len(sums) > 0 {
				most.bends[k] = math.Max(most.bends[k], size(sums[from:to]))
			}
		}
	}
	return most
}

// normal is the largest stress of a corner of a constant piece at a station of a stretch
// (Pa); without bound where the outline varies.
func (u *wallRoom) normal(c *Combination, p *Stretch, slot int) float64 {
	side := p.of(slot)
	if !side.constant {
		return math.Inf(1)
	}
	most := math.Inf(-1)
	for outer := range c.Corners() {
		planes := u.planesAt(outer, c.columns)
		for _, i := range side.hull {
			most = math.Max(most, c.Stress(planes, p.At[0].Corners[i].Spot(), 1))
		}
	}
	return most
}
