package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Before a situation the element is where it would be on that day on the supports before,
// creep until then with it: as in a situation that is put in between.
func TestMovementsBeforeASituation(t *testing.T) {
	e := beamOf(t, true, plainTendon(10, straightLine(20, 0.2, 0.2), straightLine(20, 0, 0)))
	first := []stages.Stage{stages.Transfer{Age: 5, Jacking: jackT(1300e6), On: stages.At(1, 19)}, stages.Store{Age: 6, On: stages.At(1, 19)}}
	then := stages.Store{Age: 300, On: stages.At(3, 15)}
	a, err := stages.Plan{first[0], first[1], then}.Analyse(e, limits.EN1992{})
	require.NoError(t, err)
	between := moved(t, stages.Plan{first[0], first[1], stages.Store{Age: 300, On: stages.At(1, 19)}, then}, e, 3, 1)
	effects, err := a.Effects(3, 1)
	require.NoError(t, err)
	list, err := effects.Before()
	require.NoError(t, err)
	require.Len(t, list, 1)
	require.Equal(t, []float64{1, 19}, list[0].Datum())
	require.Equal(t, []float64{3, 15}, movedIn(t, a, 3, 1).Datum())
	for _, x := range []float64{0, 1, 7, 10, 20} {
		require.InDelta(t, between.At(x).Deflection, list[0].At(x).Deflection, 1e-15)
	}
	require.InDelta(t, 0, list[0].At(19).Deflection, 1e-15)
	require.Greater(t, math.Abs(list[0].At(10).Deflection-movedIn(t, a, 2, 1).At(10).Deflection), 1e-3, "it has crept since day 6")

	effects, err = a.Effects(1, 1)
	require.NoError(t, err)
	list, err = effects.Before()
	require.NoError(t, err)
	require.Empty(t, list, "nothing before the first")
}

// The part by creep is that on which the band is, its slope the one of its deflection.
func TestCreepPartOfAMovement(t *testing.T) {
	e := beamOf(t, true, plainTendon(10, straightLine(20, 0.2, 0.2), straightLine(20, 0, 0)))
	m := moved(t, stages.Plan{stages.Transfer{Age: 5, Jacking: jackT(1300e6)}, stages.Store{Age: 6, Until: 200, On: stages.At(1.5, 18)}}, e, 2, 2)
	for x := 0.0; x <= 20; x += 2.5 {
		v := m.At(x)
		crept, slope := m.CreepPart(x)
		require.InDelta(t, (v.Most-v.Least)/2, 0.3*math.Abs(crept), 1e-15)
		left, _ := m.CreepPart(math.Max(0, x-1e-4))
		right, _ := m.CreepPart(math.Min(20, x+1e-4))
		require.InDelta(t, (right-left)/(math.Min(20, x+1e-4)-math.Max(0, x-1e-4)), slope, 1e-6)
	}
	crept, _ := m.CreepPart(10)
	require.Positive(t, crept, "camber grows")
	fixed := moved(t, stages.Plan{stages.Transfer{Age: 5, Jacking: jackT(1300e6), On: []stages.Support{{X: 4, Fixed: true}}}}, e, 1, 1)
	require.Equal(t, []float64{4}, fixed.Datum())
}
