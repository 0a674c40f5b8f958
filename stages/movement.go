package stages

import (
	"errors"
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// creepBand is the uncertainty of creep, as a fraction. Common
// practice, no source; tests of the mix narrow it.
const creepBand = 0.30

// Movement is the movement of one body of a girder in a standing situation since it was
// cast straight. The curvature of every lasting change of stress, elastic with the
// modulus at its date and with creep since then, is integrated twice: φ for a change
// that came at once, 0.8·φ for one that grew (losses of tendons by creep, shrinkage and
// relaxation; redistribution).
//
// It is referred to the supports of the situation: zero at the lines of supports, of
// more than two at the first and the last; the mean of linked supports is zero; a
// cantilever is zero and level at its fixed support. Deflection and bow are those of the
// line of shear centres. Neglected: levels and compression of the supports, shear
// deformation, curvature by shrinkage about bonded steel off the centroid, cracking,
// twist, loads that do not stay (a Train, an Action without Stays).
// Where a support has lifted off, movements are an error.
type Movement struct {
	Pieces   []string // marks of the elements of the body
	From, To float64  // m, its ends
	Creep    bool     // with creep and shrinkage; false where no element has a LongTerm model

	up, aside [2]*referred // elastic and crept part
	along     *ledger.Bent // its curvature is the axial strain
	at        []place      // of Moves
	stretches []float64    // ends and middles of the stretches, m
	datum     []float64    // of Datum
}

// Move is the movement of a body at one x.
type Move struct {
	X           float64 // m
	Place       string  // an end, a support, a joint, mid-span, the highest or lowest place, the largest bow
	Deflection  float64 // m, + upwards: camber; − sag
	Least, Most float64 // m, minimum and maximum of the deflection, with creep 30 % less or more
	Bow         float64 // m, + to the left looking along +x
	Along       float64 // m, movement along x of the axis y = z = 0 since casting, from the left end of the body; − where it has shortened
}

// At is the movement at x (m), between the ends of the body.
func (m *Movement) At(x float64) Move {
	x = math.Max(m.From, math.Min(m.To, x))
	elastic, _ := m.up[0].at(x)
	crept, _ := m.up[1].at(x)
	asideElastic, _ := m.aside[0].at(x)
	asideCrept, _ := m.aside[1].at(x)
	_, along := m.along.At(x)
	low, high := elastic+(1-creepBand)*crept, elastic+(1+creepBand)*crept
	return Move{
		X: x, Deflection: elastic + crept, Least: math.Min(low, high), Most: math.Max(low, high), Bow: asideElastic + asideCrept, Along: along,
	}
}

// Slopes are the slopes of deflection and bow at x (rad), those right of a joint.
func (m *Movement) Slopes(x float64) (up, aside float64) {
	for i := range m.up {
		_, u := m.up[i].at(x)
		_, a := m.aside[i].at(x)
		up, aside = up+u, aside+a
	}
	return up, aside
}

// Moves are the movements at the ends, supports, joints and mid-spans and where
// they are largest, from left to right.
func (m *Movement) Moves() []Move {
	list := make([]Move, len(m.at))
	for i, p := range m.at {
		list[i] = m.At(p.x)
		list[i].Place = p.name
	}
	return list
}

// movements are the movements of every body of a standing situation; none of
// another.
func (r *run) movements(s *situation) ([]*Movement, error) {
	if !s.Standing {
		return nil, nil
	}
	if known := r.motion.moved[s]; known != nil {
		return known, nil
	}
	if err := r.liftsOff(s); err != nil {
		return nil, err
	}
	var list []*Movement
	for i, b := range s.bodies {
		m, err := r.movement(b, s.acts[i], s, r.motion.after[s.index], s.steps)
		if err != nil {
			return nil, err
		}
		m.places(r, b, s.acts[i])
		list = append(list, m)
	}
	r.motion.moved[s] = list
	return list, nil
}

// errLiftsOff is the error of movements that cannot be followed.
var errLiftsOff = errors.New("a support lifts off, so that movements cannot be followed: must be supports that stay in contact")

// liftsOff reports the first standing situation so far in which a support lifts off
// under nominal forces.
func (r *run) liftsOff(s *situation) error {
	for _, of := range r.situations[:s.index+1] {
		if !of.Standing {
			continue
		}
		switch in, err := r.inContact(of.cases[0]); {
		case err != nil:
			return err
		case in != of.cases[0].ledger:
			if as, err := r.asSuperposed(of.cases[0]); err != nil {
				return err
			} else if as {
				continue
			}
			return fmt.Errorf("%w: in %s at age %g d %w", ErrStage, of.Name, of.Age, errLiftsOff)
		}
	}
	return nil
}

// movement is that of a body on an arrangement under the first lasting changes, on
// the day of a situation.
func (r *run) movement(b *body, a *arrangement, s *situation, number, steps int) (*Movement, error) {
	by, err := r.softness(s, number, steps)
	if err != nil {
		return nil, err
	}
	kinks, err := r.kinksOf(b)
	if err != nil {
		return nil, err
	}
	shrunk, err := r.shrunk(s)
	if err != nil {
		return nil, err
	}
	m := &Movement{From: b.from, To: b.to, Creep: r.longTerm(), along: &ledger.Bent{}}
	for _, k := range b.pieces {
		m.Pieces = append(m.Pieces, r.girder.Pieces[k].Element.Mark)
	}
	for i := range m.up {
		m.up[i], m.aside[i] = &referred{line: &ledger.Bent{}}, &referred{line: &ledger.Bent{}}
	}
	for k := range r.ledger.Grid() {
		p := &r.ledger.Grid()[k]
		slot := p.At[0].Slot(b.pieces)
		if p.From < b.from || p.To > b.to || slot < 0 {
			continue
		}
		var curvature [5]ledger.Curve // up and aside, elastic and crept; axial
		for n := range p.At {
			e := r.ledger.StrainAfter(by, number, k, n, slot).Plus(r.ledger.LossAt(by, k, n, slot, nil), 1)
			var axial [2]float64
			curvature[0][n], curvature[2][n], axial[0] = ledger.Curvatures(e.Elastic)
			curvature[1][n], curvature[3][n], axial[1] = ledger.Curvatures(e.Creep)
			curvature[4][n] = axial[0] + axial[1] - shrunk[p.At[0].Pieces[slot].Index]
		}
		m.along.Add(p.From, p.To, &curvature[4])
		for i, line := range []*ledger.Bent{m.up[0].line, m.up[1].line, m.aside[0].line, m.aside[1].line} {
			line.Add(p.From, p.To, &curvature[i])
			for _, j := range kinks {
				if math.Abs(j.x-p.From) < r.girder.near() {
					line.Break(j.of[i])
				}
			}
		}
		m.stretches = append(m.stretches, p.From, p.Middle(), p.To)
	}
	m.refer(a)
	return m, nil
}

// shrunk is the free shrinkage of every piece by the day of a situation.
func (r *run) shrunk(s *situation) ([]float64, error) {
	list := make([]float64, len(r.girder.Pieces))
	for k, p := range r.girder.Pieces {
		age := s.day - p.Element.Cast
		slow := r.mixes[k].slow
		if slow == nil || age <= 0 {
			continue
		}
		var free concrete.Shrinkage
		var err error
		if free, err = slow.Shrinkage(age); err != nil {
			return nil, err
		}
		list[k] = free.Total
	}
	return list, nil
}
