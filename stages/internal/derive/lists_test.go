package derive

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
)

// Lists whose numbers do not go with their places, with a section of no area or with a
// last digit that no number has are refused.
func TestListsThatCannotBe(t *testing.T) {
	good := func() Lists {
		return Lists{
			States:  States{Sections: []Section{{Number: 1, A: 1, Iy: 0.2, Iz: 0.1}}, Flows: []Flow{{Number: 1, Vz: 1}}},
			Symbols: []Symbol{{Symbol: "a", Unit: formula.One}}, Sources: []formula.Source{{Document: "a book"}},
			Lines:  []Line{{Result: Number{1, 2}, Source: 1}},
			Tables: []Table{{Number: 1, Value: Column{"R", formula.Newton, 0}, Rows: []Row{{Label: "a", Value: 5, Product: 5}}, Sum: formula.Q("R", 5, formula.Newton, "")}},
		}
	}
	require.NoError(t, good().Check())
	for says, spoil := range map[string]func(*Lists){
		"section state 1 has the number 2: must be 1":   func(l *Lists) { l.Sections[0].Number = 2 },
		"section state 1: A = 0 m²":                     func(l *Lists) { l.Sections[0].A = 0 },
		"Iyz = 0.5 m⁴: must be above 0, Iyz² below":     func(l *Lists) { l.Sections[0].Iyz = 0.5 },
		"cut 1 has the number 0: must be 1":             func(l *Lists) { l.Flows[0].Number = 0 },
		"table 1 has the number 7: must be 1":           func(l *Lists) { l.Tables[0].Number = 7 },
		"R has no row: must have at least one":          func(l *Lists) { l.Tables[0].Rows, l.Tables[0].Sum.Value = nil, 0 },
		"last digit of R at 1e-31: must be within":      func(l *Lists) { l.Tables[0].Value.Last = -31 },
		"last digit of R at 1e400: must be within":      func(l *Lists) { l.Tables[0].SumAt = 400 },
		"last digit of z at 1e-2000000: must be within": func(l *Lists) { l.Tables[0].ZAt = -2000000 },
	} {
		l := good()
		spoil(&l)
		err := l.Check()
		require.ErrorIs(t, err, ErrDerive, says)
		require.ErrorContains(t, err, says)
	}
	l := good()
	require.NoError(t, l.Has(Proof{Tables: []int{1}, Lines: []int{1}}))
	require.ErrorContains(t, l.Has(Proof{Tables: []int{2}}), "table 2: must be 1 to 1")
	require.ErrorContains(t, l.Has(Proof{Lines: []int{0}}), "line 0: must be 1 to 1")
}
