package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Each test here is a case that once looked safe and was not.

// stiffBox is a box without tendons whose weight lies off every axis.
func stiffBox(t testing.TB) stages.Element {
	shape, err := section.Box{
		Depth: 2.3, TopWidth: 9, RootWidth: 4.9, BottomWidth: 4.3, TopSlab: 0.2, BottomSlab: 0.2, WebThickness: 0.34, CantileverRoot: 0.35, CantileverTip: 0.16,
	}.Shape()
	require.NoError(t, err)
	return stages.Element{
		Mark: "E-07", Length: 34, Section: shape, WeightTolerance: loads.PlusMinus(0),
		Concrete: concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR},
		Extra:    []stages.ExtraWeight{{Mark: "anchor block", From: 2, To: 9, Weight: 210e3, Y: 1.1, Z: 1}},
	}
}

// shares are the ends of what four supports can receive of a weight by statics:
// a share by statics, and as much of (+, −, −, +) as leaves none pulling.
func shares(m stages.Mass, y, left, right float64) (least, most [4]float64) {
	onLeft := m.Weight * (right - m.X) / (right - left)
	twist := m.Weight * m.Y / (4 * y) // taken half by each end
	base := [4]float64{onLeft/2 - twist, onLeft/2 + twist, (m.Weight-onLeft)/2 - twist, (m.Weight-onLeft)/2 + twist}
	up, down := math.Min(base[1], base[2]), math.Min(base[0], base[3])
	for i, sign := range [4]float64{1, -1, -1, 1} {
		a, b := base[i]+sign*up, base[i]-sign*down
		least[i], most[i] = math.Min(a, b), math.Max(a, b)
	}
	return least, most
}

func TestFourPadsAreNotAQuarterEach(t *testing.T) {
	e := stiffBox(t)
	m, err := e.CentreOfGravity()
	require.NoError(t, err)
	rigid := append(stages.Pads(1.9, 1.6), stages.Pads(1.9, 32.4)...)
	hung := make([]stages.Support, 4)
	for i, s := range rigid {
		s.Z = 2.3
		hung[i] = s
	}
	r := run(t, e, stages.Plan{stages.Store{Age: 7, On: rigid}, stages.Lift{Dynamic: loads.AtRest(), Age: 7, On: hung}, stages.Store{Age: 7, On: rigid}})
	least, most := shares(m, 1.9, 1.6, 32.4)
	for _, s := range []stages.SituationRecord{r.Stages[0].Situations[0], r.Stages[1].Situations[0]} {
		zeros := 0
		for i, p := range s.Reactions {
			require.True(t, p.Bounded)
			require.Nil(t, p.Share, "no band to measure by")
			require.InDelta(t, least[i], p.Static.Least, 1e-6*m.Weight, "%s, support %d", s.Name, i+1)
			require.InDelta(t, most[i], p.Static.Most, 1e-6*m.Weight)
			require.Greater(t, p.Static.Most, 0.4*m.Weight, "about half, not a quarter")
			if p.Static.Least < 1 {
				zeros++
			}
		}
		require.GreaterOrEqual(t, zeros, 2)
		require.NotEmpty(t, s.NotChecked)
	}
	// The torque of either way is in the walls: that of a quarter each is not.
	bounded := check(t, r.Stages[0].Situations[0], limits.WebShear).Demand.Value
	even := run(t, e, stages.Plan{stages.Store{Age: 7, On: paired(rigid)}})
	require.Greater(t, bounded, check(t, even.Stages[0].Situations[0], limits.WebShear).Demand.Value+0.2e6)
}

// One pad of four 5 mm out of the plane of the others changes every reaction by
// d/(s²L/GJ + 4/k).
func TestElasticPadsOutOfLevel(t *testing.T) {
	e := stiffBox(t)
	const k, d, left, right, y = 80e6, 0.005, 1.6, 30.1, 1.9
	exact, err := e.Section.At(0).Torsion()
	require.NoError(t, err)
	state, err := e.Concrete.At(7)
	require.NoError(t, err)
	stiffness := state.Modulus / 2.4 * exact.Constant
	change := d / (4*y*y*(right-left)/stiffness + 4/k)
	store := func(level float64) []stages.Reaction {
		a, err := stages.Plan{stages.Store{Age: 7, OutOfLevel: level, On: stages.Elastic(k, stages.Pads(y, left, right)...)}}.Analyse(e, limits.EN1992{})
		require.NoError(t, err)
		effects, err := a.Effects(1, 1)
		require.NoError(t, err)
		return effects.Reactions
	}
	for i, p := range store(d) {
		require.False(t, p.Bounded)
		require.NotNil(t, p.Share)
		require.InEpsilon(t, change, p.Static.Most-p.Nominal, 1e-6, "support %d", i+1)
		require.InEpsilon(t, change, p.Nominal-p.Static.Least, 1e-6)
	}
	twice := store(2 * d)
	require.InEpsilon(t, 2*change, twice[2].Static.Most-twice[2].Nominal, 1e-6)
	// The eccentric weight goes to the pads as their stiffness and the box's say, not
	// half to each end: the block near the left end twists the left pads more.
	level := store(d)
	require.Greater(t, level[1].Nominal-level[0].Nominal, level[3].Nominal-level[2].Nominal)
	m, err := e.CentreOfGravity()
	require.NoError(t, err)
	require.InEpsilon(t, m.Weight*m.Y/y, level[1].Nominal-level[0].Nominal+level[3].Nominal-level[2].Nominal, 1e-9)
}

func TestTwoLinkedPairsHoldNoRoll(t *testing.T) {
	linked := append(stages.Equalised("left", stages.Pads(1.9, 1.6)...), stages.Equalised("right", stages.Pads(1.9, 32.4)...)...)
	r := run(t, stiffBox(t), stages.Plan{stages.Store{Age: 7, On: linked}})
	roll := check(t, r.Stages[0].Situations[0], limits.Roll)
	require.Equal(t, stages.Fail, roll.State)
	require.Contains(t, roll.Note, "must be at least one pair that is not linked")
	require.Equal(t, stages.Fail, r.Status())
	for i := range linked {
		linked[i].Z = 2.5
	}
	hung := run(t, stiffBox(t), stages.Plan{stages.Store{Age: 7, On: paired(stages.Pads(1.9, 1.6, 32.4))}, stages.Lift{Dynamic: loads.AtRest(), Age: 7, On: linked}, stages.Store{Age: 7, On: paired(stages.Pads(1.9, 1.6, 32.4))}})
	require.Equal(t, stages.Pass, check(t, hung.Stages[1].Situations[0], limits.Roll).State, "what hangs from above its centre of gravity may turn")
	for i := range linked {
		linked[i].Z = 0.1
	}
	low := run(t, stiffBox(t), stages.Plan{stages.Store{Age: 7, On: paired(stages.Pads(1.9, 1.6, 32.4))}, stages.Lift{Dynamic: loads.AtRest(), Age: 7, On: linked}, stages.Store{Age: 7, On: paired(stages.Pads(1.9, 1.6, 32.4))}})
	require.Equal(t, stages.Fail, check(t, low.Stages[1].Situations[0], limits.Roll).State)
}

// A single line of pads, or of bearings beside the axis: statics across is unknown.
func TestALineOfPadsDoesNotPass(t *testing.T) {
	for _, y := range []float64{0, 0.3} {
		r := run(t, stiffBox(t), stages.Plan{stages.Store{Age: 7, On: []stages.Support{{X: 1.6, Y: y}, {X: 32.4, Y: y}}}})
		roll := check(t, r.Stages[0].Situations[0], limits.Roll)
		require.Contains(t, []stages.State{stages.Fail, stages.NotEvaluated}, roll.State)
		require.NotEmpty(t, roll.Note)
		require.NotEqual(t, stages.Pass, r.Status())
	}
	// On a line that is askew the centre of gravity must still balance: it does not.
	askew := run(t, stiffBox(t), stages.Plan{stages.Store{Age: 7, On: []stages.Support{{X: 1.6, Y: -0.4}, {X: 32.4, Y: 0.4}}}})
	require.Equal(t, stages.Fail, check(t, askew.Stages[0].Situations[0], limits.Roll).State)
}

// Over a lift point inside the zone of the anchors the prestress has not arrived at
// the tips of an 11 m wide deck.
func TestALiftPointInsideTheAnchorageZoneIsEvaluated(t *testing.T) {
	shape, err := section.Box{
		Depth: 2.4, TopWidth: 11, RootWidth: 5.6, BottomWidth: 5, TopSlab: 0.25, BottomSlab: 0.22, WebThickness: 0.4, CantileverRoot: 0.4, CantileverTip: 0.2,
	}.Shape()
	require.NoError(t, err)
	e := stages.Element{
		Mark: "W", Length: 32, Section: shape, WeightTolerance: loads.PlusMinus(0), Concrete: concrete.EN1992{Fck: 50e6, Cement: concrete.ClassR},
		Extra: []stages.ExtraWeight{{Mark: "left block", From: 0, To: 0, Weight: 1e6, Z: 1.2}, {Mark: "right block", From: 32, To: 32, Weight: 1e6, Z: 1.2}},
	}
	for i, y := range []float64{2.4, -2.4} {
		e.Tendons = append(e.Tendons, tendon.Tendon{
			Mark: []string{"L", "R"}[i], Strand: tendon.Y1860S7x157, NoFriction: true, Strands: 19, Duct: 0.1, Elevation: tendon.Level(0, 32, 1.6), Plan: tendon.Level(0, 32, y),
			Approval: tendon.Approval{Reference: "invented", MeanStrength: 28e6, AnchorSpacing: 0.3, EdgeDistance: 0.1},
		})
	}
	on := paired(stages.Pads(2, 2.3, 29.7))
	plan := stages.Plan{
		stages.Transfer{Age: 7, Jacking: []tendon.Jacking{fromLeft("L", "R")}, On: on},
		stages.Lift{Dynamic: loads.AtRest(), Age: 7, On: paired(hooks(2, 2.3, 29.7))}, stages.Store{Age: 7, On: on},
	}
	for i := range plan[1].(stages.Lift).On {
		plan[1].(stages.Lift).On[i].Z = 2.4
	}
	a, err := plan.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	lift, err := a.Effects(2, 1)
	require.NoError(t, err)
	g := shape.Properties()
	tip := section.Point{Y: 5.5, Z: 2.4}
	require.Negative(t, lift.Stress(2.3).At(tip), "with the tendons in full there is no tension: the beam formula would pass")
	alone := (1e6*2.3 + 25e3*g.Area*2.3*2.3/2) * g.Top / g.SecondMomentY
	r, err := a.Record()
	require.NoError(t, err)
	tension := check(t, r.Stages[1].Situations[0], limits.Tension)
	require.Equal(t, stages.Fail, tension.State)
	require.GreaterOrEqual(t, tension.Demand.Value, alone)
	require.NotEqual(t, stages.Pass, r.Status())
}

// One anchor on a blister in the middle of a beam must not take its other end out
// of the check.
func TestABlisterAnchorSwitchesNothingOff(t *testing.T) {
	e := bare(straight("T", 18, 40, 0, 0.5))
	e.Section, e.Length = rect(t, 0.6, 1.2), 40
	on := paired(stages.Pads(0.2, 10, 30))
	plan := stages.Plan{
		stages.Transfer{Age: 28, Jacking: []tendon.Jacking{fromLeft("T")}, On: on},
		stages.Lift{Age: 28, On: paired(hooks(0.2, 10, 30)), Dynamic: loads.Dynamic{Most: 1.2}}, stages.Store{Age: 28, On: on},
	}
	r := run(t, e, plan)
	tension := check(t, r.Stages[1].Situations[0], limits.Tension)
	// Over the left lift point there is no tendon: 18 kN/m·10²/2·1.2 over b·h²/6.
	require.InEpsilon(t, 25e3*0.72*50*1.2/(0.6*1.44/6), tension.Demand.Value, 1e-6)
	require.InDelta(t, 10, tension.X, 1e-3)
	require.Equal(t, stages.Fail, tension.State)
	require.NotEqual(t, stages.NotEvaluated, check(t, r.Stages[1].Situations[0], limits.Compression).State)
}

func TestTheMeasuredReactionHasNoDynamicFactor(t *testing.T) {
	e := crooked(t)
	lifted := func(d loads.Dynamic) []stages.Reaction {
		plan := crookedPlan()
		lift := plan[1].(stages.Lift)
		lift.Dynamic = d
		plan[1] = lift
		a, err := plan.Analyse(e, limits.EN1992{})
		require.NoError(t, err)
		effects, err := a.Effects(2, 1)
		require.NoError(t, err)
		return effects.Reactions
	}
	still, moving := lifted(loads.AtRest()), lifted(loads.Dynamic{Least: 0.8, Most: 1.3})
	for i := range still {
		require.Equal(t, still[i].Static, moving[i].Static)
		require.InEpsilon(t, still[i].Nominal*1.03, moving[i].Static.Most, 1e-9, "nothing but the tolerance of the weight")
		require.InEpsilon(t, still[i].Nominal*0.97, moving[i].Static.Least, 1e-9)
		require.NotNil(t, moving[i].Share)
		require.Equal(t, *still[i].Share, *moving[i].Share)
		require.InEpsilon(t, still[i].Nominal*1.03*1.3, moving[i].Characteristic.Most, 1e-9)
		require.InEpsilon(t, still[i].Nominal*0.97*0.8, moving[i].Characteristic.Least, 1e-9)
		require.InEpsilon(t, still[i].Nominal*1.03*1.3*1.35, moving[i].Ultimate.Most, 1e-9)
	}
	sum := 0.0
	for _, p := range still {
		sum += p.Share.Least
		require.InEpsilon(t, p.Share.Least, p.Share.Most, 1e-9, "one cause: a share is a number")
	}
	require.InDelta(t, 1, sum, 1e-9)
}

// A store that lasts is checked, and drawn, at its end as well: by the stage's own
// functions too.
func TestAStagesOwnCheckRunsAtItsEnd(t *testing.T) {
	var seen []float64
	own := odd{situations: []stages.Situation{{
		Name: "wait", Age: 20, Until: 400, Standing: true, Phase: limits.Storing, Supports: pads(paired(stages.Pads(0.2, 0.3, 11.6))),
		Check: func(e stages.Effects, _ limits.Standard) ([]stages.OwnCheck, error) {
			seen = append(seen, e.Stress(5).At(section.Point{Z: 0.25}))
			limit := limits.Limit{Name: "own", Sense: limits.AtMost, Line: formula.Given(formula.Q("lim", 1, formula.One, "limit"), formula.Mechanics)}
			return []stages.OwnCheck{stages.NewCheck(limit, formula.Q("age", e.Situation.Age/100, formula.One, "hundreds of days")).Derived()}, nil
		},
		Draw: func(e stages.Effects) []stages.Figure { return []stages.Figure{{Title: e.Situation.Name}} },
	}}}
	r := run(t, stressedBlock(), stages.Plan{stages.Transfer{Age: 5, Jacking: []tendon.Jacking{fromLeft("T")}}, own})
	require.Len(t, r.Stages[1].Situations, 2)
	begin, end := r.Stages[1].Situations[0], r.Stages[1].Situations[1]
	require.Equal(t, stages.Pass, check(t, begin, "own").State)
	require.Equal(t, stages.Fail, check(t, end, "own").State, "400 days are more than 100")
	require.Equal(t, "wait", begin.Figures[0].Title)
	require.Equal(t, "wait, at its end", end.Figures[0].Title)
	require.GreaterOrEqual(t, len(seen), 2)
	require.Greater(t, seen[len(seen)-1], seen[0]+0.2e6, "less compression at the tendon when the losses are in")
	require.Equal(t, stages.Fail, r.Status())
}

// Whatever an extra weight is called, it is a weight.
func TestAnExtraWeightNamedGirderIsPrinted(t *testing.T) {
	for _, name := range []string{"girder", "self-weight", "G", "weight"} {
		e := block()
		e.Extra = []stages.ExtraWeight{{Mark: name, From: 3, To: 4, Weight: 37e3, Y: 0.1, Z: 0.9}}
		r := run(t, e, stages.Plan{stages.Store{Age: 5, On: paired(stages.Pads(0.2, 2.4, 9.6))}})
		found := 0
		for _, w := range r.Weights {
			if w.Mark == name && !w.Own {
				found++
				require.Equal(t, 37e3, w.Force)
				require.Equal(t, []float64{3, 4, 3.5, 0.1, 0.9}, []float64{w.From, w.To, w.Centre, w.Y, w.Z})
			}
			require.NotZero(t, w.Force, w.Mark)
		}
		require.Equal(t, 1, found, name)
		var given []float64
		for _, group := range r.Inputs {
			for _, n := range group.Lines {
				line, err := r.Line(n)
				require.NoError(t, err)
				if group.Title == "Self-weight, nominal" && line.Expression != "" {
					value, err := line.Recompute()
					require.NoError(t, err)
					require.InDelta(t, line.Result.Value, value, 1e-4*math.Max(0.1, line.Result.Value), line.Result.Symbol) // from printed digits: 0.01 mm, five figures
				}
				if line.Result.Symbol == "G_2" {
					given = append(given, line.Result.Value)
				}
				if line.Result.Symbol == "G" {
					require.InDelta(t, 120e3+37e3, line.Result.Value, 1e-6)
				}
			}
		}
		require.Equal(t, []float64{37e3}, given)
	}
}

func TestUnitWeightInOtherUnitsIsRefusedByARun(t *testing.T) {
	for _, bad := range []float64{25, 2500} {
		e := block()
		e.UnitWeight = bad
		_, err := stages.Plan{stages.Store{Age: 5, On: stages.At(2, 10)}}.Run(e, limits.EN1992{})
		require.ErrorIs(t, err, stages.ErrStage)
		require.ErrorContains(t, err, "is it in kN/m³ or kg/m³?")
	}
}

// What is not evaluated governs over any margin, and an answer does not pass it by.
func TestAnswersDoNotPassOverWhatIsNotEvaluated(t *testing.T) {
	on := paired(frames(0.2, 2.4, 9.6))
	lift := stages.Lift{Dynamic: loads.AtRest(), Age: 7, On: paired(hooks(0.2, 2.4, 9.6))}
	c := stages.Case{Subject: block(), Plan: stages.Plan{stages.Store{Age: 5, On: on}, lift}, Stage: 2, Standard: limits.EN1992{}}
	check, reserve, err := c.Worst()
	require.NoError(t, err)
	require.Equal(t, limits.SetDown, check.Kind)
	require.Equal(t, stages.NotEvaluated, check.State)
	require.Equal(t, -1.0, reserve)
	r := run(t, block(), c.Plan)
	require.Equal(t, stages.NotEvaluated, r.Status(), "a lift that nobody sets down does not pass")
	dynamic := stages.Input{Symbol: "δ", Unit: formula.One, Set: func(_ *stages.Girder, p *stages.Plan, most float64) error {
		l := lift
		l.Dynamic = loads.Dynamic{Most: most}
		(*p)[1] = l
		return nil
	}}
	_, _, err = c.Solve(dynamic, 1, 5)
	require.ErrorIs(t, err, formula.ErrNoRoot)
	require.ErrorContains(t, err, "stage 2, δ: no root between 1 and 5: at 5 it does not pass (principal tension in the web is not evaluated), at 1 it does not pass (set-down is not evaluated): must be a range in which")

	c.Plan = append(c.Plan, stages.Store{Age: 7, On: on})
	_, reserve, err = c.Worst()
	require.NoError(t, err)
	require.Positive(t, reserve)
	most, _, err := c.Solve(dynamic, 1, 5)
	require.NoError(t, err)
	require.Equal(t, stages.Pass, statusAt(t, c, dynamic, most-1e-6))
	require.NotEqual(t, stages.Pass, statusAt(t, c, dynamic, most+1e-6))

	// A question without an answer.
	c.Standard = atMost(limits.Compression, 100e6)
	check, reserve, err = c.Worst()
	require.NoError(t, err)
	require.Equal(t, stages.NotEvaluated, check.State)
	require.Equal(t, -1.0, reserve)
}

func statusAt(t *testing.T, c stages.Case, input stages.Input, value float64) stages.State {
	t.Helper()
	g, plan := c.Subject.Girder(), append(stages.Plan{}, c.Plan...)
	require.NoError(t, input.Set(&g, &plan, value))
	r, err := plan.Run(g, c.Standard)
	require.NoError(t, err)
	return r.Status()
}

func TestASupportBesideTheAxisKeepsItsSide(t *testing.T) {
	s := run(t, crooked(t), crookedPlan()).Stages[2].Situations[0]
	for i, y := range []float64{-0.9, 1, 0.1} {
		require.Equal(t, y, s.Supports[i].Y)
		require.Equal(t, y, s.Reactions[i].Y)
		require.Equal(t, 2.0, s.Supports[i].Z)
	}
	m, err := crooked(t).CentreOfGravity()
	require.NoError(t, err)
	require.Positive(t, m.Y, "the kerb lies to the left")
	moment := 0.0
	for _, p := range s.Reactions {
		moment += p.Nominal * p.Y
	}
	require.InEpsilon(t, m.Weight*m.Y, moment, 1e-9)
}
