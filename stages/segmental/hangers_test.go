package segmental_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
)

// parabolic is a tendon of some strands with its anchors on the centroid, in a duct that
// takes next to nothing of the section.
func parabolic(strands int, sag float64) tendon.Tendon {
	t := temporary("P", spanLength, 0, 1)
	t.Strands, t.Duct = strands, 0.014*math.Sqrt(float64(strands))
	t.Elevation = tendon.Drape(tendon.Point{Ordinate: 1}, 1e-3, tendon.Point{X: spanLength / 2, Ordinate: 1 - sag}, spanLength)
	return t
}

// stage is what all stages are.
func hangAndPress(h segmental.Hangers, jacks []stages.Support, jacking ...tendon.Jacking) stages.Plan {
	return stages.Plan{segmental.HangSegments{Age: 28, Hangers: h}, segmental.CloseJoints{Age: 28, Hangers: h, Jacks: jacks, Epoxy: segmental.EpoxyFIP, Bars: jacking}}
}

// Rigid hangers under the closed form: with 20 pairs each away from the ends loses
// β/(1 + EId/EIg) of what it carried on a level deck; stiff jacks receive it.
func TestTransferByTheClosedForm(t *testing.T) {
	const strands, sag, stress = 12, 0.3, 1200e6
	g, h := hungBlocks(t, parabolic(strands, sag))
	for i := range h.List { // at equal distances, rigid
		h.List[i].X, h.List[i].Length = 0.9+1.8*float64(i), 0.2
	}
	h.Area, h.Modulus = 0.1, 300e9
	jacks := ends(2e12)
	for i := range jacks {
		jacks[i].X = math.Round(jacks[i].X/36) * 36
	}
	state, err := g.Pieces[0].Element.Concrete.At(28)
	require.NoError(t, err)
	inertia, _ := netInertia()
	for _, ratio := range []float64{0.5, 1.8} {
		h.Gantry = gantryOf(state.Modulus * inertia / ratio)
		u := segmental.UniformTransfer{Span: spanLength, GantrySpan: spanLength, Weight: blockWeight, Deck: state.Modulus * inertia, Gantry: state.Modulus * inertia / ratio,
			Force: stress * strands * 150e-6, Profile: parabolic(strands, sag), Axis: 1, Hangers: len(h.List)}
		share, lines, err := u.Share()
		require.NoError(t, err)
		require.InEpsilon(t, 8*u.Force*sag/(blockWeight*spanLength*spanLength)/(1+ratio), share, 1e-12)
		require.Len(t, lines, 2)
		before, _ := hangerForces(effectsOf(t, g, hangAndPress(h, jacks, pull(stress, "P")), 1, 1), 20)
		after, at := hangerForces(effectsOf(t, g, hangAndPress(h, jacks, pull(stress, "P")), 2, 1), 20)
		left := 0.0
		for i := 6; i < 14; i++ { // the ends disturb the first hangers
			require.InEpsilon(t, share, (before[i]-after[i])/(blockWeight*1.8), 1.5e-2, "EId/EIg = %g, pair %d", ratio, i+1)
		}
		for i := range before {
			left += before[i] - after[i]
		}
		require.InDelta(t, left, at[0]+at[1], 1)
	}
}

// Without jacks nothing leaves the hangers: the deck hogs, forces move among them, the sum
// and its moment stay.
func TestNothingLeavesWithoutJacks(t *testing.T) {
	g, h := hungBlocks(t, straightAt("T", 0.3))
	before, _ := hangerForces(effectsOf(t, g, hangAndPress(h, nil, pull(barStress, "T")), 1, 1), 20)
	after, _ := hangerForces(effectsOf(t, g, hangAndPress(h, nil, pull(barStress, "T")), 2, 1), 20)
	sum, moment, moved := 0.0, 0.0, 0.0
	for i := range before {
		sum += after[i] - before[i]
		moment += (after[i] - before[i]) * h.List[i].X
		moved = math.Max(moved, math.Abs(after[i]-before[i]))
	}
	require.InDelta(t, 0, sum, 1e-3)
	require.InDelta(t, 0, moment, 1e-1)
	require.Greater(t, moved, 5e3)
}

// A span and its mirror image have mirrored forces; very soft hangers keep what they carry,
// and a very stiff gantry leaves all to the hangers' own lengths.
func TestMirrorAndLimits(t *testing.T) {
	forces := func(change func(*segmental.Hangers), jacks []stages.Support) ([]float64, []float64) {
		g, h := hungBlocks(t, straightAt("T", 0.3))
		change(&h)
		return hangerForces(effectsOf(t, g, hangAndPress(h, jacks, pull(barStress, "T")), 2, 1), 20)
	}
	one, ends1 := forces(func(*segmental.Hangers) {}, ends(jackStiff))
	other, ends2 := forces(func(h *segmental.Hangers) {
		n := len(h.List)
		was := append([]segmental.Hanger{}, h.List...)
		for i := range h.List {
			h.List[i].X, h.List[i].Length = spanLength-was[n-1-i].X, was[n-1-i].Length
		}
	}, ends(jackStiff))
	for i := range one {
		require.InDelta(t, one[i], other[len(other)-1-i], 1e-3)
	}
	require.InDelta(t, ends1[0], ends2[1], 1e-3)
	require.Greater(t, math.Abs(one[0]-one[19]), 100.0, "their lengths differ")
	soft, _ := forces(func(h *segmental.Hangers) { h.Area, h.Modulus, h.Gantry = 1e-5, 100e9, gantryOf(1e6) }, ends(jackStiff))
	weight := blockWeight * 3.6
	for i, f := range soft { // the ends on jacks take by their own way: nothing else pulls at them
		want := weight * []float64{1.0 / 2.1, 1.1 / 2.1}[i%2]
		require.InEpsilon(t, want, f, 0.03, "pair %d", i+1)
	}
}

// standing is a stage of one situation.
type standing stages.Situation

func (s standing) Situations(stages.History) ([]stages.Situation, error) {
	return []stages.Situation{stages.Situation(s)}, nil
}

// A lost pair gives its force and the dynamic part to the others; the sum is that of the
// weight, and with the action that of the weight and the dynamic part.
func TestHangerLost(t *testing.T) {
	g, h := hungBlocks(t, straightAt("T", 0.9))
	jacks := ends(jackStiff)
	for i := range jacks {
		jacks[i].Holds = stages.HoldsBoth
	}
	held := stages.Document{Covers: limits.Sliding, Number: "1", Revision: "A", Status: "approved"}
	plan := hangAndPress(h, jacks, pull(barStress, "T"))
	of, err := segmental.HangerLost(g, plan, limits.EN1992{}, h, 1, held)
	require.NoError(t, err)
	before := effectsOf(t, g, plan, 2, 1)
	var gone float64
	for i, one := range h.List {
		if one.Mark == of.Lost {
			gone = before.Reactions[i].Static.Most
		}
	}
	require.InDelta(t, gone, of.Loss.Loads.Total(), 1e-6)
	after := effectsOf(t, g, append(plan, of), 3, 1)
	require.Len(t, after.Reactions, 23)
	rest, most := 0.0, 0.0
	for _, r := range after.Reactions {
		rest += r.Nominal
		most += r.Characteristic.Most
	}
	require.InDelta(t, 36*blockWeight, rest, 1e-2, "at rest the others carry all")
	require.GreaterOrEqual(t, most, 36*blockWeight+0.999*gone, "with the dynamic part they carry as much again as it had")
	require.Less(t, most, 36*blockWeight+2*gone)
	still := standing{Name: "still", Age: 28, Standing: true, Phase: limits.Storing}
	_, kept, err := append(plan, stages.Covered(of, held), still).Margin(g, limits.EN1992{}, 3)
	require.NoError(t, err)
	unlike := 0
	for i, one := range h.List { // no other leaves less
		loss, err := before.Loss(i, 1)
		require.NoError(t, err)
		_, margin, err := append(plan, stages.Covered(segmental.LostHanger{Age: 28, Hangers: h, Jacks: of.Jacks, Lost: one.Mark, Loss: loss}, held), still).Margin(g, limits.EN1992{}, 3)
		require.NoError(t, err)
		require.GreaterOrEqual(t, margin, kept)
		if margin > kept+1e-9 {
			unlike++
		}
	}
	require.Positive(t, unlike)
	_, err = segmental.HangerLost(g, plan, limits.EN1992{}, h, 1.5)
	require.ErrorContains(t, err, "factor = 1.5: must be above 0, at most 1")
}

// Strokes are where the load is just off: lowered by them nothing is left, by less some is.
func TestStrokesTakeAllLoadOff(t *testing.T) {
	g, h := hungBlocks(t, straightAt("T", 0.3))
	jacks := ends(jackStiff)
	plan := hangAndPress(h, jacks, pull(barStress, "T"))
	strokes, err := h.Strokes(g, plan, 2, 1, limits.EN1992{})
	require.NoError(t, err)
	left := func(part float64) float64 {
		by := make([]float64, len(strokes))
		for i, s := range strokes {
			by[i] = part * s.Needed
		}
		lower := segmental.LowerSpan{Age: 28, Hangers: h, Jacks: jacks, Stroke: 0.4, Steps: []segmental.LoweringStep{{By: by}}, Strokes: strokes}
		hangers, on := hangerForces(effectsOf(t, g, append(plan, lower), 3, 1), 20)
		sum := 0.0
		for _, f := range hangers {
			sum += f
		}
		require.InDelta(t, 36*blockWeight, sum+on[0]+on[1], 1)
		return sum / (36 * blockWeight)
	}
	require.InDelta(t, 0, left(1.01), 1e-9, "1 % for the ducts")
	record, err := append(plan, segmental.LowerSpan{Age: 28, Hangers: h, Jacks: jacks, Stroke: 0.4, Steps: []segmental.LoweringStep{{By: []float64{0.3}}}, Strokes: strokes},
		stages.Seat{Age: 29, On: jacks, OutOfLevel: 1e-6}).Run(g, limits.EN1992{})
	require.NoError(t, err)
	for _, c := range record.Stages[2].Situations[0].Checks {
		if c.Kind == limits.Uplift {
			require.Equal(t, stages.Pass, c.State, "a hanger is meant to be slack: %s", c.Place)
		}
	}
	require.InDelta(t, 0.5*left(0), left(0.5), 2e-3, "all stay taut: in proportion")
	require.Greater(t, left(0.98), 5e-3)
	for i, s := range strokes {
		require.InDelta(t, s.Needed, s.Deck+s.Rebound+s.Bar, 1e-12)
		require.InEpsilon(t, s.Force*h.List[i].Length/(2*h.Area*h.Modulus), s.Bar, 1e-12)
		require.Positive(t, s.Deck)
		require.Positive(t, s.Rebound)
	}
}

// The gantry under the segments one after the other: what the last one hung is shortened by
// is nothing, the first by what all others bring; by Maxwell, the sum over all is the same
// in any order.
func TestAdjustmentsBySequence(t *testing.T) {
	g, h := hungBlocks(t)
	order := []string{"S5", "S6", "S4", "S7", "S3", "S8", "S2", "S9", "S1", "S10"}
	list, err := h.Adjustments(g, order...)
	require.NoError(t, err)
	straight, err := h.Adjustments(g)
	require.NoError(t, err)
	work := [2]float64{}
	for i := range list {
		all := list[i].Deflection[9]
		require.InDelta(t, straight[i].Deflection[9], all, 1e-12)
		require.GreaterOrEqual(t, list[i].Shorten, 0.0)
		require.InDelta(t, blockWeight*3.6*[]float64{1 / 2.1, 1.1 / 2.1}[i%2], list[i].Force, 1e-6)
		work[0] += list[i].Force * list[i].Shorten
		work[1] += straight[i].Force * straight[i].Shorten
	}
	require.InEpsilon(t, work[0], work[1], 1e-9)
	for _, i := range []int{18, 19} {
		require.Zero(t, list[i].Shorten, "S10 is the last")
	}
	require.InDelta(t, list[8].Deflection[0]-list[8].Deflection[9], list[8].Shorten, 1e-15, "S5 is the first")
	// A point load at mid-span of the gantry, P·L³/48EI, by hand: S5 and S6 alone are close to it.
	require.InEpsilon(t, -blockWeight*3.6*math.Pow(36, 3)/(48*9e9), list[9].Deflection[0], 0.05)
}

// The first stage: as many steps as pass, one more does not.
func TestLargestFirstStage(t *testing.T) {
	g, h := hungBlocks(t, straightAt("A", 1), straightAt("B", 0.5), straightAt("C", 0.2))
	jacks := ends(jackStiff)
	for i := range jacks {
		jacks[i].Holds = stages.HoldsBoth
	}
	steps := []tendon.Jacking{pull(300e6, "B"), pull(1300e6, "C")}
	with := func(n int) stages.Plan {
		covered := func(s stages.Stage) stages.Stage {
			return stages.Covered(s, stages.Document{Covers: limits.Sliding, Number: "1", Revision: "A", Status: "approved"})
		}
		return append(hangAndPress(h, jacks, pull(900e6, "A")), covered(segmental.StressHung{Age: 28, Hangers: h, Jacks: jacks, Jacking: steps[:n]}))
	}
	of, err := segmental.LargestFirstStage(g, with, 3, limits.EN1992{}, 2)
	require.NoError(t, err)
	require.Equal(t, 1, of.Steps)
	require.Contains(t, of.Governs, "tension")
}
