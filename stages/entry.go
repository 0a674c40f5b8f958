package stages

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// entry is a load on an arrangement, on the section of a body on a day, times a
// coefficient and its causes.
type entry struct {
	name        string
	of          *arrangement
	load        *load
	state       *ledger.State
	coefficient float64
	inner       int         // in run.causes; −1 for none
	outer       []int       // in run.causes
	mean        bool        // has an effect at the mean of its causes, so that it creeps
	gave        []givenAway // of each support of the arrangement; nil: nothing
}

// same is true for entries that differ in coefficient only.
func (e *entry) same(f *entry) bool {
	return e.of == f.of && e.load == f.load && e.state == f.state && e.inner == f.inner && slices.Equal(e.outer, f.outer)
}

// merged adds up entries that are the same and drops those that cancel.
func merged(entries []entry) []entry {
	var sum []entry
	for i := range entries {
		at := slices.IndexFunc(sum, func(f entry) bool { return f.same(&entries[i]) })
		if at < 0 {
			sum = append(sum, entries[i])
			continue
		}
		sum[at].coefficient += entries[i].coefficient
	}
	return slices.DeleteFunc(sum, func(e entry) bool { return e.coefficient == 0 })
}

// off is the entry taken off again, on the section of another day.
func (e entry) off(state *ledger.State) entry {
	e.state, e.coefficient = state, -e.coefficient
	return e
}

// lock makes an entry lasting.
func (p *progress) lock(s *situation, e entry) {
	p.locked = merged(append(slices.Clone(p.locked), e))
	if e.mean {
		p.run.lasting = append(p.run.lasting, lasting{e, len(p.run.ledger.Lasting), s.index})
		p.run.ledger.Lasting = append(p.run.ledger.Lasting, ledger.Lasting{
			Name: e.name, Day: s.day, Entry: &ledger.Entry{State: e.state, Coefficient: e.coefficient},
		})
	}
}

// lasting is a lasting entry and its place in the ledger.
type lasting struct {
	entry
	at        int
	situation int
}

// supports puts the girder on the supports of a situation: a standing one stays
// on them, a transient one goes back to where it stood. What was there before
// gives its forces to them.
func (p *progress) supports(s *situation, stayed []Action) error {
	if err := p.arrange(s, stayed); err != nil {
		return err
	}
	current, off := p.held, []entry(nil)
	fresh := !s.Standing || p.changed(s)
	if fresh {
		var err error
		if current, off, err = p.change(s, stayed); err != nil {
			return err
		}
	}
	taken, rest, against, err := p.takenOff(s, current)
	if err != nil {
		return err
	}
	current = rest
	lasting, transient, err := p.act(s)
	if err != nil {
		return err
	}
	lasting = append(against, lasting...)
	off = append(off, taken...)
	if !s.Standing {
		s.entries = append(append(append(slices.Clone(p.locked), off...), current...), append(lasting, transient...)...)
		s.current = append(append(current, lasting...), transient...)
		return nil
	}
	for _, e := range off {
		p.lock(s, e)
	}
	for _, e := range current {
		if fresh && !slices.ContainsFunc(p.held, func(h entry) bool { return h.same(&e) }) {
			p.lock(s, e)
		}
	}
	for _, e := range lasting {
		p.lock(s, e)
	}
	p.held, p.acts = append(slices.Clone(current), lasting...), s.acts
	s.transient = transient
	return nil
}

// finish lists the entries of a standing situation, its steps of stressing
// included.
func (p *progress) finish(s *situation) {
	if s.Standing {
		s.entries = append(slices.Clone(p.locked), s.transient...)
		s.current = append(slices.Clone(p.held), s.transient...)
	}
	s.entries = merged(s.entries)
	for _, a := range s.acts {
		if a.cast != nil { // the contact of all that acts by then
			a.setWith = s.current
		}
	}
}

// changed is true when the girder is not as before.
func (p *progress) changed(s *situation) bool {
	return !slices.Equal(p.acts, s.acts)
}

// arrange finds the arrangement of every body.
func (p *progress) arrange(s *situation, stayed []Action) error {
	s.acts = make([]*arrangement, len(p.bodies))
	for b, of := range p.bodies {
		on := p.run.supportsOf(of, p.bodies, s.Supports)
		if len(on) == 0 {
			return fmt.Errorf("piece %s has no support: must have supports, or be joined to a piece that has", p.run.girder.Pieces[of.pieces[0]].Element.Mark)
		}
		rolls, err := p.rolls(s, of, on, stayed)
		if err != nil {
			return err
		}
		ups := tilts(rolls, bothWays(s.Gradient))
		for _, a := range p.acts { // as before: what is not stated anew stays as it was
			if a.cast == nil && a.body == of && slices.Equal(a.supports, on) && (s.OutOfLevel == 0 || a.level == s.OutOfLevel) && (len(ups) == 1 || slices.Equal(a.ups, ups)) {
				s.acts[b] = a
			}
		}
		if s.acts[b] != nil {
			continue
		}
		a, err := newArrangement(of, on, s.OutOfLevel, ups, s.Cast || p.stay(on))
		if err != nil {
			return err
		}
		mass := massOf(p.run.partsOf(of))
		a.centre = section.Point{Y: mass.Y, Z: mass.Z}
		a.index, a.modulus, a.state = p.run.arrangements, s.concrete[of.pieces[0]].Modulus, s.states[b]
		p.run.arrangements++
		s.acts[b] = a
		if err := p.hardened(s, a); err != nil {
			return err
		}
	}
	return apart(s.acts)
}

// stay is true where some of the supports stay from the previous situation: their forces
// are known, and those that come only touch.
func (p *progress) stay(on []Support) bool {
	return slices.ContainsFunc(p.acts, func(before *arrangement) bool {
		return slices.ContainsFunc(on, func(q Support) bool { return before.index3(q) >= 0 })
	})
}

// change is what comes and goes when the supports change: off what was held, on
// what the new supports receive.
func (p *progress) change(s *situation, stayed []Action) (on, off []entry, err error) {
	if kept, err := p.keeps(s); kept || err != nil {
		if err != nil {
			return nil, nil, err
		}
		return p.handOver(s)
	}
	stays := func(a *arrangement) bool {
		return s.Standing && slices.Contains(s.acts, a) && slices.Contains(p.acts, a)
	}
	for _, e := range p.held {
		if stays(e.of) { // its supports keep what they carry
			on = append(on, e)
			continue
		}
		off = append(off, e.off(s.states[p.bodyOf(e.of.body)]))
	}
	var outer []int
	if s.dynamic[0] != 1 || s.dynamic[1] != 1 {
		outer = []int{p.run.cause(causeDynamic, "")}
	}
	if s.OnBed {
		outer = append(outer, p.run.cause(causeBed, ""))
	}
	for b, of := range p.bodies {
		a, state := s.acts[b], s.states[b]
		if stays(a) {
			continue
		}
		if a.cast != nil {
			list, err := p.castOn(s, b)
			if err != nil {
				return nil, nil, err
			}
			on = append(on, list...)
			continue
		}
		for _, w := range p.run.weightLoads(of) {
			on = append(on, entry{"weight", a, w.load, state, 1, p.run.cause(causeWeight, w.group), outer, true, nil})
		}
		on = append(on, p.settings(s, a, state)...)
	}
	for i := range stayed {
		e, err := p.action(s, &stayed[i], p.run.actionOf(stayed[i].Mark))
		if err != nil {
			return nil, nil, err
		}
		if !stays(e.of) {
			on = append(on, e)
		}
	}
	for _, a := range s.acts {
		if a.elastic && a.setWith == nil {
			a.setWith = on
		}
	}
	return on, off, nil
}

// bodyOf is the body in which the pieces of another act now.
func (p *progress) bodyOf(b *body) int {
	return slices.IndexFunc(p.bodies, func(c *body) bool { return slices.Contains(c.pieces, b.pieces[0]) })
}
