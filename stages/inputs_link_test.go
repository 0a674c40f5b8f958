package stages_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// groupOf are the results of the inputs under a title, by symbol.
func groupOf(t testing.TB, r stages.Record, title string) map[string]float64 {
	list := map[string]float64{}
	for _, g := range r.Inputs {
		if strings.HasPrefix(g.Title, title) {
			for _, n := range g.Lines {
				l := r.Lines[n-1]
				list[r.Symbols[l.Result.Symbol-1].Symbol] = l.Result.Value
			}
		}
	}
	require.NotEmpty(t, list, title)
	return list
}

// What hangers hang from is among the inputs, in the x of the element, once; and the radius.
func TestGantryAndRadiusAreInputs(t *testing.T) {
	e := beamOf(t, false)
	of := beam.Link{Name: "G7", At: -3, Layout: beam.Layout{
		Length: 27, Stiffness: []beam.Stretch{{To: 10, BendingStiffness: 2e9, ShearStiffness: 3e8}, {BendingStiffness: 4e9}}, Supports: []beam.Support{{At: 3, Stiffness: 5e7}, {At: 23}},
	}}
	on := stages.Hung(of, hangers([]float64{6e4, 13e4, 6e4}, 2, 10, 17)...)
	hung := stages.Situation{Name: "hung", Age: 8, Standing: true, Phase: limits.Storing, Supports: on}
	later := hung
	later.Age = 9
	a, err := stages.Plan{steps{hung, later}}.Analyse(stages.Girder{Mark: "curved", Radius: -250, Pieces: []stages.Piece{{Element: e}}}, limits.EN1992{})
	require.NoError(t, err)
	r, err := a.Record()
	require.NoError(t, err)
	number := 0
	for _, g := range r.Inputs {
		if strings.Contains(g.Title, "G7") {
			number++
		}
	}
	require.Equal(t, 1, number)
	require.Equal(t, map[string]float64{"x_l": -3, "L_l": 27, "EI_l1": 2e9, "GA_l1": 3e8, "EI_l2": 4e9, "x_l1": 0, "k_l1": 5e7, "x_l2": 20}, groupOf(t, r, "Gantry or girder G7"))
	plan := groupOf(t, r, "Axis in plan")
	require.EqualValues(t, -250, plan["R"])
	require.InDelta(t, -0.2, plan["f_arc"], 1e-12)
	require.Contains(t, strings.Join(r.Basis, " "), "Axis curved in plan")
}

// Places across are from the axis in checks as in reactions.
func TestPlacesAcrossAreFromTheAxis(t *testing.T) {
	e := girder(t)
	on := paired(frames(0.9, 1, 22.5))
	g := stages.Girder{Mark: "curved", Radius: 200, Pieces: []stages.Piece{{Element: e}}}
	r := run(t, g, stages.Plan{stages.Store{Age: 28, On: on}})
	s := r.Stages[0].Situations[0]
	for _, p := range s.Reactions {
		require.InDelta(t, 0.9, math.Abs(p.Y), 1e-9)
	}
	require.Regexp(t, `y = [-−]?0\.900 m$`, check(t, s, limits.Uplift).Place)
	require.Regexp(t, `^support line from x = [\d.]+ m, y = [-−]?0\.(900|000) m to x = [\d.]+ m, y = [-−]?0\.(900|000) m$`, check(t, s, limits.Overturning).Place)
}
