package ledger

import (
	"github.com/tempstage/tempstage/loads/tendon"
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

// StrainAt is the strain in a slot of node n of stretch k under the lasting changes
// in the list, without the losses.
func (l *Ledger) StrainAt(by *Softness, changes []int, k, n, slot int) (s Strain) {
	at := l.grid[k].At[n]
	elastic, creep := by.Elastic[at.Pieces[slot].Index], by.Creep[at.Pieces[slot].Index]
	for _, e := range changes {
		if elastic[e] == 0 && creep[e] == 0 {
			continue
		}
		part := l.cameAt(e, k, n, slot)
		s.Elastic = s.Elastic.Plus(part.Plane.Plane.Times(elastic[e]))
		s.Creep = s.Creep.Plus(part.Plane.Plane.Times(creep[e]))
		s.Forces = s.Forces.Plus(part.Forces.Times(elastic[e] + creep[e]))
	}
	return s
}

// LossAt is the strain in a slot of a node by the losses of the tendons that
// counts is true for.
func (l *Ledger) LossAt(by *Softness, k, n, slot int, counts func(tendon int) bool) (s Strain) {
	if by.Situation.Times == nil {
		return s
	}
	at := l.grid[k].At[n]
	piece := at.Pieces[slot].Index
	var losses []tendon.Losses
	for i := range at.Tendons {
		elastic, creep := by.LossElastic[piece][i], by.LossCreep[piece][i]
		t := &at.Tendons[i]
		if !t.Here || elastic == 0 || !counts(i) {
			continue
		}
		if losses == nil {
			losses = l.lostAt(by.Situation, k, n)
		}
		total := losses[i].Total()
		if total == 0 {
			continue
		}
		part := make([]Part, len(at.Pieces))
		time := by.Situation.Times[at.Pieces[t.Slot].Index]
		at.spread(part, time.Concrete, t.onConcrete(-total*t.Area), 1)
		s.Elastic = s.Elastic.Plus(part[slot].Plane.Plane.Times(elastic))
		s.Creep = s.Creep.Plus(part[slot].Plane.Plane.Times(creep))
		s.Forces = s.Forces.Plus(part[slot].Forces.Times(elastic + creep))
	}
	return s
}

// lostAt are the losses of all tendons at a node, kept for the next question.
func (l *Ledger) lostAt(s *Situation, k, n int) []tendon.Losses {
	if s.lost == nil {
		s.lost = make([][][]tendon.Losses, len(l.grid))
	}
	if s.lost[k] == nil {
		s.lost[k] = make([][]tendon.Losses, Nodes)
	}
	if s.lost[k][n] == nil {
		s.lost[k][n] = make([]tendon.Losses, len(l.Girder.Tendons))
		l.losses(s, l.grid[k].At[n], node{k, n}, s.lost[k][n])
	}
	return s.lost[k][n]
}

// cameAt is what lasting change e did in a slot of a node, kept for the next day
// that asks.
func (l *Ledger) cameAt(e, k, n, slot int) *Part {
	for len(l.bent) <= e {
		l.bent = append(l.bent, nil)
	}
	if l.bent[e] == nil {
		l.bent[e] = make([][]Part, len(l.grid))
	}
	p := &l.grid[k]
	slots := len(p.At[0].Pieces) // the same at every node: pieces end at ends of stretches
	if l.bent[e][k] == nil {
		l.bent[e][k] = make([]Part, Nodes*slots)
		for j, at := range p.At {
			to := l.bent[e][k][j*slots : (j+1)*slots]
			l.came(e, at, node{k, j}, func(slot int, part *Part, factor float64) { to[slot].add(part, factor) })
		}
	}
	return &l.bent[e][k][n*slots+slot]
}
