package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Wind that blows one way only overturns about the edge on its lee, and the two
// edges lie at unlike distances.
func TestWindOverturnsAboutTheLeeEdge(t *testing.T) {
	on := []stages.Support{{X: 0.7, Y: -0.15}, {X: 0.7, Y: 0.25}, {X: 11.1}}
	for _, c := range []struct{ force, pad float64 }{{700, 0.25}, {-700, 0.15}} {
		wind := stages.Action{Mark: "wind", Kind: stages.Wind, Direction: stages.Transverse, Z: 0.9, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(1, 9, c.force)}}}
		s := run(t, block(), stages.Plan{stages.Seat{Age: 28, On: on, Actions: []stages.Action{wind}}}).Stages[0].Situations[0]
		got := check(t, s, limits.Overturning)
		// The edge runs from the pad to (11.1, 0): sine and cosine of its way out.
		sine, cosine := c.pad/math.Hypot(10.4, c.pad), 10.4/math.Hypot(10.4, c.pad)
		// 1 % of the weight beside what is known: above 2.5 % of it with the wind.
		require.InEpsilon(t, 1.05*10e3*0.9*0.9/2*sine+1.5*5600*cosine*0.9+0.01*120e3*0.4, got.Demand.Value, 1e-9, "wind of %g N/m", c.force)
		require.InEpsilon(t, 0.95*10e3*11.1*11.1/2*sine, got.Limit.Value, 1e-9)
		require.Contains(t, got.Place, map[bool]string{true: "y = 0.250", false: "y = -0.150"}[c.force > 0])
	}
}

// A couple anticlockwise, the right end up, presses the left support and overturns
// about it.
func TestACoupleOverturnsAboutTheEndThatItPresses(t *testing.T) {
	for _, c := range []struct {
		moment, edge, beyond float64
	}{{400e3, 1.1, 1.1}, {-400e3, 11.5, 0.5}} {
		couple := stages.Action{Mark: "couple", Kind: stages.Imposed, Least: 1, Most: 1, Loads: loads.Set{Couples: []loads.Couple{{At: 7, Moment: c.moment}}}}
		plan := stages.Plan{stages.Seat{Age: 28, On: stages.At(1.1, 11.5), Actions: []stages.Action{couple}}}
		left := effectsOf(t, block(), plan, 1).Reactions[0].Nominal
		require.InDelta(t, (120e3*(11.5-6)+c.moment)/10.4, left, 1e-6)
		got := check(t, run(t, block(), plan).Stages[0].Situations[0], limits.Overturning)
		require.InDelta(t, c.edge, got.X, 1e-9, "couple of %g N·m", c.moment)
		require.InDelta(t, 1.05*10e3*c.beyond*c.beyond/2+1.5*math.Abs(c.moment)+0.025*120e3*0.4, got.Demand.Value, 1e-3)
	}
}

// On a slope the weight pushes along it: 1 % nominal beside W·tan, or 2.5 % alone.
func TestASlopePushes(t *testing.T) {
	on := paired(stages.Pads(0.22, 0.7, 11.1))
	for slope, share := range map[float64]float64{0: 0.025, 0.01: 0.025, 0.04: 0.01 + math.Tan(0.04)} {
		for _, plan := range []stages.Plan{{stages.Store{Age: 28, On: on, Roll: slope}}, {stages.Store{Age: 28, On: on, Gradient: slope}}} {
			got := check(t, run(t, block(), plan).Stages[0].Situations[0], limits.Sliding)
			require.InEpsilon(t, share*120e3, got.Demand.Value, 1e-9, "slope %g", slope)
		}
	}
}

// An element with its weight to the left hangs with its left side down, until the
// centre of gravity is below the axis, and bends that way.
func TestAHungElementTurns(t *testing.T) {
	e := block()
	e.Extra = []stages.ExtraWeight{{Mark: "kerb", From: 0, To: 12, Weight: 60e3, Y: 0.2, Z: 0.7}}
	stand := paired(stages.Pads(0.22, 2.4, 9.1))
	plan := stages.Plan{stages.Store{Age: 28, On: stand}, stages.Lift{Dynamic: loads.AtRest(), Age: 28, On: []stages.Support{{X: 2.4, Y: -0.02, Z: 1.1}, {X: 9.6, Y: -0.02, Z: 1.1}}}, stages.Store{Age: 28, On: stand}}
	y, z := 60.0*0.2/180, (120*0.4+60*0.7)/180
	out, height := y+0.02, 1.1-z
	tilt := math.Atan2(out, height)
	lift := effectsOf(t, e, plan, 2)
	for _, p := range lift.Reactions {
		require.InDelta(t, 90e3, p.Nominal, 1e-6)
	}
	moment := 90e3*3.6 - 15e3*36/2
	plane := lift.Stress(6)
	for _, c := range rect(t, 0.5, 0.8).Corners() {
		want := -moment*math.Cos(tilt)*(c.Z-0.4)/(0.5*0.512/12) + moment*math.Sin(tilt)*c.Y/(0.8*0.125/12)
		require.InDelta(t, want, plane.At(c), 1, "y = %g m, z = %g m", c.Y, c.Z)
	}
	require.Greater(t, plane.At(section.Point{Y: 0.25}), plane.At(section.Point{Y: -0.25}), "it sags to the left")
	// Beside the roll axis there is no torque: what turns has come to rest.
	require.InDelta(t, 0, lift.Forces(4).T-(lift.Forces(4).Vy*1.1-lift.Forces(4).Vz*(-0.02)), 1)
}

// The wind of one stage is not that of another, though both are called wind.
func TestActionsOfOneNameInTwoStages(t *testing.T) {
	on := paired(stages.Pads(0.22, 0.7, 11.1))
	wind := func(force, least float64) []stages.Action {
		return []stages.Action{{Mark: "wind", Kind: stages.Wind, Direction: stages.Transverse, Z: 0.9, Least: least, Most: 1, Loads: loads.Set{Lines: []loads.Line{loads.Uniform(1, 9, force)}}}}
	}
	first := stages.Store{Age: 28, On: on, Actions: wind(900, -1)}
	alone := stages.Plan{first}
	both := stages.Plan{first, stages.Seat{Age: 29, On: on, Actions: wind(100, 1)}}
	for i, p := range effectsOf(t, block(), alone, 1).Reactions {
		q := effectsOf(t, block(), both, 1).Reactions[i]
		require.Equal(t, p.Nominal, q.Nominal)
		require.Equal(t, p.Characteristic, q.Characteristic)
		require.Equal(t, p.Ultimate, q.Ultimate)
	}
	for _, kind := range []limits.Kind{limits.Overturning, limits.Uplift, limits.Sliding, limits.WebShear} {
		p, q := check(t, run(t, block(), alone).Stages[0].Situations[0], kind), check(t, run(t, block(), both).Stages[0].Situations[0], kind)
		require.Equal(t, p.Demand.Value, q.Demand.Value, kind)
	}
	second := effectsOf(t, block(), both, 2).Reactions
	still := effectsOf(t, block(), stages.Plan{stages.Seat{Age: 29, On: on}}, 1).Reactions
	require.InDelta(t, still[1].Nominal+100*8*0.9/0.44, second[1].Nominal, 1e-6)
	loads := run(t, block(), both)
	require.InDelta(t, 900*8, loads.Stages[0].Situations[0].Loads[0].Force, 1e-9)
	require.InDelta(t, 100*8, loads.Stages[1].Situations[0].Loads[0].Force, 1e-9)
}
