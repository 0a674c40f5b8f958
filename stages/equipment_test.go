package stages_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// cranes are two cranes on the four lift points of the block, each with outline and facts.
func cranes() []stages.EquipmentItem {
	of := func(mark string, x float64, supports ...int) stages.EquipmentItem {
		return stages.EquipmentItem{
			Mark: mark, Kind: stages.Crane, Supports: supports, Outline: [][][2]float64{{{x, 0}, {x, 20}}},
			Facts: []stages.Fact{{Name: "configuration", Text: "main boom"}, {Name: "chart capacity", Value: 612e3, Unit: formula.Newton, Sense: limits.AtMost}},
		}
	}
	return []stages.EquipmentItem{of("C1", -3, 1, 2), of("C2", 15, 3, 4)}
}

// craneLift is the block stored, lifted by two cranes and stored on a stack.
func craneLift(equipment []stages.EquipmentItem) stages.Plan {
	on := paired(stages.Pads(0.2, 2.4, 9.6))
	return stages.Plan{
		stages.Store{Age: 28, On: on},
		stages.Lift{Age: 28, On: hooks(0.2, 2.4, 9.6), Dynamic: loads.AtRest(), Equipment: equipment},
		stages.Store{Age: 28, On: on, Equipment: []stages.EquipmentItem{{Mark: "S1", Kind: stages.Stack, Supports: []int{1, 2, 3, 4}}}},
	}
}

// Equipment reaches the record as it was stated, reads back equal, and changes no number.
func TestEquipmentReachesTheRecord(t *testing.T) {
	mine := cranes()
	r, err := craneLift(mine).Run(block(), limits.EN1992{})
	require.NoError(t, err)
	require.NoError(t, r.Check())
	require.Empty(t, r.Stages[0].Situations[0].Equipment)
	require.Equal(t, cranes(), r.Stages[1].Situations[0].Equipment)
	require.Equal(t, stages.Stack, r.Stages[2].Situations[0].Equipment[0].Kind)
	text, err := json.Marshal(r)
	require.NoError(t, err)
	var back stages.Record
	require.NoError(t, json.Unmarshal(text, &back))
	require.Empty(t, cmp.Diff(r, back, cmpopts.IgnoreUnexported(stages.Check{}), cmpopts.EquateEmpty()))
	plain, err := craneLift(nil).Run(block(), limits.EN1992{})
	require.NoError(t, err)
	require.Equal(t, pin(plain), pin(r))
	bare, err := json.Marshal(plain.Stages[1])
	require.NoError(t, err)
	require.NotContains(t, string(bare), "equipment")

	e := &r.Stages[1].Situations[0].Equipment[0]
	e.Supports[0], e.Outline[0][0][0], e.Facts[0].Name = 9, 9, "changed"
	require.Equal(t, cranes(), mine, "the record shares nothing with the plan")
}

// Every situation of a stage has the equipment of the stage.
func TestEquipmentOfEachStage(t *testing.T) {
	e := []stages.EquipmentItem{{Mark: "P", Kind: stages.Pier}}
	on := paired(stages.Pads(0.2, 2.4, 9.6))
	for _, stage := range []stages.Stage{
		stages.Transfer{Age: 3, Jacking: jackings("A"), On: on, Equipment: e}, stages.Lift{Age: 3, On: on, Equipment: e}, stages.Store{Age: 3, On: on, Equipment: e},
		stages.Haul{Age: 3, On: on, Equipment: e}, stages.Stress{Age: 3, Jacking: jackings("A", "B"), Grout: []string{"A"}, Equipment: e}, stages.Seat{Age: 3, On: on, Equipment: e},
	} {
		situations, err := stage.Situations(stages.History{})
		require.NoError(t, err)
		for _, s := range situations {
			require.Equal(t, e, s.Equipment, "%T", stage)
		}
	}
}

// Equipment that cannot be as described is refused with item, field, value and what it
// must be.
func TestEquipmentIsCheckedAtTheDoor(t *testing.T) {
	nan, long := math.NaN(), strings.Repeat("x", 300)
	for says, change := range map[string]func(e []stages.EquipmentItem){
		`"": mark has 0 letters: must be 1 to 40 in UTF-8, not blank`:                                                func(e []stages.EquipmentItem) { e[0].Mark = "" },
		`mark has 2 letters: must be 1 to 40`:                                                                        func(e []stages.EquipmentItem) { e[0].Mark = " \t" },
		`mark has 300 letters: must be 1 to 40`:                                                                      func(e []stages.EquipmentItem) { e[0].Mark = long },
		`mark has 1 letters: must be 1 to 40 in UTF-8`:                                                               func(e []stages.EquipmentItem) { e[0].Mark = "\xff" },
		`in Equipment[1] "C1": mark is that of another item: must be marks`:                                          func(e []stages.EquipmentItem) { e[1].Mark = "C1" },
		`field Kind = "": must be one of ["crane" "gantry"`:                                                          func(e []stages.EquipmentItem) { e[0].Kind = "" },
		`field Supports has number 5: must be 1 to 4, the supports of the`:                                           func(e []stages.EquipmentItem) { e[0].Supports[1] = 5 },
		`field Supports has number 0: must be 1 to 4`:                                                                func(e []stages.EquipmentItem) { e[0].Supports[1] = 0 },
		`field Supports has number 1 twice: must be named once`:                                                      func(e []stages.EquipmentItem) { e[0].Supports[1] = 1 },
		`"C2": field Supports has lift point 2, which "C1" holds: must be held`:                                      func(e []stages.EquipmentItem) { e[1].Supports[0] = 2 },
		`field Supports of a pier has number 1, a lift point: must be a support that it carries from below`:          func(e []stages.EquipmentItem) { e[0].Kind = stages.Pier },
		`field Outline, line 1 has 1 points: must be at least 2`:                                                     func(e []stages.EquipmentItem) { e[0].Outline[0] = e[0].Outline[0][:1] },
		`field Outline has more than 2000 points: must be at most 2000`:                                              func(e []stages.EquipmentItem) { e[0].Outline[0] = make([][2]float64, 2001) },
		`line 1, point 1: x = NaN m, z = 0 m: must be x within 200 m of the element, -200 to 212 m, z within ±200 m`: func(e []stages.EquipmentItem) { e[0].Outline[0][0][0] = nan },
		`line 1, point 2: x = -3 m, z = +Inf m: must be`:                                                             func(e []stages.EquipmentItem) { e[0].Outline[0][1][1] = math.Inf(1) },
		`line 1, point 2: x = 212.5 m, z = 20 m: must be`:                                                            func(e []stages.EquipmentItem) { e[0].Outline[0][1][0] = 212.5 },
		`41 Facts: must be at most 40`:                                                                               func(e []stages.EquipmentItem) { e[0].Facts = make([]stages.Fact, 41) },
		`in Facts[1] "": name has 0 letters: must be 1 to 80`:                                                        func(e []stages.EquipmentItem) { e[0].Facts[1].Name = "" },
		`in Facts[1] "configuration": name is that of another fact`:                                                  func(e []stages.EquipmentItem) { e[0].Facts[1].Name = "configuration" },
		`in Facts[0] "configuration": text has 0 letters: must be 1 to 200`:                                          func(e []stages.EquipmentItem) { e[0].Facts[0].Text = "" },
		`text has 300 letters: must be 1 to 200`:                                                                     func(e []stages.EquipmentItem) { e[0].Facts[0].Text = long },
		`both a text and a value in "N": must be one of them`:                                                        func(e []stages.EquipmentItem) { e[0].Facts[1].Text = "much" },
		`value = 612000 and sense "at most" without a unit: must have a unit`:                                        func(e []stages.EquipmentItem) { e[0].Facts[1].Unit = "" },
		`unit "kN": must be one of`:                                                                                  func(e []stages.EquipmentItem) { e[0].Facts[1].Unit = "kN" },
		`value = NaN N: must be within ±1e+12 N`:                                                                     func(e []stages.EquipmentItem) { e[0].Facts[1].Value = nan },
		`sense "about": must be "at most", "at least" or empty`:                                                      func(e []stages.EquipmentItem) { e[0].Facts[1].Sense = "about" },
		`41 Positions: must be at most 40`:                                                                           func(e []stages.EquipmentItem) { e[0].Positions = make([]stages.EquipmentPosition, 41) },
		`in Positions[0] "": name has 0 letters: must be 1 to 80`:                                                    func(e []stages.EquipmentItem) { e[0].Positions = []stages.EquipmentPosition{{}} },
		`in Positions[0] "rolls": in Facts[0] "x": unit "km": must be one of`: func(e []stages.EquipmentItem) {
			e[0].Positions = []stages.EquipmentPosition{{Name: "rolls", Facts: []stages.Fact{{Name: "x", Value: 1, Unit: "km"}}}}
		},
	} {
		e := cranes()
		change(e)
		_, err := craneLift(e).Run(block(), limits.EN1992{})
		require.ErrorIs(t, err, stages.ErrStage, says)
		require.ErrorContains(t, err, says)
		require.ErrorContains(t, err, "stage 2, lift at age 28 d: in Equipment[")
		require.Less(t, len(err.Error()), 700, says)
	}
	_, err := craneLift(make([]stages.EquipmentItem, 51)).Run(block(), limits.EN1992{})
	require.ErrorContains(t, err, "in Equipment: 51 items: must be at most 50")
	plan := craneLift(nil)
	plan[2] = stages.Store{Age: 28, On: paired(stages.Pads(0.2, 2.4, 9.6)), Equipment: []stages.EquipmentItem{{Mark: "G", Kind: stages.Gantry, Supports: []int{2}}}}
	_, err = plan.Run(block(), limits.EN1992{})
	require.ErrorContains(t, err, `in Equipment[0] "G": field Supports of a gantry has number 2, a pad: must be a lift point`)
}

// A girder carrier holds the element from above or carries it from below, two kinds may
// carry one support, and what holds nothing may stand by.
func TestWhatEquipmentMayHold(t *testing.T) {
	require.Len(t, stages.EquipmentKinds(), 11)
	_, err := craneLift([]stages.EquipmentItem{{Mark: "GC", Kind: stages.Carrier, Supports: []int{1, 2, 3, 4}}}).Run(block(), limits.EN1992{})
	require.NoError(t, err)
	plan := craneLift(nil)
	plan[2] = stages.Store{Age: 28, On: paired(stages.Pads(0.2, 2.4, 9.6)), Equipment: []stages.EquipmentItem{
		{Mark: "P", Kind: stages.Pier, Supports: []int{1, 2}}, {Mark: "S", Kind: stages.Stack, Supports: []int{1, 2}}, {Mark: "C", Kind: stages.Crane}, {Mark: "GC", Kind: stages.Carrier, Supports: []int{3}},
	}}
	_, err = plan.Run(block(), limits.EN1992{})
	require.NoError(t, err)
}
