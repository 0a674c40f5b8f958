package main

import (
	"io"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/sheet"
)

var once = sync.OnceValues(calculate)

// Every stage passes; what is conditional is covered by a document or waits for a test of
// the strength.
func TestEveryStagePassesOrWaitsForADocument(t *testing.T) {
	r, err := once()
	require.NoError(t, err)
	require.NoError(t, r.Check())
	require.Len(t, r.Stages, 14)
	require.Equal(t, stages.Conditional, r.Status())
	for _, stage := range r.Stages {
		for _, s := range stage.Situations {
			require.Empty(t, s.Unanswered, s.Name)
			for _, c := range s.Checks {
				switch c.State {
				case stages.Pass:
				case stages.Conditional:
					require.Contains(t, []limits.Kind{limits.LocalForce, limits.Sliding}, c.Kind, "%s: %s: %s", s.Name, c.Name, c.Condition)
					require.Contains(t, c.Condition, "covered by document EL-")
				default:
					t.Errorf("%s: %s: %s %s, %.3f", s.Name, c.Name, c.State, c.Note, c.Utilisation)
				}
			}
		}
	}
	require.Equal(t, sheet.ExitFail, sheet.Command(nil, io.Discard, io.Discard, r, nil))
}

// The numbers that a site asks for are checks of the record.
func TestNumbersOfTheSite(t *testing.T) {
	r, err := once()
	require.NoError(t, err)
	value := func(name string) (float64, stages.Check) {
		for _, stage := range r.Stages {
			for _, s := range stage.Situations {
				for _, c := range s.Checks {
					if strings.HasPrefix(c.Name, name) {
						return c.Limit.Value, c
					}
				}
			}
		}
		t.Errorf("no check %q", name)
		return 0, stages.Check{}
	}
	warp, c := value("warp of the locked jacks")
	require.InDelta(t, 0.001, warp, 0.0009, "some tenths of a millimetre: a box of this length is stiff in torsion")
	require.Equal(t, stages.Pass, c.State)
	age, c := value("age when the carrier passes")
	require.InDelta(t, 39, age, 1e-9)
	require.GreaterOrEqual(t, c.Demand.Value, age)
	for _, name := range []string{"wind", "trolley"} {
		found := false
		for _, s := range r.Stages[12].Situations {
			for _, c := range s.Checks {
				found = found || strings.Contains(c.Name, name)
			}
		}
		require.True(t, found, name)
	}
}
