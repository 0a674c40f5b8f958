package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// Where a reference belongs and none was given the sheet says so: sources, approvals,
// documents, lines and checks.
func TestAReferenceThatIsMissingIsSaid(t *testing.T) {
	for _, blank := range []string{"", " ", "\u200b"} {
		require.Equal(t, noReference, given(blank))
	}
	const approval = "technical approval of the post-tensioning system"
	for words, s := range map[string]formula.Source{
		"no reference given": {},
		"technical approval of the post-tensioning system, no reference given": {Document: approval},
		"technical approval of the post-tensioning system ETA-1":               {Document: approval, Place: "ETA-1"},
		"no reference given: Table 24":                                         {Document: " ", Place: "Table 24"},
		"statics":                                                              formula.Mechanics, "EN 1 5.1": {Document: "EN 1", Place: "5.1", Confirm: true},
	} {
		require.Equal(t, words, sourceWords(s))
	}
	a := passed(t, Settings{}, lists, func(r *stages.Record) {
		r.Sources = append(r.Sources, formula.Source{}, formula.Source{Document: approval})
		r.Lines = append(r.Lines, derive.Line{Result: derive.Number{Symbol: 1, Value: 2}, Source: len(r.Sources) - 1})
		r.Inputs = append(r.Inputs, stages.Group{Title: "more", Lines: []int{len(r.Lines)}})
	})
	page := calculationPage(a)
	require.Contains(t, page, "- [3] no reference given\n- [4] technical approval of the post-tensioning system, no reference given\n")
	require.Regexp(t, `(?m)^\*\*Table M\d+: more\*\*\n\n.*\n.*\n\| .* \| no reference given \|$`, page)
	require.Contains(t, calculationPage(passed(t, Settings{})), "≤ σ_c_max = 18 MPa: **pass**; no reference given", "a check without a clause")
	for words, d := range map[string]derive.Document{
		"document no reference given, revision A, approved": {Revision: "A", Status: "approved"}, "document TW-7, revision no reference given, approved": {Number: "TW-7", Status: "approved"},
		"document TW-7, revision A, no reference given": {Number: "TW-7", Revision: "A", Status: " "},
	} {
		page := operationPages(passed(t, Settings{}, first(covered), first(func(s *stages.SituationRecord) { s.HoldPoints[0].Document = &d })))[0]
		require.Contains(t, page, "| "+words+" |")
	}
}

// An approval without a number, and a force whose document has no name, are said on the
// sheets of a plan: the force is not taken for a computed one.
func TestAnApprovalWithoutANumberIsSaid(t *testing.T) {
	e, transfer, _, store := plain12(t)
	e.Tendons[0].Approval.Reference = ""
	e.WeightTolerance = loads.PlusMinus(0)
	force := []tendon.Stated{{X: 0, Value: 300e3}, {X: 12, Value: 300e3}}
	transfer.Jacking[0].Given = &tendon.Given{Source: formula.Source{Document: " "}, Forces: force}
	record, err := stages.Plan{transfer, store}.Run(e, limits.EN1992{})
	require.NoError(t, err)
	require.Equal(t, noReference, record.Stages[0].Situations[0].Tendons[0].Given)
	a, err := newAuthor(record, Settings{})
	require.NoError(t, err)
	page := calculationPage(a)
	require.Contains(t, page, "] technical approval of the post-tensioning system, no reference given\n")
	require.Contains(t, page, "not bonded; force given by no reference given |")
	require.Contains(t, page, ", force as given by no reference given")
}
