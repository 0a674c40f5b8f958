package stages

import (
	"reflect"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages/limits"
)

// Demands are shared by limits whose factors are the same numbers: a factor that differs, of those
// there are and of any that comes, makes others; where they come from does not.
func TestSameFactors(t *testing.T) {
	of := func() limits.Factors {
		return limits.Factors{WeightLeast: 0.9, WeightMost: 1.1, Actions: []limits.ActionFactor{{Kind: limits.Wind, Unfavourable: 1.5}}}
	}
	require.True(t, sameFactors(of(), of()))
	kind := reflect.TypeFor[limits.Factors]()
	for i := range kind.NumField() {
		other := of()
		switch field := reflect.ValueOf(&other).Elem().Field(i); kind.Field(i).Name {
		case "Source", "Note":
			continue
		case "Actions":
			other.Actions[0].Unfavourable = 1.35
		default:
			field.SetFloat(field.Float() + 0.05)
		}
		require.False(t, sameFactors(of(), other), kind.Field(i).Name)
	}
}
