package stages

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// weightLoad is the weight that a body carries of one weight group.
type weightLoad struct {
	body  *body
	group string
	load  *load
	parts []part
}

// weightLoads are the weights of a body, by weight group.
func (r *run) weightLoads(b *body) []weightLoad {
	var list []weightLoad
	for _, w := range r.weights {
		if w.body == b {
			list = append(list, w)
		}
	}
	if list != nil {
		return list
	}
	groups := map[string][]part{}
	var order []string
	for _, p := range r.parts {
		if !slices.Contains(b.pieces, p.piece) {
			continue
		}
		group := r.girder.Pieces[p.piece].WeightGroup
		if groups[group] == nil {
			order = append(order, group)
		}
		groups[group] = append(groups[group], p)
	}
	for _, group := range order {
		parts := groups[group]
		l := &load{name: "weight", at: func(up r3.Vec) beam.SpaceLoads { return along(parts, b.from, r3.Scale(-1, up)) }}
		list = append(list, weightLoad{b, group, l, parts})
	}
	r.weights = append(r.weights, list...)
	return list
}

// supportsOf are the supports of a situation on which a body acts: those along
// it, and where bodies lie side by side those beneath its own outline.
func (r *run) supportsOf(b *body, bodies []*body, supports []Support) []Support {
	var list []Support
	near := r.girder.near()
	for _, s := range supports {
		if s.X < b.from-near || s.X > b.to+near {
			continue
		}
		if len(bodies) > 1 && r.nearest(s, bodies) != b {
			continue
		}
		s.X = math.Max(b.from, math.Min(b.to, s.X))
		s.Y += r.girder.offset(s.X)
		if s.Hook != nil && r.girder.Radius != 0 {
			hook := *s.Hook
			hook.Y += r.girder.offset(s.X)
			s.Hook = &hook
		}
		list = append(list, s)
	}
	return list
}

// nearest is the body whose outline at a support's x is nearest to its y.
func (r *run) nearest(s Support, bodies []*body) *body {
	var best *body
	least := math.Inf(1)
	for _, b := range bodies {
		for _, k := range b.pieces {
			p := r.girder.Pieces[k]
			if s.X < p.At || s.X > p.To() {
				continue
			}
			off := 0.0
			g := p.Element.Section.At(s.X - p.At).Properties()
			off = math.Max(off, math.Max(s.Y-g.Centroid.Y-g.Left, g.Centroid.Y-g.Right-s.Y))
			off += 1e-3 * math.Hypot(s.Y-g.Centroid.Y, math.Max(0, s.X-p.To())+math.Max(0, p.At-s.X)) // the nearer of two that it lies in
			if off < least {
				best, least = b, off
			}
		}
	}
	return best
}

// act are the actions that a situation brings: lasting ones and transient ones.
func (p *progress) act(s *situation) (lasting, transient []entry, err error) {
	for i := range s.Actions {
		a := &s.Actions[i]
		if a.Train != nil {
			if err := p.rolling(s, a); err != nil {
				return nil, nil, err
			}
			continue
		}
		e, err := p.action(s, a, p.run.newAction(a))
		if err != nil {
			return nil, nil, err
		}
		if a.Stays {
			lasting = append(lasting, e)
		} else {
			transient = append(transient, e)
		}
	}
	return lasting, transient, nil
}

// action is an action as an entry of the body on which it acts.
func (p *progress) action(s *situation, of *Action, cause int) (entry, error) {
	parts := p.run.girder.curved(partsOf(of.Mark, of.Loads, of.Y, of.Z))
	at := -1
	for b, body := range p.bodies {
		if near := p.run.girder.near(); slices.ContainsFunc(parts, func(q part) bool { return q.from < body.from-near || q.to > body.to+near }) {
			continue
		}
		if at < 0 || p.run.nearest(Support{X: parts[0].x, Y: of.Y}, p.bodies) == body {
			at = b
		}
	}
	if at < 0 {
		return entry{}, fmt.Errorf("in Actions: %s acts on no one body of the girder: must be loads along what acts as one", of.Mark)
	}
	b, a := p.bodies[at], s.acts[at]
	if of.Direction != Down && !a.holds(of.Direction) {
		return entry{}, fmt.Errorf("in Actions: %s acts %s and no support holds that direction: must be held by at least %s", of.Mark, of.Direction, map[Direction]string{Transverse: "two lines of supports", Along: "one support"}[of.Direction])
	}
	l := &load{name: of.Mark, at: func(up r3.Vec) beam.SpaceLoads {
		direction := r3.Scale(-1, up)
		switch across, ahead := horizontal(up); of.Direction {
		case Transverse:
			direction = across
		case Along:
			direction = ahead
		}
		return along(parts, b.from, direction)
	}}
	least, _ := of.presence()
	l.modulus, l.parts = s.concrete[b.pieces[0]].Modulus, parts
	return entry{of.Mark, a, l, s.states[at], 1, cause, nil, of.Stays && least > 0}, nil
}

// holds is true when the supports hold a horizontal direction by statics.
func (a *arrangement) holds(d Direction) bool {
	lines := map[float64]bool{}
	for _, s := range a.supports {
		switch {
		case a.suspended, s.Fixed, d == Along && s.holdsAlong():
			return true
		case d == Transverse && s.holdsAcross():
			lines[s.X] = true
		}
	}
	return len(lines) >= 2
}

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
			return nil, nil, fmt.Errorf("a support kept from a situation in which the supports may share in more than one way: must be stated by groups, or by Stiffness and OutOfLevel without Roll and Gradient")
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
		for _, before := range p.acts { // farther out of level than they were
			if a := s.acts[b]; a != before && a.elastic && before.elastic && a.level > before.level && before.body.same(of) {
				on = append(on, p.outOfPlane(s, a, s.states[b], a.level-before.level)...)
			}
		}
	}
	return on, nil, nil
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

// restraint is what prestress that bends or twists a girder on supports that
// share by stiffness does to them: steps from to to of stressing.
func (p *progress) restraint(a *arrangement, state *ledger.State, from, to int) entry {
	r := p.run
	l := &load{name: "restraint of the prestress", at: func(r3.Vec) beam.SpaceLoads { return r.prestressStrains(a, state, from, to) }}
	return entry{l.name, a, l, state, 1, -1, []int{r.cause(causePrestress, "")}, true}
}

// prestressStrains are the strains of a body under the prestress of some steps.
func (r *run) prestressStrains(a *arrangement, state *ledger.State, from, to int) beam.SpaceLoads {
	var loads beam.SpaceLoads
	twist, err := r.twist(a.body)
	if err != nil {
		return loads
	}
	for k := range r.ledger.Grid() {
		p := &r.ledger.Grid()[k]
		if p.From < a.body.from || p.To > a.body.to {
			continue
		}
		var nodes [4]ledger.Curve
		size := 0.0
		for n, at := range p.At {
			e := strainOf(stiff(at.States[state.Index], a.modulus, twist, at.X), at.PrestressForces(from, to))
			for i, v := range [4]float64{e.Axial, e.CurvatureY, e.CurvatureZ, e.Twist} {
				nodes[i][n] = v
				size += math.Abs(v)
			}
		}
		if size == 0 {
			continue
		}
		loads.Strains = append(loads.Strains, beam.SpaceStrain{From: p.From - a.body.from, To: p.To - a.body.from, At: func(x float64) beam.Strain {
			share := p.Shares(x + a.body.from)
			return beam.Strain{Axial: nodes[0].Sum(&share), CurvatureY: nodes[1].Sum(&share), CurvatureZ: nodes[2].Sum(&share), Twist: nodes[3].Sum(&share)}
		}})
	}
	return loads
}
