package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// A support that keeps its force from before a Join and may lift afterwards is refused: its
// contact cannot be followed, and the forces that it keeps must not be left out.
func TestASupportOfAHalfThatLiftsAfterTheJoinIsRefused(t *testing.T) {
	left, _ := halfOf(t, "L", 1, 50e6, 0)
	right, _ := halfOf(t, "R", -1, 50e6, 0)
	on := stages.Elastic(1e9, as(stages.Pad, append(under(1, 2.5), under(-1, 2.5)...))...) // the inner one of each pair is pulled
	girder := stages.Girder{Mark: "D", Pieces: []stages.Piece{{Element: left}, {Element: right}, {Element: bar(t, "S", 12, -0.1, 0.2, 1.4, 50e6), Later: true, Joint: stages.Monolithic}}}
	_, err := stages.Plan{
		stages.Seat{Age: 10, On: on, OutOfLevel: 1e-6},
		event{age: 20, on: on, events: []stages.Event{{Add: []string{"S"}, Join: []string{"S"}}}},
	}.Run(girder, limits.EN1992{})
	require.ErrorIs(t, err, stages.ErrStage)
	require.ErrorContains(t, err, "a support that stays from a previous situation may lift")
}

// A level difference that is stated at a join and was none before acts on the joined girder.
func TestALevelDifferenceThatComesWithAJoin(t *testing.T) {
	left, _ := halfOf(t, "L", 1, 50e6, 0)
	right, _ := halfOf(t, "R", -1, 50e6, 0)
	on := stages.Elastic(1e8, as(stages.Pad, append(pressed(1, 2.5), pressed(-1, 2.5)...))...)
	girder := stages.Girder{Mark: "D", Pieces: []stages.Piece{{Element: left}, {Element: right}, {Element: bar(t, "S", 12, -0.1, 0.2, 1.4, 50e6), Later: true, Joint: stages.Monolithic}}}
	spread := func(level float64) float64 {
		record, err := stages.Plan{
			stages.Seat{Age: 10, On: on, OutOfLevel: 1e-6},
			event{age: 20, on: on, level: level, events: []stages.Event{{Add: []string{"S"}, Join: []string{"S"}}}},
		}.Run(girder, limits.EN1992{})
		require.NoError(t, err)
		r := record.Stages[1].Situations[0].Reactions[0]
		return r.Static.Most - r.Static.Least
	}
	require.Greater(t, spread(8e-5), spread(0)+1)
}

// Where the supports of one body open, those of another keep the whole range of causes that
// reach only them.
func TestContactOfOneBodyLeavesTheRangesOfAnother(t *testing.T) {
	a, b := bar(t, "A", 12, -1.5, 1, 1, 50e6), bar(t, "B", 12, 0.5, 1, 1, 50e6)
	a.WeightTolerance, b.WeightTolerance = loads.PlusMinus(0.02), loads.PlusMinus(0.05)
	girder := stages.Girder{Mark: "AB", Pieces: []stages.Piece{{Element: a, WeightGroup: "A"}, {Element: b, WeightGroup: "B"}}}
	rocking := stages.Elastic(1e9, as(stages.Pad, []stages.Support{{X: 1, Y: -1.3}, {X: 1, Y: -0.7}, {X: 11, Y: -1.3}, {X: 11, Y: -0.7}})...)
	still := stages.Elastic(1e9, as(stages.Pad, []stages.Support{{X: 1, Y: 0.7}, {X: 1, Y: 1.3}, {X: 11, Y: 1}})...)
	record, err := stages.Plan{stages.Seat{Age: 10, On: append(rocking, still...), OutOfLevel: 0.05}}.Run(girder, limits.EN1992{})
	require.NoError(t, err)
	require.NoError(t, record.Check())
	least, most := 0.0, 0.0
	opens := false
	for _, r := range record.Stages[0].Situations[0].Reactions {
		if r.Body == 2 {
			least, most = least+r.Static.Least, most+r.Static.Most
			require.NotNil(t, r.Share)
		}
		opens = opens || r.Body == 1 && r.Static.Least == 0
	}
	require.True(t, opens)
	weight := 12 * 25e3
	require.InDelta(t, 0.95*weight, least, 1)
	require.InDelta(t, 1.05*weight, most, 1)
}
