package stages_test

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// glued are two arms with one joint, pressed by bars in the top and the bottom slab that
// reach a distance beyond them, then taken by a cantilever on its pier.
func glued(t *testing.T, reach float64) (stages.Girder, stages.Plan) {
	g, _ := balancedCantilever(t, 2, 1, false)
	g.Tendons = nil
	for i := range g.Pieces {
		if g.Pieces[i].Later = false; i > 1 {
			g.Pieces[i].Joint = stages.Monolithic
		}
	}
	j := &tendon.Jacking{Stress: 600e6, Ends: tendon.RightEnd, DrawIn: 0.001}
	for n, at := range [][3]float64{{3, 4.6, 3.04}, {3, -4.6, 3.04}, {3, 1.8, 3.04}, {3, -1.8, 3.04}, {3, 1.6, 0.15}, {3, -1.6, 0.15}} {
		mark := string(rune('A' + n))
		line := func(v float64) tendon.Curve { return tendon.Level(at[0]-reach, at[0]+reach, v) }
		g.Tendons = append(g.Tendons, tendon.Tendon{
			Mark: mark, Strand: tendon.Y1050H36, Strands: 1, Duct: 0.05, Elevation: line(at[2]), Plan: line(at[1]), NoFriction: true,
			Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
		})
		j.Tendons = append(j.Tendons, mark)
	}
	return g, stages.Plan{erected{name: "pressed", day: 40, on: []stages.Support{{X: 6, Fixed: true, Role: stages.Pad}}, events: []stages.Event{{Jack: j}}}}
}

// At a joint within the spread of its bars the bound of the tension is a question of its
// own, which a document may cover; the check is of all bars in full. Bars that have spread
// leave no question.
func TestBoundOfTheTensionAtAJoint(t *testing.T) {
	for _, of := range []struct {
		reach float64
		open  bool
	}{{0.6, true}, {2.9, false}} {
		g, plan := glued(t, of.reach)
		a, err := plan.Analyse(g, limits.EN1992{})
		require.NoError(t, err)
		r, err := a.Record()
		require.NoError(t, err)
		s := r.Stages[0].Situations[0]
		found := false
		for _, c := range s.Checks {
			if c.Name == "tension at joint S1/S2" {
				found = true
				require.Equal(t, stages.Pass, c.State, "all bars in full: %v", c.Demand)
			}
		}
		require.True(t, found)
		asked := 0
		for _, u := range s.Unanswered {
			if len(u) > len(limits.JointSpread) && u[:len(limits.JointSpread)] == string(limits.JointSpread) {
				asked++
				require.Contains(t, u, "bounded, at most 0.")
				require.Contains(t, u, "at joint S1/S2")
			}
		}
		require.Equal(t, of.open, asked == 1, "%v", s.Unanswered)
		covered := stages.Plan{stages.Covered(plan[0], stages.Document{Covers: limits.JointSpread, Number: "N1", Revision: "A", Status: "approved"})}
		r, err = covered.Run(g, limits.EN1992{})
		require.NoError(t, err)
		for _, c := range r.Stages[0].Situations[0].Checks {
			if c.Kind == limits.JointSpread {
				require.Equal(t, stages.Conditional, c.State)
				require.Contains(t, c.Note, "required a local analysis")
				asked--
			}
		}
		require.Zero(t, asked)
	}
}

// Before tendons have spread the principal tension of the walls is bounded. A bound beyond the limit
// is a question with its place and its tendons, which a document may cover; the check is of all
// tendons in full, and passes where they do.
func TestBoundOfTheWallsBeforeTendonsHaveSpread(t *testing.T) {
	covers := stages.Document{Covers: limits.WallSpread, Number: "N2", Revision: "A", Status: "approved"}
	plan := boxPlan()
	open, err := plan.Run(boxGirder(t), limits.EN1992{})
	require.NoError(t, err)
	for i := range plan {
		plan[i] = stages.Covered(plan[i], covers)
	}
	covered, err := plan.Run(boxGirder(t), limits.EN1992{})
	require.NoError(t, err)
	asked := 0
	for i, stage := range open.Stages {
		for k, s := range stage.Situations {
			var words []string
			for _, u := range s.Unanswered {
				if strings.HasPrefix(u, string(limits.WallSpread)) {
					words = append(words, u)
				}
			}
			for _, c := range covered.Stages[i].Situations[k].Checks {
				switch {
				case c.Kind == limits.WallSpread:
					asked++
					require.Equal(t, stages.Conditional, c.State)
					require.Contains(t, words, c.Note)
					require.Regexp(t, `bounded, (at most \d+\.\d\d MPa at .*, with [A-Z]|cracked in bending, x = )`, c.Note)
				case c.Kind == limits.PrincipalTension && len(words) > 0:
					for _, f := range c.Factors {
						require.NotContains(t, f.Cause, "before it has spread", "all tendons in full")
					}
				}
			}
			require.False(t, len(words) > 0 && slices.Contains(covered.Stages[i].Situations[k].Unanswered, words[0]))
		}
	}
	require.Positive(t, asked)
}
