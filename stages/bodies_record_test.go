package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// apart are two elements end to end that do not act together: A of 6 m, B of 4 m, each of
// 0.5 m by 0.8 m at 25 kN/m³.
func apart(t *testing.T) stages.Record {
	one, two := plate(t, "A", 6, -0.25, 0.25, 0, 0.8), plate(t, "B", 4, -0.25, 0.25, 0, 0.8)
	g := stages.Girder{Mark: "AB", Pieces: []stages.Piece{{Element: one}, {Element: two, At: 6, Later: true}}}
	on := append(stages.At(0.5, 5.5), stages.At(6.5, 9.5)...)
	return run(t, g, stages.Plan{odd{situations: []stages.Situation{{Name: "both", Age: 28, Standing: true, Phase: limits.Storing, Supports: pads(on), Events: []stages.Event{{Add: []string{"B"}}}}}}})
}

// Each of several bodies has its own total, and its reactions say to which they belong:
// a share is of the total of its body. A: 0.5 · 0.8 · 6 · 25 = 60 kN, B: 40 kN.
func TestTheRecordHasTheTotalOfEachBody(t *testing.T) {
	r := apart(t)
	s := r.Stages[0].Situations[0]
	require.Equal(t, []string{"B"}, s.Added)
	require.Len(t, s.Bodies, 2)
	var bodies []int
	for i, of := range s.Reactions {
		bodies = append(bodies, of.Body)
		require.InDelta(t, 0.5, of.Share.Least, 1e-9, "reaction %d", i+1)
	}
	require.Equal(t, []int{1, 1, 2, 2}, bodies)
	for i, want := range []struct {
		mark   string
		weight float64
	}{{"A", 60e3}, {"B", 40e3}} {
		require.Equal(t, []string{want.mark}, s.Bodies[i].Elements)
		require.InDelta(t, want.weight*s.Weight.Least, s.Bodies[i].Total.Least, 1e-6)
		require.InDelta(t, want.weight*s.Weight.Most, s.Bodies[i].Total.Most, 1e-6)
	}
	require.NoError(t, r.Check())
	r.Stages[0].Situations[0].Reactions[0].Body = 2
	require.ErrorContains(t, r.Check(), "body 1: static reactions add up to")
	r.Stages[0].Situations[0].Reactions[0].Body = 3
	require.ErrorContains(t, r.Check(), "reaction 1 of body 3: must be 1 to 2")
	one := run(t, girder(t), journey())
	require.Empty(t, one.Stages[0].Situations[0].Bodies)
	one.Stages[0].Situations[0].Reactions[1].Body = 1
	require.ErrorContains(t, one.Check(), "reaction 2 of body 1: must be 0, there is one body")
}

// Tendons of one step are stressed together, and none beyond the limit of the standard:
// the smaller of 0.8·fpk = 1488 and 0.9·fp0.1k = 1440 MPa.
func TestStepsAndLimitOfStressing(t *testing.T) {
	a, b, c := straight("A", 0, 12, 0.2, 0.4), straight("B", 0, 12, -0.2, 0.4), straight("C", 0, 12, 0, 0.4)
	pull := func(marks ...string) tendon.Jacking {
		return tendon.Jacking{Tendons: marks, Stress: 1300e6, Ends: tendon.LeftEnd, DrawIn: 0.004}
	}
	r := run(t, bare(a, b, c), stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{pull("A", "B"), pull("C")}}})
	var steps []int
	for _, p := range r.Stages[0].Situations[0].Stressing {
		steps = append(steps, p.Step)
		require.Equal(t, min(0.8*a.Strand.Fpk, 0.9*a.Strand.Fp01k), p.Limit)
	}
	require.Equal(t, []int{1, 1, 2}, steps)
	r.Stages[0].Situations[0].Stressing[0].Step = 0
	require.ErrorContains(t, r.Check(), "step 0")
}

// The anchors' strength is the largest that a tendon of the situation needs, as cylinder
// and as cube, with what is assumed beside it: C25/30 for a mean of 25 MPa.
func TestTheStrengthAtTheAnchorsIsAHoldPoint(t *testing.T) {
	a, b := straight("A", 0, 12, 0.2, 0.4), straight("B", 0, 12, -0.2, 0.4)
	a.Approval.MeanStrength, b.Approval.MeanStrength = 20e6, 25e6
	r := run(t, bare(a, b), stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{{Tendons: []string{"A", "B"}, Stress: 1300e6, Ends: tendon.LeftEnd, DrawIn: 0.004}}}})
	found := 0
	for _, h := range r.Stages[0].Situations[0].HoldPoints {
		if h.Kind == stages.AtAnchors {
			found++
			require.Equal(t, 25e6, h.Required.Value)
			require.Len(t, h.Tested, 1)
			require.InDelta(t, 30e6, h.Tested[0].Value, 1)
			require.Greater(t, h.Assumed.Value, 25e6)
			require.Equal(t, limits.StressingStrength, r.Stages[0].Situations[0].Checks[h.Check-1].Kind)
		}
	}
	require.Equal(t, 1, found)
	let := tendon.Jacking{Tendons: []string{"A"}, Stress: 700e6, Ends: tendon.LeftEnd}
	r = run(t, bare(a), stages.Plan{stages.Transfer{Age: 28, Jacking: []tendon.Jacking{{Tendons: []string{"A"}, Stress: 1300e6, Ends: tendon.LeftEnd, DrawIn: 0.004}}}, stages.Stress{Age: 29, Jacking: []tendon.Jacking{let}}})
	for _, h := range r.Stages[1].Situations[0].HoldPoints {
		require.NotEqual(t, stages.AtAnchors, h.Kind, "letting down needs no strength")
	}
}

// Anchors in two elements of the same strength are one hold point that names both: step 2
// of the cantilever stresses from S1 to S4.
func TestAnchorsInTwoElementsAreOneHoldPoint(t *testing.T) {
	g, plan := balancedCantilever(t, 2, 1, false)
	r := run(t, g, plan)
	var named [][]string
	for _, h := range r.Stages[1].Situations[0].HoldPoints {
		if h.Kind == stages.AtAnchors {
			named = append(named, h.Pieces)
		}
	}
	require.Equal(t, [][]string{{"S1", "S4"}}, named)
	require.Equal(t, []string{"S1", "S4"}, r.Stages[1].Situations[0].Added)
	require.Equal(t, []string{"S1", "S4"}, r.Stages[1].Situations[0].Joined)
}
