package stages_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Two halves end to end, each on two springs, are joined; the inner springs keep what they
// carry, and lowered far enough in one or more steps they carry nothing: the outer ones have
// all by statics and the joint the moment of a simple beam.
func TestSupportsFromBeforeAJoinAreLoweredUntilTheyLift(t *testing.T) {
	a, b := segment("A", 6), segment("B", 6)
	a.WeightTolerance, b.WeightTolerance = loads.PlusMinus(0), loads.PlusMinus(0)
	g := stages.Girder{Mark: "AB", Pieces: stages.EndToEnd(stages.Monolithic, a, b)}
	g.Pieces[1].Later = true
	on := func(lowered float64) []stages.Support {
		list := stages.Elastic(60e6, as(stages.Pad, stages.At(1, 5, 7, 11))...)
		list[1].Level, list[2].Level = -lowered, -lowered
		return list
	}
	run := func(steps ...float64) stages.Effects {
		plan := stages.Plan{
			event{age: 28, on: on(0), events: []stages.Event{{Add: []string{"B"}}}},
			event{age: 28, on: on(0), events: []stages.Event{{Join: []string{"B"}}}},
		}
		for _, d := range steps {
			plan = append(plan, event{age: 28, on: on(d)})
		}
		return effectsOf(t, g, plan, len(plan))
	}
	joined := run()
	require.InDelta(t, 0, joined.Forces(6).My, 1e-3, "each half by itself")
	for _, r := range joined.Reactions {
		require.InDelta(t, 30e3, r.Nominal, 1e-3)
	}
	for _, steps := range [][]float64{{0.02}, {0.001, 0.02}, {0.0001, 0.03, 0.02}} {
		e := run(steps...)
		for i, want := range []float64{60e3, 0, 0, 60e3} {
			require.InDelta(t, want, e.Reactions[i].Nominal, 1e-3, "lowered by %v, support %d", steps, i+1)
		}
		require.InDelta(t, 60e3*5-10e3*36/2, e.Forces(6).My, 1e-2)
		require.InDelta(t, 60e3*1-10e3*4/2, e.Forces(2).My, 1e-2)
	}
	require.InDelta(t, run(0.0001).Reactions[1].Nominal, run(0.002, 0.0001).Reactions[1].Nominal, 1e-3, "what had lifted touches again")
	require.Greater(t, run(0.0001).Reactions[1].Nominal, 20e3)
	// One alone: the same as when it is taken away.
	unlike := on(0)
	for i, k := range []float64{60e6, 40e6, 90e6, 20e6} {
		unlike[i].Stiffness = k
	}
	low, gone := slices.Clone(unlike), slices.Delete(slices.Clone(unlike), 1, 2)
	low[1].Level = -0.05
	of := func(last []stages.Support) stages.Effects {
		return effectsOf(t, g, stages.Plan{
			event{age: 28, on: unlike, events: []stages.Event{{Add: []string{"B"}}}}, event{age: 28, on: unlike, events: []stages.Event{{Join: []string{"B"}}}}, event{age: 28, on: last},
		}, 3)
	}
	lowered, taken := of(low), of(gone)
	for i, j := range []int{0, 2, 3} {
		require.InDelta(t, taken.Reactions[i].Nominal, lowered.Reactions[j].Nominal, 1e-3)
	}
	require.Zero(t, lowered.Reactions[1].Nominal)
	require.InDelta(t, taken.Forces(5.5).My, lowered.Forces(5.5).My, 1e-2)
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
