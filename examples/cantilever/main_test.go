package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Every step passes; what is conditional is covered by a document. Every move has its
// governing joint, every joint that is closed its pressure, the pier its ties.
func TestCantilever(t *testing.T) {
	b, err := calculate(tested)
	require.NoError(t, err)
	require.NoError(t, b.Record.Check())
	require.Len(t, b.Record.Stages, tested)
	require.Equal(t, stages.Conditional, b.Record.Status())
	closed := map[string]bool{}
	n := 0
	for _, stage := range b.Record.Stages {
		for _, s := range stage.Situations {
			require.Empty(t, s.Unanswered, s.Name)
			for _, c := range s.Checks {
				switch c.State {
				case stages.Pass:
				case stages.Conditional:
					require.Contains(t, []limits.Kind{limits.LocalForce, limits.JointSpread}, c.Kind, "%s: %s: %s", s.Name, c.Name, c.Condition)
				default:
					t.Errorf("%s: %s: %s %.4g for %.4g at x = %.2f m %s", s.Name, c.Name, c.State, c.Demand.Value, c.Limit.Value, c.X, c.Note)
				}
			}
			m := b.Moves[n]
			n++
			require.NotEmpty(t, m.Joint, m.Name)
			require.LessOrEqual(t, m.Tension, m.Limit, m.Name)
			require.Len(t, m.Piers, 1, m.Name)
			if m.Epoxied != "" {
				closed[m.Epoxied] = true
				require.Greater(t, m.EpoxyMinimum, 0.21e6)
				require.Greater(t, m.EpoxyMean, m.EpoxyMinimum)
			}
		}
	}
	require.Len(t, closed, 2*tested)
	last := b.Moves[len(b.Moves)-1].Piers[0]
	require.InDelta(t, 0, last.Along, 1, "both arms alike")
	weight := 0.0
	for _, p := range b.Girder.Pieces[pairs-tested : pairs+tested+1] {
		m, err := p.Element.CentreOfGravity()
		require.NoError(t, err)
		weight += m.Weight
	}
	require.InEpsilon(t, weight+470e3, last.Vertical, 1e-9, "two frames")
	require.GreaterOrEqual(t, len(b.Record.Results), 2, "moves, casting curve")
	for _, part := range b.Record.Results {
		for _, table := range part.Tables {
			for _, row := range table.Rows {
				for _, v := range row {
					require.False(t, math.IsNaN(v))
				}
			}
		}
	}
}
