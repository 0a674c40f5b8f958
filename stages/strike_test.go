package stages_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// falsework is rows R1 to R5 under the cast beam, bearings at its ends.
func falsework(stiffness float64) stages.FalseworkRows {
	f := stages.FalseworkRows{Mark: "FW", Bearing: 1e6, Document: "design 7"}
	for i, x := range []float64{4, 8, 12, 16, 20} {
		f.Rows = append(f.Rows, stages.FalseworkRow{Mark: fmt.Sprintf("R%d", i+1), X: x, Y: []float64{-0.2, 0.2}, Stiffness: stiffness, Capacity: 80e3})
	}
	f.Bearings = stages.Elastic(1e9, stages.Pads(0.2, 0, 24)...)
	for i := range f.Bearings {
		f.Bearings[i].Role, f.Bearings[i].Holds = stages.Bearing, stages.HoldsBoth
	}
	return f
}

// cast is the stressing on falsework in one step.
func cast(f stages.FalseworkRows) stages.CastInPlace {
	return stages.CastInPlace{Age: 5, On: f, Jacking: []tendon.Jacking{{Tendons: []string{"R", "L"}, Stress: 1300e6, Ends: tendon.BothEnds}}}
}

// struck is all rows lowered at once, then taken away.
func struck(f stages.FalseworkRows) stages.Strike {
	all := []string{"R1", "R2", "R3", "R4", "R5"}
	return stages.Strike{Age: 6, On: f, Passes: []stages.StrikePass{{Rows: all, By: 0.05}, {Rows: all}}}
}

// Very soft falsework follows: nothing leaves it. Rigid falsework under a prestress that
// balances more than the weight: the middle lifts off, all goes to the ends. The sum is the
// weight.
func TestSoftAndRigidFalsework(t *testing.T) {
	forces := func(f stages.FalseworkRows) []float64 {
		a, err := stages.Plan{cast(f)}.Analyse(poured(t, 9, 0.2), limits.EN1992{})
		require.NoError(t, err)
		of, err := a.Effects(1, 2)
		require.NoError(t, err)
		list := rowsOf(of.Reactions, nominalOf)
		sum := 0.0
		for _, r := range list {
			sum += r
		}
		require.InDelta(t, 432e3, sum, 1e-2)
		return list
	}
	soft := falsework(1e4)
	for i := range soft.Bearings {
		soft.Bearings[i].Stiffness = 1e4
	}
	for i, r := range forces(soft) {
		require.InDelta(t, append(tributaries()[1:6:6], 36e3, 36e3)[i], r, 400, "row %d", i+1)
	}
	rigid := falsework(1e11)
	for i := range rigid.Bearings {
		rigid.Bearings[i].Stiffness = 1e12 // so that it does not settle on to the first row
	}
	require.InDeltaSlice(t, []float64{0, 0, 0, 0, 0, 216e3, 216e3}, forces(rigid), 1e-2)
}

// A row checks its tower with the largest force, and says where it has none.
func TestEveryRowIsChecked(t *testing.T) {
	f := falsework(1e9)
	r := run(t, poured(t, 10, 0.2), stages.Plan{cast(f)})
	for k, s := range r.Stages[0].Situations {
		for i, row := range f.Rows {
			c := check(t, s, limits.Kind("load on falsework row "+row.Mark))
			most := math.Max(s.Reactions[2*i].Characteristic.Most, s.Reactions[2*i+1].Characteristic.Most)
			require.InDelta(t, most, c.Demand.Value, 1e-9)
			require.Equal(t, 80e3, c.Limit.Value)
			require.Equal(t, stages.Pass, c.State)
			require.Equal(t, most < 1, c.Note == "the row is without force", "%d %s %g", k, row.Mark, most)
		}
		bearing := check(t, s, "load on a bearing")
		require.InDelta(t, s.Reactions[10].Characteristic.Most, bearing.Demand.Value, 1)
		require.True(t, has(s, limits.LocalForce, stages.NotEvaluated))
	}
	require.Equal(t, "the row is without force", check(t, r.Stages[0].Situations[1], "load on falsework row R3").Note)
	f.Rows[2].Capacity = 30e3
	over := run(t, poured(t, 10, 0.2), stages.Plan{cast(f)})
	require.Equal(t, stages.Fail, check(t, over.Stages[0].Situations[0], "load on falsework row R3").State)
}

// Struck, the span is a beam on two bearings.
func TestStruckSpanIsOnItsBearings(t *testing.T) {
	f := falsework(2e7)
	e := poured(t, 6, 0.2)
	e.WeightTolerance = loads.PlusMinus(0.02)
	a, err := stages.Plan{cast(f), struck(f)}.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	of, err := a.Effects(2, 2)
	require.NoError(t, err)
	require.Len(t, of.Reactions, 4)
	for _, r := range of.Reactions {
		require.InDelta(t, 108e3, r.Nominal, 1e-3)
		require.InDelta(t, 1.02*108e3, r.Static.Most, 1e-3)
	}
	prestress := 2 * 1300e6 * e.Tendons[0].Area()
	for _, x := range []float64{3, 12} {
		require.InDelta(t, 18e3*x*(24-x)/2+prestress*tendonMoment(x), of.Forces(x).My, 1)
	}
	moves, err := of.Moves()
	require.NoError(t, err)
	require.Len(t, moves, 1)
	require.NotZero(t, moves[0].At(12).Deflection)
}

// A row that is missed while the others are lowered carries the span as a prop: its force is
// that of a beam on three supports, and the top above it is pulled.
func TestARowThatIsMissedIsAProp(t *testing.T) {
	f := falsework(1e9)
	for i := range f.Rows {
		f.Rows[i].Capacity = 1e6
	}
	e := poured(t, 2, 0.5) // nearly no prestress
	strike := struck(f)
	strike.Missed = []string{"R3"}
	r := run(t, e, stages.Plan{cast(f), strike})
	missed, down := r.Stages[1].Situations[0], r.Stages[1].Situations[1]
	require.Equal(t, "striking, pass 1 with row R3 missed", missed.Name)
	require.False(t, missed.Standing)
	prop := missed.Reactions[4].Nominal + missed.Reactions[5].Nominal
	balanced := 8 * 2 * 1300e6 * e.Tendons[0].Area() * 0.1 / (castLength * castLength)
	require.InEpsilon(t, 1.25*(18e3-balanced)*12, prop, 0.01, "5/4 (w − w_b)·l of two spans of 12 m; towers give way a little")
	require.Zero(t, down.Reactions[4].Nominal)
	tension := check(t, missed, limits.Tension)
	require.InDelta(t, 12, tension.X, 0.5)
	require.Greater(t, tension.Demand.Value, 0.5e6)
	require.True(t, strings.Contains(tension.Place, "z = 1.200 m"), tension.Place)
}

// A row that still has force is not free to be taken away.
func TestARowIsFreeBeforeItIsTakenAway(t *testing.T) {
	f := falsework(2e7)
	strike := struck(f)
	strike.Passes[0].By = 0.0005
	r := run(t, poured(t, 2, 0.5), stages.Plan{cast(f), strike})
	require.Equal(t, stages.Fail, check(t, r.Stages[1].Situations[0], "row R3 free before it is taken away").State)
	r = run(t, poured(t, 2, 0.5), stages.Plan{cast(f), struck(f)})
	require.Equal(t, stages.Pass, check(t, r.Stages[1].Situations[0], "row R3 free before it is taken away").State)
}

// Struck before it is stressed, a span that cannot carry itself fails; it is no error.
func TestStruckWithoutPrestressFails(t *testing.T) {
	f := falsework(2e7)
	of := cast(f)
	of.Jacking = nil
	r := run(t, poured(t, 8, 0.2), stages.Plan{of, struck(f)})
	require.Equal(t, stages.Pass, check(t, r.Stages[0].Situations[0], limits.Tension).State)
	c := check(t, r.Stages[1].Situations[1], limits.Tension)
	require.Equal(t, stages.Fail, c.State)
	require.InDelta(t, 12, c.X, 0.1)
}
