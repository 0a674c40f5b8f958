package tendon_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
)

// What the stressing system states of the lock-off is taken as it is; nothing is stated by
// the zero values, and an order of ends must have two jacked ends.
func TestLockOffIsStated(t *testing.T) {
	j := tendon.Jacking{Tendons: []string{"A"}, Stress: 1400e6, Ends: tendon.BothEnds}
	require.NoError(t, j.Check())
	require.Equal(t, [3]string{"not stated", "not stated", "not stated"}, [3]string{j.Seating.String(), j.LockOff.String(), j.Reading.GaugeUnit.String()})
	for of, words := range map[tendon.LockOff]string{tendon.AllAtOnce: "all ends at once", tendon.LeftFirst: "the left end first", tendon.RightFirst: "the right end first"} {
		j.LockOff = of
		require.NoError(t, j.Check())
		require.Equal(t, words, of.String())
	}
	j.LockOff, j.Ends = tendon.RightFirst, tendon.LeftEnd
	require.ErrorContains(t, j.Check(), "[A]: Jacking.LockOff is the right end first with a jack at the left end: must be AllAtOnce or not stated, or Ends BothEnds")
	j.LockOff = tendon.AllAtOnce
	j.Seating, j.Reading.GaugeUnit = tendon.PowerSeated, tendon.GaugeBar
	require.NoError(t, j.Check())
	require.Equal(t, [4]string{"power-seated", "drawn in by the strand", "bar", "psi"}, [4]string{j.Seating.String(), tendon.DrawnIn.String(), j.Reading.GaugeUnit.String(), tendon.GaugePSI.String()})
	for words, change := range map[string]func(*tendon.Jacking){
		"[A]: Jacking.Seating = 9: must be PowerSeated, DrawnIn or 0, not stated":              func(j *tendon.Jacking) { j.Seating = 9 },
		"[A]: Jacking.LockOff = -1: must be AllAtOnce, LeftFirst, RightFirst or 0, not stated": func(j *tendon.Jacking) { j.LockOff = -1 },
		"Measuring.GaugeUnit = 4: must be GaugeBar, GaugeMPa, GaugePSI or 0, not stated":       func(j *tendon.Jacking) { j.Reading.GaugeUnit = 4 },
	} {
		wrong := j
		change(&wrong)
		require.ErrorIs(t, wrong.Check(), tendon.ErrTendon)
		require.ErrorContains(t, wrong.Check(), words)
	}
}

// The order of lock-off and the way of seating are for the sheet: no force changes.
func TestLockOffChangesNoForce(t *testing.T) {
	of := tendon.Tendon{
		Mark: "A", Strand: tendon.Y1860S7x157, Strands: 12, Duct: 0.09, Elevation: tendon.Level(0, 20, 0.5), Plan: tendon.Level(0, 20, 0), Friction: 0.19, Wobble: 0.005,
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 30e6, AnchorSpacing: 0.3, EdgeDistance: 0.2},
	}
	j := tendon.Jacking{Tendons: []string{"A"}, Stress: 1400e6, Ends: tendon.BothEnds, DrawIn: 0.006}
	plain, err := of.Jack(j)
	require.NoError(t, err)
	j.Seating, j.LockOff, j.Reading.GaugeUnit = tendon.DrawnIn, tendon.RightFirst, tendon.GaugeMPa
	stated, err := of.Jack(j)
	require.NoError(t, err)
	for _, x := range []float64{0, 3, 10, 20} {
		require.Equal(t, plain.At(x), stated.At(x))
	}
}
