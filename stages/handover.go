package stages

import (
	"fmt"
	"maps"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// takenOff are the entries of actions that a situation takes off, reversed, and
// what is held without them. What came on other supports, or before pieces were joined,
// has left forces there: it stays, and against is the same load reversed on the system of
// the situation.
func (p *progress) takenOff(s *situation, held []entry) (off, rest, against []entry, err error) {
	before := map[int]bool{} // causes of what came on another system
	for _, e := range held {
		if now := s.acts[p.bodyOf(e.of.body)]; p.takes(s, e) && e.of != now && (e.of.elastic || now.elastic) { // by statics both give the same
			before[e.inner] = true
		}
	}
	for _, e := range held {
		if p.takes(s, e) && !before[e.inner] {
			off = append(off, e.off(s.states[p.bodyOf(e.of.body)]))
			continue
		}
		rest = append(rest, e)
	}
	for _, cause := range slices.Sorted(maps.Keys(before)) {
		e, err := p.action(s, p.run.causes[cause].action, cause)
		if err != nil {
			return nil, nil, nil, err
		}
		against = append(against, e.off(e.state))
	}
	return off, rest, against, nil
}

// takes is true for an entry of an action that a situation takes off: of those of one mark
// the last.
func (p *progress) takes(s *situation, e entry) bool {
	return e.inner >= 0 && p.run.causes[e.inner].kind == causeAction && slices.ContainsFunc(s.Off, func(mark string) bool { return p.run.actionOf(mark) == e.inner })
}

// keeps is true where supports that share by stiffness stay from one situation to
// the next: they keep their forces. Where nothing says how they share, that cannot
// be answered.
func (p *progress) keeps(s *situation) (bool, error) {
	for _, a := range s.acts {
		for _, before := range p.acts {
			if a == before || !s.Standing && !a.elastic || !slices.ContainsFunc(a.supports, func(q Support) bool { return before.index3(q) >= 0 }) {
				continue
			}
			if a.bounded || before.bounded && a.elastic {
				return false, fmt.Errorf("supports stay from the previous situation and nothing says how they share: must be stated by groups, or by Stiffness and OutOfLevel")
			}
			if a.elastic {
				return true, nil
			}
		}
	}
	return false, nil
}

// index3 is the support of an arrangement at the same place in the same role.
func (a *arrangement) index3(s Support) int {
	return slices.IndexFunc(a.supports, func(q Support) bool { return q.X == s.X && q.Y == s.Y && q.Z == s.Z && q.Role == s.Role })
}

// handOver gives the forces of supports that go, reversed, to those that stay and
// to those that come, which touch without force; so with the moments of those that no
// longer restrain a rotation.
func (p *progress) handOver(s *situation) (on, off []entry, err error) {
	for b, a := range s.acts {
		if a.cast != nil {
			more, gone, err := p.recast(s, b)
			if err != nil {
				return nil, nil, err
			}
			on, off = append(on, more...), append(off, gone...)
		}
	}
	var handed []entry
	for _, e := range p.held {
		at := p.bodyOf(e.of.body)
		a := s.acts[at]
		if a.cast != nil {
			continue
		}
		if !s.Standing { // on is all that a transient situation has; what is held is among what is locked
			off = append(off, e.off(e.state))
		}
		if len(e.of.ways) > 1 || len(a.ways) > 1 {
			return nil, nil, fmt.Errorf("a support stays from a situation in which the supports may share in more than one way: must be stated by groups, or by Stiffness and OutOfLevel without Roll and Gradient")
		}
		now, after, some := e.leaving(a)
		if !some {
			on = append(on, e)
			continue
		}
		on = append(on, after)
		l := &load{name: e.name + ", handed over", at: func(up r3.Vec) beam.SpaceLoads { return p.run.released(a, &after, now, up) }}
		if l.rise, err = p.run.springsBack(a, &after, now); err != nil {
			return nil, nil, err
		}
		handed = append(handed, entry{l.name, a, l, s.states[at], 1, e.inner, e.outer, e.mean, nil})
		others, err := p.beside(s, a, &after, now)
		if err != nil {
			return nil, nil, err
		}
		handed = append(handed, others...)
	}
	on = append(on, handed...)
	for b, of := range p.bodies {
		for group, parts := range p.newWeight(of) {
			l := &load{name: "weight", at: func(up r3.Vec) beam.SpaceLoads { return along(parts, of.from, r3.Scale(-1, up)) }}
			on = append(on, entry{"weight", s.acts[b], l, s.states[b], 1, p.run.cause(causeWeight, group), nil, true, nil})
		}
		moved, err := p.moved(s.acts[b], s.states[b])
		if err != nil {
			return nil, nil, err
		}
		on = append(on, moved...)
		if a := s.acts[b]; a.elastic { // farther out of level than they were
			if was, ok := p.warpedBefore(a); ok && a.level > was {
				on = append(on, p.outOfPlane(s, a, s.states[b], a.level-was)...)
			}
		}
	}
	return on, off, nil
}

// moved are the levels and preloads of supports that come, and of those that stay by what
// differs from the situation before.
func (p *progress) moved(a *arrangement, state *ledger.State) ([]entry, error) {
	if !a.elastic || a.cast != nil { // the levels of a casting are in its weight
		return nil, nil
	}
	l, some := &load{name: "levels and preloads", at: noLoads, level: make([]float64, len(a.supports)), preload: make([]float64, len(a.supports))}, false
	for i, q := range a.supports {
		l.level[i], l.preload[i] = q.Level, q.Preload
		if was := p.before(q); was != nil {
			l.level[i] -= was.Level
			if l.preload[i] = 0; q.Held && was.Held {
				l.preload[i] = q.Preload - was.Preload
			}
		}
		some = some || l.level[i] != 0 || l.preload[i] != 0
	}
	if !some {
		return nil, nil
	}
	return []entry{{l.name, a, l, state, 1, -1, nil, true, nil}}, p.bent(a, l)
}

// before is a support as it was in the situation before; nil for one that comes.
func (p *progress) before(q Support) *Support {
	for _, a := range p.acts {
		if i := a.index3(q); i >= 0 {
			return &a.supports[i]
		}
	}
	return nil
}

// warpedBefore is how far the supports of the bodies of an arrangement were out of plane in
// the situation before (m), of several bodies that were joined the least; false where
// nothing changed, or its body was not carried.
func (p *progress) warpedBefore(a *arrangement) (least float64, ok bool) {
	for _, before := range p.acts {
		if before == a {
			return 0, false
		}
		if slices.ContainsFunc(before.body.pieces, func(k int) bool { return slices.Contains(a.body.pieces, k) }) {
			if was := before.warped(); !ok || was < least {
				least, ok = was, true
			}
		}
	}
	return least, ok
}

// warped is how far a support of an arrangement may be out of the plane of the others with
// an effect on its forces (m): 0 where they follow from statics.
func (a *arrangement) warped() float64 {
	if !a.elastic {
		return 0
	}
	return a.level
}

// newWeight is the weight of the pieces of a body that no arrangement carried
// before, by weight group.
func (p *progress) newWeight(b *body) map[string][]part {
	groups := map[string][]part{}
	for _, w := range p.run.parts {
		carried := !slices.Contains(b.pieces, w.piece)
		for _, a := range p.acts {
			carried = carried || slices.Contains(a.body.pieces, w.piece)
		}
		if !carried {
			group := p.run.girder.Pieces[w.piece].WeightGroup
			groups[group] = append(groups[group], w)
		}
	}
	return groups
}
