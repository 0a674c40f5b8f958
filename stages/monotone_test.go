package stages_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// layout is an element on a haul between two stores, all that may vary.
type layout struct {
	e        stages.Element
	on       []stages.Support
	dynamic  loads.Dynamic
	actions  []stages.Action
	slope    float64
	standard limits.EN1992
}

func (l layout) checks(t *testing.T) map[limits.Kind]stages.Check {
	t.Helper()
	stand := paired(frames(0.4, 2, 10))
	plan := stages.Plan{stages.Store{Age: 28, On: stand}, stages.Haul{Age: 28, On: l.on, Dynamic: l.dynamic, Actions: l.actions, Gradient: l.slope}, stages.Store{Age: 28, On: stand}}
	r, err := plan.Run(l.e, l.standard)
	require.NoError(t, err)
	list := map[limits.Kind]stages.Check{}
	for _, c := range r.Stages[1].Situations[0].Checks {
		if before, ok := list[c.Kind]; c.State != stages.NotEvaluated && (!ok || c.Utilisation > before.Utilisation) {
			list[c.Kind] = c
		}
	}
	return list
}

// anyLayout is a layout at random.
func anyLayout(r *rand.Rand) layout {
	in := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	l := layout{e: block(), dynamic: loads.Dynamic{Least: in(0.8, 1), Most: in(1, 1.3)}, slope: in(0, 0.05)}
	l.e.WeightTolerance = &loads.Tolerance{Under: in(0, 0.1), Over: in(0, 0.1)}
	l.on = bracketed([]stages.Support{{X: in(0.2, 3), Y: in(-1.2, -0.5), Friction: 0.4}, {X: in(0.2, 3), Y: in(0.5, 1.2), Friction: 0.5}, {X: in(9, 11.8), Y: in(-0.1, 0.1), Friction: 0.45}})
	l.actions = []stages.Action{
		{Mark: "drum", Y: in(-0.3, 0.3), Loads: point(in(0, 12), in(1e3, 9e3))},
		{Mark: "wind", Kind: stages.Wind, Direction: stages.Transverse, Z: 0.4, Least: -1, Most: in(0.2, 1), Loads: point(in(3, 9), in(1e3, 3e3))},
	}
	return l
}

// What makes a layout worse makes no check better: wider tolerances and dynamic factors,
// more load, a steeper slope, larger partial factors, weaker concrete, less friction.
// Each of them makes at least one check worse.
func TestWorseIsNeverBetter(t *testing.T) {
	worse := map[string]func(*layout){
		"heavier": func(l *layout) {
			l.e.WeightTolerance = &loads.Tolerance{Under: l.e.WeightTolerance.Under, Over: l.e.WeightTolerance.Over + 0.07}
		},
		"lighter": func(l *layout) {
			l.e.WeightTolerance = &loads.Tolerance{Under: l.e.WeightTolerance.Under + 0.07, Over: l.e.WeightTolerance.Over}
		},
		"shakes more, upwards":   func(l *layout) { l.dynamic.Most += 0.2 },
		"shakes more, downwards": func(l *layout) { l.dynamic.Least -= 0.2 },
		"a larger drum": func(l *layout) {
			l.actions[0].Loads = point(l.actions[0].Loads.Points[0].At, 4*l.actions[0].Loads.Points[0].Force)
		},
		"a drum that may hang": func(l *layout) { l.actions[0].Least = -2 },
		"more wind":            func(l *layout) { l.actions[1].Most, l.actions[1].Least = 3, -3 },
		"one load more": func(l *layout) {
			l.actions = append(l.actions, stages.Action{Mark: "crew", Kind: stages.Personnel, Y: 0.2, Loads: point(11.5, 3e3)})
		},
		"steeper":             func(l *layout) { l.slope += 0.06 },
		"weaker":              func(l *layout) { l.e.Concrete = concrete.EN1992{Fck: 30e6, Cement: concrete.ClassR} },
		"slippery":            func(l *layout) { l.on[2].Friction = 0.2 },
		"heavier by the code": func(l *layout) { l.standard.EquilibriumMost, l.standard.PermanentUltimate = 1.2, 1.5 },
		"lighter by the code": func(l *layout) { l.standard.EquilibriumLeast = 0.8 },
		"loads by the code": func(l *layout) {
			l.standard.VariableUltimate, l.standard.EquilibriumVariable, l.standard.EquilibriumConstruction = 1.8, 1.8, 1.7
		},
		"stresses by the code": func(l *layout) {
			l.standard.Compression, l.standard.TensionWithBars, l.standard.BarStress = 0.3, 0.5, 100e6
		},
	}
	r := rand.New(rand.NewPCG(5, 17))
	hurt := map[string]bool{}
	for range 4 {
		base := anyLayout(r)
		before := base.checks(t)
		for name, change := range worse {
			l := base
			l.on, l.actions = slices.Clone(base.on), slices.Clone(base.actions)
			change(&l)
			after := l.checks(t)
			for kind, c := range before {
				d, ok := after[kind]
				if !ok || kind == limits.PrincipalTension { // beside what cracks
					continue
				}
				near := 1e-6
				if name == "steeper" {
					near *= 5e3 // what bends by the cosine of the slope is worst between level and steep
				}
				require.GreaterOrEqual(t, d.Utilisation, c.Utilisation-near, "%s: %s", name, kind)
				hurt[name] = hurt[name] || d.Utilisation > c.Utilisation+near
			}
		}
	}
	for name := range worse {
		require.True(t, hurt[name], name)
	}
}
