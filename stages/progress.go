package stages

import (
	"fmt"
	"math"
	"slices"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// body is the pieces that act as one member.
type body struct {
	pieces   []int
	from, to float64                 // m
	offset   func(x float64) float64 // of the axis beside the chord of a curved girder, m; nil for none
}

// progress is the girder as a plan goes on: what is there, what is joined, what
// it rests on, what is carried forward.
type progress struct {
	run    *run
	added  []bool
	joined []int // of each piece: the lowest piece of its body
	bodies []*body
	bonded []bool
	grout  []string
	acts   []*arrangement // of each body, standing
	held   []entry        // of the supports on which it is
	locked []entry        // all lasting entries
}

func newProgress(r *run) *progress {
	n := len(r.girder.Pieces)
	p := &progress{run: r, added: make([]bool, n), joined: make([]int, n), bonded: make([]bool, len(r.tendons))}
	for i := range p.joined {
		p.added[i], p.joined[i] = !r.girder.Pieces[i].Later, i
	}
	for i := range p.bonded { // strands are cast in
		p.bonded[i] = r.pretensioned(i)
	}
	for i := range n { // what is there from the beginning acts together end to end
		for j := range i {
			if p.added[i] && p.added[j] && p.meet(i, j, true) {
				p.join(i, j)
			}
		}
	}
	p.makeBodies()
	return p
}

// meet is true for pieces that touch: end to end only, or anywhere.
func (p *progress) meet(i, j int, endToEnd bool) bool {
	a, b, near := p.run.girder.Pieces[i], p.run.girder.Pieces[j], p.run.girder.near()
	if math.Abs(a.To()-b.At) <= near || math.Abs(b.To()-a.At) <= near {
		return true
	}
	return !endToEnd && math.Min(a.To(), b.To())-math.Max(a.At, b.At) > near
}

// shareEdge is true for pieces that meet end to end, or whose outlines share an edge.
func (r *run) shareEdge(i, j int) bool {
	a, b := r.girder.Pieces[i], r.girder.Pieces[j]
	from, to := math.Max(a.At, b.At), math.Min(a.To(), b.To())
	if to-from <= r.girder.near() {
		return true
	}
	x := (from + to) / 2
	_, err := section.Joined(a.Element.Section.At(x-a.At), b.Element.Section.At(x-b.At))
	return err == nil
}

func (p *progress) join(i, j int) {
	low, high := min(p.joined[i], p.joined[j]), max(p.joined[i], p.joined[j])
	for k := range p.joined {
		if p.joined[k] == high {
			p.joined[k] = low
		}
	}
}

// makeBodies lists the bodies anew; one that has not changed stays the same.
func (p *progress) makeBodies() {
	before := p.bodies
	p.bodies = nil
	for i := range p.joined {
		if !p.added[i] || p.joined[i] != i {
			continue
		}
		b := &body{from: math.Inf(1)}
		if p.run.girder.Radius != 0 {
			b.offset = p.run.girder.offset
		}
		for k := range p.joined {
			if p.added[k] && p.joined[k] == i {
				piece := p.run.girder.Pieces[k]
				b.pieces = append(b.pieces, k)
				b.from, b.to = math.Min(b.from, piece.At), math.Max(b.to, piece.To())
			}
		}
		if at := slices.IndexFunc(before, func(c *body) bool { return slices.Equal(b.pieces, c.pieces) }); at >= 0 {
			b = before[at]
		}
		p.bodies = append(p.bodies, b)
	}
}

// advance takes the girder into a situation.
func (p *progress) advance(s *situation, stayed []Action) error {
	if err := p.addAndJoin(s); err != nil {
		return err
	}
	s.concrete = make([]concrete.State, len(p.run.girder.Pieces))
	for i, piece := range p.run.girder.Pieces {
		if !p.added[i] {
			continue
		}
		state, err := p.run.mixes[i].strength.At(s.day - piece.Element.Cast)
		if err == nil {
			err = checkState(state)
		}
		if err != nil {
			return fmt.Errorf("piece %s: %w", piece.Element.Mark, err)
		}
		s.concrete[i] = state
	}
	if err := p.redistribute(s); err != nil {
		return err
	}
	s.bodies = slices.Clone(p.bodies)
	for _, b := range p.bodies {
		s.states = append(s.states, p.run.state(b, p.bonded, s))
	}
	if err := p.supports(s, stayed); err != nil {
		return err
	}
	if err := p.events(s); err != nil {
		return err
	}
	s.bonded, s.grouted, s.steps = slices.Clone(p.bonded), slices.Clone(p.grout), len(p.run.steps)
	p.settled(s)
	p.finish(s)
	return nil
}

// addAndJoin takes the pieces that a situation adds and joins.
func (p *progress) addAndJoin(s *situation) error {
	index := func(mark string) int {
		return slices.IndexFunc(p.run.girder.Pieces, func(q Piece) bool { return q.Element.Mark == mark })
	}
	changed := false
	for _, e := range s.Events {
		for _, mark := range e.Add {
			p.added[index(mark)], changed = true, true
		}
		for _, mark := range e.Join {
			i := index(mark)
			met := false
			for j := range p.joined {
				if j != i && p.added[j] && p.meet(i, j, false) && p.run.shareEdge(i, j) {
					p.join(i, j)
					met, changed = true, true
				}
			}
			if !met {
				return fmt.Errorf("in Join: piece %s meets no piece that is carried: must meet at least one", mark)
			}
		}
	}
	if changed {
		p.makeBodies()
	}
	return nil
}

// state is the section of a body on the day of a situation; the modulus matters
// only where there is bonded steel or more than one concrete.
func (r *run) state(b *body, bonded []bool, s *situation) *ledger.State {
	return r.stateOf(b, bonded, s, false)
}

func (r *run) stateOf(b *body, bonded []bool, s *situation, steelOut bool) *ledger.State {
	reference := s.concrete[b.pieces[0]].Modulus
	of := &ledger.State{Pieces: b.pieces, Modulus: reference, Bonded: slices.Clone(bonded), SteelOut: steelOut}
	for _, k := range b.pieces {
		of.Ratios = append(of.Ratios, s.concrete[k].Modulus/reference)
	}
	if alike(of.Ratios) && (steelOut || !slices.Contains(bonded, true)) {
		of.Modulus = 0 // one concrete without steel: the modulus cancels
	}
	for _, state := range r.ledger.States {
		if slices.Equal(state.Pieces, of.Pieces) && slices.Equal(state.Ratios, of.Ratios) && slices.Equal(state.Bonded, of.Bonded) &&
			state.SteelOut == of.SteelOut && state.Modulus == of.Modulus {
			return state
		}
	}
	of.Index = len(r.ledger.States)
	r.ledger.States = append(r.ledger.States, of)
	return of
}

func alike(ratios []float64) bool {
	for _, ratio := range ratios {
		if ratio != 1 {
			return false
		}
	}
	return true
}
