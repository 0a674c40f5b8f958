package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/section/concrete"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// unlike is an element without any symmetry: its outline tapers in depth and
// sideways, its two tendons differ in number, level, slope and force, its end
// blocks lie off the axis. The numbers in the tests were got by a calculation of
// its own, from the same description alone.
func unlike(t testing.TB) stages.Element {
	shape := func(o section.Outline) section.Shape {
		s, err := section.New([]section.Outline{o}, nil)
		require.NoError(t, err)
		return s
	}
	left := shape(section.Outline{{Y: -0.60}, {Y: 0.40}, {Y: 0.40, Z: 0.25}, {Y: 0.15, Z: 0.45}, {Y: 0.15, Z: 1.25}, {Y: 0.70, Z: 1.42}, {Y: 0.70, Z: 1.60}, {Y: -0.60, Z: 1.60}})
	right := shape(section.Outline{{Y: -0.50}, {Y: 0.30}, {Y: 0.30, Z: 0.22}, {Y: 0.10, Z: 0.38}, {Y: 0.10, Z: 0.90}, {Y: 0.55, Z: 1.04}, {Y: 0.55, Z: 1.20}, {Y: -0.50, Z: 1.20}})
	along, err := section.Taper{Left: left, Right: right, To: 20}.Along()
	require.NoError(t, err)
	strand := tendon.Strand{Name: "invented", Area: 150e-6, Fpk: 1860e6, Fp01k: 1600e6, Modulus: 195e9}
	of := func(mark string, strands int, duct float64, y0, z0, y1, z1 float64) tendon.Tendon {
		line := func(a, b float64) tendon.Curve {
			return tendon.Curve{tendon.Straight(tendon.Point{X: 0, Ordinate: a}, tendon.Point{X: 20, Ordinate: b})}
		}
		return tendon.Tendon{
			Mark: mark, Strand: strand, Strands: strands, Duct: duct, Elevation: line(z0, z1), Plan: line(y0, y1), Friction: 0.19, Wobble: 0.005,
			Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1},
		}
	}
	return stages.Element{
		Mark: "U-1", Length: 20, Section: along, WeightTolerance: loads.PlusMinus(0),
		Concrete: concrete.EN1992{Fck: 45e6, Cement: concrete.ClassR},
		Extra: []stages.ExtraWeight{
			{Mark: "end block", From: 0.5, To: 1.3, Weight: 24e3, Y: -0.20, Z: 0.80}, {Mark: "hook block", From: 19.2, To: 19.2, Weight: 18e3, Y: 0.35, Z: 1.10},
		},
		Tendons: []tendon.Tendon{of("T1", 7, 0.075, -0.25, 0.40, -0.10, 0.25), of("T2", 5, 0.065, -0.10, 1.05, -0.20, 0.60)},
	}
}

// unlikePlan takes it through transfer, lift, storage, stressing, grouting and
// seating, on supports that differ from side to side.
func unlikePlan(dynamic loads.Dynamic) stages.Plan {
	three := func(left, y0, y1, right, y2 float64) []stages.Support {
		return []stages.Support{{X: left, Y: y0}, {X: left, Y: y1}, {X: right, Y: y2}}
	}
	pull := func(mark string, stress float64) []tendon.Jacking {
		return []tendon.Jacking{{Tendons: []string{mark}, Stress: stress, Ends: tendon.LeftEnd, DrawIn: 0.005}}
	}
	hung := []stages.Support{{X: 3, Y: -0.45, Z: 1.5}, {X: 3, Y: 0.35, Z: 1.5}}
	hung = append(hung, stages.Equalised("rear", stages.Support{X: 16.5, Y: -0.35, Z: 1.2}, stages.Support{X: 16.5, Y: 0.25, Z: 1.2})...)
	return stages.Plan{
		stages.Transfer{Age: 3, Jacking: pull("T1", 1350e6), On: three(0.4, -0.50, 0.30, 19.5, -0.04)},
		stages.Lift{Age: 5, On: hung, Dynamic: dynamic},
		stages.Store{Age: 6, On: three(2.2, -0.50, 0.30, 17.6, -0.05)},
		stages.Stress{Age: 20, Jacking: pull("T2", 1290e6), Grout: []string{"T1", "T2"}, GroutAge: 21},
		stages.Seat{Age: 28, On: three(0.4, -0.50, 0.30, 19.5, -0.04), Actions: []stages.Action{
			{Mark: "drum", Loads: loads.Set{Points: []loads.Point{{At: 7, Force: 60e3}}}, Y: 0.20, Z: 1.5, Least: 1, Most: 1},
		}},
	}
}

func TestUnlikeReactions(t *testing.T) {
	a, err := unlikePlan(loads.Dynamic{Most: 1.15}).Analyse(unlike(t), limits.EN1992{})
	require.NoError(t, err)
	for _, c := range []struct {
		stage, situation int
		nominal          []float64 // kN
	}{
		{1, 1, []float64{197.888141, 135.093862, 282.705497}},
		{2, 1, []float64{215.818909, 118.469517, 140.699537, 140.699537}},
		{3, 1, []float64{196.122139, 140.900588, 278.664773}},
		{4, 1, []float64{196.122139, 140.900588, 278.664773}},
		{5, 1, []float64{196.576623, 175.672396, 303.438482}},
	} {
		e, err := a.Effects(c.stage, c.situation)
		require.NoError(t, err)
		for i, kN := range c.nominal {
			require.InDelta(t, kN*1e3, e.Reactions[i].Nominal, 0.01, "stage %d, support %d", c.stage, i+1)
		}
	}
	lift, err := a.Effects(2, 1)
	require.NoError(t, err)
	require.InDelta(t, 136239.944, lift.Reactions[1].Characteristic.Most, 0.01)
	require.InDelta(t, 118469.517, lift.Reactions[1].Static.Most, 0.01)
}

func TestUnlikeForcesAndStresses(t *testing.T) {
	a, err := unlikePlan(loads.Dynamic{Most: 1.15}).Analyse(unlike(t), limits.EN1992{})
	require.NoError(t, err)
	outline := func(x float64) []section.Point { return unlike(t).Section.At(x).Corners() }
	for _, c := range []struct {
		x                float64
		stage, situation int
		stress           []float64 // MPa
	}{
		{2.6, 1, 1, []float64{-1.46597, -0.26588, -0.29502, -0.61811, -0.70854, -0.06656, -0.08757, -1.64929}},
		{9, 2, 1, []float64{-1.78398, -1.03078, -0.94632, -1.06963, -0.82895, -0.35507, -0.29401, -1.27690}},
		{16, 3, 1, []float64{-2.70606, -2.92022, -2.44240, -2.03367, -0.81586, -0.62700, -0.28027, 0.00017}},
		{9, 4, 1, []float64{-1.54769, -0.20739, -0.54001, -1.13106, -2.07900, -1.55531, -1.79581, -3.54483}},
		{2.6, 5, 1, []float64{-1.51734, -0.25255, -0.48389, -0.98320, -1.70098, -1.15979, -1.32655, -2.97246}},
		{16, 5, 1, []float64{-1.58874, -0.16460, -0.65368, -1.37328, -2.61979, -2.13891, -2.49381, -4.35876}},
	} {
		e, err := a.Effects(c.stage, c.situation)
		require.NoError(t, err)
		plane := e.Stress(c.x)
		for i, p := range outline(c.x) {
			require.InDelta(t, c.stress[i], plane.At(p)/1e6, 2e-5, "stage %d, x = %g m, corner %d", c.stage, c.x, i+1)
		}
	}
	e, err := a.Effects(1, 1)
	require.NoError(t, err)
	f := e.Forces(9)
	require.InDelta(t, 16.08865e3+1.52050e3, f.T, 0.1)
	require.InDelta(t, 1309.34129e3+449.39109e3, f.My, 0.1)
	require.InDelta(t, -246.65827e3, f.Mz, 0.1)
	require.InDelta(t, -1351.55216e3, f.N, 0.1)
	require.InDelta(t, 16.67072e3-10.13664e3, f.Vz, 0.1)
	require.True(t, math.Abs(f.Vy-10.13664e3) < 0.1)
}
