package segmental_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/segmental"
)

func TestErrorOfAnAngleAtTheTip(t *testing.T) {
	off, err := segmental.TipError(0.5e-3, 24.5)
	require.NoError(t, err)
	require.InDelta(t, 0.01225, off, 1e-15)
	angle, err := segmental.WedgeAngle(-1e-3, 3)
	require.NoError(t, err)
	require.InDelta(t, -1e-3/3, angle, 1e-18)
	for _, bad := range []float64{math.NaN(), math.Inf(1), -1e9} {
		for _, of := range []func() (float64, error){
			func() (float64, error) { return segmental.TipError(bad, 1) }, func() (float64, error) { return segmental.TipError(0, bad) },
			func() (float64, error) { return segmental.WedgeAngle(bad, 1) }, func() (float64, error) { return segmental.WedgeAngle(0, bad) },
		} {
			v, err := of()
			require.ErrorIs(t, err, segmental.ErrSegmental)
			require.Zero(t, v)
		}
	}
}
