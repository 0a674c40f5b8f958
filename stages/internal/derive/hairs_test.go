package derive_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// given is a draft of plain values without factors.
func given(unit formula.Unit, sum float64, values ...float64) derive.Draft {
	d := derive.Draft{Of: formula.Q("R", sum, unit, "")}
	for _, v := range values {
		d.Rows = append(d.Rows, derive.Action{Label: "row", Value: v})
	}
	return d
}

// The engine's own sum and that of the rows may be a tenth of a unit apart, no hair
// more: 10 N of reactions, 100 Pa of stress, 0.01 mm of a length.
func TestSumOfTheEngineWithinATenth(t *testing.T) {
	for unit, tenth := range map[formula.Unit]float64{formula.Newton: 10, formula.Pascal: 100, formula.NewtonMetre: 100, formula.Metre: 1e-5, formula.One: 1e-4} {
		for _, sign := range []float64{1, -1} {
			_, err := given(unit, 3+sign*tenth*0.999, 1, 2).Table(derive.States{})
			require.NoError(t, err, unit)
			_, err = given(unit, 3+sign*tenth*1.001, 1, 2).Table(derive.States{})
			require.ErrorIs(t, err, derive.ErrDerive, unit)
			require.ErrorContains(t, err, "must agree to")
		}
	}
}

// A printed sum, product and value may be one unit off what they are recomputed to,
// rounded: 1.5 units, no hair more.
func TestCheckWithinOneUnit(t *testing.T) {
	table := func(v, p, sum float64) derive.Table {
		return derive.Table{Value: derive.Column{Symbol: "R", Unit: formula.Newton, Last: 2}, SumAt: 2, Sum: formula.Q("R", sum, formula.Newton, ""),
			Rows: []derive.Row{{Label: "a", Value: v, Product: p, Factors: []derive.Factor{{Symbol: "γ", Value: 1.5}}}}}
	}
	require.NoError(t, derive.Check(table(1000, 1500, 1500), derive.States{}))
	require.NoError(t, derive.Check(table(1100, 1500, 1500), derive.States{}), "1650 is 1.5 units from 1500")
	require.ErrorContains(t, derive.Check(table(1200, 1500, 1500), derive.States{}), "value times factors is 1800 and the product 1500")
	require.ErrorContains(t, derive.Check(table(800, 1500, 1500), derive.States{}), "value times factors is 1200")
	require.NoError(t, derive.Check(table(1000, 1500, 1600), derive.States{}))
	require.ErrorContains(t, derive.Check(table(1000, 1500, 1700), derive.States{}), "add up to 1500 N and the sum is 1700")
	require.ErrorContains(t, derive.Check(table(1000, 1500, 1300), derive.States{}), "add up to")
	require.ErrorContains(t, derive.Check(table(1000, 1550, 1600), derive.States{}), "must end at 1e2 and 1e2")
	require.ErrorContains(t, derive.Check(table(1010, 1500, 1500), derive.States{}), "must end at 1e2")
}

// A range is rounded outwards at both ends on both sides of zero; what lies on a digit
// stays, and so does what noise of a millionth of a unit carries over it.
func TestRangesRoundOutwards(t *testing.T) {
	for _, c := range []struct{ least, most, wantLeast, wantMost float64 }{
		{100, 200, 100, 200}, {100.1, 199.9, 100, 200}, {149, 151, 100, 200}, {199, 201, 100, 300}, {-199, -101, -200, -100}, {-201, -99, -300, 0},
		{-1, 1, -100, 100}, {100 - 1e-5, 200 + 1e-5, 100, 200}, {100 - 1e-3, 200 + 1e-3, 0, 300}, {0, 0, 0, 0},
	} {
		got := derive.NewRange(c.least, c.most, 2)
		require.Equal(t, derive.Range{Least: c.wantLeast, Most: c.wantMost}, got, "%g to %g", c.least, c.most)
	}
	got := derive.NewRange(0.12345, 0.12345, -4)
	require.Equal(t, derive.Range{Least: 0.1234, Most: 0.1235}, got)
}

// Halves of a unit go away from zero, a hair less does not.
func TestHalvesOfAUnit(t *testing.T) {
	for _, sign := range []float64{1, -1} {
		require.Equal(t, sign*300, derive.Round(sign*250, 2))
		require.Equal(t, sign*200, derive.Round(sign*(250-1e-9), 2))
		require.Equal(t, sign*0.3, derive.Round(sign*0.25, -1))
		require.Equal(t, sign*0.2, derive.Round(sign*(0.25-1e-15), -1))
		require.Equal(t, sign*1e5, derive.Significant(sign*99999.5, 5), "one digit more in front")
	}
	require.Equal(t, "100.0", derive.Text(99950, 2, 1e-3))
	require.Equal(t, "99.9", derive.Text(99949, 2, 1e-3))
	require.Equal(t, "-0.3", derive.Text(-250, 2, 1e-3))
}

// Every unit has its coarsest digit: 0.1 kN, kN·m, 0.001 MPa, 10 N/m, kg, 0.1 mm, else
// three decimals.
func TestCoarsestDigits(t *testing.T) {
	for unit, last := range map[formula.Unit]int{
		formula.Newton: 2, formula.NewtonMetre: 3, formula.Pascal: 3, formula.NewtonPerMetre: 1, formula.NewtonPerCubic: 1, formula.Kilogram: 0,
		formula.NewtonSquareMetre: 0, formula.Metre: -4, formula.One: -3, formula.SquareMetre: -3, formula.Radian: -3,
	} {
		require.Equal(t, last, derive.Coarsest(unit), unit)
		table, err := given(unit, 5.5e6, 5.5e6).Table(derive.States{})
		require.NoError(t, err)
		require.Equal(t, [2]int{last, last}, [2]int{table.SumAt, table.Value.Last}, unit)
	}
	for _, c := range []struct {
		last   int
		factor float64
		want   int
	}{{2, 1e-3, 1}, {3, 1e-3, 0}, {3, 1e-6, 3}, {-4, 1, 4}, {-4, 1e3, 1}, {0, 1, 0}, {0, 1e-3, 3}, {4, 1e-3, 0}, {2, 2.2481e-4, 2}} {
		require.Equal(t, c.want, derive.Decimals(c.last, c.factor), "%+v", c)
	}
}

// What is beyond any number of an element is refused before it can overflow, at 1e150
// it is not.
func TestNumbersBeyondAnyElement(t *testing.T) {
	for v, good := range map[float64]bool{1e150: true, 1.00001e150: false, -1e150: true, -1.00001e150: false} {
		_, err := given(formula.Newton, v, v).Table(derive.States{})
		require.Equal(t, good, err == nil, "%g", v)
		line := formula.Given(formula.Q("f", v, formula.Pascal, ""), formula.Mechanics)
		_, err = derive.Rounded(line)
		require.Equal(t, good, err == nil, "%g", v)
	}
	product := derive.Draft{Of: formula.Q("R", 0, formula.Newton, ""), Rows: []derive.Action{{Label: "row", Value: 1e100, Factors: []derive.Factor{{Symbol: "k", Value: 1e100}}}}}
	_, err := product.Table(derive.States{})
	require.ErrorContains(t, err, "not finite")
}

// Rows of a figure: the digits of a column follow its largest number by magnitude, on
// either side of zero; a column of zeros stays.
func TestDigitsOfRowsFollowTheLargest(t *testing.T) {
	rows, err := derive.NewRows([]string{"x", "M", "none"}, [][]float64{{1.23456789, -9876543.21, 0}, {0.000123456, 1234.5678, 0}}, 5)
	require.NoError(t, err)
	require.Equal(t, [][]float64{{1.2346, -9876500, 0}, {0.0001, 1200, 0}}, rows.Values)
	_, err = derive.NewRows([]string{"x"}, [][]float64{{math.Inf(-1)}}, 5)
	require.ErrorIs(t, err, derive.ErrDerive)
	_, err = derive.NewRows([]string{"x"}, [][]float64{{math.NaN()}}, 5)
	require.ErrorContains(t, err, "row 1, column x = NaN")
	empty, err := derive.NewRows([]string{"x"}, nil, 5)
	require.NoError(t, err)
	require.Empty(t, empty.Column("x"))
}

// Stress of a printed section by hand, without and with Iyz: tension at low z under My,
// at −y under Mz.
func TestStressOfAPrintedSection(t *testing.T) {
	s := derive.Section{A: 2, Y: 0.5, Z: 1, Iy: 0.4, Iz: 0.8}
	at := section.Point{Y: 0.7, Z: 0.6} // 0.2 and −0.4 from the centroid
	require.InDelta(t, 10.0/2, s.Stress(10, 0, 0, at), 1e-12)
	require.InDelta(t, 3*0.4/0.4, s.Stress(0, 3, 0, at), 1e-12)
	require.InDelta(t, -5*0.2/0.8, s.Stress(0, 0, 5, at), 1e-12)
	s.Iyz = 0.2
	d := 0.4*0.8 - 0.04
	require.InDelta(t, 10.0/2-((3*0.8-5*0.2)*-0.4+(5*0.4-3*0.2)*0.2)/d, s.Stress(10, 3, 5, at), 1e-12)
	f := derive.Flow{Vy: 2, Vz: 3, T: 5}
	require.Equal(t, 7*2+11*3+13*5.0, f.Shear(7, 11, 13))
}

// A line of a book keeps its note and its words; the same numbers with another name,
// source or note are another line.
func TestBookTellsLinesApart(t *testing.T) {
	var book derive.Book
	line := formula.Given(formula.Q("f", 12e6, formula.Pascal, "strength"), formula.Source{Document: "a certificate"})
	numbers := map[int]bool{}
	for _, change := range []func(*formula.Line){
		func(*formula.Line) {}, func(l *formula.Line) { l.Note = "at 7 days" }, func(l *formula.Line) { l.Result.Name = "another" },
		func(l *formula.Line) { l.Source.Document = "another" }, func(l *formula.Line) { l.Result.Value = 13e6 }, func(l *formula.Line) { l.Result.Symbol = "g" },
	} {
		of := line
		change(&of)
		n, err := book.Line(of)
		require.NoError(t, err)
		require.False(t, numbers[n])
		numbers[n] = true
		back, err := book.Lists().Line(n)
		require.NoError(t, err)
		require.Equal(t, of.Result, back.Result)
		require.Equal(t, of.Note, back.Note)
		require.Equal(t, of.Source, back.Source)
	}
	require.True(t, strings.HasPrefix(book.Lists().Lines[1].Note, "at"))
	lists := book.Lists()
	lists.Lines = append(lists.Lines, derive.Line{Source: 0, Result: derive.Number{Symbol: 1}}, derive.Line{Source: 1})
	_, err := lists.Line(len(lists.Lines) - 1)
	require.ErrorContains(t, err, "source 0 of line 7: must be 1 to 2")
	_, err = lists.Line(len(lists.Lines))
	require.ErrorContains(t, err, "symbol 0: must be 1 to")
}

// In a record values stand in units of their own last digit and products in units of the
// sum's, which are not the same where a factor is large.
func TestProductsInDigitsOfTheSum(t *testing.T) {
	table := derive.Table{Number: 1, Value: derive.Column{Symbol: "R", Unit: formula.Newton, Last: 1}, SumAt: 2, Sum: formula.Q("R", 370200, formula.Newton, ""),
		Rows: []derive.Row{{Label: "tie lost", Value: 100050, Product: 370200, Factors: []derive.Factor{{Symbol: "k", Value: 3.7}}}}}
	require.NoError(t, derive.Check(table, derive.States{}))
	text, err := json.Marshal(table)
	require.NoError(t, err)
	require.Contains(t, string(text), `"v":10005,"f":[["k",3.7]],"p":3702}`)
	var back derive.Table
	require.NoError(t, json.Unmarshal(text, &back))
	require.Equal(t, table, back)
}
