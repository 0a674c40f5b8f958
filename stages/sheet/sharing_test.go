package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// The facts of a situation say at which level each support is, and how supports share.
func TestLevelsAndSharingOfSupports(t *testing.T) {
	a := &author{units: SI}
	four := func(of stages.Support) []stages.Support {
		list := []stages.Support{of, of, of, of}
		list[1].Y, list[3].Y = 3, 3
		return list
	}
	pair := four(stages.Support{})
	pair[2].Group, pair[3].Group = "right pair", "right pair"
	soft := four(stages.Support{Stiffness: 80e6})
	for want, s := range map[string]stages.SituationRecord{
		"by statics": {Supports: pair[:2]},
		"3 + 4 equalised (right pair), by statics":                                                    {Supports: pair},
		"elastic, by the stiffness of supports and element":                                           {Supports: soft},
		"elastic, by the stiffness of supports and element, one support 5 mm out of level either way": {Supports: four(stages.Support{}), OutOfLevel: 0.005},
		"shares not stated: bounded by every statically determinate set":                              {Supports: four(stages.Support{}), Reactions: []stages.Reaction{{Bounded: true}}},
	} {
		require.Equal(t, want, a.sharing(s))
	}
	require.Equal(t, "by statics", a.sharing(stages.SituationRecord{Supports: soft[:3]}), "three soft supports are determinate")
	soft[1].Y = 0
	require.Contains(t, a.sharing(stages.SituationRecord{Supports: soft[:3]}), "elastic", "but not on one line")
	require.Equal(t, "at the soffit", a.supportLevels(pair))
	require.Equal(t, "z = 2.4 m, z = 0 m", a.supportLevels([]stages.Support{{Z: 2.4, Role: stages.LiftPoint}, {Z: 2.4, Role: stages.LiftPoint}, {Role: stages.Tie}}))
}

// A horizontal action has the height of its resultant, a vertical one needs none.
func TestTheHeightOfHorizontalActions(t *testing.T) {
	a := &author{units: SI}
	wind := stages.Load{Mark: "wind", Direction: string(stages.Transverse), To: 34, Centre: 17, Z: 1.2, Force: 20.4e3, Presence: stages.Range{Least: -1, Most: 1}}
	require.Equal(t, "wind from 0 m to 34 m, resultant at x = 17 m, 20.4 kN across in total, both ways, at z = 1.2 m", a.loadsWords(stages.SituationRecord{Loads: []stages.Load{wind}}))
	wind.Direction = ""
	require.NotContains(t, a.loadsWords(stages.SituationRecord{Loads: []stages.Load{wind}}), "z =")
}
