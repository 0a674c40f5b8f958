package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Bars at the bottom are no help to tension at the top, nor bars that end before it.
func TestBarsCountWhereTheyRun(t *testing.T) {
	e := block()
	bottom, top := e.Bars[0], e.Bars[1]
	ends := stages.Plan{stages.Store{Age: 28, On: paired(stages.Pads(0.2, 4, 8.3))}} // hogs over both pads
	limitOf := func(plan stages.Plan, bars ...stages.BondedBars) stages.Check {
		e.Bars = bars
		var tension stages.Check
		for _, c := range run(t, e, plan).Stages[0].Situations[0].Checks {
			if c.Kind == limits.Tension && (tension.Name == "" || c.State == stages.Fail) {
				tension = c
			}
		}
		return tension
	}
	require.Equal(t, stages.Pass, limitOf(ends, top).State)
	none := limitOf(ends, bottom)
	require.Equal(t, stages.Fail, none.State)
	require.Zero(t, none.Limit.Value)
	require.InDelta(t, 10e3*16/2/(0.5*0.64/6), none.Demand.Value, 1)
	short := top
	short.From = 4.001
	over := limitOf(ends, short)
	require.Equal(t, stages.Fail, over.State, "they begin 1 mm beyond the pad")
	require.InDelta(t, 4, over.X, 2e-3)
	short.From = 0
	require.Equal(t, stages.Pass, limitOf(ends, short).State)
}

// A stage by the day of the project is the same as one by age, its end as well.
func TestDaysAndAges(t *testing.T) {
	e := stressedBlock()
	e.Cast = 100
	store := func(age, until, day float64) odd {
		return odd{situations: []stages.Situation{{Name: "wait", Age: age, Until: until, Day: day, Standing: true, Phase: limits.Storing, Supports: pads(paired(stages.Pads(0.2, 0.3, 11.6)))}}}
	}
	var ends [2]stages.SituationRecord
	for i, plan := range []stages.Plan{
		{stages.Transfer{Age: 5, Jacking: jackings("T")}, store(20, 400, 0)}, {stages.Transfer{Age: 5, Jacking: jackings("T")}, store(0, 500, 120)},
	} {
		r := run(t, e, plan)
		require.Len(t, r.Stages[1].Situations, 2)
		ends[i] = r.Stages[1].Situations[1]
		require.Equal(t, 400.0, ends[i].Age)
		require.Equal(t, 500.0, ends[i].Day)
		require.Equal(t, 20.0, r.Stages[1].Situations[0].Age)
		require.Equal(t, 120.0, r.Stages[1].Situations[0].Day)
	}
	require.Equal(t, ends[0].Tendons, ends[1].Tendons)
	require.Greater(t, ends[0].Tendons[0].Losses.Creep, 5e6)
}

// Pieces cast on unlike days have no one age: their stages state the day.
func TestPiecesOfUnlikeDaysNeedTheDay(t *testing.T) {
	a, b := segment("A", 5), segment("B", 7)
	b.Cast = 12
	b.Concrete = concrete.EN1992{Fck: 50e6, Cement: concrete.ClassN}
	g := stages.Girder{Mark: "AB", Pieces: stages.EndToEnd(stages.Monolithic, a, b)}
	_, err := stages.Plan{stages.Store{Age: 40, On: paired(stages.Pads(0.2, 0.3, 11.6))}}.Run(g, limits.EN1992{})
	require.ErrorContains(t, err, "Age = 40 d of a girder whose pieces 1 and 2 are cast on days 0 and 12: must be stated by Day")
	day := func(d float64) stages.Plan {
		return stages.Plan{odd{situations: []stages.Situation{{Name: "look", Day: d, Standing: true, Phase: limits.Storing, Supports: pads(paired(stages.Pads(0.2, 0.3, 11.6)))}}}}
	}
	require.NotEqual(t, stages.Fail, check(t, run(t, g, day(40)).Stages[0].Situations[0], limits.Compression).State)
	// On day 14 B is two days old and no test has shown its strength.
	young := run(t, g, day(14)).Stages[0].Situations[0]
	conditional := false
	for _, c := range young.Checks {
		conditional = conditional || c.Kind == limits.Compression && c.State == stages.Conditional
	}
	require.True(t, conditional)
	_, err = day(11).Run(g, limits.EN1992{})
	require.Error(t, err, "B is not cast yet")
}
