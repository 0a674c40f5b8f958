package stages

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
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
// it, and where bodies are side by side those beneath its own outline.
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
			off += 1e-3 * math.Hypot(s.Y-g.Centroid.Y, math.Max(0, s.X-p.To())+math.Max(0, p.At-s.X)) // the nearer of two that contain it
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
		return entry{}, fmt.Errorf("in Actions: %s acts %s and no support restrains that direction: must be restrained by at least %s", of.Mark, of.Direction, map[Direction]string{Transverse: "two lines of supports", Along: "one support"}[of.Direction])
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
	var err error
	if l.level, err = p.springs(s, a, of); err != nil {
		return entry{}, err
	}
	return entry{of.Mark, a, l, s.states[at], 1, cause, nil, of.Stays && least > 0, nil}, nil
}

// holds is true when the supports restrain a horizontal direction by statics.
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
