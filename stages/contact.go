package stages

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
)

// mostOuter is how many causes may reach supports that may lift: each corner of
// their factors is solved with its own contact.
const mostOuter = 6

// settle finds which supports of an arrangement that shares by stiffness touch
// under the mean of what it was set down with. Superposition is on those.
func (r *run) settle(a *arrangement) error {
	if !a.elastic || a.settled || a.setWith == nil {
		return nil
	}
	a.settled = true
	factors := make([]float64, len(r.causes))
	for i, c := range r.causes {
		switch {
		case c.kind == causeLevel:
		case c.kind == causeAction:
			if least, _ := c.action.presence(); least > 0 {
				factors[i] = 1
			}
		default:
			factors[i] = 1
		}
	}
	for _, w := range a.ways {
		touching, err := r.touch(a, w, nil, a.setWith, factors)
		if err != nil {
			return err
		}
		var closed []int
		for i, force := range touching.vertical {
			if a.supports[i].sense() == 0 || a.supports[i].Held || force*a.supports[i].sense() > 0 {
				closed = append(closed, i)
			}
		}
		if len(closed) < len(w.set) {
			a.open = true
			w.set, w.spaces, w.answers = closed, slices.DeleteFunc(w.spaces, func(of *spaceOf) bool { return !of.contact }), nil
		}
	}
	return nil
}

// touched is a solution with contact.
type touched struct {
	response *beam.SpaceResponse
	vertical []float64 // of each support, N, upwards
}

// pattern are the supports that carry.
func (t *touched) pattern() uint64 {
	var p uint64
	for i, v := range t.vertical {
		if v != 0 {
			p |= 1 << i
		}
	}
	return p
}

// touch solves entries on a way under stated factors, each support in its sense. Entries of
// earlier arrangements of a variant keep the forces that they have given to supports that
// stay: these begin with them, and what lifts off gives its own to the others.
func (r *run) touch(a *arrangement, w *way, v *variant, entries []entry, factors []float64) (*touched, error) {
	of, err := r.touching(a, w, -1)
	if err != nil {
		return nil, err
	}
	return r.touchOn(of, a, w, v, entries, factors)
}

// touchHolding is touch with one support that acts both ways.
func (r *run) touchHolding(a *arrangement, w *way, v *variant, factors []float64, support int) (*touched, error) {
	of, err := r.touching(a, w, support)
	if err != nil {
		return nil, err
	}
	return r.touchOn(of, a, w, v, v.current, factors)
}

// touching is a way with contact on all of its supports, of which one may act both ways; −1
// for none.
func (r *run) touching(a *arrangement, w *way, held int) (*spaceOf, error) {
	all := *w
	all.set = make([]int, len(a.supports))
	for i := range all.set {
		all.set[i] = i
	}
	of, err := r.spaceHolding(a, &all, a.state, a.modulus, true, held)
	if err != nil {
		return nil, err
	}
	w.spaces = all.spaces
	return of, nil
}

// touchOn is touch on a member in space.
func (r *run) touchOn(of *spaceOf, a *arrangement, w *way, v *variant, entries []entry, factors []float64) (*touched, error) {
	var loads beam.SpaceLoads
	setting := beam.Setting{Level: make([]float64, of.number), Preload: make([]float64, of.number)}
	for i := range entries {
		e := &entries[i]
		f := e.coefficient * e.under(factors)
		if e.of != a {
			if v != nil && a.body.holds(e.of.body) {
				if err := r.begun(of, a, w, v, e, f, &loads, &setting); err != nil {
					return nil, err
				}
			}
			continue
		}
		loads = plus(loads, e.load.at(w.up), f)
		one := of.setting(a, e.load)
		for k, v := range one.Level {
			setting.Level[k] += f * v
		}
		for k, v := range one.Preload {
			setting.Preload[k] += f * v
		}
	}
	response, err := of.space.Solve(loads, setting)
	if err != nil {
		return nil, err
	}
	return &touched{response, of.upwards(a, response)}, nil
}

// begun adds the forces that an entry of an earlier arrangement has given to supports that
// stay, as first forces of these and, reversed, as loads: without a change they are in
// balance and bend nothing.
func (r *run) begun(of *spaceOf, a *arrangement, w *way, v *variant, e *entry, factor float64, loads *beam.SpaceLoads, setting *beam.Setting) error {
	answer, err := r.answer(e.of, v.ways[e.of], e.load, e.state)
	if err != nil {
		return err
	}
	for i, q := range a.supports {
		at := e.at(q) // what it gave away before does not come again
		if at < 0 || of.vertical[i] < 0 || answer.vertical[at] == 0 {
			continue
		}
		force := factor * answer.vertical[at]
		setting.Preload[of.vertical[i]] += force * q.along()
		loads.Points = append(loads.Points, beam.SpacePoint{X: q.X - a.body.from, Y: q.Y, Z: q.Z, Force: r3.Scale(-force, w.up)})
	}
	return nil
}

// under is the factor of an entry.
func (e *entry) under(factors []float64) float64 {
	f := 1.0
	if e.inner >= 0 {
		f = factors[e.inner]
	}
	for _, o := range e.outer {
		f *= factors[o]
	}
	return f
}

// plus adds a multiple of loads.
func plus(to, of beam.SpaceLoads, factor float64) beam.SpaceLoads {
	for _, p := range of.Points {
		p.Force, p.Couple = r3.Scale(factor, p.Force), r3.Scale(factor, p.Couple)
		to.Points = append(to.Points, p)
	}
	for _, l := range of.Lines {
		l.Intensity, l.FirstMomentY, l.FirstMomentZ = times(l.Intensity, factor), times(l.FirstMomentY, factor), times(l.FirstMomentZ, factor)
		to.Lines = append(to.Lines, l)
	}
	for _, s := range of.Strains {
		at := s.At
		s.At = func(x float64) beam.Strain {
			e := at(x)
			return beam.Strain{Axial: factor * e.Axial, CurvatureY: factor * e.CurvatureY, CurvatureZ: factor * e.CurvatureZ, Twist: factor * e.Twist}
		}
		to.Strains = append(to.Strains, s)
	}
	return to
}
