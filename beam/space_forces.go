package beam

import (
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/section"
)

// resultants is N, Vy, Vz, T, My, Mz of a cut about the fixed axis y = z = 0.
type resultants [6]float64

// fromLeft is what a force and a moment about the cut, acting left of it, add
// to the forces in the cut: the face towards +x carries their opposite, V is
// the sum of forces to the left, My = −∫σz dA and Mz = −∫σy dA.
func fromLeft(force, moment r3.Vec) resultants {
	return resultants{-force.X, force.Y, force.Z, -moment.X, moment.Y, -moment.Z}
}

func (f *resultants) add(g *resultants) {
	for i := range f {
		f[i] += g[i]
	}
}

// forces are the internal forces under their names.
func (f resultants) forces() section.Forces {
	return section.Forces{N: f[0], Vy: f[1], Vz: f[2], T: f[3], My: f[4], Mz: f[5]}
}

// About is the forces f of a cut, given about the fixed axis y = z = 0, about
// its own points: N, My and Mz about the centroid and T about the shear
// centre. On the face towards +x the resultants of the shear stresses are −Vy
// and −Vz.
func About(f section.Forces, c CrossSection) section.Forces {
	f.T += c.ShearCentre.Y*f.Vz - c.ShearCentre.Z*f.Vy
	f.My += f.N * c.Centroid.Z
	f.Mz += f.N * c.Centroid.Y
	return f
}

// total is the resultant of all that acts, from the forces just beyond the
// right end, as a force and a moment about the reference point.
func (s *Space) total(c *cuts) vector6 {
	last := len(c.loaded) - 1
	f := c.at(last, c.length(last))
	f.add(&c.jump[last+1])
	force := r3.Vec{X: -f[0], Y: f[1], Z: f[2]}
	moment := r3.Vec{X: -f[3], Y: f[4], Z: -f[5]}
	moment = r3.Add(moment, r3.Cross(r3.Vec{X: s.layout.Length / 2}, force))
	return s.reduce(force, moment)
}

// support adds the forces of the columns, divided by their scales, to the
// internal forces.
func (s *Space) support(c *cuts, forces []float64) {
	var room [24]resultants
	extra := room[:min(len(c.jump), len(room))]
	if len(c.jump) > len(room) {
		extra = make([]resultants, len(c.jump))
	}
	near := samePlace * s.layout.Length
	for j, force := range forces {
		if force == 0 {
			continue
		}
		for _, m := range s.columns[j].members {
			r := &s.layout.Supports[m]
			i := find(c.places, r.X, near)
			f := r.unitField(c.places[i])
			for k := range f {
				extra[i][k] += force * s.columns[j].scale * f[k]
			}
		}
	}
	var now resultants
	for i := range c.loaded {
		now.add(&extra[i])
		law := c.law[6*i*c.terms : 6*(i+1)*c.terms]
		for k, v := range now {
			law[k*c.terms] += v
		}
		law[4*c.terms+1] += now[2]
		law[5*c.terms+1] += now[1]
		now[4] += now[2] * c.length(i)
		now[5] += now[1] * c.length(i)
	}
}

// unitField is what a unit of the force of a restraint adds at the place x it
// counts to.
func (r *Restraint) unitField(x float64) resultants {
	if r.Couple {
		return fromLeft(r3.Vec{}, r.Direction)
	}
	arm := r3.Vec{X: r.X - x, Y: r.Y, Z: r.Z}
	return fromLeft(r.Direction, r3.Cross(arm, r.Direction))
}
