package beam

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

const (
	// workless is the part of the product of loads and movement below which
	// the loads do no work on a freedom: a millionth of a millimetre of lever
	// on a metre.
	workless = 1e-9
	// pulls is the part of the largest force below which a OneWay support does
	// not pull: rounding of equilibrium, 1e-13, with reserve.
	pulls = 1e-11
)

// Solve is the response to loads with the supports set as stated. Nothing is factorised
// again. The error wraps [ErrBeam]: loads that do work on a freedom (relative to their
// sizes and levers more than 1e-9), named with the motion; a OneWay support that would
// have to pull; and, together with [loads.ErrLoad], loads out of range. With OneWay
// supports the responses to two sets do not add up: solve for all that acts together.
func (s *Space) Solve(l SpaceLoads, g Setting) (*SpaceResponse, error) {
	if s == nil || len(s.grid) == 0 {
		return nil, fmt.Errorf("%w: the Space was not made by NewSpace", ErrBeam)
	}
	if err := l.check(s.layout.Length); err != nil {
		return nil, err
	}
	if err := g.check(s.layout.Supports); err != nil {
		return nil, err
	}
	r := &SpaceResponse{space: s, cuts: s.cut(&l, g.Preload)}
	total := s.total(r.cuts)
	if err := s.atRest(&total, &l, g.Preload); err != nil {
		return nil, err
	}
	forces := make([]float64, len(s.columns))
	s.balance(forces, total)
	s.support(r.cuts, forces)
	if len(l.Strains) > 0 {
		r.strains = slices.Clone(l.Strains)
	}
	if err := r.finish(forces, &g); err != nil {
		return nil, err
	}
	return r, nil
}

// finish finds the redundant forces and the contact and keeps what results.
func (r *SpaceResponse) finish(forces []float64, g *Setting) error {
	s := r.space
	if size := r.cuts.size(); !(size < largestField) {
		return fmt.Errorf("%w: internal forces sum up to %g: must stay below %g in SI units", ErrBeam, size, largestField)
	}
	r.set = s.setting(g)
	if s.Redundant() == 0 {
		if err := s.pushes(forces); err != nil {
			return err
		}
		r.forces = forces
		r.give(g.Preload)
		if len(r.strains) > 0 {
			w := r.walk()
			return finiteMotions(w.along())
		}
		return nil
	}
	w := r.walk()
	at := w.along()
	if err := finiteMotions(at); err != nil {
		return err
	}
	misfit := s.misfits(r.set, forces, r.cuts.places, at)
	found := append([]float64(nil), forces...)
	s.relieve(found, s.stress.closed, misfit)
	if s.stress.opposed || s.pulled(found) >= 0 {
		var err error
		if found, r.openings, err = s.touch(forces, misfit); err != nil {
			return err
		}
	}
	if force := largestOf(found); !(force < largestField) {
		return fmt.Errorf("%w: supports receive %g N: must have Levels and stiffnesses whose forces stay below %g in SI units", ErrBeam, force, largestField)
	}
	for j := range forces {
		forces[j] = found[j] - forces[j]
	}
	s.support(r.cuts, forces)
	r.forces = found
	r.give(g.Preload)
	return nil
}

// largestField bounds the numbers of a response.
const largestField = 1e100

// setting is the level of each column above the place where it would be
// without force: its Level and what a preload has already shortened.
func (s *Space) setting(g *Setting) []float64 {
	if g.Level == nil && g.Preload == nil {
		return nil
	}
	set := make([]float64, len(s.columns))
	if g.Preload != nil {
		s.bend(func(m int) float64 { return g.Preload[m] }, set)
	}
	for j := range s.columns {
		c := &s.columns[j]
		for _, m := range c.members {
			if g.Level != nil {
				set[j] += g.Level[m] * c.scale
			}
			if k := s.layout.Supports[m].Stiffness; g.Preload != nil && k > 0 {
				set[j] += g.Preload[m] / k * c.scale
			}
		}
	}
	return set
}

// misfits is what each column lacks to follow the member: its level, less what
// its own force shortens it and less where the member is.
func (s *Space) misfits(set, forces, places []float64, at []motion) []float64 {
	out := make([]float64, len(s.columns))
	s.moved(places, at, out)
	s.yield(forces, out)
	for j := range out {
		out[j] = -out[j]
		if set != nil {
			out[j] += set[j]
		}
	}
	return out
}

// pulled is the OneWay column that pulls most, or −1; what is rounding of zero
// becomes zero.
func (s *Space) pulled(forces []float64) int {
	worst, least := -1, -pulls*largestOf(forces)
	for j := range forces {
		if !s.columns[j].oneWay || forces[j] >= 0 {
			continue
		}
		if forces[j] < least {
			worst, least = j, forces[j]
		}
	}
	return worst
}

// pushes refuses a determinate arrangement in which a OneWay support pulls.
func (s *Space) pushes(forces []float64) error {
	j := s.pulled(forces)
	if j < 0 {
		return nil
	}
	m := s.columns[j].members[0]
	r := &s.layout.Supports[m]
	return fmt.Errorf("%w: Supports[%d] %s would pull %.4g %s: must not be negative on a OneWay support",
		ErrBeam, m, r.place(), -forces[j]*s.columns[j].scale, r.unit())
}

// atRest is an error for loads that do work on a motion without a restraint.
func (s *Space) atRest(total *vector6, l *SpaceLoads, kept []float64) error {
	if len(s.unheld) == 0 {
		return nil
	}
	size := s.sizeOf(l, kept)
	for i := range s.unheld {
		motion := &s.unheld[i]
		if work := total.dot(motion); math.Abs(work) > workless*size*math.Sqrt(motion.dot(motion)) {
			f := s.free[i]
			unit := "N"
			if f.Rotation != (r3.Vec{}) {
				work, unit = work*s.size, "N·m"
			}
			return fmt.Errorf("%w: mechanism: the member would %s, by %.4g %s: must be restrained against it", ErrBeam, f, math.Abs(work), unit)
		}
	}
	return nil
}

// sizeOf is the sum of the sizes of all loads and of their moments over the
// length (N).
func (s *Space) sizeOf(l *SpaceLoads, kept []float64) float64 {
	size := 0.0
	take := func(force, couple r3.Vec, y, z float64) {
		size += r3.Norm(force)*(1+(math.Abs(y)+math.Abs(z))/s.size) + r3.Norm(couple)/s.size
	}
	for i := range l.Points {
		p := &l.Points[i]
		take(p.Force, p.Couple, p.Y, p.Z)
	}
	for i := range l.Lines {
		p := &l.Lines[i]
		h := p.To - p.From
		size += bound(p.Intensity, h) + (bound(p.FirstMomentY, h)+bound(p.FirstMomentZ, h))/s.size
	}
	for i, force := range kept {
		if r := &s.layout.Supports[i]; r.Kept {
			if r.Couple {
				take(r3.Vec{}, r3.Scale(force, r.Direction), 0, 0)
			} else {
				take(r3.Scale(force, r.Direction), r3.Vec{}, r.Y, r.Z)
			}
		}
	}
	return size
}

// bound is the sum of the sizes of the terms of ∫ over a length h.
func bound(terms []float64, h float64) float64 {
	sum, power := 0.0, h
	for k, v := range terms {
		sum += math.Abs(v) * power / float64(k+1)
		power *= h
	}
	return sum
}
