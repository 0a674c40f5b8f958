package stages_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// silent is EN 1992 without an answer to some kinds of question.
type silent []limits.Kind

func (s silent) Limits(q limits.Question) ([]limits.Limit, error) {
	if slices.Contains(s, q.Kind) {
		return nil, nil
	}
	return limits.EN1992{}.Limits(q)
}

// answered are the questions that a stage of the plan of the plain block asks, and the
// number of that stage.
var answered = map[limits.Kind]int{
	limits.Compression: 2, limits.Tension: 3, limits.TensionSteel: 5, limits.PrincipalTension: 4, limits.WebShear: 6, limits.JackStress: 1, limits.LockOffStress: 1,
	limits.StressingStrength: 1, limits.AnchorSpacing: 1, limits.AnchorEdge: 1, limits.Uplift: 2, limits.Overturning: 3, limits.Sliding: 6,
}

// A plan that passes does not once a single question is left without an answer, in the
// whole and in the stage that asks it; with a document for it, it is conditional.
func TestOneUnansweredQuestionStopsAPass(t *testing.T) {
	require.Equal(t, stages.Pass, run(t, calm(), calmPlan()).Status())
	for kind, stage := range answered {
		a, err := calmPlan().Analyse(calm(), silent{kind})
		require.NoError(t, err)
		r, err := a.Record()
		require.NoError(t, err)
		require.Equal(t, stages.NotEvaluated, r.Status(), kind)
		said := 0
		for _, s := range r.Stages[stage-1].Situations {
			if slices.Contains(s.Unanswered, string(kind)+": the standard gives no limit") {
				said++
			}
		}
		require.Positive(t, said, kind)
		check, reserve, err := a.Margin(stage)
		require.NoError(t, err)
		require.Equal(t, -1.0, reserve, kind)
		require.Equal(t, stages.NotEvaluated, check.State, kind)

		if stage%2 == 0 {
			continue
		}
		plan := calmPlan()
		for i := range plan {
			plan[i] = stages.Covered(plan[i], stages.Document{Covers: kind, Number: "D-1", Revision: "B", Status: "approved"})
		}
		r, err = plan.Run(calm(), silent{kind})
		require.NoError(t, err)
		require.Equal(t, stages.Conditional, r.Status(), kind)
		for _, s := range r.Stages[stage-1].Situations {
			require.Empty(t, s.Unanswered, kind)
			for _, h := range s.HoldPoints {
				if h.Document != nil {
					require.Equal(t, []string{string(kind), "D-1", "B", "approved"}, []string{h.Kind, h.Document.Number, h.Document.Revision, h.Document.Status})
					said = -1
				}
			}
		}
		require.Equal(t, -1, said, "it is a hold point")
	}
}

// A document for one question covers no other.
func TestADocumentCoversItsOwnQuestionOnly(t *testing.T) {
	two := silent{limits.Sliding, limits.Compression}
	for _, covers := range [][]limits.Kind{{limits.Sliding}, {limits.Compression}, {limits.Uplift}, {}} {
		plan := calmPlan()
		for i := range plan {
			var documents []stages.Document
			for _, kind := range covers {
				documents = append(documents, stages.Document{Covers: kind, Number: "D-1", Revision: "B", Status: "approved"})
			}
			plan[i] = stages.Covered(plan[i], documents...)
		}
		a, err := plan.Analyse(calm(), two)
		require.NoError(t, err)
		r, err := a.Record()
		require.NoError(t, err)
		require.NotEqual(t, stages.Pass, r.Status())
		_, reserve, err := a.Margin(6)
		require.NoError(t, err)
		require.Equal(t, -1.0, reserve, "%v", covers)
		for _, c := range r.Stages[5].Situations[0].Checks {
			if c.State == stages.Conditional {
				require.Contains(t, covers, c.Kind)
			}
		}
	}
	// Both: two hold points, and each in each stage.
	plan := calmPlan()
	for i := range plan {
		plan[i] = stages.Covered(plan[i], stages.Document{Covers: limits.Sliding, Number: "D-1", Revision: "B", Status: "approved"}, stages.Document{Covers: limits.Compression, Number: "D-2", Revision: "0", Status: "approved"})
	}
	r, err := plan.Run(calm(), two)
	require.NoError(t, err)
	require.Equal(t, stages.Conditional, r.Status())
	conditional := map[limits.Kind]string{}
	for _, c := range r.Stages[5].Situations[0].Checks {
		if c.State == stages.Conditional {
			conditional[c.Kind] = c.Condition
		}
	}
	require.Equal(t, map[limits.Kind]string{
		limits.Sliding: "covered by document D-1, revision B, status approved", limits.Compression: "covered by document D-2, revision 0, status approved",
	}, conditional)
}

// A document without its number, revision, status or question is refused.
func TestADocumentHasAllItsFields(t *testing.T) {
	whole := stages.Document{Covers: limits.Sliding, Number: "D-1", Revision: "B", Status: "approved"}
	for _, spoil := range []func(*stages.Document){
		func(d *stages.Document) { d.Covers = "" }, func(d *stages.Document) { d.Number = "" },
		func(d *stages.Document) { d.Revision = "" }, func(d *stages.Document) { d.Status = "" },
	} {
		spoilt := whole
		spoil(&spoilt)
		for _, list := range [][]stages.Document{{spoilt}, {spoilt, whole}, {whole, spoilt}} {
			plan := calmPlan()
			plan[2] = stages.Covered(plan[2], list...)
			_, err := plan.Run(calm(), limits.EN1992{})
			require.ErrorIs(t, err, stages.ErrStage)
			require.ErrorContains(t, err, "must have a kind, a number, a revision and a status")
		}
	}
	plan := calmPlan()
	plan[2] = stages.Covered(nil, whole)
	_, err := plan.Run(calm(), limits.EN1992{})
	require.ErrorContains(t, err, "documents without a stage")
}

// A stage whose element is off its supports at the end of the plan does not pass, and
// one that a set-down follows does, however many are between.
func TestALiftWithoutASetDownDoesNotPass(t *testing.T) {
	stand := stages.Store{Age: 28, On: paired(stages.Pads(0.2, 2.4, 9.6))}
	lift := stages.Lift{Age: 28, On: paired(hooks(0.2, 2.4, 9.6)), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}}
	haul := stages.Haul{Age: 28, On: paired(stages.Pads(0.2, 2.4, 9.6)), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}}
	for _, c := range []struct {
		plan stages.Plan
		open []int // stages that do not pass
	}{
		{stages.Plan{stand, lift, stand}, nil}, {stages.Plan{stand, lift, haul, lift, stand}, nil}, {stages.Plan{stand, lift}, []int{2}},
		{stages.Plan{stand, lift, stand, haul}, []int{4}}, {stages.Plan{stand, haul, lift}, []int{2, 3}},
	} {
		a, err := c.plan.Analyse(block(), limits.EN1992{})
		require.NoError(t, err)
		for i := range c.plan {
			_, reserve, err := a.Margin(i + 1)
			require.NoError(t, err)
			require.Equal(t, slices.Contains(c.open, i+1), reserve == -1, "%T at %d of %d", c.plan[i], i+1, len(c.plan))
		}
		r, err := a.Record()
		require.NoError(t, err)
		require.Equal(t, len(c.open) == 0, r.Status() == stages.Pass)
		for _, i := range c.open {
			require.Equal(t, stages.NotEvaluated, check(t, r.Stages[i-1].Situations[0], limits.SetDown).State)
		}
	}
}

// An analysis that is only followed has the effects of one that is checked, and nothing that a
// check would be needed for.
func TestAnAnalysisThatIsFollowed(t *testing.T) {
	checked, err := calmPlan().Analyse(calm(), limits.EN1992{})
	require.NoError(t, err)
	followed, err := calmPlan().Follow(calm(), limits.EN1992{})
	require.NoError(t, err)
	for stage := range calmPlan() {
		want, err := checked.Effects(stage+1, 1)
		require.NoError(t, err)
		got, err := followed.Effects(stage+1, 1)
		require.NoError(t, err)
		for _, x := range []float64{0.3, 4, 7.7} {
			require.Equal(t, want.Forces(x), got.Forces(x))
		}
	}
	_, err = followed.Record()
	require.ErrorContains(t, err, "the analysis is empty")
	_, _, err = followed.Margin(1)
	require.ErrorContains(t, err, "the analysis is empty")
	_, err = stages.Plan{}.Follow(calm(), limits.EN1992{})
	require.ErrorIs(t, err, stages.ErrStage)
}
