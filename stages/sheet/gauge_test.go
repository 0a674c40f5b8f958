package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A certificate changes what extension is expected, not the force that is pulled.
func TestTheGaugeForceStaysAsListed(t *testing.T) {
	record := storedRecord(t)
	a, err := newAuthor(record, Settings{})
	require.NoError(t, err)
	page := operationPages(a)[0]
	require.Contains(t, page, "The force stays as listed whatever k is, more only with the engineer, never above ")
	require.Contains(t, page, "| permitted mm: x\u00a0=\u00a00 |")
}
