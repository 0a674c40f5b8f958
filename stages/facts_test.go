package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// A situation holds the weight that is carried, the factor on it and the total at
// rest, each element with its own tolerance: 9 m at ± 2 % and 6 m at ± 5 %.
func TestTotalOfUnlikeTolerances(t *testing.T) {
	one, two := block(), block()
	one.Mark, two.Mark = "P", "Q"
	one.Length, two.Length = 9, 6
	one.Bars, two.Bars = nil, nil
	one.WeightTolerance, two.WeightTolerance = loads.PlusMinus(0.02), loads.PlusMinus(0.05)
	g := stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Monolithic, one, two)}
	g.Pieces[1].WeightGroup = "Q"
	record, err := stages.Plan{stages.Store{Age: 28, On: []stages.Support{{X: 1, Y: -0.2}, {X: 1, Y: 0.2}, {X: 13, Y: 0}}}}.Run(g, limits.EN1992{})
	require.NoError(t, err)
	s := record.Stages[0].Situations[0]
	p, err := one.CentreOfGravity()
	require.NoError(t, err)
	q, err := two.CentreOfGravity()
	require.NoError(t, err)
	require.InEpsilon(t, p.Weight+q.Weight, s.Mass.Weight, 1e-12)
	require.InEpsilon(t, (p.Weight*4.5+q.Weight*12)/(p.Weight+q.Weight), s.Mass.X, 1e-12)
	least, most := 0.98*p.Weight+0.95*q.Weight, 1.02*p.Weight+1.05*q.Weight
	require.InEpsilon(t, least, s.Total.Least, 1e-9)
	require.InEpsilon(t, most, s.Total.Most, 1e-9)
	require.InEpsilon(t, least/s.Mass.Weight, s.Weight.Least, 1e-12)
	require.InEpsilon(t, most/s.Mass.Weight, s.Weight.Most, 1e-12)
}

// The total of two elements that stand apart is that of both; one that is added later
// is not in it before.
func TestTotalOfTwoBodies(t *testing.T) {
	g, plan := segmented(t)
	record, err := plan.Run(g, limits.EN1992{})
	require.NoError(t, err)
	weight := 0.0
	for _, s := range []stages.SituationRecord{record.Stages[0].Situations[0], record.Stages[1].Situations[0]} {
		sum := 0.0
		for _, r := range s.Reactions {
			sum += r.Nominal
		}
		require.InEpsilon(t, s.Mass.Weight, sum, 1e-9)
		require.InEpsilon(t, 0.98*sum, s.Total.Least, 1e-9)
		require.InEpsilon(t, 1.02*sum, s.Total.Most, 1e-9)
		require.Greater(t, s.Mass.Weight, weight)
		weight = s.Mass.Weight
	}
}

// An action says in which range it is present, once; a train that it rolls.
func TestLoadsSayWhenTheyArePresent(t *testing.T) {
	e := block()
	point := func(force float64) loads.Set { return loads.Set{Points: []loads.Point{{At: 5, Force: force}}} }
	train := loads.Train{Name: "bogie", Axles: []loads.Axle{{Force: 20e3}, {Force: 30e3, Behind: 1.5}}}
	on := []stages.Support{{X: 1, Y: -0.2}, {X: 1, Y: 0.2}, {X: e.Length - 1, Y: -0.2}, {X: e.Length - 1, Y: 0.2}}
	record, err := stages.Plan{stages.Seat{Age: 28, On: stages.Elastic(1e8, on...), OutOfLevel: 0.001, Actions: []stages.Action{
		{Mark: "form", Loads: point(4e3), Least: 1, Most: 1, Stays: true}, {Mark: "crew", Loads: point(2e3)},
		{Mark: "wind", Direction: stages.Transverse, Loads: point(3e3), Least: -1, Most: 1}, {Mark: "carrier", Train: &train, Y: 0.1},
	}}}.Run(e, limits.EN1992{})
	require.NoError(t, err)
	presence := map[string]stages.Range{}
	for _, l := range record.Stages[0].Situations[0].Loads {
		_, twice := presence[l.Mark]
		require.False(t, twice, l.Mark)
		presence[l.Mark] = l.Presence
		require.Equal(t, l.Mark == "carrier, bogie", l.Rolls)
		if l.Rolls {
			require.Equal(t, []float64{50e3, 1.5, 0.1}, []float64{l.Force, l.To, l.Y})
		}
	}
	require.Equal(t, map[string]stages.Range{"form": {Least: 1, Most: 1}, "crew": {Most: 1}, "wind": {Least: -1, Most: 1}, "carrier, bogie": {Most: 1}}, presence)
	for _, w := range record.Weights {
		require.Zero(t, w.Presence)
	}
}

// Elements of unlike concrete have a hold point each, with the strength as a yard
// tests it: entered as a test it shows what is required.
func TestHoldPointOfEachConcrete(t *testing.T) {
	one, two := block(), block()
	one.Mark, two.Mark = "P", "Q"
	two.Concrete = concrete.EN1992{Fck: 60e6, Cement: concrete.ClassR}
	record, err := stages.Plan{stages.Store{Age: 20, On: []stages.Support{{X: 1, Y: -0.2}, {X: 1, Y: 0.2}, {X: one.Length + 3, Y: 0}}}}.
		Run(stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Monolithic, one, two)}, limits.EN1992{})
	require.NoError(t, err)
	s := record.Stages[0].Situations[0]
	var marks []string
	for _, h := range s.HoldPoints {
		if h.Kind != "strength" {
			continue
		}
		marks = append(marks, h.Pieces...)
		require.Positive(t, h.Check)
		require.Len(t, h.Tested, 3)
		for _, test := range []concrete.Test{
			{Specimen: concrete.Cube, Statistic: concrete.Characteristic, Strength: h.Tested[0].Value},
			{Specimen: concrete.Cylinder, Statistic: concrete.Mean, Strength: h.Tested[1].Value},
			{Specimen: concrete.Cube, Statistic: concrete.Mean, Strength: h.Tested[2].Value},
		} {
			test.Age, test.Specimens = 2, 3
			state, err := concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR, Tests: []concrete.Test{test}}.At(2)
			require.NoError(t, err)
			require.InEpsilon(t, h.Required.Value, state.Characteristic, 1e-9, "%v", test)
		}
	}
	require.Equal(t, []string{"P", "Q"}, marks)
}

// What stands relies on friction: the coefficient at which sliding just passes is a
// hold point beside the one assumed.
func TestHoldPointOfFriction(t *testing.T) {
	e := block()
	pads := []stages.Support{{X: 1, Y: -0.2, Friction: 0.3}, {X: 1, Y: 0.2, Friction: 0.25}, {X: e.Length - 1, Friction: 0.4}}
	of := func(on []stages.Support) (record stages.SituationRecord) {
		r, err := stages.Plan{stages.Store{Age: 20, On: on}}.Run(e, limits.EN1992{})
		require.NoError(t, err)
		return r.Stages[0].Situations[0]
	}
	s := of(pads)
	found := 0
	for _, h := range s.HoldPoints {
		if h.Kind != "friction" {
			continue
		}
		found++
		c := s.Checks[h.Check-1]
		require.Equal(t, limits.Sliding, c.Kind)
		require.Equal(t, 0.25, h.Assumed.Value)
		require.InEpsilon(t, 0.25*c.Demand.Value/c.Limit.Value, h.Required.Value, 1e-12)
		for i := range pads {
			pads[i].Friction = h.Required.Value
		}
		for _, c := range of(pads).Checks {
			if c.Kind == limits.Sliding {
				require.InDelta(t, 0, c.Margin, 1e-9*math.Abs(c.Limit.Value), "just passes")
			}
		}
	}
	require.Equal(t, 1, found)
}
