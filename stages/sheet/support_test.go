package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/stages"
)

// systemOf is the static system in words of a situation on these supports.
func systemOf(units Units, supports ...stages.Support) string {
	a := &author{units: units}
	return a.system(stages.SituationRecord{Supports: supports})
}

// What is set at a support is a fact that the crew needs, and none is left out.
func TestEverySettingOfASupportIsNamed(t *testing.T) {
	for _, c := range []struct {
		s    stages.Support
		want string
	}{
		{stages.Support{X: 2, Y: -0.5, Role: stages.Pad}, "on 1 pad at x = 2 m, y = −0.5 m"},
		{stages.Support{X: 2, Role: stages.Jack, Group: "ring A"}, "on 1 jack at x = 2 m, y = 0 m (equalised: ring A)"},
		{stages.Support{X: 2, Fixed: true}, "on 1 support at x = 2 m, y = 0 m (fixed against rotation)"},
		{stages.Support{X: 2, Group: "A", Fixed: true}, "on 1 support at x = 2 m, y = 0 m (equalised: A) (fixed against rotation)"},
		{stages.Support{X: 2, Role: stages.Pad, Stiffness: 80e6}, "on 1 pad at x = 2 m, y = 0 m, 80000 kN/m each"},
		{stages.Support{X: 2, Role: stages.Leg, RotationalStiffness: 5e6}, "on 1 leg at x = 2 m, y = 0 m, 5000 kN·m/rad each"},
		{stages.Support{X: 2, Role: stages.Jack, Level: 0.005}, "on 1 jack at x = 2 m, y = 0 m, set 5 mm above first contact"},
		{stages.Support{X: 2, Role: stages.Jack, Level: -0.002}, "on 1 jack at x = 2 m, y = 0 m, set with a gap of 2 mm"},
		{stages.Support{X: 2, Role: stages.Jack, Preload: 120e3}, "on 1 jack at x = 2 m, y = 0 m, preloaded to 120 kN each"},
		{stages.Support{X: 2, Role: stages.Tie, Preload: -120e3}, "on 1 tie at x = 2 m, y = 0 m, preloaded to 120 kN each"},
		{stages.Support{X: 2, Role: stages.Jack, Preload: 120e3, Held: true}, "on 1 jack at x = 2 m, y = 0 m, force held at 120 kN each"},
		{stages.Support{X: 2, Role: stages.Jack, Held: true}, "on 1 jack at x = 2 m, y = 0 m, force held at 0 kN each"},
		{stages.Support{X: 2, Role: stages.Bearing, Holds: stages.HoldsAlong}, "on 1 bearing at x = 2 m, y = 0 m, held along the element"},
		{stages.Support{X: 2, Role: stages.Bearing, Holds: stages.HoldsAcross}, "on 1 bearing at x = 2 m, y = 0 m, held across the element"},
		{stages.Support{X: 2, Role: stages.Bearing, Holds: stages.HoldsBoth}, "on 1 bearing at x = 2 m, y = 0 m, held along and across"},
		{stages.Support{X: 2, Role: stages.Bearing, Holds: stages.HoldsNeither}, "on 1 bearing at x = 2 m, y = 0 m, free along and across"},
		{stages.Support{X: 2, Role: stages.Bearing, OneWay: stages.Push}, "on 1 bearing at x = 2 m, y = 0 m, push only"},
		{stages.Support{X: 2, Role: stages.Bearing, OneWay: stages.Pull}, "on 1 bearing at x = 2 m, y = 0 m, pull only"},
		{stages.Support{X: 2, Role: stages.Bearing, OneWay: stages.PushAndPull}, "on 1 bearing at x = 2 m, y = 0 m, push and pull"},
		{stages.Support{X: 2, Role: stages.LiftPoint, Hook: &stages.Hook{X: 4, Y: -0.5, Z: 6}}, "suspended from 1 lift point at x = 2 m, y = 0 m, slung to the hook at x = 4 m, y = −0.5 m, z = 6 m"},
		{stages.Support{X: 2, Role: stages.LiftPoint, Link: &beam.Link{}}, "suspended from 1 lift point at x = 2 m, y = 0 m, from a common gantry or girder"},
	} {
		require.Equal(t, c.want, systemOf(SI, c.s))
	}
}

// 5 mm / 25.4 = 0.20 in, 120 kN / 4.4482 = 26.98 kip, 80 000 kN/m · 0.3048/4.4482 = 5482 kip/ft.
func TestSettingsOfASupportInUSUnits(t *testing.T) {
	require.Equal(t, "on 1 jack at x = 6.562 ft, y = 0 ft, 5482 kip/ft each, set 0.2 in above first contact, preloaded to 26.98 kip each",
		systemOf(US, stages.Support{X: 2, Role: stages.Jack, Stiffness: 80e6, Level: 0.005, Preload: 120e3}))
}

// Supports at one x stand in one phrase only where all but their y is the same.
func TestSupportsThatDifferHaveTheirOwnPhrase(t *testing.T) {
	base := stages.Support{X: 2, Y: -1, Role: stages.Jack}
	alike := base
	alike.Y, alike.Z, alike.Friction = 1, 0.1, 0.3
	require.Equal(t, "on 2 jacks at x = 2 m, y = −1 m and 1 m", systemOf(SI, base, alike))
	for name, change := range map[string]func(*stages.Support){
		"role": func(s *stages.Support) { s.Role = stages.Pad }, "group": func(s *stages.Support) { s.Group = "A" }, "x": func(s *stages.Support) { s.X = 2.001 },
		"stiffness": func(s *stages.Support) { s.Stiffness = 1e6 }, "rotation": func(s *stages.Support) { s.RotationalStiffness = 1e6 }, "fixed": func(s *stages.Support) { s.Fixed = true },
		"level": func(s *stages.Support) { s.Level = 0.001 }, "preload": func(s *stages.Support) { s.Preload = 1e3 }, "held": func(s *stages.Support) { s.Held = true },
		"one way": func(s *stages.Support) { s.OneWay = stages.PushAndPull }, "holds": func(s *stages.Support) { s.Holds = stages.HoldsAlong },
		"hook": func(s *stages.Support) { s.Hook = &stages.Hook{Z: 5} }, "link": func(s *stages.Support) { s.Link = &beam.Link{} },
	} {
		other := alike
		change(&other)
		require.Contains(t, systemOf(SI, base, other), "1 jack at x = 2 m, y = −1 m; 1 ", name)
	}
	hook := alike
	hook.Hook = &stages.Hook{Z: 5}
	same := hook
	same.Hook = &stages.Hook{Z: 5}
	require.Contains(t, systemOf(SI, hook, same), "2 jacks", "one hook written twice")
	same.Hook = &stages.Hook{Z: 6}
	require.Contains(t, systemOf(SI, hook, same), "1 jack at x = 2 m, y = 1 m, slung to the hook at x = 0 m, y = 0 m, z = 5 m; 1 jack")
}

// The words for supports: many of one role, and none without one.
func TestSupportsAreCountedInTheWordOfTheirRole(t *testing.T) {
	require.Equal(t, "1 pad", counted(1, "pad"))
	require.Equal(t, "2 pads", counted(2, "pad"))
	require.Equal(t, "1 falsework", counted(1, "falsework"))
	require.Equal(t, "3 falsework supports", counted(3, "falsework"))
	require.Equal(t, "support", roleOf(""))
	require.Equal(t, "lift point", roleOf(stages.LiftPoint))
}

// An element hangs where its first support is a lift point; one that rests, or has no
// support, does not.
func TestOnlyLiftPointsSuspend(t *testing.T) {
	for _, role := range []stages.Role{"", stages.Pad, stages.Jack, stages.Bearing, stages.Leg, stages.Tie, stages.Falsework} {
		require.False(t, suspended(stages.SituationRecord{Supports: []stages.Support{{Role: role}}}), role)
	}
	require.True(t, suspended(stages.SituationRecord{Supports: []stages.Support{{Role: stages.LiftPoint}}}))
	require.False(t, suspended(stages.SituationRecord{}))
}
