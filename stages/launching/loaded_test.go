package launching

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
)

// A hook has its largest load in a position, and may have as little as its smallest times
// the minimum dynamic factor.
func TestRangeOfAHookLoad(t *testing.T) {
	h := Hoist{Dynamic: loads.Dynamic{Least: 0.9, Most: 1.2}, Hooks: []Hook{{Supports: []int{1}}, {Trolley: 1, Supports: []int{2}}}, Positions: []Position{{Trolleys: make([]Placed, 2)}}}
	present := map[int]stages.Range{1: {Least: 800, Most: 1000}, 2: {Least: 1900, Most: 2000}}
	list, err := h.loaded(stages.Effects{Together: func(supports []int) (stages.Together, error) {
		return stages.Together{Present: present[supports[0]]}, nil
	}})
	require.NoError(t, err)
	require.Equal(t, []Placed{{Hook: 1000}, {Hook: 2000}}, list[0].Trolleys)
	require.InEpsilon(t, 0.9*0.8, list[0].Dynamic.Least, 1e-12)
	require.Equal(t, 1.2, list[0].Dynamic.Most)
	require.Zero(t, h.Positions[0].Trolleys[0].Hook, "the plan is not changed")
}
