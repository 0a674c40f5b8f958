package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

// gust is a gust of 10 m/s on 40 m²: 62.5 N/m² · 40 m² = 2500 N.
func gust() loads.Wind {
	return loads.Wind{WindSpeed: loads.WindSpeed{Speed: 10, Averaging: loads.GustOf3s, Height: 10}, Sail: 40, Source: formula.Source{Document: "invented EL-W-9"}}
}

// A wind of a speed has its force, and speed, averaging time and height are in the record,
// derived among the inputs; one without a speed says so there.
func TestWindOfASpeed(t *testing.T) {
	wind, err := stages.WindAcross("wind", gust(), 0, 36, 1)
	require.NoError(t, err)
	require.InEpsilon(t, 2500, wind.Loads.Total(), 1e-12)
	bare := wind
	bare.Mark, bare.Wind = "draught", nil
	plan := tandem(t)
	seat := plan[len(plan)-1].(stages.Seat)
	seat.Actions = []stages.Action{wind, bare}
	plan[len(plan)-1] = seat
	record, err := plan.Run(slenderBeam(t), handling)
	require.NoError(t, err)
	require.NoError(t, record.Check())
	last := record.Stages[len(record.Stages)-1].Situations[0]
	require.Len(t, last.Loads, 2)
	require.Equal(t, &stages.WindRecord{Speed: 10, Averaging: 3, Height: 10, Document: "invented EL-W-9"}, last.Loads[0].Wind)
	require.Nil(t, last.Loads[1].Wind)
	require.Equal(t, "wind", last.Loads[1].Kind)
	var titles []string
	for _, g := range record.Inputs {
		titles = append(titles, g.Title)
	}
	require.Contains(t, titles, "Wind, wind, 10 m/s")
	require.Contains(t, titles, "Wind, draught: no speed stated, no limit in m/s is evaluated")
	require.Equal(t, "10 min mean", stages.WindRecord{Averaging: 600}.Averaged())
	require.Equal(t, "3 s gust", stages.WindRecord{Averaging: 3}.Averaged())
	require.Equal(t, "20 s mean", stages.WindRecord{Averaging: 20}.Averaged())
	record.Stages[len(record.Stages)-1].Situations[0].Loads[0].Wind.Height = 0
	require.ErrorContains(t, record.Check(), "WindSpeed.Height = 0 m: must be 1 to 300 m")
}

// Loads below the force of the speed, a speed of another action and a speed that is none
// are refused.
func TestWindMustCoverItsSpeed(t *testing.T) {
	for want, change := range map[string]func(*stages.Action){
		"field Loads has 2499 N in all with its presence: must be at least 2500 N, the force of its Wind of 10 m/s": func(a *stages.Action) { a.Loads = a.Loads.Scaled(0.9996) },
		`must be of the kind Wind, Transverse or Along`:                                                             func(a *stages.Action) { a.Kind = stages.Equipment },
		"direction \"\": must be of the kind Wind":                                                                  func(a *stages.Action) { a.Direction = stages.Down },
		"WindSpeed.Averaging = 0 s: must be 1 to 3600 s":                                                            func(a *stages.Action) { a.Wind.Averaging = 0 },
	} {
		wind, err := stages.WindAcross("wind", gust(), 0, 36, 1)
		require.NoError(t, err)
		change(&wind)
		plan := tandem(t)
		seat := plan[len(plan)-1].(stages.Seat)
		seat.Actions = []stages.Action{wind}
		plan[len(plan)-1] = seat
		_, err = plan.Run(slenderBeam(t), handling)
		require.ErrorIs(t, err, stages.ErrStage)
		require.ErrorContains(t, err, want)
	}
	_, err := stages.WindAcross("wind", gust(), 5, 5, 1)
	require.ErrorContains(t, err, "wind from 5 m to 5 m: must be from left to right")
	slow := gust()
	slow.Speed = 0
	_, err = stages.WindAcross("wind", slow, 0, 5, 1)
	require.ErrorContains(t, err, "WindSpeed.Speed = 0 m/s: must be 1 to 80 m/s")
}

// The limit of a crane is the smaller of its chart and of the calculation where both are
// averaged and measured alike; else it is that of the chart, with its own basis, or with
// none where the chart states none.
func TestTheSmallerWindOfChartAndCalculationGoverns(t *testing.T) {
	facts := func(averaging, speed float64) (float64, string) {
		a, b := craneWith("crane A", 1, 2), craneWith("crane B", 3, 4)
		a.Chart.Averaging, a.Chart.Height = averaging, 10
		if averaging == 0 {
			a.Chart.Height = 0
		}
		of := gust()
		of.Speed = speed
		wind, err := stages.WindAcross("wind", of, 0, 36, 1)
		require.NoError(t, err)
		plan := tandem(t, a, b)
		lift := plan[1].(stages.Lift)
		lift.Actions = []stages.Action{wind}
		plan[1] = lift
		record, err := plan.Run(slenderBeam(t), handling)
		require.NoError(t, err)
		limit, basis := 0.0, ""
		for _, f := range record.Stages[1].Situations[0].Equipment[0].Facts {
			switch f.Name {
			case "wind limit":
				limit = f.Value
			case "wind basis":
				basis = f.Text
			}
		}
		return limit, basis
	}
	for _, c := range []struct {
		averaging, speed, limit float64
		basis                   string
	}{
		{3, 12, 9, "3 s gust at 10 m, chart"}, {3, 7, 7, "3 s gust at 10 m, calculation, below the chart"},
		{600, 7, 9, "10 min mean at 10 m, chart"}, {0, 7, 9, ""},
	} {
		limit, basis := facts(c.averaging, c.speed)
		require.Equal(t, c.limit, limit, "%v", c)
		require.Equal(t, c.basis, basis, "%v", c)
	}
}
