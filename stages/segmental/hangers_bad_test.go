package segmental_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
)

// Errors name hanger, segment, joint or step, the value with its unit and what it must be.
func TestHangersRefuse(t *testing.T) {
	g, good := hungBlocks(t)
	for says, change := range map[string]func(*stages.Girder, *segmental.Hangers){
		"Hangers.Area = 1018 m²":                              func(_ *stages.Girder, h *segmental.Hangers) { h.Area = 1018 },
		"Hangers.Modulus = 205 Pa":                            func(_ *stages.Girder, h *segmental.Hangers) { h.Modulus = 205 },
		"Hangers.Limit = NaN N":                               func(_ *stages.Girder, h *segmental.Hangers) { h.Limit = math.NaN() },
		"Hangers.Spread = 0 m":                                func(_ *stages.Girder, h *segmental.Hangers) { h.Spread = 0 },
		"Hangers.CrossFall = 3 rad":                           func(_ *stages.Girder, h *segmental.Hangers) { h.CrossFall = 3 },
		"field Hangers.Gantry":                                func(_ *stages.Girder, h *segmental.Hangers) { h.Gantry.Supports = nil },
		`Hangers.List[4].Mark = "H4"`:                         func(_ *stages.Girder, h *segmental.Hangers) { h.List[4].Mark = "H4" },
		"Hangers.List[2] H3.Length = 0 m":                     func(_ *stages.Girder, h *segmental.Hangers) { h.List[2].Length = 0 },
		"hanger H4 at x = 4 m follows H3 at 4.3 m":            func(_ *stages.Girder, h *segmental.Hangers) { h.List[3].X = 4 },
		"segment S2 from x = 3.6 to 7.2 m is on 1 pairs":      func(_ *stages.Girder, h *segmental.Hangers) { h.List = slices.Delete(h.List, 3, 4) },
		"segment S1: its centre of gravity at x = 1.800 m":    func(_ *stages.Girder, h *segmental.Hangers) { h.List[1].X = 1.7 },
		"Hangers.Level = 0.9 m: must be above the centre":     func(_ *stages.Girder, h *segmental.Hangers) { h.Level = 0.9 },
		"segment S1: its centre of gravity is -2.500 m":       func(_ *stages.Girder, h *segmental.Hangers) { h.Line = 2.5 },
		"segment S4: Piece.Later must be true":                func(g *stages.Girder, _ *segmental.Hangers) { g.Pieces[3].Later = false },
		`girder "Q" has 1 segments: must be at least 2`:       func(g *stages.Girder, _ *segmental.Hangers) { g.Pieces = g.Pieces[:1] },
		"segment S5 begins at x = 14.5 m and S4 ends at 14.4": func(g *stages.Girder, _ *segmental.Hangers) { g.Pieces[4].At = 14.5 },
	} {
		other, h := g, good
		other.Pieces, h.List = slices.Clone(g.Pieces), slices.Clone(good.List)
		change(&other, &h)
		_, err := segmental.HangSegments{Age: 28, Hangers: h}.Situations(stages.History{Girder: other})
		require.ErrorContains(t, err, says)
		require.ErrorIs(t, err, segmental.ErrSegmental)
	}
}

func TestStagesOnHangersRefuse(t *testing.T) {
	g, h := hungBlocks(t, straightAt("T", 0.3))
	on := stages.History{Girder: g}
	bars := []tendon.Jacking{pull(barStress, "T")}
	jacks := ends(jackStiff)
	rigid := slices.Clone(jacks)
	rigid[2].Stiffness = 0
	steps := func(by ...float64) segmental.LowerSpan {
		return segmental.LowerSpan{Age: 28, Hangers: h, Jacks: jacks, Stroke: 0.2, Steps: []segmental.LoweringStep{{By: []float64{0.01}}, {By: by}}, Strokes: make([]segmental.Stroke, 20)}
	}
	short := steps(0.01)
	short.Strokes = short.Strokes[:3]
	without := steps(0.01)
	without.Jacks = nil
	for says, of := range map[string]stages.Stage{
		`Order[2] = "S1": must be the mark of a segment`:           segmental.HangSegments{Hangers: h, Order: []string{"S1", "S2", "S1"}},
		"Order has 2 segments: must be all 10":                     segmental.HangSegments{Hangers: h, Order: []string{"S1", "S2"}},
		"CloseJoints.Bars is empty":                                segmental.CloseJoints{Hangers: h},
		"Jacks[2] at x = 35.6 m: Stiffness = 0 N/m":                segmental.CloseJoints{Hangers: h, Jacks: rigid, Bars: bars},
		"StressHung.Jacking is empty":                              segmental.StressHung{Hangers: h},
		"StressHung.Limit: 0 of 3 steps":                           segmental.StressHung{Hangers: h, Jacking: bars, Limit: &segmental.FirstStage{Of: 3}},
		"lowering step 2 has 2 values: must be one, or one for ea": steps(0.01, 0.02),
		"lowering step 2 at hanger H1, By = 12 m":                  steps(12),
		"hanger H1 is lowered by 0.510 m in all":                   steps(0.5),
		"LowerSpan.Strokes has 3 pairs: must be those of all 20":   short,
		"LowerSpan.Jacks is empty":                                 without,
		`hanger "H99": must be the mark of one`:                    segmental.LostHanger{Hangers: h, Lost: "H99"},
	} {
		_, err := of.Situations(on)
		require.ErrorContains(t, err, says)
		require.ErrorIs(t, err, segmental.ErrSegmental)
	}
	_, err := segmental.LargestFirstStage(g, nil, 1, limits.EN1992{}, 3)
	require.ErrorContains(t, err, "first stage of up to 3 steps")
	plan := hangAndPress(h, jacks, bars...)
	_, err = h.Strokes(g, plan, 7, 1, limits.EN1992{})
	require.ErrorContains(t, err, "stage 7: must be 1 to 2")
	_, err = h.Strokes(g, plan, 1, 1, limits.EN1992{})
	require.ErrorContains(t, err, "the jacks are at 0 places along the span")
}

// The closed form is refused where a condition does not hold.
func TestUniformTransferRefuses(t *testing.T) {
	good := segmental.UniformTransfer{Span: spanLength, GantrySpan: spanLength, Weight: 50e3, Deck: 20e9, Gantry: 10e9, Force: 2e6, Profile: parabolic(12, 0.3), Axis: 1, Hangers: 12, HangerStiffness: 1e9}
	_, _, err := good.Share()
	require.NoError(t, err)
	for says, change := range map[string]func(*segmental.UniformTransfer){
		"the gantry spans 40 m and the deck 36 m": func(u *segmental.UniformTransfer) { u.GantrySpan = 40 },
		"11 hangers: must be 12 to 1000":          func(u *segmental.UniformTransfer) { u.Hangers = 11 },
		"UniformTransfer.Deck = 20 N·m²":          func(u *segmental.UniformTransfer) { u.Deck = 20 },
		"beside the parabola":                     func(u *segmental.UniformTransfer) { u.Axis = 1.1 },
		"the tendon is from x = 0 to 36 m":        func(u *segmental.UniformTransfer) { u.Span, u.GantrySpan = 30, 30 },
		"below the centroid at mid-span":          func(u *segmental.UniformTransfer) { u.Axis = 0.5 },
		"must be at most a hundredth of it":       func(u *segmental.UniformTransfer) { u.HangerStiffness = 1e6 },
		"would leave the hangers: must be less":   func(u *segmental.UniformTransfer) { u.Force, u.Gantry, u.HangerStiffness = 60e6, 1e12, 0 },
		"Profile: tendon":                         func(u *segmental.UniformTransfer) { u.Profile.Elevation = nil },
	} {
		u := good
		change(&u)
		_, _, err := u.Share()
		require.ErrorContains(t, err, says)
		require.ErrorIs(t, err, segmental.ErrSegmental)
	}
}

// Left and right bars by hand: a span of radius 400 m, the hangers 0.27 m right of the chord,
// a cross-fall that moves what is below them to the right.
func TestBarsShareByTheArcAndTheCrossFall(t *testing.T) {
	g, h := hungBlocks(t)
	g.Radius, h.Line, h.CrossFall = 400, -0.27, -0.03
	a, err := stages.Plan{segmental.HangSegments{Age: 28, Hangers: h}}.Analyse(g, limits.EN1992{})
	require.NoError(t, err)
	record, err := a.Record()
	require.NoError(t, err)
	weight, most, least := blockWeight*3.6, 0.0, math.Inf(1)
	for k := range 10 {
		sum := 0.0 // mean of the parabola over the segment
		for i := range 1000 {
			x := 3.6 * (float64(k) + (float64(i)+0.5)/1000)
			sum -= x * (36 - x) / 800 / 1000
		}
		e := sum + 0.27 - (2.4-1)*math.Sin(0.03)
		most = math.Max(most, weight*1.1/2.1*(0.5+math.Abs(e)/4))
		least = math.Min(least, weight*1.0/2.1*(0.5-math.Abs(e)/4))
	}
	found := 0
	for _, c := range record.Stages[0].Situations[0].Checks {
		switch c.Name {
		case "working load limit of a hanger bar":
			found++
			require.InEpsilon(t, most, c.Demand.Value, 1e-5)
			require.Equal(t, 400e3, c.Limit.Value)
		case "pull of the bar with less":
			found++
			require.InEpsilon(t, least, c.Demand.Value, 1e-5)
			require.Equal(t, stages.Pass, c.State)
		}
	}
	require.Equal(t, 2, found)
	require.Greater(t, most, weight*1.1/2.1*0.52)
}
