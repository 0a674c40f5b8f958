package beam_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// train is a random train of one to six axles.
func (s source) train() loads.Train {
	train := loads.Train{Name: "random", Axles: []loads.Axle{{Force: s.in(1e4, 5e5)}}}
	for range s.IntN(6) {
		train.Axles = append(train.Axles, loads.Axle{Force: s.in(1e4, 5e5), Behind: s.in(.5, 12)})
	}
	if s.IntN(2) == 0 {
		train.Dynamic = s.in(1, 1.3)
	}
	return train
}

// still is a random layout whose supports do not settle.
func (s source) still() beam.Layout {
	layout := s.layout()
	for i := range layout.Supports {
		layout.Supports[i].Settlement = 0
	}
	return layout
}

// The response to the train where the envelope says it is worst has the value
// that the envelope gives, and no position of a fine search has a worse one.
func TestCrossingAgainstSearch(t *testing.T) {
	for seed := range uint64(25) {
		s := seeded(seed)
		layout, train := s.still(), s.train()
		if seed%5 == 4 {
			layout = s.tapered(layout)
		}
		b, err := beam.New(layout)
		require.NoError(t, err)
		places := []float64{0, layout.Length, layout.Supports[0].At, s.in(0, layout.Length), s.in(0, layout.Length)}
		e, err := b.Cross(beam.Crossing{Train: train, BothWays: true, Stations: places})
		require.NoError(t, err)
		found := search(t, b, train, places)
		size := max(e.BeamMoment.Most.Value, -e.BeamMoment.Least.Value)
		force := max(e.BeamShear.Most.Value, -e.BeamShear.Least.Value)
		for i := range places {
			compare(t, e.Moment[i], found.Moment[i], size, "moment at %g m, seed %d", places[i], seed)
			compare(t, e.Shear[i], found.Shear[i], force, "shear at %g m, seed %d", places[i], seed)
		}
		for i := range e.Reactions {
			compare(t, e.Reactions[i], found.Reactions[i], force, "reaction %d, seed %d", float64(i), seed)
		}
		compare(t, e.BeamMoment, found.BeamMoment, size, "moment of the beam (%g m), seed %d", layout.Length, seed)
		compare(t, e.BeamShear, found.BeamShear, force, "shear of the beam (%g m), seed %d", layout.Length, seed)
	}
}

// searchSteps is the number of positions of the search over the way.
const searchSteps = 1500

// search is the envelope over equal steps of the train, the unloaded beam
// included, and with each axle on each end of the beam: an effect just beside a
// free end is there for that one position only.
func search(t *testing.T, b *beam.Beam, train loads.Train, places []float64) beam.Envelope {
	t.Helper()
	still, err := b.Solve(loads.Set{})
	require.NoError(t, err)
	envelope, err := beam.Envelop(places, still)
	require.NoError(t, err)
	way := b.Length() + train.Length()
	for _, turned := range []loads.Train{train, train.Turned()} {
		fronts := []float64{}
		for i := range searchSteps + 1 {
			fronts = append(fronts, way*float64(i)/searchSteps)
		}
		behind := 0.0
		for _, axle := range turned.Axles {
			behind += axle.Behind
			fronts = append(fronts, behind, b.Length()+behind)
		}
		for _, front := range fronts {
			r, err := b.Solve(turned.On(b.Length(), front))
			require.NoError(t, err)
			one, err := beam.Envelop(places, r)
			require.NoError(t, err)
			envelope, err = envelope.With(one)
			require.NoError(t, err)
		}
	}
	return envelope
}

// compare requires exact bounds to hold what the search found, and not to
// exceed it by more than a step of the search allows (effects change by about
// their size over a span of the way).
func compare(t *testing.T, exact, found beam.Bounds, size float64, message string, place float64, seed uint64) {
	t.Helper()
	require.GreaterOrEqual(t, exact.Most.Value, found.Most.Value-1e-9*size, message, place, seed)
	require.LessOrEqual(t, exact.Least.Value, found.Least.Value+1e-9*size, message, place, seed)
	step := 60 * size / searchSteps
	require.InDelta(t, exact.Most.Value, found.Most.Value, step, message, place, seed)
	require.InDelta(t, exact.Least.Value, found.Least.Value, step, message, place, seed)
}

// The position that the envelope names gives the value that it names.
func TestCrossingNamesThePosition(t *testing.T) {
	for seed := range uint64(30) {
		s := seeded(seed)
		layout, train := s.still(), s.train()
		b, err := beam.New(layout)
		require.NoError(t, err)
		x := s.in(0, layout.Length)
		e, err := b.Cross(beam.Crossing{Train: train, BothWays: true, Stations: []float64{x}})
		require.NoError(t, err)
		at := func(p beam.Peak) *beam.Response {
			rolling := train
			if p.Turned {
				rolling = train.Turned()
			}
			r, err := b.Solve(rolling.On(layout.Length, p.Front))
			require.NoError(t, err)
			return r
		}
		size := max(e.BeamMoment.Most.Value, -e.BeamMoment.Least.Value)
		for _, p := range []beam.Peak{e.Moment[0].Most, e.Moment[0].Least, e.BeamMoment.Most} {
			require.Equal(t, "random", p.Train)
			r := at(p)
			nearest := math.Inf(1)
			for _, side := range []beam.Side{beam.LeftOf, beam.RightOf} {
				nearest = min(nearest, math.Abs(r.At(p.At, side).Moment-p.Value))
			}
			require.LessOrEqual(t, nearest, 1e-9*size, "seed %d at %g m", seed, p.At)
		}
	}
}

func TestCrossingOfTenEqualSpansFollowsTheInfluenceLine(t *testing.T) {
	layout, _ := equalSpans(10)
	b, err := beam.New(layout)
	require.NoError(t, err)
	single := loads.Train{Axles: []loads.Axle{{Force: 1}}}
	e, err := b.Cross(beam.Crossing{Train: single, Stations: []float64{100, 150}})
	require.NoError(t, err)
	for i, x := range e.Stations {
		line, err := b.MomentInfluence(x, beam.RightOf)
		require.NoError(t, err)
		require.InDelta(t, line.Range().Most.Value, e.Moment[i].Most.Value, 1e-11)
		require.InDelta(t, line.Range().Least.Value, e.Moment[i].Least.Value, 1e-11)
	}
}

func TestCrossingsThatAreRefused(t *testing.T) {
	train := loads.Train{Axles: []loads.Axle{{Force: 1}}}
	b, err := beam.New(plain(10, beam.Support{At: 0}, beam.Support{At: 10}))
	require.NoError(t, err)
	_, err = b.Cross(beam.Crossing{})
	require.ErrorIs(t, err, loads.ErrLoad)
	_, err = b.Cross(beam.Crossing{Train: train, Stations: []float64{11}})
	require.ErrorContains(t, err, "station 0 at 11 m")
	_, err = b.Cross(beam.Crossing{Train: loads.Train{Axles: []loads.Axle{{Force: 1e308}, {Force: 1e308, Behind: 1}}}})
	require.ErrorIs(t, err, beam.ErrBeam)
	lifting, err := beam.New(plain(10, beam.Support{At: 0}, beam.Support{At: 5, Contact: true}, beam.Support{At: 10}))
	require.NoError(t, err)
	_, err = lifting.Cross(beam.Crossing{Train: train})
	require.ErrorContains(t, err, "can lift off")
	var nothing *beam.Beam
	_, err = nothing.Cross(beam.Crossing{Train: train})
	require.ErrorIs(t, err, beam.ErrBeam)
}

func TestEnvelopesOfStaticCases(t *testing.T) {
	layout := plain(20, beam.Support{At: 0}, beam.Support{At: 20})
	one := solved(t, layout, loads.Set{Points: []loads.Point{{At: 5, Force: 1e3}}})
	two := solved(t, layout, loads.Set{Points: []loads.Point{{At: 15, Force: -2e3}}})
	e, err := beam.Envelop([]float64{5}, one, two)
	require.NoError(t, err)
	require.InDelta(t, 3750, e.BeamMoment.Most.Value, 1e-9)
	require.Equal(t, 0, e.BeamMoment.Most.Case)
	require.InDelta(t, -7500, e.BeamMoment.Least.Value, 1e-9)
	require.Equal(t, 1, e.BeamMoment.Least.Case)
	require.InDelta(t, 750, e.Shear[0].Most.Value, 1e-9, "just left of the force")
	require.InDelta(t, -500, e.Shear[0].Least.Value, 1e-9)
	require.InDelta(t, -1500, e.Reactions[1].Least.Value, 1e-9)
	_, err = beam.Envelop(nil)
	require.ErrorIs(t, err, beam.ErrBeam)
	_, err = beam.Envelop(nil, one, nil)
	require.ErrorIs(t, err, beam.ErrBeam)
	_, err = beam.Envelop([]float64{math.NaN()}, one)
	require.ErrorIs(t, err, beam.ErrBeam)
	other := solved(t, plain(21, beam.Support{At: 0}, beam.Support{At: 20}), loads.Set{})
	_, err = beam.Envelop(nil, one, other)
	require.ErrorContains(t, err, "must be 20 m")
	_, err = e.With(beam.Envelope{})
	require.ErrorIs(t, err, beam.ErrBeam)
}
