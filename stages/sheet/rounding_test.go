package sheet

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/internal/derive"
	"github.com/tempstage/tempstage/stages/limits"
)

// printedNumber is a number and its unit as a sheet prints them.
var printedNumber = regexp.MustCompile(`^(−?[\d.]+) ?(.*)$`)

// siOf is a printed quantity in SI; one unit of its fourth figure is more than any rounding.
func siOf(t *testing.T, u Units, text string, unit formula.Unit) float64 {
	m := printedNumber.FindStringSubmatch(strings.TrimSuffix(text, " compression"))
	require.NotNil(t, m, text)
	p := u.in(unit)
	if small, ok := short[u.filled()][unit]; ok && small.unit == m[2] {
		p = small.printed
	}
	require.Equal(t, p.unit, m[2], text)
	return read(t, m[1]) / p.factor
}

// onSide reports a printed value that is on the wrong side of the true one, or further off
// than the last of four figures.
func onSide(t *testing.T, printed, value float64, up bool, what string) {
	size := max(1e-12, max(printed, -printed))
	if up {
		require.GreaterOrEqual(t, printed, value-2e-9*size, what)
	} else {
		require.LessOrEqual(t, printed, value+2e-9*size, what)
	}
	require.InDelta(t, value, printed, 1.001e-3*size, what)
}

// lastDecimal is one unit of the last decimal of a printed number.
func lastDecimal(text string) float64 {
	number, _, _ := strings.Cut(text, " ")
	_, fraction, _ := strings.Cut(number, ".")
	return math.Pow10(-len(fraction))
}

// Every margin and reaction of the stored record is printed on its safe side: margins down,
// ranges of reactions outwards, a demand that must not be more up and its limit down.
func TestEveryNumberIsOnItsSafeSide(t *testing.T) {
	checks, reactions := 0, 0
	for _, units := range []Units{SI, US} {
		a, err := newAuthor(storedRecord(t), Settings{Units: units})
		require.NoError(t, err)
		for _, stage := range a.record.Stages {
			for _, c := range checksOf(stage) {
				if !numeric(c) {
					continue
				}
				cells := a.numbersOf(c)
				inSI := author{record: a.record, units: SI}
				written := inSI.numbersOf(c)
				for k, q := range map[int]formula.Quantity{0: c.Demand, 2: c.Limit} {
					printed, value, one := siOf(t, units, cells[k], q.Unit), math.Abs(q.Value), 1.01*lastDecimal(written[k])/SI.of(q.Value, q.Unit).factor
					require.InDelta(t, value, printed, max(one, 1e-3*value), c.Name)
					upwards := (k == 0) == (c.Sense == limits.AtMost) && q.Value > 0
					hair := 2e-9 * value
					if upwards {
						require.GreaterOrEqual(t, printed, value-hair, c.Name)
					} else {
						require.LessOrEqual(t, printed, value+hair, c.Name)
					}
				}
				margin, last := siOf(t, units, cells[3], c.Limit.Unit), lastDecimal(cells[3])/a.units.of(c.Margin, c.Limit.Unit).factor
				require.LessOrEqual(t, margin, c.Margin+2e-9*math.Abs(c.Margin), c.Name)
				require.Greater(t, margin, c.Margin-max(1.001*last, 1.001e-3*math.Abs(c.Margin)), c.Name)
				checks++
			}
			for _, s := range stage.Situations {
				for i, r := range a.reactions(s)[0].(grid).rows {
					of := s.Reactions[i]
					for k, range_ := range map[int]stages.Range{4: of.Static, 7: of.Characteristic, 9: of.Ultimate} {
						for end, value := range []float64{range_.Least, range_.Most} {
							onSide(t, siOf(t, units, r[k+end].raw()+" "+a.units.in(formula.Newton).unit, formula.Newton), value, end == 1, r[0].raw())
							reactions++
						}
					}
				}
			}
		}
	}
	require.Greater(t, checks, 80)
	require.Greater(t, reactions, 150)
}

// A demand and its limit have the same digits in the derivation, under it, in the table of
// checks, in the list of governing checks and in figures; what is printed shows the outcome.
func TestANumberReadsTheSameEverywhere(t *testing.T) {
	for _, units := range []Units{SI, US} {
		a, err := newAuthor(storedRecord(t), Settings{Units: units})
		require.NoError(t, err)
		page := renderMarkdown(a.calculation(), "")
		plain := strings.ReplaceAll(page, "**", "")
		derived := 0
		for _, stage := range a.record.Stages {
			for _, s := range stage.Situations {
				for _, c := range s.Checks {
					if !numeric(c) {
						continue
					}
					cells := a.numbersOf(c)
					require.Contains(t, page, "= "+cells[0]+" "+compare(c.Sense)+" "+escapeMarkdown(a.symbolOf(c.Limit))+" = "+cells[2]+": ", "under the derivation")
					require.Contains(t, plain, "| "+strings.Join(cells, " | ")+" |", "in a table of checks")
					for _, n := range c.Lines {
						line, err := a.record.Line(n)
						require.NoError(t, err)
						for k, q := range map[int]formula.Quantity{0: c.Demand, 2: c.Limit} {
							if line.Result.Symbol == q.Symbol && line.Result.Unit == q.Unit {
								require.Regexp(t, `\| \(`+strconv.Itoa(n)+`\) \| .*\| \*\*`+regexp.QuoteMeta(cells[k])+`\*\* \|`, page, c.Name)
								derived++
							}
						}
					}
				}
				for _, c := range s.Checks {
					if _, signs := stressLimits(s); c.Kind == limits.Compression && len(signs) > 0 {
						require.Contains(t, a.boundWords(c, -1)+" "+a.units.in(formula.Pascal).unit, a.numbersOf(c)[2], "in the figures")
					}
				}
			}
		}
		perStage, _ := a.record.Governing()
		for _, c := range perStage {
			if numeric(c) {
				require.GreaterOrEqual(t, strings.Count(plain, " "+strings.Join(a.numbersOf(c), " | ")+" |"), 2, "in the list of governing checks too")
			}
		}
		require.Greater(t, derived, 60)
	}
}

// Where the digits of the derivation hide which is larger, both have more.
func TestMoreFiguresWhereTheOutcomeWouldNotShow(t *testing.T) {
	a := passed(t, Settings{}, func(r *stages.Record) {
		r.Symbols = append(r.Symbols, derive.Symbol{Symbol: "a", Unit: formula.Pascal}, derive.Symbol{Symbol: "b", Unit: formula.Pascal})
		n := len(r.Symbols)
		r.Sources = []formula.Source{{Document: "a"}}
		r.Lines = append(r.Lines, derive.Line{Source: 1, Result: derive.Number{Symbol: n - 1, Value: 1.436e6}}, derive.Line{Source: 1, Result: derive.Number{Symbol: n, Value: 1.436e6}})
	})
	n := len(a.record.Lines)
	c := stages.Check{Sense: limits.AtMost, Demand: formula.Q("a", 1.43567e6, formula.Pascal, ""), Limit: formula.Q("b", 1.43564e6, formula.Pascal, ""), Proof: derive.Proof{Lines: []int{n - 1, n}}, Margin: -30, State: stages.Fail}
	demand, limit := a.compared(c)
	require.Equal(t, []string{"1.4357 MPa", "1.4356 MPa"}, []string{demand, limit})
	c.State, c.Margin, c.Demand.Value, c.Limit.Value = stages.Pass, 30, 1.43564e6, 1.43567e6
	demand, limit = a.compared(c)
	require.Equal(t, []string{"1.436 MPa", "1.436 MPa"}, []string{demand, limit}, "equal is a pass")
	require.Equal(t, "3·10^−5 MPa", a.margin(c))
}

// A check that passes by less than the last figure is printed with more: demand and limit
// do not change places.
func TestAPassIsPrintedAsAPass(t *testing.T) {
	a := passed(t, Settings{})
	pass := func(sense limits.Sense, demand, limit float64) stages.Check {
		return stages.Check{State: stages.Pass, Sense: sense, Demand: formula.Q("a", demand, formula.Pascal, ""), Limit: formula.Q("b", limit, formula.Pascal, "")}
	}
	for _, c := range []struct {
		check         stages.Check
		demand, limit string
	}{
		{pass(limits.AtMost, 1.40005e6, 1.40008e6), "1.40005 MPa", "1.40008 MPa"},
		{pass(limits.AtMost, 1.4001e6, 1.4009e6), "1.4001 MPa", "1.4009 MPa"},
		{pass(limits.AtMost, 1.3e6, 1.4e6), "1.3 MPa", "1.4 MPa"},
		{pass(limits.AtLeast, 30.004e6, 30.001e6), "30.004 MPa", "30.001 MPa"},
	} {
		demand, limit := a.compared(c.check)
		require.Equal(t, []string{c.demand, c.limit}, []string{demand, limit})
	}
	fail := pass(limits.AtMost, 1.4001e6, 1.40005e6)
	fail.State = stages.Fail
	demand, limit := a.compared(fail)
	require.Equal(t, []string{"1.401 MPa", "1.4 MPa"}, []string{demand, limit})
}
