package segmental_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
)

// erected is a cantilever of two blocks on a pier that is fixed in the calculation.
type erected struct {
	pier    segmental.Pier
	balance segmental.Balance
}

func (e erected) Situations(stages.History) ([]stages.Situation, error) {
	return []stages.Situation{{
		Name: "both arms", Day: 30, Standing: true, Phase: limits.Seating, Supports: []stages.Support{{X: e.pier.At, Fixed: true, Role: stages.Pad}},
		Check: func(_ stages.Effects, standard limits.Standard) ([]stages.OwnCheck, error) {
			return e.pier.Checks(e.balance, segmental.EN, standard)
		},
	}}, nil
}

// The checks of a pier go into the record, answer the question of the fixed support, and
// leave what a document must cover.
func TestPierInAPlan(t *testing.T) {
	g := stages.Girder{Mark: "G", Pieces: stages.EndToEnd(stages.Monolithic, block(t, "S1", 3), block(t, "S2", 5))}
	b := segmental.Balance{Parts: []segmental.Part{{Mark: "S1", Arm: segmental.Left, Force: 150e3, Lever: -1.5}, {Mark: "S2", Arm: segmental.Right, Force: 250e3, Lever: 2.5}}, Unbalanced: "S2"}
	for _, of := range []struct {
		pier      segmental.Pier
		questions int
		holds     bool
	}{
		{segmental.Pier{Mark: "P", At: 3, Rows: 5, Row: 2e6, Moment: 2e6, Document: "d"}, 0, true},
		{segmental.Pier{Mark: "P", At: 3, Rows: 5, Row: 2e6, Document: "d"}, 0, true},
		{segmental.Pier{Mark: "P", At: 3, Moment: 2e6, Document: "d"}, 0, true},
		{segmental.Pier{Mark: "P", At: 3}, 1, false},
	} {
		record, err := stages.Plan{erected{of.pier, b}}.Run(g, limits.EN1992{})
		require.NoError(t, err)
		require.NoError(t, record.Check())
		s := record.Stages[0].Situations[0]
		open := 0
		for _, words := range s.Unanswered {
			if words == "equilibrium: a fixed support carries the element; its fixing must be designed for its moment" {
				open++
			}
		}
		require.Equal(t, of.questions, open)
		held := false
		for _, h := range s.HoldPoints {
			held = held || h.Kind == "segment S2 weighed" && h.AtMost
		}
		require.Equal(t, of.holds, held)
	}
}

// The checks of a pier under a deck of 2 × 25 segments.
func BenchmarkPierChecks(b *testing.B) {
	balance := handled(crews(cantilever(24, 25)), "R25")
	balance.Unbalanced = "R25"
	p := tiedPier(6)
	for b.Loop() {
		if _, err := p.Checks(balance, segmental.AASHTO, limits.EN1992{}); err != nil {
			b.Fatal(err)
		}
	}
}
