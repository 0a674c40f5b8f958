package stages

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// redistribute gives what has crept since the last situation to the supports that
// share by stiffness: curvature and twist imposed on the system of the interval,
// one entry for each cause of what creeps. Its forces grew over the interval, so
// they act on the age-adjusted modulus (EN 1992-2:2005, Annex KK.7).
func (p *progress) redistribute(s *situation) error {
	r, m := p.run, &p.run.motion
	for _, a := range p.acts {
		from := m.since[a]
		if !a.elastic || !r.longTerm() || from == nil || s.day <= from.day {
			continue
		}
		then, err := s.withModuli(func(piece int) (float64, error) { return r.aged(piece, from, s) })
		if err != nil {
			return fmt.Errorf("redistribution by creep: %w", err)
		}
		state, number := r.state(a.body, p.bonded, then), len(r.ledger.Lasting)
		for _, c := range r.creeping(number) {
			l := &load{name: c.name, modulus: then.concrete[a.body.pieces[0]].Modulus}
			l.at = once(func() beam.SpaceLoads { return r.crept(a, c, from, s, number) })
			m.grown[len(r.ledger.Lasting)] = from
			e := entry{c.name, a, l, state, 1, c.inner, c.outer, true, nil}
			p.lock(s, e)
			p.held = append(p.held, e)
		}
		m.since[a] = s
	}
	m.before = append(m.before, len(r.ledger.Lasting))
	return nil
}

// settled keeps how many lasting changes there are at the end of a situation, and
// that the creep of new systems begins.
func (p *progress) settled(s *situation) {
	m := &p.run.motion
	m.after = append(m.after, len(p.run.ledger.Lasting))
	for range len(p.run.ledger.Lasting) - len(m.by) {
		m.by = append(m.by, s)
	}
	if !s.Standing {
		return
	}
	for _, a := range s.acts {
		if m.since[a] == nil {
			m.since[a] = s
		}
	}
}

// creepGroup is the lasting changes of the same causes, which creep together.
type creepGroup struct {
	name      string
	inner     int
	outer     []int
	changes   []int // in the ledger's Lasting
	prestress bool  // with the losses of the tendons
}

// creeping are the first lasting changes by their causes: a redistribution has the
// cause of its parent.
func (r *run) creeping(number int) []creepGroup {
	var list []creepGroup
	add := func(e, inner int, outer []int) {
		for i := range list {
			if list[i].inner == inner && slices.Equal(list[i].outer, outer) {
				list[i].changes = append(list[i].changes, e)
				return
			}
		}
		c := creepGroup{inner: inner, outer: outer, changes: []int{e}, name: "levels"}
		switch {
		case inner >= 0 && r.causes[inner].kind == causeAction:
			c.name = r.causes[inner].key
		case inner >= 0:
			c.name = string(r.causes[inner].kind)
		case len(outer) > 0:
			c.name, c.prestress = string(causePrestress), true
		}
		c.name = "redistribution by creep, " + c.name
		list = append(list, c)
	}
	lasting := 0
	for e := range number {
		if r.ledger.Lasting[e].Entry == nil {
			add(e, -1, []int{r.cause(causePrestress, "")})
			continue
		}
		for r.lasting[lasting].at != e {
			lasting++
		}
		add(e, r.lasting[lasting].inner, r.lasting[lasting].outer)
	}
	return list
}

// crept is what a group of changes has crept between two situations. Models and
// sections have answered the same questions before: an error cannot come here.
func (r *run) crept(a *arrangement, c creepGroup, from, to *situation, number int) beam.SpaceLoads {
	before, err := r.softness(from, number, from.steps)
	if err != nil {
		return beam.SpaceLoads{}
	}
	now, err := r.softness(to, number, to.from)
	if err != nil {
		return beam.SpaceLoads{}
	}
	since, bends := to.day-from.day, a.bends()
	return r.strains(a, func(k, n, slot int) ledger.Strain {
		sum := r.ledger.StrainAt(now, c.changes, k, n, slot).Plus(r.ledger.StrainAt(before, c.changes, k, n, slot), -1)
		piece := r.ledger.NodeAt(k, n).Pieces[slot].Index
		if !c.prestress || !bends || to.times == nil || from.times == nil {
			return sum
		}
		days, earlier := to.times[piece].Days, from.times[piece].Days
		stays := func(i int) bool { return days[i] >= since*(1-1e-9) } // not stressed anew or let down meanwhile
		sum = sum.Plus(r.ledger.LossAt(now, k, n, slot, stays), 1)
		return sum.Plus(r.ledger.LossAt(before, k, n, slot, func(i int) bool {
			return stays(i) && math.Abs(days[i]-earlier[i]-since) <= 1e-9*days[i]
		}), -1)
	})
}

// freeShape is what the shape of a girder that was carried free does to supports
// that share by stiffness when it is set down on them: the curvature and twist of
// the prestress so far, and of all that has crept. One entry for each cause.
func (p *progress) freeShape(s *situation, a *arrangement, state *ledger.State) []entry {
	r := p.run
	var list []entry
	number := len(r.ledger.Lasting)
	for _, c := range r.creeping(number) {
		l := &load{name: strings.Replace(c.name, "redistribution by creep", "shape when set down", 1)}
		if c.prestress {
			l.name = "restraint of the prestress"
		}
		l.at = once(func() beam.SpaceLoads { return r.shaped(a, c, s, number) })
		list = append(list, entry{l.name, a, l, state, 1, c.inner, c.outer, true, nil})
	}
	return list
}

// shaped is what a group of changes has bent a girder free of supports. The elastic
// part of a load goes with it, on the modulus of the day on which it is taken off.
func (r *run) shaped(a *arrangement, c creepGroup, s *situation, number int) beam.SpaceLoads {
	by, err := r.softness(s, number, s.from)
	if err != nil {
		return beam.SpaceLoads{}
	}
	free, bends := *by, a.bends()
	free.Elastic = slices.Clone(by.Elastic)
	for k := range free.Elastic {
		free.Elastic[k] = slices.Clone(by.Elastic[k])
		for e := range number {
			if r.ledger.Lasting[e].Entry != nil && free.Elastic[k][e] != 0 {
				free.Elastic[k][e] -= 1 / s.concrete[k].Modulus
			}
		}
	}
	return r.strains(a, func(k, n, slot int) ledger.Strain {
		sum := r.ledger.StrainAt(&free, c.changes, k, n, slot)
		if c.prestress && bends {
			sum = sum.Plus(r.ledger.LossAt(by, k, n, slot, nil), 1)
		}
		return sum
	})
}

// once is loads that do not turn with gravity, worked out when they are first asked
// for: the fields before them are known then.
func once(of func() beam.SpaceLoads) func(up r3.Vec) beam.SpaceLoads {
	var known *beam.SpaceLoads
	return func(r3.Vec) beam.SpaceLoads {
		if known == nil {
			loads := of()
			known = &loads
		}
		return *known
	}
}

// bends is true where the supports answer a curvature: more than two lines of them, or
// one that restrains a rotation. Others answer a twist alone; that of the losses of
// tendons is left out there.
func (a *arrangement) bends() bool {
	return len(a.lines(nil)) > 2 || slices.ContainsFunc(a.supports, func(s Support) bool { return s.Fixed || s.RotationalStiffness > 0 })
}

// leastTwist is the twist over the length (rad) below which there is none.
const leastTwist = 1e-9

// strains are strains at the nodes of a body as loads: curvature where more than
// two lines of supports answer it, and twist.
func (r *run) strains(a *arrangement, at func(k, n, slot int) ledger.Strain) beam.SpaceLoads {
	var loads beam.SpaceLoads
	unit, err := r.stiffness(a.body, a.state, 1)
	if err != nil {
		return loads
	}
	bends := a.bends()
	for k := range r.ledger.Grid() {
		p := &r.ledger.Grid()[k]
		slot := p.At[0].Slot(a.body.pieces)
		if p.From < a.body.from || p.To > a.body.to || slot < 0 {
			continue
		}
		var nodes [4]ledger.Curve
		some := false
		for n := range p.At {
			e := at(k, n, slot)
			twist := 0.0
			if e.Forces != (section.Forces{}) {
				c := unit(p.At[n].X)
				twist = beam.About(e.Forces, c).T / c.Torsional
			}
			if math.Abs(twist)*(a.body.to-a.body.from) < leastTwist {
				twist = 0
			}
			nodes[3][n] = twist
			if bends {
				about, aside, axial := ledger.Curvatures(e.Elastic.Plus(e.Creep))
				nodes[0][n], nodes[1][n], nodes[2][n] = axial, about, aside
			}
			some = some || nodes[0][n] != 0 || nodes[1][n] != 0 || nodes[2][n] != 0 || twist != 0
		}
		if !some {
			continue
		}
		loads.Strains = append(loads.Strains, beam.SpaceStrain{From: p.From - a.body.from, To: p.To - a.body.from, At: func(x float64) beam.Strain {
			x += a.body.from
			return beam.Strain{
				Axial: p.Interpolate(&nodes[0], x), CurvatureY: p.Interpolate(&nodes[1], x), CurvatureZ: p.Interpolate(&nodes[2], x), Twist: p.Interpolate(&nodes[3], x),
			}
		}})
	}
	return loads
}
