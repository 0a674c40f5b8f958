package beam

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// vector6 is a force and a moment about the reference point divided by the
// reference length, or a translation there and a rotation times that length:
// six numbers of one unit, so that one tolerance fits them all.
type vector6 [6]float64

func (a *vector6) dot(b *vector6) float64 {
	return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] + a[3]*b[3] + a[4]*b[4] + a[5]*b[5]
}

func (a *vector6) add(factor float64, b *vector6) {
	for i := range a {
		a[i] += factor * b[i]
	}
}

// column is one unknown: the force of a restraint, or the equal forces of a
// group. Its value is the force divided by scale (1, or the reference length
// for a couple).
type column struct {
	members    []int // indices in SpaceLayout.Supports
	acts       vector6
	scale      float64
	oneWay     bool
	compliance float64 // Σ1/k times scale², m/N
}

// heldBelow is the part of the largest column of the equilibrium matrix below
// which a column adds nothing: two supports 1 mm apart on 100 m add 1e-5,
// rounding 1e-16.
const heldBelow = 1e-9

// gather makes the unknowns, in the order of the supports.
func (s *Space) gather() error {
	s.size = s.layout.Length
	for i := range s.layout.Supports {
		s.size = max(s.size, r3.Norm(s.arm(&s.layout.Supports[i])))
	}
	groups := map[string]int{}
	s.columnOf = make([]int, len(s.layout.Supports))
	for i := range s.layout.Supports {
		r := &s.layout.Supports[i]
		if r.Kept {
			s.columnOf[i] = -1
			continue
		}
		c, known := groups[r.Group]
		if !known || r.Group == "" {
			c = len(s.columns)
			groups[r.Group] = c
			s.columns = append(s.columns, column{scale: 1, oneWay: r.OneWay})
			if r.Couple {
				s.columns[c].scale = s.size
			}
		} else if first := &s.layout.Supports[s.columns[c].members[0]]; first.OneWay != r.OneWay || first.Couple != r.Couple {
			return fmt.Errorf("%w: Supports[%d] %s of Group %q: must be OneWay and Couple alike in a group", ErrBeam, i, r.place(), r.Group)
		}
		s.columnOf[i] = c
		column := &s.columns[c]
		column.members = append(column.members, i)
		unit := s.unitForce(r)
		column.acts.add(column.scale, &unit)
		if r.Stiffness > 0 {
			column.compliance += column.scale * column.scale / r.Stiffness
		}
	}
	return nil
}

// unitForce is a unit of the force of a restraint.
func (s *Space) unitForce(r *Restraint) vector6 {
	if r.Couple {
		return s.reduce(r3.Vec{}, r.Direction)
	}
	return s.reduce(r.Direction, r3.Cross(s.arm(r), r.Direction))
}

// arm is a restraint seen from the reference point, the middle of the axis.
func (s *Space) arm(r *Restraint) r3.Vec {
	return r3.Vec{X: r.X - s.layout.Length/2, Y: r.Y, Z: r.Z}
}

// reduce makes a force and a moment about the reference point one vector.
func (s *Space) reduce(force, moment r3.Vec) vector6 {
	l := 1 / s.size
	return vector6{force.X, force.Y, force.Z, moment.X * l, moment.Y * l, moment.Z * l}
}

// primary is a set of columns that equilibrium alone can find, chosen by
// pivoted orthogonalisation so that they are as independent as possible.
type primary struct {
	columns []int
	basis   []vector6 // orthonormal: what they hold
	inverse []vector6 // row i: force of column i per unit of what they have to carry, with the opposite sign of the loads
}

func (p *primary) rank() int { return len(p.columns) }

// choosePrimary is the modified Gram-Schmidt process with pivoting on the
// columns of the equilibrium matrix, orthogonalised twice (Golub, Van Loan,
// Matrix Computations, 5.2.8, 5.4.2).
func (s *Space) choosePrimary() {
	rest := make([]vector6, len(s.columns))
	largest := 0.0
	for i := range rest {
		rest[i] = s.columns[i].acts
		largest = max(largest, math.Sqrt(rest[i].dot(&rest[i])))
	}
	p := &s.primary
	for p.rank() < 6 {
		best, most := -1, heldBelow*largest
		for i := range rest {
			// The first of equal ones, so that rounding does not choose.
			if norm := math.Sqrt(rest[i].dot(&rest[i])); norm > most*(1+heldBelow) {
				best, most = i, norm
			}
		}
		if best < 0 {
			break
		}
		q := rest[best]
		p.orthogonal(&q)
		p.columns = append(p.columns, best)
		p.basis = append(p.basis, q)
		for i := range rest {
			rest[i].add(-rest[i].dot(&q), &q)
		}
		rest[best] = vector6{}
	}
	p.invert(s.columns)
}

// orthogonal removes from v its part in the basis and makes it a unit vector.
func (p *primary) orthogonal(v *vector6) {
	for i := range p.basis {
		v.add(-v.dot(&p.basis[i]), &p.basis[i])
	}
	length := 1 / math.Sqrt(v.dot(v))
	for i := range v {
		v[i] *= length
	}
}

// invert solves R·inverse = Qᵀ with the triangle R = Qᵀ·A of the primary
// columns.
func (p *primary) invert(columns []column) {
	n := p.rank()
	p.inverse = make([]vector6, n)
	for i := n - 1; i >= 0; i-- {
		row := p.basis[i]
		for j := i + 1; j < n; j++ {
			row.add(-p.basis[i].dot(&columns[p.columns[j]].acts), &p.inverse[j])
		}
		diagonal := 1 / p.basis[i].dot(&columns[p.columns[i]].acts)
		for k := range row {
			row[k] *= diagonal
		}
		p.inverse[i] = row
	}
}

// balance adds to the forces those of the primary columns that carry the
// loads, and once more what rounding left.
func (s *Space) balance(forces []float64, loads vector6) {
	for range 2 {
		residual := loads
		for j, force := range forces {
			if force != 0 {
				residual.add(force, &s.columns[j].acts)
			}
		}
		for i, j := range s.primary.columns {
			forces[j] -= s.primary.inverse[i].dot(&residual)
		}
	}
}
