package ledger

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// wallAt looks at every cut of a piece of a station under the worst factors.
func (d *Demand) wallAt(q *WallQuery, p *Stretch, slot int, at *Station, of *effect, worst *Wall) error {
	w, err := d.walls(q, p, at, slot)
	if err != nil {
		return err
	}
	if err := d.ledger.measureEnds(p, slot); err != nil {
		return err
	}
	c, err := d.wallColumns(p, slot, of, w.centres())
	if err != nil {
		return err
	}
	d.wallCuts(q, p, slot, at, w, c, worst)
	return nil
}

// wallCuts looks at the cuts that may be worse than the worst by the largest forces of
// the station.
func (d *Demand) wallCuts(q *WallQuery, p *Stretch, slot int, at *Station, w *wallsAt, c *Combination, worst *Wall) {
	u := &d.wall
	normal, forces := u.normal(c, p, slot), u.largest(c)
	if u.brief.ready = d.brief(q, p, slot, w, c); u.brief.ready {
		u.brief.full, u.brief.size = d.gather(p, slot, c, u.planes, u.brief.full[:0])
		u.brief.some = append(u.brief.some[:0], u.planes...)
	}
	look := func(i int) { d.wallLook(q, p, slot, at, w, i, c, normal, &forces, worst) }
	first := u.hint // the worst of another station
	if first < len(w.net) {
		look(first)
	}
	for i := range w.net {
		if i != first {
			look(i)
		}
	}
}

// wallLook looks at a cut if it may be worse than the worst by the largest forces and
// the largest normal stress (Pa) of its station.
func (d *Demand) wallLook(q *WallQuery, p *Stretch, slot int, at *Station, w *wallsAt, i int, c *Combination, normal float64, forces *largest, worst *Wall) {
	most := w.most(i, forces)
	shear := most
	if q.Principal {
		most = principalTension(r2.Vec{X: normal, Y: most})
	}
	if worst.Found && most <= worst.Value {
		return
	}
	if d.wall.brief.ready && worst.Found {
		d.apartAtEnds(p, slot, at.X, w, i)
		if d.below(w, i, c, shear, worst) || d.below(w, i, c, d.shearIn(w, i, c), worst) {
			return
		}
	}
	d.wallCut(q, p, slot, at, w, i, c, normal, worst)
}

// wallCut looks at both ends of a cut where they may be worse than the worst; normal is
// a stress (Pa) that they do not exceed.
func (d *Demand) wallCut(q *WallQuery, p *Stretch, slot int, at *Station, w *wallsAt, i int, c *Combination, normal float64, worst *Wall) {
	u := &d.wall
	for outer := range c.Corners() {
		u.lay(w, i, c, outer)
		shear := u.shearing.Shear(nil, outer, &d.reach, u.flow, u.free...)
		for k, end := range w.ends(i) {
			most := shear
			if q.Principal {
				most = principalTension(r2.Vec{X: normal, Y: shear})
			}
			if worst.Found && most <= worst.Value {
				break
			}
			d.wallEnd(q, p, slot, at, w, wallEnd{i, k, end, shear}, c, outer, worst)
		}
	}
}

// wallEnd is an end of a cut, with a shear stress that it does not exceed.
type wallEnd struct {
	cut, side int // 0 From, 1 To
	at        Spot
	shear     float64 // Pa
}

// apartAtEnd are the anchors within whose spread an end of a cut is not yet.
func (d *Demand) apartAtEnd(p *Stretch, slot int, x float64, w *wallsAt, end *wallEnd) []int {
	switch piece := p.of(slot); {
	case len(p.spreading) == 0:
		return nil
	case piece.constant && len(piece.ends) == 2*len(w.walls.Cuts):
		near := w.nearest(piece, end.cut, end.side)
		return d.apartBeyond(p, slot, x, near.end, near.distance)
	}
	return d.apartIn(p, slot, x, end.at.Point)
}

// wallEnd looks at one end of a cut, with the parts of the tendons within whose
// spread it is, and keeps it if it is the worst.
func (d *Demand) wallEnd(q *WallQuery, p *Stretch, slot int, at *Station, w *wallsAt, end wallEnd, c *Combination, outer int, worst *Wall) {
	u := &d.wall
	u.values = resize(u.values, c.columns)
	c.At(u.values, u.planesAt(outer, c.columns), end.at)
	apart := d.apartAtEnd(p, slot, at.X, w, &end)
	d.inFull(u.values, c, apart)
	if worst.Found && q.Principal && principalTension(r2.Vec{X: c.Extreme(u.values, 1), Y: end.shear}) <= worst.Value {
		return
	}
	u.shears, u.freed = append(u.shears[:0], u.flow...), u.freed[:0]
	d.inFull(u.shears, c, apart)
	for _, list := range u.free {
		u.freed = more(u.freed, c.columns)
		copy(u.freed[len(u.freed)-1], list)
		d.inFull(u.freed[len(u.freed)-1], c, apart)
	}
	found := Wall{Found: true, X: at.X, Piece: at.Pieces[slot].Index, Constant: w.walls.Constant, Centre: w.walls.ShearCentre, At: end.at.Point}
	u.factors = resize(u.factors, len(d.causes)+len(p.spreading))
	d.worstAt(q, c, outer, &found)
	if worst.Found && found.Value <= worst.Value {
		return
	}
	for k := range w.bodies {
		found.Bodies = append(found.Bodies, w.bodies[k].flows[end.cut])
	}
	found.Cut, found.Factors = w.at(end.cut), slices.Clone(u.factors[:len(d.causes)])
	for _, n := range apart {
		found.Apart = d.appendApart(found.Apart, &p.spreading[n], u.factors[len(d.causes)+n])
	}
	*worst, u.hint = found, end.cut
}

// worstAt finds the worst factors of the normal and shear stresses that are laid out.
func (d *Demand) worstAt(q *WallQuery, c *Combination, outer int, found *Wall) {
	u := &d.wall
	if q.Principal {
		u.sums = slices.Grow(u.sums[:0], c.columns)[:c.columns]
		for j := range u.sums {
			u.sums[j] = r2.Vec{X: u.values[j], Y: u.shears[j]}
		}
		value, pair := c.PrincipalTension(u.factors, outer, &d.reach, u.sums, u.freed...)
		found.Value, found.Normal, found.Shear = value, pair.X, pair.Y
		return
	}
	found.Value = c.Shear(u.factors, outer, &d.reach, u.shears, u.freed...)
	found.Normal, found.Shear = c.Under(u.values, u.factors), found.Value
}
