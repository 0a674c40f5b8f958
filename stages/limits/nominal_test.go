package limits_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/limits"
)

// 2.5 % of the vertical load in all, or 1 % beside known forces that are more than 1.5 %.
func TestNominalHorizontal(t *testing.T) {
	for _, row := range [][3]float64{{1000, 0, 25}, {1000, 10, 15}, {1000, 15, 10}, {1000, 20, 10}, {0, 7, 0}} {
		require.InDelta(t, row[2], limits.NominalHorizontal(row[0], row[1]), 1e-12)
	}
	require.True(t, limits.NominalSource.Confirm)
}
