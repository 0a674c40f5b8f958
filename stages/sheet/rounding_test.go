package sheet

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
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

// Every limit, demand, margin and reaction of the stored record is printed on its safe
// side: limits that must not be passed down, demands up, ranges of reactions outwards.
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
				atLeast, tension := c.Sense == limits.AtLeast, c.Kind == limits.Tension && c.Demand.Value < 0
				demand := siOf(t, units, cells[0], c.Demand.Unit)
				switch {
				case tension:
					onSide(t, demand, -c.Demand.Value, false, c.Name)
				default:
					onSide(t, demand, c.Demand.Value, !atLeast, c.Name)
				}
				if c.Limit.Value != 0 {
					onSide(t, siOf(t, units, cells[2], c.Limit.Unit), c.Limit.Value, atLeast, c.Name)
				}
				onSide(t, siOf(t, units, cells[3], c.Limit.Unit), c.Margin, false, c.Name)
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
