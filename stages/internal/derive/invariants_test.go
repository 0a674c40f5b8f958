package derive_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// written is the table of a draft and the lists that it belongs to.
func written(t testing.TB, book *derive.Book, d derive.Draft) (derive.Table, derive.Lists) {
	n, err := book.Table(d)
	require.NoError(t, err)
	lists := book.Lists()
	return lists.Tables[n-1], lists
}

// exact is the number in full precision that a column shows of a row.
func exact(a derive.Action, symbol string) float64 {
	t := derive.Tendons{}
	if a.Tendons != nil {
		t = *a.Tendons
	}
	return map[string]float64{
		"n": float64(t.Count), "P": t.Force, "cos": t.Cos, "y": t.At.Y, "z": t.At.Z, "N": a.N, "M_y": a.My, "M_z": a.Mz, "σ_0": a.Other,
	}[symbol]
}

// Every cell is the engine's number, rounded once.
func TestCellsAreRoundedFromFullPrecision(t *testing.T) {
	r := rand.New(rand.NewPCG(21, 22))
	for range 500 {
		var book derive.Book
		d := bending(r, &book)
		table, _ := written(t, &book, d)
		for i, row := range table.Rows {
			for j, c := range table.Columns {
				if row.Cells[j].Filled {
					require.Equal(t, derive.Round(exact(d.Rows[i], c.Symbol), c.Last), row.Cells[j].Value, c.Symbol)
				}
			}
			require.Equal(t, derive.Round(d.Rows[i].Value, table.Value.Last), row.Value)
		}
	}
}

// A column has no digit that it does not need: with one less, some row of the
// table does not recompute. The digits are found one after the other, so that a
// later one can make an earlier one superfluous: one column in fifty at most.
func TestNoColumnHasAnIdleDigit(t *testing.T) {
	r := rand.New(rand.NewPCG(23, 24))
	refined, idle := 0, 0
	for range 2000 {
		var book derive.Book
		d := bending(r, &book)
		table, lists := written(t, &book, d)
		for j, c := range table.Columns {
			if c.Last >= coarsest[c.Symbol] {
				require.Equal(t, coarsest[c.Symbol], c.Last)
				continue
			}
			refined++
			less := table
			less.Columns, less.Rows = slices.Clone(table.Columns), slices.Clone(table.Rows)
			less.Columns[j].Last++
			for i := range less.Rows {
				row := &less.Rows[i]
				row.Cells = slices.Clone(row.Cells)
				if row.Cells[j].Filled {
					row.Cells[j].Value = derive.Round(exact(d.Rows[i], c.Symbol), c.Last+1)
				}
			}
			if derive.Check(less, lists.States) == nil {
				idle++
			}
		}
	}
	require.Greater(t, refined, 1000)
	require.Less(t, idle, refined/50, "%d of %d", idle, refined)
}

// coarsest are the last digits of doc.go.
var coarsest = map[string]int{"n": 0, "P": 2, "cos": -5, "y": -4, "z": -4, "N": 3, "M_y": 3, "M_z": 3, "σ_0": 3}

// The printed products are a brute-force best: no product is a unit away from its
// exact value, and no fewer rows could be rounded the other way.
func TestProductsAddUp(t *testing.T) {
	r := rand.New(rand.NewPCG(25, 26))
	turned := 0
	for range 3000 {
		d := derive.Draft{Of: formula.Q("R", 0, formula.Newton, "")}
		for range 1 + r.IntN(20) {
			a := derive.Action{Value: 1e5 * r.NormFloat64()}
			d.Rows = append(d.Rows, a)
			d.Of.Value += a.Value
		}
		table, err := d.Table(derive.States{})
		require.NoError(t, err)
		sum, plain, other := 0.0, 0.0, 0
		for i, row := range table.Rows {
			want := derive.Round(d.Rows[i].Value, 2)
			sum += row.Product
			plain += want
			require.Less(t, math.Abs(row.Product-d.Rows[i].Value), 100.0)
			if row.Product != want {
				other++
			}
		}
		require.InDelta(t, table.Sum.Value, sum, 1e-6)
		require.InDelta(t, math.Abs(table.Sum.Value-plain)/100, float64(other), 1e-6)
		turned += other
	}
	require.Greater(t, turned, 1000, "plain rounding does not add up")
}

// The order of rows changes neither digits nor numbers, but for products of equal
// remainder.
func TestOrderOfRowsDoesNotMatter(t *testing.T) {
	r := rand.New(rand.NewPCG(27, 28))
	for range 200 {
		var book derive.Book
		d := bending(r, &book)
		table, _ := written(t, &book, d)
		turned := d
		turned.Rows = slices.Clone(d.Rows)
		slices.Reverse(turned.Rows)
		other, err := turned.Table(book.Lists().States)
		if err != nil { // it stands on finer states
			continue
		}
		require.Equal(t, table.Sum, other.Sum)
		slices.Reverse(other.Rows)
		for i := range other.Rows {
			require.Equal(t, table.Rows[i].Label, other.Rows[i].Label)
			require.InDelta(t, table.Rows[i].Product, other.Rows[i].Product, 1e-6+2*math.Pow10(table.SumAt))
		}
	}
}

// All forces the other way round: the same table with the other signs.
func TestReversedForces(t *testing.T) {
	r := rand.New(rand.NewPCG(29, 30))
	for range 300 {
		var book derive.Book
		d := bending(r, &book)
		table, _ := written(t, &book, d)
		back := d
		back.Of.Value = -d.Of.Value
		back.Rows = slices.Clone(d.Rows)
		for i := range back.Rows {
			a := &back.Rows[i]
			a.N, a.My, a.Mz, a.Other, a.Value = -a.N, -a.My, -a.Mz, -a.Other, -a.Value
			if a.Tendons != nil {
				tendons := *a.Tendons
				tendons.Force = -tendons.Force
				a.Tendons = &tendons
			}
		}
		other, _ := written(t, &book, back)
		require.Empty(t, cmp.Diff(table.Columns, other.Columns))
		require.Equal(t, table.Sum.Value, -other.Sum.Value+0)
		for i, row := range table.Rows {
			require.Equal(t, row.Value, -other.Rows[i].Value+0)
			require.Equal(t, row.Product, -other.Rows[i].Product+0)
		}
	}
}

// The same input gives the same lists.
func TestDeterministic(t *testing.T) {
	write := func() derive.Lists {
		r := rand.New(rand.NewPCG(31, 32))
		var book derive.Book
		for range 50 {
			written(t, &book, bending(r, &book))
		}
		return book.Lists()
	}
	first := write()
	require.NoError(t, first.Check())
	require.Empty(t, cmp.Diff(first, write()))
	for i, s := range first.Sections {
		require.Equal(t, i+1, s.Number)
	}
	for i, table := range first.Tables {
		require.Equal(t, i+1, table.Number)
	}
}

// The digits of a moment follow the section modulus: 0.5 kN·m on 1 m³ is half a
// unit of 0.001 MPa. One row without N, factor 1, a symmetric section.
func TestDigitsOfMomentsFollowTheSectionModulus(t *testing.T) {
	r := rand.New(rand.NewPCG(33, 34))
	for _, c := range []struct {
		modulus float64 // m³
		finest  int     // last digit of M_y
	}{{30, 3}, {1, 3}, {0.34, 2}, {0.1, 2}, {0.03, 1}} {
		found := 3
		for range 300 {
			p := section.Properties{Area: 1, Centroid: section.Point{Z: 0.5}, SecondMomentY: c.modulus / 2, SecondMomentZ: 1}
			var book derive.Book
			a := derive.Action{Label: "weight", On: book.Section(1, "gross", p), My: 10e6 * c.modulus * (r.Float64() - 0.5)}
			a.Value = p.Stress(section.Forces{My: a.My}, section.Point{})
			table, _ := written(t, &book, derive.Draft{Of: formula.Q("σ", a.Value, formula.Pascal, ""), By: derive.Bending, Rows: []derive.Action{a}})
			require.Len(t, table.Columns, 2, "N and M_y")
			found = min(found, last(table, "M_y"))
		}
		require.Equal(t, c.finest, found, "W = %g m³", c.modulus)
	}
}

// Columns stand only where a row needs them.
func TestColumns(t *testing.T) {
	symbols := func(change func(*derive.Action)) (symbols []string) {
		p := box
		p.ProductMoment = 0
		var book derive.Book
		at := section.Point{Y: 1, Z: 0}
		a := derive.Action{Label: "a", On: book.Section(1, "net", p), My: 5e6}
		change(&a)
		a.Value = p.Stress(section.Forces{N: a.N, My: a.My, Mz: a.Mz}, at) + a.Other
		table, _ := written(t, &book, derive.Draft{Of: formula.Q("σ", a.Value, formula.Pascal, ""), By: derive.Bending, At: at, Rows: []derive.Action{a}})
		for _, c := range table.Columns {
			symbols = append(symbols, c.Symbol)
		}
		return symbols
	}
	pull := func(y float64) func(*derive.Action) {
		return func(a *derive.Action) {
			a.Tendons = &derive.Tendons{Count: 1, Force: 1e6, Cos: 1, At: section.Point{Y: y, Z: 0.5}}
			a.N, a.My, a.Mz = -1e6, 1e6*(0.5-box.Centroid.Z), 1e6*(y-box.Centroid.Y)
		}
	}
	require.Equal(t, []string{"N", "M_y"}, symbols(func(*derive.Action) {}))
	require.Equal(t, []string{"N", "M_y"}, symbols(func(a *derive.Action) { a.Mz = 1 }), "1 N·m is noise")
	require.Equal(t, []string{"N", "M_y", "M_z"}, symbols(func(a *derive.Action) { a.Mz = 1e6 }))
	require.Equal(t, []string{"N", "M_y", "σ_0"}, symbols(func(a *derive.Action) { a.Other = 1e5 }))
	require.Equal(t, []string{"n", "P", "cos", "z", "N", "M_y"}, symbols(pull(box.Centroid.Y)))
	require.Equal(t, []string{"n", "P", "cos", "y", "z", "N", "M_y", "M_z"}, symbols(pull(1.9)))
}

// Printed section states give the stress of the exact ones: six digits of 40 MPa
// are 0.2 units of 0.001 MPa for the area and as much for each second moment: at
// most one unit if parts of N, My and Mz do not exceed 40 MPa together.
func TestPrintedSectionsKeepTheStress(t *testing.T) {
	r := rand.New(rand.NewPCG(35, 36))
	for range 5000 {
		p := someSection(r)
		at := section.Point{Y: r.Float64() - 0.5, Z: 2 * p.Centroid.Z * r.Float64()}
		f := section.Forces{N: 1e6 * r.NormFloat64(), My: 1e6 * r.NormFloat64(), Mz: 1e5 * r.NormFloat64()}
		free := 1 - p.ProductMoment*p.ProductMoment/(p.SecondMomentY*p.SecondMomentZ)
		bending := (math.Abs(f.My)/p.SecondMomentY + math.Abs(f.Mz)/p.SecondMomentZ) * p.Centroid.Z / free
		f = f.Times(40e6 / (math.Abs(f.N)/p.Area + bending))
		s := derive.NewSection(1, 0, "", p)
		require.InDelta(t, p.Stress(f, at), s.Stress(f.N, f.My, f.Mz, at), 1000)
		p.ProductMoment = 1e-12 * p.SecondMomentY
		require.Zero(t, derive.NewSection(1, 0, "", p).Iyz, "rounding noise of the sums")
	}
}

// A sheet in US customary units converts the printed SI numbers; its own last
// digit is the finer one, so that nothing of the SI digits is lost.
func TestOtherUnitsKeepTheDigits(t *testing.T) {
	const kip, ksi, foot = 4448.2216152605, 6.894757293168361e6, 0.3048
	for _, c := range []struct {
		last   int
		factor float64
	}{{2, 1 / kip}, {3, 1 / kip}, {3, 1 / ksi}, {-4, 1 / foot}, {3, 1 / (kip * foot)}} {
		one := math.Pow10(c.last) * c.factor
		finer := math.Pow10(-derive.Decimals(c.last, c.factor))
		require.LessOrEqual(t, finer, one)
		require.Greater(t, finer, one/10)
	}
}

// A reader of a sheet in kip, ft and ksi, who has only its digits and the section
// state in SI: each number was rounded twice. With the decimals that show the SI
// digit the stress of a row is several units of 0.001 MPa off, with one more
// decimal it is as good as in SI: two units before rounding.
func TestReaderOfUSUnits(t *testing.T) {
	const kip, foot = 4448.2216152605, 0.3048
	const ksi = 6.894757293168361e6
	us := map[formula.Unit]float64{formula.Newton: 1 / kip, formula.NewtonMetre: 1 / (kip * foot), formula.Pascal: 1 / ksi, formula.Metre: 1 / foot, formula.One: 1}
	r := rand.New(rand.NewPCG(37, 38))
	var worst [2]float64 // by further decimals
	for i := range 2000 {
		var book derive.Book
		table, lists := written(t, &book, bending(r, &book))
		more := i % 2
		seen := func(value float64, unit formula.Unit, last int) float64 {
			text, err := strconv.ParseFloat(derive.Text(value, last-more, us[unit]), 64)
			require.NoError(t, err)
			return text / us[unit]
		}
		at := section.Point{Y: seen(table.Y, formula.Metre, table.YAt), Z: seen(table.Z, formula.Metre, table.ZAt)}
		for _, row := range table.Rows {
			c := map[string]float64{}
			for j, column := range table.Columns {
				if row.Cells[j].Filled {
					c[column.Symbol] = seen(row.Cells[j].Value, column.Unit, column.Last)
				}
			}
			sigma := lists.Sections[row.On-1].Stress(c["N"], c["M_y"], c["M_z"], at) + c["σ_0"]
			off := math.Abs(sigma-seen(row.Value, formula.Pascal, table.Value.Last)) / math.Pow10(table.Value.Last)
			worst[more] = math.Max(worst[more], off)
		}
	}
	require.Greater(t, worst[0], 3.0)
	require.Less(t, worst[1], 2.0)
}
