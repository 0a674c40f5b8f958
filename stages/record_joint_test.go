package stages

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
)

// Of several limits at a joint the one with the smaller margin is kept, whatever their order.
func TestAJointKeepsItsLeastMargin(t *testing.T) {
	of := func(demand, limit float64) Check {
		return Check{State: Pass, Demand: formula.Q("σ", demand, formula.Pascal, ""), Limit: formula.Q("l", limit, formula.Pascal, "")}
	}
	for _, order := range [][2]Check{{of(1, 3), of(2, 3)}, {of(2, 3), of(1, 3)}} {
		j := JointRecord{Name: "A/B", X: 3}
		j.take(Check{State: NotEvaluated})
		require.False(t, j.Checked)
		j.take(order[0])
		j.take(order[1])
		require.Equal(t, JointRecord{Name: "A/B", X: 3, Tension: 2, Limit: 3, Checked: true}, j)
	}
}
