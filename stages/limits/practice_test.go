package limits_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/limits"
)

// Every published factor has its source, which is to be confirmed, and goes into a
// Dynamic with it.
func TestPublishedFactors(t *testing.T) {
	for _, p := range limits.DynamicFactors() {
		require.True(t, p.Source.Confirm, p.Case)
		require.NotEmpty(t, p.Source.Document)
		require.Equal(t, formula.One, p.Unit)
		d, err := limits.Handled(p.Case).Dynamic(0.9)
		require.NoError(t, err)
		require.Equal(t, loads.Dynamic{Least: 0.9, Most: p.Value, Source: p.Source}, d)
		_, _, err = d.Range()
		require.NoError(t, err)
	}
	d, err := limits.MobileCraneCEN.Dynamic(1)
	require.NoError(t, err)
	require.Equal(t, 1.4, d.Most)
	for _, p := range limits.FormAdhesions() {
		require.True(t, p.Source.Confirm && p.Value >= 1e3 && p.Value <= 3e3, p.Case)
	}
	_, err = limits.Handled("a crane").Dynamic(1)
	require.ErrorContains(t, err, "must be one of")
	_, err = limits.MobileCraneCEN.Dynamic(1.4)
	require.ErrorContains(t, err, "must be above 0, at most 1")
}
