package ledger

import (
	"slices"

	"github.com/tempstage/tempstage/section"
)

// Step is one thing done to tendons: jacked, or let down, with the sections of
// its day.
type Step struct {
	Release bool                      // the tendons are let down and taken out
	Tendons []int                     // those jacked or released
	Force   []func(x float64) float64 // of each of Tendons after the step, N; unused for a release
	States  []*State                  // of every body on the day
	Day     float64                   // of the project
	Bonded  []bool                    // of each tendon: grouted before
	Modulus func(piece int) float64   // of the concrete of a piece on the day, Pa
}

// Prestress is what all tendons do to the concrete of a station up to a step.
type Prestress struct {
	Force []float64 // of each tendon, N, tension; nil at a node of the grid
	own   []float64 // of the tendons of the step, after it
	Of    []Part    // by piece of the station: of the tendons that are not Zoned, then of each Zoned tendon up to the last one stressed
}

// Part is what something does in one piece of a station: its stress, and its forces
// about the girder's fixed axis, which for a body stand with its first piece.
type Part struct {
	Plane  Plane
	Forces section.Forces
}

// add adds q times a factor.
func (p *Part) add(q *Part, factor float64) {
	p.Plane.Constant += factor * q.Plane.Constant
	p.Plane.SlopeY += factor * q.Plane.SlopeY
	p.Plane.SlopeZ += factor * q.Plane.SlopeZ
	p.Plane.Warping += factor * q.Plane.Warping
	p.Forces.N += factor * q.Forces.N
	p.Forces.Vy += factor * q.Forces.Vy
	p.Forces.Vz += factor * q.Forces.Vz
	p.Forces.T += factor * q.Forces.T
	p.Forces.My += factor * q.Forces.My
	p.Forces.Mz += factor * q.Forces.Mz
}

// addAll adds the parts of another term, piece by piece.
func addAll(to, from []Part, factor float64) {
	for k := range to {
		to[k].add(&from[k], factor)
	}
}

// About are forces about the fixed axis y = z = 0 taken to the centroid of a
// section: N, My and Mz; T stays about the axis.
func About(f section.Forces, centroid section.Point) section.Forces {
	f.My += f.N * centroid.Z
	f.Mz += f.N * centroid.Y
	return f
}

// onConcrete is what a tendon of the given force (N, tension) does to the
// concrete, about the fixed axis: the opposite of its pull on the cut.
func (t *TendonAt) onConcrete(force float64) section.Forces {
	along, aside, up := force*t.Direction[0], force*t.Direction[1], force*t.Direction[2]
	return section.Forces{
		N: -along, My: along * t.At.Z, Mz: along * t.At.Y,
		Vy: aside, Vz: up, T: t.At.Z*aside - t.At.Y*up,
	}
}

// body is the state, among those of a day, on which something in a slot of the
// station acts.
func (s *Station) body(states []*State, slot int) *State {
	for _, state := range states {
		if state.Ratio(s.Pieces[slot].Index) > 0 {
			return state
		}
	}
	return nil
}

// spread adds forces on a body, times a factor, to the parts of a term: its planes
// in every piece of the body.
func (s *Station) spread(parts []Part, state *State, f section.Forces, factor float64) {
	if state == nil || s.States[state.Index].Area == 0 {
		return
	}
	of := &s.States[state.Index]
	plane := of.Plane(About(f, of.Centroid))
	first := true
	for slot := range s.Pieces {
		ratio := state.Ratio(s.Pieces[slot].Index) * factor
		if ratio == 0 {
			continue
		}
		p := &parts[slot]
		p.Plane.Constant += ratio * plane.Constant
		p.Plane.SlopeY += ratio * plane.SlopeY
		p.Plane.SlopeZ += ratio * plane.SlopeZ
		if first { // the forces of a body stand with its first piece
			p.Forces, first = p.Forces.Plus(f.Times(factor)), false
		}
	}
}

// prestress runs through a number of steps: each adds its forces on the section of
// its day and takes (Ep/Ecm)·Δσc from the tendons stressed before it (EN 1992-1-1
// 5.10.5.1). The concrete feels that loss unless the earlier tendon is bonded: its
// steel is then part of the section. Pretensioned strands are so from the
// beginning: their force just before release acts on the transformed section, and
// the loss by it is (Ep/Ecm)·σc, exactly, for the strains of steel and concrete
// beside it change alike. The forces of the tendons after every step are kept where
// history is wanted.
func (l *Ledger) prestress(s *Station, steps int, history bool) {
	n := len(s.Tendons)
	added := l.begin(s, steps)
	l.forces = resize(l.forces, n)
	clear(l.forces)
	if history {
		s.Steps[0].Force = make([]float64, n)
	}
	for k := range steps {
		if l.stresses(s, k) {
			l.pull(s, k, l.forces, added)
			l.follow(s, k, l.forces, added)
		}
		switch {
		case !history:
		case !l.stresses(s, k): // as before
			s.Steps[k+1].Force = s.Steps[k].Force
		default:
			s.Steps[k+1].Force = slices.Clone(l.forces)
		}
	}
}

// begin makes room for the running totals of a number of steps, and for what one
// adds. A step that does nothing here shares the totals before it.
func (l *Ledger) begin(s *Station, steps int) (added []Part) {
	slots, first := len(s.Pieces), 1
	for i := range s.Tendons {
		if s.Tendons[i].Here && s.Tendons[i].grown { // strained by every step
			first = max(first, 2+slices.Index(s.Zoned, i))
		}
	}
	own, size, reach := 0, first*slots, first
	for k := range steps {
		if l.stresses(s, k) {
			reach = s.reach(&l.Steps[k], reach)
			own, size = own+len(l.Steps[k].Tendons), size+reach*slots
		}
	}
	parts, mine := make([]Part, size+slots), make([]float64, own)
	s.Steps = make([]Prestress, steps+1)
	next := func(k, terms, own int) {
		s.Steps[k] = Prestress{Of: parts[: terms*slots : terms*slots], own: mine[:own:own]}
		parts, mine = parts[terms*slots:], mine[own:]
	}
	next(0, first, 0)
	reach = first
	for k := range steps {
		if !l.stresses(s, k) {
			s.Steps[k+1] = Prestress{Of: s.Steps[k].Of}
			continue
		}
		reach = s.reach(&l.Steps[k], reach)
		next(k+1, reach, len(l.Steps[k].Tendons))
	}
	return parts
}

// reach is how many terms there are when the tendons of a step are stressed.
func (s *Station) reach(step *Step, before int) int {
	for _, i := range step.Tendons {
		if s.Tendons[i].Here {
			before = max(before, 2+slices.Index(s.Zoned, i))
		}
	}
	return before
}

// stresses is true where a step does something: where any of its tendons passes the
// station, or an external one, which every step strains.
func (l *Ledger) stresses(s *Station, k int) bool {
	for _, i := range l.Steps[k].Tendons {
		if s.Tendons[i].Here {
			return true
		}
	}
	for i := range s.Tendons {
		if s.Tendons[i].Here && l.Girder.Tendons[i].External {
			return true
		}
	}
	return false
}

// pull is what the tendons of step k do to the concrete by themselves, which goes to
// added as well. A step of stressing brings a tendon to its force; pretensioned
// strands bring theirs onto the section of which they are part.
func (l *Ledger) pull(s *Station, k int, forces []float64, added []Part) {
	step, total := &l.Steps[k], &s.Steps[k+1]
	if l.stresses(s, k) {
		copy(total.Of, s.Steps[k].Of)
	}
	clear(added)
	for n, i := range step.Tendons {
		at := &s.Tendons[i]
		if !at.Here {
			continue
		}
		change := -forces[i]
		if !step.Release {
			change += step.Force[n](s.X)
		}
		if l.Girder.Tendons[i].Grip != nil {
			change = step.Force[n](s.X)
		}
		state, f := s.body(step.States, at.Slot), at.onConcrete(change)
		s.spread(added, state, f, 1)
		s.put(total.Of[:len(s.Pieces)], total.Of[len(s.Pieces):], i, state, f)
		forces[i] += change
		total.own[n] = forces[i]
	}
}

// follow is what the step takes from the tendons stressed before it, and from
// pretensioned strands, those that it releases included.
func (l *Ledger) follow(s *Station, k int, forces []float64, added []Part) {
	step, total := &l.Steps[k], &s.Steps[k+1]
	for i := range s.Tendons {
		at, t := &s.Tendons[i], &l.Girder.Tendons[i]
		if !at.Here || t.Grip == nil && (forces[i] == 0 || slices.Contains(step.Tendons, i)) {
			continue
		}
		body, change := s.body(step.States, at.Slot), 0.0
		if body == nil {
			continue
		}
		if t.External {
			change = t.Modulus * l.stretched[k][i][t.free(s.X)] * at.Area
		} else {
			change = t.Modulus / step.Modulus(s.Pieces[at.Slot].Index) * added[at.Slot].Plane.Plane.At(at.At) * at.Area
		}
		forces[i] += change
		if n := slices.Index(step.Tendons, i); n >= 0 {
			total.own[n] = forces[i]
		}
		if !step.Bonded[i] {
			s.put(total.Of[:len(s.Pieces)], total.Of[len(s.Pieces):], i, body, at.onConcrete(change))
		}
	}
}

// put adds forces of tendon i on a body to the parts of all tendons, or to its own
// where it is kept apart. Of pretensioned strands kept apart what is sure acts with
// all, and what may be more is kept apart.
func (s *Station) put(all, apart []Part, i int, state *State, f section.Forces) {
	k, slots := slices.Index(s.Zoned, i), len(s.Pieces)
	at := &s.Tendons[i]
	switch {
	case k < 0:
		s.spread(all, state, f, 1)
	case !at.grown:
		s.spread(apart[k*slots:(k+1)*slots], state, f, 1)
	default:
		s.spread(all, state, f, at.Least)
		s.spread(apart[k*slots:(k+1)*slots], state, f, at.Most-at.Least)
	}
}

// PrestressForces are the forces on the concrete about the fixed axis that steps
// from to to of stressing add at the station (from before, to after).
func (s *Station) PrestressForces(from, to int) section.Forces {
	var sum Part
	for k := range s.Steps[to].Of {
		sum.add(&s.Steps[to].Of[k], s.nominal(k/len(s.Pieces)))
	}
	for k := range s.Steps[from].Of {
		sum.add(&s.Steps[from].Of[k], -s.nominal(k/len(s.Pieces)))
	}
	return sum.Forces
}

// nominal is the factor on a term of Prestress.Of with which the terms add up to all
// tendons in full, pretensioned strands by the basic transmission length.
func (s *Station) nominal(k int) float64 {
	if k == 0 {
		return 1
	}
	at := &s.Tendons[s.Zoned[k-1]]
	switch {
	case !at.grown:
		return 1
	case at.Most == at.Least:
		return 0
	}
	return (1 - at.Least) / (at.Most - at.Least)
}
