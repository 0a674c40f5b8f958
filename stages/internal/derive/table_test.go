package derive_test

import (
	"encoding/json"
	"fmt"
	"math"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// box is a net section without symmetry: W = 2.8 m³ at the soffit.
var box = section.Properties{
	Area: 5.1234567, Centroid: section.Point{Y: 0.0123456, Z: 1.4386123}, SecondMomentY: 4.0123456, SecondMomentZ: 23.456789, ProductMoment: 0.234567,
}

// lift is weight on lift points and a pair of tendons, at the soffit.
func lift(book *derive.Book) derive.Draft {
	on := book.Section(17, "net", box)
	at := section.Point{Y: 2.2, Z: 0}
	d := derive.Draft{Of: formula.Q("σ_c", 0, formula.Pascal, "concrete stress"), By: derive.Bending, At: at}
	weight := derive.Action{Label: "weight, on lift points", On: on, My: 6776123.4, Factors: []derive.Factor{{"γ_w", 1.03, "weight factor"}, {"δ", 1.1, "dynamic factor"}}}
	weight.Value = box.Stress(section.Forces{My: weight.My}, at)
	d.Rows = append(d.Rows, weight)
	for _, side := range []float64{1.9, -1.9} {
		tendon := derive.Tendons{Count: 1, Force: 2296651.3, Cos: 0.998043, CosZ: 0.0625, At: section.Point{Y: side, Z: 0.54874}}
		along := tendon.Force * tendon.Cos
		f := section.Forces{N: -along, My: along * (tendon.At.Z - box.Centroid.Z), Mz: along * (side - box.Centroid.Y)}
		d.Rows = append(d.Rows, derive.Action{
			Label: map[bool]string{true: "W2 L", false: "W2 R"}[side > 0], On: on, Tendons: &tendon,
			N: f.N, My: f.My, Mz: f.Mz, Value: box.Stress(f, at), Factors: []derive.Factor{{"r", 0.9, "factor on the prestress"}},
		})
	}
	for _, a := range d.Rows {
		d.Of.Value += product(a)
	}
	return d
}

func label(a, b string) string { return a + "+" + b[len(b)-1:] }

// The table of a lift as it is printed, a pair of tendons in one row.
func TestTable(t *testing.T) {
	var book derive.Book
	d := lift(&book)
	before := *d.Rows[1].Tendons
	d.Rows = derive.Bundle(d.Rows, label)
	require.Len(t, d.Rows, 2)
	n, err := book.Table(d)
	require.NoError(t, err)
	lists := book.Lists()
	require.NoError(t, lists.Check())
	table := lists.Tables[n-1]
	reader{t, table}.recompute(lists.States)
	require.Equal(t, 1, table.Number)
	require.Equal(t, "W2 L+R", table.Rows[1].Label)

	printed := fmt.Sprintf("%s %s", table.Value.Symbol, derive.Text(table.Sum.Value, table.SumAt, 1e-6))
	for _, row := range table.Rows {
		printed += "\n" + row.Label + ":"
		for i, c := range table.Columns {
			if row.Cells[i].Filled {
				printed += fmt.Sprintf(" %s %s", c.Symbol, derive.Text(row.Cells[i].Value, c.Last, factorOf[c.Unit]))
			}
		}
		printed += fmt.Sprintf(" = %s, %s", derive.Text(row.Value, table.Value.Last, 1e-6), derive.Text(row.Product, table.SumAt, 1e-6))
	}
	// By hand: 2·2296.7·0.99804 = 4584.4; 4584.4·(0.5487 − 1.438612) = −4079.7;
	// lateral lever of the pair: 4584.4·(0 − 0.012346) = −56.6; weight:
	// (6776·23.4568·1.438612 + 6776·0.234567·2.187654)/(4.01235·23.4568 − 0.234567²) = 2467.9 kPa.
	require.Equal(t, `σ_c 0.659
weight, on lift points: N 0 M_y 6776 M_z 0 = 2.468, 2.796
W2 L+R: n 2 P 2296.7 cos 0.99804 y 0.0000 z 0.5487 N -4584 M_y -4079 M_z -57 = -2.375, -2.137`, printed)
	require.Equal(t, before, *lift(new(derive.Book)).Rows[1].Tendons, "Bundle leaves what it was given")
}

// Two rows or one of two: the same sum.
func TestBundleKeepsTheSum(t *testing.T) {
	var book derive.Book
	d := lift(&book)
	bundled := d
	bundled.Rows = derive.Bundle(d.Rows, label)
	sum := func(d derive.Draft) (s derive.Action) {
		for _, a := range d.Rows {
			s.N, s.My, s.Mz, s.Vz, s.Value = s.N+a.N, s.My+a.My, s.Mz+a.Mz, s.Vz+a.Vz, s.Value+a.Value
		}
		return s
	}
	a, b := sum(d), sum(bundled)
	require.InEpsilon(t, a.My, b.My, 1e-14)
	require.InEpsilon(t, a.Mz, b.Mz, 1e-9, "levers of ± 1.9 m cancel")
	require.InEpsilon(t, a.Value, b.Value, 1e-14)
	for name, change := range map[string]func(*derive.Action){
		"force":  func(a *derive.Action) { a.Tendons.Force *= 1.000001 },
		"level":  func(a *derive.Action) { a.Tendons.At.Z += 1e-6 },
		"slope":  func(a *derive.Action) { a.Tendons.CosZ = -a.Tendons.CosZ },
		"cosine": func(a *derive.Action) { a.Tendons.Cos -= 1e-6 },
		"factor": func(a *derive.Action) { a.Factors = nil },
		"state":  func(a *derive.Action) { a.On++ },
		"none":   func(a *derive.Action) { a.Tendons = nil },
	} {
		d := lift(new(derive.Book))
		change(&d.Rows[2])
		require.Len(t, derive.Bundle(d.Rows, label), 3, name)
	}
	three := derive.Bundle(append(lift(new(derive.Book)).Rows, lift(new(derive.Book)).Rows[1]), label)
	require.Equal(t, 3, three[1].Tendons.Count)
	require.InDelta(t, 1.9/3, three[1].Tendons.At.Y, 1e-15, "the mean of all three")
}

// Every number of a table is held: two units more turn Check red.
func TestCheckFindsEachChangedNumber(t *testing.T) {
	var book derive.Book
	_, err := book.Table(lift(&book))
	require.NoError(t, err)
	lists := book.Lists()
	copied := func() derive.Table {
		var table derive.Table
		text, err := json.Marshal(lists.Tables[0])
		require.NoError(t, err)
		require.NoError(t, json.Unmarshal(text, &table))
		require.Empty(t, cmp.Diff(lists.Tables[0], table))
		return table
	}
	found := 0
	for i, row := range lists.Tables[0].Rows {
		for j, c := range lists.Tables[0].Columns {
			if !row.Cells[j].Filled {
				continue
			}
			table := copied()
			size := map[string]float64{"n": 1, "cos": 50, "y": 30, "z": 30, "P": 30}[c.Symbol]
			if size == 0 {
				size = 30
			}
			cell := &table.Rows[i].Cells[j]
			cell.Value = derive.Round(cell.Value+size*math.Pow10(c.Last), c.Last)
			err := derive.Check(table, lists.States)
			require.ErrorIs(t, err, derive.ErrDerive, "%s of %s", c.Symbol, row.Label)
			require.ErrorContains(t, err, "must agree")
			found++
		}
		for _, change := range []func(*derive.Row){
			func(r *derive.Row) { r.Value += 3000 }, func(r *derive.Row) { r.Product += 3000 }, func(r *derive.Row) { r.Factors[0].Value *= 1.01 },
			func(r *derive.Row) { r.On = 2 }, func(r *derive.Row) { r.Cells = r.Cells[1:] }, func(r *derive.Row) { r.Product += 1 },
			func(r *derive.Row) { r.Cells[5].Value += 0.5 },
		} {
			table := copied()
			change(&table.Rows[i])
			require.ErrorIs(t, derive.Check(table, lists.States), derive.ErrDerive)
		}
	}
	require.Equal(t, 3+2*8, found)
	table := copied()
	table.Sum.Value += 2000
	require.ErrorContains(t, derive.Check(table, lists.States), "add up to")
	table = copied()
	table.Z += 0.003
	require.ErrorContains(t, derive.Check(table, lists.States), "σ_c is")
	require.ErrorContains(t, derive.Check(copied(), derive.States{}), "section state 1: must be 1 to 0")
	table = copied()
	table.By = "guess"
	require.ErrorContains(t, derive.Check(table, lists.States), `relation "guess"`)
	table.By = derive.Shearing
	require.ErrorContains(t, derive.Check(table, lists.States), "cut 1: must be 1 to 0")
}

// Each state's number turns some row red as well.
func TestCheckFindsEachChangedProperty(t *testing.T) {
	var book derive.Book
	_, err := book.Table(lift(&book))
	require.NoError(t, err)
	lists := book.Lists()
	for name, change := range map[string]func(*derive.Section){
		"A": func(s *derive.Section) { s.A *= 1.01 }, "Iy": func(s *derive.Section) { s.Iy *= 1.01 }, "Iz": func(s *derive.Section) { s.Iz *= 1.01 },
		"Iyz": func(s *derive.Section) { s.Iyz = -s.Iyz }, "z": func(s *derive.Section) { s.Z += 0.002 }, "y": func(s *derive.Section) { s.Y += 0.002 },
	} {
		s := lists.Sections[0]
		change(&s)
		require.ErrorIs(t, derive.Check(lists.Tables[0], derive.States{Sections: []derive.Section{s}}), derive.ErrDerive, name)
	}
}

// A sum of reactions has values only. The third digit is half a unit in each row:
// the products are rounded so that they add up, the first of equals upwards.
func TestGivenValuesAddUpAsPrinted(t *testing.T) {
	d := derive.Draft{Of: formula.Q("R", 0, formula.Newton, "reaction")}
	for i := range 4 {
		d.Rows = append(d.Rows, derive.Action{Label: fmt.Sprint(i), Value: 100040, Factors: []derive.Factor{{Symbol: "γ", Value: 1}}})
		d.Of.Value += 100040
	}
	table, err := d.Table(derive.States{})
	require.NoError(t, err)
	require.NoError(t, derive.Check(table, derive.States{}))
	require.Equal(t, 400200.0, table.Sum.Value)
	require.Equal(t, []float64{100100, 100100, 100000, 100000},
		[]float64{table.Rows[0].Product, table.Rows[1].Product, table.Rows[2].Product, table.Rows[3].Product})
	require.Empty(t, table.Columns)
	text, err := json.Marshal(table)
	require.NoError(t, err)
	require.Equal(t, `{"n":0,"value":["R","N",2],"rows":[`+
		`{"l":"0","v":1000,"f":[["γ",1]],"p":1001},{"l":"1","v":1000,"f":[["γ",1]],"p":1001},`+
		`{"l":"2","v":1000,"f":[["γ",1]],"p":1000},{"l":"3","v":1000,"f":[["γ",1]],"p":1000}],`+
		`"sum":{"s":"R","n":"reaction","v":400200,"u":"N"},"d":2}`, string(text))
}

// A factor above 2 makes half a unit of the value more than a unit of the product:
// the value gets a further digit, and so do the forces under it.
func TestLargeFactorsNeedMoreDigits(t *testing.T) {
	at := section.Point{Y: 2.2}
	worst := 3
	for i := range 50 {
		var book derive.Book
		a := derive.Action{Label: "tie lost", On: book.Section(1, "net", box), My: 1e6 + 1234.5*float64(i), Factors: []derive.Factor{{"k", -3.7, "sudden loss"}}}
		a.Value = box.Stress(section.Forces{My: a.My}, at)
		n, err := book.Table(derive.Draft{Of: formula.Q("σ_c", product(a), formula.Pascal, ""), By: derive.Bending, At: at, Rows: []derive.Action{a}})
		require.NoError(t, err)
		require.NoError(t, book.Lists().Check())
		worst = min(worst, book.Lists().Tables[n-1].Value.Last)
	}
	require.Equal(t, 2, worst)
}

func TestDraftRefuses(t *testing.T) {
	for name, change := range map[string]func(*derive.Draft){
		"without rows":                        func(d *derive.Draft) { d.Rows = nil },
		"not finite":                          func(d *derive.Draft) { d.Rows[0].My = math.NaN() },
		"has a number":                        func(d *derive.Draft) { d.At.Z = math.Inf(1) },
		"0 tendons":                           func(d *derive.Draft) { d.Rows[1].Tendons.Count = 0 },
		"by the engine: must agree":           func(d *derive.Draft) { d.Of.Value += 150 },
		"must be 1 to 1":                      func(d *derive.Draft) { d.Rows[0].On = 2 },
		"σ_c is":                              func(d *derive.Draft) { d.Rows[0].My *= -1 },
		"M_y is":                              func(d *derive.Draft) { d.Rows[1].Tendons.At.Z += 0.01 },
		"M_z is":                              func(d *derive.Draft) { d.Rows[1].Tendons.At.Y += 0.01 },
		"N is":                                func(d *derive.Draft) { d.Rows[1].Tendons.Cos = 1 },
		`relation "x": must be`:               func(d *derive.Draft) { d.By = "x" },
		"in full precision as well":           func(d *derive.Draft) { d.Rows[2].Tendons.Force *= 1.001 },
		"row \"W2 R\" of σ_c has a number":    func(d *derive.Draft) { d.Rows[2].Factors = []derive.Factor{{"r", math.Inf(1), ""}} },
		"and NaN by the engine":               func(d *derive.Draft) { d.Of.Value = math.NaN() },
		"row \"weight, on lift points\": σ_c": func(d *derive.Draft) { d.Rows[0].Other = 1e5 },
	} {
		var book derive.Book
		d := lift(&book)
		change(&d)
		n, err := book.Table(d)
		require.ErrorIs(t, err, derive.ErrDerive, name)
		require.ErrorContains(t, err, name)
		require.Zero(t, n)
		require.Empty(t, book.Lists().Tables)
		require.Len(t, book.Lists().Sections, 1, "no finer state is left behind")
	}
}
