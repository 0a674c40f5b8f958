package segmental_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
	"github.com/tempstage/tempstage/stages/segmental"
)

// pierOn is a pier at 29 m with two rows a distance apart.
func pierOn(distance float64) segmental.Pier {
	return segmental.Pier{Mark: "P3", At: 29, Rows: distance, Row: 15e6, Document: "bearing schedule rev. 1"}
}

// tiedPier has six ties of 1,500 kN at each row, stressed to 800 kN.
func tiedPier(distance float64) segmental.Pier {
	p := pierOn(distance)
	p.Ties = &segmental.Ties{Number: 6, Preload: 800e3, Capacity: 1500e3, Document: "tie bars rev. 2"}
	return p
}

// pierChecks are the checks of a pier whose lines recompute and whose numbers are finite.
func pierChecks(t testing.TB, p segmental.Pier, b segmental.Balance, rule segmental.Rule) []stages.OwnCheck {
	t.Helper()
	list, err := p.Checks(b, rule, limits.EN1992{})
	require.NoError(t, err)
	require.NotEmpty(t, list)
	for _, c := range list {
		require.Equal(t, p.At, c.X, c.Name)
		require.Contains(t, c.Note, string(rule), c.Name)
		for _, v := range []float64{c.Demand.Value, c.Limit.Value, c.Margin, c.Utilisation} {
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0), c.Name)
		}
		if c.State == stages.NotEvaluated {
			require.Equal(t, limits.LocalForce, c.Kind)
			continue
		}
		require.NotEmpty(t, c.Derivation, c.Name)
		for _, l := range c.Derivation {
			v, err := l.Recompute()
			require.NoError(t, err)
			require.InDelta(t, l.Result.Value, v, 1e-9*math.Abs(v), c.Name)
		}
		shown := false
		for _, l := range c.Derivation {
			shown = shown || l.Result.Symbol == c.Demand.Symbol && l.Result.Value == c.Demand.Value
		}
		require.True(t, shown, "demand of %s is derived", c.Name)
	}
	return list
}

// pierCheck is the check of a name, and of a combination in its note.
func pierCheck(t testing.TB, list []stages.OwnCheck, name, note string) stages.OwnCheck {
	t.Helper()
	var found []stages.OwnCheck
	var all []string
	for _, c := range list {
		all = append(all, c.Name+" ("+c.Note+")")
		if strings.HasPrefix(c.Name, name) && strings.Contains(c.Note, note) {
			found = append(found, c)
		}
	}
	require.Len(t, found, 1, "%s, %s: %s", name, note, strings.Join(all, "\n"))
	return found[0]
}

// line is the value of a symbol in a derivation.
func line(t testing.TB, c stages.OwnCheck, symbol string) float64 {
	t.Helper()
	for _, l := range c.Derivation {
		if l.Result.Symbol == symbol {
			return l.Result.Value
		}
	}
	require.Fail(t, "no line", "%s in %s", symbol, c.Name)
	return 0
}

// lifting is the eighth segment on the right arm on the lifting frame, with crews that may be
// absent on each arm.
func lifting() segmental.Balance {
	b := handled(crews(cantilever(7, 8)), "R8")
	b.Unbalanced = "R8"
	for i, p := range b.Parts {
		if p.Kind == limits.Personnel {
			b.Parts[i].Most = 1
		}
	}
	return b
}

// Rows of 2.4 m: by hand V = 9,180 + 693 + 600 + 161.28 = 10,634.28 kN and M = 18,884.25 +
// 2,419.2 = 21,303.45 kN·m without the crew of the left arm: 14,193.6 and −3,559.3 kN.
func TestRowsByHand(t *testing.T) {
	list := pierChecks(t, pierOn(2.4), lifting(), segmental.AASHTO)
	c := pierCheck(t, list, "force of a row", "service")
	require.InEpsilon(t, 10634.28e3/2+21303.45e3/2.4, c.Demand.Value, 1e-12)
	require.Equal(t, 15e6, c.Limit.Value)
	require.Equal(t, stages.Pass, c.State)
	require.Contains(t, c.Place, "right row of pier P3 at x = 30.20 m")
	require.Contains(t, c.Note, "governing part: R8; segment R8 is on the right arm only")
	c = pierCheck(t, list, "uplift at a row", "service")
	v, m := 9180e3+600e3+1.1*630e3+480*336, 1.1*630e3*27.25+480*336*15
	require.InEpsilon(t, v/2-m/2.4, c.Demand.Value, 1e-12)
	require.Equal(t, stages.Fail, c.State)
	require.Contains(t, c.Place, "left row of pier P3 at x = 27.80 m")
	c = pierCheck(t, list, "factor on the out-of-balance moment", "service")
	require.InEpsilon(t, v*1.2/m, c.Demand.Value, 1e-12)
	require.InEpsilon(t, (1.5*m-v*1.2)/2.4, line(t, c, "T_req"), 1e-12)
	require.Equal(t, limits.Overturning, c.Kind)
	require.Equal(t, stages.Fail, c.State)
	require.True(t, c.Source.Confirm)
	require.Contains(t, c.Note, "force of ties at the other row that would be needed:")
	// Rows of 6 m: props under the deck.
	list = pierChecks(t, pierOn(6), lifting(), segmental.AASHTO)
	require.InEpsilon(t, v*3/m, pierCheck(t, list, "factor on the out-of-balance moment", "service").Demand.Value, 1e-12)
}

// released is the eighth segment of the left arm in place, that of the right one on the frame:
// released at once it changes 34,335 kN·m, with 9,780 kN left; put on at once 34,335 kN·m
// act with 11,040 kN where none is on the left.
func TestReleaseWithBothSigns(t *testing.T) {
	list := pierChecks(t, pierOn(6), handled(cantilever(8, 8), "R8"), segmental.EN)
	c := pierCheck(t, list, "overturning of the cantilever", "accidental")
	require.InEpsilon(t, 34335e3-9780e3*3, c.Demand.Value-c.Limit.Value, 1e-9)
	require.InEpsilon(t, 832.5e3, line(t, c, "T_req"), 1e-9)
	require.Contains(t, c.Note, "segment R8 released or put on at once")
	require.Contains(t, c.Note, "833 kN")
	require.Contains(t, c.Place, "left row")
	require.Equal(t, stages.Fail, c.State)
	b := handled(cantilever(7, 8), "R8")
	b.Unbalanced = "R8"
	c = pierCheck(t, pierChecks(t, pierOn(6), b, segmental.EN), "overturning of the cantilever", "accidental")
	require.InEpsilon(t, 34335e3-11040e3*3, c.Demand.Value-c.Limit.Value, 1e-9)
	require.Contains(t, c.Place, "right row")
	require.Contains(t, c.Note, "EN 1990 with EN 1991-1-6: accidental")
	// Without a segment on the frame there is no accident.
	for _, c := range pierChecks(t, pierOn(6), cantilever(8, 8), segmental.EN) {
		require.NotContains(t, c.Note, "accidental", c.Name)
	}
	// By AASHTO the same with 1.1(DC + DIFF) + 1.3 CE, and with DC + CE the smaller vertical force.
	c = pierCheck(t, pierChecks(t, pierOn(6), handled(cantilever(8, 8), "R8"), segmental.AASHTO), "uplift at a row", "A + AI")
	difference := 1.1 * 0.02 * (8*630e3/2 - 75600e3/6) // of the left arm, on the right row
	most := (1.1*(360e3+15*630e3)+1.3*600e3-630e3)/2 - (1.1*(75600e3-58432.5e3)+17167.5e3)/6 + difference
	least := 9780e3/2 - 34335e3/6.
	require.InEpsilon(t, math.Min(most, least), c.Demand.Value, 1e-9)
}

// Ties by hand: preload counts on the pressed row, the pull in excess of it on the lifted one, and
// more when one is lost at once.
func TestTiesByHand(t *testing.T) {
	p := tiedPier(2.4)
	p.Row = 20e6
	list := pierChecks(t, p, lifting(), segmental.AASHTO)
	require.InEpsilon(t, 10634.28e3/2+21303.45e3/2.4+6*800e3, pierCheck(t, list, "force of a row", "service").Demand.Value, 1e-12)
	v, m := 9180e3+600e3+1.1*630e3+480*336, 1.1*630e3*27.25+480*336*15
	pull := m/2.4 - v/2
	c := pierCheck(t, list, "force in a tie", "service")
	require.InEpsilon(t, math.Max(800e3, pull/6), c.Demand.Value, 1e-12)
	require.Equal(t, "tie bars rev. 2", c.Source.Document)
	require.Contains(t, c.Place, "left row")
	c = pierCheck(t, list, "one tie lost", "service")
	require.InEpsilon(t, math.Max(800e3, (pull+pull/6)/5), c.Demand.Value, 1e-12)
	c = pierCheck(t, list, "ties for the wanted factor", "service")
	require.InEpsilon(t, (1.5*m-v*1.2)/2.4, c.Demand.Value, 1e-12)
	require.InEpsilon(t, 9000e3, c.Limit.Value, 1e-12)
	require.Equal(t, "ties for the wanted factor on the out-of-balance moment of pier P3", c.Name)
	require.InEpsilon(t, v*1.2/m, line(t, c, "FS"), 1e-12, "both moments about the pier axis")
	require.InEpsilon(t, (v*1.2+9000e3*2.4)/m, line(t, c, "FS_T"), 1e-12, "the factor that is reached")
	require.Contains(t, c.Note, "V·e/(2·|M|) = 0.59, with the ties (V·e/2 + T·e)/|M| = 1.61")
	require.Equal(t, limits.Overturning, c.Kind)
	require.Equal(t, stages.Pass, c.State)
	// Another factor on the loss, another wanted factor.
	p.Ties = &segmental.Ties{Number: 4, Preload: 100e3, Capacity: 1500e3, Sudden: 1.5, Document: "d"}
	p.Factor = 2
	list = pierChecks(t, p, lifting(), segmental.AASHTO)
	require.InEpsilon(t, pull/4, pierCheck(t, list, "force in a tie", "service").Demand.Value, 1e-12)
	require.InEpsilon(t, (pull+0.5*pull/4)/3, pierCheck(t, list, "one tie lost", "service").Demand.Value, 1e-12)
	require.InEpsilon(t, (2*m-v*1.2)/2.4, pierCheck(t, list, "ties for the wanted factor", "service").Demand.Value, 1e-12)
	// An only tie: without it the row must press.
	p.Ties = &segmental.Ties{Number: 1, Capacity: 9e6, Document: "d"}
	c = pierCheck(t, pierChecks(t, p, lifting(), segmental.AASHTO), "one tie lost", "service")
	require.InEpsilon(t, -pull, c.Demand.Value, 1e-12)
	require.Equal(t, stages.Fail, c.State)
}

// For equilibrium ties hold with their working load limit and the favourable factor: the arm on the
// right 1.05, that on the left 0.95, equipment 1.35 beyond the row and 1 inside it.
func TestTiesHoldForEquilibrium(t *testing.T) {
	b := cantilever(7, 8)
	b.Unbalanced = "R8"
	c := pierCheck(t, pierChecks(t, tiedPier(2.4), b, segmental.EN), "overturning of the cantilever", "EQU")
	net := 1.05*8*630e3*(15-1.2) + 1.35*300e3*(25.5-1.2) - 0.95*(7*630e3*(13.25+1.2)+360e3*1.2) - 300e3*(25.5+1.2)
	require.InEpsilon(t, net, line(t, c, "M_dst")-line(t, c, "M_stb_G"), 1e-9)
	require.InEpsilon(t, line(t, c, "M_stb_G")+0.95*6*1500e3*2.4, c.Limit.Value, 1e-12)
	require.Equal(t, limits.Overturning, c.Kind)
	require.Equal(t, "EN 1990:2002", c.Source.Document)
	c = pierCheck(t, pierChecks(t, tiedPier(2.4), b, segmental.EN), "force in a tie", "EQU")
	require.InEpsilon(t, math.Max(800e3, net/2.4/6), c.Demand.Value, 1e-9)
}

// A preload above the pull is what a tie has.
func TestTieHasItsPreload(t *testing.T) {
	list := pierChecks(t, tiedPier(6), lifting(), segmental.EN)
	c := pierCheck(t, list, "force in a tie of pier P3", "equilibrium")
	require.Equal(t, 800e3, c.Demand.Value)
	require.Equal(t, formula.Newton, c.Demand.Unit)
}

// Where ties are compared the row that is pressed is, too: under EQU 1.05 on the right, 0.95 on the
// left arm, 1.35 on the frame of the right one. What an accident makes of rows and ties is
// strength, of overturning equilibrium, and it is called by its name.
func TestCombinationsOfTiedRows(t *testing.T) {
	b := cantilever(7, 8)
	b.Unbalanced = "R8"
	v := 1.05*(8*630e3+360e3) + 1.35*300e3 + 0.95*7*630e3 + 300e3
	m := 1.05*8*630e3*15 + 1.35*300e3*25.5 - 0.95*7*630e3*13.25 - 300e3*25.5
	c := pierCheck(t, pierChecks(t, tiedPier(2.4), b, segmental.EN), "force of a row", "EQU")
	require.InEpsilon(t, v/2+m/2.4+6*800e3, c.Demand.Value, 1e-12)
	require.Equal(t, limits.Equilibrium, c.LimitState)
	list := pierChecks(t, tiedPier(2.4), handled(b, "R8"), segmental.EN)
	for name, state := range map[string]string{"force of a row of bearings of pier P3": limits.Ultimate, "force in a tie of pier P3": limits.Ultimate, "overturning of the cantilever about a row of pier P3": limits.Equilibrium} {
		c := pierCheck(t, list, name, "EN 1990 with EN 1991-1-6: accidental")
		require.Equal(t, name+", accidental", c.Name)
		require.Equal(t, state, c.LimitState, name)
	}
}

// Rows 6 m apart do not lift in service: V/2 − M/6 presses, and the loss of a tie is no force in
// those that remain; 2.4 m apart they do.
func TestALostTieWhereNoRowLifts(t *testing.T) {
	list := pierChecks(t, tiedPier(6), lifting(), segmental.AASHTO)
	c := pierCheck(t, list, "one tie lost at pier P3", "service")
	require.Equal(t, "one tie lost at pier P3: no row lifts", c.Name)
	require.InEpsilon(t, 10634.28e3/2-21303.45e3/6, c.Demand.Value, 1e-9)
	require.Zero(t, c.Limit.Value)
	require.Equal(t, limits.AtLeast, c.Sense)
	require.Equal(t, stages.Pass, c.State)
	require.Equal(t, "one tie lost at pier P3: force in those that remain", pierCheck(t, pierChecks(t, tiedPier(2.4), lifting(), segmental.AASHTO), "one tie lost", "service").Name)
}
