package main

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// The pick is kept, and every line of it recomputes.
func TestPickIsKept(t *testing.T) {
	record, kept, err := pick()
	require.NoError(t, err)
	require.True(t, kept)
	require.NoError(t, record.Check())
	require.Len(t, record.Results, 4)
}
