package main

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// The half beam passes in every stage, and nothing of it is left unevaluated for its want
// of symmetry.
func TestHalfBeamPasses(t *testing.T) {
	record, err := half()
	require.NoError(t, err)
	require.Equal(t, stages.Pass, record.Status())
	passes(t, record,
		limits.Roll, limits.RollCracking, limits.RollOverturning, limits.RollTilt, limits.RollKern, limits.CraneUse, limits.GroundPressure, limits.EdgeDistance,
		limits.SlingForce, limits.SlingAngle, limits.AnchorForce, limits.BraceForce)
}

// Two of them are matched and stitched, the walls of both and of the stitch evaluated on the
// joined section too.
func TestPairIsStitched(t *testing.T) {
	record, err := pair()
	require.NoError(t, err)
	require.Equal(t, stages.Pass, record.Status())
	passes(t, record, limits.PrincipalTension, limits.WebShear, limits.LevelMatch, limits.StitchGap, limits.PullForce, limits.StitchTie)
}

// passes sees that every check passes and that kinds are asked.
func passes(t *testing.T, record stages.Record, kinds ...limits.Kind) {
	t.Helper()
	require.NoError(t, record.Check())
	asked := map[limits.Kind]bool{}
	for _, stage := range record.Stages {
		for _, s := range stage.Situations {
			require.Empty(t, s.Unanswered, s.Name)
			for _, c := range s.Checks {
				asked[c.Kind] = true
				require.Equal(t, stages.Pass, c.State, "%s: %s: %s", s.Name, c.Name, c.Note)
			}
		}
	}
	for _, kind := range kinds {
		require.True(t, asked[kind], "%s", kind)
	}
}
