package ledger

import (
	"slices"

	"github.com/tempstage/tempstage/section"
)

// Softness is what turns the stress of lasting changes into strain on a day, 1/Pa:
// 1/E of the day on which each began, and what it has crept per stress since then.
// Strain of a change = stress × (Elastic + Creep).
type Softness struct {
	Elastic, Creep [][]float64 // of each piece, of each lasting change
	LossElastic    [][]float64 // of each piece, of the loss of each tendon by creep, shrinkage and relaxation
	LossCreep      [][]float64
	Situation      *Situation // whose Steps and Times give the losses
}

// Strain is the strain of a piece at a station: planes in 1 and 1/m, tension +,
// and forces about the fixed axis times their softness, for a twist.
type Strain struct {
	Elastic, Creep section.Plane
	Forces         section.Forces // N/Pa, elastic and creep together
}

// Plus is the sum of a strain and a multiple of another.
func (s Strain) Plus(t Strain, times float64) Strain {
	return Strain{s.Elastic.Plus(t.Elastic.Times(times)), s.Creep.Plus(t.Creep.Times(times)), s.Forces.Plus(t.Forces.Times(times))}
}

// Curvatures are those about y and z (1/m, + the way of My and Mz) and the strain
// of the fixed axis.
func Curvatures(p section.Plane) (about, aside, axial float64) {
	return -p.SlopeZ, -p.SlopeY, p.Constant
}

// Slot is the first place in a station of a piece of a body; −1 where it does not
// reach.
func (s *Station) Slot(pieces []int) int {
	for slot := range s.Pieces {
		for _, k := range pieces {
			if s.Pieces[slot].Index == k {
				return slot
			}
		}
	}
	return -1
}

// NodeAt is node n of stretch k.
func (l *Ledger) NodeAt(k, n int) *Station { return l.grid[k].At[n] }

// strainSum is the strain by the first lasting changes at a node: with more of them, those
// before as soft as then, the sum goes on from there, to the last bit.
type strainSum struct {
	elastic, creep []float64 // of these changes
	strain         Strain
}

type strainKey struct{ stretch, node, slot int }

// StrainAfter is StrainAt of a number of the first lasting changes. What is in the Softness
// must not be changed after it.
func (l *Ledger) StrainAfter(by *Softness, number, k, n, slot int) Strain {
	at := l.grid[k].At[n]
	key, piece := strainKey{k, n, slot}, at.Pieces[slot].Index
	known := l.strains[key]
	if m := len(known.elastic); m > number || !slices.Equal(known.elastic, by.Elastic[piece][:m]) || !slices.Equal(known.creep, by.Creep[piece][:m]) {
		known = strainSum{}
	}
	l.addStrain(&known.strain, by, len(known.elastic), number, at, node{k, n}, slot)
	known.elastic, known.creep = by.Elastic[piece][:number], by.Creep[piece][:number]
	if l.strains == nil {
		l.strains = map[strainKey]strainSum{}
	}
	l.strains[key] = known
	return known.strain
}

// addStrain adds the strains of the lasting changes from one on up to another.
func (l *Ledger) addStrain(to *Strain, by *Softness, from, end int, at *Station, n node, slot int) {
	elastic, creep := by.Elastic[at.Pieces[slot].Index], by.Creep[at.Pieces[slot].Index]
	came, slots := l.cameAt(at, end, n), at.slots()
	for e := from; e < end; e++ {
		to.add(elastic[e], creep[e], at, came[e*slots:(e+1)*slots], slot)
	}
}

// add adds the strain of what a change did at a station.
func (s *Strain) add(elastic, creep float64, at *Station, parts []Part, slot int) {
	if elastic == 0 && creep == 0 {
		return
	}
	addFlat(&s.Elastic, &parts[slot].Plane.Plane, elastic)
	if creep != 0 {
		addFlat(&s.Creep, &parts[slot].Plane.Plane, creep)
	}
	s.Forces = s.Forces.Plus(at.forcesIn(parts, slot).Times(elastic + creep))
}

// StrainAt is the strain in a slot of node n of stretch k under the lasting changes
// in the list, in rising order, without the losses.
func (l *Ledger) StrainAt(by *Softness, changes []int, k, n, slot int) (s Strain) {
	if len(changes) == 0 {
		return s
	}
	at := l.grid[k].At[n]
	elastic, creep := by.Elastic[at.Pieces[slot].Index], by.Creep[at.Pieces[slot].Index]
	came, slots := l.cameAt(at, changes[len(changes)-1]+1, node{k, n}), at.slots()
	for _, e := range changes {
		s.add(elastic[e], creep[e], at, came[e*slots:(e+1)*slots], slot)
	}
	return s
}

// LossAt is the strain in a slot of a node by the losses of the tendons that
// counts is true for; nil counts all.
func (l *Ledger) LossAt(by *Softness, k, n, slot int, counts func(tendon int) bool) (s Strain) {
	if by.Situation.Times == nil {
		return s
	}
	at := l.grid[k].At[n]
	elastic, creep := by.LossElastic[at.Pieces[slot].Index], by.LossCreep[at.Pieces[slot].Index]
	totals := l.totalsAt(by.Situation, at, node{k, n})
	for beside := range at.Pieces { // of every piece, on the body in which it acts
		var atOnce, later section.Forces
		for j, i := range at.here {
			t := &at.Tendons[i]
			if t.Slot != beside || elastic[i] == 0 || counts != nil && !counts(i) {
				continue
			}
			f := t.onConcrete(-totals[j] * t.Area)
			atOnce, later = atOnce.Plus(f.Times(elastic[i])), later.Plus(f.Times(creep[i]))
		}
		if atOnce == (section.Forces{}) {
			continue
		}
		concrete := by.Situation.Times[at.Pieces[beside].Index].Concrete
		s = s.Plus(Strain{l.in(slot, at, concrete, atOnce).Plane.Plane, l.in(slot, at, concrete, later).Plane.Plane, section.Forces{}}, 1)
		s.Forces = s.Forces.Plus(l.in(slot, at, concrete, atOnce.Plus(later)).Forces)
	}
	return s
}

// in is what forces on a body do in one of its pieces at a station.
func (l *Ledger) in(slot int, at *Station, body *State, f section.Forces) Part {
	l.beside = slices.Grow(l.beside[:0], at.slots())[:at.slots()]
	clear(l.beside)
	at.spread(l.beside, body, f, 1)
	part := l.beside[slot]
	part.Forces = at.forcesIn(l.beside, slot)
	return part
}
