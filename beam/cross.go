package beam

import (
	"fmt"
	"slices"

	"github.com/tempstage/tempstage/loads"
)

// Crossing is a train that rolls over a beam from end to end, entering and leaving it.
type Crossing struct {
	Train    loads.Train // what rolls
	BothWays bool        // also reversed
	Stations []float64   // m, places of moment and shear
}

// Cross is the exact envelope of a crossing: at every station and over the whole beam
// the largest and smallest moment and shear, and the reaction of every support, each
// with the position of the train. The unloaded beam is included.
//
// Every axle is set on every kink and on both sides of every jump of the
// influence lines, and between these the stationary points of the sum are its
// roots. Over the whole beam the largest moment is under an axle or at a
// support, because the moment is straight between them; the smallest moment
// and both extremes of the shear are at supports, hinges or ends.
//
// The error wraps [loads.ErrLoad] for a train that cannot roll and [ErrBeam]
// for a station off the beam, for a beam with contact supports, where effects do
// not add up, and for one with elastic supports at or beside another support.
func (b *Beam) Cross(c Crossing) (Envelope, error) {
	if err := b.superposable(0); err != nil {
		return Envelope{}, err
	}
	if i := b.beside.supports; len(i) > 0 { // inside a member the search knows no support
		return Envelope{}, fmt.Errorf("%w: Supports[%d] at %g m is beside another: supports must be further apart for a crossing, or be one of their sum",
			ErrBeam, i[0], b.layout.Supports[i[0]].At)
	}
	if err := c.Train.Rolls(); err != nil {
		return Envelope{}, err
	}
	if err := checkStations(c.Stations, b.layout.Length); err != nil {
		return Envelope{}, err
	}
	passages := []*passage{b.passage(c.Train, false)}
	if c.BothWays {
		passages = append(passages, b.passage(c.Train.Turned(), true))
	}
	e := Envelope{Stations: slices.Clone(c.Stations)}
	for _, x := range c.Stations {
		moment, shear, err := b.crossStation(passages, x)
		if err != nil {
			return Envelope{}, err
		}
		e.Moment, e.Shear = append(e.Moment, moment), append(e.Shear, shear)
	}
	for i := range b.layout.Supports {
		line, err := b.ReactionInfluence(i)
		if err != nil {
			return Envelope{}, err
		}
		e.Reactions = append(e.Reactions, sweepAll(passages, line, b.layout.Supports[i].At))
	}
	if err := b.crossBeam(passages, &e); err != nil {
		return Envelope{}, err
	}
	return e, e.check()
}

// check is an error for an envelope beyond float64.
func (e Envelope) check() error {
	all := slices.Concat(e.Moment, e.Shear, e.Reactions, []Bounds{e.BeamMoment, e.BeamShear})
	for _, b := range all {
		if !finite(b.Least.Value) || !finite(b.Most.Value) {
			return fmt.Errorf("%w: an effect of the train is %g to %g: must be axle forces whose effects are finite", ErrBeam, b.Least.Value, b.Most.Value)
		}
	}
	return nil
}

// crossStation is the bounds of moment and shear at one place. At a node both
// sides count; elsewhere the sweep looks at both sides of the jump.
func (b *Beam) crossStation(passages []*passage, x float64) (moment, shear Bounds, err error) {
	sides := []Side{RightOf}
	if _, ok := b.at(x); ok {
		sides = []Side{RightOf, LeftOf}
	}
	for i, side := range sides {
		m, err := b.MomentInfluence(x, side)
		if err != nil {
			return Bounds{}, Bounds{}, err
		}
		v, err := b.ShearInfluence(x, side)
		if err != nil {
			return Bounds{}, Bounds{}, err
		}
		if i == 0 {
			moment, shear = sweepAll(passages, m, x), sweepAll(passages, v, x)
			continue
		}
		moment.widen(sweepAll(passages, m, x))
		shear.widen(sweepAll(passages, v, x))
	}
	return moment, shear, nil
}

func sweepAll(passages []*passage, line *Influence, at float64) Bounds {
	laws := line.laws()
	bounds := passages[0].sweep(laws, at)
	for _, p := range passages[1:] {
		bounds.widen(p.sweep(laws, at))
	}
	return bounds
}

// crossBeam sets the bounds over the whole beam.
func (b *Beam) crossBeam(passages []*passage, e *Envelope) error {
	off := Peak{Cause: passages[0].cause}
	off.Front = passages[0].arrivals[0].order
	e.BeamMoment, e.BeamShear = Bounds{off, off}, Bounds{off, off}
	ends := make([]memberEnds, len(b.members))
	for i := range b.members {
		for side, x := range []float64{b.members[i].from, b.members[i].to} {
			m, err := b.MomentInfluence(x, Side(side))
			if err != nil {
				return err
			}
			v, err := b.ShearInfluence(x, Side(side))
			if err != nil {
				return err
			}
			ends[i][side] = m.laws()
			e.BeamShear.widen(sweepAll(passages, v, x))
			e.BeamMoment.widen(sweepAll(passages, m, x))
		}
	}
	for _, p := range passages {
		p.follow(ends, &e.BeamMoment)
	}
	return nil
}
