package ledger

import (
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
)

// apartAt are the anchors within whose spread a corner is not yet at x, in
// order, each tendon by its first one; until the next question of this kind.
func (d *Demand) apartAt(p *Stretch, corner int, x float64) []int {
	d.unmark(p)
	d.markCorner(p, corner, x)
	return d.marks()
}

// unmark clears the marks of the anchors of a stretch.
func (d *Demand) unmark(p *Stretch) {
	n := len(p.spreading)
	if cap(d.marked) < n {
		d.marked = make([]bool, n)
	}
	d.marked = d.marked[:n]
	clear(d.marked)
}

// markCorner marks the anchors of stressed tendons within whose spread a corner at x is
// not yet.
func (d *Demand) markCorner(p *Stretch, corner int, x float64) {
	for i := range p.spreading {
		s := &p.spreading[i]
		if d.stressed(s) && (s.ahead*(x-s.from[corner]) < 0 || d.alone(s) && s.ahead*(x-s.end()) < 0) {
			d.marked[s.own] = true
		}
	}
}

// marks are the numbers that are marked, until the next marks.
func (d *Demand) marks() []int {
	d.apart = d.apart[:0]
	for i, is := range d.marked {
		if is {
			d.apart = append(d.apart, i)
		}
	}
	return d.apart
}

// apartIn are the anchors within whose spread a point of a wall of a piece is not yet
// at x, as apartAt: by the way to the nearest end of a cut, and from there to the point.
func (d *Demand) apartIn(p *Stretch, slot int, x float64, point section.Point) []int {
	if len(p.spreading) == 0 {
		return nil
	}
	end, distance := p.of(slot).nearestEnd(point)
	return d.apartBeyond(p, slot, x, end, distance)
}

// apartBeyond is apartIn for a point at a distance from an end of a cut (m).
func (d *Demand) apartBeyond(p *Stretch, slot int, x float64, end int, distance float64) []int {
	near := d.nearAnchors(p, slot, x)
	if near.each { // in order, none twice
		d.apart = d.apart[:0]
		for i := range near.some {
			if s := &near.some[i]; !(s.reach >= s.ways[end]+distance) {
				d.apart = append(d.apart, s.own)
			}
		}
		return d.apart
	}
	d.unmark(p)
	for _, own := range near.all {
		d.marked[own] = true
	}
	for i := range near.some {
		if s := &near.some[i]; !(s.reach >= s.ways[end]+distance) {
			d.marked[s.own] = true
		}
	}
	return d.marks()
}

// nearAnchors are the anchors of stressed tendons within whose spread some of a piece of a
// stretch at x is not yet.
type nearAnchors struct {
	stretch *Stretch
	slot    int
	x       float64
	all     []int // those of which none of it is
	some    []nearAnchor
	each    bool // some are all, of tendons in rising order
}

// nearAnchor is an anchor, by the first of its tendon, the way that its force has gone (m)
// and the ways to the ends of cuts.
type nearAnchor struct {
	own   int
	reach float64
	ways  []float64
}

// nearAnchors are kept for the next question at the same place.
func (d *Demand) nearAnchors(p *Stretch, slot int, x float64) *nearAnchors {
	near := &d.reached
	if near.stretch == p && near.slot == slot && near.x == x {
		return near
	}
	*near = nearAnchors{p, slot, x, near.all[:0], near.some[:0], true}
	for i := range p.spreading {
		s := &p.spreading[i]
		if !d.stressed(s) || s.ahead*(x-s.end()) >= 0 {
			continue
		}
		switch of := p.slotOf(s); {
		case of != slot: // by the joint between them only, which is not followed
			if slices.ContainsFunc(d.ledger.actingOn(d.situation, p, slot).bodies, func(b int) bool { return p.At[0].bodies[b][of] != 0 }) {
				near.all = append(near.all, s.own)
			}
		case s.grows > 0 || d.alone(s): // strands, and one of twins: the whole section alike
			near.all = append(near.all, s.own)
		default:
			near.some = append(near.some, nearAnchor{s.own, s.ahead * (x - s.anchor) * slope, s.ways})
		}
	}
	for i := range near.some {
		near.each = near.each && (i == 0 || near.some[i].own > near.some[i-1].own)
	}
	near.each = near.each && len(near.all) == 0
	return near
}

// nearestEnd is the end of a cut at the middle of the stretch that is nearest to a
// point, and its distance (m).
func (p *side) nearestEnd(point section.Point) (end int, distance float64) {
	distance = math.Inf(1)
	for k, e := range p.ends {
		y, z := point.Y-e.Y, point.Z-e.Z
		if d := y*y + z*z; d < distance {
			end, distance = k, d
		}
	}
	return end, math.Sqrt(distance)
}

// stressed is true for an anchor whose tendon, or its twin, has a force in the situation that
// spreads; where all count in full none does, but strands that have not transmitted theirs.
func (d *Demand) stressed(s *spreading) bool {
	if d.full && s.grows == 0 {
		return false
	}
	return d.forces[s.tendon] || s.twin >= 0 && d.forces[s.twin]
}

// inFull moves the columns of tendons that are not kept apart to the prestress.
func (d *Demand) inFull(dst []float64, c *Combination, apart []int) {
	base := c.column[0]
	for i, column := range c.column[len(d.situation.products):] {
		if len(apart) == 0 || apart[0] != i {
			if column != base {
				dst[base] += dst[column]
				dst[column] = 0
			}
			continue
		}
		apart = apart[1:]
	}
}
