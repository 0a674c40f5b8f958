package stages_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// about answers one kind of question by a standard of its own.
type about struct {
	kind limits.Kind
	limits.EN1992
}

func (a about) Limits(q limits.Question) ([]limits.Limit, error) {
	if q.Kind != a.kind {
		return nil, nil
	}
	return a.EN1992.Limits(q)
}

// Of several standards every limit is checked, the stricter one wherever it stands: for
// each kind of question a second answer is not lost behind the first.
func TestEveryAnswerToAQuestionIsChecked(t *testing.T) {
	require.Equal(t, stages.Pass, run(t, calm(), calmPlan()).Status())
	for kind, strict := range map[limits.Kind]limits.EN1992{
		limits.Compression:      {Compression: 1e-3},
		limits.Tension:          {TensionWithBars: 1e-3},
		limits.TensionSteel:     {BarStress: 1e6},
		limits.PrincipalTension: {TensionCoefficient: 1e-3},
		limits.WebShear:         {CompressionCoefficient: 1e-3},
		limits.JackStress:       {JackTensile: 0.1},
		limits.LockOffStress:    {LockOffTensile: 0.1},
		limits.Uplift:           {EquilibriumMost: 9, EquilibriumLeast: 0.05},
		limits.Overturning:      {EquilibriumLeast: 1e-3},
		limits.Sliding:          {FrictionFactor: 9},
	} {
		for _, standard := range [2][]limits.Standard{{limits.All(limits.EN1992{}, about{kind, strict})}, {limits.All(about{kind, strict}, limits.EN1992{})}}[answered[kind]%2] {
			a, err := calmPlan().Analyse(calm(), standard)
			require.NoError(t, err)
			r, err := a.Record()
			require.NoError(t, err)
			stage := answered[kind]
			var states []stages.State
			for _, s := range r.Stages[stage-1].Situations {
				for _, c := range s.Checks {
					if c.Kind == kind {
						states = append(states, c.State)
					}
				}
			}
			require.GreaterOrEqual(t, len(states), 2, kind)
			require.Contains(t, states, stages.Fail, kind)
			_, reserve, err := a.Margin(stage)
			require.NoError(t, err)
			require.Negative(t, reserve, kind)
		}
	}
}

// At joints too: no tension by the one, a compression that is not there by the other.
func TestEveryAnswerAtAJointIsChecked(t *testing.T) {
	plan := stages.Plan{stages.Transfer{Age: 28, Jacking: jackings("T"), On: paired(stages.Pads(0.2, 5, 7.2))}}
	for _, standard := range []limits.Standard{limits.All(limits.EN1992{}, atMost(limits.Tension, -90e6)), limits.All(atMost(limits.Tension, -90e6), limits.EN1992{})} {
		r, err := plan.Run(joined(stages.Epoxied, stages.Dry), standard)
		require.NoError(t, err)
		var states []stages.State
		for _, c := range r.Stages[0].Situations[0].Checks {
			if len(c.Name) > 16 && c.Name[:16] == "tension at joint" {
				states = append(states, c.State)
			}
		}
		slices.Sort(states)
		require.Equal(t, []stages.State{stages.Fail, stages.Pass}, states)
	}
}

// Where nothing is stated about how four pads share, the tension at a joint is the
// worst of every way, and so is that on a slope of its tilts.
func TestTensionAtAJointIsTheWorstOfEveryWay(t *testing.T) {
	g := stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Epoxied, segment("A", 5), segment("B", 7))}
	g.Pieces[0].Element.Extra = []stages.ExtraWeight{{Mark: "block", From: 3, To: 3, Weight: 30e3, Y: 0.1}}
	four := []stages.Support{{X: 1, Y: -0.2}, {X: 2.5, Y: 0.2}, {X: 9, Y: -0.2}, {X: 11, Y: 0.15}}
	at := func(on []stages.Support) (float64, bool) {
		s := run(t, g, stages.Plan{stages.Store{Age: 28, On: on}}).Stages[0].Situations[0]
		for _, p := range s.Reactions {
			if p.Nominal < 0 {
				return 0, false
			}
		}
		return jointCheck(s).Demand.Value, true
	}
	want, stand := 0.0, 0
	for out := range four {
		if v, stands := at(append(append([]stages.Support{}, four[:out]...), four[out+1:]...)); stands {
			want = math.Max(want, v)
			stand++
		}
	}
	require.GreaterOrEqual(t, stand, 2)
	for range four {
		four = append(four[1:], four[0])
		got, _ := at(four)
		require.InEpsilon(t, want, got, 1e-6)
	}
}

// Documents cover every situation of a stage, what is not evaluated as what is not
// answered, and nothing is a hold point that needed none.
func TestDocumentsOfAStageOfSeveralSituations(t *testing.T) {
	e := bare(straight("T", 0, 12, 0, 0.3), straight("U", 0, 12, 0, 0.5))
	pull := func(mark string) tendon.Jacking { return fromLeft(mark) }
	plan := stages.Plan{
		stages.Store{Age: 27, On: dunnage(0.1, 11.9)},
		stages.Covered(stages.Stress{Age: 28, Jacking: []tendon.Jacking{pull("T"), pull("U")}, Grout: []string{"T"}, On: dunnage(0.1, 11.9)},
			stages.Document{Covers: limits.JackStress, Number: "J-1", Revision: "A", Status: "approved"}, stages.Document{Covers: limits.Overturning, Number: "O-1", Revision: "A", Status: "approved"}),
	}
	r, err := plan.Run(e, silent{limits.JackStress})
	require.NoError(t, err)
	require.Len(t, r.Stages[1].Situations, 3)
	for i, s := range r.Stages[1].Situations {
		require.Empty(t, s.Unanswered)
		documents := 0
		for _, h := range s.HoldPoints {
			if h.Document != nil {
				documents++
				require.Equal(t, string(limits.JackStress), h.Kind, "overturning was evaluated: its document is no hold point")
			}
		}
		require.Equal(t, []int{1, 1, 0}[i], documents, "grouting jacks nothing")
	}
	// What is not evaluated: pads that do not rub.
	on := paired(frames(0.4, 2.4, 9.6))
	for i := range on {
		on[i].Role, on[i].Holds = stages.Bearing, stages.HoldsBoth
	}
	for covers, want := range map[limits.Kind]stages.State{limits.Sliding: stages.Conditional, limits.Uplift: stages.NotEvaluated} {
		a, err := stages.Plan{stages.Covered(stages.Seat{Age: 28, On: on}, stages.Document{Covers: covers, Number: "S-1", Revision: "A", Status: "approved"})}.Analyse(block(), limits.EN1992{})
		require.NoError(t, err)
		r, err := a.Record()
		require.NoError(t, err)
		require.Equal(t, want, check(t, r.Stages[0].Situations[0], limits.Sliding).State)
		require.Equal(t, want, r.Status())
		_, reserve, err := a.Margin(1)
		require.NoError(t, err)
		if want == stages.NotEvaluated {
			require.Equal(t, -1.0, reserve)
			continue
		}
		// The reserve of the stage is that of what has a number.
		require.Positive(t, reserve)
		require.Less(t, reserve, 1.0)
	}
}

// An altered plan changes the situations of the one stage that is named and no other;
// a number without a stage changes nothing.
func TestAlteredChangesOneStage(t *testing.T) {
	plan := stages.Plan{stages.Store{Name: "a", Age: 3, On: dunnage(1, 11)}, stages.Store{Name: "b", Age: 4, On: dunnage(1, 11)}, stages.Store{Name: "c", Age: 5, On: dunnage(1, 11)}}
	for stage, want := range map[int]string{-1: "abc", 0: "abc", 1: "xbc", 2: "axc", 3: "abx", 4: "abc", 99: "abc"} {
		other := stages.Altered(plan, stage, func(s *stages.Situation) { s.Name = "x" })
		names := ""
		for _, s := range run(t, block(), other).Stages {
			names += s.Name
		}
		require.Equal(t, want, names, "stage %d", stage)
		require.Len(t, other, 3)
	}
	require.Equal(t, "b", plan[1].(stages.Store).Name, "the plan itself is as it was")
}

// The loss of a support is its larger static force, reversed, where it was.
func TestTheLossOfEachSupport(t *testing.T) {
	e := block()
	e.WeightTolerance = &loads.Tolerance{Under: 0.2, Over: 0.1}
	on := bracketed([]stages.Support{{X: 1, Y: -0.5, Z: -0.1}, {X: 1, Y: 0.5, Z: -0.2}, {X: 9, Y: 0.1, Z: -0.3}})
	effects := effectsOf(t, e, stages.Plan{stages.Store{Age: 28, On: on}}, 1)
	right := 120e3 * 5 / 8.0
	left := 120e3 - right
	turn := right * 0.1 // y = 0: R1·0.5 − R0·0.5 + R2·0.1
	for i, force := range []float64{left/2 + turn, left/2 - turn, right} {
		for _, factor := range []float64{0.5, 1, 2} {
			loss, err := effects.Loss(i, factor)
			require.NoError(t, err)
			require.InDelta(t, factor*1.1*force, loss.Loads.Points[0].Force, 1e-6)
			require.InDelta(t, on[i].X, loss.Loads.Points[0].At, 1e-12)
			require.Equal(t, []float64{on[i].Y, on[i].Z}, []float64{loss.Y, loss.Z})
			require.Equal(t, limits.Accidental, loss.Kind)
			require.Equal(t, []float64{0, 0}, []float64{loss.Least, loss.Most})
		}
	}
	for _, c := range []struct {
		i      int
		factor float64
	}{{-1, 1}, {3, 1}, {0, 0}, {0, -1}, {0, 10.001}, {0, math.NaN()}} {
		_, err := effects.Loss(c.i, c.factor)
		require.ErrorIs(t, err, stages.ErrStage, "%+v", c)
	}
	_, err := effects.Loss(2, 10)
	require.NoError(t, err)
}
