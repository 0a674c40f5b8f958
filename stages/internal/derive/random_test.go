package derive_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/formula"
	"github.com/tempstage/tempstage/stages/internal/derive"
)

// between is a random number with an even logarithm.
func between(r *rand.Rand, low, high float64) float64 {
	return low * math.Pow(high/low, r.Float64())
}

// someSection is a section of section modulus 0.05 to 30 m³, half of them askew.
func someSection(r *rand.Rand) section.Properties {
	w := between(r, 0.05, 30)
	depth := math.Cbrt(w) * (1.1 + 0.8*r.Float64())
	p := section.Properties{
		Area: w / (depth * (0.25 + 0.1*r.Float64())), SecondMomentY: w * depth * (0.4 + 0.2*r.Float64()),
		Centroid: section.Point{Y: 0.3 * (r.Float64() - 0.5), Z: depth * (0.4 + 0.2*r.Float64())},
	}
	p.SecondMomentZ = p.SecondMomentY * between(r, 0.1, 10)
	if r.IntN(2) == 0 {
		p.ProductMoment = 1.6 * (r.Float64() - 0.5) * math.Sqrt(p.SecondMomentY*p.SecondMomentZ)
	}
	return p
}

// bending is a random draft of weight, tendons and their losses on two states of
// one section, as a net and a transformed one, with stresses up to some 40 MPa.
func bending(r *rand.Rand, book *derive.Book) derive.Draft {
	net := someSection(r)
	grouted := net
	grouted.Area *= 1.013
	grouted.Centroid.Z -= 0.0123
	grouted.SecondMomentY *= 1.021
	states := []section.Properties{net, grouted}
	numbers := []int{book.Section(12.34, "net", net), book.Section(12.34, "grouted", grouted)}
	height := 2 * net.Centroid.Z
	d := derive.Draft{
		Of: formula.Q("σ_c", 0, formula.Pascal, "concrete stress"), By: derive.Bending,
		At: section.Point{Y: math.Round(1e3*(r.Float64()-0.5)) / 1e3, Z: height * float64(r.IntN(2))},
	}
	w := net.SecondMomentY / net.Centroid.Z
	for i := range 2 + r.IntN(12) {
		k := r.IntN(2)
		p := states[k]
		a := derive.Action{Label: fmt.Sprint("action ", i), On: numbers[k], Factors: factors(r)}
		var f section.Forces
		if r.IntN(2) == 0 {
			f.My = between(r, 10, math.Min(50e6*height, 20e6*w)) * sign(r)
			if r.IntN(3) == 0 {
				f.Mz = 0.1 * f.My * sign(r)
			}
		} else {
			t := derive.Tendons{Count: 1 + r.IntN(4), Force: between(r, 10, math.Min(50e6, 5e6*p.Area)) * sign(r)}
			rise, aside := 0.2*(r.Float64()-0.5), 0.1*(r.Float64()-0.5)
			t.CosZ, t.CosY, t.Cos = rise, aside, math.Sqrt(1-rise*rise-aside*aside)
			t.At = section.Point{Y: 2 * (r.Float64() - 0.5), Z: height * (0.05 + 0.9*r.Float64())}
			along := float64(t.Count) * t.Force * t.Cos
			f.N, f.My, f.Mz = -along, along*(t.At.Z-p.Centroid.Z), along*(t.At.Y-p.Centroid.Y)
			a.Tendons = &t
		}
		if extreme := math.Abs(p.Stress(f, d.At)); extreme > 40e6 { // crushed long before
			f = f.Times(40e6 / extreme)
			if a.Tendons != nil {
				a.Tendons.Force *= 40e6 / extreme
			}
		}
		a.N, a.My, a.Mz = f.N, f.My, f.Mz
		if r.IntN(8) == 0 {
			a.Other = 3e6 * (r.Float64() - 0.5)
		}
		a.Value = p.Stress(f, d.At) + a.Other
		d.Rows = append(d.Rows, a)
		d.Of.Value += product(a)
	}
	return d
}

func product(a derive.Action) float64 {
	p := a.Value
	for _, f := range a.Factors {
		p *= f.Value
	}
	return p
}

func sign(r *rand.Rand) float64 { return float64(2*r.IntN(2) - 1) }

// factors are stated ones, or the share of an anchorage zone with all its digits.
func factors(r *rand.Rand) []derive.Factor {
	all := []derive.Factor{{Symbol: "γ_w", Value: 1.03}, {Symbol: "δ", Value: 1.35}, {Symbol: "r", Value: 0.9}, {Symbol: "ζ", Value: r.Float64()}, {Symbol: "k", Value: -2}}
	r.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
	return all[:r.IntN(3)]
}

// reader reads a printed table as somebody with a calculator does, in kN, m, MPa.
type reader struct {
	t     testing.TB
	table derive.Table
}

// factorOf is how many printed units are in one SI unit.
var factorOf = map[formula.Unit]float64{formula.Newton: 1e-3, formula.NewtonMetre: 1e-3, formula.Pascal: 1e-6, formula.Metre: 1, formula.One: 1}

func (r reader) read(value float64, unit formula.Unit, last int) float64 {
	text := derive.Text(value, last, factorOf[unit])
	number, err := strconv.ParseFloat(text, 64)
	require.NoError(r.t, err)
	return number
}

func (r reader) cells(row derive.Row) map[string]float64 {
	cells := map[string]float64{}
	for i, c := range r.table.Columns {
		if row.Cells[i].Filled {
			cells[c.Symbol] = r.read(row.Cells[i].Value, c.Unit, c.Last)
		}
	}
	return cells
}

// agrees: rounded to the printed digit, one unit apart at most. 1.5 units before
// rounding are that, 1e-5 is the rounding of float64 in a number of 12 digits.
func (r reader) agrees(want, printed float64, last int, unit formula.Unit, what string) {
	one := math.Pow10(last) * factorOf[unit]
	require.LessOrEqual(r.t, math.Abs(want-printed)/one, 1.5+1e-5, "%s: %g and %g", what, want, printed)
}

// recompute checks a table with formulas of its own.
func (r reader) recompute(states derive.States) {
	of := r.table.Value
	sum := 0.0
	at := section.Point{Y: r.read(r.table.Y, formula.Metre, r.table.YAt), Z: r.read(r.table.Z, formula.Metre, r.table.ZAt)}
	last := map[string]int{}
	unit := map[string]formula.Unit{}
	for _, c := range r.table.Columns {
		last[c.Symbol], unit[c.Symbol] = c.Last, c.Unit
	}
	for _, row := range r.table.Rows {
		c := r.cells(row)
		check := func(symbol string, want float64) {
			if printed, ok := c[symbol]; ok {
				r.agrees(want, printed, last[symbol], unit[symbol], row.Label+" "+symbol)
			}
		}
		s := states.Sections[row.On-1]
		if p, ok := c["P"]; ok {
			along := c["n"] * p * c["cos"]
			check("N", -along)
			check("M_y", along*(c["z"]-s.Z))
			check("M_z", along*(c["y"]-s.Y))
		}
		plane := section.Properties{Area: s.A, Centroid: section.Point{Y: s.Y, Z: s.Z}, SecondMomentY: s.Iy, SecondMomentZ: s.Iz, ProductMoment: s.Iyz}
		sigma := plane.Stress(section.Forces{N: c["N"], My: c["M_y"], Mz: c["M_z"]}, at)/1e3 + c["σ_0"]
		printed := r.read(row.Value, of.Unit, of.Last)
		r.agrees(sigma, printed, of.Last, of.Unit, row.Label+" σ")
		for _, f := range row.Factors {
			printed *= f.Value
		}
		product := r.read(row.Product, of.Unit, r.table.SumAt)
		r.agrees(printed, product, r.table.SumAt, of.Unit, row.Label+" product")
		sum += product
	}
	require.InDelta(r.t, r.read(r.table.Sum.Value, of.Unit, r.table.SumAt), sum, 1e-9, "printed products add up to the printed sum")
}

// Tables of any size of section and force recompute from what is printed, by
// formulas of the test's own, and most of them in the coarsest digits.
func TestRandomTablesRecompute(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 11))
	coarse, large, whole := 0, 0, 0
	const tables = 4000
	for range tables {
		var book derive.Book
		d := bending(r, &book)
		number, err := book.Table(d)
		require.NoError(t, err)
		lists := book.Lists()
		table := lists.Tables[number-1]
		require.NoError(t, lists.Check())
		reader{t, table}.recompute(lists.States)
		require.InDelta(t, d.Of.Value, table.Sum.Value, 500.001, "sum from full precision")
		if table.Value.Last == 3 {
			coarse++
		}
		s := lists.Sections[0]
		if w := s.Iy / math.Max(math.Abs(d.At.Z-s.Z), s.Z); w > 1 && s.Iyz == 0 {
			large++
			if last(table, "M_y") == 3 {
				whole++
			}
		}
	}
	require.Greater(t, coarse, tables*98/100, "values to 0.001 MPa; 99 of 100 measured")
	require.Greater(t, whole, large*9/10, "whole kN·m from W = 1 m³ up")
}

// last is the last digit of a column; 99 where the table has none.
func last(table derive.Table, symbol string) int {
	for _, c := range table.Columns {
		if c.Symbol == symbol {
			return c.Last
		}
	}
	return 99
}

// A point of a web has the shear stress of the forces at its cut.
func TestRandomShearTablesRecompute(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 5))
	for range 2000 {
		var book derive.Book
		vy, vz, tt := between(r, 0.01, 20)*sign(r), between(r, 0.1, 20), between(r, 0.01, 20)*sign(r)
		d := derive.Draft{Of: formula.Q("τ", 0, formula.Pascal, "shear stress"), By: derive.Shearing}
		on := book.Flow(4.2, derive.Wall{Name: "left web"}, vy, vz, tt)
		scale := 4e6 / (math.Abs(vy) + vz + math.Abs(tt))
		for i := range 1 + r.IntN(9) {
			a := derive.Action{Label: fmt.Sprint("action ", i), On: on, Factors: factors(r),
				Vy: 0.1 * scale * r.NormFloat64(), Vz: scale * r.NormFloat64(), T: 0.3 * scale * r.NormFloat64()}
			if i%2 == 1 {
				rise, aside := 0.2*(r.Float64()-0.5), 0.05*(r.Float64()-0.5)
				a.Tendons = &derive.Tendons{Count: 2, Force: between(r, 1e3, 5e6), CosY: aside, CosZ: rise}
				a.Vy, a.Vz = 2*a.Tendons.Force*aside, 2*a.Tendons.Force*rise
			}
			a.Value = a.Vy*vy + a.Vz*vz + a.T*tt
			d.Rows = append(d.Rows, a)
			d.Of.Value += product(a)
		}
		if number, err := book.Table(d); err == nil {
			lists := book.Lists()
			require.NoError(t, lists.Check())
			reader{t, lists.Tables[number-1]}.shears(lists.States)
		} else {
			t.Fatal(err)
		}
	}
}

// shears checks a table of shear stresses with formulas of the test's own.
func (r reader) shears(states derive.States) {
	v := r.table.Value
	for _, row := range r.table.Rows {
		c, f := r.cells(row), states.Flows[row.On-1]
		if p, ok := c["P"]; ok {
			for _, to := range [][2]string{{"V_y", "cos_y"}, {"V_z", "cos_z"}} {
				if printed, ok := c[to[0]]; ok {
					r.agrees(c["n"]*p*c[to[1]], printed, last(r.table, to[0]), formula.Newton, row.Label)
				}
			}
		}
		r.agrees((c["V_y"]*f.Vy+c["V_z"]*f.Vz+c["T"]*f.T)/1e3, r.read(row.Value, v.Unit, v.Last), v.Last, v.Unit, row.Label)
	}
}
