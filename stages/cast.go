package stages

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
)

// casting is a body that was cast in place and hardened on its supports: forms carried the
// fluid concrete of each bay, between two rows of supports, to the rows beside it, so that
// the body is free of bending and each row has its tributary weight. Elastic supports that
// act in one sense have no memory: what they carry follows from the loads that act, from
// the supports that are left and from how far each was lowered since then.
type casting struct {
	supports []Support
	rows     []float64 // x of the rows, in order, m
	modulus  float64   // by which the body shares, that of the day on which it hardened, Pa
	held     []bool    // of each bay: its forms still carry
}

// newCasting are the rows of an arrangement on which a body has hardened.
func newCasting(a *arrangement, near float64) (*casting, error) {
	if !a.elastic {
		return nil, fmt.Errorf("cast in place on %d supports that do not share by stiffness: each must have a Stiffness, at more places than statics needs", len(a.supports))
	}
	if len(a.ups) > 1 {
		return nil, fmt.Errorf("cast in place with Roll or Gradient: must be 0")
	}
	c := &casting{supports: a.supports, modulus: a.modulus}
	for i, s := range a.supports {
		if s.sense() <= 0 || s.suspends() {
			return nil, fmt.Errorf("cast in place: support %d at x = %g m is a %s that does not push only: must be falsework, pads, jacks or bearings that push", i+1, s.X, s.word())
		}
		if s.Level != 0 || s.Preload != 0 || s.Held || s.Group != "" || s.Link != nil {
			return nil, fmt.Errorf("cast in place: support %d at x = %g m has a Level, Preload, Group or Link: must have none, forces and levels are those of the fluid concrete", i+1, s.X)
		}
		if !slices.ContainsFunc(c.rows, func(x float64) bool { return math.Abs(x-s.X) <= near }) {
			c.rows = append(c.rows, s.X)
		}
	}
	slices.Sort(c.rows)
	c.held = make([]bool, len(c.rows)-1)
	for i := range c.held {
		c.held[i] = true
	}
	return c, nil
}

// left is the casting on what is left of its supports; nil where others have come, so that
// it cannot be followed. The forms of a bay carry until a support beside it is lowered or
// goes.
func (c *casting) left(supports []Support, near float64) *casting {
	for _, s := range supports {
		if c.index(s) < 0 || s.Stiffness != c.supports[c.index(s)].Stiffness || s.Group != "" || s.Held || s.Preload != 0 || s.Link != nil {
			return nil
		}
	}
	stands := func(x float64) bool {
		for _, was := range c.supports {
			if math.Abs(was.X-x) > near {
				continue
			}
			if !slices.ContainsFunc(supports, func(s Support) bool { return c.index(s) >= 0 && c.supports[c.index(s)] == was && s.Level >= 0 }) {
				return false
			}
		}
		return true
	}
	n := *c
	n.held = slices.Clone(c.held)
	for i := range n.held {
		n.held[i] = n.held[i] && stands(c.rows[i]) && stands(c.rows[i+1])
	}
	return &n
}

func (c *casting) index(s Support) int {
	return slices.IndexFunc(c.supports, func(q Support) bool { return q.X == s.X && q.Y == s.Y && q.Z == s.Z && q.Role == s.Role })
}

// bay is the bay to which a place belongs; the first and the last reach to the ends.
func (c *casting) bay(x float64) int {
	i, _ := slices.BinarySearch(c.rows[1:len(c.rows)-1], x)
	return i
}

// cut are parts of the weight, each within one bay.
func (c *casting) cut(parts []part) []part {
	for _, x := range c.rows[1 : len(c.rows)-1] {
		var list []part
		for _, p := range parts {
			list = append(list, p.cutAt(x)...)
		}
		parts = list
	}
	return parts
}

// tributary is what parts of the weight give to the supports through the forms (N): along
// by the lever between the rows of their bay, across as a rigid cap on the supports of the
// row.
func (c *casting) tributary(parts []part, near float64) []float64 {
	force, turn := make([]float64, len(c.rows)), make([]float64, len(c.rows)) // of each row, and about y = 0
	for _, p := range c.cut(parts) {
		bay := c.bay((p.from + p.to) / 2)
		left, length := c.rows[bay], c.rows[bay+1]-c.rows[bay]
		all, about, far, farAbout := p.force, p.force*p.y, p.force*(p.x-left), p.force*p.y*(p.x-left)
		if s := p.to - p.from; s > 0 {
			all, about = p.integral(s, p.line, 0), p.integral(s, p.lineY, 0)
			far, farAbout = p.integral(s, p.line, 1)+all*(p.from-left), p.integral(s, p.lineY, 1)+about*(p.from-left)
		}
		force[bay], force[bay+1] = force[bay]+all-far/length, force[bay+1]+far/length
		turn[bay], turn[bay+1] = turn[bay]+about-farAbout/length, turn[bay+1]+farAbout/length
	}
	list := make([]float64, len(c.supports))
	for row, x := range c.rows {
		c.across(list, x, near, force[row], turn[row])
	}
	return list
}

// across shares the force of a row among its supports.
func (c *casting) across(list []float64, x, near, force, turn float64) {
	sum, first, second := 0.0, 0.0, 0.0
	each := func(do func(i int, s Support)) {
		for i, s := range c.supports {
			if math.Abs(s.X-x) <= near {
				do(i, s)
			}
		}
	}
	each(func(_ int, s Support) { sum, first = sum+s.Stiffness, first+s.Stiffness*s.Y })
	middle := first / sum
	each(func(_ int, s Support) { second += s.Stiffness * (s.Y - middle) * (s.Y - middle) })
	each(func(i int, s Support) {
		list[i] = force * s.Stiffness / sum
		if second > 0 {
			list[i] += (turn - force*middle) * s.Stiffness * (s.Y - middle) / second
		}
	})
}

// check reports a support that would have to pull as the concrete is fluid.
func (c *casting) check(tributary []float64) error {
	for i, f := range tributary {
		if s := c.supports[i]; f < 0 {
			return fmt.Errorf("cast in place: support %d at x = %g m, y = %g m would be pulled with %.4g N by the fluid concrete: must be rows and supports within the weight, e.g. the last row nearer to the end", i+1, s.X, s.Y, -f)
		}
	}
	return nil
}

// weight is the weight of a group on what is left of the supports: in bays whose forms
// carry it acts on the rows, against the forces with which they began; elsewhere on the
// body itself.
func (r *run) castWeight(a *arrangement, of weightLoad) (*load, error) {
	c, near := a.cast, r.girder.near()
	var direct, through []part
	for _, p := range c.cut(of.parts) {
		if c.held[c.bay((p.from+p.to)/2)] {
			through = append(through, p)
		} else {
			direct = append(direct, p)
		}
	}
	began, forms := c.tributary(of.parts, near), c.tributary(through, near)
	if err := c.check(began); err != nil {
		return nil, err
	}
	l := &load{name: "weight", began: make([]float64, len(a.supports))}
	for i, s := range a.supports {
		l.began[i] = began[c.index(s)]
	}
	l.at = func(up r3.Vec) beam.SpaceLoads {
		loads := along(direct, a.body.from, r3.Scale(-1, up))
		for i, s := range c.supports {
			if forms[i] != 0 {
				loads.Points = append(loads.Points, beam.SpacePoint{X: s.X - a.body.from, Y: s.Y, Z: s.Z, Force: r3.Scale(-forms[i], up)})
			}
		}
		return loads
	}
	l.net = func(w *way) beam.SpaceLoads {
		loads := along(direct, a.body.from, r3.Scale(-1, w.up))
		down := slices.Clone(forms)
		for _, i := range w.set {
			down[c.index(a.supports[i])] -= l.began[i]
		}
		for i, s := range c.supports {
			if down[i] != 0 {
				loads.Points = append(loads.Points, beam.SpacePoint{X: s.X - a.body.from, Y: s.Y, Z: s.Z, Force: r3.Scale(-down[i], w.up)})
			}
		}
		return loads
	}
	return l, nil
}

// hardened marks an arrangement whose body has hardened on it, or on supports of which it is
// what is left.
func (p *progress) hardened(s *situation, a *arrangement) (err error) {
	near := p.run.girder.near()
	for _, before := range p.acts {
		if !slices.ContainsFunc(before.body.pieces, func(k int) bool { return slices.Contains(a.body.pieces, k) }) {
			continue
		}
		if s.Cast {
			return fmt.Errorf("cast in place: the element is carried already: must be its first situation")
		}
		if before.cast != nil && before.body == a.body && a.elastic && len(a.ups) == 1 {
			if a.cast = before.cast.left(a.supports, near); a.cast != nil {
				a.modulus = a.cast.modulus
			}
		}
	}
	if s.Cast {
		a.cast, err = newCasting(a, near)
	}
	return err
}

// castNotes say what is left out of a body that was cast on its supports.
func (s *situation) castNotes() (list []string) {
	if slices.ContainsFunc(s.acts, func(a *arrangement) bool { return a.cast != nil }) {
		list = append(list, "forms of a span that is cast in place: until a row is lowered they are taken to carry the weight of the bays beside it, also where it is without force; the span's own bending between such rows, by the weight of one bay, is left out")
	}
	return list
}

// onRowsAlone is true for a body that was cast on falsework and has no other support: each
// row may be without force, the contact of the others is followed.
func (a *arrangement) onRowsAlone() bool {
	return a.cast != nil && !slices.ContainsFunc(a.supports, func(s Support) bool { return s.Role != Falsework })
}

// asSuperposed is true where the supports of bodies that were cast on them carry under
// nominal forces as they do in superposition, so that curvatures are those of the contact.
func (r *run) asSuperposed(v *variant) (bool, error) {
	for _, a := range v.acts {
		if a.cast == nil {
			return false, nil
		}
		t, err := r.touch(a, v.ways[a], v, v.current, r.nominal(v.situation))
		if err != nil {
			return false, err
		}
		for i, force := range t.vertical {
			if (force > 0) != slices.Contains(v.ways[a].set, i) {
				return false, nil
			}
		}
	}
	return true, nil
}

// castOn are the entries of a body that has hardened on its supports.
func (p *progress) castOn(s *situation, b int) ([]entry, error) {
	var list []entry
	a := s.acts[b]
	for _, w := range p.run.weightLoads(p.bodies[b]) {
		l, err := p.run.castWeight(a, w)
		if err != nil {
			return nil, err
		}
		list = append(list, entry{l.name, a, l, s.states[b], 1, p.run.cause(causeWeight, w.group), nil, true, nil})
	}
	level, lowered := make([]float64, len(a.supports)), false
	for i, q := range a.supports {
		level[i] = q.Level
		lowered = lowered || q.Level != 0
	}
	if lowered {
		list = append(list, entry{"rows lowered", a, &load{name: "rows lowered", at: noLoads, level: level}, s.states[b], 1, -1, nil, true, nil})
	}
	return list, nil
}

// recast takes what acts on a body that was cast in place to what is left of its supports:
// its weight and levels as they are now, everything else as it came.
func (p *progress) recast(s *situation, b int) (on, off []entry, err error) {
	a, body := s.acts[b], p.bodies[b]
	if on, err = p.castOn(s, b); err != nil {
		return nil, nil, err
	}
	for _, e := range p.held {
		if e.of.body != body {
			continue
		}
		gone := e
		gone.coefficient = -e.coefficient
		off = append(off, gone)
		if e.inner >= 0 && p.run.causes[e.inner].kind == causeWeight && e.load.began != nil || e.load.level != nil {
			continue // anew, above
		}
		e.of = a
		on = append(on, e)
	}
	return on, off, nil
}
