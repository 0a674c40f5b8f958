package launching_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/launching"
	"github.com/tempstage/tempstage/stages/limits"
)

func loadTransfer() launching.LoadTransfer {
	return launching.LoadTransfer{Age: 31, Bearings: bearings(), OffLevel: 0.001, Mortar: launching.Mortar{Strength: 20e6, Area: 0.36}}
}

// The mortar has the largest ultimate reaction on its bed, against its strength over 1.5;
// before the transfer its strength is shown.
func TestLoadTransfer(t *testing.T) {
	record := run(t, jackDown(), loadTransfer())
	s := record.Stages[2].Situations[0]
	largest := 0.0
	for _, r := range s.Reactions {
		largest = max(largest, r.Ultimate.Most)
	}
	c := find(t, s, "pressure on the mortar")
	require.Equal(t, stages.Pass, c.State)
	require.InEpsilon(t, largest/0.36, c.Demand.Value, 1e-9)
	require.InEpsilon(t, 20e6/1.5, c.Limit.Value, 1e-9)
	held := false
	for _, h := range s.HoldPoints {
		held = held || h.Kind == "bedding mortar" && h.Required.Value == 20e6
	}
	require.True(t, held)
	weak := loadTransfer()
	weak.Mortar.Area = 1.5 * largest / 20e6 * 0.999
	require.Equal(t, stages.Fail, find(t, run(t, jackDown(), weak).Stages[2].Situations[0], "pressure on the mortar").State)
	require.Equal(t, limits.LocalForce, find(t, s, string(limits.LocalForce)).Kind)
	spread := func(out float64) float64 {
		l := loadTransfer()
		l.Bearings, l.OffLevel = stages.Elastic(500e6, bearings()...), out
		for i := range l.Bearings {
			l.Bearings[i].Group = ""
		}
		r := run(t, jackDown(), l).Stages[2].Situations[0].Reactions[0]
		return r.Static.Most - r.Static.Least
	}
	require.InEpsilon(t, 2*(spread(0.001)-spread(0.0005)), spread(0.002)-spread(0.001), 1e-6, "the level difference that the jacks leave is in the reactions")
	require.Greater(t, spread(0.002), 1.2*spread(0.001))
}

func TestLoadTransferBadInput(t *testing.T) {
	for words, change := range map[string]func(*launching.LoadTransfer){
		"LoadTransfer.OffLevel = -0.001 m":                           func(l *launching.LoadTransfer) { l.OffLevel = -0.001 },
		"LoadTransfer.Mortar.Strength = 20 Pa":                       func(l *launching.LoadTransfer) { l.Mortar.Strength = 20 },
		"in LoadTransfer.From: launching: field JackDown.Linked = 0": func(l *launching.LoadTransfer) { l.From = &launching.JackDown{} },
		"LoadTransfer.Mortar.Area = 0 m²":                            func(l *launching.LoadTransfer) { l.Mortar.Area = 0 },
		"the supports act at x = 0.7 m alone: must be at two":        func(l *launching.LoadTransfer) { l.Bearings = l.Bearings[:1] },
		"support 1 at x = 0.7 m":                                     func(l *launching.LoadTransfer) { l.Bearings[0].Holds = "" },
		"LoadTransfer.Bearings, number = 0":                          func(l *launching.LoadTransfer) { l.Bearings = nil },
	} {
		l := loadTransfer()
		change(&l)
		_, err := stages.Plan{stages.Seat{Age: 28, On: bearings()}, l}.Run(span(t), limits.EN1992{})
		if !errors.Is(err, stages.ErrStage) {
			require.ErrorIs(t, err, launching.ErrLaunching, words)
		}
		require.ErrorContains(t, err, words)
	}
}
