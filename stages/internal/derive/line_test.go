package derive_test

import (
	"encoding/json"
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// friction is (5.45) of EN 1992-1-1 with operands in full precision.
func friction(t testing.TB, force, mu, theta, k, x float64) formula.Line {
	line, err := formula.Derive(formula.Q("P_x", 0, formula.Newton, "force at x"), "P_0*exp(-μ*(θ + k*x))", formula.Source{Document: "EN 1992-1-1:2004", Place: "5.10.5.2"},
		formula.Q("P_0", force, formula.Newton, "at the jack"), formula.Q("μ", mu, formula.PerRadian, "friction"), formula.Q("θ", theta, formula.Radian, "sum of angles"),
		formula.Q("k", k, formula.RadianPerMetre, "unintentional angle"), formula.Q("x", x, formula.Metre, "distance"))
	require.NoError(t, err)
	return line
}

func TestRoundedLine(t *testing.T) {
	line := friction(t, 2812345.67, 0.19, 0.123456789, 0.005, 12.3456789)
	rounded, err := derive.Rounded(line)
	require.NoError(t, err)
	require.NoError(t, derive.CheckLine(rounded))
	// 2812345.67·exp(−0.19·(0.1234568 + 0.0617284)) = 2715114 N, five digits.
	require.Equal(t, 2715100.0, rounded.Result.Value)
	require.Equal(t, []float64{2812300, 0.19, 0.1235, 0.005, 12.35},
		[]float64{rounded.Operands[0].Value, rounded.Operands[1].Value, rounded.Operands[2].Value, rounded.Operands[3].Value, rounded.Operands[4].Value})
	require.Equal(t, 2812345.67, line.Operands[0].Value, "what was given is not changed")
	again, err := derive.Rounded(rounded)
	require.NoError(t, err)
	require.Equal(t, rounded.Operands, again.Operands, "rounded lines stay as they are")
}

// Any friction, bending or strength line recomputes from what is printed, by a
// formula of the test's own, with few digits.
func TestRandomLinesRecompute(t *testing.T) {
	r := rand.New(rand.NewPCG(8, 9))
	digits := 0
	for range 5000 {
		line := friction(t, between(r, 10, 50e6), 0.1+0.2*r.Float64(), r.Float64(), 0.01*r.Float64(), between(r, 0.1, 80))
		exact := line.Result.Value
		rounded, err := derive.Rounded(line)
		require.NoError(t, err)
		require.LessOrEqual(t, math.Abs(rounded.Result.Value-exact), math.Max(5.0001, 5.0001e-5*exact), "five digits, no finer than 10 N")
		o := rounded.Operands
		got := o[0].Value * math.Exp(-o[1].Value*(o[2].Value+o[3].Value*o[4].Value))
		unit := math.Max(10, math.Pow10(int(math.Floor(math.Log10(exact)))-4))
		require.LessOrEqual(t, math.Abs(got-rounded.Result.Value)/unit, 1.5+1e-5)
		for _, q := range o {
			text := strings.Trim(strings.Replace(fmt.Sprintf("%.12e", q.Value)[:14], ".", "", 1), "0")
			digits = max(digits, len(text))
		}
	}
	require.LessOrEqual(t, digits, 6)
}

// A small difference of large numbers needs more digits of these (30.123 − 30.110
// is within 0.001 of the 0.012 in full precision), and noise of a
// difference that ought to be zero is not written down.
func TestDifferences(t *testing.T) {
	line, err := formula.Derive(formula.Q("m", 0, formula.Pascal, "margin"), "f - σ", formula.Mechanics,
		formula.Q("f", 30123456.7, formula.Pascal, ""), formula.Q("σ", 30111111.1, formula.Pascal, ""))
	require.NoError(t, err)
	rounded, err := derive.Rounded(line)
	require.NoError(t, err)
	require.Equal(t, []float64{12000, 30123000, 30110000}, []float64{rounded.Result.Value, rounded.Operands[0].Value, rounded.Operands[1].Value})
	tenth, fifth := 0.1, 0.2
	line, err = formula.Derive(formula.Q("d", 0, formula.One, ""), "a - b", formula.Mechanics, formula.Q("a", tenth+fifth, formula.One, ""), formula.Q("b", 0.3, formula.One, ""))
	require.NoError(t, err)
	require.NotZero(t, line.Result.Value)
	rounded, err = derive.Rounded(line)
	require.NoError(t, err)
	require.Zero(t, rounded.Result.Value)
}

func TestFinestResult(t *testing.T) {
	for unit, want := range map[formula.Unit]float64{
		formula.Newton: 0.01e3, formula.NewtonMetre: 0.1e3, formula.Pascal: 1e3, formula.Metre: 1e-5, formula.One: 1e-9, formula.SquareMetre: 1e-9,
	} {
		line, err := formula.Derive(formula.Q("b", 0, unit, ""), "a", formula.Mechanics, formula.Q("a", 1.4*want, unit, ""))
		require.NoError(t, err)
		rounded, err := derive.Rounded(line)
		require.NoError(t, err)
		require.InEpsilon(t, want, rounded.Result.Value, 1e-12, unit)
	}
}

func TestLinesRefuse(t *testing.T) {
	good := friction(t, 1e6, 0.19, 0.1, 0.005, 12)
	for name, change := range map[string]func(*formula.Line){
		"θ of the line for P_x is NaN": func(l *formula.Line) { l.Operands[2].Value = math.NaN() },
		"must be finite":               func(l *formula.Line) { l.Result.Value = math.Inf(-1) },
		"must agree":                   func(l *formula.Line) { l.Result.Value *= 1.001 },
		"has no operand":               func(l *formula.Line) { l.Operands = l.Operands[1:] },
	} {
		line := good
		line.Operands = append([]formula.Quantity(nil), good.Operands...)
		change(&line)
		_, err := derive.Rounded(line)
		require.ErrorIs(t, err, derive.ErrDerive, name)
		require.ErrorContains(t, err, name)
		n, err := new(derive.Book).Line(line)
		require.ErrorIs(t, err, derive.ErrDerive)
		require.Zero(t, n)
	}
	_, err := derive.Rounded(formula.Given(formula.Q("f", math.NaN(), formula.Pascal, ""), formula.Mechanics))
	require.ErrorIs(t, err, derive.ErrDerive)
}

// A book says each thing once and gives every line back as it was rounded.
func TestBookSaysThingsOnce(t *testing.T) {
	var book derive.Book
	line := friction(t, 2812345.67, 0.19, 0.123456789, 0.005, 12.3456789)
	one, err := book.Line(line)
	require.NoError(t, err)
	same, err := book.Line(friction(t, 2812345.68, 0.19, 0.123456788, 0.005, 12.3456789))
	require.NoError(t, err)
	other, err := book.Line(friction(t, 2412345.67, 0.19, 0.123456789, 0.005, 12.3456789))
	require.NoError(t, err)
	given, err := book.Line(formula.Given(formula.Q("f_ck", 34567891.2, formula.Pascal, "strength"), formula.Source{Document: "test certificate"}))
	require.NoError(t, err)
	require.Equal(t, []int{1, 1, 2, 3}, []int{one, same, other, given}, "lines that print alike are one")
	first, err := book.Table(lift(&book))
	require.NoError(t, err)
	again, err := book.Table(lift(&book))
	require.NoError(t, err)
	require.Equal(t, first, again)
	require.Equal(t, 1, book.Flow(1, derive.Wall{Name: "web"}, 1, 2, 3))
	require.Equal(t, 1, book.Flow(1, derive.Wall{Name: "web"}, 1, 2, 3))
	require.Equal(t, 2, book.Flow(1, derive.Wall{Name: "slab"}, 1, 2, 3))
	require.Equal(t, 2, book.Section(18, "net", box))

	lists := book.Lists()
	require.NoError(t, lists.Check())
	require.Len(t, lists.Lines, 3)
	require.Len(t, lists.Sources, 2)
	require.Len(t, lists.Tables, 1)
	require.Len(t, lists.Sections, 2)
	require.Len(t, lists.Symbols, 6+1+3, "six of friction, the strength, three factors")
	for _, f := range lists.Tables[0].Rows[0].Factors {
		require.Empty(t, f.Name, "said with the symbol")
	}
	rounded, err := derive.Rounded(line)
	require.NoError(t, err)
	back, err := lists.Line(one)
	require.NoError(t, err)
	require.Empty(t, cmp.Diff(rounded, back))
	strength, err := lists.Line(given)
	require.NoError(t, err)
	require.Equal(t, 34567890.0, strength.Result.Value, "seven digits of an input")
	require.Equal(t, "test certificate", strength.Source.Document)

	text, err := json.Marshal(lists)
	require.NoError(t, err)
	var read derive.Lists
	require.NoError(t, json.Unmarshal(text, &read))
	require.Empty(t, cmp.Diff(lists, read))
	require.NoError(t, read.Check())
}

func TestListsRefuseNumbersThatAreNotThere(t *testing.T) {
	var book derive.Book
	n, err := book.Line(friction(t, 1e6, 0.19, 0.1, 0.005, 12))
	require.NoError(t, err)
	for _, number := range []int{0, 2, -1} {
		_, err := book.Lists().Line(number)
		require.ErrorIs(t, err, derive.ErrDerive)
		require.ErrorContains(t, err, "must be 1 to 1")
	}
	lists := book.Lists()
	lists.Symbols = lists.Symbols[:1]
	_, err = lists.Line(n)
	require.ErrorContains(t, err, "symbol 2: must be 1 to 1")
	require.ErrorContains(t, lists.Check(), "line 1")
	lists.Sources = nil
	_, err = lists.Line(n)
	require.ErrorContains(t, err, "source 1 of line 1: must be 1 to 0")
}

// A line or a table that was changed in a file is found.
func TestListsCheckFindsChanges(t *testing.T) {
	var book derive.Book
	_, err := book.Line(friction(t, 1e6, 0.19, 0.1, 0.005, 12))
	require.NoError(t, err)
	_, err = book.Table(lift(&book))
	require.NoError(t, err)
	lists := book.Lists()
	lists.Lines[0].Result.Value += 500
	require.ErrorContains(t, lists.Check(), "line 1")
	lists.Tables[0].Sum.Value += 5000
	require.ErrorContains(t, lists.Check(), "table 1")
}

// Where six digits of a state are too few the table gets a finer copy of it.
func TestFinerStates(t *testing.T) {
	p := box
	p.ProductMoment, p.Centroid = 0, section.Point{Z: 1.43861249}
	p.Area, p.SecondMomentY = 0.1000005, 0.01000049 // 0.100001 and 0.0100005: 5e-6 off
	var book derive.Book
	at := section.Point{Z: 1.5386}
	a := derive.Action{Label: "weight", On: book.Section(3, "net", p), N: -60e6}
	a.Value = p.Stress(section.Forces{N: a.N}, at)
	n, err := book.Table(derive.Draft{Of: formula.Q("σ_c", a.Value, formula.Pascal, ""), By: derive.Bending, At: at, Rows: []derive.Action{a}})
	require.NoError(t, err)
	lists := book.Lists()
	require.NoError(t, lists.Check())
	require.Equal(t, 2, lists.Tables[n-1].Rows[0].On)
	require.Equal(t, []float64{0.1, 0.1000005}, []float64{derive.Round(lists.Sections[0].A, -5), lists.Sections[1].A})
	require.Equal(t, 2, lists.Sections[1].Number)
	reader{t, lists.Tables[n-1]}.recompute(lists.States)
}

func BenchmarkTable(b *testing.B) {
	r := rand.New(rand.NewPCG(7, 11))
	var book derive.Book
	d := bending(r, &book)
	for len(d.Rows) != 12 {
		book = derive.Book{}
		d = bending(r, &book)
	}
	states := book.Lists().States
	b.ReportAllocs()
	for b.Loop() {
		if _, err := d.Table(states); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkBookTable(b *testing.B) {
	r := rand.New(rand.NewPCG(7, 11))
	var book derive.Book
	d := bending(r, &book)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := book.Table(d); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkLine(b *testing.B) {
	line := friction(b, 2812345.67, 0.19, 0.123456789, 0.005, 12.3456789)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := derive.Rounded(line); err != nil {
			b.Fatal(err)
		}
	}
}
