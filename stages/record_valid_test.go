package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// What a plan writes is what a record promises: stressed, lifted and stored, with checks
// of its own, on bounded and on elastic supports.
func TestWhatIsWrittenIsWhatIsPromised(t *testing.T) {
	whole, err := journey().Run(girder(t), limits.EN1992{})
	require.NoError(t, err)
	require.NoError(t, whole.Check())
	own, err := looked([]stages.Check{stages.NewCheck(limited(limits.AtLeast, 2, 0), formula.Q("d", 1, formula.Pascal, "demand"))}, []stages.Figure{drawing()})
	require.NoError(t, err)
	require.NoError(t, own.Check())
	for _, on := range [][]stages.Support{stages.Pads(0.2, 2.4, 9.6), stages.Pads(0.2, 1, 6, 11), stages.Elastic(1e8, stages.Pads(0.2, 1, 11)...)} {
		store := stages.Store{Age: 28, On: on}
		if on[0].Stiffness > 0 {
			store.OutOfLevel = 0.002
		}
		record, err := stages.Plan{store}.Run(block(), limits.EN1992{})
		require.NoError(t, err)
		require.NoError(t, record.Check())
	}
}

// Caution and basis of a record are its own: who changes them changes no other record.
func TestARecordSharesNoWords(t *testing.T) {
	one, err := looked(nil, nil)
	require.NoError(t, err)
	caution, basis := one.Caution[0], one.Basis[0]
	one.Caution[0], one.Basis[0] = "all is well", "none"
	require.ErrorContains(t, one.Check(), "the caution lacks")
	other, err := looked(nil, nil)
	require.NoError(t, err)
	require.Equal(t, caution, other.Caution[0])
	require.Equal(t, basis, other.Basis[0])
	require.NoError(t, other.Check())
}

// A check of a stage's own stands on the element.
func TestAnOwnCheckIsOnTheElement(t *testing.T) {
	c := stages.NewCheck(limited(limits.AtMost, 2, 0), formula.Q("d", 1, formula.Pascal, "demand"))
	for _, x := range []float64{-1, 13} {
		c.X = x
		_, err := looked([]stages.Check{c}, nil)
		require.ErrorContains(t, err, "must be on the element, 0 to 12 m")
	}
	c.X = 12
	_, err := looked([]stages.Check{c}, nil)
	require.NoError(t, err)
}
