package rigging_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"regexp"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/rigging"
	"github.com/tempstage/tempstage/section/formula"
)

var (
	symbolPattern = regexp.MustCompile(`^\p{L}[\p{L}\p{N}_]*$`)
	names         = regexp.MustCompile(`\p{L}[\p{L}\p{N}_]*`)
)

// derived are lines by the symbol of their result. Each recomputes; each symbol has one
// meaning and one value; each operand is in the expression.
func derived(t *testing.T, lines []formula.Line, err error) map[string]formula.Line {
	t.Helper()
	require.NoError(t, err)
	seen, by := map[string]formula.Quantity{}, map[string]formula.Line{}
	for _, l := range lines {
		got, err := l.Recompute()
		require.NoError(t, err)
		require.Equal(t, l.Result.Value, got, l.Result.Symbol)
		require.NotContains(t, by, l.Result.Symbol)
		require.NotEmpty(t, l.Source.Document, l.Result.Symbol)
		for _, q := range append([]formula.Quantity{l.Result}, l.Operands...) {
			require.Regexp(t, symbolPattern, q.Symbol)
			require.NotEmpty(t, q.Name, q.Symbol)
			require.NotEmpty(t, q.Unit, q.Symbol)
			if before, ok := seen[q.Symbol]; ok {
				require.Equal(t, before, q, "in the line of %s", l.Result.Symbol)
			}
			seen[q.Symbol] = q
		}
		for _, q := range l.Operands {
			require.Contains(t, names.FindAllString(l.Expression, -1), q.Symbol, l.Expression)
		}
		by[l.Result.Symbol] = l
	}
	return by
}

// gives says that lines give values, to roundings of a few terms.
func gives(t *testing.T, by map[string]formula.Line, want map[string]float64) {
	t.Helper()
	for symbol, value := range want {
		require.Contains(t, by, symbol)
		require.InDelta(t, value, by[symbol].Result.Value, 1e-12*math.Abs(value), symbol)
	}
}

func shareOf(want map[string]float64, behind string, s rigging.Share) {
	want["p"+behind], want["R"+behind] = s.Part, s.Nominal
	want["R"+behind+"_min"], want["R"+behind+"_max"] = s.Static.Least, s.Static.Most
	want["F"+behind+"_min"], want["F"+behind+"_max"] = s.Characteristic.Least, s.Characteristic.Most
}

func TestTandemLines(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	in := func(a, b float64) float64 { return a + (b-a)*r.Float64() }
	for range 100 {
		first := in(-5, 5)
		c := rigging.Tandem{Weight: in(1e5, 2e6), Tolerance: loads.PlusMinus(in(0, 0.1)), Dynamic: loads.Dynamic{Least: in(0.8, 1), Most: in(1, 1.3)}, First: first, Second: first + 30, CoG: first + in(5, 25),
			CoGTolerance: in(0, 0.5), Height: in(-2, 4), EndLevel: in(0, 2), Plumb: in(0, 0.05)}
		s, err := c.Solve()
		require.NoError(t, err)
		lines, err := c.Lines()
		want := map[string]float64{"H_1": s.First.Side, "H_2": s.Second.Side}
		shareOf(want, "_1", s.First)
		shareOf(want, "_2", s.Second)
		gives(t, derived(t, lines, err), want)
	}
}

func TestPickLines(t *testing.T) {
	p := rigging.Pick{Chart: chart(), Radius: 9, Load: rigging.Range{Least: 60 * tonne, Most: 62 * tonne}, Dynamic: 1.1, Rigging: 3 * tonne, HookBlock: 1 * tonne, Part: 0.75}
	for _, hoisting := range []bool{false, true} {
		for _, interpolate := range []bool{false, true} {
			for _, radius := range []float64{8, 9, 10, 15.3} {
				p.Chart.Hoisting, p.Chart.Interpolate, p.Radius = hoisting, interpolate, radius
				u, err := p.Solve()
				require.NoError(t, err)
				lines, err := p.Lines()
				by := derived(t, lines, err)
				gives(t, by, map[string]float64{"C": u.Capacity.Load, "C_p": u.Permissible, "F_g": u.Gross, "u": u.Utilisation, "r": radius})
				if !interpolate {
					gives(t, by, map[string]float64{"r_C": u.Capacity.Radius})
				}
				require.Equal(t, p.Chart.Source, by["C"].Source)
				require.Regexp(t, "^the chart (contains|does not contain) the dynamic factor", by["F_g"].Note)
			}
		}
	}
	for _, mass := range []float64{20e3, 85e3} {
		v, err := chart().WindLimit(mass, 60)
		require.NoError(t, err)
		lines, err := chart().WindLines(mass, 60)
		gives(t, derived(t, lines, err), map[string]float64{"v": v})
	}
	_, err := chart().WindLines(0, 60)
	require.ErrorIs(t, err, rigging.ErrRigging)
}

func TestSpreaderAndMatLines(t *testing.T) {
	for _, cog := range []float64{-2, 0, 0.6} {
		s := rigging.Spreader{Length: 12, Height: 7, Weight: 30e3, Load: 600e3, CoG: cog, Eccentricity: -0.15}
		r, err := s.Solve()
		require.NoError(t, err)
		lines, err := s.Lines()
		gives(t, derived(t, lines, err), map[string]float64{"F_1": r.Lower[0], "F_2": r.Lower[1], "S_1": r.Upper[0], "S_2": r.Upper[1], "β_1": r.Angle[0], "β_2": r.Angle[1],
			"x_H": r.Hook, "N_s": r.Compression, "M_s": r.Moment, "F_H": r.Above})
	}
	for _, bending := range []float64{1e6, 20e3} {
		m := rigging.Mat{Length: 3, Width: 1, Weight: 10e3, Force: 300e3, Foot: 0.6, Bending: bending, Ground: 150e3, Edge: 2, EdgeNeeded: 3}
		r, err := m.Solve()
		require.NoError(t, err)
		lines, err := m.Lines()
		by := derived(t, lines, err)
		gives(t, by, map[string]float64{"l_ef": r.Effective, "p_g": r.Pressure, "u_g": r.Utilisation})
		require.Equal(t, "less than is needed", by["d_edge"].Note)
	}
}

func TestOutriggerLines(t *testing.T) {
	o := rigging.Outriggers{Along: 8, Across: 7, Ahead: -0.5, Carrier: 300e3, CarrierAt: 0.8, Upper: 500e3, UpperRadius: -1.2, Load: 450e3}
	lifted := [4]int{}
	for _, radius := range []float64{4, 11} {
		o.Radius = radius
		for i := range 60 {
			slew := 2 * math.Pi * (float64(i) + 0.5) / 60
			r, err := o.At(slew)
			require.NoError(t, err)
			lines, err := o.Lines(slew)
			by := derived(t, lines, err)
			for n, force := range r.Forces {
				symbol := fmt.Sprint("R_", n+1)
				require.InDelta(t, force, by[symbol].Result.Value, 1e-12*1250e3)
				if by[symbol].Expression == "" {
					lifted[n]++
				}
			}
		}
	}
	for _, n := range lifted {
		require.Positive(t, n, "each lifts once")
	}
	_, err := o.Lines(math.NaN())
	require.ErrorIs(t, err, rigging.ErrRigging)
}

// The shares of two cranes, to be followed by hand.
func ExampleTandem_Lines() {
	lines, err := rigging.Tandem{Weight: 1.1e6, Tolerance: loads.PlusMinus(0.03), Dynamic: loads.Dynamic{Least: 0.9, Most: 1.1}, First: 2, Second: 32, CoG: 17.3, CoGTolerance: 0.2}.Lines()
	for _, l := range lines[:6] {
		fmt.Printf("%s = %s = %.5g %s\n", l.Result.Symbol, l.Expression, l.Result.Value, l.Result.Unit)
	}
	fmt.Println(err)
	// Output:
	// l_12 = x_2 - x_1 = 30 m
	// Δx = abs(h_l)*Δh/l_12 + t_G = 0.2 m
	// p_2 = (x_G - x_1)/l_12 = 0.51 1
	// p_1 = 1 - p_2 = 0.49 1
	// p_1_min = p_1 - Δx/l_12 = 0.48333 1
	// p_1_max = p_1 + Δx/l_12 = 0.49667 1
	// <nil>
}
