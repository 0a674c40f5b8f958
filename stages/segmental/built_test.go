package segmental

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// The table has, of each move, the joint with the smallest margin of its record, and of a
// joint that is closed the smaller pressure with and without the hoist.
func TestWhatGovernsAfterEachMove(t *testing.T) {
	d, on, steps := stood(t, 2)
	b, err := d.Build(on, limits.EN1992{}, steps...)
	require.NoError(t, err)
	n, closed := 0, 0
	for i, stage := range b.Record.Stages {
		for k, s := range stage.Situations {
			of := b.Moves[n]
			n++
			least := math.Inf(1)
			for _, j := range s.Joints {
				least = math.Min(least, j.Margin())
			}
			require.InDelta(t, least, of.Limit-of.Tension, 1, of.Name)
			if of.Epoxied == "" {
				continue
			}
			closed++
			e, err := b.Analysis.Effects(i+1, k+1)
			require.NoError(t, err)
			with := e
			with.Stress = func(x float64) section.Plane { return e.StressWith(x, hoistMark(steps[i].Moves[k].Segments[0])) }
			var minima [2]float64
			for v, effects := range []stages.Effects{e, with} {
				checks, err := d.Epoxy.Checks(effects, b.Girder, of.Epoxied)
				require.NoError(t, err)
				minima[v] = checks[1].Demand.Value
			}
			require.NotEqual(t, minima[0], minima[1], "the hoist takes the weight off the joint")
			require.Equal(t, math.Min(minima[0], minima[1]), of.EpoxyMinimum)
		}
	}
	require.Equal(t, 4, closed)
}

// Working load presses, wind below an arm lifts, each on its own arm from the tip to the
// pier: in the engine and in the balance of the pier.
func TestLoadsOfTheArms(t *testing.T) {
	d, on, _ := stood(t, 2)
	d.Loads.Uplift = 300
	s := d.begin(on)
	for i := range s.carried { // the left arm with one segment, the right one with both
		s.carried[i] = i > 0
		s.joined[i] = i > 1
	}
	p := d.Piers[0]
	force := map[string]float64{}
	for _, a := range s.working() {
		force[a.Mark] = a.Loads.Total()
		require.Zero(t, a.Least, "present or absent")
	}
	require.InDeltaMapValues(t, map[string]float64{
		"working load on left arm of P1": 480 * 10 * 5, "working load on right arm of P1": 480 * 10 * 8,
		"uplift of wind below left arm of P1": -300 * 10 * 5, "uplift of wind below right arm of P1": -300 * 10 * 8,
	}, force, 1e-6)
	b, err := s.balance(p, Move{Do: Wait})
	require.NoError(t, err)
	require.Equal(t, "R2", b.Unbalanced)
	for _, part := range b.Parts {
		switch part.Kind {
		case limits.Personnel:
			require.Equal(t, [2]float64{0.5, 1}, [2]float64{part.Least, part.Most})
			require.InDelta(t, 480*10*2*math.Abs(part.Lever), part.Force, 1e-6, part.Mark)
		case limits.Wind:
			require.InDelta(t, -300*10*2*math.Abs(part.Lever), part.Force, 1e-6, part.Mark)
		}
		if part.Kind == limits.Personnel || part.Kind == limits.Wind {
			require.InDelta(t, map[Arm]float64{Left: -2.5, Right: 4}[part.Arm], part.Lever, 1e-9)
		}
	}
	// A curve to the left has the outer segments to the left of the axis at the pier.
	s.deck.Radius = 400
	b, err = s.balance(p, Move{Do: Wait})
	require.NoError(t, err)
	for _, part := range b.Parts {
		require.InDelta(t, part.Lever*part.Lever/800, part.Across, 1e-9, part.Mark)
	}
}
