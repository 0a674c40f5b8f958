package sheet

import (
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
)

func storedRecord(t *testing.T) stages.Record {
	file, err := os.Open("testdata/record-1.json")
	require.NoError(t, err)
	defer func() { require.NoError(t, file.Close()) }()
	record, err := ReadJSON(file)
	require.NoError(t, err)
	return record
}

// Each number of each derivation is an input, stands in the numbers of its
// situation, or stands with its check: none is lost.
func TestNoNumberOfADerivationIsLost(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	a.inputs()
	checks := a.record.Stages[0].Situations[0].Checks
	local := ambiguous(checks)
	chains := a.passage.chains(checks, local)
	require.GreaterOrEqual(t, len(chains), 2)
	common, varying := sorted(chains)
	require.NotEmpty(t, common)
	require.NotEmpty(t, varying)
	set := a.numbers(checks)
	for _, c := range chains {
		for _, i := range c.checks {
			a.passage.forget()
			printed := ""
			for _, line := range set.rest(a.passage, i, checks[i].Derivation) {
				printed += line.raw() + "\n"
			}
			for _, l := range checks[i].Derivation {
				for _, q := range append(slices.Clone(l.Operands), l.Result) {
					if given, ok := find(a.passage.given, q.Symbol); ok && given.Value == q.Value {
						continue
					}
					key := value{quantity: q, line: l, operand: q != l.Result, local: local[q.Symbol] && q != l.Result}.key()
					v, ok := c.at(key)
					if !ok { // an operand that an earlier line gives
						at := slices.IndexFunc(c.values, func(v value) bool { return v.quantity.Symbol == q.Symbol && alike(v.quantity.Value, q.Value) })
						require.GreaterOrEqual(t, at, 0, "%s of check %d", q.Symbol, i)
						v = c.values[at]
					}
					require.True(t, alike(v.quantity.Value, q.Value), key)
					if !set.stands(i, v) {
						require.Contains(t, printed, q.Symbol)
						require.Contains(t, printed, a.units.quantity(q.Value, q.Unit))
					}
				}
			}
		}
	}
}

// The table has a row for each quantity and a column for each place; a quantity
// stands behind what it is got from.
func TestNumbersStandInOrder(t *testing.T) {
	x := func(v float64) formula.Quantity { return formula.Q("x", v, formula.Metre, "place") }
	derivation := func(v, other float64) []formula.Line {
		line := func(symbol string, value float64, expression string, operands ...formula.Quantity) formula.Line {
			return formula.Line{Result: formula.Q(symbol, value, formula.NewtonMetre, ""), Expression: expression, Operands: operands}
		}
		a := line("A", v, "x*k", x(v), formula.Q("k", 3, formula.One, ""))
		b := line("B", 2*v, "2*A", a.Result)
		lines := []formula.Line{a, b}
		for _, symbol := range []string{"C", "D", "E", "F", "G"} {
			b = line(symbol, other*v, "B*y", b.Result, formula.Q("y", other, formula.One, ""))
			lines = append(lines, b)
			other++
		}
		return lines
	}
	checks := []stages.Check{{Derivation: derivation(1, 5)}, {Derivation: derivation(2, 5)}, {Derivation: derivation(2, 5)}, {Derivation: derivation(1, 5)[:2]}}
	local := ambiguous(checks)
	require.Equal(t, map[string]bool{"y": true}, local)
	p := newPassage(SI, &references{}, nil)
	chains := p.chains(checks, local)
	require.Len(t, chains, 2, "the third is as the second, the fourth is short")
	require.Equal(t, []int{1, 2}, chains[1].checks)
	common, varying := sorted(chains)
	require.Equal(t, "k", common[0].key())
	require.Equal(t, "y of C", common[1].key())
	require.Len(t, common, 6)
	require.Equal(t, []string{"x", "A = x*k", "B = 2*A", "C = B*y", "D = B*y", "E = B*y", "F = B*y", "G = B*y"}, varying)
}

// Tendons share rows only where they mirror each other point by point, and the signs
// of both can be read.
func TestPathsOfMirroredTendons(t *testing.T) {
	path := func(ys ...float64) []stages.PathPoint {
		points := make([]stages.PathPoint, len(ys))
		for i, y := range ys {
			points[i] = stages.PathPoint{X: float64(i), Y: y}
		}
		return points
	}
	a := &author{units: SI, record: stages.Record{Tendons: []stages.TendonRecord{
		{Mark: "A", Points: path(-1, 0, 2)}, {Mark: "B", Points: path(1, 0, -2)}, {Mark: "C", Points: path(1, 0, 2)}, {Mark: "D", Points: path(1, 0, -2)},
	}}}
	g := a.paths()[0].(grid)
	require.Contains(t, g.caption, "the upper sign of ± and ∓ is that of the first")
	var rows []string
	for _, r := range g.rows {
		rows = append(rows, r[0].raw()+" "+r[2].raw())
	}
	require.Equal(t, []string{"A, B ∓1.000", "A, B 0.000", "A, B ±2.000", "C 1.000", "C 0.000", "C 2.000", "D 1.000", "D 0.000", "D −2.000"}, rows)
	a.record.Tendons = a.record.Tendons[2:]
	require.NotContains(t, a.paths()[0].(grid).caption, "±")
}

func TestTendonsAreAlikeInForceBondAndLosses(t *testing.T) {
	first := stages.TendonForce{Mark: "A", Left: 1, Middle: 2, Right: 3}
	second, third := first, first
	second.Mark, third.Mark = "B", "C"
	third.Losses.Friction = 5
	require.Len(t, alikeTendons([]stages.TendonForce{first, second, third}), 2)
}

func TestFormulasThatDifferInAnIndexAreOne(t *testing.T) {
	r := &references{}
	line := func(symbol, expression, name string) formula.Line {
		return formula.Line{Result: formula.Q(symbol, 1, formula.Newton, name), Expression: expression, Source: formula.Mechanics}
	}
	require.Equal(t, "(1)", r.formula(line("P_W1", "A_p*σ_W1", "force, tendon W1")))
	require.Equal(t, "(1)", r.formula(line("P_W2", "A_p*σ_W2", "force, tendon W2")))
	require.Equal(t, "(2)", r.formula(line("P_W3", "A_p*σ_W1", "force, tendon W3")))
	require.Equal(t, "(3)", r.formula(line("R_1", "G_1*(x_1 - x_2)", "reaction at x = 1.000 m")))
	require.Equal(t, "(4)", r.formula(line("R_2", "G_1*(x_1 - x_2)", "reaction at x = 9.000 m")), "an index in the expression keeps them apart")
	require.Equal(t, "P_i = A_p*σ_i, i = W1, W2", r.formulas[0].equation().raw())
	require.Equal(t, "P_W3 = A_p*σ_W1", r.formulas[1].equation().raw())
}
