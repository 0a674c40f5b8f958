package derive

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// Rows of one tendon at one place are one with their sums; another place, state, factor or
// label is a row of its own, and the rows given are not changed.
func TestSummed(t *testing.T) {
	tendon := func(force float64) *Tendons {
		return &Tendons{Count: 1, Force: force, Cos: 1, At: section.Point{Y: 1, Z: -0.2}}
	}
	row := func(label string, on int, force float64, factors ...Factor) Action {
		return Action{Label: label, On: on, Tendons: tendon(force), N: -force, My: 2 * force, Mz: force, Value: 3 * force, Factors: factors}
	}
	r := Factor{Symbol: "r", Value: 1.1}
	rows := []Action{row("T1", 1, 100, r), row("T1", 1, -4, r), row("T1", 2, -1, r), row("T2", 1, 100, r), row("T1", 1, 7), {Label: "weight", On: 1, My: 5, Value: 2}, {Label: "weight", On: 1, My: -3, Value: 1}}
	got := Summed(rows)
	require.Len(t, got, 5)
	require.Equal(t, row("T1", 1, 96, r), got[0])
	require.Equal(t, rows[2:5], got[1:4])
	require.Equal(t, Action{Label: "weight", On: 1, My: 2, Value: 3}, got[4])
	require.Equal(t, 100.0, rows[0].Tendons.Force)
	moved := row("T1", 1, -4, r)
	moved.Tendons.At.Z = -0.3
	require.Len(t, Summed([]Action{rows[0], moved}), 2)
}
