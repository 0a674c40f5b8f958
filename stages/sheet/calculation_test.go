package sheet

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// Each situation has its age, whether its weight is carried forward, its supports,
// factors and actions in words.
func TestTheFactsOfASituation(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, func(r *stages.Record) { r.Stages[1].Situations[0].Dynamic = stages.Range{Least: 0.9, Most: 1.1} },
		another(func(s *stages.SituationRecord) { s.Age, s.Day, s.Until = 4, 9, 30 })))
	for _, facts := range []string{
		"**Age:** 3 d (project day 3), weight carried forward, on 2 pads at x = 2 m, y = −0.5 m and 0.3 m; 1 pad at x = 16 m, y = −0.1 m. **Level, sharing:** at the soffit; by statics. **Factors:** weight tolerance × 0.97 to 1.03, dynamic × 1. **Actions beside self-weight:** none. **Strength:** ",
		"**Age:** 4 d to 30 d (project day 9), weight carried forward, on 2 pads at",
		"**Age:** 7 d (project day 7), weight transient, suspended from 1 lift point at x = 3 m, y = −0.1 m; 1 lift point at x = 17 m, y = −0.1 m. **Level, sharing:** z = 1.5 m; by statics. **Factors:** weight tolerance × 0.97 to 1.03, dynamic × 0.9 to 1.1.",
	} {
		require.Contains(t, page, facts)
	}
}

// The table of reactions has each support's ranges in the order of its heads, rounded
// outwards.
func TestTheTableOfReactions(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, first(func(s *stages.SituationRecord) {
		s.Reactions[0].Ultimate.Most = 230.04e3
		s.Reactions[0].Ultimate.Least = 139.99e3
	})))
	require.Contains(t, page, ": Reactions kN, ranges rounded outwards: static at rest, characteristic with dynamic factors, ULS with partial factors; share of the total at rest**")
	require.Contains(t, page, "| Support | x m | y m | nominal | static min | static max | share % | char. min | char. max | ULS min | ULS max |")
	require.Contains(t, page, "| 1 pad | 2.000 | −0.500 | 160 | 155 | 165 | 21.1 to 21.6 | 150 | 170 | 139.9 | 230.1 |")
}

// A check has its letter, limit state, place, demand, sense, limit on the safe side,
// margin, utilisation and state; the worst stands out.
func TestTheTableOfChecks(t *testing.T) {
	tension := stages.Check{Kind: limits.Tension, Name: "tension", LimitState: limits.Serviceability, State: stages.Pass, X: 4.5, Place: "soffit", Sense: limits.AtMost,
		Demand: formula.Q("σ_t", -1.5e6, formula.Pascal, ""), Limit: formula.Q("f_t", 2.0009e6, formula.Pascal, ""), Margin: 3.5009e6}
	spacing := stages.Check{Kind: limits.AnchorSpacing, Name: "spacing", State: stages.Fail, Sense: limits.AtLeast, Demand: formula.Q("s", 0.299, formula.Metre, ""), Limit: formula.Q("s_min", 0.30001, formula.Metre, ""), Margin: -0.00101, Utilisation: 1.0034}
	page := calculationPage(passed(t, Settings{}, first(func(s *stages.SituationRecord) { s.Checks = append(s.Checks, tension, spacing) })))
	for _, row := range []string{
		"| A | compression | SLS | 10.000 | top | 12 MPa | ≤ | 18 MPa | 6 MPa | 0.67 | pass |  |",
		"| B | tension | SLS | 4.500 | soffit | 1.5 MPa compression | ≤ | 2 MPa | 3.5 MPa | — | pass |  |",
		"| **C** | **spacing** |  | **0.000** |  | **0.299 m** | **≥** | **0.3001 m** | **−1.01 mm** | **1.004** | **fail** |  |",
		"σ_t = 1.5 MPa compression ≤ f_t = 2 MPa: **pass**", "s = 0.299 m ≥ s_min = 0.3001 m: **fail**",
	} {
		require.Contains(t, page, row)
	}
}

// The outcome of a conditional check names what it requires, rounded up.
func TestAConditionalOutcomeNamesItsValue(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, first(strengthNeeded)))
	require.Contains(t, page, "conditional** | **f_ck_t ≥ 25.01 MPa** |")
	require.Contains(t, page, "**conditional: requires** f_ck_t ≥ 25.01 MPa; no reference given; conditional on strength to be proved by test")
}

// Checks are lettered A to Z, then A1, B1.
func TestLettersOfChecks(t *testing.T) {
	require.Equal(t, []string{"A", "B", "Z", "A1", "B1", "Z1", "A2"}, []string{letter(0), letter(1), letter(25), letter(26), letter(27), letter(51), letter(52)})
}

// Every check of a situation has a row and a derivation, however many there are.
func TestNoCheckIsDropped(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, first(func(s *stages.SituationRecord) {
		for range 29 {
			s.Checks = append(s.Checks, compression(11e6, 18e6))
		}
	})))
	for i := range 30 {
		require.Regexp(t, `\| (\*\*)?`+letter(i)+`(\*\*)? \| (\*\*)?compression(\*\*)? \|`, page)
		require.Contains(t, page, "**"+letter(i)+" compression at x = 10 m")
	}
}

// Internal forces and stresses at each station in the order of the heads; what is zero
// throughout is named as such.
func TestTheTableOfStations(t *testing.T) {
	a := passed(t, Settings{}, func(r *stages.Record) {
		r.Stages[0].Situations[0].Stations = derive.Rows{
			Columns: []string{"x", "My", "Vz", "T", "NP", "MyP", "VzP", "MzP", "topLeast", "topMost", "bottomLeast", "bottomMost"},
			Values:  [][]float64{{2, 100e3, 50e3, 5e3, -1000e3, -400e3, -20e3, 3e3, -4e6, -3e6, 1e6, 2e6}, {10, 900e3, -40e3, 0, -1000e3, -700e3, 0, 0, -8e6, -7e6, 2e6, 2.5e6}},
		}
	})
	page := calculationPage(a)
	require.Contains(t, page, "tension +; zero throughout: Mz,w**")
	require.Contains(t, page, "| x m | My,w kN·m | Vz,w kN | T,w kN·m | N,p kN | My,p kN·m | Vz,p kN | Mz,p kN·m | top, min MPa | max | bottom, min MPa | max |")
	require.Contains(t, page, "| 2.000 | 100.0 | 50.00 | 5.000 | −1000 | −400.0 | −20.00 | 3.000 | −4.000 | −3.000 | 1.000 | 2.000 |")
	require.Contains(t, page, "| 10.000 | 900.0 | −40.00 | 0.000 | −1000 | −700.0 | 0.00 | 0.000 | −8.000 | −7.000 | 2.000 | 2.500 |")
}

// Rounding of the computation is no effect; a newton more is.
func TestEffectsThatAreNothing(t *testing.T) {
	a := &author{units: SI}
	g := grid{rows: [][]prose{nil}}
	require.False(t, a.addColumn(&g, "N", formula.Newton, []float64{-1e-3}, negligible))
	require.Empty(t, g.columns)
	require.True(t, a.addColumn(&g, "N", formula.Newton, []float64{-1.1e-3}, negligible))
	require.Len(t, g.columns, 1)
	require.Len(t, g.rows[0], 1)
}

// The parts of the weight have their ends, centre, coordinates and force.
func TestTheTableOfWeights(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, func(r *stages.Record) {
		r.Weights = append(r.Weights, stages.Load{Mark: "block", From: 1, To: 3, Centre: 2.1, Y: 0.2, Z: 0.9, Force: 24.5e3})
	}))
	require.Contains(t, page, "|  | Part | from m | to m | centre x m | y m | z m | kN |\n|---|---|---:|---:|---:|---:|---:|---:|\n| 1 | girder | 0.000 | 20.000 | 10.000 | −0.100 | 0.750 | 750.0 |\n| 2 | block | 1.000 | 3.000 | 2.100 | 0.200 | 0.900 | 24.5 |\n")
	require.NotContains(t, calculationPage(passed(t, Settings{}, func(r *stages.Record) { r.Weights = nil })), "Self-weight, nominal")
}

// What is the same as in the situation before is said to be, and what is not is printed.
func TestWhatIsUnchangedIsSaid(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, withCables, sagging, another(func(s *stages.SituationRecord) { s.Age = 4 })))
	_, later, _ := strings.Cut(page, "### 1.2 later")
	later, _, _ = strings.Cut(later, "## Stage 2")
	require.Contains(t, later, "Unchanged: elevation as in 1.1; tendon forces as in 1.1; moment as in 1.1; shear as in 1.1; stress at the top as in 1.1; stress at the bottom as in 1.1.")
	page = calculationPage(passed(t, Settings{}, withCables, another(func(s *stages.SituationRecord) {
		s.Tendons = cables()
		s.Tendons[2].Left += 5e3
	})))
	_, later, _ = strings.Cut(page, "### 1.2 later")
	require.Contains(t, later, "| C | 905 | 880 | 860 | bonded |")
	require.Contains(t, later, "Unchanged: elevation as in 1.1.")
}

// The head: title, project, revision, element with its length, fingerprint, units, room
// to sign, and the caution with what the dagger means.
func TestTheHeadOfTheCalculation(t *testing.T) {
	a := passed(t, Settings{Project: "Estuary Link", Revision: "C", Units: US})
	page := calculationPage(a)
	for _, words := range []string{
		"# Temporary stages of element G-3\n", "| Project | Estuary Link |", "| Revision | C |", "| Element | G-3, 65.617 ft long |", "| Fingerprint | " + a.fingerprint + " |",
		"| Prepared, date |  |", "| Checked, date |  |", "| Approved, date |  |", "- An aid.\n- † not checked against the printed standard: confirm against the edition in force.\n", "## Basis, signs\n\n- A basis.\n- Figures: elevations have",
	} {
		require.Contains(t, page, words)
	}
}

// A stage of several situations numbers them, one of one does not.
func TestNumbersOfSituations(t *testing.T) {
	one := stages.StageRecord{Number: 3, Situations: make([]stages.SituationRecord, 1)}
	two := stages.StageRecord{Number: 3, Situations: make([]stages.SituationRecord, 2)}
	require.Equal(t, "3", numbered(one, 0))
	require.Equal(t, "3.1", numbered(two, 0))
	require.Equal(t, "3.2", numbered(two, 1))
	require.Equal(t, "stage-3-2", situationName(two, 1))
}

// What a situation leaves out like the one before it is said once: then it refers to it.
func TestExclusionsOfASituationAreSaidOnce(t *testing.T) {
	same := []string{"anchorage zones of A: 100 kN spreads over x = 0.00 to 2.00 m"}
	page := calculationPage(passed(t, Settings{}, first(func(s *stages.SituationRecord) { s.NotChecked = same }), another(func(s *stages.SituationRecord) { s.NotChecked = same })))
	require.Equal(t, 1, strings.Count(page, "Excluded from this situation: anchorage zones of A"))
	require.Contains(t, page, "exclusions as in 1.1.")
}

// The reason for a partial factor stands once under the table, with its limit state.
func TestReasonsForPartialFactors(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, func(r *stages.Record) {
		r.Factors = []stages.PartialFactors{{LimitState: "ULS", Note: "prestress: mean"}, {LimitState: "SLS"}, {LimitState: "ULS", Note: "prestress: mean"}}
	}))
	require.Equal(t, 1, strings.Count(page, "ULS, prestress: mean."))
}
