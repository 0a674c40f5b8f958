package ledger_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// A situation that is like another gives the same numbers as one on its own: with
// another field of an entry, with none, and where more differs than a field.
func TestSituationLikeAnother(t *testing.T) {
	rng := rand.New(rand.NewPCG(93, 94))
	l, base, causes := tapered(t, rng)
	base.Entries = append(base.Entries, base.Entries[0]) // in the product of the first
	base.Lay()
	_, err := demand(t, l, base, causes...).Extreme(1, 0, anywhere)
	require.NoError(t, err)
	f := some(rng)
	other := &law{func(x float64) section.Forces { return f.Times(x / 14) }}
	for name, change := range map[string]func(*ledger.Situation){
		"nothing":           func(*ledger.Situation) {},
		"a field":           func(s *ledger.Situation) { s.Entries[2].Field = other },
		"a shared product":  func(s *ledger.Situation) { s.Entries[0].Field = other },
		"two fields":        func(s *ledger.Situation) { s.Entries[1].Field, s.Entries[3].Field = other, other },
		"a coefficient":     func(s *ledger.Situation) { s.Entries[1].Coefficient = 2 },
		"a cause":           func(s *ledger.Situation) { s.Entries[3].Inner = 3 },
		"an outer cause":    func(s *ledger.Situation) { s.Entries[3].Outer = []int{1} },
		"a step less":       func(s *ledger.Situation) { s.Steps-- },
		"one entry more":    func(s *ledger.Situation) { s.Entries = append(s.Entries, s.Entries[1]) },
		"their order":       func(s *ledger.Situation) { s.Entries[0], s.Entries[1] = s.Entries[1], s.Entries[0] },
		"an entry less":     func(s *ledger.Situation) { s.Entries = s.Entries[:3] },
		"a field and times": func(s *ledger.Situation) { s.Entries[2].Field, s.Entries[1].Coefficient = other, -1 },
	} {
		var found [2][2]ledger.Worst
		for i, like := range []*ledger.Situation{nil, base} {
			s := &ledger.Situation{Entries: slices.Clone(base.Entries), Steps: base.Steps, Prestress: base.Prestress, Times: base.Times, Like: like}
			change(s)
			s.Lay()
			for k, sign := range []float64{1, -1} {
				found[i][k], err = demand(t, l, s, causes...).Extreme(sign, 0, anywhere)
				require.NoError(t, err)
			}
		}
		require.Equal(t, found[0], found[1], name)
	}
}
