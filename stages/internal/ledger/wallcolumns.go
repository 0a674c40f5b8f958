package ledger

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"github.com/tempstage/tempstage/section"
)

// wallRoom is the columns of a station for its walls, at each corner of the outer
// causes, and room for a look at a cut.
type wallRoom struct {
	planes        []Plane
	vy, vz, t     []float64    // about the shear centre
	bends         [3][]float64 // N, My and Mz about the girder's axis; empty where no section varies
	flow, torsion []float64    // of each column at a cut
	twist         []float64    // torsion at one of its ends
	free          [1][]float64
	sums          []r2.Vec
	values        []float64 // normal stresses of the columns
	shears        []float64
	factors       []float64
	shearing      *Combination // of the columns that have shear forces
	hint          int          // the cut that was the worst
	layout        *Combination // of the nodes
	nodes         [Nodes]wallCurve
}

// at is the columns at one corner of the outer causes.
func (u *wallRoom) at(outer, columns int) (one wallRoom) {
	from, to := outer*columns, (outer+1)*columns
	one = wallRoom{planes: u.planes[from:to], vy: u.vy[from:to], vz: u.vz[from:to], t: u.t[from:to]}
	if len(u.bends[0]) > 0 {
		for k := range u.bends {
			one.bends[k] = u.bends[k][from:to]
		}
	}
	return one
}

// wallColumns sums what acts on a piece of a station by columns, every tendon that
// spreads with a column of its own. V acts in full at once; what pretensioned strands have
// transmitted may be less in shear too.
func (d *Demand) wallColumns(p *Stretch, slot int, of *effect, centre section.Point) (*Combination, error) {
	u, apart := &d.wall, len(p.spreading)
	c, err := d.layout(apart, d.inner && apart == 0)
	if err != nil {
		return nil, err
	}
	if u.shearing = c; apart > 0 && !slices.ContainsFunc(p.spreading, func(s spreading) bool { return s.grows > 0 }) {
		if u.shearing, err = d.layout(0, false); err != nil { // its columns are the first of c
			return nil, err
		}
	}
	n := c.Corners() * c.columns
	u.planes = slices.Grow(u.planes[:0], n)[:n]
	u.vy, u.vz, u.t = resize(u.vy, n), resize(u.vz, n), resize(u.t, n)
	clear(u.planes)
	clear(u.vy)
	clear(u.vz)
	clear(u.t)
	if d.ledger.tapers() {
		for k := range u.bends {
			u.bends[k] = resize(u.bends[k], n)
			clear(u.bends[k])
		}
	}
	products, columns := len(d.situation.products), d.columnOf(p, c)
	for outer := range c.Corners() {
		one := u.at(outer, c.columns)
		for e := range products + apart {
			part, w, column := of.part(e, slot), c.weights[outer][e], columns[e]
			addPlane(&one.planes[column], &part.Plane, w)
			if e >= products && p.spreading[e-products].grows == 0 {
				column = columns[0]
			}
			f := &part.Forces
			one.vy[column] += w * f.Vy
			one.vz[column] += w * f.Vz
			one.t[column] += w * (f.T + centre.Y*f.Vz - centre.Z*f.Vy)
			if len(u.bends[0]) > 0 {
				for k, v := range bends(f) {
					one.bends[k][column] += w * v
				}
			}
		}
	}
	return c, nil
}
