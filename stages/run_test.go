package stages_test

import (
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// recomputes checks that each line of a record gives its own number again, and
// that the derivations end in the demands and limits of their checks.
func recomputes(t *testing.T, r stages.Record) {
	t.Helper()
	for _, stage := range r.Stages {
		for _, situation := range stage.Situations {
			for _, c := range situation.Checks {
				if c.State == stages.NotEvaluated {
					require.NotEmpty(t, c.Note)
					continue
				}
				values := map[string]float64{}
				for _, line := range c.Derivation {
					value, err := line.Recompute()
					require.NoError(t, err)
					require.InDelta(t, line.Result.Value, value, 1e-12*math.Abs(value))
					for _, operand := range line.Operands {
						if before, ok := values[operand.Symbol]; ok {
							require.Equal(t, before, operand.Value, "%s in %s of %s", operand.Symbol, line.Result.Symbol, c.Name)
						}
					}
					values[line.Result.Symbol] = line.Result.Value
				}
				require.Contains(t, values, c.Demand.Symbol, c.Name)
				require.Equal(t, c.Demand.Value, values[c.Demand.Symbol], c.Name)
			}
		}
	}
}

func TestJourneyPassesAndRecomputes(t *testing.T) {
	r := run(t, girder(t), journey())
	recomputes(t, r)
	require.Equal(t, stages.Pass, r.Status())
	require.Len(t, r.Stages, 6)
	require.Len(t, r.Stages[3].Situations, 2, "stressing and grouting")
	perStage, worst := r.Governing()
	require.Len(t, perStage, 6)
	for _, c := range perStage {
		require.False(t, c.Utilisation > perStage[worst].Utilisation && c.State == perStage[worst].State)
	}
}

// The written derivation and the engine reach the stress by two ways: the
// engine adds planes, the derivation multiplies out the printed expressions.
func TestDerivationMeetsTheEngine(t *testing.T) {
	skew := girder(t)
	skew.Tendons = skew.Tendons[:3] // AL, AR, BL: lateral bending
	plan := stages.Plan{
		stages.Transfer{Age: 2, Jacking: []tendon.Jacking{jack("BL")}, On: stages.Pads(1, 0, 24)},
		stages.Stress{Age: 14, Jacking: []tendon.Jacking{jack("AL", "AR")}, Grout: []string{"BL"}},
		stages.Seat{Age: 28, On: stages.Pads(1, 0.5, 23.5)},
	}
	for name, r := range map[string]stages.Record{"journey": run(t, girder(t), journey()), "skew": run(t, skew, plan)} {
		recomputes(t, r)
		for _, stage := range r.Stages {
			for _, s := range stage.Situations {
				c := check(t, s, limits.Compression)
				least := math.Inf(1)
				for _, at := range s.Stations {
					if at.Evaluated {
						least = math.Min(least, math.Min(at.TopLeast, at.BottomLeast))
					}
				}
				// The stations are a coarse sample of what the derivation found.
				require.LessOrEqual(t, -c.Demand.Value, least+1, "%s, %s: worst compression against the stations", name, s.Name)
				require.InDelta(t, -c.Demand.Value, least, 0.25e6, "%s, %s", name, s.Name)
			}
		}
	}
}

// Temporary tendons let down again leave the concrete as if they had never been
// there, but for what the others lost and gained.
func TestReleasedTendonsLeaveTheConcrete(t *testing.T) {
	e := girder(t)
	begin := stages.Transfer{Age: 5, Jacking: []tendon.Jacking{jack("BL", "BR")}}
	rest := stages.Seat{Age: 9, On: stages.At(0.5, 23.5)}
	never := run(t, e, stages.Plan{begin, rest})
	plan := stages.Plan{begin, stages.Stress{Age: 5, Jacking: []tendon.Jacking{jack("AL", "AR")}, Release: []string{"AL", "AR"}}, rest}
	r := run(t, e, plan)
	recomputes(t, r)
	require.Equal(t, "release", r.Stages[1].Situations[1].Name)
	require.Len(t, r.Stages[1].Situations[0].Tendons, 4)
	require.Len(t, r.Stages[1].Situations[1].Tendons, 2)
	for k, at := range never.Stages[1].Situations[0].Stations {
		after := r.Stages[2].Situations[0].Stations[k]
		require.InDelta(t, at.Prestress.N, after.Prestress.N, 2e-3*math.Abs(at.Prestress.N), "x = %g", at.X)
		require.InDelta(t, at.Prestress.My, after.Prestress.My, 3e-3*math.Abs(at.Prestress.My)+1e3)
	}
	one := run(t, e, stages.Plan{begin, stages.Stress{Age: 5, Jacking: []tendon.Jacking{jack("AL", "AR")}, Release: []string{"AL"}}, rest})
	recomputes(t, one)
	require.Len(t, one.Stages[1].Situations[1].Tendons, 3)
	for words, bad := range map[string]stages.Stress{
		"in Release: tendon AL is not stressed": {Age: 6, Release: []string{"AL"}},
		"in Release: tendon BL":                 {Age: 6, Release: []string{"BL", "BL"}},
	} {
		_, err := stages.Plan{begin, bad}.Run(e, limits.EN1992{})
		require.ErrorContains(t, err, words)
	}
}

func TestMirroredPlanGivesMirroredResults(t *testing.T) {
	e := girder(t)
	e.Extra = e.Extra[:1]
	m := girder(t)
	m.Extra = []stages.ExtraWeight{{Mark: "diaphragm", From: 24 - 0.8, To: 24 - 0.2, Weight: 40e3}}
	one := jack("BL", "BR")
	one.Ends = tendon.LeftEnd
	other := one
	other.Ends = tendon.RightEnd
	plan := func(j tendon.Jacking, mirror bool) stages.Plan {
		at := func(a, b float64) []stages.Support {
			if mirror {
				return stages.At(24-b, 24-a)
			}
			return stages.At(a, b)
		}
		return stages.Plan{
			stages.Transfer{Age: 2, Jacking: []tendon.Jacking{j}, On: at(0.2, 23)},
			stages.Lift{Age: 2.5, On: at(2.5, 20), Dynamic: loads.Dynamic{Most: 1.2}},
		}
	}
	a, b := run(t, e, plan(one, false)), run(t, m, plan(other, true))
	for i := range a.Stages {
		for _, kind := range []limits.Kind{limits.Compression, limits.Tension, limits.PrincipalTension, limits.WebShear, limits.Uplift, limits.Overturning} {
			p, q := check(t, a.Stages[i].Situations[0], kind), check(t, b.Stages[i].Situations[0], kind)
			require.InDelta(t, p.Demand.Value, q.Demand.Value, 1e-7*math.Max(1e6, math.Abs(p.Demand.Value)), kind)
			require.InDelta(t, p.Margin, q.Margin, 1e-7*math.Max(1e6, math.Abs(p.Margin)), kind)
			require.InDelta(t, p.X, 24-q.X, 0.01, kind)
		}
	}
}

func TestExtremesAreNotBelowABruteForceSearch(t *testing.T) {
	e := girder(t)
	lift := odd{situations: []stages.Situation{{Name: "look", Age: 2.5, Phase: limits.Lifting, Supports: stages.At(2.8, 21.2)}}}
	var stress func(float64) section.Plane
	lift.situations[0].Check = func(effects stages.Effects, _ limits.Standard) ([]stages.Check, error) {
		stress = effects.Stress
		require.InDelta(t, effects.Forces(12).My, effects.Forces(12-1e-6).My, 1e3)
		return nil, nil
	}
	e.WeightTolerance = loads.PlusMinus(0)
	r, err := stages.Plan{stages.Transfer{Age: 2, Jacking: []tendon.Jacking{jack("BL", "BR")}}, lift}.Run(e, limits.EN1992{PrestressInferior: 1, PrestressSuperior: 1})
	require.NoError(t, err)
	shape := e.Section.At(0)
	zones := [2]float64{}
	for _, at := range r.Stages[1].Situations[0].Stations {
		if !at.Evaluated && at.X < 12 {
			zones[0] = at.X
		}
	}
	c, tension := check(t, r.Stages[1].Situations[0], limits.Compression), check(t, r.Stages[1].Situations[0], limits.Tension)
	least, most := math.Inf(1), math.Inf(-1)
	for i := range 4001 {
		x := 24 * float64(i) / 4000
		if x < math.Min(c.X, tension.X) || x > 24-math.Min(c.X, tension.X) {
			continue
		}
		plane := stress(x)
		for _, corner := range shape.Corners() {
			least, most = math.Min(least, plane.At(corner)), math.Max(most, plane.At(corner))
		}
	}
	require.GreaterOrEqual(t, c.Demand.Value, -least-1e-3)
	require.InDelta(t, c.Demand.Value, -least, 2e3)
	require.GreaterOrEqual(t, tension.Demand.Value, most-1e-3)
	require.InDelta(t, tension.Demand.Value, most, 2e3)
}

func TestWithoutATestUpToThreeDaysIsConditional(t *testing.T) {
	e := girder(t)
	e.Concrete = concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR}
	r := run(t, e, journey()[:3])
	require.Equal(t, stages.Conditional, r.Status())
	s := r.Stages[0].Situations[0]
	c := check(t, s, limits.Compression)
	require.Equal(t, stages.Conditional, c.State)
	require.InDelta(t, c.Demand.Value/0.6, c.Required.Value, 1, "the strength at which 0.6·fck(t) is used up")
	strength := check(t, s, limits.StressingStrength)
	require.Equal(t, stages.Conditional, strength.State)
	require.InDelta(t, 28e6-8e6, strength.Required.Value, 1, "fcm,0 = 28 MPa asks for fck(t) = 20 MPa")
	require.Equal(t, stages.Pass, check(t, s, limits.Tension).State, "a zero limit leans on no strength")
	require.Equal(t, stages.Pass, check(t, s, limits.JackStress).State)

	e.Concrete = e.Concrete.(concrete.EN1992).Shown(2, 30e6)
	require.Equal(t, stages.Pass, run(t, e, journey()[:3]).Status())
}

func TestBondedBarsTakeTension(t *testing.T) {
	e := block()
	plan := stages.Plan{stages.Store{Age: 5, On: stages.At(2.4, 9.6)}, stages.Lift{Age: 7, On: stages.At(0.2, 11.8)}}
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
	// 10 kN/m: beyond x = 5.9 m lie 6.1 m, inside 5.9 m.
	overturning := check(t, s, limits.Overturning)
	require.InDelta(t, 1.05*10e3*6.1*6.1/2, overturning.Demand.Value, 1)
	require.InDelta(t, 0.95*10e3*5.9*5.9/2, overturning.Limit.Value, 1)
	require.Equal(t, stages.Fail, overturning.State)
	require.Equal(t, stages.Fail, check(t, s, limits.Uplift).State)
	// Equilibrium about support 2 in both checks: R_EQU·5.4 m = stabilising − overturning.
	uplift := check(t, s, limits.Uplift)
	require.InDelta(t, (overturning.Limit.Value-overturning.Demand.Value)/5.4, uplift.Demand.Value, 1)
}

func TestEqualisedPointsShareEvenly(t *testing.T) {
	left := stages.Equalised("left", stages.At(1, 4)...)
	right := stages.Equalised("right", stages.At(8, 11)...)
	e := block()
	plan := stages.Plan{stages.Store{Age: 5, On: stages.At(2.4, 9.6)}, stages.Lift{Age: 7, On: append(left, right...)}}
	r := run(t, e, plan)
	recomputes(t, r)
	s := r.Stages[1].Situations[0]
	for _, reaction := range s.Reactions {
		require.InDelta(t, 30e3, reaction.AtFactorOne, 1e-6)
	}
	for _, at := range s.Stations {
		if at.X == 6 { // 2·30·(6−2.5) − 10·6²/2 = 30 kN·m
			require.InDelta(t, 30e3, at.Weight.My, 1e-6)
		}
		if at.X == 4 { // 30·3 − 10·4²/2 = 10
			require.InDelta(t, 10e3, at.Weight.My, 1e-6)
		}
	}
}

func TestFourPadsAndTorsion(t *testing.T) {
	e := girder(t)
	e.Extra = []stages.ExtraWeight{{Mark: "kerb form", From: 6, To: 18, Weight: 60e3, Y: 2}}
	r := run(t, e, stages.Plan{
		stages.Transfer{Age: 2, Jacking: []tendon.Jacking{jack("BL", "BR")}, On: stages.Pads(1, 0, 24)},
		stages.Store{Age: 3, On: append(stages.Pads(1, 1), stages.Support{X: 23})},
	})
	mass, err := e.MassCentre()
	require.NoError(t, err)
	require.InDelta(t, 60e3*2/mass.Weight, mass.Y, 1e-12)
	pads := r.Stages[0].Situations[0].Reactions
	// 60 kN at y = 2 m gives 120 kN·m, half to each end: ±60/2 m = ±30 kN on each pair.
	require.InDelta(t, 2*30e3, pads[1].AtFactorOne-pads[0].AtFactorOne, 1e-6)
	require.InDelta(t, pads[1].AtFactorOne, pads[3].AtFactorOne, 1e-6)
	total := 0.0
	for _, p := range pads {
		total += p.AtFactorOne
	}
	require.InDelta(t, mass.Weight, total, 1e-6)
	three := r.Stages[1].Situations[0].Reactions
	require.InDelta(t, 120e3/1/2*2, three[1].AtFactorOne-three[0].AtFactorOne, 1e-6, "one line of a single pad takes no torque")
	found := false
	for _, at := range r.Stages[0].Situations[0].Stations {
		if at.X == 3 {
			found = true
			require.InDelta(t, -60e3, at.Weight.T, 1e-6, "T of a downward load at +y between the ends")
		}
	}
	require.True(t, found)
	web := check(t, r.Stages[0].Situations[0], limits.WebShear)
	require.Equal(t, stages.NotEvaluated, web.State)
	require.Contains(t, web.Note, "torsion acts")
}

func TestCantileverOnAClampedSupport(t *testing.T) {
	e := block()
	r := run(t, e, stages.Plan{stages.Store{Age: 10, On: []stages.Support{{X: 6, Clamped: true}}}})
	s := r.Stages[0].Situations[0]
	require.InDelta(t, 120e3, s.Reactions[0].AtFactorOne, 1e-6)
	require.InDelta(t, 10e3*36/2/(0.5*0.64/6), check(t, s, limits.Tension).Demand.Value, 1)
	require.Contains(t, strings.Join(s.Unanswered, "\n"), "clamped support")
	recomputes(t, r)
}

func TestAnswersPutBackHaveNoReserve(t *testing.T) {
	c := stages.Case{Element: girder(t), Plan: journey(), Stage: 1, Standard: limits.EN1992{}}
	strength := stages.Input{Symbol: "f_ck_t", Unit: formula.Pascal, Set: func(c *stages.Case, value float64) error {
		c.Element.Concrete = c.Element.Concrete.Shown(2, value)
		return nil
	}}
	least, governing, err := c.Solve(strength, 5e6, 40e6)
	require.NoError(t, err)
	require.Equal(t, string(limits.StressingStrength), governing.Name)
	require.InDelta(t, 20e6, least, 1, "fcm,0 = 28 MPa")
	again := c
	again.Element.Concrete = c.Element.Concrete.Shown(2, least)
	_, reserve, err := again.Worst()
	require.NoError(t, err)
	require.InDelta(t, 0, reserve, 1e-9)
	require.InDelta(t, 32e6, func() float64 { s, _ := c.Element.Concrete.At(2); return s.Characteristic }(), 1, "the case itself is unchanged")

	c.Stage = 2
	weight := stages.Input{Symbol: "over", Unit: formula.One, Set: func(c *stages.Case, over float64) error {
		c.Element.WeightTolerance.Over = over
		return nil
	}}
	over, _, err := c.Solve(weight, 0, 3)
	require.NoError(t, err)
	require.Greater(t, over, 0.03)
	require.Equal(t, 0.03, c.Element.WeightTolerance.Over, "an input changes a copy")
}

func TestAnUnknownStandardLeavesQuestionsOpen(t *testing.T) {
	r, err := journey().Run(girder(t), limits.All())
	require.NoError(t, err)
	require.Equal(t, stages.NotEvaluated, r.Status())
	require.Contains(t, r.Stages[0].Situations[0].Unanswered, "concrete compression: the standard gives no limit")
	both, err := journey().Run(girder(t), limits.All(limits.EN1992{}, limits.EN1992{Compression: 0.5, Annex: "an annex"}))
	require.NoError(t, err)
	found := 0
	for _, c := range both.Stages[0].Situations[0].Checks {
		if c.Name == string(limits.Compression) {
			found++
		}
	}
	require.Equal(t, 2, found)
}

func TestRunsAreRepeatableAndConcurrent(t *testing.T) {
	e, plan := girder(t), journey()
	want := run(t, e, plan)
	results := make(chan stages.Record, 4)
	for range 4 {
		go func() {
			r, _ := plan.Run(e, limits.EN1992{})
			results <- r
		}()
	}
	for range 4 {
		require.Empty(t, cmp.Diff(want, <-results, cmpopts.EquateEmpty()))
	}
}

func TestDrawnFiguresReachTheRecord(t *testing.T) {
	look := odd{situations: []stages.Situation{{
		Name: "look", Age: 20, Phase: limits.Storing, Standing: true, Supports: stages.At(2, 22),
		Draw: func(e stages.Effects) []stages.Figure {
			return []stages.Figure{{Title: "reaction", Texts: []stages.Text{{Text: e.Situation.Name}}}}
		},
	}}}
	r := run(t, girder(t), append(journey()[:3], look))
	require.Equal(t, "look", r.Stages[3].Situations[0].Figures[0].Texts[0].Text)
}

func TestZeroValues(t *testing.T) {
	require.Equal(t, limits.Factors{WeightLeast: 1, WeightMost: 1, PrestressLeast: 1, PrestressMost: 1, VariableMost: 1}, limits.Factors{}.Filled())
	e := block()
	a := run(t, e, stages.Plan{stages.Store{Age: 5, On: stages.At(2, 10)}})
	e.UnitWeight = 25e3
	b := run(t, e, stages.Plan{stages.Store{Age: 5, On: stages.At(2, 10)}})
	require.Equal(t, a.Stages, b.Stages, "zero unit weight is 25 kN/m³")
	require.Empty(t, stages.Record{}.Stages)
	require.Equal(t, stages.NotEvaluated, stages.Record{}.Status())
}

func BenchmarkPlanOfSixStages(b *testing.B) {
	e, plan := girder(b), journey()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := plan.Run(e, limits.EN1992{}); err != nil {
			b.Fatal(err)
		}
	}
}
