package stages_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

func TestBondedBarsTakeTension(t *testing.T) {
	e := block()
	plan := stages.Plan{
		stages.Store{Age: 5, On: paired(stages.Pads(0.2, 2.4, 9.6))}, stages.Lift{Dynamic: loads.AtRest(), Age: 7, On: paired(hooks(0.2, 0.2, 11.8))},
		stages.Store{Age: 7, On: paired(stages.Pads(0.2, 2.4, 9.6))},
	}
	r := run(t, e, plan)
	s := r.Stages[1].Situations[0]
	tension, steel := check(t, s, limits.Tension), check(t, s, limits.TensionSteel)
	// w = 10 kN/m, L = 11.6 m, overhangs 0.2 m: M = 10·11.6²/8 − 10·0.2²/2 = 168 kN·m.
	sigma := 168e3 / (0.5 * 0.64 / 6)
	require.InDelta(t, sigma, tension.Demand.Value, 1)
	require.Equal(t, stages.Fail, tension.State, "3.15 MPa against fctm(7) = 2.87 MPa")
	require.InDelta(t, sigma*0.4*0.5/2/200e6, steel.Demand.Value, 1e-9)
	require.InDelta(t, 1500e-6, steel.Limit.Value, 1e-12)
	require.Equal(t, stages.Fail, steel.State)
	require.Equal(t, stages.Fail, r.Status())
	recomputes(t, r)

	e.Bars = nil
	bare := check(t, run(t, e, plan).Stages[1].Situations[0], limits.Tension)
	require.Zero(t, bare.Limit.Value)
	require.Equal(t, stages.Fail, bare.State)
	require.InDelta(t, 1+sigma/(0.81873*3.509e6), bare.Utilisation, 1e-3, "the margin is scaled by fctm(t)")
}

func TestOverturningAndUplift(t *testing.T) {
	plan := stages.Plan{stages.Store{Age: 5, On: stages.At(3, 9)}, stages.Store{Age: 6, On: stages.At(0.5, 5.9)}}
	s := run(t, block(), plan).Stages[1].Situations[0]
	// 10 kN/m: beyond x = 5.9 m lie 6.1 m, inside 5.9 m; the nominal horizontal force,
	// 2.5 % of 120 kN, acts at the centre of gravity, 0.4 m above the supports.
	overturning := check(t, s, limits.Overturning)
	require.InDelta(t, 1.05*10e3*6.1*6.1/2+0.025*120e3*0.4, overturning.Demand.Value, 1)
	require.InDelta(t, 0.95*10e3*5.9*5.9/2, overturning.Limit.Value, 1)
	require.InDelta(t, 5.9, overturning.X, 1e-12)
	require.Equal(t, stages.Fail, overturning.State)
	require.Equal(t, stages.Fail, check(t, s, limits.Uplift).State)
	// Equilibrium about support 2 in both checks: R_EQU·5.4 m = stabilising − overturning.
	uplift := check(t, s, limits.Uplift)
	require.InDelta(t, (overturning.Limit.Value-overturning.Demand.Value+0.025*120e3*0.4)/5.4, uplift.Demand.Value, 1)
}

// The weight beyond the right support lifts the left one a hair on either side of
// where they balance: √0.95·x = √1.05·(12 − x).
func TestUpliftAHairOnEitherSide(t *testing.T) {
	root := 12 * math.Sqrt(1.05) / (math.Sqrt(0.95) + math.Sqrt(1.05))
	for hair, state := range map[float64]stages.State{1e-6: stages.Pass, -1e-6: stages.Fail} {
		s := run(t, block(), stages.Plan{stages.Store{Age: 5, On: stages.At(1, root+hair)}}).Stages[0].Situations[0]
		require.Equal(t, state, check(t, s, limits.Uplift).State)
	}
}

func TestEqualisedPointsShareEvenly(t *testing.T) {
	left := stages.Equalised("left", stages.At(1, 4)...)
	right := stages.Equalised("right", stages.At(8, 11)...)
	e := block()
	plan := stages.Plan{stages.Store{Age: 5, On: stages.At(2.4, 9.6)}, stages.Lift{Dynamic: loads.AtRest(), Age: 7, On: append(left, right...)}}
	r := run(t, e, plan)
	recomputes(t, r)
	s := r.Stages[1].Situations[0]
	for _, reaction := range s.Reactions {
		require.InDelta(t, 30e3, reaction.Nominal, 1e-6)
	}
	found := 0
	for _, at := range stages.StationsOf(s.Stations) {
		if at.X == 6 { // 2·30·(6−2.5) − 10·6²/2 = 30 kN·m
			require.InDelta(t, 30e3, at.Weight.My, 0.1, "written to six digits")
			found++
		}
		if at.X == 4 { // 30·3 − 10·4²/2 = 10
			require.InDelta(t, 10e3, at.Weight.My, 0.1)
			found++
		}
	}
	require.Equal(t, 2, found)
}

// Two pads on the left and a linked pair on the right take a weight off the axis
// by statics: the pair acts at its middle, the pads on the left hold all torque.
func TestThreeResultantsAndTorsion(t *testing.T) {
	e := girder(t)
	e.Extra = []stages.ExtraWeight{{Mark: "kerb form", From: 6, To: 18, Weight: 60e3, Y: 2, Z: 1.6}}
	r := run(t, e, stages.Plan{
		stages.Transfer{Age: 2, Jacking: []tendon.Jacking{jack("BL", "BR")}, On: paired(stages.Pads(1, 0, 24))},
		stages.Store{Age: 3, On: append(stages.Pads(1, 1), stages.Support{X: 23})},
	})
	mass, err := e.CentreOfGravity()
	require.NoError(t, err)
	require.InDelta(t, 60e3*2/mass.Weight, mass.Y, 1e-12)
	for _, s := range []stages.SituationRecord{r.Stages[0].Situations[0], r.Stages[1].Situations[0]} {
		on := s.Reactions
		// 60 kN at y = 2 m gives 120 kN·m over 2 m: ±60 kN on the left pads.
		require.InDelta(t, 120e3, on[1].Nominal-on[0].Nominal, 1e-6)
		total, right := 0.0, 0.0
		for _, p := range on {
			total += p.Nominal
			if p.X > 12 {
				right += p.Nominal
			}
		}
		require.InDelta(t, mass.Weight, total, 1e-6)
		require.InDelta(t, mass.Weight/2, right, 1e-6)
	}
	found := 0
	for _, at := range stages.StationsOf(r.Stages[0].Situations[0].Stations) {
		// The torque of the kerb right of x goes to the left: 60·2·(18 − x)/12.
		if at.X == 3 {
			require.InDelta(t, -120e3, at.Weight.T, 1, "T of a downward load at +y left of it")
			found++
		}
		if at.X == 15 {
			require.InDelta(t, -30e3, at.Weight.T, 1)
			found++
		}
	}
	require.Equal(t, 2, found)
	require.NotEqual(t, stages.NotEvaluated, check(t, r.Stages[0].Situations[0], limits.WebShear).State, "torsion is in the walls")
}

func TestCantileverOnAFixedSupport(t *testing.T) {
	e := block()
	r := run(t, e, stages.Plan{stages.Store{Age: 10, On: []stages.Support{{X: 6, Fixed: true}}}})
	s := r.Stages[0].Situations[0]
	require.InDelta(t, 120e3, s.Reactions[0].Nominal, 1e-6)
	require.InDelta(t, 10e3*36/2/(0.5*0.64/6), check(t, s, limits.Tension).Demand.Value, 1)
	require.Contains(t, strings.Join(s.Unanswered, "\n"), "fixed support")
	require.NotEqual(t, stages.Pass, r.Status())
	recomputes(t, r)
}

func TestAnswersPutBackHaveNoReserve(t *testing.T) {
	e := calm()
	e.Tendons[0].Approval.MeanStrength = 33e6
	c := stages.Case{Subject: e, Plan: calmPlan(), Stage: 1, Standard: limits.EN1992{}}
	shown := func(g *stages.Girder, value float64) {
		of := &g.Pieces[0].Element
		of.Concrete = of.Concrete.Shown(5, value)
	}
	strength := stages.Input{Symbol: "f_ck_t", Unit: formula.Pascal, Set: func(g *stages.Girder, _ *stages.Plan, value float64) error {
		shown(g, value)
		return nil
	}}
	least, governing, err := c.Solve(strength, 5e6, 60e6)
	require.NoError(t, err)
	require.Equal(t, string(limits.StressingStrength), governing.Name)
	require.InDelta(t, 25e6, least, 1, "fcm,0 = 33 MPa")
	again := c
	g := e.Girder()
	shown(&g, least)
	again.Subject = g
	_, reserve, err := again.Worst()
	require.NoError(t, err)
	require.InDelta(t, 0, reserve, 1e-9)
	state, err := e.Concrete.At(5)
	require.NoError(t, err)
	require.NotEqual(t, 25e6, state.Characteristic, "the case itself is unchanged")

	c.Stage = 2
	weight := stages.Input{Symbol: "over", Unit: formula.One, Set: func(g *stages.Girder, _ *stages.Plan, over float64) error {
		g.Pieces[0].Element.WeightTolerance.Over = over
		return nil
	}}
	over, _, err := c.Solve(weight, 0, 20)
	require.NoError(t, err)
	require.Greater(t, over, 0.03)
	require.Equal(t, 0.03, e.WeightTolerance.Over, "an input changes a copy")
}
