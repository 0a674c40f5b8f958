package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads/tendon"
	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// A tendon that rises 1.2 m and moves 0.9 m to the left over 12 m pulls the left part
// of the girder towards (12, 0.9, 1.2)/√(144 + 0.81 + 1.44): the concrete there is
// pressed, and the moments about x, y and z are those of the opposite force.
func TestTendonInSpaceOnTheConcrete(t *testing.T) {
	l := one(12, rectangle(t, 2, 2, 0, 0), straight(t, point{0, -0.5, 0.3}, point{12, 0.4, 1.5}, 1e-3, 0))
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	require.NoError(t, l.MakeGrid())
	long := math.Sqrt(144 + 0.81 + 1.44)
	px, py, pz := 1e6*12/long, 1e6*0.9/long, 1e6*1.2/long
	for _, x := range []float64{1, 6, 10} {
		y, z := -0.5+0.9*x/12, 0.3+1.2*x/12
		f := l.At(x).PrestressForces(0, 1)
		require.InDelta(t, -px, f.N, 1e-4)
		require.InDelta(t, px*z, f.My, 1e-4, "below the middle it hogs: My of N = −px at z about z = 0 is +px·z")
		require.InDelta(t, px*y, f.Mz, 1e-4)
		require.InDelta(t, py, f.Vy, 1e-4, "V = dM/dx: a rising tendon carries part of V")
		require.InDelta(t, pz, f.Vz, 1e-4)
		require.InDelta(t, z*py-y*pz, f.T, 1e-4, "x part of (y, z) × (−py, −pz)")
		back := l.At(x).PrestressForces(1, 0)
		require.InDelta(t, px, back.N, 1e-4)
		require.InDelta(t, -pz, back.Vz, 1e-4)
	}
	// dM/dx of a straight tendon is its V.
	a, b := l.At(5).PrestressForces(0, 1), l.At(7).PrestressForces(0, 1)
	require.InDelta(t, (b.My-a.My)/2, a.Vz, 1e-4)
	require.InDelta(t, (b.Mz-a.Mz)/2, a.Vy, 1e-4)
}

// A straight tendon a third of the half depth below the middle leaves no stress at
// the top of a rectangle: σ = P/A·(1 ± 6·e/h), e = h/6.
func TestTendonAtTheKern(t *testing.T) {
	const b, h = 0.5, 1.2
	l := one(20, rectangle(t, b, h, 0, 0), straight(t, point{0, 0, h / 3}, point{20, 0, h / 3}, 1e-3, 0))
	on := state(l, 0)
	jack(l, on, 1.5e6, 0)
	require.NoError(t, l.MakeGrid())
	plane := l.Plane(situation(l), 10, []float64{1})
	require.InDelta(t, 0, plane.At(section.Point{Z: h}), 1e-3)
	require.InDelta(t, -2*1.5e6/(b*h), plane.At(section.Point{Z: 0}), 1e-3)
	half := l.Plane(situation(l), 10, []float64{0.9})
	require.InDelta(t, -2*0.9*1.5e6/(b*h), half.At(section.Point{Z: 0}), 1e-3, "prestress has the factor of its cause")
	low, high, err := demand(t, l, situation(l), ledger.Cause{Least: 0.9, Most: 1.1, Outer: true}).Fibres(10)
	require.NoError(t, err)
	require.InDelta(t, -2*1.1*1.5e6/(b*h), low[0], 1e-3)
	require.InDelta(t, -2*0.9*1.5e6/(b*h), low[1], 1e-3)
	require.InDelta(t, 0, high[0], 1e-3)
	require.InDelta(t, 0, high[1], 1e-3)
}

// demand is a question with these causes.
func demand(t testing.TB, l *ledger.Ledger, s *ledger.Situation, causes ...ledger.Cause) *ledger.Demand {
	t.Helper()
	d, err := l.Demand(s, causes)
	require.NoError(t, err)
	return d
}

// A parabola with sag a over the length presses up with 8·P·a/L²: its moment about
// the chord is the parabola, its shear is P·slope.
func TestDrapedTendonBalancesALoad(t *testing.T) {
	const length, sag, force = 20.0, 0.6, 2e6
	up := tendon.Curve{tendon.Parabola(tendon.Point{Ordinate: 1}, -4*sag/length, tendon.Point{X: length, Ordinate: 1})}
	l := one(length, rectangle(t, 0.6, 1.4, 0, 0), along(t, up, tendon.Level(0, length, 0), 1e-3, 0))
	on := state(l, 0)
	l.Steps = []ledger.Step{{Tendons: []int{0}, States: l.States, Bonded: on.Bonded, Modulus: func(int) float64 { return ecm },
		Force: []func(float64) float64{func(x float64) float64 { // its part along x is the same everywhere
			slope := -4*sag/length + 8*sag/(length*length)*x
			return force * math.Sqrt(1+slope*slope)
		}}}}
	require.NoError(t, l.MakeGrid())
	for _, x := range []float64{2, 7, 10, 15} {
		f := l.At(x).PrestressForces(0, 1)
		z := 1 - 4*sag*x*(length-x)/(length*length)
		require.InDelta(t, -force, f.N, 1e-3)
		require.InDelta(t, force*z, f.My, 1e-3)
		require.InDelta(t, force*(-4*sag/length+8*sag/(length*length)*x), f.Vz, 1e-3)
	}
	w := 8 * force * sag / (length * length)
	h := 1e-3
	a, b := l.At(7-h).PrestressForces(0, 1), l.At(7+h).PrestressForces(0, 1)
	require.InEpsilon(t, w, (b.Vz-a.Vz)/(2*h), 1e-6, "upwards, as dV/dx")
}

// Friction and the slip of the wedges as the ledger knows them: P·e^{−μ(θ + k·x)}, and
// over the reach w of the slip the mirror image of the curve about the force there:
// ½·Δ0·w = slip·E·A for a line.
func TestFrictionAndSlipOfTheWedges(t *testing.T) {
	const length, rise = 40.0, 2.0 // a kink of two straight parts in the middle
	up := tendon.Curve{tendon.Straight(tendon.Point{Ordinate: 1 + rise}, tendon.Point{X: 20, Ordinate: 1}), tendon.Straight(tendon.Point{X: 20, Ordinate: 1}, tendon.Point{X: length, Ordinate: 1 + rise})}
	steel := tendon.Tendon{Mark: "T", Strand: tendon.Y1860S7x157, Strands: 7, Duct: 0.06, Elevation: up, Plan: tendon.Level(0, length, 0), Harped: true, Friction: 0.2, Wobble: 0.01,
		Approval: tendon.Approval{Reference: "invented", MeanStrength: 20e6, AnchorSpacing: 0.2, EdgeDistance: 0.1}}
	pulled, err := steel.Jack(tendon.Jacking{Tendons: []string{"T"}, Stress: 1400e6, Ends: tendon.LeftEnd, DrawIn: 0.002})
	require.NoError(t, err)
	l := one(length, rectangle(t, 1, 4, 0, 0), ledger.Tendon{Path: pulled.Path, Area: steel.Area(), Modulus: steel.Strand.Modulus, Duct: 0.06, Piece: -1})
	on := state(l, 0)
	l.Steps = []ledger.Step{{Tendons: []int{0}, States: l.States, Bonded: on.Bonded, Modulus: func(int) float64 { return ecm }, Force: []func(float64) float64{pulled.At}}}
	require.NoError(t, l.MakeGrid())
	s := situation(l)
	force := func(x float64) float64 {
		p, elastic := l.TendonForce(s, x, 0)
		require.Zero(t, elastic, "a single tendon is brought to its force")
		return p
	}
	slant := math.Hypot(1, 0.1)
	p0 := 1400e6 * steel.Area()
	kink := 2 * math.Atan(0.1)
	require.InEpsilon(t, p0*math.Exp(-0.2*0.01*19*slant), force(19), 1e-9, "before the kink, behind the slip")
	require.InEpsilon(t, p0*math.Exp(-0.2*(kink+0.01*21*slant)), force(21), 1e-9)
	require.InEpsilon(t, p0*math.Exp(-0.2*(kink+0.01*40*slant)), force(40), 1e-9)
	// Slip: with P = P0·e^{−a·s} before, P0·e^{−2·a·w + a·s} after: slip·E·A = P0/a·(1 − e^{−a·w})².
	a := 0.2 * 0.01
	reach := -math.Log(1-math.Sqrt(0.002*steel.Strand.Modulus*steel.Area()*a/p0)) / a
	require.Less(t, reach, 19.0)
	for _, x := range []float64{0, 3, 7} {
		require.InEpsilon(t, p0*math.Exp(a*(x*slant-2*reach)), force(x), 1e-6)
	}
	require.Less(t, force(0), force(7), "least at the anchor")
}
