package derive_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// sheared is weight and three tendons at the cut of a web.
func sheared(book *derive.Book) derive.Draft {
	on := book.Flow(3, derive.Wall{Name: "left web"}, 0.1, 0.45, -0.2)
	d := derive.Draft{Of: formula.Q("τ", 0, formula.Pascal, "shear stress"), By: derive.Shearing}
	weight := derive.Action{Label: "weight", On: on, Vz: 900e3, Vy: 50e3, T: 300e3, Factors: []derive.Factor{{"γ", 1.35, "on weight"}}}
	d.Rows = append(d.Rows, weight)
	for i, y := range []float64{2, -1, 0.5} {
		tendon := derive.Tendons{Count: 1, Force: 2e6, Cos: 0.99, CosY: []float64{0.03, -0.03, 0.06}[i], CosZ: -0.1, At: section.Point{Y: y, Z: 0.5}}
		a := derive.Action{Label: "W" + string(rune('1'+i)), On: on, Tendons: &tendon, Vy: 2e6 * tendon.CosY, Vz: -2e5, T: 1e4 * float64(i+1)}
		d.Rows = append(d.Rows, a)
	}
	for i := range d.Rows {
		a := &d.Rows[i]
		a.Value = 0.1*a.Vy + 0.45*a.Vz - 0.2*a.T
		d.Of.Value += product(*a)
	}
	return d
}

// The table of a shear stress by hand: V_z = n·P·cos_z, and a pair's V_y by the mean of
// its cosines.
func TestShearTableByHand(t *testing.T) {
	var book derive.Book
	d := sheared(&book)
	d.Rows = derive.Bundle(d.Rows, label)
	require.Len(t, d.Rows, 2, "three tendons in one row")
	together := d.Rows[1]
	require.Equal(t, 3, together.Tendons.Count)
	require.InDelta(t, 0.02, together.Tendons.CosY, 1e-15, "(0.03 − 0.03 + 0.06)/3")
	require.InDelta(t, 0.5, together.Tendons.At.Y, 1e-15, "(2 − 1 + 0.5)/3")
	require.InDelta(t, 120e3, together.Vy, 1e-6)
	require.InDelta(t, -600e3, together.Vz, 1e-6)
	require.InDelta(t, 60e3, together.T, 1e-6)
	n, err := book.Table(d)
	require.NoError(t, err)
	lists := book.Lists()
	require.NoError(t, lists.Check())
	table := lists.Tables[n-1]
	var symbols []string
	for _, c := range table.Columns {
		symbols = append(symbols, c.Symbol)
	}
	require.Equal(t, []string{"n", "P", "cos_y", "cos_z", "V_y", "V_z", "T"}, symbols)
	cells := func(row int) (v []float64) {
		for _, c := range table.Rows[row].Cells {
			v = append(v, c.Value)
		}
		return v
	}
	require.Equal(t, []float64{0, 0, 0, 0, 50e3, 900e3, 300e3}, cells(0))
	require.Equal(t, []float64{3, 2e6, 0.02, -0.1, 120e3, -600e3, 60e3}, cells(1))
	// 0.1·50 + 0.45·900 − 0.2·300 = 350 kPa; ·1.35 = 472.5; 12 − 270 − 12 = −270 kPa
	require.Equal(t, [2]float64{350e3, -270e3}, [2]float64{table.Rows[0].Value, table.Rows[1].Value})
	require.InDelta(t, 472.5e3, table.Rows[0].Product, 501)
	require.InDelta(t, 202.5e3, table.Sum.Value, 501)
	require.Zero(t, table.YAt, "no point in a shear table")
}

// A mean of cosines is one of the forces: bundled or one by one, V_y and τ add up to the
// same, and what differs in force, level or rise is not bundled.
func TestBundleOfShear(t *testing.T) {
	d := sheared(new(derive.Book))
	bundled := derive.Bundle(d.Rows, label)
	var one, many derive.Action
	for _, a := range d.Rows {
		one.Vy, one.Vz, one.T, one.Value = one.Vy+a.Vy, one.Vz+a.Vz, one.T+a.T, one.Value+a.Value
	}
	for _, a := range bundled {
		many.Vy, many.Vz, many.T, many.Value = many.Vy+a.Vy, many.Vz+a.Vz, many.T+a.T, many.Value+a.Value
	}
	require.InDelta(t, one.Vy, many.Vy, 1e-6)
	require.InDelta(t, one.Vz, many.Vz, 1e-6)
	require.InDelta(t, one.T, many.T, 1e-6)
	require.InDelta(t, one.Value, many.Value, 1e-6)
	for name, change := range map[string]func(*derive.Tendons){
		"force": func(s *derive.Tendons) { s.Force *= 1 + 3e-9 }, "level": func(s *derive.Tendons) { s.At.Z += 3e-9 }, "rise": func(s *derive.Tendons) { s.CosZ += 3e-9 },
		"along": func(s *derive.Tendons) { s.Cos += 3e-9 },
	} {
		d := sheared(new(derive.Book))
		change(d.Rows[2].Tendons)
		require.Len(t, derive.Bundle(d.Rows, label), 3, name)
		d = sheared(new(derive.Book))
		d.Rows[2].Tendons.Force *= 1 + 1e-10
		require.Len(t, derive.Bundle(d.Rows, label), 2, "alike to a billionth")
	}
	other := sheared(new(derive.Book)).Rows[1:3]
	other[0].Other, other[1].Other = 3, 4
	require.Equal(t, 7.0, derive.Bundle(other, label)[0].Other)
}

// Every number of a shear table is held by Check.
func TestCheckFindsEachChangedNumberOfShear(t *testing.T) {
	var book derive.Book
	_, err := book.Table(sheared(&book))
	require.NoError(t, err)
	lists := book.Lists()
	table := lists.Tables[0]
	for i := range table.Rows {
		for j, c := range table.Columns {
			cell := &table.Rows[i].Cells[j]
			if !cell.Filled {
				continue
			}
			was := cell.Value
			change := map[string]float64{"n": 1, "P": 1e5, "cos_y": 0.002, "cos_z": 0.002}[c.Symbol]
			if change == 0 {
				change = 40e3
			}
			cell.Value = derive.Round(was+change, c.Last)
			require.ErrorIs(t, derive.Check(table, lists.States), derive.ErrDerive, "%s of row %d", c.Symbol, i)
			cell.Value = was
		}
	}
	require.NoError(t, derive.Check(table, lists.States))
	for _, change := range []func(*derive.Flow){func(f *derive.Flow) { f.Vy += 0.1 }, func(f *derive.Flow) { f.Vz *= 1.02 }, func(f *derive.Flow) { f.T = 0 }} {
		flow := lists.Flows[0]
		change(&flow)
		require.ErrorIs(t, derive.Check(table, derive.States{Flows: []derive.Flow{flow}}), derive.ErrDerive)
	}
}

// A cut and a section state with the same numbers are two things, and a row of one
// relation cannot stand on the other.
func TestStatesOfEachRelation(t *testing.T) {
	var book derive.Book
	d := sheared(&book)
	d.By = derive.Bending
	_, err := book.Table(d)
	require.ErrorContains(t, err, "section state 1: must be 1 to 0")
	b := lift(&book)
	b.By = derive.Shearing
	b.Rows[0].On = 2
	_, err = book.Table(b)
	require.ErrorContains(t, err, "cut 2: must be 1 to 1")
	require.Equal(t, 1, book.Section(17, "net", box), "said once")
	require.Equal(t, 2, book.Section(17, "gross", box), "another name is another state")
	require.Equal(t, 3, book.Section(17.001, "net", box))
	require.Equal(t, 1, book.Section(17.00001, "net", box), "the same to 0.1 mm")
}
