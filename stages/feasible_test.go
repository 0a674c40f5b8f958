package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// rows are pads in pairs under a 12 m block of W = 12·0.5·0.8·25 = 120 kN.
func rows(x ...float64) []stages.Support { return stages.Pads(0.2, x...) }

func boundedBy(t *testing.T, on []stages.Support, actions ...stages.Action) []stages.Reaction {
	e := block()
	e.UnitWeight = 25e3
	record, err := stages.Plan{stages.Store{Age: 28, Until: 30, On: on, Actions: actions}}.Run(e, limits.EN1992{})
	require.NoError(t, err)
	for _, r := range record.Stages[0].Situations[0].Reactions {
		require.True(t, r.Bounded)
	}
	return record.Stages[0].Situations[0].Reactions
}

// 100 kN at x = 11.8 m bring the resultant of 220 kN to x = 1900/220 = 8.636 m. Rows at
// x = 1, 7 and 11 m: with the weight alone at 6 m one pad of the row at 1 m and both at
// 7 m are a way of sharing; with the load that row would have to pull 60 kN, and both at
// 7 m would carry 280 kN. What holds is both at 7 m with one at 11 m: 220·2.364/4 = 130
// and 90 kN, the one at 7 m on the other side 110 kN, as one at each of three places.
func TestActionsChangeWhichSupportsMayCarry(t *testing.T) {
	load := stages.Action{Mark: "counterweight", Loads: loads.Set{Points: []loads.Point{{At: 11.8, Force: 100e3}}}, Least: 1, Most: 1}
	for _, r := range boundedBy(t, rows(1, 7, 11), load) {
		if r.X == 7 {
			require.InEpsilon(t, 110e3, r.Characteristic.Most, 1e-9)
		}
		for _, of := range []stages.Range{r.Static, r.Characteristic, r.Ultimate} {
			require.GreaterOrEqual(t, of.Least, 0.0, "a pad at x = %g m cannot pull", r.X)
			require.GreaterOrEqual(t, of.Most, of.Least)
		}
	}
	// Where the load may be absent both ways are looked at.
	load.Least = 0
	for _, r := range boundedBy(t, rows(1, 7, 11), load) {
		require.Zero(t, r.Characteristic.Least)
		if r.X == 7 {
			require.GreaterOrEqual(t, r.Characteristic.Most, 110e3)
		}
	}
}

// A load of 500 kN beyond the last row leaves no set that carries it: the resultant lies
// at (720 + 500·11.9)/620 = 10.76 m, the last row at 10 m.
func TestNoSetCarriesAnActionBeyondTheSupports(t *testing.T) {
	e := block()
	e.UnitWeight = 25e3
	load := stages.Action{Mark: "counterweight", Loads: loads.Set{Points: []loads.Point{{At: 11.9, Force: 500e3}}}, Least: 1, Most: 1}
	_, err := stages.Plan{stages.Store{Age: 28, Until: 30, On: rows(2, 6, 10), Actions: []stages.Action{load}}}.Run(e, limits.EN1992{})
	require.ErrorIs(t, err, stages.ErrStage)
	require.ErrorContains(t, err, "stage 1")
	require.ErrorContains(t, err, "must be supports that enclose the resultant")
}
