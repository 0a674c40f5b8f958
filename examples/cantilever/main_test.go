package main

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
)

// tested is how many pairs the test follows move by move; the command follows all.
const tested = 2

// builtDeck is the deck, or only the pairs on P1 that are followed.
func builtDeck(t *testing.T) segmental.Built {
	if followed {
		b, err := calculate(tested)
		require.NoError(t, err)
		return b
	}
	d, err := deck()
	require.NoError(t, err)
	list, err := steps(d, tested)
	require.NoError(t, err)
	b, err := d.Build(fixed(pier1, pier2), limits.EN1992{}, nil, list[:tested]...)
	require.NoError(t, err)
	return b
}

// Every step passes; what is conditional is covered by a document. Every move that is followed
// has its governing joint, every joint that is closed its pressure, each free cantilever its ties.
func TestCantilever(t *testing.T) {
	b := builtDeck(t)
	require.NoError(t, b.Record.Check())
	require.Equal(t, stages.Conditional, b.Record.Status())
	var kinds []limits.Kind
	for _, d := range covered {
		kinds = append(kinds, d.Covers)
	}
	closed := map[string]bool{}
	n := 0
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
			m := b.Moves[n]
			n++
			require.LessOrEqual(t, m.Tension, m.Limit, m.Name)
			if m.Epoxied != "" {
				closed[m.Epoxied] = true
				require.Greater(t, m.EpoxyMinimum, 0.21e6)
				require.Greater(t, m.EpoxyMean, m.EpoxyMinimum)
			}
			if strings.HasPrefix(m.Name, "erect") || strings.HasPrefix(m.Name, "frame") {
				continue
			}
			require.NotEmpty(t, m.Joint, m.Name)
		}
	}
	require.Len(t, closed, 2*tested)
	standing(t, b)
	if followed {
		closedDeck(t, b)
	}
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

// standing checks that P1 carries what was erected when the pairs are followed to their end.
func standing(t *testing.T, b segmental.Built) {
	weight := 470e3 // two frames
	for _, p := range b.Girder.Pieces {
		for _, mark := range []string{"L1", "L2", "P1", "R1", "R2"} {
			if p.Element.Mark == mark {
				m, err := p.Element.CentreOfGravity()
				require.NoError(t, err)
				weight += m.Weight
			}
		}
	}
	for i, m := range b.Moves {
		if m.Step == tested && (i+1 == len(b.Moves) || b.Moves[i+1].Step > tested) {
			require.InDelta(t, 0, m.Piers[0].Along, 1, "both arms alike")
			require.InEpsilon(t, weight, m.Piers[0].Vertical, 1e-9)
		}
	}
}

// closedDeck checks the deck from the closures on: mirror images give the same, the bearings carry
// the deck, and creep takes the main span towards the moments of one that was cast at once.
func closedDeck(t *testing.T, b segmental.Built) {
	last := b.Record.Stages[len(b.Record.Stages)-1]
	finished := last.Situations[len(last.Situations)-1]
	weight, sum := 12e3*end, 0.0
	for _, p := range b.Girder.Pieces {
		m, err := p.Element.CentreOfGravity()
		require.NoError(t, err)
		weight += m.Weight
	}
	at := map[float64]float64{}
	for _, r := range finished.Reactions {
		sum += r.Nominal
		at[math.Round(r.X*10)/10] += r.Nominal
	}
	require.InEpsilon(t, weight, sum, 1e-9)
	require.InEpsilon(t, at[0.5], at[end-0.5], 0.03, "P2 was erected later and in other moves")
	require.InEpsilon(t, at[pier1], at[pier2], 0.01)
	band := b.Record.Results[len(b.Record.Results)-1].Tables[0].Rows
	require.Len(t, band, 5)
	middle := band[2]
	require.Equal(t, (pier1+pier2)/2, middle[0])
	require.True(t, middle[2] < middle[3] && middle[3] < middle[4] || middle[2] > middle[3] && middle[3] > middle[4], "more creep, more of it: %v", middle)
	require.InDelta(t, middle[3], (middle[2]+middle[4])/2, 0.2*math.Abs(middle[4]-middle[2]))
}
