package stages_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// A check of one's own is shown line by line like those of the engine, and a line that
// does not recompute is an error.
func TestOwnCheckIsDerived(t *testing.T) {
	source := formula.Source{Document: "maker's plate"}
	one, err := formula.Derive(formula.Q("G_gross", 0, formula.Newton, "gross load"), "R_1 + G_rig", formula.Mechanics,
		formula.Q("R_1", 100e3, formula.Newton, "hook load"), formula.Q("G_rig", 5e3, formula.Newton, "rigging"))
	require.NoError(t, err)
	limit := limits.Limit{Name: "hook", Sense: limits.AtMost, Line: formula.Given(formula.Q("WLL", 120e3, formula.Newton, "working load limit"), source), Source: source}
	plan := func(line formula.Line) stages.Plan {
		return stages.Plan{stages.Store{Age: 5, On: dunnage(2.4, 9.6)}, own{at: 7, check: stages.NewCheck(limit, line.Result).Derived(line, limit.Line)}}
	}
	record, err := plan(one).Run(block(), limits.EN1992{})
	require.NoError(t, err)
	found := false
	for _, c := range record.Stages[1].Situations[0].Checks {
		if c.Name != "hook" {
			continue
		}
		found = true
		require.Len(t, c.Lines, 2)
		line, err := record.Line(c.Lines[0])
		require.NoError(t, err)
		require.Equal(t, "R_1 + G_rig", line.Expression)
	}
	require.True(t, found)
	require.NoError(t, record.Check())

	wrong := one
	wrong.Result.Value = 90e3
	_, err = plan(wrong).Run(block(), limits.EN1992{})
	require.ErrorContains(t, err, "G_gross")
}

// own is a lift with a check of its own.
type own struct {
	at    float64
	check stages.OwnCheck
}

func (o own) Situations(stages.History) ([]stages.Situation, error) {
	return []stages.Situation{{
		Name: "lift", Age: o.at, Phase: limits.Lifting, Dynamic: loads.AtRest(), Supports: as(stages.LiftPoint, dunnage(2.4, 9.6)),
		Check: func(stages.Effects, limits.Standard) ([]stages.OwnCheck, error) {
			return []stages.OwnCheck{o.check}, nil
		},
	}}, nil
}
