package stages_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// More than a plan may hold is refused in words before any work.
func TestWhatAPlanMayHold(t *testing.T) {
	four := paired(stages.Pads(0.2, 1, 11))
	many := func(n int, add func(int)) {
		for i := range n {
			add(i)
		}
	}
	var extras []stages.ExtraWeight
	many(10001, func(i int) {
		extras = append(extras, stages.ExtraWeight{Mark: fmt.Sprint(i), From: 1, To: 1, Weight: 1})
	})
	var tendons []tendon.Tendon
	many(401, func(i int) { tendons = append(tendons, straight(fmt.Sprint("T", i), 0, 12, 0, 0.4)) })
	var supports []stages.Support
	many(201, func(i int) { supports = append(supports, stages.Support{X: 12 * float64(i) / 200}) })
	var actions []stages.Action
	many(401, func(i int) { actions = append(actions, stages.Action{Mark: fmt.Sprint("a", i), Loads: loads.Set{}}) })
	var plan stages.Plan
	many(1001, func(i int) { plan = append(plan, stages.Store{Age: 1 + float64(i), On: four}) })
	heavy := bare()
	heavy.Extra = extras
	for want, s := range map[string]script{
		"girder B-1 has 10001 extra weights: must be at most 10000":             {heavy.Girder(), stages.Plan{stages.Store{Age: 5, On: four}}},
		"girder B-1 has 401 tendons and layers: must be at most 400":            {bare(tendons...).Girder(), stages.Plan{stages.Store{Age: 5, On: four}}},
		"stage 1, store at age 5 d: 201 supports: must be at most 200":          {bare().Girder(), stages.Plan{stages.Store{Age: 5, On: supports}}},
		"stage 1, store at age 5 d: 401 actions: must be at most 400":           {bare().Girder(), stages.Plan{stages.Store{Age: 5, On: four, Actions: actions}}},
		"1001 situations in the plan: must be at most 1000; take them together": {bare().Girder(), plan},
	} {
		_, err := s.Plan.Analyse(s.Girder, limits.EN1992{})
		require.ErrorIs(t, err, stages.ErrStage, want)
		require.ErrorContains(t, err, want)
	}
}
