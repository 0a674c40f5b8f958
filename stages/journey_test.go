package stages_test

import (
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// calm is the plain block with bars and one tendon on its axis: nothing that an
// anchor does in its zone brings tension.
func calm() stages.Element {
	e := block()
	e.WeightTolerance = loads.PlusMinus(0.03)
	e.Tendons = []tendon.Tendon{straight("T", 0, 12, 0, 0.4)}
	return e
}

func calmPlan() stages.Plan {
	return stages.Plan{
		stages.Transfer{Age: 5, Jacking: []tendon.Jacking{fromLeft("T")}, On: paired(stages.Pads(0.2, 0.1, 11.9))},
		stages.Lift{Age: 5, On: paired(hooks(0.2, 2.1, 9.4)), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}},
		stages.Store{Age: 6, Until: 14, On: paired(stages.Pads(0.2, 1.2, 11)), Actions: []stages.Action{
			{Mark: "stores", Loads: loads.Set{Points: []loads.Point{{At: 12, Force: 1e3}}}},
		}},
		stages.Stress{Age: 14, Grout: []string{"T"}, GroutAge: 16},
		stages.Lift{Age: 28, On: paired(hooks(0.2, 2.2, 9.8)), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}},
		stages.Seat{Age: 28, On: paired(stages.Pads(0.2, 0.4, 11.7))},
	}
}

func TestJourneyPassesAndRecomputes(t *testing.T) {
	r := run(t, calm(), calmPlan())
	recomputes(t, r)
	for _, stage := range r.Stages {
		for _, s := range stage.Situations {
			for _, c := range s.Checks {
				require.Equal(t, stages.Pass, c.State, "%s in %s: %s", c.Name, s.Name, c.Note)
			}
			require.Empty(t, s.Unanswered)
		}
	}
	require.Equal(t, stages.Pass, r.Status())
	require.Len(t, r.Stages, 6)
	perStage, worst := r.Governing()
	require.Len(t, perStage, 6)
	for _, c := range perStage {
		require.False(t, c.Utilisation > perStage[worst].Utilisation && c.State == perStage[worst].State)
	}
	both := run(t, girder(t), journey())
	recomputes(t, both)
	require.Len(t, both.Stages[3].Situations, 2, "stressing and grouting")
}

// The tables and the engine reach the stress by two ways: the engine adds planes,
// the tables multiply out their printed rows. The stations, which count every
// tendon in full, are a coarse sample of what the engine found.
func TestDerivationMeetsTheEngine(t *testing.T) {
	skew := girder(t)
	skew.Tendons = skew.Tendons[:3] // AL, AR, BL: lateral bending
	plan := stages.Plan{
		stages.Transfer{Age: 2, Jacking: []tendon.Jacking{jack("BL")}, On: paired(stages.Pads(1, 0, 24))},
		stages.Stress{Age: 14, Jacking: []tendon.Jacking{jack("AL", "AR")}, Grout: []string{"BL"}},
		stages.Seat{Age: 28, On: paired(stages.Pads(1, 0.5, 23.5))},
	}
	for name, r := range map[string]stages.Record{"journey": run(t, girder(t), journey()), "skew": run(t, skew, plan)} {
		recomputes(t, r)
		for _, stage := range r.Stages {
			for _, s := range stage.Situations {
				compression, tension := check(t, s, limits.Compression), check(t, s, limits.Tension)
				for _, at := range stages.StationsOf(s.Stations) {
					// the rows are written to six digits of the largest, 10 Pa here
					require.LessOrEqual(t, -compression.Demand.Value, math.Min(at.TopLeast, at.BottomLeast)+50, "%s, %s", name, s.Name)
					require.GreaterOrEqual(t, tension.Demand.Value, math.Max(at.TopMost, at.BottomMost)-50, "%s, %s", name, s.Name)
				}
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
	after := stages.StationsOf(r.Stages[2].Situations[0].Stations)
	require.NotEmpty(t, after)
	for k, at := range stages.StationsOf(never.Stages[1].Situations[0].Stations) {
		require.InDelta(t, at.Prestress.N, after[k].Prestress.N, 2e-3*math.Abs(at.Prestress.N), "x = %g", at.X)
		require.InDelta(t, at.Prestress.My, after[k].Prestress.My, 3e-3*math.Abs(at.Prestress.My)+1e3)
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

// A tendon let down before a later stressing is gone: it neither loses nor shows,
// with creep or without.
func TestATendonLetDownLosesNothingMore(t *testing.T) {
	plan := stages.Plan{
		stages.Transfer{Age: 5, Jacking: []tendon.Jacking{jack("BL")}, On: paired(stages.Pads(1, 0, 24))},
		stages.Stress{Age: 8, Release: []string{"BL"}},
		stages.Stress{Age: 9, Jacking: []tendon.Jacking{jack("BR")}},
	}
	for _, e := range []stages.Element{girder(t), longTerm(girder(t))} {
		r := run(t, e, plan)
		recomputes(t, r)
		require.Empty(t, r.Stages[1].Situations[0].Tendons)
		left := r.Stages[2].Situations[0].Tendons
		require.Len(t, left, 1)
		require.Equal(t, "BR", left[0].Mark)
	}
}

func TestMirroredPlanGivesMirroredResults(t *testing.T) {
	e := girder(t)
	e.Extra = e.Extra[:1]
	m := girder(t)
	m.Extra = []stages.ExtraWeight{{Mark: "diaphragm", From: 24 - 0.8, To: 24 - 0.2, Weight: 40e3, Z: 0.8}}
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
			if i == 1 && kind == limits.Overturning {
				continue // what hangs does not overturn
			}
			p, q := check(t, a.Stages[i].Situations[0], kind), check(t, b.Stages[i].Situations[0], kind)
			require.InDelta(t, p.Demand.Value, q.Demand.Value, 1e-7*math.Max(1e6, math.Abs(p.Demand.Value)), kind)
			require.InDelta(t, p.Margin, q.Margin, 1e-7*math.Max(1e6, math.Abs(p.Margin)), kind)
			require.InDelta(t, p.X, 24-q.X, 0.01, kind)
		}
	}
}

func TestExtremesAreNotBelowABruteForceSearch(t *testing.T) {
	e := girder(t)
	var stress func(float64) section.Plane
	lift := odd{situations: []stages.Situation{{Name: "look", Age: 2.5, Phase: limits.Lifting, Dynamic: loads.AtRest(), Supports: []stages.Support{{X: 2.8, Z: 2, Role: stages.LiftPoint}, {X: 21.2, Z: 2, Role: stages.LiftPoint}},
		Check: func(effects stages.Effects, _ limits.Standard) ([]stages.OwnCheck, error) {
			stress = effects.Stress
			require.InDelta(t, effects.Forces(12).My, effects.Forces(12-1e-6).My, 1e3)
			return nil, nil
		}}}}
	e.WeightTolerance = loads.PlusMinus(0)
	r, err := stages.Plan{stages.Transfer{Age: 2, Jacking: []tendon.Jacking{jack("BL", "BR")}}, lift}.Run(e, limits.EN1992{PrestressInferior: 1, PrestressSuperior: 1})
	require.NoError(t, err)
	// Where the anchors have spread over the whole section no part of a tendon is
	// left out, and the planes of the stage's own check are all there is.
	c, tension := check(t, r.Stages[1].Situations[0], limits.Compression), check(t, r.Stages[1].Situations[0], limits.Tension)
	shape := e.Section.At(0)
	least, most := math.Inf(1), math.Inf(-1)
	for i := range 4001 {
		plane := stress(24 * float64(i) / 4000)
		for _, corner := range shape.Corners() {
			least, most = math.Min(least, plane.At(corner)), math.Max(most, plane.At(corner))
		}
	}
	require.GreaterOrEqual(t, c.Demand.Value, -least-1e-3)
	require.GreaterOrEqual(t, tension.Demand.Value, most-1e-3)
}

func TestWithoutATestUpToThreeDaysIsConditional(t *testing.T) {
	e := calm()
	e.Concrete = concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR}
	plan := calmPlan()[:3]
	start := plan[0].(stages.Transfer)
	start.Age = 2
	plan[0] = start
	r := run(t, e, plan)
	require.Equal(t, stages.Conditional, r.Status())
	s := r.Stages[0].Situations[0]
	c := check(t, s, limits.Compression)
	require.Equal(t, stages.Conditional, c.State)
	require.InDelta(t, c.Demand.Value/0.6, c.Required.Value, 1, "the strength at which 0.6·fck(t) is used up")
	strength := check(t, s, limits.StressingStrength)
	require.Equal(t, stages.Conditional, strength.State)
	require.InDelta(t, 25e6-8e6, strength.Required.Value, 1, "fcm,0 = 25 MPa asks for fck(t) = 17 MPa")
	require.Equal(t, stages.Pass, check(t, s, limits.JackStress).State)
	require.Len(t, s.HoldPoints, 3)
	require.Equal(t, stages.AtAnchors, s.HoldPoints[1].Kind)
	require.Equal(t, "friction", s.HoldPoints[2].Kind)
	largest := 0.0
	for _, k := range s.Checks {
		largest = math.Max(largest, k.Required.Value)
	}
	require.Greater(t, largest, 17e6)
	require.Equal(t, largest, s.HoldPoints[0].Required.Value, "the largest of what is asked for")

	e.Concrete = e.Concrete.(concrete.EN1992).Shown(2, 30e6)
	require.Equal(t, stages.Pass, run(t, e, plan).Status())

	bare := e
	bare.Concrete, bare.Bars = concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR}, nil
	require.NotEqual(t, stages.Conditional, check(t, run(t, bare, plan).Stages[0].Situations[0], limits.Tension).State, "a zero limit leans on no strength")
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
		require.Empty(t, cmp.Diff(want, <-results, cmpopts.EquateEmpty(), cmpopts.IgnoreUnexported(stages.Check{})))
	}
}

func TestDrawnFiguresReachTheRecord(t *testing.T) {
	look := odd{situations: []stages.Situation{{
		Name: "look", Age: 20, Phase: limits.Storing, Standing: true, Supports: pads(stages.Pads(1, 2, 22)),
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
