package ledger

import (
	"cmp"
	"math"
	"slices"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
)

// Time is what creep, shrinkage and relaxation need of one piece in one
// situation, the same all along the piece.
type Time struct {
	Since    [][]float64     // of each tendon: the part of φ(t, t_e) of each lasting entry after it was last stressed
	Modulus  []float64       // of each lasting entry before now, to which φ relates, Pa
	Days     []float64       // since each tendon was last stressed; negative for one not stressed yet, or released
	Periods  []tendon.Period // of each tendon, from its last stressing to now
	Concrete *State          // on which a loss acts: empty ducts and bonded steel out

	order []int // tendons that have lost by now, the first stressed first
}

// lose adds to the prestress of a situation what creep, shrinkage and relaxation
// take; it acts on the concrete beside the steel.
func (l *Ledger) lose(s *Situation, at *Station, e *effect, n node) {
	totals := l.totalsAt(s, at, n)
	for slot := range at.Pieces {
		var sum section.Forces // of the tendons that are not kept apart
		concrete := s.Times[at.Pieces[slot].Index].Concrete
		for k, i := range at.here {
			t, total := &at.Tendons[i], totals[k]
			if t.Slot != slot || total == 0 {
				continue
			}
			f := t.onConcrete(-total * t.Area)
			if t.kept > 0 {
				at.put(e.products[0], e.apart, i, concrete, f)
			} else {
				sum = sum.Plus(f)
			}
		}
		at.spread(e.products[0], concrete, sum, 1)
	}
}

// totalsAt are the total losses (Pa) of the tendons that pass a station, in order; at a
// node kept for the movements on the same day.
func (l *Ledger) totalsAt(s *Situation, at *Station, n node) []float64 {
	if n == offGrid {
		return l.addTotals(nil, s, at, n)
	}
	key := lossKey{s.Times[0], s.Steps}
	if l.lost == nil {
		l.lost = map[lossKey][][]float64{}
	}
	if l.lost[key] == nil {
		l.lost[key] = make([][]float64, len(l.grid))
	}
	known, number := l.lost[key], len(at.here)
	if known[n.stretch] == nil {
		known[n.stretch] = make([]float64, 0, Nodes*number)
		for i, at := range l.grid[n.stretch].At {
			known[n.stretch] = l.addTotals(known[n.stretch], s, at, node{n.stretch, i})
		}
	}
	return known[n.stretch][n.index*number : (n.index+1)*number]
}

// lossKey is what losses follow from: times of a day, of which the first stands for
// all, and steps made.
type lossKey struct {
	times *Time
	steps int
}

func (l *Ledger) addTotals(to []float64, s *Situation, at *Station, n node) []float64 {
	losses := slices.Grow(l.losing[:0], len(at.Tendons))[:len(at.Tendons)]
	for _, i := range at.here {
		losses[i] = tendon.Losses{}
	}
	l.losses(s, at, n, losses)
	l.losing = losses
	for _, i := range at.here {
		to = append(to, losses[i].Total())
	}
	return to
}

// lostAt is the loss of one tendon at a station off the grid.
func (l *Ledger) lostAt(s *Situation, at *Station, i int) (loss tendon.Losses) {
	if s.Times == nil || !l.loses(s, at, i) {
		return loss
	}
	l.findFields(s)
	if of := &l.Girder.Tendons[i]; of.External {
		return l.meanLoss(s, i, of.free(at.X))
	}
	place := l.place(s, at, i, l.stressed(s, at, i), l.lasting(s, at, offGrid))
	return s.Times[at.Pieces[at.Tendons[i].Slot].Index].Periods[i].Losses(place)
}

// losses are the losses of all tendons at a station; of an external one the mean
// over its free length.
func (l *Ledger) losses(s *Situation, at *Station, n node, into []tendon.Losses) {
	l.findFields(s)
	for _, i := range at.here {
		if of := &l.Girder.Tendons[i]; of.External && l.loses(s, at, i) {
			into[i] = l.meanLoss(s, i, of.free(at.X))
		}
	}
	came := l.lasting(s, at, n)
	for slot := range at.Pieces {
		l.loseIn(s, at, slot, came, into)
	}
}

// loses is true for a tendon that has a loss at a station.
func (l *Ledger) loses(s *Situation, at *Station, i int) bool {
	t := &at.Tendons[i]
	return t.Here && t.Area > 0 && s.Times[at.Pieces[t.Slot].Index].Days[i] > 0
}

// lasting is what every lasting entry before now did to a station, piece by piece.
func (l *Ledger) lasting(s *Situation, at *Station, n node) []Part {
	number := 0
	for _, t := range s.Times {
		number = max(number, len(t.Modulus))
	}
	return l.cameAt(at, number, n)
}

// loseIn are the losses of the tendons in one piece of a station. Tendons stressed
// with one or before it shorten with it from the beginning: their area and their
// centre stiffen the concrete.
func (l *Ledger) loseIn(s *Situation, at *Station, slot int, came []Part, losses []tendon.Losses) {
	time := s.Times[at.Pieces[slot].Index]
	time.sort()
	var area float64
	var moment section.Point
	slots := at.slots()
	for first := 0; first < len(time.order); {
		last := first
		var crept section.Plane // what tendons of one day have in common
		known := false
		for ; last < len(time.order) && time.Days[time.order[last]] == time.Days[time.order[first]]; last++ {
			if i := time.order[last]; int(at.in[i]) == slot+1 {
				t := &at.Tendons[i]
				area += t.Area
				moment.Y += t.Area * t.At.Y
				moment.Z += t.Area * t.At.Z
			}
		}
		for ; first < last; first++ {
			i := time.order[first]
			if int(at.in[i]) != slot+1 || l.Girder.Tendons[i].External || !l.loses(s, at, i) {
				continue
			}
			if !known {
				crept, known = time.crept(i, slot, slots, came), true
			}
			t := &at.Tendons[i]
			losses[i] = time.Periods[i].Losses(tendon.Place{
				Stress: l.initial(s, at, i) / t.Area, Stiffening: stiffening(at, slot, area, moment), CreepStrain: -crept.At(t.At),
			})
		}
	}
}

// stiffening is the factor by which tendons of an area and its moments stiffen the
// concrete of a piece.
func stiffening(at *Station, slot int, area float64, moment section.Point) float64 {
	all := math.Max(area, 1e-12)
	return tendon.Stiffening(at.Pieces[slot].Gross, area, section.Point{Y: moment.Y / all, Z: moment.Z / all})
}

// sort puts the tendons that are stressed in the order of their stressing.
func (t *Time) sort() {
	if t.order != nil {
		return
	}
	t.order = []int{}
	for i, days := range t.Days {
		if days >= 0 {
			t.order = append(t.order, i)
		}
	}
	slices.SortStableFunc(t.order, func(a, b int) int { return cmp.Compare(t.Days[b], t.Days[a]) })
}

// stressed is the stiffening by the tendons of its piece stressed with tendon i or
// before it.
func (l *Ledger) stressed(s *Situation, at *Station, i int) float64 {
	slot := at.Tendons[i].Slot
	days := s.Times[at.Pieces[slot].Index].Days
	var area float64
	var moment section.Point
	for k := range at.Tendons {
		if t := &at.Tendons[k]; t.Here && t.Slot == slot && days[k] >= days[i] {
			area += t.Area
			moment.Y += t.Area * t.At.Y
			moment.Z += t.Area * t.At.Z
		}
	}
	return stiffening(at, slot, area, moment)
}

// crept is the strain, tension +, by which a piece has crept under lasting stresses,
// entry by entry, since a tendon was stressed.
func (t *Time) crept(tendon, slot, slots int, came []Part) (sum section.Plane) {
	for e, phi := range t.Since[tendon] {
		if plane := &came[e*slots+slot].Plane.Plane; *plane != (section.Plane{}) {
			addFlat(&sum, plane, phi/t.Modulus[e])
		}
	}
	return sum
}

// place is what the loss of one tendon at a station comes from.
func (l *Ledger) place(s *Situation, at *Station, i int, stiffening float64, came []Part) tendon.Place {
	t := &at.Tendons[i]
	crept := s.Times[at.Pieces[t.Slot].Index].crept(i, t.Slot, at.slots(), came)
	return tendon.Place{Stress: l.initial(s, at, i) / t.Area, Stiffening: stiffening, CreepStrain: -crept.At(t.At)}
}

// findLast finds for each tendon the last step up to the end of a situation that
// stresses it; −1 where it was not stressed or is released.
func (l *Ledger) findLast(s *Situation) {
	s.last = make([]int, len(l.Girder.Tendons))
	for i := range s.last {
		s.last[i] = -1
	}
	for k := range l.Steps[:s.Steps] {
		for _, i := range l.Steps[k].Tendons {
			s.last[i] = k
			if l.Steps[k].Release {
				s.last[i] = -1
			}
		}
	}
}

// initial is the force of a tendon at the end of its last stressing, or of its
// release from the bed (N).
func (l *Ledger) initial(s *Situation, at *Station, i int) float64 {
	if k := s.last[i]; k >= 0 {
		return at.Steps[k+1].own[slices.Index(l.Steps[k].Tendons, i)]
	}
	return 0
}

// locked is the force of a tendon after its last stressing, or just before its
// release from the bed (N).
func (l *Ledger) locked(s *Situation, i int, x float64) float64 {
	if k := s.last[i]; k >= 0 {
		return l.Steps[k].Force[slices.Index(l.Steps[k].Tendons, i)](x)
	}
	return 0
}
