package stages

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
)

// hookOf are the lift points whose slings meet at a hook.
type hookOf struct {
	at      Hook
	members []int    // supports
	forces  []r3.Vec // of each on the element, for a unit vertical force of the hook
}

// hooks are the hooks of the supports of a set, in order, each plumb over lift points
// that leave it free. Where nothing restrains the roll a hook is over the centre of
// gravity, along gravity, however the element is under it.
func (a *arrangement) hooks(set []int, up r3.Vec) []hookOf {
	var list []hookOf
	for _, i := range set {
		h := a.supports[i].Hook
		if h == nil {
			continue
		}
		at := -1
		for k := range list {
			if *a.supports[list[k].members[0]].Hook == *h {
				at = k
			}
		}
		if at < 0 {
			at, list = len(list), append(list, hookOf{at: *h})
		}
		list[at].members = append(list[at].members, i)
	}
	for k := range list {
		list[k].at = a.plumb(list[k].members, list[k].at, up)
		if h := &list[k].at; !a.rollHeld {
			h.Y = a.centre.Y + (h.Z-a.centre.Z)*up.Y/up.Z
		}
	}
	return list
}

// plumb is where a hook hangs: slings from one place, or from places on one line, turn
// on their lift points, so that it hangs upright over that line.
func (a *arrangement) plumb(members []int, at Hook, up r3.Vec) Hook {
	var from []r3.Vec
	for _, i := range members {
		from = append(from, r3.Vec{X: a.supports[i].X, Y: a.supports[i].Y, Z: a.supports[i].Z})
	}
	var line r3.Vec
	for _, p := range from[1:] {
		if d := r3.Sub(p, from[0]); r3.Norm(d) > r3.Norm(line) {
			line = d
		}
	}
	sling, rise, along := r3.Sub(r3.Vec{X: at.X, Y: at.Y, Z: at.Z}, from[0]), up, r3.Vec{}
	if r3.Norm(line) > rankTolerance {
		line = r3.Unit(line)
		for _, p := range from {
			if r3.Norm(r3.Cross(r3.Sub(p, from[0]), line)) > rankTolerance {
				return at // they hold it
			}
		}
		along, rise = r3.Scale(r3.Dot(sling, line), line), r3.Sub(up, r3.Scale(r3.Dot(up, line), line))
	}
	if r3.Norm(rise) < rankTolerance {
		return at // one above the other
	}
	p := r3.Add(r3.Add(from[0], along), r3.Scale(r3.Norm(r3.Sub(sling, along)), r3.Unit(rise)))
	return Hook{p.X, p.Y, p.Z}
}

// share finds the forces in the slings of a hook: those of least size whose sum is
// upright. What is left to the sides, as when a roll is held by other hooks, each
// takes alike: the rope of the hook is then out of plumb by as much.
func (h *hookOf) share(a *arrangement, up r3.Vec) error {
	n := len(h.members)
	directions := mat.NewDense(3, n, nil)
	for k, i := range h.members {
		s := a.supports[i]
		d := r3.Sub(r3.Vec{X: h.at.X, Y: h.at.Y, Z: h.at.Z}, r3.Vec{X: s.X, Y: s.Y, Z: s.Z})
		if r3.Dot(d, up) <= 0.1*r3.Norm(d) {
			return fmt.Errorf("the hook at x = %g m, y = %g m, z = %g m is hardly above the lift point at x = %g m, y = %g m, z = %g m: must be a sling less than 84° from vertical", h.at.X, h.at.Y, h.at.Z, s.X, s.Y, s.Z)
		}
		d = r3.Unit(d)
		directions.SetCol(k, []float64{d.X, d.Y, d.Z})
	}
	var svd mat.SVD
	if !svd.Factorize(directions, mat.SVDThin) {
		return fmt.Errorf("the slings of the hook at x = %g m, y = %g m: must be in different places", h.at.X, h.at.Y)
	}
	rank := svd.Rank(1e-9)
	var t mat.Dense
	svd.SolveTo(&t, mat.NewDense(3, 1, []float64{up.X, up.Y, up.Z}), rank)
	rest := up
	h.forces = make([]r3.Vec, n)
	for k := range h.members {
		d := r3.Vec{X: directions.At(0, k), Y: directions.At(1, k), Z: directions.At(2, k)}
		if t.At(k, 0) < -1e-9 {
			s := a.supports[h.members[k]]
			return fmt.Errorf("the sling at x = %g m, y = %g m would push on its hook at x = %g m, y = %g m: must be a hook between its lift points", s.X, s.Y, h.at.X, h.at.Y)
		}
		h.forces[k] = r3.Scale(t.At(k, 0), d)
		rest = r3.Sub(rest, h.forces[k])
	}
	for k := range h.forces {
		h.forces[k] = r3.Add(h.forces[k], r3.Scale(1/float64(n), rest))
	}
	return nil
}

// slung is what slings do to the element beside the upright force at the hook: the
// difference, which is in balance with itself.
func (of *spaceOf) slung(a *arrangement, w *way, reactions []float64) beam.SpaceLoads {
	var loads beam.SpaceLoads
	for k := range of.hooks {
		h := &of.hooks[k]
		force := reactions[of.vertical[h.members[0]]]
		if force == 0 {
			continue
		}
		// The hook hangs at the place of its restraint; the element feels its slings.
		p := of.place(a, h, w.up)
		loads.Points = append(loads.Points, beam.SpacePoint{X: p.X, Y: p.Y, Z: p.Z, Force: r3.Scale(-force, w.up)})
		for n, i := range h.members {
			s := a.supports[i]
			loads.Points = append(loads.Points, beam.SpacePoint{X: s.X - a.body.from, Y: s.Y, Z: s.Z, Force: r3.Scale(force, h.forces[n])})
		}
	}
	return loads
}

// place is where a hook acts on the element: on its plumb line, beside its own length.
func (of *spaceOf) place(a *arrangement, h *hookOf, up r3.Vec) r3.Vec {
	p := r3.Vec{X: h.at.X - a.body.from, Y: h.at.Y, Z: h.at.Z}
	x := math.Max(0, math.Min(a.body.to-a.body.from, p.X))
	if p.X != x && up.X != 0 {
		p = r3.Add(p, r3.Scale((x-p.X)/up.X, up))
	}
	p.X = x
	return p
}

// incline is the force along a sling over its vertical part; 0 without a sling.
func (of *spaceOf) incline(i int, up r3.Vec) float64 {
	for _, h := range of.hooks {
		for n, k := range h.members {
			if v := r3.Dot(h.forces[n], up); k == i && v > 0 {
				return r3.Norm(h.forces[n]) / v
			}
		}
	}
	return 0
}
