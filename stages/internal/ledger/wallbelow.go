package ledger

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"github.com/tempstage/tempstage/section"
)

// off is how far sums in another order may be from each other, relative to the sum of the
// magnitudes: a hundred roundings would be 2e-14.
const off = 1e-11

// wallBrief is a short way to a normal stress that an end of a cut does not exceed: of the
// tendons that spread only those within whose spread it is not yet are looked at one by one.
type wallBrief struct {
	full  []Plane // at each corner of the outer causes: the prestress with all parts of tendons
	size  float64 // the sum of magnitudes at any point does not exceed it, Pa
	some  []Plane // of the columns that are looked at
	apart [2][]int
	ready bool

	peaks    bool    // peak is that of the stretch whose columns are kept
	peak     largest // see findPeaks
	controls [Nodes][]shears
}

// brief is true where the short way serves: where no section warps, at a piece
// of one outline, if the parts of tendons are groups of their own from 0 to 1.
func (d *Demand) brief(q *WallQuery, p *Stretch, slot int, w *wallsAt, c *Combination) bool {
	if !q.Principal || c.apart == 0 || !p.of(slot).constant || w.warps != nil || d.ledger.open {
		return false
	}
	for i := range c.groups {
		if g := &c.groups[i]; len(g.parts) > 0 || d.partOf(c, g.column) && (g.least != 0 || g.most != 1) {
			return false
		}
	}
	return true
}

// partOf is true for a column of a tendon that spreads.
func (d *Demand) partOf(c *Combination, column int) bool {
	return column >= c.columns-c.apart
}

// gather sums the prestress with all parts of the columns that are laid out, and their
// magnitudes at the corners of the outline.
func (d *Demand) gather(p *Stretch, slot int, c *Combination, planes, full []Plane) (_ []Plane, size float64) {
	first := len(d.situation.products)
	for outer := range c.Corners() {
		of := planes[outer*c.columns : (outer+1)*c.columns]
		sum := of[c.column[0]]
		for _, column := range c.column[first:] {
			if column != c.column[0] {
				addPlane(&sum, &of[column], 1)
			}
		}
		full = append(full, sum)
		for _, i := range p.of(slot).hull {
			spot, here := p.At[0].Corners[i].Spot(), 0.0
			for j := range of {
				here += math.Abs(of[j].At(spot))
			}
			size = math.Max(size, here)
		}
	}
	return full, size
}

// below is true where neither end of a cut can be worse than the worst: by the columns
// under some and full, and a shear stress that the cut does not exceed (Pa).
func (d *Demand) below(w *wallsAt, i int, c *Combination, shear float64, worst *Wall) bool {
	b, ends := &d.wall.brief, w.ends(i)
	margin := off * b.size
	for outer := range c.Corners() {
		for k := range ends {
			if normal := d.briefNormal(c, outer, k, ends[k]); !(principalTension(r2.Vec{X: normal + margin, Y: shear})+margin <= worst.Value) {
				return false
			}
		}
	}
	return true
}

// briefNormal is the largest normal stress at an end of a cut: see wallBrief.
func (d *Demand) briefNormal(c *Combination, outer, end int, at Spot) float64 {
	b, first := &d.wall.brief, len(d.situation.products)
	planes, normal := b.some[outer*c.columns:(outer+1)*c.columns], b.full[outer].At(at)
	for j := range c.groups {
		if g := &c.groups[j]; !d.partOf(c, g.column) {
			normal += g.largest(planes[g.column].At(at))
		}
	}
	for _, n := range b.apart[end] { // none of it counts where that is worse
		if v := planes[c.column[first+n]].At(at); v < 0 {
			normal -= v
		}
	}
	return normal
}

// shearIn is the largest shear stress of a cut under the columns that are laid out.
func (d *Demand) shearIn(w *wallsAt, i int, c *Combination) (most float64) {
	u := &d.wall
	for outer := range c.Corners() {
		u.lay(w, i, c, outer)
		most = math.Max(most, u.shearing.Shear(nil, outer, &d.reach, u.flow, u.free...))
	}
	return most
}

// findPeaks finds the largest shear forces and torques by magnitude along a stretch whose
// columns at the nodes are kept: those of their Bernstein coefficients.
func (d *Demand) findPeaks(centres []section.Point) {
	u := &d.wall
	b := &u.brief
	b.peak.on, b.peaks = resizeForces(b.peak.on, len(u.on)), true
	clear(b.peak.on)
	for n := range b.controls {
		b.controls[n] = slices.Grow(b.controls[n][:0], len(u.on))[:len(u.on)]
		for k := range u.on {
			b.controls[n][k].resize(len(u.planes))
		}
	}
	for k, centre := range centres {
		for j := range u.planes {
			var vy, vz, t Curve
			for n := range u.nodes {
				of := &u.nodes[n].on[k]
				vy[n], vz[n], t[n] = of.vy[j], of.vz[j], of.t[j]+centre.Y*of.vz[j]-centre.Z*of.vy[j]
			}
			cy, _ := vy.control()
			cz, _ := vz.control()
			ct, _ := t.control()
			for n := range b.controls {
				to := &b.controls[n][k]
				to.vy[j], to.vz[j], to.t[j] = vy[0]+cy[n], vz[0]+cz[n], t[0]+ct[n]
			}
		}
	}
	on := u.on
	for n := range b.controls {
		u.on = b.controls[n]
		for k, of := range u.largest(u.layout).on {
			for i, v := range of {
				b.peak.on[k][i] = math.Max(b.peak.on[k][i], v*(1+off))
			}
		}
	}
	u.on = on
}

// apartAtEnds keeps the anchors within whose spread the ends of a cut are not yet.
func (d *Demand) apartAtEnds(p *Stretch, slot int, x float64, w *wallsAt, i int) {
	for k, spot := range w.ends(i) {
		to := &d.wall.brief.apart[k]
		*to = append((*to)[:0], d.apartAtEnd(p, slot, x, w, &wallEnd{cut: i, side: k, at: spot})...)
	}
}

// belowBetween is below at a place between the nodes. The largest shear forces of the
// stretch may do; where not, those of the place are found.
func (d *Demand) belowBetween(p *Stretch, slot int, place wallPlace, w *wallsAt, worst *Wall) bool {
	u, c := &d.wall, d.wall.layout
	shares := p.Shares(place.x)
	d.apartAtEnds(p, slot, place.x, w, place.cut)
	d.interpolateBrief(&shares)
	if p.level && len(u.bends[0]) == 0 { // with the same walls all along
		if !u.brief.peaks {
			d.findPeaks(w.centres())
		}
		if d.below(w, place.cut, c, w.most(place.cut, &u.brief.peak), worst) {
			return true
		}
	}
	u.interpolateShears(&shares, w.centres())
	return d.below(w, place.cut, c, d.shearIn(w, place.cut, c), worst)
}

// interpolateBrief makes those columns that a cut needs those at a place, by the shares of
// the nodes.
func (d *Demand) interpolateBrief(shares *Curve) {
	u, c := &d.wall, d.wall.layout
	b, first := &u.brief, len(d.situation.products)
	b.full, b.some = planesOf(b.full, c.Corners()), planesOf(b.some, c.Corners()*c.columns)
	clear(b.full)
	between := func(column int) {
		for outer := range c.Corners() {
			j := outer*c.columns + column
			b.some[j] = Plane{}
			for n, share := range shares {
				addPlane(&b.some[j], &u.nodes[n].planes[j], share)
			}
		}
	}
	for n, share := range shares {
		for outer := range b.full {
			addPlane(&b.full[outer], &u.nodes[n].full[outer], share)
		}
	}
	for j := range c.groups {
		if column := c.groups[j].column; !d.partOf(c, column) {
			between(column)
		}
	}
	for k := range b.apart {
		for _, n := range b.apart[k] {
			between(c.column[first+n])
		}
	}
	b.size = u.size
}

func planesOf(list []Plane, n int) []Plane {
	if cap(list) < n {
		return make([]Plane, n)
	}
	return list[:n]
}
