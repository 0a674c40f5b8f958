package sheet

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// covered is a question of the first situation that a document answers: a check
// without numbers, and its hold point.
func covered(s *stages.SituationRecord) {
	s.Checks = append(s.Checks, stages.Check{Kind: limits.Sliding, Name: "sliding", State: stages.Conditional, Sense: limits.AtMost, Condition: "covered by document TW-7, revision B, status approved", Note: "no limit"})
	s.HoldPoints = append(s.HoldPoints, derive.HoldPoint{Kind: string(limits.Sliding), Document: &derive.Document{Number: "TW-7", Revision: "B", Status: "approved"}})
}

// No number stands for a question that a document answers: 0 ≤ 0 would read as a
// comparison that was made.
func TestWhatADocumentCoversHasNoNumbers(t *testing.T) {
	a := passed(t, Settings{}, first(covered))
	page := calculationPage(a)
	require.Contains(t, page, "| **B** | **sliding** |  | **0.000** |  | **n/e** |  | **n/e** | **n/e** | **n/e** | **conditional** |")
	require.Contains(t, page, "**conditional**; conditional on covered by document TW-7, revision B, status approved; no limit")
	require.NotContains(t, page, "| 0 | ≤ | 0 |")
	require.NotContains(t, page, "= 0 ≤")
}

// A demand of zero against a limit of zero is a comparison all the same.
func TestZeroAgainstALimitOfZeroKeepsItsNumbers(t *testing.T) {
	a := passed(t, Settings{}, first(func(s *stages.SituationRecord) { s.Checks[0] = compression(0, 0); s.Checks[0].Utilisation = 1 }))
	require.Contains(t, calculationPage(a), "| **0 MPa** | **≤** | **0 MPa** | **0 MPa** | **—** | **pass** |")
}

// The document is a hold point with number, revision and status, and once only.
func TestADocumentIsAHoldPoint(t *testing.T) {
	page := operationPages(passed(t, Settings{}, first(covered)))[0]
	require.Contains(t, page, "| Sliding at the supports | document TW-7, revision B, approved |  |  |  |")
	require.NotContains(t, page, "| Condition |", "its document is the condition")
	require.Contains(t, page, after)
	page = operationPages(passed(t, Settings{}, first(covered), first(func(s *stages.SituationRecord) { s.HoldPoints[0].Document.Status = "" })))[0]
	require.Contains(t, page, "| document TW-7, revision B, no reference given |", "a missing status is said")
}

// A check of the same kind that is conditional on a strength keeps its condition
// beside the document: the document does not show the strength.
func TestADocumentDoesNotHideAnotherCondition(t *testing.T) {
	page := operationPages(passed(t, Settings{}, first(covered), first(func(s *stages.SituationRecord) {
		s.Checks = append(s.Checks, stages.Check{Kind: limits.Sliding, Name: "sliding of the bearing", State: stages.Conditional, Sense: limits.AtMost,
			Demand: formula.Q("H", 10e3, formula.Newton, ""), Limit: formula.Q("H_Rd", 20e3, formula.Newton, ""), Condition: "grout to be tested", Required: formula.Q("f_g", 30.0001e6, formula.Pascal, "grout strength")})
	})))[0]
	require.Contains(t, page, "| Condition | grout to be tested; grout strength ≥ 30.5 MPa |")
}

// strengthNeeded makes the first check conditional on a strength of 25.0001 MPa.
func strengthNeeded(s *stages.SituationRecord) {
	s.Checks[0].State, s.Checks[0].Condition = stages.Conditional, "strength to be proved by test"
	s.Checks[0].Required = formula.Q("f_ck_t", 25.0001e6, formula.Pascal, "characteristic cylinder strength")
}

// strengthPoint is a hold point for a strength.
func strengthPoint(value float64) derive.HoldPoint {
	return derive.HoldPoint{Kind: "strength", Required: formula.Q("f_ck_t", value, formula.Pascal, "characteristic cylinder strength"), Check: 1}
}

// The required value stands at the condition unless a hold point asks for as much.
func TestTheValueOfAConditionIsNeverLost(t *testing.T) {
	with := func(points ...derive.HoldPoint) string {
		return operationPages(passed(t, Settings{}, first(strengthNeeded), first(func(s *stages.SituationRecord) { s.HoldPoints = points })))[0]
	}
	const value = "; characteristic cylinder strength ≥ 25.5 MPa |"
	require.Contains(t, with(), "| Condition | strength to be proved by test"+value)
	require.Contains(t, with(strengthPoint(24e6)), "| Condition | strength to be proved by test"+value, "the hold point asks for less")
	require.Contains(t, with(strengthPoint(25.0001e6)), "| Condition | strength to be proved by test |")
	require.Contains(t, with(strengthPoint(26e6)), "| Condition | strength to be proved by test |", "it asks for more")
	most := strengthPoint(26e6)
	most.AtMost = true
	require.Contains(t, with(most), "| Condition | strength to be proved by test"+value, "a maximum does not show a minimum")
}

// A strength at stressing that is itself conditional shows both its value and its
// condition.
func TestAConditionalStressingStrengthKeepsItsCondition(t *testing.T) {
	page := operationPages(passed(t, Settings{}, first(func(s *stages.SituationRecord) {
		s.Checks = append(s.Checks, stages.Check{Kind: limits.StressingStrength, Name: "strength at stressing", State: stages.Conditional, Sense: limits.AtLeast, Condition: "cubes cured beside the element",
			Demand: formula.Q("f_cm", 34e6, formula.Pascal, ""), Limit: formula.Q("f_cm_min", 30.0001e6, formula.Pascal, "mean cylinder strength")})
	})))[0]
	require.Contains(t, page, "| Strength at stressing | mean cylinder strength ≥ 30.5 MPa | 34 MPa |")
	require.Contains(t, page, "| Condition | cubes cured beside the element |")
}

// A document answers the kind that it names, and no other: another condition stays a
// hold point.
func TestADocumentAnswersItsKindOnly(t *testing.T) {
	page := operationPages(passed(t, Settings{}, first(covered), first(func(s *stages.SituationRecord) {
		s.Checks[0].State, s.Checks[0].Condition = stages.Conditional, "cubes cured beside the element"
	})))[0]
	require.Contains(t, page, "| Condition | cubes cured beside the element |")
}
