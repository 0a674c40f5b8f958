package ledger_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// bars is the same area of bars everywhere.
func bars(area float64) ledger.BarsIn {
	return func(float64, func(section.Point) float64) float64 { return area }
}

// A rectangle in bending: the tension zone is the lower half, ½·σ·b·h/2.
func TestTensionForceOfARectangle(t *testing.T) {
	const b, h, m = 0.4, 1.0, 2e5
	l := one(10, rectangle(t, b, h, 0, 0))
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	sigma := m / (b * h * h / 6)
	for _, sign := range []float64{1, -1} {
		d := demand(t, l, situation(l, plain(on, level(section.Forces{My: sign * m}))), fixed)
		z, err := d.MostTension(0, bars(1e-3))
		require.NoError(t, err)
		require.True(t, z.Found)
		require.InEpsilon(t, sigma*b*h/4, z.Force, 1e-9)
		require.InEpsilon(t, b*h/2, z.Area, 1e-9)
		require.Equal(t, 1e-3, z.Bars)
		require.InEpsilon(t, sigma, z.Value, 1e-9)
		require.Equal(t, sign > 0, z.At.Z == 0)
	}
	// With N the neutral axis moves: σ = N/A ± M/W, the zone is (1 + n)/2 of the depth.
	n := 0.4 * sigma
	d := demand(t, l, situation(l, plain(on, level(section.Forces{N: -n * b * h, My: m + n*b*h*h/2}))), fixed)
	z, err := d.MostTension(0, bars(1e-3))
	require.NoError(t, err)
	deep := (1 - 0.4) / 2 * h
	require.InEpsilon(t, (sigma-n)*b*deep/2, z.Force, 1e-9)
	require.InEpsilon(t, b*deep, z.Area, 1e-9)
	pressed := demand(t, l, situation(l, plain(on, level(section.Forces{N: -1e6, My: 0.5e6}))), fixed)
	z, err = pressed.MostTension(0, bars(1e-3))
	require.NoError(t, err)
	require.False(t, z.Found, "all in compression")
}

// What is made largest is the force over the bars that are there, along x: bars that
// thin out as 1 + (x − 3)² put it where M·/bars is largest.
func TestMostTensionIsOfForceOverBars(t *testing.T) {
	const b, h = 0.4, 1.0
	l := one(10, rectangle(t, b, h, 0, 0))
	on := state(l, 0)
	require.NoError(t, l.MakeGrid())
	d := demand(t, l, situation(l, plain(on, &law{func(x float64) section.Forces { return section.Forces{My: 1e4 * x * (10 - x)} }})), fixed)
	z, err := d.MostTension(0, bars(2e-3))
	require.NoError(t, err)
	require.InDelta(t, 5, z.X, 1e-2)
	require.InEpsilon(t, 2.5e5/(b*h*h/6)*b*h/4, z.Force, 1e-6)
	area := func(x float64, _ func(section.Point) float64) float64 { return 1e-3 * (1 + (x-2)*(x-2)) }
	z, err = d.MostTension(0, area)
	require.NoError(t, err)
	best, at := 0.0, 0.0
	for x := 0.0; x <= 10; x += 1e-3 {
		if v := x * (10 - x) / (1 + (x-2)*(x-2)); v > best {
			best, at = v, x
		}
	}
	require.InDelta(t, at, z.X, 0.01)
	require.InEpsilon(t, 1e4*best/(b*h*h/6)*b*h/4/1e-3, z.Force/z.Bars, 1e-5)
	// Bars only where the soffit is in tension: the deck in tension has none and is not found.
	up := demand(t, l, situation(l, plain(on, level(section.Forces{My: -1e5}))), fixed)
	z, err = up.MostTension(0, func(_ float64, stress func(section.Point) float64) float64 {
		if stress(section.Point{}) > 0 {
			return 1e-3
		}
		return 0
	})
	require.NoError(t, err)
	require.False(t, z.Found)
}

// The factors are those with the largest force: every corner of three factors on a
// section without symmetry, at every node.
func TestTensionForceUnderTheWorstFactors(t *testing.T) {
	rng := rand.New(rand.NewPCG(63, 64))
	missed := 0
	for range 40 {
		shape := lopsided(t, 0.8+0.5*rng.Float64())
		p := shape.Properties()
		l := one(10, shape)
		on := state(l, 0)
		require.NoError(t, l.MakeGrid())
		causes := []ledger.Cause{fixed, {Least: 0.8, Most: 1.2}, {Least: -1, Most: 1}, {Least: 0.9, Most: 1.15, Outer: true}}
		var entries []ledger.Entry
		forces := []section.Forces{some(rng), some(rng), some(rng)}
		for i, f := range forces {
			e := ledger.Entry{State: on, Field: level(f), Coefficient: 1, Inner: []int{1, 2, -1}[i]}
			if i != 1 {
				e.Outer = []int{3}
			}
			entries = append(entries, e)
		}
		d := demand(t, l, situation(l, entries...), causes...)
		z, err := d.MostTension(0, bars(1e-3))
		require.NoError(t, err)
		most := 0.0
		for _, a := range []float64{0.8, 1.2} {
			for _, b := range []float64{-1, 1} {
				for _, c := range []float64{0.9, 1.15} {
					f := forces[0].Times(a * c).Plus(forces[1].Times(b)).Plus(forces[2].Times(c))
					force, _ := shape.TensionForce(p.Plane(ledger.About(f, p.Centroid)))
					most = math.Max(most, force)
				}
			}
		}
		require.LessOrEqual(t, z.Force, most*(1+1e-9))
		if z.Force < most*(1-1e-9) {
			missed++
		}
		f := forces[0].Times(z.Factors[1] * z.Factors[3]).Plus(forces[1].Times(z.Factors[2])).Plus(forces[2].Times(z.Factors[3]))
		plane := p.Plane(ledger.About(f, p.Centroid))
		force, area := shape.TensionForce(plane)
		require.InEpsilon(t, force, z.Force, 1e-9, "the factors give the force")
		require.InEpsilon(t, area, z.Area, 1e-9)
		require.InEpsilon(t, plane.At(z.At), z.Value, 1e-9)
	}
	require.Zero(t, missed)
}

// Beside an anchor the tendon is not counted on where any corner of the zone in
// tension has not been reached.
func TestTensionForceBesideAnAnchor(t *testing.T) {
	const b, h = 0.6, 1.6
	l := one(12, rectangle(t, b, h, 0, 0), straight(t, point{0, 0, 0.8}, point{12, 0, 0.8}, 1e-3, 0))
	on := state(l, 0)
	jack(l, on, 1e6, 0)
	require.NoError(t, l.MakeGrid())
	const m = 3e5 // 1.17 MPa above 1.04 MPa of compression
	d := demand(t, l, situation(l, plain(on, level(section.Forces{My: m}))), ledger.Cause{Least: 0.9, Most: 1.1, Outer: true})
	z, err := d.MostTension(0, func(x float64, _ func(section.Point) float64) float64 {
		if x < 6 {
			return 1e-3
		}
		return 1e9 // look at the left end only
	})
	require.NoError(t, err)
	require.Less(t, z.X, 1.5*math.Hypot(b/2, h/2))
	require.InEpsilon(t, m/(b*h*h/6)*b*h/4, z.Force, 1e-6)
	require.Equal(t, []ledger.ApartAt{{Tendon: 0, Factor: 0}}, z.Apart)
	beyond, err := d.MostTension(0, func(x float64, _ func(section.Point) float64) float64 {
		if x > 2 && x < 10 {
			return 1e-3
		}
		return 1e9
	})
	require.NoError(t, err)
	mean, bend := -0.9e6/(b*h), m/(b*h*h/6)
	deep := (bend + mean) / (2 * bend) * h
	require.InEpsilon(t, (bend+mean)*b*deep/2, beyond.Force, 1e-6)
	require.Empty(t, beyond.Apart)
	require.Equal(t, 0.9, beyond.Factors[0])
}
