package launching_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
)

// factsOf are the facts of a list by their names.
func factsOf(list []stages.Fact) map[string]stages.Fact {
	facts := map[string]stages.Fact{}
	for _, f := range list {
		facts[f.Name] = f
	}
	return facts
}

// What the crew of a launch reads is what is calculated: places, feet, brakes, bars, nose.
func TestTheRowOfAPosition(t *testing.T) {
	p := rolling(12)
	p.Stands[0].Bars = &launching.Bars{Number: 4, Preload: 250.4e3, Capacity: 400e3, Document: "EL-LG-9"}
	record := run(t, launching.Launch{Age: 60, Gantry: gantry(), Positions: []launching.Position{p}})
	item := record.Stages[1].Situations[0].Equipment[0]
	require.Equal(t, stages.Gantry, item.Kind)
	landed := p
	landed.Name, landed.At, landed.Roll = "stands", -14.5, 0
	two := run(t, launching.Launch{Age: 60, Gantry: gantry(), Positions: []launching.Position{p, landed}})
	require.Equal(t, "self-launch", two.Stages[1].Name, "what its situations have in common")
	require.Equal(t, "self-launch, roll to the next pier", record.Stages[1].Name)
	require.Empty(t, item.Supports)
	require.Equal(t, "3 s gust at 10 m", factsOf(item.Facts)["wind basis"].Text)
	require.Len(t, item.Positions, 1)
	row := factsOf(item.Positions[0].Facts)
	feet, err := gantry().Across(p)
	require.NoError(t, err)
	nose, err := gantry().Nose(p)
	require.NoError(t, err)
	for name, value := range map[string]float64{
		"rear end at x": -24, "rolls to x": -14.5, "T1 from rear, locked": 12, "rear leg at x": -6, "main leg at x": 33,
		"foot char., rear": feet[0].Foot.Most, "foot char., main": feet[1].Foot.Most, "nose low by": nose,
	} {
		require.InDelta(t, value, row[name].Value, 1e-6, name)
	}
	for name, words := range map[string]string{"rear leg on": "E-06", "main leg on": "E-07", "front leg on": "up", "brakes or pins at": "main", "anchor bars": "rear: 4 of 251 kN"} {
		require.Equal(t, words, row[name].Text, name)
	}
}

// What the crew of a hoist reads: which lift points share a rope, and the smallest rating.
func TestTheFormOfAHoist(t *testing.T) {
	h := hoist()
	h.Hooks[1].Rated = 3.9e6
	item := run(t, h, stages.Seat{Age: 28, On: bearings()}).Stages[1].Situations[0].Equipment[0]
	require.Equal(t, []int{1, 2, 3, 4}, item.Supports)
	facts := factsOf(item.Facts)
	require.Equal(t, "3 + 4 equalised; 1, 2 alone", facts["hoist arrangement"].Text)
	require.Equal(t, 3.9e6, facts["rated capacity"].Value)
	require.Equal(t, 12.0, facts["wind limit"].Value)
}

// The jacks of a jack-down and of the load transfer after it.
func TestTheFormOfJacks(t *testing.T) {
	down, transfer := jackDown(), loadTransfer()
	down.Gradient, down.Roll = 0.004, 0.003
	transfer.From = &down
	r := run(t, down, transfer)
	item := r.Stages[1].Situations[0].Equipment[0]
	require.Equal(t, []int{1, 2, 3, 4}, item.Supports)
	facts := factsOf(item.Facts)
	require.InDelta(t, 0.004*31.4, facts["difference along"].Value, 1e-12)
	require.InDelta(t, 0.003*2.4, facts["difference across"].Value, 1e-12)
	require.InDelta(t, 0.05*3e6, facts["horizontal capacity"].Value, 1e-6)
	require.Equal(t, "3 + 4; others alone", facts["linked"].Text)
	later := r.Stages[2].Situations[0].Equipment[0]
	require.Empty(t, later.Supports)
	require.NotContains(t, factsOf(later.Facts), "lowered in all")
	require.Equal(t, "x = 1.3 m and 32.7 m, y = -1.2 m to 1.2 m", factsOf(later.Facts)["places"].Text)
}
