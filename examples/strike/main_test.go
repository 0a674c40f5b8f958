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

// Every stage passes; what is conditional is covered by a document.
func TestEveryStagePassesOrWaitsForADocument(t *testing.T) {
	r, err := once()
	require.NoError(t, err)
	require.NoError(t, r.Check())
	require.Len(t, r.Stages, 3)
	require.Equal(t, stages.Conditional, r.Status())
	for _, stage := range r.Stages {
		for _, s := range stage.Situations {
			require.Empty(t, s.Unanswered, s.Name)
			for _, c := range s.Checks {
				switch c.State {
				case stages.Pass:
				case stages.Conditional:
					require.Contains(t, []limits.Kind{limits.LocalForce, limits.Sliding}, c.Kind, "%s: %s: %s", s.Name, c.Name, c.Condition)
					require.Contains(t, c.Condition, "covered by document EL-")
				default:
					t.Errorf("%s: %s: %s %s, %.3f", s.Name, c.Name, c.State, c.Note, c.Utilisation)
				}
			}
		}
	}
	require.Equal(t, sheet.ExitFail, sheet.Command(nil, io.Discard, io.Discard, r, nil))
}

// row is the nominal force of a row, or of the bearings of an end, in a situation (N).
func row(s stages.SituationRecord, x float64) (sum float64) {
	for _, r := range s.Reactions {
		if r.X == x {
			sum += r.Nominal
		}
	}
	return sum
}

// Each step unloads the middle until it is without force, the ends gain; the sum is the
// weight.
func TestRowsAtTheEndsGain(t *testing.T) {
	r, err := once()
	require.NoError(t, err)
	list := r.Stages[0].Situations
	require.Len(t, list, 4)
	weight := 0.0
	for i, s := range list {
		sum := 0.0
		for _, p := range s.Reactions {
			sum += p.Nominal
		}
		if i == 0 {
			weight = sum
			continue
		}
		require.InDelta(t, weight, sum, 1e-6*weight)
		require.Greater(t, row(s, 1.5), row(list[i-1], 1.5)+50e3, s.Name)
		require.Less(t, row(s, 12.2), row(list[i-1], 12.2)-50e3, s.Name)
		require.InDelta(t, row(s, 1.5), row(s, 26.5), 1, "mirror")
	}
	require.Zero(t, row(list[3], 12.2))
	found := 0
	for _, c := range list[3].Checks {
		if strings.HasPrefix(c.Name, "load on falsework row") {
			found++
		}
	}
	require.Equal(t, 8, found, "every row is checked")
	end := r.Stages[1].Situations
	require.Len(t, end[len(end)-1].Reactions, 4)
	require.InDelta(t, weight, 2*row(end[len(end)-1], 0.5), 1)
}

// The strength before stressing is a hold point, and the operation sheet has the force of
// every row after every step.
func TestTheOperationSheet(t *testing.T) {
	r, err := once()
	require.NoError(t, err)
	held := false
	for _, h := range r.Stages[0].Situations[1].HoldPoints {
		held = held || h.Kind == stages.AtAnchors
	}
	require.True(t, held)
	for _, s := range append(r.Stages[0].Situations, r.Stages[1].Situations...) {
		require.Len(t, s.Equipment, 1)
		require.Len(t, s.Equipment[0].Positions[0].Facts, 10, s.Name)
	}
}
