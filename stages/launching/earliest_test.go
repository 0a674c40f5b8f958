package launching_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

// slab is a reinforced slab of 6 m.
func slab(t testing.TB) stages.Element {
	shape, err := section.New([]section.Outline{{{Y: -0.6, Z: 0}, {Y: 0.6, Z: 0}, {Y: 0.6, Z: 0.8}, {Y: -0.6, Z: 0.8}}}, nil)
	require.NoError(t, err)
	return stages.Element{
		Mark: "E-S", Length: 6, Section: shape, Concrete: concrete.EN1992{Fck: 50e6, Cement: concrete.ClassN}, WeightTolerance: loads.PlusMinus(0.03),
		Bars: []stages.BondedBars{{To: 6, At: section.Point{Z: 0.06}, Area: 6000e-6}, {To: 6, At: section.Point{Z: 0.74}, Area: 6000e-6}},
	}
}

// passage is a light carrier over that slab, in which young concrete would crack.
func passage(t testing.TB, ride stages.Stage) stages.Plan {
	on := stages.Pads(0.45, 0.4, 5.6)
	for i := range on {
		on[i].Role, on[i].Holds = stages.Bearing, stages.HoldsBoth
	}
	on = append(on[:2], stages.Equalised("right pair", on[2:]...)...)
	shown := func(kind limits.Kind) stages.Document {
		return stages.Document{Covers: kind, Number: "EL-1", Revision: "A", Status: "approved for construction"}
	}
	return stages.Plan{stages.Seat{Age: 1, On: on}, stages.Covered(ride, shown(limits.LocalForce), shown(limits.Sliding))}
}

// light is that carrier.
func light(age float64) launching.Ride {
	return launching.Ride{Age: age, Gradient: 0.01, Line: launching.Spans{Bearings: 0.4}, Carrier: launching.Carrier{
		Mark: "GC-2", Wheel: 20e3, Brakes: 2, Brake: 10e3, Drag: 0.02,
		Train: loads.Train{Name: "light carrier", Dynamic: 1.1, Axles: []loads.Axle{{Force: 40e3}, {Force: 30e3, Behind: 1.5}}},
	}}
}

// reserve is the margin of the ride at an age, of a plan that states that age.
func reserve(t *testing.T, age float64) float64 {
	_, margin, err := passage(t, light(age)).Margin(slab(t), limits.EN1992{}, 2)
	require.NoError(t, err)
	return margin
}

// The minimum age is in between: the plan of that age passes and the one a step younger does
// not. It is where the strength has grown to what the stress needs, by the formula of
// EN 1992-1-1:2004 (3.1) and (3.2), s = 0.25.
func TestEarliestAgeInBetween(t *testing.T) {
	record, err := passage(t, light(28)).Run(slab(t), limits.EN1992{})
	require.NoError(t, err)
	governs := find(t, record.Stages[1].Situations[0], "principal tension in the web")
	require.Equal(t, stages.Pass, governs.State)
	grown := 1 - math.Log(governs.Demand.Value/governs.Limit.Value)/0.25
	needed := 28 / (grown * grown)
	require.Greater(t, needed, 12.0)
	require.Less(t, needed, 24.0)
	for _, step := range []float64{3, 1, 0.25} {
		age, err := launching.EarliestAge(slab(t), passage(t, light(35)), 2, limits.EN1992{}, 10, 34, step)
		require.NoError(t, err)
		require.GreaterOrEqual(t, reserve(t, age), 0.0)
		require.Negative(t, reserve(t, age-step))
		require.Equal(t, 10+math.Ceil((needed-10)/step)*step, age, "step of %g d", step)
	}
	age, err := launching.EarliestAge(slab(t), passage(t, light(35)), 2, limits.EN1992{}, 25, 34, 1)
	require.NoError(t, err)
	require.Equal(t, 25.0, age, "passes at every step")
	_, err = launching.EarliestAge(slab(t), passage(t, light(35)), 2, limits.EN1992{}, 2, 12, 1)
	require.ErrorContains(t, err, "does not pass at an age of 12 d: must pass at the end of the range")
}

// windowed is a ride that passes in a window of ages and again from an age on.
type windowed struct {
	launching.Ride
	ages [3]float64 // from, to, and from then on
}

func (w windowed) Situations(h stages.History) ([]stages.Situation, error) {
	list, err := w.Ride.Situations(h)
	for i := range list {
		check := list[i].Check
		list[i].Check = func(e stages.Effects, standard limits.Standard) ([]stages.OwnCheck, error) {
			own, err := check(e, standard)
			demand := 1.0
			if age := e.Situation.Age; age >= w.ages[0] && age <= w.ages[1] || age >= w.ages[2] {
				demand = 0.5
			}
			source := formula.Source{Document: "site rule"}
			limit := formula.Q("n", 0.8, formula.One, "limit")
			c := stages.NewCheck(limits.Limit{Name: "site rule", LimitState: limits.Serviceability, Sense: limits.AtMost, Source: source, Line: formula.Given(limit, source)}, formula.Q("m", demand, formula.One, "demand"))
			return append(own, stages.OwnCheck{Check: c}), err
		}
	}
	return list, err
}

// An age at which the stage passes does not count where it fails at a later one.
func TestEarliestAgeBehindAWindow(t *testing.T) {
	plan := passage(t, windowed{light(40), [3]float64{20, 23, 29}})
	age, err := launching.EarliestAge(slab(t), plan, 2, limits.EN1992{}, 18, 40, 1)
	require.NoError(t, err)
	require.Equal(t, 29.0, age)
}

// The age that was found is a check of the ride and a hold point; it is rounded up.
func TestRideHoldsItsLeastAge(t *testing.T) {
	for age, state := range map[float64]stages.State{15.38: stages.Pass, 15.37: stages.Fail} {
		r := light(age)
		r.Earliest = 15.372
		record, err := passage(t, r).Run(slab(t), limits.EN1992{})
		require.NoError(t, err)
		s := record.Stages[1].Situations[0]
		c := find(t, s, "age when the carrier passes")
		require.Equal(t, state, c.State)
		require.InDelta(t, 15.38, c.Limit.Value, 1e-12)
		held := 0
		for _, h := range s.HoldPoints {
			if h.Kind == "age of the span" {
				require.InDelta(t, 15.38, h.Required.Value, 1e-12)
				require.False(t, h.AtMost)
				held++
			}
		}
		require.Equal(t, 1, held)
	}
}
