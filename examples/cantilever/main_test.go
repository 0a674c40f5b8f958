package main

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
)

// tested is how many pairs the test follows move by move; the command follows all.
const tested = 3

// Every step of the cantilever on P1 passes; what is conditional is covered by a document. Every
// move has its governing joint, every joint that is closed its pressure, the pier its ties.
func TestPierOne(t *testing.T) {
	b, err := pierOne(tested)
	require.NoError(t, err)
	require.Len(t, b.Record.Stages, tested)
	conditional(t, b)
	closed := map[string]bool{}
	for _, m := range b.Moves {
		require.NotEmpty(t, m.Joint, m.Name)
		require.LessOrEqual(t, m.Tension, m.Limit, m.Name)
		require.Len(t, m.Piers, 1, m.Name)
		if m.Epoxied != "" {
			closed[m.Epoxied] = true
			require.Greater(t, m.EpoxyMinimum, 0.21e6)
			require.Greater(t, m.EpoxyMean, m.EpoxyMinimum)
		}
	}
	require.Len(t, closed, 2*tested)
	last := b.Moves[len(b.Moves)-1].Piers[0]
	require.InDelta(t, 0, last.Along, 1, "both arms alike")
	require.InEpsilon(t, 470e3+weightOf(t, b.Girder.Pieces[pairs-tested:pairs+tested+1]), last.Vertical, 1e-9, "two frames")
}

// weightOf is the weight of pieces (N).
func weightOf(t *testing.T, pieces []stages.Piece) (sum float64) {
	for _, p := range pieces {
		m, err := p.Element.CentreOfGravity()
		require.NoError(t, err)
		sum += m.Weight
	}
	return sum
}

// conditional checks that every check passes or is covered by a document, and that no number is
// missing.
func conditional(t *testing.T, b segmental.Built) {
	require.NoError(t, b.Record.Check())
	require.Equal(t, stages.Conditional, b.Record.Status())
	var kinds []limits.Kind
	for _, d := range covered {
		kinds = append(kinds, d.Covers)
	}
	for _, stage := range b.Record.Stages {
		for _, s := range stage.Situations {
			require.Empty(t, s.Unanswered, s.Name)
			for _, c := range s.Checks {
				switch c.State {
				case stages.Pass:
				case stages.Conditional:
					require.Contains(t, kinds, c.Kind, "%s: %s: %s", s.Name, c.Name, c.Condition)
				default:
					t.Errorf("%s: %s: %s %.4g for %.4g at x = %.2f m %s", s.Name, c.Name, c.State, c.Demand.Value, c.Limit.Value, c.X, c.Note)
				}
			}
		}
	}
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
