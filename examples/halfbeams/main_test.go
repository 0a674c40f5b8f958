package main

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// Two of them are matched and stitched: conditional on the documents about the shear between
// them, on nothing else.
func TestPairIsStitched(t *testing.T) {
	record, err := pair()
	require.NoError(t, err)
	require.NoError(t, record.Check())
	require.Equal(t, stages.Conditional, record.Status())
	asked := map[limits.Kind]bool{}
	for _, stage := range record.Stages {
		for _, s := range stage.Situations {
			require.Empty(t, s.Unanswered, s.Name)
			for _, c := range s.Checks {
				asked[c.Kind] = true
				if c.State == stages.Conditional {
					require.Contains(t, []limits.Kind{limits.PrincipalTension, limits.WebShear}, c.Kind, c.Name)
					continue
				}
				require.Equal(t, stages.Pass, c.State, "%s: %s: %s", s.Name, c.Name, c.Note)
			}
		}
	}
	for _, kind := range []limits.Kind{limits.LevelMatch, limits.StitchGap, limits.PullForce, limits.StitchTie} {
		require.True(t, asked[kind], "%s", kind)
	}
}

// The half beam passes in every stage, and nothing of it is left unevaluated for its want
// of symmetry.
func TestHalfBeamPasses(t *testing.T) {
	record, err := half()
	require.NoError(t, err)
	require.NoError(t, record.Check())
	require.Equal(t, stages.Pass, record.Status())
	asked := map[limits.Kind]bool{}
	for _, stage := range record.Stages {
		for _, s := range stage.Situations {
			require.Empty(t, s.Unanswered, s.Name)
			for _, c := range s.Checks {
				require.NotEqual(t, stages.NotEvaluated, c.State, "%s: %s: %s", s.Name, c.Name, c.Note)
				asked[c.Kind] = true
			}
		}
	}
	for _, kind := range []limits.Kind{
		limits.Roll, limits.RollCracking, limits.RollOverturning, limits.CraneUse, limits.GroundPressure, limits.EdgeDistance,
		limits.SlingForce, limits.SlingAngle, limits.AnchorForce, limits.BraceForce, limits.RollKern,
	} {
		require.True(t, asked[kind], "%s", kind)
	}
}
