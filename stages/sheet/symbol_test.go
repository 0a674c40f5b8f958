package sheet

import (
	"go/ast"
	"go/parser"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// symbolsIn are the symbols that the blocks of a document print.
func symbolsIn(blocks []block, seen map[string]bool) {
	of := func(texts ...prose) {
		for _, t := range texts {
			for _, s := range t {
				if s.kind == symbol {
					seen[s.text] = true
				}
			}
		}
	}
	for _, b := range blocks {
		switch b := b.(type) {
		case heading:
			of(b.words)
		case paragraph:
			of(b.words)
		case list:
			of(b.points...)
		case grid:
			of(b.caption)
			for _, c := range b.columns {
				of(c.title)
			}
			for _, r := range b.rows {
				of(r...)
			}
		case beside:
			for _, c := range b.columns {
				symbolsIn(c, seen)
			}
		}
	}
}

// Every symbol that the sheet prints is in its list, once, and so with one meaning.
func TestEverySymbolIsListedOnce(t *testing.T) {
	for _, units := range []Units{SI, US} {
		a, err := newAuthor(storedRecord(t), Settings{Units: units})
		require.NoError(t, err)
		seen, listed := map[string]bool{}, map[string]int{}
		symbolsIn(a.calculation().blocks, seen)
		for _, p := range a.symbols()[1].(list).points {
			listed[p[0].text]++
			require.Regexp(t, `: \S`, p.raw())
		}
		require.Greater(t, len(seen), 60)
		for s := range seen {
			require.Equal(t, 1, listed[s], s)
		}
	}
}

// Letters with two meanings are told apart; names that differ in tendon, place or age are
// one meaning.
func TestMeaningsOfTheSameLetters(t *testing.T) {
	list := meaningsOf(nil)
	of := func(letters string, unit formula.Unit, name string) string {
		return list.of(derive.Symbol{Symbol: letters, Unit: unit, Name: name}).text()
	}
	require.Equal(t, "s", of("s", formula.Metre, "distance of the anchor centres of F1L and F1R"))
	require.Equal(t, "s′", of("s", formula.One, "cement class R"))
	require.Equal(t, "s", of("s", formula.Metre, "distance of the anchor centres of W1L and W2L"))
	require.Equal(t, "s″", strings.ReplaceAll(of("s", formula.Metre, "length from the right anchor to x"), "′′", "″"))
	require.Equal(t, "c_min", of("c_min", formula.Metre, "minimum distance of an anchor centre from the edge, tendon F1L"))
	require.Equal(t, "c′_min", of("c_min", formula.Metre, "minimum clear distance one above the other"))
	require.Equal(t, "f_pk", of("f_pk", formula.Pascal, "tensile strength of the strand"))
	require.Equal(t, "f_pk", of("f_pk", formula.Pascal, "tensile strength"))
	require.Equal(t, "n′", of("n", formula.One, "strands"), "n are the tendons of a row of a table")
	require.Equal(t, "n″", strings.ReplaceAll(of("n", formula.One, "number of specimens"), "′′", "″"))
	require.Equal(t, "k", of("k", formula.One, "share"))
	require.Equal(t, "k", of("k", formula.One, ""), "one without a name is the first")
}

// The list says what the names of several of a kind have in common, in whole sentences.
func TestExplanationsOfSymbols(t *testing.T) {
	for _, c := range []struct {
		letters, want string
		unit          formula.Unit
		names         []string
	}{
		{"t_d", "time of drying, from the end of curing to the age", formula.Day, []string{"time of drying at 3 d", "time of drying at 14 d"}},
		{"t_T", "age at loading, adjusted for temperature", formula.Day, []string{"age 3 d at loading adjusted for temperature", "age 14 d at loading adjusted for temperature"}},
		{"t_l", "time under load, from the age at loading to the age", formula.Day, []string{"time under load, from 3 d to 14 d", "time under load, from 4 d to 16 d"}},
		{"P_x", "force at x after friction and draw-in", formula.Newton, []string{"force at x after friction and draw-in, tendon T1", "force at x after friction and draw-in, tendon T2"}},
		{"γ_inf", "partial factor on the favourable part of the weight, and on stated ties", formula.One, []string{"on the favourable part of the weight", "on the favourable part of the weight: that inside the support line"}},
		{"φ", "outer diameter of the duct, of the larger of two", formula.Metre, []string{"outer diameter of the larger duct", "outer diameter of the duct"}},
		{"F_t", "resultant of the tensile stresses: their exact integral over the tension zone", formula.Newton, []string{"resultant of the tensile stresses, exact over their zone of 1.999 m²", "resultant of the tensile stresses, exact over their zone of 0.9 m²"}},
		{"m", "number of specimens", formula.One, []string{"number of specimens"}},
		{"q", "width", formula.Metre, []string{"width of the web", "width of the slab"}},
		{"s", "length along the tendon from the jacked end to x", formula.Metre, []string{"length from the right anchor to x"}},
	} {
		list := meaningsOf(nil)
		for _, name := range c.names {
			list.of(derive.Symbol{Symbol: c.letters, Unit: c.unit, Name: name})
		}
		require.Equal(t, c.want, (*list)[len(*list)-1].explanation())
	}
}

// No explanation of the stored record has a hole or ends in the middle of a sentence, and
// symbols in it are set as such.
func TestEveryExplanationIsWhole(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	a.calculation()
	for _, p := range a.symbols()[1].(list).points {
		require.NotRegexp(t, `…| (the|of|at|for|from|to|in|on)$`, p.raw())
		for _, s := range p {
			require.False(t, s.kind == plain && regexp.MustCompile(`\p{L}_\p{L}`).MatchString(s.text), p.raw())
		}
	}
}

// The list has the units in which the sheet prints a symbol: small areas in mm².
func TestUnitsOfTheListOfSymbols(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	for _, area := range []float64{2e-3, 3e-3} {
		a.symbolOf(formula.Q("A_x", area, formula.SquareMetre, "area of bars"))
	}
	require.Equal(t, "A_x mm²: area of bars", a.symbols()[1].(list).points[0].raw())
	a.symbolOf(formula.Q("A_x", 2, formula.SquareMetre, "area of bars"))
	require.Equal(t, "A_x mm², m²: area of bars", a.symbols()[1].(list).points[0].raw())
}

// The 0.1 % proof stress has the point in its index that no name in a formula can have.
func TestTheIndexOfTheProofStress(t *testing.T) {
	require.Equal(t, "f<sub>p0.1k</sub>", symbolHTML("f_p01k"))
}

// Symbols that only texts mention are listed too.
func TestSymbolsThatTextsMention(t *testing.T) {
	page := calculationPage(passed(t, Settings{}, func(r *stages.Record) {
		r.Basis = []string{"spread at tan β = 2/3; the modulus with χ = 0.8; solved from ∫ΔP ds = E_q·A_q·w"}
	}))
	for _, listed := range []string{"- β: angle at which", "- χ: ageing coefficient", "- ΔP kN: loss", "- w m: draw-in"} {
		require.Contains(t, page, listed)
	}
}

// Numbers in formulas have the unit that makes the formula right, whatever the units of the
// sheet: f_ck + 8 MPa, (f_ck/1 MPa)^(2/3), 28 d.
func TestNumbersOfFormulasHaveUnits(t *testing.T) {
	fck, t0 := formula.Q("f_ck", 50e6, formula.Pascal, ""), formula.Q("t", 4, formula.Day, "")
	h0, n := formula.Q("h_0", 0.3, formula.Metre, ""), formula.Q("n", 6, formula.One, "")
	for _, c := range []struct {
		expression string
		result     formula.Unit
		operands   []formula.Quantity
		si, us     string
	}{
		{"f_ck + 8e6", formula.Pascal, []formula.Quantity{fck}, "f_ck + 8 MPa", "f_ck + 1.1603 ksi"},
		{"0.3e6*pow(f_ck/1e6, 2/3)", formula.Pascal, []formula.Quantity{fck}, "0.3 MPa·(f_ck/1 MPa)^(2/3)", "0.043511 ksi·(f_ck/0.14504 ksi)^(2/3)"},
		{"2.12e6*ln(1 + (f_ck + 8e6)/1e7)", formula.Pascal, []formula.Quantity{fck}, "2.12 MPa·ln(1 + (f_ck + 8 MPa)/10 MPa)", "0.30748 ksi·ln(1 + (f_ck + 1.1603 ksi)/1.4504 ksi)"},
		{"f_ck - 8e6*sqrt(1 + 1/n)", formula.Pascal, []formula.Quantity{fck, n}, "f_ck − 8 MPa·√(1 + 1/n)", "f_ck − 1.1603 ksi·√(1 + 1/n)"},
		{"0.5*0.6*(1 - f_ck/250e6)*f_ck/1.5", formula.Pascal, []formula.Quantity{fck}, "0.5·0.6·(1 − f_ck/250 MPa)·f_ck/1.5", "0.5·0.6·(1 − f_ck/36.259 ksi)·f_ck/1.5"},
		{"exp(0.2*(1 - sqrt(28/t)))", formula.One, []formula.Quantity{t0}, "exp(0.2·(1 − √(28 d/t)))", "exp(0.2·(1 − √(28 d/t)))"},
		{"t/(t + 0.04*sqrt(pow(h_0*1e3, 3)))", formula.One, []formula.Quantity{t0, h0}, "t/(t + 0.04 d·√((h_0·1000/m)^(3)))", "t/(t + 0.04 d·√((h_0·304.8/ft)^(3)))"},
		{"(1 + pow(1.2*n, 18))/(0.1*pow(h_0*1e3, 1/3))", formula.One, []formula.Quantity{n, h0}, "(1 + (1.2·n)^(18))/(0.1·(h_0·1000/m)^(1/3))", "(1 + (1.2·n)^(18))/(0.1·(h_0·304.8/ft)^(1/3))"},
		{"f_ck/2 + sqrt(f_ck*f_ck/4)", formula.Pascal, []formula.Quantity{fck}, "f_ck/2 + √(f_ck·f_ck/4)", "f_ck/2 + √(f_ck·f_ck/4)"},
		{"16.8/sqrt(f_ck/1e6)", formula.One, []formula.Quantity{fck}, "16.8/√(f_ck/1 MPa)", "16.8/√(f_ck/0.14504 ksi)"},
		{"pow(min(1, 35e6/f_ck), 0.7)", formula.One, []formula.Quantity{fck}, "(min(1, 35 MPa/f_ck))^(0.7)", "(min(1, 5.0763 ksi/f_ck))^(0.7)"},
	} {
		line := formula.Line{Result: formula.Q("y", 0, c.result, ""), Expression: c.expression, Operands: c.operands}
		for units, want := range map[Units]string{SI: c.si, US: c.us} {
			a := &author{units: units, references: &references{}}
			symbols, _, _ := a.parts(line, units.exact)
			_, text, _ := strings.Cut(strings.ReplaceAll(markdownText(symbols), "′", ""), " = ")
			require.Equal(t, want, text, c.expression)
		}
	}
}

// A formula with a number that no unit fits is printed in SI on a sheet in US units.
func TestAFormulaThatCannotBeConverted(t *testing.T) {
	line := formula.Line{Result: formula.Q("w", 0, formula.One, ""), Expression: "3*h_0*h_0*h_0*h_0*h_0", Operands: []formula.Quantity{formula.Q("h_0", 0.3, formula.Metre, "")}}
	_, numbers, _ := (&author{units: US, references: &references{}}).parts(line, US.exact)
	require.Contains(t, numbers.raw(), "0.3 m")
}

// No formula of the stored record is left with a number in base units, and the units of
// each number make the two sides of a sum the same.
func TestNoPrintedFormulaHasBaseUnits(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	for i := range a.record.Lines {
		l, err := a.record.Line(i + 1)
		require.NoError(t, err)
		if l.Expression == "" {
			continue
		}
		tree, err := parser.ParseExpr(l.Expression)
		require.NoError(t, err)
		u := unitsIn(tree, l)
		require.False(t, u.open, l.Expression)
		ast.Inspect(tree, func(n ast.Node) bool {
			if lit, ok := n.(*ast.BasicLit); ok && strings.Contains(lit.Value, "e6") {
				require.Equal(t, formula.Pascal, u.of[lit], l.Expression)
			}
			return true
		})
	}
	page := calculationPage(a)
	for _, raw := range []string{"pow(", "sqrt(", "10^(6)", "10^(9)", "10^(7)"} {
		require.NotContains(t, page, raw)
	}
	require.Regexp(t, regexp.MustCompile(`\+ 8 MPa`), page)
}

// Symbols in notes are set as symbols; names that only look like one are not cut.
func TestSymbolsInNotes(t *testing.T) {
	a, err := newAuthor(storedRecord(t), Settings{})
	require.NoError(t, err)
	a.symbolOf(formula.Q("σ_s", 0, formula.Pascal, "stress of the bars"))
	require.Equal(t, "stress σ<sub>s</sub>, r<sub>inf</sub> and file_name_2", htmlText(a.noted("stress σ_s, r_inf and file_name_2")))
}
