package ledger

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"github.com/tempstage/tempstage/section"
)

// wallRoom is the columns of a station for its walls, at each corner of the outer
// causes, and room for a look at a cut.
type wallRoom struct {
	planes   []Plane
	on       []shears     // on the piece alone, then on each body of it and others
	bends    [3][]float64 // N, My and Mz about the girder's axis; empty where no section varies
	flow     []float64    // of each column at a cut
	free     [][]float64  // what of it counts by magnitude: torsion at the face of an open wall, …
	freed    [][]float64  // at one of its ends
	sums     []r2.Vec
	most     [][3]float64
	values   []float64 // normal stresses of the columns
	shears   []float64
	factors  []float64
	shearing *Combination // of the columns that have shear forces
	between  Station      // a place off the nodes
	hint     int          // the cut that was the worst
	layout   *Combination // of the nodes
	nodes    [Nodes]wallCurve
	size     float64 // see wallBrief: in the stretch of the nodes
	brief    wallBrief
}

// shears are shear forces and torques of columns on one section, about its shear centre.
type shears struct{ vy, vz, t []float64 }

// resize makes room for n columns, of nothing.
func (s *shears) resize(n int) {
	s.vy, s.vz, s.t = resize(s.vy, n), resize(s.vz, n), resize(s.t, n)
	clear(s.vy)
	clear(s.vz)
	clear(s.t)
}

// about takes the torques from the girder's axis to a shear centre.
func (s *shears) about(centre section.Point) {
	for j := range s.t {
		s.t[j] += centre.Y*s.vz[j] - centre.Z*s.vy[j]
	}
}

// planesAt are the planes of the columns at one corner of the outer causes.
func (u *wallRoom) planesAt(outer, columns int) []Plane {
	return u.planes[outer*columns : (outer+1)*columns]
}

// wallColumns sums what acts on a piece of a station by columns, every tendon that
// spreads with a column of its own. V acts in full at once; what pretensioned strands have
// transmitted may be less in shear too. Torques are about the centres of the sections; nil is
// the girder's axis.
func (d *Demand) wallColumns(p *Stretch, slot int, of *effect, centres []section.Point) (*Combination, error) {
	u, apart := &d.wall, len(p.spreading)
	c, err := d.layoutIn(p, false)
	if err == nil && c.apart == 0 && d.inner {
		c, err = d.layoutIn(p, true)
	}
	if err != nil {
		return nil, err
	}
	if u.shearing = c; c.apart > 0 && !slices.ContainsFunc(p.spreading, func(s spreading) bool { return s.grows > 0 }) {
		if u.shearing, err = d.layout(0, false); err != nil { // its columns are the first of c
			return nil, err
		}
	}
	n := c.Corners() * c.columns
	u.planes = slices.Grow(u.planes[:0], n)[:n]
	clear(u.planes)
	at, bodies := p.At[0], d.ledger.actingOn(d.situation, p, slot).bodies
	u.on = slices.Grow(u.on[:0], 1+len(bodies))[:1+len(bodies)]
	for k := range u.on {
		u.on[k].resize(n)
	}
	if d.ledger.tapers() {
		for k := range u.bends {
			u.bends[k] = resize(u.bends[k], n)
			clear(u.bends[k])
		}
	}
	products, columns := len(d.situation.products), c.column
	for outer := range c.Corners() {
		from := outer * c.columns
		for e := range products + apart {
			part, w, column := of.part(e, slot), c.weights[outer][e], from+columns[e]
			addPlane(&u.planes[column], &part.Plane, w)
			if e >= products && p.spreading[e-products].grows == 0 {
				column = from + columns[0]
			}
			u.on[0].add(&part.Forces, column, w)
			for k, number := range bodies {
				u.on[1+k].add(&of.part(e, len(at.Pieces)+number).Forces, column, w)
			}
			if len(u.bends[0]) > 0 {
				for k, v := range bends(&part.Forces) {
					u.bends[k][column] += w * v
				}
			}
		}
	}
	for k := range centres {
		u.on[k].about(centres[k])
	}
	return c, nil
}

// add adds forces about the girder's axis to a column.
func (s *shears) add(f *section.Forces, column int, w float64) {
	s.vy[column] += w * f.Vy
	s.vz[column] += w * f.Vz
	s.t[column] += w * f.T
}
