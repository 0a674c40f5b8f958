package stages_test

import (
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Two supports are one only when they are alike in role and in all three coordinates;
// whichever two of a list they are.
func TestTwoSupportsAtOnePlaceAreRefused(t *testing.T) {
	base := []stages.Support{{X: 1, Y: -0.2, Role: stages.Pad}, {X: 1, Y: 0.2, Role: stages.Pad}, {X: 11, Y: 0, Role: stages.Pad}}
	for of := range base {
		for name, c := range map[string]struct {
			change func(*stages.Support)
			ok     bool
		}{
			"the same":         {func(*stages.Support) {}, false},
			"a hair along":     {func(s *stages.Support) { s.X += 1e-7 }, false},
			"a hair across":    {func(s *stages.Support) { s.Y += 1e-7 }, false},
			"apart along":      {func(s *stages.Support) { s.X += 2e-5 }, true},
			"apart across":     {func(s *stages.Support) { s.Y += 2e-5 }, true},
			"apart in height":  {func(s *stages.Support) { s.Z += 0.1 }, true},
			"of another role":  {func(s *stages.Support) { s.Role = stages.Jack }, true},
			"another friction": {func(s *stages.Support) { s.Friction = 0.3 }, false},
		} {
			twin := base[of]
			c.change(&twin)
			for _, list := range [][]stages.Support{append(slices.Clone(base), twin), append([]stages.Support{twin}, base...)} {
				err := errorOf(stages.Plan{stages.Store{Age: 28, On: list}})
				if c.ok {
					if err != nil {
						require.NotContains(t, err.Error(), "must be apart", name)
					}
					continue
				}
				require.ErrorContains(t, err, "must be apart", name)
			}
		}
	}
}

// Supports that come at another height, or in another role, are new ones: wind that stays
// turns about their level, not about that of those before. Half of it is supported by each
// line, ± F·h/2 over 0.4 m.
func TestASupportAtAnotherHeightIsAnother(t *testing.T) {
	const force = 2e3
	four := stages.Elastic(60e6, frames(0.2, 1, 11)...)
	wind := stages.Action{Mark: "wind", Kind: stages.Wind, Direction: stages.Transverse, Z: 0.8, Least: 1, Most: 1, Stays: true, Loads: point(6, force)}
	for _, c := range []struct {
		change func(*stages.Support)
		height float64
	}{
		{func(*stages.Support) {}, 0.8}, {func(s *stages.Support) { s.Z = -0.3 }, 1.1}, {func(s *stages.Support) { s.Z = 0.2 }, 0.6}, {func(s *stages.Support) { s.Role = stages.Jack }, 0.8},
	} {
		next := slices.Clone(four)
		for i := range next {
			c.change(&next[i])
		}
		plan := stages.Plan{stages.Store{Age: 28, On: four, OutOfLevel: 1e-7, Actions: []stages.Action{wind}}, stages.Store{Age: 28, On: next, OutOfLevel: 1e-7}}
		on := run(t, block(), plan).Stages[1].Situations[0].Reactions
		for i, p := range on {
			require.InDelta(t, 30e3+[]float64{-1, 1}[i%2]*force*c.height/2/0.4, p.Nominal, 5, "support %d, %g m above", i+1, c.height)
		}
	}
}

// Doors of hooks, girders and stiffness against rotation: the last value that is let in
// and the first that is not.
func TestFurtherDoorsJustInsideAndJustOutside(t *testing.T) {
	hook := func(set func(*stages.Hook, float64)) func(float64) error {
		return func(v float64) error {
			left := stages.Hook{X: 2, Z: 9}
			set(&left, v)
			on := append(stages.Slings(left, stages.Support{X: 1, Y: -0.2, Z: 0.9}, stages.Support{X: 3, Y: 0.2, Z: 0.9}), pairOfSlings(10, 0.2, 0.9, 9)...)
			err := errorOf(hung(stages.Lift{Dynamic: loads.AtRest(), Age: 28, On: on}))
			if err != nil && !containsAny(err.Error(), "field Hook") {
				return nil // let in; the slings cannot take it
			}
			return err
		}
	}
	girder := func(set func(*stages.Girder, float64)) func(float64) error {
		return func(v float64) error {
			g := stages.Girder{Mark: "AB", Pieces: stages.EndToEnd(stages.Monolithic, segment("A", 5), segment("B", 7))}
			set(&g, v)
			_, err := stages.Plan{stages.Store{Age: 28, On: dunnage(1, 11)}}.Run(g, limits.EN1992{})
			if err != nil && !containsAny(err.Error(), "Radius", "Element.Length", "WeightTolerance", "Bars[0]", "Extra[0]", "Cast") {
				return nil
			}
			return err
		}
	}
	up, down := math.Inf(1), math.Inf(-1)
	for name, c := range map[string]struct {
		last, outward float64
		try           func(float64) error
	}{
		"hook to the left":  {-50, down, hook(func(h *stages.Hook, v float64) { h.X = v })},
		"hook to the right": {62, up, hook(func(h *stages.Hook, v float64) { h.X = v })},
		"hook beside":       {50, up, hook(func(h *stages.Hook, v float64) { h.Y = v })},
		"hook on this side": {-50, down, hook(func(h *stages.Hook, v float64) { h.Y = v })},
		"hook above":        {200, up, hook(func(h *stages.Hook, v float64) { h.Z = v })},
		"hook below":        {-200, down, hook(func(h *stages.Hook, v float64) { h.Z = v })},
		"a narrow curve":    {30, down, girder(func(g *stages.Girder, v float64) { g.Radius = v })},
		"a wide curve":      {1e6, up, girder(func(g *stages.Girder, v float64) { g.Radius = v })},
		"to the right":      {-30, up, girder(func(g *stages.Girder, v float64) { g.Radius = v })},
		"light by tolerance": {1, up, girder(func(g *stages.Girder, v float64) {
			g.Pieces[1].Element.WeightTolerance = &loads.Tolerance{Under: v, Over: 0.1}
		})},
		"bars from": {0, down, girder(func(g *stages.Girder, v float64) {
			g.Pieces[1].Element.Bars = []stages.BondedBars{{From: v, To: 3, Area: 1e-3, At: sectionMiddle}}
		})},
		"bars to": {7, up, girder(func(g *stages.Girder, v float64) {
			g.Pieces[1].Element.Bars = []stages.BondedBars{{From: 1, To: v, Area: 1e-3, At: sectionMiddle}}
		})},
		"extra weight to": {7, up, girder(func(g *stages.Girder, v float64) {
			g.Pieces[1].Element.Extra = []stages.ExtraWeight{{Mark: "w", From: 1, To: v, Weight: 1}}
		})},
		"extra weight from": {3, up, girder(func(g *stages.Girder, v float64) {
			g.Pieces[1].Element.Extra = []stages.ExtraWeight{{Mark: "w", From: v, To: 3, Weight: 1}}
		})},
		"turning stiffness": {1e15, up, func(v float64) error {
			return errorOf(stages.Plan{stages.Store{Age: 28, On: []stages.Support{{X: 1, Y: -0.2, RotationalStiffness: v, Stiffness: 1e8}, {X: 1, Y: 0.2, Stiffness: 1e8}, {X: 11, Stiffness: 1e8}}, OutOfLevel: 1e-6}})
		}},
	} {
		if name != "light by tolerance" {
			require.NoError(t, c.try(c.last), name)
		}
		outside := math.Nextafter(c.last, c.outward)
		if c.last == 0 {
			outside = math.Copysign(1e-12, c.outward)
		}
		require.Error(t, c.try(outside), name)
		require.Error(t, c.try(math.NaN()), name)
	}
}

// sectionMiddle is inside the plain block.
var sectionMiddle = section.Point{Z: 0.4}

func containsAny(text string, words ...string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(text, w) })
}

// Slings meet at a hook above their lift points: one that lies beside them, or below,
// or between which a sling would push, is refused.
func TestHooksThatSlingsCannotReach(t *testing.T) {
	of := func(h stages.Hook, points ...stages.Support) error {
		on := append(stages.Slings(h, points...), pairOfSlings(10, 0.2, 0.9, 9)...)
		return errorOf(hung(stages.Lift{Dynamic: loads.AtRest(), Age: 28, On: on}))
	}
	pair := []stages.Support{{X: 1, Y: -0.2, Z: 0.9}, {X: 3, Y: -0.2, Z: 0.9}, {X: 2, Y: 0.2, Z: 0.9}}
	require.NoError(t, of(stages.Hook{X: 2, Z: 5}, pair...))
	for words, h := range map[string]stages.Hook{
		"is hardly above the lift point": {X: 2, Z: 0.95}, "would push on its hook": {X: 3.6, Z: 5}, "hardly above": {X: 2, Z: -3},
	} {
		require.ErrorContains(t, of(h, pair...), words)
	}
}
