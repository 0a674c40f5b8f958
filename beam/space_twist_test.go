package beam_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"github.com/tempstage/tempstage/beam"
)

// A box girder is stored on four bearers that only push; one of them is 6 mm
// low.
func ExampleSpace_Solve() {
	box := beam.SpaceLayout{
		Length: 34,
		Section: func(float64) beam.CrossSection {
			return beam.CrossSection{BendingY: 3e11, BendingZ: 9e11, Torsional: 90e9}
		},
	}
	for _, at := range [][2]float64{{1, 2}, {1, -2}, {33, 2}, {33, -2}} {
		box.Supports = append(box.Supports, beam.Restraint{
			X: at[0], Y: at[1], Direction: r3.Vec{Z: 1}, Stiffness: 300e6, OneWay: true,
		})
	}
	space, err := beam.NewSpace(box)
	if err != nil {
		fmt.Println(err)
		return
	}
	weight := beam.SpaceLoads{Lines: []beam.SpaceLine{{To: 34, Direction: r3.Vec{Z: -1}, Intensity: []float64{110e3}}}}
	r, err := space.Solve(weight, beam.Setting{Level: []float64{-6e-3, 0, 0, 0}})
	if err != nil {
		fmt.Println(err)
		return
	}
	for i, force := range r.Reactions() {
		fmt.Printf("x = %2.0f m, y = %+.0f m: %.0f kN\n", box.Supports[i].X, box.Supports[i].Y, force/1e3)
	}
	fmt.Printf("torque between the pairs: %.0f kN·m\n", r.At(17, beam.RightOf).T/1e3)
	for _, f := range space.Freedoms() {
		fmt.Println("nothing holds it to", f)
	}
	// Output:
	// x =  1 m, y = +2 m: 620 kN
	// x =  1 m, y = -2 m: 1250 kN
	// x = 33 m, y = +2 m: 1250 kN
	// x = 33 m, y = -2 m: 620 kN
	// torque between the pairs: 1262 kN·m
	// nothing holds it to move along
	// nothing holds it to move sideways
	// nothing holds it to turn in plan
}

// onPads is a member of torsional stiffness gj on pads at (x, y) of the given
// stiffnesses.
func onPads(length, gj float64, at [][2]float64, k []float64) beam.SpaceLayout {
	l := beam.SpaceLayout{Length: length, Section: uniformSection(beam.CrossSection{BendingY: 1e12, BendingZ: 1e12, Torsional: gj})}
	for i, p := range at {
		l.Supports = append(l.Supports, beam.Restraint{X: p[0], Y: p[1], Direction: up, Stiffness: k[i]})
	}
	return l
}

var corners = [][2]float64{{1, 2}, {1, -2}, {33, 2}, {33, -2}}

// One corner out of level by d: ΔR = d/(s²L/(GJ) + Σ1/k), in the pattern
// + − − +, for any four stiffnesses.
func TestFourPointSupport(t *testing.T) {
	const d, s, length, gj = .006, 4., 32., 9e10
	for name, k := range map[string][]float64{
		"rigid":   {0, 0, 0, 0},
		"springs": {3e8, 3e8, 3e8, 3e8},
		"unlike":  {3e8, 1e8, 2e8, 0},
		"one":     {0, 0, 1e8, 0},
	} {
		sum := 0.0
		for _, k := range k {
			if k > 0 {
				sum += 1 / k
			}
		}
		got := inSpace(t, onPads(34, gj, corners, k), beam.SpaceLoads{}, beam.Setting{Level: []float64{d, 0, 0, 0}}).Reactions()
		want := d / (s*s*length/gj + sum)
		for i, sign := range []float64{1, -1, -1, 1} {
			require.InEpsilon(t, want, sign*got[i], 1e-9, "%s %d: pattern + − − +", name, i)
		}
	}
}

// Warp of a 32.6 m, 719.8 t box on four points 31.5 m and 4.5 m apart, torsion
// constant 16.61 m⁴ (Bredt), E 34 GPa, ν 0.2, mean reaction 1,765 kN: change of
// reaction per millimetre for four stiffnesses of the supports, and the warp at
// lift-off. To the digits printed.
func TestWarpTable(t *testing.T) {
	const gj = 34e9 / 2.4 * 16.61
	for _, row := range []struct{ k, perMillimetre, within, liftOff, near float64 }{
		{0, 368.9, .05, 4.8, .05},
		{2000e6, 212.3, .05, 8.3, .05},
		{500e6, 93.4, .05, 18.9, .05},
		{100e6, 23.4, .05, 75, .5},
	} {
		l := onPads(32.6, gj, [][2]float64{{.55, 2.25}, {.55, -2.25}, {32.05, 2.25}, {32.05, -2.25}}, []float64{row.k, row.k, row.k, row.k})
		for i := range l.Supports {
			l.Supports[i].OneWay = true
		}
		space, err := beam.NewSpace(l)
		require.NoError(t, err)
		a := weight(l, 4*1765e3/32.6, 0)
		r, err := space.Solve(a, beam.Setting{Level: []float64{.001, 0, 0, 0}})
		require.NoError(t, err)
		require.InDelta(t, row.perMillimetre, r.Reactions()[0]/1e3-1765, row.within)
		for sign, opens := range map[float64]bool{-1: false, 1: true} {
			r, err := space.Solve(a, beam.Setting{Level: []float64{(row.liftOff + sign*row.near) / 1e3, 0, 0, 0}})
			require.NoError(t, err)
			require.Equal(t, opens, r.Gaps()[1]+r.Gaps()[2] > 0, "k = %g N/m", row.k)
		}
	}
}

// A torque between two pairs goes to them in inverse proportion to the
// distance; a member that is out of level as a whole is not twisted.
func TestTorqueAndRigidRotation(t *testing.T) {
	l := onPads(10, 1e9, [][2]float64{{0, 1}, {0, -1}, {10, 1}, {10, -1}}, make([]float64, 4))
	torque := beam.SpaceLoads{Points: []beam.SpacePoint{{X: 3, Couple: r3.Vec{X: 100e3}}}}
	r := inSpace(t, l, torque, beam.Setting{Level: []float64{.01, 0, .01, 0}})
	require.InDeltaSlice(t, []float64{-35e3, 35e3, -15e3, 15e3}, r.Reactions(), 1e-2)
	_, turn := r.Move(3)
	require.InDelta(t, .005+70e3*3/1e9, turn.X, 1e-12)
	require.InDelta(t, 70e3, r.At(1, beam.RightOf).T, 1e-2, "right hand about +x on the face towards +x")
	require.InDelta(t, -30e3, r.At(5, beam.RightOf).T, 1e-2)
}
