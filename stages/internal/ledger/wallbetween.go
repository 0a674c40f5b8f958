package ledger

import (
	"math"
	"slices"
)

// wallPlace is a place between the nodes where the stress of a wall jumps or its
// search ends.
type wallPlace struct {
	x   float64
	cut int // −1: every cut
}

// hair is how near to a jump a place is, as a part of its stretch.
const hair = 1e-9

// between looks at the walls between the nodes: where an end of a cut comes within the
// spread of an anchor, and where the section cracks. Stretches none of whose nodes may
// have more than the worst are left out.
func (d *Demand) between(q *WallQuery, nodes []wallNode, cracked [][2]float64, worst *Wall) error {
	best := *worst
	for i := 0; i < len(nodes); i += Nodes {
		p, slot, bound := &d.ledger.grid[nodes[i].stretch], nodes[i].slot, math.Inf(-1)
		for n := range nodes[i : i+Nodes] {
			bound = math.Max(bound, nodes[i+n].bound)
		}
		if best.Found && bound <= best.Value {
			continue
		}
		if err := d.ledger.measureEnds(p, slot); err != nil {
			return err
		}
		places, err := d.wallPlaces(q, p, slot, cracked)
		if err != nil {
			return err
		}
		if len(places) == 0 {
			continue
		}
		if err := d.wallCurves(nodes[i].stretch, slot); err != nil {
			return err
		}
		for _, place := range places {
			if best.Found && boundAt(p, nodes[i:i+Nodes], place.x) <= best.Value {
				continue
			}
			if err := d.wallBetween(q, p, slot, place, &best); err != nil {
				return err
			}
		}
	}
	if best.Factors == nil || best.Value <= worst.Value {
		return nil
	}
	p := &d.ledger.grid[d.ledger.stretchAt(best.X)]
	at := d.ledger.at(best.X, p, d.situation.Steps)
	of := d.ledger.measure(d.situation, at)
	return d.wallAt(q, p, at.Slot([]int{best.Piece}), at, &of, worst)
}

// boundAt is the larger bound of the nodes on either side of x.
func boundAt(p *Stretch, nodes []wallNode, x float64) float64 {
	n := 1
	for n < Nodes-1 && p.At[n].X < x {
		n++
	}
	return math.Max(nodes[n-1].bound, nodes[n].bound)
}

// wallPlaces are the places of a piece of a stretch to look at, beside cracked reaches. Where the
// ways to the ends of a cut change along the stretch, with the section or with a duct,
// those at its middle serve, and the place is a little off.
func (d *Demand) wallPlaces(q *WallQuery, p *Stretch, slot int, cracked [][2]float64) (list []wallPlace, err error) {
	first, last := p.At[0].X, p.At[Nodes-1].X
	piece, off, offAbout := p.of(slot), hair*(last-first), 2e-3*(last-first)
	add := func(x float64, cut int) {
		in := func(reach [2]float64) bool { return x > reach[0] && x < reach[1] }
		if x > first && x < last && !slices.ContainsFunc(cracked, in) {
			list = append(list, wallPlace{x, cut})
		}
	}
	for _, reach := range cracked {
		add(reach[0]-off, -1)
		add(reach[1]+off, -1)
	}
	for i := range p.spreading {
		s := &p.spreading[i]
		if s.grows > 0 || p.slotOf(s) != slot || !d.stressed(s) {
			continue
		}
		short := off
		if !piece.constant {
			short = offAbout
		}
		for end, way := range s.ways {
			cut := end / 2
			if len(d.ledger.actingOn(d.situation, p, slot).bodies) > 0 {
				cut = -1 // its cuts are not those of the piece alone
			}
			add(s.anchor+s.ahead*(way/slope-short), cut) // just before it is reached
		}
		if !piece.constant {
			continue
		}
		w, err := d.walls(q, p, p.At[Nodes/2], slot)
		if err != nil {
			return nil, err
		}
		for i := len(w.walls.Cuts); i < w.number(); i++ { // through ducts
			for end := range 2 {
				near := w.nearest(piece, i, end)
				add(s.anchor+s.ahead*((s.ways[near.end]+near.distance)/slope-offAbout), i)
			}
		}
	}
	return list, nil
}

// wallBetween looks at a place on the polynomials through the nodes.
func (d *Demand) wallBetween(q *WallQuery, p *Stretch, slot int, place wallPlace, worst *Wall) error {
	w, err := d.wallsIn(q, p, slot, place.x)
	if err != nil {
		return err
	}
	at := &d.wall.between
	if worst.Found && place.cut >= 0 && place.cut < len(w.net) && d.brief(q, p, slot, w, d.wall.layout) {
		if d.belowBetween(p, slot, place, w, worst) {
			return nil
		}
	}
	d.wall.brief.ready = false
	c := d.wall.interpolate(p, place.x, w.centres())
	if place.cut < 0 || place.cut >= len(w.net) {
		d.wallCuts(q, p, slot, at, w, c, worst)
		return nil
	}
	forces := d.wall.largest(c)
	d.wallLook(q, p, slot, at, w, place.cut, c, d.wall.normal(c, p, slot), &forces, worst)
	return nil
}

// crackedReach are the reaches of a piece of a stretch that have cracked, given the nodes that
// have: from where the section cracks.
func (d *Demand) crackedReach(q *WallQuery, k, slot int, is *[Nodes]bool) (list [][2]float64, err error) {
	p := &d.ledger.grid[k]
	known := false
	edge := func(whole, cracked int) (float64, error) {
		if !known {
			if err := d.wallCurves(k, slot); err != nil {
				return 0, err
			}
			known = true
		}
		return d.crackBetween(q, p, slot, p.At[whole].X, p.At[cracked].X)
	}
	for n := range is {
		if !is[n] {
			continue
		}
		reach := [2]float64{p.At[n].X, p.At[n].X}
		if n > 0 && !is[n-1] {
			if reach[0], err = edge(n-1, n); err != nil {
				return nil, err
			}
		}
		if n < Nodes-1 && !is[n+1] {
			if reach[1], err = edge(n+1, n); err != nil {
				return nil, err
			}
		}
		if n > 0 && is[n-1] {
			list[len(list)-1][1] = reach[1]
			continue
		}
		list = append(list, reach)
	}
	return list, nil
}

// crackBetween is the place where the section cracks between one that has not and one
// that has, by halving; on the whole side.
func (d *Demand) crackBetween(q *WallQuery, p *Stretch, slot int, whole, cracked float64) (float64, error) {
	const near = 1e-7
	for off := math.Abs(cracked - whole); math.Abs(cracked-whole) > near*off; {
		middle := (whole + cracked) / 2
		is, err := d.crackedAt(q, p, slot, middle)
		if err != nil {
			return 0, err
		}
		if is {
			cracked = middle
		} else {
			whole = middle
		}
	}
	return whole, nil
}

// crackedAt is whether the section has cracked between the nodes.
func (d *Demand) crackedAt(q *WallQuery, p *Stretch, slot int, x float64) (bool, error) {
	corners := p.At[0].Corners
	if !p.of(slot).constant {
		at := d.ledger.outline(x)
		d.ledger.corners(at, p.cuts)
		corners = at.Corners
	}
	c := d.wall.interpolate(p, x, nil)
	return d.tensileBeyond(p, slot, corners, x, c, q.Cracked, nil), nil
}

// tensileBeyond is whether a corner of a piece has more than a tensile stress in the columns that
// are laid out, with the parts of the tendons within whose spread it is; reached, if
// any, keeps the largest that was found.
func (d *Demand) tensileBeyond(p *Stretch, slot int, corners []Corner, x float64, c *Combination, stress float64, reached *float64) bool {
	u := &d.wall
	u.flow = resize(u.flow, c.columns)
	for number, corner := range corners {
		if corner.Slot != slot {
			continue
		}
		for outer := range c.Corners() {
			planes := u.planesAt(outer, c.columns)
			if c.Stress(planes, corner.Spot(), 1) <= stress { // with every part free
				continue
			}
			c.At(u.flow, planes, corner.Spot())
			d.inFull(u.flow, c, d.apartAt(p, number, x))
			value := c.Extreme(u.flow, 1)
			if reached != nil {
				*reached = math.Max(*reached, value)
			}
			if value > stress {
				return true
			}
		}
	}
	return false
}
