package rigging_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/rigging"
	"github.com/tempstage/tempstage/section/formula"
)

const tonne = 9806.65

func tandem() rigging.Tandem {
	return rigging.Tandem{Weight: 110 * tonne, Tolerance: loads.PlusMinus(0), Dynamic: loads.AtRest(), First: 3, Second: 37, CoG: 20}
}

// The shares of a 34 m pair of hooks: 0.74 % for 0.25 m of the centre of gravity, 1.03 %
// for 5° of level with the lift points 4 m above it.
func TestTandemShares(t *testing.T) {
	r, err := tandem().Solve()
	require.NoError(t, err)
	require.Equal(t, r.First, r.Second)
	require.InEpsilon(t, 55*tonne, r.First.Static.Most, 1e-12)
	c := tandem()
	c.CoGTolerance = 0.25
	r, err = c.Solve()
	require.NoError(t, err)
	require.InDelta(t, 0.5+0.00735, r.First.Static.Most/c.Weight, 1e-5)
	require.InDelta(t, 0.5-0.00735, r.Second.Static.Least/c.Weight, 1e-5)
	c = tandem()
	c.Height, c.EndLevel, c.Plumb = 4, 34*math.Tan(5*math.Pi/180), 0.02
	r, err = c.Solve()
	require.NoError(t, err)
	require.InDelta(t, 0.5+0.01029, r.First.Static.Most/c.Weight, 1e-5)
	require.InEpsilon(t, r.First.Characteristic.Most*math.Tan(0.02), r.First.Side, 1e-12)
	// (107 t × 1.05 + 3 t) × 1.10 with 52.5 % on one hook is 66.6 t.
	c = rigging.Tandem{Weight: (107*1.05 + 3) * tonne, Tolerance: loads.PlusMinus(0), Dynamic: loads.Dynamic{Least: 1, Most: 1.1}, Second: 34, CoG: 0.525 * 34}
	r, err = c.Solve()
	require.NoError(t, err)
	require.InDelta(t, 66.6, r.Second.Characteristic.Most/tonne, 0.05)
	require.InEpsilon(t, 0.525, r.Second.Part, 1e-12)
}

func chart() rigging.Chart {
	return rigging.Chart{Crane: "C-1", Configuration: "main boom 30 m, counterweight 70 t", Source: formula.Source{Document: "invented chart EL-K-12"}, Wind: 9,
		Rows: []rigging.Capacity{{Radius: 8, Load: 120 * tonne}, {Radius: 10, Load: 96 * tonne}, {Radius: 12, Load: 78 * tonne}, {Radius: 16, Load: 55 * tonne}}}
}

// The next larger radius counts, unless the maker permits interpolation; the chart is
// not left.
func TestChart(t *testing.T) {
	c := chart()
	for radius, load := range map[float64]float64{8: 120, 8.01: 96, 10: 96, 11: 78, 12: 78, 15.9: 55, 16: 55} {
		row, err := c.At(radius)
		require.NoError(t, err)
		require.InEpsilon(t, load*tonne, row.Load, 1e-12, "%g", radius)
		require.GreaterOrEqual(t, row.Radius, radius)
	}
	c.Interpolate = true
	row, err := c.At(14)
	require.NoError(t, err)
	require.InEpsilon(t, (78+55)/2*tonne, row.Load, 0.01)
	for want, change := range map[string]func(*rigging.Chart) float64{
		"radius = 16.1 m of C-1: must be within its chart, 8 to 16 m": func(*rigging.Chart) float64 { return 16.1 },
		"radius = 7 m of C-1: must be within its chart":               func(*rigging.Chart) float64 { return 7 },
		"must be larger radii with capacities that do not rise":       func(c *rigging.Chart) float64 { c.Rows[2].Load = 97 * tonne; return 9 },
		"Chart.Rows[0].Load = 120 N: must be":                         func(c *rigging.Chart) float64 { c.Rows[0].Load = 120; return 9 },
		"Chart.Rows of C-1 has 1 radii: must be at least 2":           func(c *rigging.Chart) float64 { c.Rows = c.Rows[:1]; return 8 },
		"Chart.Source of C-1 is empty: must name":                     func(c *rigging.Chart) float64 { c.Source = formula.Source{}; return 8 },
		"radius = NaN m": func(*rigging.Chart) float64 { return math.NaN() },
	} {
		c := chart()
		_, err := func() (rigging.Capacity, error) { r := change(&c); return c.At(r) }()
		require.ErrorIs(t, err, rigging.ErrRigging, want)
		require.ErrorContains(t, err, want)
	}
}

// 66.6 t on one hook asks for a chart of 83.3 t at 80 % and of 88.8 t at 75 %.
func TestPick(t *testing.T) {
	p := rigging.Pick{Chart: chart(), Radius: 9, Load: rigging.Range{Least: 60 * tonne, Most: 62 * tonne}, Dynamic: 1.1, Rigging: 3 * tonne, HookBlock: 1 * tonne, Part: 0.75}
	u, err := p.Solve()
	require.NoError(t, err)
	require.InEpsilon(t, 66*1.1*tonne, u.Gross, 1e-12)
	require.InEpsilon(t, 72*tonne, u.Permissible, 1e-12)
	require.InEpsilon(t, 66*1.1/72, u.Utilisation, 1e-12)
	p.Chart.Hoisting = true
	u, err = p.Solve()
	require.NoError(t, err)
	require.InEpsilon(t, 66./72, u.Utilisation, 1e-12, "the chart contains the factor of hoisting")
	p.HookBlock = 0
	_, err = p.Solve()
	require.ErrorContains(t, err, "Pick.HookBlock of C-1 is missing: must be its weight")
	v, err := chart().WindLimit(85e3, 60)
	require.NoError(t, err)
	require.Equal(t, 9.0, v, "11.73 m/s, capped by the chart")
	v, err = chart().WindLimit(20e3, 60)
	require.NoError(t, err)
	require.InEpsilon(t, 9*math.Sqrt(1.2*20/60), v, 1e-12)
}

// A rigid crane on four supports: the textbook sum while all carry; where one lifts, the
// other three by statics.
func TestOutriggers(t *testing.T) {
	o := rigging.Outriggers{Along: 8, Across: 7, Ahead: -0.5, Carrier: 300e3, CarrierAt: 0.8, Upper: 500e3, UpperRadius: -1.2, Load: 400e3, Radius: 6}
	for _, slew := range []float64{0, 0.7, 1.5, 2.4, math.Pi, 4, -1} {
		r, err := o.At(slew)
		require.NoError(t, err)
		arm := 400e3*6 - 500e3*1.2
		along := 300e3*0.8 - 900e3*0.5 + arm*math.Cos(slew)
		across := arm * math.Sin(slew)
		want := [4]float64{}
		for i, s := range [4][2]float64{{1, 1}, {1, -1}, {-1, -1}, {-1, 1}} {
			want[i] = 1200e3/4 + s[0]*along/(2*8) + s[1]*across/(2*7)
		}
		require.Zero(t, r.Lifts)
		require.InDeltaSlice(t, want[:], r.Forces[:], 1e-3)
	}
	o.Load, o.Radius = 450e3, 11
	r, err := o.Worst(0, 2*math.Pi)
	require.NoError(t, err)
	require.Equal(t, 1, r.Lifts)
	sum, along, across := 0.0, 0.0, 0.0
	for i, s := range [4][2]float64{{4, 3.5}, {4, -3.5}, {-4, -3.5}, {-4, 3.5}} {
		require.GreaterOrEqual(t, r.Forces[i], 0.0)
		sum, along, across = sum+r.Forces[i], along+s[0]*r.Forces[i], across+s[1]*r.Forces[i]
	}
	arm := 450e3*11 - 500e3*1.2
	require.InEpsilon(t, 1250e3, sum, 1e-9)
	require.InDelta(t, 300e3*0.8-950e3*0.5+arm*math.Cos(r.Slew), along, 1)
	require.InDelta(t, arm*math.Sin(r.Slew), across, 1)
	o.Radius = 40
	_, err = o.Worst(0, 1)
	require.ErrorContains(t, err, "the crane tips")
	_, err = o.At(math.NaN())
	require.ErrorContains(t, err, "slew = NaN rad: must be")
}

// A stiff mat spreads over all its length; a weak one over what it can bend for.
func TestMat(t *testing.T) {
	m := rigging.Mat{Length: 3, Width: 1, Weight: 10e3, Force: 300e3, Foot: 0.6, Bending: 1e6, Ground: 150e3, Edge: 4, EdgeNeeded: 3}
	r, err := m.Solve()
	require.NoError(t, err)
	require.Equal(t, 3.0, r.Effective)
	require.InEpsilon(t, 300e3/3+10e3/3, r.Pressure, 1e-12)
	require.True(t, r.EdgeKept)
	m.Bending = 20e3
	r, err = m.Solve()
	require.NoError(t, err)
	c := (r.Effective - 0.6) / 2
	require.InEpsilon(t, 20e3, 300e3/r.Effective*c*c/2, 1e-9, "the moment where it bends most is what it can bear")
	require.Less(t, r.Effective, 3.0)
	// 53.35 t on four mats of 1 m².
	r, err = rigging.Mat{Length: 1, Width: 1, Force: 53.35 * tonne / 4, Foot: 1, Bending: 1e6, Ground: 150e3}.Solve()
	require.NoError(t, err)
	require.InEpsilon(t, 13.3375*tonne, r.Pressure, 1e-9)
}
