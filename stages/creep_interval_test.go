package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
)

// pairOfAges is the block with two straight tendons in its middle plane, T stressed at 5
// days and U at 20.
func pairOfAges() (stages.Element, func(last float64) stages.Plan) {
	e := stressedBlock()
	other := e.Tendons[0]
	other.Mark, other.Strands, other.Elevation = "U", 5, tendon.Level(0, 12, 0.55)
	e.Tendons = append(e.Tendons[:1:1], other)
	return e, func(last float64) stages.Plan {
		pull := func(mark string) []tendon.Jacking {
			return []tendon.Jacking{{Tendons: []string{mark}, Stress: 1350e6, Ends: tendon.LeftEnd}}
		}
		return stages.Plan{
			stages.Transfer{Age: 5, Jacking: pull("T"), On: dunnage(0, 12)}, stages.Stress{Age: 20, Jacking: pull("U"), On: dunnage(0, 12)},
			stages.Store{Age: last, On: dunnage(0, 12)},
		}
	}
}

// Each tendon loses by what creeps and shrinks since it was stressed, by the creep of
// each change of stress from its own day on: (5.46) at mid-span in plain arithmetic, with
// the steel that was stressed by then.
func TestEachTendonLosesFromItsOwnDay(t *testing.T) {
	e, plan := pairOfAges()
	const last = 90
	phi := func(at, from float64) float64 {
		v, err := drying.Creep(at, from)
		require.NoError(t, err)
		return v
	}
	shrunk := func(at float64) float64 {
		v, err := drying.Shrinkage(at)
		require.NoError(t, err)
		return v.Total
	}
	var net byHand
	net.rectangle([4]float64{-0.25, 0.25, 0, 0.8})
	net.hole(0.07, 0, 0.25)
	net.hole(0.07, 0, 0.55)
	const areaT, areaU = 1050e-6, 750e-6
	pt, pu := 1350e6*areaT, 1350e6*areaU
	ecm := 22e9 * 1.6010 // (48/10)^0.3
	// Stressing U shortens T by its strain; what T loses stretches the concrete again.
	lossT := -areaT * 195e9 / modulusAt(t, e, 20) * net.stress(-pu, 0, 0.55, 0, 0.25)
	step := func(z float64) float64 { return -net.stress(-pu, 0, 0.55, 0, z) - net.stress(lossT, 0, 0.25, 0, z) } // compression +
	early := func(z float64) float64 { return -net.bent(10e3*144/8, 0, z) - net.stress(-pt, 0, 0.25, 0, z) }

	s := run(t, e, plan(last)).Stages[2].Situations[0]
	for i, c := range []struct{ day, steel, centre, creep float64 }{ // steel that shortens together and its centre
		{5, areaT, 0.25, phi(last, 5)*early(0.25) + phi(last, 20)*step(0.25)},
		{20, areaT + areaU, (areaT*0.25 + areaU*0.55) / (areaT + areaU), (phi(last, 5)-phi(20, 5))*early(0.55) + phi(last, 20)*step(0.55)},
	} {
		arm := c.centre - 0.4
		divisor := 1 + 195e9/ecm*c.steel/0.4*(1+0.4/(0.5*0.512/12)*arm*arm)*(1+0.8*phi(last, c.day))
		got := s.Tendons[i].Losses
		require.InEpsilon(t, 195e9*(shrunk(last)-shrunk(c.day))/divisor, got.Shrinkage, 1e-4, s.Tendons[i].Mark)
		require.InEpsilon(t, 195e9*c.creep/ecm/divisor, got.Creep, 5e-4, s.Tendons[i].Mark)
		relaxation, err := tendon.Class2.Loss(1350e6, 1860e6, last-c.day)
		require.NoError(t, err)
		require.InEpsilon(t, 0.8*relaxation/divisor, got.Relaxation, 1e-4, s.Tendons[i].Mark)
	}
	require.InEpsilon(t, lossT/areaT, s.Tendons[0].Losses.Elastic, 1e-6)
	require.Zero(t, s.Tendons[1].Losses.Elastic)
}

// Losses are those of the day: nothing is lost on the day of stressing, more each day
// later, and at the end of a stage that lasts those of its end.
func TestLossesAreThoseOfTheDay(t *testing.T) {
	e, plan := pairOfAges()
	total := func(s stages.SituationRecord, i int) float64 {
		l := s.Tendons[i].Losses
		return l.Shrinkage + l.Creep + l.Relaxation
	}
	first := run(t, e, plan(20))
	require.Zero(t, total(first.Stages[0].Situations[0], 0), "on the day")
	require.Zero(t, total(first.Stages[1].Situations[0], 1), "on the day")
	require.Positive(t, total(first.Stages[1].Situations[0], 0), "15 days later")
	before := [2]float64{}
	for _, last := range []float64{21, 30, 60, 365, 3650} {
		s := run(t, e, plan(last)).Stages[2].Situations[0]
		for i := range before {
			require.Greater(t, total(s, i), before[i], "day %g", last)
			before[i] = total(s, i)
		}
		long := plan(20)
		long[2] = stages.Store{Age: 20, Until: last, On: dunnage(0, 12)}
		end := run(t, e, long).Stages[2].Situations
		require.Len(t, end, 2)
		for i := range before {
			require.InEpsilon(t, total(s, i), total(end[1], i), 1e-9, "the end of a stage until day %g", last)
			require.Less(t, total(end[0], i), total(end[1], i))
		}
	}
}

// An element cast later is younger on every day: all is as if the clock began with it.
func TestTheClockBeginsWithTheCasting(t *testing.T) {
	e, plan := pairOfAges()
	one := run(t, e, plan(90)).Stages[2].Situations[0]
	e.Cast = 137
	other := run(t, e, plan(90)).Stages[2].Situations[0]
	require.Equal(t, 137.0+90, other.Day)
	for i := range one.Tendons {
		require.InEpsilon(t, one.Tendons[i].Losses.Total(), other.Tendons[i].Losses.Total(), 1e-9)
		require.InEpsilon(t, one.Tendons[i].Middle, other.Tendons[i].Middle, 1e-12)
	}
	for i, c := range one.Checks {
		require.Equal(t, c.State, other.Checks[i].State)
		require.InDelta(t, c.Demand.Value, other.Checks[i].Demand.Value, 1e-6*max(1, c.Demand.Value))
	}
}
