package stages

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// space is a way of an arrangement as a member in space: with the stiffness of a
// section where the supports share by it.
func (r *run) space(a *arrangement, w *way, state *ledger.State, modulus float64, contact bool) (*spaceOf, error) {
	return r.spaceHolding(a, w, state, modulus, contact, -1)
}

// spaceHolding is space with a support that acts both ways; −1 for none.
func (r *run) spaceHolding(a *arrangement, w *way, state *ledger.State, modulus float64, contact bool, held int) (*spaceOf, error) {
	if !a.elastic {
		state, modulus, contact, held = nil, 0, false, -1
	}
	for _, of := range w.spaces {
		if of.state == state && of.modulus == modulus && of.contact == contact && of.held == held {
			return of, nil
		}
	}
	of := &spaceOf{state: state, modulus: modulus, contact: contact, held: held}
	restraints, err := of.restraints(a, w)
	if err != nil {
		return nil, err
	}
	layout := beam.SpaceLayout{Length: a.body.to - a.body.from, Supports: restraints}
	if a.elastic {
		section, err := r.stiffness(a.body, state, modulus)
		if err != nil {
			return nil, err
		}
		layout.Links = a.links()
		layout.Section = func(x float64) beam.CrossSection { return section(x + a.body.from) }
		for _, x := range r.ledger.SectionBreaks() {
			if x > a.body.from && x < a.body.to {
				layout.Breaks = append(layout.Breaks, x-a.body.from)
			}
		}
	}
	if of.space, err = beam.NewSpace(layout); err != nil {
		return nil, err
	}
	w.spaces = append(w.spaces, of)
	return of, nil
}

// restraints are what the supports of a way hold: along gravity, and the two horizontal
// directions. A suspended element is restrained across and along by ropes that incline;
// a roll that no support restrains is restrained by equal couples at the supports,
// which stay zero where the element is in balance.
func (of *spaceOf) restraints(a *arrangement, w *way) ([]beam.Restraint, error) {
	var list []beam.Restraint
	across, along := horizontal(w.up)
	of.vertical, of.across, of.part = make([]int, len(a.supports)), make([]int, len(a.supports)), make([]float64, len(a.supports))
	of.turns = make([][]turn, len(a.supports))
	for i := range a.supports {
		of.vertical[i], of.across[i], of.part[i] = -1, -1, 1
	}
	at := func(s Support, direction r3.Vec) beam.Restraint {
		return beam.Restraint{X: s.X - a.body.from, Y: s.Y, Z: s.Z, Direction: direction}
	}
	of.hooks = a.hooks(w.set, w.up)
	for k := range of.hooks {
		h := &of.hooks[k]
		if err := h.share(a, w.up); err != nil {
			return nil, err
		}
		for n, i := range h.members {
			of.vertical[i], of.part[i] = len(list), r3.Dot(h.forces[n], w.up)
		}
		p := of.place(a, h, w.up)
		list = append(list, beam.Restraint{X: p.X, Y: p.Y, Z: p.Z, Direction: w.up})
	}
	for _, i := range w.set {
		s := a.supports[i]
		if s.Hook != nil {
			continue
		}
		v := at(s, w.up)
		if s.sense() < 0 {
			v.Direction = r3.Scale(-1, w.up)
		}
		v.Group, v.Kept = s.Group, s.Held
		if a.elastic {
			v.Stiffness, v.OneWay = s.Stiffness, of.contact && s.sense() != 0 && !s.Held && i != of.held
			if s.Link != nil {
				v.Link = s.Link.Name
			}
		}
		of.vertical[i] = len(list)
		list = append(list, v)
		for _, c := range s.axes() {
			couple := at(s, c)
			couple.Couple = true
			if !s.Fixed {
				couple.Stiffness = s.RotationalStiffness
			}
			of.turns[i] = append(of.turns[i], turn{len(list), c})
			list = append(list, couple)
		}
	}
	list = of.lines(a, w, list, across)
	for _, i := range w.set {
		if s := a.supports[i]; s.holdsAlong() || a.suspended {
			v := at(s, along)
			v.Group = "along"
			list = append(list, v)
		}
	}
	if !a.rollHeld {
		for _, i := range w.set {
			v := at(a.supports[i], r3.Vec{X: 1})
			v.Couple, v.Group = true, "roll"
			list = append(list, v)
		}
	}
	of.number = len(list)
	return list, nil
}

// lines adds the restraints across: supports at one x as one, of more than two the two
// outermost.
func (of *spaceOf) lines(a *arrangement, w *way, list []beam.Restraint, across r3.Vec) []beam.Restraint {
	least, most := math.Inf(1), math.Inf(-1)
	for _, i := range w.set {
		if s := a.supports[i]; s.holdsAcross() || a.suspended {
			least, most = math.Min(least, s.X), math.Max(most, s.X)
		}
	}
	near := rankTolerance
	for _, i := range w.set {
		s := a.supports[i]
		if !s.holdsAcross() && !a.suspended || s.X > least+near && s.X < most-near {
			continue
		}
		group := "across, left"
		if s.X > least+near {
			group = "across, right"
		}
		of.across[i] = len(list)
		list = append(list, beam.Restraint{X: s.X - a.body.from, Y: s.Y, Z: s.Z, Direction: across, Group: group})
	}
	return list
}
