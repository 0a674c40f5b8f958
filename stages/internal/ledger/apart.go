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
		if s := &p.spreading[i]; s.ahead*(x-s.from[corner]) < 0 && d.stressed(s.tendon) {
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
	d.unmark(p)
	for i := range p.spreading {
		s := &p.spreading[i]
		if p.slotOf(s) != slot { // by the joint between them only, which is not followed
			if d.stressed(s.tendon) && s.ahead*(x-s.end()) < 0 && slices.ContainsFunc(d.ledger.actingOn(d.situation, p, slot).bodies, func(b int) bool { return p.At[0].bodies[b][p.slotOf(s)] != 0 }) {
				d.marked[s.own] = true
			}
			continue
		}
		if s.ahead*(x-s.end()) >= 0 || s.grows == 0 && s.ahead*(x-s.anchor)*slope >= s.ways[end]+distance { // strands: the whole section alike
			continue
		}
		if d.stressed(s.tendon) {
			d.marked[s.own] = true
		}
	}
	return d.marks()
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

// stressed is true for a tendon that has a force in the situation.
func (d *Demand) stressed(tendon int) bool { return d.forces[tendon] }

// inFull moves the columns of tendons that are not kept apart to the prestress.
func (d *Demand) inFull(dst []float64, c *Combination, apart []int) {
	base := c.column[0]
	for i, column := range c.column[len(d.situation.products):] {
		if len(apart) == 0 || apart[0] != i {
			dst[base] += dst[column]
			dst[column] = 0
			continue
		}
		apart = apart[1:]
	}
}
