package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// A force along the element turns it over the end that it points to, at its height
// above the supports there; the nominal force is what is left of 2.5 % or 1 %.
func TestBrakingOverturnsAboutTheEndAhead(t *testing.T) {
	const weight = 120e3
	for _, c := range []struct {
		force, least, most, pads, ahead float64 // N; presence; x of the left pads; x of the edge
	}{
		{0.5e3, 0, 1, 1.5, 10.5},          // 0.675 kN known: 2.5 % governs
		{1.3333333333e3, 0, 1, 1.5, 10.5}, // 1.8 kN known = 1.5 % of the weight: both are the same
		{9e3, 0, 1, 1.5, 10.5},            // 1 % beside what is known
		{9e3, -1, 0.2, 1.5, 1.5},          // backwards
		{-9e3, 0, 1, 1.5, 1.5},            // backwards as well
		{9e3, -0.4, 0.7, 1.5, 10.5},       // the worse of both ways
		{9e3, 1, 1, 1.5, 10.5},            // always there
	} {
		brake := stages.Action{Mark: "brake", Kind: stages.Braking, Direction: stages.Along, Z: 1.7, Least: c.least, Most: c.most, Loads: point(6, c.force)}
		on := frames(5, c.pads, 10.5) // far apart: the ends govern
		for i := range on {
			on[i].Z = -0.25
		}
		s := run(t, block(), stages.Plan{stages.Seat{Age: 28, On: on, Actions: []stages.Action{brake}}}).Stages[0].Situations[0]
		got := check(t, s, limits.Overturning)
		known := 1.35 * math.Max(math.Abs(c.least*c.force), math.Abs(c.most*c.force))
		if c.least == 1 {
			known = 1.35 * 9e3
		}
		nominal := math.Max(0.025*weight, 0.01*weight+known) - known
		beyond := 1.05 * 10e3 * 1.5 * 1.5 / 2
		require.InEpsilon(t, beyond+known*(1.7+0.25)+nominal*(0.4+0.25), got.Demand.Value, 1e-9, "%+v", c)
		require.InEpsilon(t, 0.95*10e3*10.5*10.5/2, got.Limit.Value, 1e-9, "%+v", c)
		require.InDelta(t, c.ahead, got.X, 1e-9, "%+v", c)
	}
}

// Wind below the level of the supports, as on a girder that stands on legs from its
// top, turns the other way; the weight hangs there and no nominal force turns it.
func TestWindBelowTheSupportsTurnsTheOtherWay(t *testing.T) {
	const force = 4e3
	for _, c := range []struct{ least, most, edge float64 }{{0, 1, -0.8}, {-1, 0.0001, 1.1}} {
		wind := stages.Action{Mark: "wind", Kind: stages.Wind, Direction: stages.Transverse, Z: 0.4, Least: c.least, Most: c.most, Loads: point(6, force)}
		var on []stages.Support
		for _, x := range []float64{0, 12} {
			on = append(on, stages.Support{X: x, Y: -0.8, Z: 1, Bracket: true, Role: stages.Leg, Holds: stages.HoldsBoth}, stages.Support{X: x, Y: 1.1, Z: 1, Bracket: true, Role: stages.Leg, Holds: stages.HoldsBoth})
		}
		s := run(t, block(), stages.Plan{stages.Seat{Age: 28, On: on, Actions: []stages.Action{wind}}}).Stages[0].Situations[0]
		got := check(t, s, limits.Overturning)
		require.InEpsilon(t, 1.5*force*0.6, got.Demand.Value, 1e-9, "%+v", c)
		require.InEpsilon(t, 0.95*120e3*math.Abs(c.edge), got.Limit.Value, 1e-9)
	}
}

// Supports of unlike height: wind has its lever about the lower of the two.
func TestWindHasItsLeverAboutTheLowerSupport(t *testing.T) {
	on := frames(0.5, 0, 12)
	for i, z := range []float64{-0.1, -0.1, -0.1, -0.7} {
		on[i].Z = z
	}
	wind := stages.Action{Mark: "wind", Kind: stages.Wind, Direction: stages.Transverse, Z: 1.2, Least: 1, Most: 1, Loads: point(4, 5e3)}
	s := run(t, block(), stages.Plan{stages.Seat{Age: 28, On: on, Actions: []stages.Action{wind}}}).Stages[0].Situations[0]
	got := check(t, s, limits.Overturning)
	require.InEpsilon(t, 1.5*5e3*(1.2+0.7)+0.01*120e3*(0.4+0.7), got.Demand.Value, 1e-9)
	require.InEpsilon(t, 0.95*120e3*0.5, got.Limit.Value, 1e-9)
}

// A load on the cantilever beyond the pads counts where it overturns and never where
// it holds, unless it is always there; several of them one after the other.
func TestLoadsOverturnEachByItsOwnPresence(t *testing.T) {
	on := frames(4, 2, 9)
	for _, c := range []struct {
		acts   []stages.Action
		demand float64 // beside 1.05·10·3²/2 and 2.5 % of the weight at 0.4 m
	}{
		{[]stages.Action{{Mark: "a", Loads: point(11, 8e3)}}, 1.35 * 8e3 * 2},
		{[]stages.Action{{Mark: "a", Loads: point(11, 8e3)}, {Mark: "b", Loads: point(12, 3e3)}}, 1.35 * (8e3*2 + 3e3*3)},
		{[]stages.Action{{Mark: "a", Loads: point(11, 8e3)}, {Mark: "b", Loads: point(4, 3e3)}}, 1.35 * 8e3 * 2},
		{[]stages.Action{{Mark: "a", Loads: point(11, 8e3)}, {Mark: "b", Least: 1, Most: 1, Loads: point(4, 3e3)}}, 1.35*8e3*2 - 3e3*5},
		{[]stages.Action{{Mark: "a", Least: -1, Most: 0.3, Loads: point(3, 8e3)}}, 1.35 * 8e3 * 6},
		{[]stages.Action{{Mark: "a", Loads: loads.Set{Lines: []loads.Line{loads.Uniform(9, 12, 2e3)}}}}, 1.35 * 2e3 * 3 * 3 / 2},
		{[]stages.Action{{Mark: "a", Kind: stages.Personnel, Loads: point(11, 8e3)}}, 1.35 * 8e3 * 2},
	} {
		s := run(t, block(), stages.Plan{stages.Seat{Age: 28, On: on, Actions: c.acts}}).Stages[0].Situations[0]
		got := check(t, s, limits.Overturning)
		require.InEpsilon(t, 1.05*10e3*3*3/2+0.025*120e3*0.4+c.demand, got.Demand.Value, 1e-9, "%+v", c.acts)
		require.InEpsilon(t, 0.95*10e3*9*9/2, got.Limit.Value, 1e-9)
	}
}

// An accident has a combination of its own beside the usual one, which leaves it out:
// neither stands for the other.
func TestAnAccidentOverturnsInItsOwnCombination(t *testing.T) {
	hit := stages.Action{Mark: "hit", Kind: stages.Accidental, Loads: point(11, 8e3)}
	hoist := stages.Action{Mark: "hoist", Loads: point(12, 2e3)}
	s := run(t, block(), stages.Plan{stages.Seat{Age: 28, On: frames(4, 2, 9), Actions: []stages.Action{hit, hoist}}}).Stages[0].Situations[0]
	var got []stages.Check
	for _, c := range s.Checks {
		if c.Kind == limits.Overturning {
			got = append(got, c)
		}
	}
	require.Len(t, got, 2)
	const beyond, within, nominal = 10e3 * 3 * 3 / 2.0, 10e3 * 9 * 9 / 2.0, 0.025 * 120e3 * 0.4
	require.InEpsilon(t, 1.05*beyond+nominal+1.35*2e3*3, got[0].Demand.Value, 1e-9)
	require.InEpsilon(t, 0.95*within, got[0].Limit.Value, 1e-9)
	require.InEpsilon(t, beyond+nominal+8e3*2+2e3*3, got[1].Demand.Value, 1e-9)
	require.InEpsilon(t, within, got[1].Limit.Value, 1e-9)
}
