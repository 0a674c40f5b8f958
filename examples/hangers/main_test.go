package main

import (
	"io"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

var once = sync.OnceValues(calculate)

// Every stage passes, or waits for a document that is named.
func TestEveryStagePassesOrWaitsForADocument(t *testing.T) {
	r, err := once()
	require.NoError(t, err)
	require.NoError(t, r.Check())
	require.Len(t, r.Stages, 9)
	require.Equal(t, stages.Conditional, r.Status())
	for _, stage := range r.Stages {
		for _, s := range stage.Situations {
			require.Empty(t, s.Unanswered, s.Name)
			for _, c := range s.Checks {
				switch c.State {
				case stages.Pass:
				case stages.Conditional:
					require.Contains(t, []limits.Kind{limits.Sliding, limits.WallSpread, limits.RollOverturning}, c.Kind, "%s: %s: %s", s.Name, c.Name, c.Condition)
					require.Contains(t, c.Condition, "covered by document EL-")
				default:
					t.Errorf("%s: %s: %s %s, %.3f", s.Name, c.Name, c.State, c.Note, c.Utilisation)
				}
			}
		}
	}
	require.Equal(t, sheet.ExitFail, sheet.Command(nil, io.Discard, io.Discard, r, nil))
}

// The numbers that a site asks for are checks of the record.
func TestNumbersOfTheSite(t *testing.T) {
	r, err := once()
	require.NoError(t, err)
	found := func(name string) (list []stages.Check) {
		for _, stage := range r.Stages {
			for _, s := range stage.Situations {
				for _, c := range s.Checks {
					if strings.HasPrefix(c.Name, name) {
						list = append(list, c)
					}
				}
			}
		}
		return list
	}
	first := found("first-stage prestress on the hangers")
	require.Len(t, first, 1)
	require.EqualValues(t, 2, first[0].Limit.Value)
	require.EqualValues(t, chosen, first[0].Demand.Value)
	require.Contains(t, first[0].Note, "tension at joint S1/S2", "a joint opens with one step more")
	require.Len(t, found("mean pressure on the epoxy"), number-1)
	require.Len(t, found("minimum pressure on the epoxy"), number-1)
	for _, c := range found("lowering of a pair of hangers") {
		require.GreaterOrEqual(t, c.Margin, 0.0)
		require.Less(t, c.Margin, 0.01, "no more than the reserve and the rounding")
	}
	require.Zero(t, found("load left on the hangers")[0].Demand.Value)
	// By hand: each segment of 4.5 m on two pairs, half of its weight each.
	shape, err := box.Shape()
	require.NoError(t, err)
	half := shape.Properties().Area * 4.5 * 25e3 / 2
	for _, p := range r.Stages[0].Situations[0].Reactions {
		require.InDelta(t, half, p.Nominal, 1)
	}
}

// All load is on the jacks at the end, and it is the weight.
func TestAllLoadLeavesTheHangers(t *testing.T) {
	r, err := once()
	require.NoError(t, err)
	lower := r.Stages[6].Situations
	sum := 0.0
	for _, p := range lower[2].Reactions {
		if p.Role == stages.LiftPoint {
			require.Zero(t, p.Characteristic.Most)
		} else {
			sum += p.Nominal
		}
	}
	require.InDelta(t, lower[2].Mass.Weight, sum, 1)
	for i, p := range lower[3].Reactions { // taking them off changes nothing
		require.InDelta(t, lower[2].Reactions[16+i].Nominal, p.Nominal, 1)
	}
}
