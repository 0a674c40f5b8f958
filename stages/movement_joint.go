package stages

import (
	"slices"

	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// kink is what stays at a joint when bodies are joined: the difference of
// their slopes and levels on that day, of the lines up and aside, elastic and
// crept.
type kink struct {
	x  float64
	of [4]ledger.Kink
}

// kinksOf are the kinks of a body, oldest joints included. A piece that had no
// supports of its own before it was joined goes on in the tangent of its
// neighbour, as a match-cast segment or a closure pour does.
func (r *run) kinksOf(b *body) ([]kink, error) {
	if known, ok := r.motion.kinks[b]; ok {
		return known, nil
	}
	kinks, err := r.lockedKinks(b)
	if err == nil {
		r.motion.kinks[b] = kinks
	}
	return kinks, err
}

// lockedKinks finds the kinks of a body in the situation that made it.
func (r *run) lockedKinks(b *body) ([]kink, error) {
	made := slices.IndexFunc(r.situations, func(s *situation) bool { return slices.Contains(s.bodies, b) })
	if made <= 0 {
		return nil, nil
	}
	s, before := r.situations[made], r.situations[made-1]
	var kinks []kink
	known := map[int]*Movement{}
	moved := func(at int) (m *Movement, err error) { // of a body before; of one that is joined to nothing but new pieces it is not asked
		if m = known[at]; m == nil {
			m, err = r.movement(before.bodies[at], r.stood(made-1, at), s, r.motion.before[made], s.from)
			known[at] = m
		}
		return m, err
	}
	end, owner := 0.0, -1 // of the one that reached furthest right so far
	for k := range r.ledger.Grid() {
		p := &r.ledger.Grid()[k]
		slot := p.At[0].Slot(b.pieces)
		if p.From < b.from || p.To > b.to || slot < 0 {
			continue
		}
		piece := p.At[0].Pieces[slot].Index
		at := slices.IndexFunc(before.bodies, func(c *body) bool { return slices.Contains(c.pieces, piece) })
		if at < 0 {
			continue // new: it has no shape of its own
		}
		if at != owner {
			if owner >= 0 {
				left, err := moved(owner)
				if err != nil {
					return nil, err
				}
				right, err := moved(at)
				if err != nil {
					return nil, err
				}
				kinks = append(kinks, kinkOf(left, end, right, p.From))
			}
			owner = at
		}
		own, err := r.kinksOf(before.bodies[at])
		if err != nil {
			return nil, err
		}
		for _, j := range own {
			if j.x >= p.From && j.x < p.To && j.x > before.bodies[at].from {
				kinks = append(kinks, j)
			}
		}
		end = p.To
	}
	return kinks, nil
}

// stood is the arrangement on which a body of a situation stood last.
func (r *run) stood(at, body int) *arrangement {
	b := r.situations[at].bodies[body]
	for k := at; k >= 0; k-- {
		s := r.situations[k]
		if i := slices.Index(s.bodies, b); i >= 0 && s.Standing {
			return s.acts[i]
		}
	}
	return r.situations[at].acts[body]
}

// kinkOf is the difference at x of a body and the tangent of the one before it,
// which ends at end.
func kinkOf(left *Movement, end float64, right *Movement, x float64) kink {
	j := kink{x: x}
	lines := func(m *Movement) [4]*referred { return [4]*referred{m.up[0], m.up[1], m.aside[0], m.aside[1]} }
	l, r := lines(left), lines(right)
	hair := 1e-9 * (end - left.From)
	for i := range j.of {
		value, slope := l[i].at(end - hair) // left of a kink
		there, turned := r[i].at(x)
		j.of[i] = ledger.Kink{X: x, Slope: turned - slope, Offset: there - value - slope*(x-end+hair)}
	}
	return j
}
