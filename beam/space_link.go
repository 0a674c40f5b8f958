package beam

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"
)

// Link is a second line member that carries restraints: an overhead gantry with its
// hangers, a spreader, a falsework girder. It counts by its stiffness only: it deflects
// under the forces of its restraints, along their common Direction, by bending (and
// shear), with their own Stiffness in series. Restraints at one x deflect alike, at any
// Y. Neglected: its twist, weight and earlier deflection.
type Link struct {
	Name   string  // by which Restraint.Link names it
	At     float64 // m, its left end in the x of the girder; it may reach beyond the girder
	Layout         // its length, stiffness and supports, in its own x from its left end; neither Contact nor Settlement
}

// Check reports the first field that is out of range. The error wraps [ErrBeam] and
// names the field, its value and what it must be.
func (l Link) Check() error {
	_, err := l.member()
	return err
}

// member is the link as a beam.
func (l *Link) member() (*Beam, error) {
	if l.Name == "" {
		return nil, fmt.Errorf("%w: Link.Name is empty: must be the name by which restraints refer to it", ErrBeam)
	}
	if !(l.At >= -farthest && l.At <= farthest) {
		return nil, fmt.Errorf("%w: Link %q: At = %g m: must be finite", ErrBeam, l.Name, l.At)
	}
	for i, s := range l.Supports {
		if s.Contact || s.Settlement != 0 {
			return nil, fmt.Errorf("%w: Link %q: Supports[%d] at %g m has Contact = %t, Settlement = %g m: must be false and 0, a link is stiffness only",
				ErrBeam, l.Name, i, s.At, s.Contact, s.Settlement)
		}
	}
	member, err := New(l.Layout)
	if err != nil {
		return nil, fmt.Errorf("in Link %q: %w", l.Name, err)
	}
	return member, nil
}

// hanging is the restraints of one link and how far each gives way, along its
// force, under a unit force of each: influence lines of the link's deflection.
type hanging struct {
	restraints []int
	give       [][]float64 // m/N, symmetric
}

// hang finds the compliance of the links.
func (s *Space) hang() error {
	known := map[string]bool{}
	for i := range s.layout.Links {
		l := &s.layout.Links[i]
		if known[l.Name] {
			return fmt.Errorf("%w: Links[%d].Name = %q: must differ from those before", ErrBeam, i, l.Name)
		}
		known[l.Name] = true
		member, err := l.member()
		if err != nil {
			return fmt.Errorf("in Links[%d]: %w", i, err)
		}
		h, err := s.hungFrom(l, member)
		if err != nil {
			return err
		}
		s.hanging = append(s.hanging, h)
	}
	for i := range s.layout.Supports {
		if r := &s.layout.Supports[i]; r.Link != "" && !known[r.Link] {
			return fmt.Errorf("%w: Supports[%d].Link = %q %s: must be the name of one of Links", ErrBeam, i, r.Link, r.place())
		}
	}
	return nil
}

func (s *Space) hungFrom(l *Link, member *Beam) (h hanging, err error) {
	first := -1
	for i := range s.layout.Supports {
		r := &s.layout.Supports[i]
		if r.Link != l.Name || r.Kept {
			continue
		}
		if first < 0 {
			first = i
		}
		switch x := r.X - l.At; {
		case r.Couple:
			return h, fmt.Errorf("%w: Supports[%d].Couple %s on Link %q: must be false", ErrBeam, i, r.place(), l.Name)
		case !(x >= 0 && x <= l.Length):
			return h, fmt.Errorf("%w: Supports[%d].X = %g m on Link %q: must be between its ends, %g m and %g m", ErrBeam, i, r.X, l.Name, l.At, l.At+l.Length)
		case r3.Norm(r3.Sub(r.Direction, s.layout.Supports[first].Direction)) > unitWithin:
			return h, fmt.Errorf("%w: Supports[%d].Direction %s on Link %q: must be that of Supports[%d], the plane in which the link bends",
				ErrBeam, i, r.place(), l.Name, first)
		}
		h.restraints = append(h.restraints, i)
	}
	h.give = make([][]float64, len(h.restraints))
	for a, i := range h.restraints {
		h.give[a] = make([]float64, len(h.restraints))
		line, err := member.DeflectionInfluence(s.layout.Supports[i].X - l.At)
		if err != nil {
			return h, fmt.Errorf("in Link %q: %w", l.Name, err)
		}
		for b, j := range h.restraints[:a+1] {
			// Downward force, upward deflection; Maxwell: one triangle is enough.
			h.give[a][b] = -line.At(s.layout.Supports[j].X-l.At, RightOf)
			h.give[b][a] = h.give[a][b]
		}
		if own := h.give[a][a]; !(own <= 1/leastStiff) {
			return h, fmt.Errorf("%w: Link %q deflects by %g m/N %s: must be finite", ErrBeam, l.Name, own, s.layout.Supports[i].place())
		}
	}
	return h, nil
}

// bend adds to out, of each column, how far the links give way along it under the
// forces of the restraints.
func (s *Space) bend(force func(restraint int) float64, out []float64) {
	for k := range s.hanging {
		h := &s.hanging[k]
		for b, m := range h.restraints {
			f := force(m)
			if f == 0 {
				continue
			}
			for a, i := range h.restraints {
				out[s.columnOf[i]] += h.give[a][b] * f
			}
		}
	}
}

// yield adds to out how far the supports and their links give way at each column
// under its forces.
func (s *Space) yield(forces, out []float64) {
	for j := range out {
		out[j] += s.columns[j].compliance * forces[j]
	}
	s.bend(func(m int) float64 { return forces[s.columnOf[m]] }, out)
}
