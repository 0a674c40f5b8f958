package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// lists give the record a section state, a cut, and a check with a table and two lines.
func lists(r *stages.Record) {
	r.Sections = []derive.Section{{Number: 1, Name: "gross", X: 10, A: 1.5, Y: -0.1, Z: 0.75, Iy: 0.28125, Iz: 0.125, Iyz: 0.01}}
	r.Flows = []derive.Flow{{Number: 1, Wall: derive.Wall{Name: "web at 2.400 m"}, X: 8, Vy: 0.5, Vz: 1.25, T: 0.75}}
	r.Sources = []formula.Source{{Document: "a book", Place: "p. 1"}, {Document: "a standard", Place: "5.1", Confirm: true}}
	r.Symbols = []derive.Symbol{{Symbol: "M_y", Unit: formula.NewtonMetre, Name: "moment"}, {Symbol: "k", Unit: formula.One, Name: "a factor"}, {Symbol: "M_d", Unit: formula.NewtonMetre, Name: "design moment"}, {Symbol: "L", Unit: formula.Metre, Name: "length"}}
	r.Lines = []derive.Line{
		{Result: derive.Number{Symbol: 1, Value: -200e3}, Source: 1},
		{Result: derive.Number{Symbol: 3, Value: -300e3}, Expression: "k*M_y", Operands: []derive.Number{{Symbol: 2, Value: 1.5}, {Symbol: 1, Value: -200e3}}, Source: 2, Note: "hogging"},
		{Result: derive.Number{Symbol: 4, Value: 20}, Source: 1},
	}
	r.Inputs = []stages.Group{{Title: "geometry", Lines: []int{3}}}
	r.Tables = []derive.Table{{Number: 1, Value: derive.Column{Symbol: "R", Unit: formula.Newton, Last: 2}, Sum: formula.Q("R_d", 145e3, formula.Newton, ""), SumAt: 2, Rows: []derive.Row{
		{Label: "weight", Value: 200e3, Factors: []derive.Factor{{Symbol: "γ", Value: 0.95}, {Symbol: "c", Value: 1}}, Product: 190e3}, {Label: "hoist at 2.400 m", Value: -45e3, Product: -45e3},
	}}}
	r.Stages[0].Situations[0].Checks[0].Lines = []int{1, 2}
	r.Stages[0].Situations[0].Checks[0].Tables = []int{1}
}

// Section states and cuts have their values under their own heads.
func TestConstantsOfTheAppendix(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, lists))
	require.Contains(t, page, "|  | Section | x m | A m² | y_c m | z_c m | I_y m⁴ | I_z m⁴ | I_yz m⁴ |\n|---|---|---:|---:|---:|---:|---:|---:|---:|\n| 1 | gross | 10 | 1.5 | −0.1 | 0.75 | 0.28125 | 0.125 | 0.01 |")
	require.Contains(t, page, "|  | Wall section | x m | τ_Vy 1/m² | τ_Vz 1/m² | τ_T 1/m³ |\n|---|---|---:|---:|---:|---:|\n| 1 | web at 2.400 m | 8 | 0.5 | 1.25 | 0.75 |")
	require.Contains(t, page, "σ = N/A − ((M_y·I_z − M_z·I_yz)·(z − z_c) + (M_z·I_y − M_y·I_yz)·(y − y_c))/(I_y·I_z − I_yz^(2)); of tendons N = −n·P·cos, M_y = n·P·cos·(z − z_c), M_z = n·P·cos·(y − y_c).")
	require.Contains(t, page, "τ = V_y·τ_Vy + V_z·τ_Vz + T·τ_T; of tendons V_y = n·P·cos_y, V_z = n·P·cos_z.")
}

// In US units a round number in SI keeps five figures: 10 m = 32.808 ft, 1.5 m² =
// 16.146 ft², 0.125 m⁴ / 0.3048⁴ = 14.483 ft⁴.
func TestConstantsOfTheAppendixInUSUnits(t *testing.T) {
	page := calculationPage(passed(t, Settings{Units: US}, lists))
	require.Contains(t, page, "| 1 | gross | 32.808 | 16.146 | −0.32808 | 2.4606 | 32.5861 | 14.483 | 1.1586 |")
	require.Contains(t, page, "| 1 | web at 7.874 ft (2.400 m) | 26.247 | 0.00032258 | 0.00080645 | 0.00014748 |")
}

// A table of a check has a row for each action with value, factors and product, and its
// sum stands out: 200 · 0.95 − 45 = 145 kN.
func TestATableOfACheck(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, lists))
	require.Contains(t, page, ".1: R_d**\n\n| Action | R kN | factors | product kN |\n|---|---:|---:|---:|\n| weight | 200.0 | γ 0.95 · c 1 | 190.0 |\n| hoist at 2.400 m | −45.0 |  | −45.0 |\n| **sum** |  |  | **145.0** |")
	require.Contains(t, page, "**A compression at x = 10 m**")
}

// A line is its symbol, formula, numbers (a negative one in brackets), result, source
// with its dagger, and note.
func TestLinesOfACheck(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, lists))
	require.Contains(t, page, "|  | Symbol = formula | = numbers | = result | Remark, source |\n|---|---|---|---|---|\n| (1) | M_y |  | **−200 kN·m** | [1] |\n")
	require.Contains(t, page, "| (2) | M_d = k·M_y | 1.5·(−200 kN·m) | **−300 kN·m** | [2†]; hogging |\n")
	require.Contains(t, page, ": geometry**\n\n| Symbol | Meaning | Value | Source |\n|---|---|---:|---|\n| L | length | 20 m | [1] |\n")
}

// Each symbol of the sheet stands once with its meaning; sources are numbered as lines
// refer to them.
func TestSymbolsAndSources(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, lists))
	for _, row := range []string{"- M_y kN·m: moment about y, sagging +\n", "- k: a factor\n", "- M_d kN·m: design moment\n", "- L m: length\n"} {
		require.Equal(t, 1, strings.Count(page, row), row)
	}
	require.Contains(t, page, " Sources\n\n- [1] a book p. 1\n- [2†] a standard 5.1\n")
}

// A source that the record does not list is numbered behind it, once.
func TestSourcesAreNumberedAsTheyAreMet(t *testing.T) {
	r := &references{sources: []formula.Source{{Document: "a"}}}
	require.Equal(t, noReference, r.source(formula.Source{}))
	require.Equal(t, "[1]", r.source(formula.Source{Document: "a"}))
	require.Equal(t, "[2]", r.source(formula.Source{Document: "b"}))
	require.Equal(t, "[3†]", r.source(formula.Source{Document: "b", Confirm: true}), "to be confirmed is another")
	require.Equal(t, "[2]", r.source(formula.Source{Document: "b"}))
	require.Equal(t, "[4]", r.source(formula.Source{Place: "p. 2"}))
}

// The factors of a check without a table stand with its name.
func TestFactorsOfACheckWithoutATable(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, first(func(s *stages.SituationRecord) {
		s.Checks[0].Factors = []stages.Factor{{Cause: "weight", Value: 1.03}, {Cause: "wind", Value: -1}}
	})))
	require.Contains(t, page, "**A compression at x = 10 m; factors: weight × 1.03, wind × −1**\n\nNo derivation is given with this check.\n")
}

// A line that was printed with a check is referred to by another, a given one is
// repeated; a table too is printed once.
func TestASecondCheckRefersToTheFirst(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, lists, func(r *stages.Record) {
		r.Stages[2].Situations[0].Checks[0].Lines, r.Stages[2].Situations[0].Checks[0].Tables = []int{1, 2}, []int{1}
	}))
	require.Contains(t, page, ".1: R_d |  | **145 kN** | with check 1 A |\n| (1) | M_y |  | **−200 kN·m** | [1] |\n| (2) | M_d |  | **−300 kN·m** | with check 1 A |\n")
}
