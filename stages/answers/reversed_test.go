package answers

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// A pad that is lost lets go downwards, a tie upwards, one that does both by what is more.
func TestAForceReversed(t *testing.T) {
	require.Equal(t, 5.0, reversed(stages.Range{Least: 2, Most: 5}))
	require.Equal(t, -5.0, reversed(stages.Range{Least: -5, Most: -2}))
	require.Equal(t, -6.0, reversed(stages.Range{Least: -6, Most: 5}))
	require.Equal(t, 6.0, reversed(stages.Range{Least: -5, Most: 6}))
}
