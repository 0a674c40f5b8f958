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
	Of    []Part    // by piece, then body of the station: of the tendons that are not Zoned, then of each Zoned tendon up to the last one stressed
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
	slots, first := s.slots(), 1
	for i := range s.Tendons {
		if s.Tendons[i].Here && s.Tendons[i].grown { // strained by every step
			first = max(first, 1+int(s.Tendons[i].kept))
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
			before = max(before, 1+int(s.Tendons[i].kept))
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
	return slices.ContainsFunc(s.here, func(i int) bool { return l.Girder.Tendons[i].External })
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
		s.put(total.Of[:s.slots()], total.Of[s.slots():], i, state, f)
		forces[i] += change
		total.own[n] = forces[i]
	}
}

// follow is what the step takes from the tendons stressed before it, and from
// pretensioned strands, those that it releases included.
func (l *Ledger) follow(s *Station, k int, forces []float64, added []Part) {
	step, total := &l.Steps[k], &s.Steps[k+1]
	for _, i := range s.here {
		at, t := &s.Tendons[i], &l.Girder.Tendons[i]
		if t.Grip == nil && (forces[i] == 0 || slices.Contains(step.Tendons, i)) {
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
			s.put(total.Of[:s.slots()], total.Of[s.slots():], i, body, at.onConcrete(change))
		}
	}
}

// PrestressForces are the forces on the concrete about the fixed axis that steps
// from to to of stressing add at the station (from before, to after).
func (s *Station) PrestressForces(from, to int) section.Forces {
	var sum Part
	for k := range s.Steps[to].Of {
		sum.add(&s.Steps[to].Of[k], s.nominal(k/s.slots()))
	}
	for k := range s.Steps[from].Of {
		sum.add(&s.Steps[from].Of[k], -s.nominal(k/s.slots()))
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
