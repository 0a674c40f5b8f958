package stages

import (
	"fmt"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
)

// takenOff are the entries of actions that a situation takes off, reversed, and
// what is held without them.
func (p *progress) takenOff(s *situation, held []entry) (off, rest []entry) {
	for _, e := range held {
		if e.inner >= 0 && p.run.causes[e.inner].kind == causeAction && slices.Contains(s.Off, p.run.causes[e.inner].key) {
			off = append(off, e.off(s.states[p.bodyOf(e.of.body)]))
			continue
		}
		rest = append(rest, e)
	}
	return off, rest
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
// to those that come, which touch without force.
func (p *progress) handOver(s *situation) (on, off []entry, err error) {
	on = slices.Clone(p.held)
	for _, e := range p.held {
		at := p.bodyOf(e.of.body)
		a := s.acts[at]
		if len(e.of.ways) > 1 || len(a.ways) > 1 {
			return nil, nil, fmt.Errorf("a support stays from a situation in which the supports may share in more than one way: must be stated by groups, or by Stiffness and OutOfLevel without Roll and Gradient")
		}
		if !slices.ContainsFunc(e.of.supports, func(q Support) bool { return a.index3(q) < 0 }) {
			continue
		}
		gone := e
		l := &load{name: e.name + ", handed over", at: func(up r3.Vec) beam.SpaceLoads { return p.run.released(a, &gone, up) }}
		on = append(on, entry{l.name, a, l, s.states[at], 1, e.inner, e.outer, e.mean})
	}
	for b, of := range p.bodies {
		for group, parts := range p.newWeight(of) {
			l := &load{name: "weight", at: func(up r3.Vec) beam.SpaceLoads { return along(parts, of.from, r3.Scale(-1, up)) }}
			on = append(on, entry{"weight", s.acts[b], l, s.states[b], 1, p.run.cause(causeWeight, group), nil, true})
		}
		if a := s.acts[b]; a.elastic { // farther out of level than they were
			if was, ok := p.warpedBefore(a); ok && a.level > was {
				on = append(on, p.outOfPlane(s, a, s.states[b], a.level-was)...)
			}
		}
	}
	return on, nil, nil
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

// released are the forces of the supports that go, reversed, on those of a.
func (r *run) released(a *arrangement, gone *entry, up r3.Vec) beam.SpaceLoads {
	var loads beam.SpaceLoads
	answer, err := r.answer(gone.of, gone.of.ways[0], gone.load, gone.state)
	if err != nil { // answered where the entry was made
		return loads
	}
	for i, q := range gone.of.supports {
		if a.index3(q) < 0 && answer.vertical[i] != 0 {
			loads.Points = append(loads.Points, beam.SpacePoint{X: q.X - a.body.from, Y: q.Y, Z: q.Z, Force: r3.Scale(-gone.coefficient*answer.vertical[i], up)})
		}
	}
	return loads
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
