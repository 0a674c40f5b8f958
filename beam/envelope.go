package beam

import (
	"fmt"
	"math"
	"slices"
)

// Cause is the origin of a peak: a static case, or a train with its position.
type Cause struct {
	Case   int     // number of the response in Envelop, from 0; 0 for a train
	Train  string  // name of the train; empty for a static case
	Front  float64 // m, place of the axle in front (it may be off the beam)
	Turned bool    // the train is reversed
}

// Peak is a value with its place and its cause.
type Peak struct {
	Extreme
	Cause
}

// Bounds is the minimum (Least) and maximum (Most) of one effect over all cases and
// positions.
type Bounds struct {
	Least, Most Peak // in the unit of the effect
}

// widen takes in the bounds of other causes. Of values that are equal to
// rounding the first stays.
func (b *Bounds) widen(other Bounds) {
	b.include(other.Least)
	b.include(other.Most)
}

func (b *Bounds) include(p Peak) {
	if p.Value < b.Least.Value-negligible*math.Abs(b.Least.Value) {
		b.Least = p
	}
	if p.Value > b.Most.Value+negligible*math.Abs(b.Most.Value) {
		b.Most = p
	}
}

// Envelope is the largest and smallest effects of static cases, of a train, or
// of several of either.
type Envelope struct {
	Stations  []float64 // m from the left end
	Moment    []Bounds  // N·m at each station, sagging positive; both sides of a jump
	Shear     []Bounds  // N at each station; both sides of a jump
	Reactions []Bounds  // N at each support of the layout, upwards positive

	BeamMoment Bounds // N·m, over the whole beam, not only at the stations
	BeamShear  Bounds // the same for shear, N
}

// Envelop is the envelope of static cases on one beam. The error wraps
// [ErrBeam] for no responses, responses of beams of different length or number
// of supports, and stations off the beam.
func Envelop(stations []float64, responses ...*Response) (Envelope, error) {
	if len(responses) == 0 {
		return Envelope{}, fmt.Errorf("%w: Envelop without a response: must have at least one", ErrBeam)
	}
	var envelope Envelope
	for i, r := range responses {
		if r == nil || r.beam == nil {
			return Envelope{}, fmt.Errorf("%w: response %d was not made by Solve", ErrBeam, i)
		}
		if err := checkStations(stations, r.Length()); err != nil {
			return Envelope{}, err
		}
		one := r.envelope(stations, Cause{Case: i})
		if i == 0 {
			envelope = one
			continue
		}
		if first := responses[0]; first.Length() != r.Length() {
			return Envelope{}, fmt.Errorf("%w: response %d is of a beam of %g m: must be %g m as response 0", ErrBeam, i, r.Length(), first.Length())
		}
		if err := envelope.take(one); err != nil {
			return Envelope{}, err
		}
	}
	return envelope, nil
}

func checkStations(stations []float64, length float64) error {
	for i, x := range stations {
		if !(x >= 0 && x <= length) {
			return fmt.Errorf("%w: station %d at %g m: must be 0 ≤ x ≤ %g m", ErrBeam, i, x, length)
		}
	}
	return nil
}

// envelope is the envelope of one response.
func (r *Response) envelope(stations []float64, cause Cause) Envelope {
	only := func(e Extreme) Bounds { return Bounds{Peak{e, cause}, Peak{e, cause}} }
	over := func(b Range) Bounds { return Bounds{Peak{b.Least, cause}, Peak{b.Most, cause}} }
	e := Envelope{
		Stations: slices.Clone(stations), BeamMoment: over(r.MomentRange()), BeamShear: over(r.ShearRange()),
	}
	for _, x := range stations {
		left, right := r.at(x, LeftOf), r.at(x, RightOf)
		moment, shear := only(Extreme{x, right.moment}), only(Extreme{x, right.shear})
		moment.widen(only(Extreme{x, left.moment}))
		shear.widen(only(Extreme{x, left.shear}))
		e.Moment, e.Shear = append(e.Moment, moment), append(e.Shear, shear)
	}
	for _, reaction := range r.Reactions {
		e.Reactions = append(e.Reactions, only(Extreme{reaction.At, reaction.Force}))
	}
	return e
}

// With is the envelope of both. The error wraps [ErrBeam] when the two are not of the
// same stations and number of supports.
func (e Envelope) With(other Envelope) (Envelope, error) {
	e.Moment, e.Shear, e.Reactions = slices.Clone(e.Moment), slices.Clone(e.Shear), slices.Clone(e.Reactions)
	if err := e.take(other); err != nil {
		return Envelope{}, err
	}
	return e, nil
}

func (e *Envelope) take(other Envelope) error {
	if !slices.Equal(e.Stations, other.Stations) || len(e.Reactions) != len(other.Reactions) {
		return fmt.Errorf("%w: envelopes of %d and %d stations, %d and %d supports: must be the same stations and supports",
			ErrBeam, len(e.Stations), len(other.Stations), len(e.Reactions), len(other.Reactions))
	}
	for i := range e.Moment {
		e.Moment[i].widen(other.Moment[i])
		e.Shear[i].widen(other.Shear[i])
	}
	for i := range e.Reactions {
		e.Reactions[i].widen(other.Reactions[i])
	}
	e.BeamMoment.widen(other.BeamMoment)
	e.BeamShear.widen(other.BeamShear)
	return nil
}
