package stages_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// openHalf is half a box without the inner wall: a web with a slab to one side at its
// foot and one to both sides at its head.
func openHalf(t testing.TB) (stages.Element, section.Shape) {
	shape, err := section.New([]section.Outline{{
		{Y: -0.2, Z: 0}, {Y: 2.4, Z: 0}, {Y: 2.4, Z: 0.22}, {Y: 0.2, Z: 0.25}, {Y: 0.15, Z: 1.85}, {Y: 2.6, Z: 1.88}, {Y: 2.6, Z: 2.1},
		{Y: -1.9, Z: 2.1}, {Y: -1.9, Z: 1.92}, {Y: -0.2, Z: 1.83},
	}}, nil)
	require.NoError(t, err)
	return stages.Element{
		Mark: "HB-1", Length: 26, Section: shape, WeightTolerance: loads.PlusMinus(0), UnitWeight: 25e3,
		Concrete: concrete.EN1992{Fck: 40e6, Cement: concrete.ClassR},
	}, shape
}

// warps is B/Cw by Vlasov's equation in closed form, for torques in the member.
func warps(t testing.TB, shape section.Shape, length float64, torques ...beam.TorqueLoad) func(x float64) float64 {
	walls, err := shape.Walls()
	require.NoError(t, err)
	s, err := walls.Warping()
	require.NoError(t, err)
	b, err := beam.Warping{Length: length, GJ: walls.Constant / 2.4, ECw: s.Constant, Loads: torques}.Solve()
	require.NoError(t, err)
	return func(x float64) float64 {
		v, _ := b.At(x)
		return v / s.Constant
	}
}

// largest is the largest tension of any corner along an element.
func largest(t testing.TB, shape section.Shape, length float64, forces func(x float64) section.Forces, warping func(x float64) float64) (value, x float64, flange float64) {
	walls, err := shape.Walls()
	require.NoError(t, err)
	s, err := walls.Warping()
	require.NoError(t, err)
	p := shape.Properties()
	value = math.Inf(-1)
	for i := range 5200 {
		at := (float64(i) + 0.5) / 5200 * length
		f, w := forces(at), warping(at)
		for k, corner := range shape.Corners() {
			if v := p.Stress(f, corner) + w*s.Corners[k]; v > value {
				value, x, flange = v, at, w*s.Corners[k]
			}
		}
	}
	return value, x, flange
}

func checkOf(t testing.TB, record stages.Record, name string) stages.Check {
	t.Helper()
	for _, c := range record.Stages[0].Situations[0].Checks {
		if strings.Contains(c.Name, name) {
			return c
		}
	}
	require.Fail(t, "no check", name)
	return stages.Check{}
}

// An open half beam on pads under its own weight: its weight acts beside the shear
// centre with the torque q·(y_g − y_s) a metre, the pads take it in forks. The stress
// of warping torsion at the tip of a slab stands beside that of bending.
func TestWarpingTorsionUnderOwnWeight(t *testing.T) {
	e, shape := openHalf(t)
	p := shape.Properties()
	walls, err := shape.Walls()
	require.NoError(t, err)
	const a = 0.4
	right := e.Length - a
	pads := func(x float64) []stages.Support {
		return []stages.Support{{X: x, Y: p.Centroid.Y - 0.6}, {X: x, Y: p.Centroid.Y + 0.6}}
	}
	on := append(pads(a), stages.Equalised("right", pads(right)...)...)
	record, err := stages.Plan{stages.Store{Age: 28, Until: 40, On: on}}.Run(e, limits.EN1992{})
	require.NoError(t, err)

	q := p.Area * e.UnitWeight
	torque := -q * (p.Centroid.Y - walls.ShearCentre.Y) * e.Length // right hand about +x
	warping := warps(t, shape, e.Length, beam.TorqueLoad{From: 0, To: e.Length, Torque: torque},
		beam.TorqueLoad{From: a, To: a, Torque: -torque / 2}, beam.TorqueLoad{From: right, To: right, Torque: -torque / 2})
	forces := func(x float64) section.Forces {
		moment := -q * x * x / 2
		if x > a {
			moment += q * e.Length / 2 * (x - a)
		}
		if x > right {
			moment += q * e.Length / 2 * (x - right)
		}
		return section.Forces{My: moment}
	}
	value, x, flange := largest(t, shape, e.Length, forces, warping)
	require.Greater(t, flange, 0.5e6) // bending alone misses it
	check := checkOf(t, record, "tension")
	require.InEpsilon(t, value, check.Demand.Value, 1e-5)
	require.InDelta(t, x, check.X, 0.02)

	// The lines that show it add up, and name the bimoment.
	var symbols []string
	for _, n := range check.Lines {
		symbols = append(symbols, record.Symbols[record.Lines[n-1].Result.Symbol-1].Symbol)
	}
	require.Subset(t, symbols, []string{"σ_w"})
}
