package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/stages"
)

// slung gives the two lift points slings at 30° and 45° from vertical: 1/cos 30° =
// 1.1547, 1/cos 45° = 1.4142.
func slung(r *stages.Record) {
	reactions := r.Stages[1].Situations[0].Reactions
	reactions[0].Sling, reactions[1].Sling = 1.15470, 1.41421
}

// A sling is chosen by the force along it, not by its vertical part: 1.1547 · 425 =
// 490.75 kN and 1.41421 · 425 = 601.04 kN, rounded up, on both sheets.
func TestTheForceAlongASlingIsGiven(t *testing.T) {
	a := passed(t, Settings{}, slung)
	const line = "**Along the slings, max with dynamic factor kN:** 1: 490.8 (1.155 × R); 2: 601.1 (1.415 × R)."
	require.Contains(t, operationPages(a)[1], line)
	require.Contains(t, calculationPage(a), line)
	require.Equal(t, 1, strings.Count(strings.Join(operationPages(a), ""), "Along the slings"), "of the stage with slings only")
}

// In US units: 490.7475 kN / 4.448222 = 110.324 kip, 601.039 / 4.448222 = 135.119 kip.
func TestTheForceAlongASlingInUSUnits(t *testing.T) {
	require.Contains(t, operationPages(passed(t, Settings{Units: US}, slung))[1], "**Along the slings, max with dynamic factor kip:** 1: 110.4 (1.155 × R); 2: 135.2 (1.415 × R).")
}

// Without a sling, or for supports that stand, nothing is said of slings; a sling on
// one support only names that one.
func TestOnlySlingsAreNamed(t *testing.T) {
	require.NotContains(t, strings.Join(operationPages(passed(t, Settings{})), ""), "Along the slings")
	a := passed(t, Settings{}, slung, func(r *stages.Record) { r.Stages[1].Situations[0].Reactions[0].Sling = 0 })
	require.Contains(t, operationPages(a)[1], "max with dynamic factor kN:** 2: 601.1 (1.415 × R).")
}
