package beam

import (
	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/spatial/r3"
)

// motion is the displacement of the point (x, 0, 0) carried with the section
// and the rotation of the section.
type motion struct{ shift, turn r3.Vec }

// at is the movement of a point at an arm from (x, 0, 0).
func (m motion) at(arm r3.Vec) r3.Vec { return r3.Add(m.shift, r3.Cross(m.turn, arm)) }

// carried is the motion a length h further along an undeformed member.
func (m motion) carried(h float64) motion { return motion{m.at(r3.Vec{X: h}), m.turn} }

// rule is Gauss's rule of n points on 0..1.
type rule struct{ at, weight []float64 }

// rules is Gauss's rules of 1 to 24 points; n points are exact to the degree
// 2n − 1.
var rules = func() (r [25]rule) {
	for n := 1; n < len(r); n++ {
		r[n] = gauss(n)
	}
	return r
}()

func gauss(n int) rule {
	g := rule{make([]float64, n), make([]float64, n)}
	quad.Legendre{}.FixedLocations(g.at, g.weight, 0, 1)
	return g
}

// smooth is the number of points that integrates what is given as a function,
// not as a polynomial.
const smooth = 8

// points is the rule that integrates the movements over interval i: forces,
// times a lever, times the law of the section.
func (w *walk) points(i int, varies bool) *rule {
	degree := 2 // linear moment, times a lever
	if w.cuts.loaded[i] {
		degree = w.cuts.terms
	}
	n := (degree + 2) / 2
	if varies {
		n = smooth + degree/2
	}
	if n < len(rules) {
		return &rules[n]
	}
	g := gauss(n)
	return &g
}

// walk integrates the deformation of a member from its left end, which rests.
type walk struct {
	member  *flexibility
	cuts    *cuts
	strains []SpaceStrain
	near    float64
}

// along is the motion at every place of the cuts, the first at rest.
func (w *walk) along() []motion {
	moved := make([]motion, len(w.cuts.places))
	for i := range w.cuts.loaded {
		moved[i+1] = w.advance(moved[i], i, w.cuts.length(i))
	}
	return moved
}

// advance is the motion at s (m) from the left end of interval i, where it is
// from. By virtual work a unit of length at a distance a before that place
// turns the section by (τ, −κy, κz) and shifts its axis by
// (ε, a·κz + zs·τ, a·κy − ys·τ).
func (w *walk) advance(from motion, i int, s float64) motion {
	to := from.carried(s)
	if len(w.member.panels) > 0 {
		x := w.cuts.places[i]
		p := w.member.panel(x + w.cuts.length(i)/2)
		g := w.points(i, p.law != nil)
		for k, t := range g.at {
			n := w.cuts.at(i, t*s)
			f := p.constant
			if p.law != nil {
				f = p.at(x + t*s)
			}
			d := f.deform(&n)
			to.deform(&d, g.weight[k]*s, (1-t)*s)
		}
	}
	if len(w.strains) > 0 {
		w.impose(&to, i, s)
	}
	return to
}

// deform adds the deformation of a length h at the distance a.
func (m *motion) deform(d *deformation, h, a float64) {
	m.turn.X += h * d.Twist
	m.turn.Y -= h * d.CurvatureY
	m.turn.Z += h * d.CurvatureZ
	m.shift.X += h * d.Axial
	m.shift.Y += h * (a*d.CurvatureZ + d.shearZ)
	m.shift.Z += h * (a*d.CurvatureY - d.shearY)
}

// impose adds the imposed strains between the left end of interval i and s.
func (w *walk) impose(to *motion, i int, s float64) {
	x := w.cuts.places[i]
	g := &rules[smooth]
	for j := range w.strains {
		e := &w.strains[j]
		if x < e.From-w.near || x >= e.To-w.near {
			continue
		}
		for k, t := range g.at {
			d := deformation{Strain: e.At(x + t*s)}
			if d.Twist != 0 && len(w.member.panels) > 0 {
				f := w.member.panel(x + w.cuts.length(i)/2).at(x + t*s)
				d.shearY, d.shearZ = d.Twist*f.shearY, d.Twist*f.shearZ
			}
			to.deform(&d, g.weight[k]*s, (1-t)*s)
		}
	}
}

// moved is how far the member moves at each column along its force, the left
// end at rest and divided like the forces are multiplied by scale.
func (s *Space) moved(places []float64, at []motion, out []float64) {
	near := samePlace * s.layout.Length
	for j := range s.columns {
		c := &s.columns[j]
		sum := 0.0
		for _, m := range c.members {
			r := &s.layout.Supports[m]
			i := find(places, r.X, near)
			if r.Couple {
				sum += r3.Dot(at[i].turn, r.Direction)
			} else {
				sum += r3.Dot(at[i].at(r3.Vec{X: r.X - places[i], Y: r.Y, Z: r.Z}), r.Direction)
			}
		}
		out[j] = sum * c.scale
	}
}
