package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// A support that carries all has no share to be read, and no band of forces from it.
func TestShareOfALoneSupport(t *testing.T) {
	all := stages.Range{Least: 1, Most: 0.9999999999999998}
	r := stages.Reaction{Nominal: 1.6e6, Share: &all}
	require.Equal(t, none, shareBand(r))
	half := stages.Range{Least: 0.49, Most: 0.51}
	r.Share = &half
	require.NotEqual(t, none, shareBand(r))
}
