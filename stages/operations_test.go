package stages_test

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// situationsOf are the situations of a stage on the plain block.
func situationsOf(t *testing.T, s stages.Stage) []stages.Situation {
	t.Helper()
	e := block()
	list, err := s.Situations(stages.History{Girder: e.Girder(), Element: e})
	require.NoError(t, err)
	return list
}

// Every field of an operation reaches the situation that is checked, and no other: all
// values differ.
func TestEveryFieldOfAnOperationReachesItsSituation(t *testing.T) {
	on := []stages.Support{{X: 1, Y: -0.2}, {X: 2, Y: 0.2, Role: stages.Jack}, {X: 11}}
	with := func(role stages.Role) []stages.Support {
		list := slices.Clone(on)
		list[0].Role, list[2].Role = role, role
		return list
	}
	acts := []stages.Action{{Mark: "a", Loads: point(3, 1e3)}}
	off := []string{"b"}
	dynamic := loads.Dynamic{Least: 0.85, Most: 1.15}
	for _, c := range []struct {
		stage stages.Stage
		want  stages.Situation
	}{
		{stages.Lift{Name: "n", Age: 3, On: on, Dynamic: dynamic, Roll: 0.03, Gradient: 0.04, Actions: acts},
			stages.Situation{Name: "n", Age: 3, Phase: limits.Lifting, Supports: with(stages.LiftPoint), Dynamic: dynamic, Roll: 0.03, Gradient: 0.04, Actions: acts}},
		{stages.Haul{Name: "n", Age: 3, On: on, Dynamic: dynamic, OutOfLevel: 0.02, Roll: 0.03, Gradient: 0.04, Actions: acts},
			stages.Situation{Name: "n", Age: 3, Phase: limits.Hauling, Supports: with(stages.Pad), Dynamic: dynamic, OutOfLevel: 0.02, Roll: 0.03, Gradient: 0.04, Actions: acts}},
		{stages.Store{Name: "n", Age: 3, Until: 5, On: on, OutOfLevel: 0.02, Roll: 0.03, Gradient: 0.04, Actions: acts, Off: off},
			stages.Situation{Name: "n", Age: 3, Until: 5, Standing: true, Phase: limits.Storing, Supports: with(stages.Pad), OutOfLevel: 0.02, Roll: 0.03, Gradient: 0.04, Actions: acts, Off: off}},
		{stages.Seat{Name: "n", Age: 3, Until: 5, On: on, OutOfLevel: 0.02, Roll: 0.03, Gradient: 0.04, Actions: acts, Off: off},
			stages.Situation{Name: "n", Age: 3, Until: 5, Standing: true, Phase: limits.Seating, Supports: with(stages.Pad), OutOfLevel: 0.02, Roll: 0.03, Gradient: 0.04, Actions: acts, Off: off}},
		{stages.Lift{Dynamic: loads.AtRest(), Age: 3, On: on}, stages.Situation{Name: "lift", Age: 3, Phase: limits.Lifting, Dynamic: loads.AtRest(), Supports: with(stages.LiftPoint)}},
		{stages.Haul{Dynamic: loads.AtRest(), Age: 3, On: on}, stages.Situation{Name: "haul", Age: 3, Phase: limits.Hauling, Dynamic: loads.AtRest(), Supports: with(stages.Pad)}},
		{stages.Store{Age: 3, On: on}, stages.Situation{Name: "store", Age: 3, Standing: true, Phase: limits.Storing, Supports: with(stages.Pad)}},
		{stages.Seat{Age: 3, On: on}, stages.Situation{Name: "seat", Age: 3, Standing: true, Phase: limits.Seating, Supports: with(stages.Pad)}},
	} {
		require.Equal(t, []stages.Situation{c.want}, situationsOf(t, c.stage), "%T", c.stage)
	}
	require.Equal(t, stages.Support{X: 1, Y: -0.2}, on[0], "a stage does not write through its supports")
}

// A transfer releases strands before it jacks, in one situation on stated supports, or
// on its bed between its whole length and the edges of the soffit at both ends.
func TestATransferIsOneSituation(t *testing.T) {
	a, b := fromLeft("T"), fromLeft("U")
	release := fromBed(1300e6, "P1")
	on := []stages.Support{{X: 1, Y: -0.2}, {X: 1, Y: 0.2}, {X: 11}}
	got := situationsOf(t, stages.Transfer{Age: 3, Pretension: release, Jacking: []tendon.Jacking{a, b}, On: on, Gradient: 0.02, Roll: 0.03, OutOfLevel: 0.04})
	require.Len(t, got, 1)
	require.Equal(t, []stages.Event{{Transfer: release}, {Jack: &a}, {Jack: &b}}, got[0].Events)
	require.False(t, got[0].OnBed)
	require.True(t, got[0].Standing)
	require.Equal(t, []float64{3, 0.02, 0.03, 0.04}, []float64{got[0].Age, got[0].Gradient, got[0].Roll, got[0].OutOfLevel})
	require.Equal(t, limits.Stressing, got[0].Phase)
	for i, s := range got[0].Supports {
		require.Equal(t, stages.Falsework, s.Role)
		require.Equal(t, on[i].X, s.X)
	}
	bed := situationsOf(t, stages.Transfer{Age: 3, Jacking: []tendon.Jacking{a}})
	require.True(t, bed[0].OnBed)
	require.Equal(t, []stages.Support{
		{X: 0, Y: -0.25, Role: stages.Falsework, Group: "soffit edge"}, {X: 0, Y: 0.25, Role: stages.Falsework, Group: "soffit edge"},
		{X: 12, Y: -0.25, Role: stages.Falsework}, {X: 12, Y: 0.25, Role: stages.Falsework},
	}, bed[0].Supports)
}

// The soffit is the lowest edge of all pieces at an end, and must be wide enough to
// stand on.
func TestTheSoffitOfABedIsTheLowestEdge(t *testing.T) {
	keel := func(half float64) section.Shape {
		s, err := section.New([]section.Outline{{{Y: -half, Z: -0.3}, {Y: half, Z: -0.3}, {Y: 0.6, Z: 0.2}, {Y: 0.6, Z: 0.5}, {Y: -0.4, Z: 0.5}, {Y: -0.4, Z: 0.2}}}, nil)
		require.NoError(t, err)
		return s
	}
	for half, ok := range map[float64]bool{0.2: true, 0.0251: true, 0.0249: false} {
		e := bare(straight("T", 0, 12, 0, 0.3))
		e.Section = keel(half)
		list, err := stages.Transfer{Age: 28, Jacking: jackings("T")}.Situations(stages.History{Girder: e.Girder(), Element: e})
		if !ok {
			require.ErrorContains(t, err, "must be at least 0.05 m, or state the supports")
			continue
		}
		require.NoError(t, err)
		for i, s := range list[0].Supports {
			require.InDelta(t, []float64{-half, half}[i%2], s.Y, 1e-12)
			require.InDelta(t, -0.3, s.Z, 1e-12)
			require.InDelta(t, []float64{0, 12}[i/2], s.X, 1e-12)
		}
	}
}

// A stressing is one situation a step, then one of the release, then one of grouting at
// its own age, all on the same supports.
func TestAStressingIsOneSituationAStep(t *testing.T) {
	on := []stages.Support{{X: 1, Role: stages.Pad}, {X: 11, Role: stages.Pad}}
	a, b := fromLeft("T"), fromLeft("U")
	got := situationsOf(t, stages.Stress{Age: 7, Jacking: []tendon.Jacking{a, b}, Release: []string{"V"}, Grout: []string{"T", "U"}, GroutAge: 9, On: on})
	want := []stages.Situation{
		{Name: "stressing, step 1", Age: 7, Events: []stages.Event{{Jack: &a}}}, {Name: "stressing, step 2", Age: 7, Events: []stages.Event{{Jack: &b}}},
		{Name: "release", Age: 7, Events: []stages.Event{{Release: []string{"V"}}}}, {Name: "grouting", Age: 9, Events: []stages.Event{{Grout: []string{"T", "U"}}}},
	}
	for i := range want {
		want[i].Standing, want[i].Phase, want[i].Supports = true, limits.Stressing, on
	}
	require.Equal(t, want, got)
	one := situationsOf(t, stages.Stress{Age: 7, Jacking: []tendon.Jacking{a}, Grout: []string{"T"}})
	require.Equal(t, "stressing", one[0].Name)
	require.Equal(t, 7.0, one[1].Age, "grouted at once where no age is stated")
	for _, bare := range []stages.Stress{{Age: 7}, {Age: 7, GroutAge: 9, On: on}} {
		_, err := bare.Situations(stages.History{})
		require.ErrorContains(t, err, "must be at least one")
	}
}

// A stage that begins before the one before it ends is refused, by age and by day, what
// stands and what is transient; at the same hour it is not.
func TestNoStageBeginsBeforeTheOneBeforeItEnds(t *testing.T) {
	stand := func(age, until, day float64) stages.Situation {
		return stages.Situation{Name: "stand", Age: age, Until: until, Day: day, Standing: true, Phase: limits.Storing, Supports: pads(dunnage(2.4, 9.6))}
	}
	lift := func(age, day float64) stages.Situation {
		return stages.Situation{Name: "lift", Age: age, Day: day, Phase: limits.Lifting, Dynamic: loads.AtRest(), Supports: as(stages.LiftPoint, paired(hooks(0.2, 2.4, 9.6)))}
	}
	for _, c := range []struct {
		list []stages.Situation
		ok   bool
	}{
		{[]stages.Situation{stand(20, 0, 0), stand(20, 0, 0)}, true}, {[]stages.Situation{stand(20, 0, 0), stand(19.999, 0, 0)}, false},
		{[]stages.Situation{stand(20, 25, 0), stand(25, 0, 0)}, true}, {[]stages.Situation{stand(20, 25, 0), stand(24.999, 0, 0)}, false},
		{[]stages.Situation{stand(20, 25, 0), lift(24, 0)}, false}, {[]stages.Situation{stand(20, 25, 0), lift(25, 0), stand(25, 0, 0)}, true},
		{[]stages.Situation{stand(20, 0, 0), lift(22, 0), stand(21, 0, 0)}, false}, {[]stages.Situation{stand(0, 0, 120), stand(0, 0, 119.9)}, false},
		{[]stages.Situation{stand(0, 130, 120), stand(0, 0, 130)}, true}, {[]stages.Situation{stand(0, 130, 120), stand(0, 0, 129.9)}, false},
		{[]stages.Situation{stand(0, 130, 120), stand(29.9, 0, 0)}, false}, {[]stages.Situation{stand(0, 130, 120), stand(30, 0, 0)}, true},
		{[]stages.Situation{stand(20, 19.9, 0)}, false}, {[]stages.Situation{stand(0, 119, 120)}, false},
	} {
		e := block()
		e.Cast = 100
		for _, together := range []bool{true, false} { // in one stage, and each in its own
			plan := stages.Plan{odd{situations: c.list}}
			if !together {
				plan = nil
				for _, s := range c.list {
					plan = append(plan, odd{situations: []stages.Situation{s}})
				}
			}
			_, err := plan.Run(e, limits.EN1992{})
			if c.ok {
				require.NoError(t, err)
				continue
			}
			require.ErrorIs(t, err, stages.ErrStage)
			require.ErrorContains(t, err, "must be ")
		}
	}
}
