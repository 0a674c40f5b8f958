package stages_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/loads"
	"github.com/tempstage/tempstage/stages"
	"github.com/tempstage/tempstage/stages/limits"
)

// pairOfSlings are two slings side by side to one hook over the axis.
func pairOfSlings(x, beside, low, high float64) []stages.Support {
	return stages.Slings(stages.Hook{X: x, Z: high}, stages.Support{X: x, Y: -beside, Z: low}, stages.Support{X: x, Y: beside, Z: low})
}

// hung is an element suspended between two times on its dunnage.
func hung(l stages.Lift) stages.Plan {
	stand := paired(stages.Pads(0.2, 2.4, 9.6))
	return stages.Plan{stages.Store{Age: 28, On: stand}, l, stages.Store{Age: 28, On: stand}}
}

// nearEither are places along the block a hair on either side of all that acts at one
// place, and 2,400 between.
func nearEither(xs ...float64) []float64 {
	var list []float64
	for i := range 2401 {
		list = append(list, math.Max(1e-6, math.Min(12-1e-6, 0.005*float64(i))))
	}
	for _, x := range xs {
		list = append(list, x-1e-7, x+1e-7)
	}
	return list
}

// On a gradient g the weight w pulls w·sin g along the element. Slings side by side
// cannot incline along it by themselves: the rope of the hook hangs out of plumb and
// each sling takes half of it. The force of a hook is F·(sin g, cos g), at the level
// of the lift points.
func TestSlingsSideBySideOnAGradient(t *testing.T) {
	e := block()
	e.Bars = nil
	for _, c := range []struct{ left, right, low, high, slope float64 }{
		{2.2, 10.1, 0.9, 6, 0.12}, {1.3, 9.8, 1.4, 3, 0.2}, {3, 10.4, 0.75, 9, 0.05},
	} {
		on := append(pairOfSlings(c.left, 0.2, c.low, c.high), pairOfSlings(c.right, 0.2, c.low, c.high)...)
		s := run(t, e, hung(stages.Lift{Age: 28, On: on, Gradient: c.slope, Dynamic: loads.Dynamic{Most: 1}})).Stages[1].Situations[0]
		tension, compression := 0.0, 0.0
		var least, most [2]float64
		for i, g := range []float64{0, c.slope, -c.slope} {
			sin, cos := math.Sin(g), math.Cos(g)
			// Across gravity a place x, z lies at x·cos g − z·sin g: two moments about two hooks.
			at := func(x, z float64) float64 { return x*cos - z*sin }
			right := 120e3 * (at(6, 0.4) - at(c.left, c.low)) / (at(c.right, c.low) - at(c.left, c.low))
			left := 120e3 - right
			for k, f := range []float64{left, right} {
				if i == 0 {
					least[k], most[k] = f, f
				}
				least[k], most[k] = math.Min(least[k], f), math.Max(most[k], f)
			}
			for _, x := range nearEither(c.left, c.right) {
				n, my := 10e3*sin*x, -10e3*cos*x*x/2-10e3*sin*x*0.4
				for _, h := range [][2]float64{{left, c.left}, {right, c.right}} {
					if h[1] < x {
						n, my = n-h[0]*sin, my+h[0]*cos*(x-h[1])+h[0]*sin*c.low
					}
				}
				my += n * 0.4 // about the centroid
				bend := math.Abs(my) / (0.5 * 0.64 / 6)
				tension, compression = math.Max(tension, n/0.4+bend), math.Max(compression, bend-n/0.4)
			}
		}

		require.InEpsilon(t, tension, check(t, s, limits.Tension).Demand.Value, 1e-5, "%+v", c)
		require.InEpsilon(t, compression, check(t, s, limits.Compression).Demand.Value, 1e-5, "%+v", c)
		for i, p := range s.Reactions {
			require.InDelta(t, least[i/2]/2, p.Static.Least, 1e-3, "%+v", c)
			require.InDelta(t, most[i/2]/2, p.Static.Most, 1e-3, "%+v", c)
			// From the lift point: beside over up, level or not.
			require.InEpsilon(t, math.Hypot(1, 0.2/(c.high-c.low)), p.Sling, 1e-9)
		}
	}
}

// Slings that lie along the element turn on their lift points when it rolls, slings side
// by side turn with it: two hooks of the first kind on the left and one of the second on
// the right, by moments about two lines.
func TestSlingsAlongTheElementTurnOnTheirLiftPoints(t *testing.T) {
	e := block()
	e.Bars = nil
	on := stages.Slings(stages.Hook{X: 3, Y: -0.2, Z: 5}, stages.Support{X: 2, Y: -0.2, Z: 0.9}, stages.Support{X: 4, Y: -0.2, Z: 0.9})
	on = append(on, stages.Slings(stages.Hook{X: 3, Y: 0.2, Z: 7}, stages.Support{X: 2.5, Y: 0.2, Z: 0.9}, stages.Support{X: 3.5, Y: 0.2, Z: 0.9})...)
	on = append(on, pairOfSlings(9.5, 0.2, 0.9, 4)...)
	const roll = 0.04
	s := run(t, e, hung(stages.Lift{Age: 28, On: on, Roll: roll, Dynamic: loads.Dynamic{Most: 1}})).Stages[1].Situations[0]
	right := 120e3 * 3 / 6.5 // 120·(6 − 3) = R·(9.5 − 3)
	least, most := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{}
	for _, r := range []float64{0, roll, -roll} {
		at := func(y, z float64) float64 { return y*math.Cos(r) - z*math.Sin(r) } // across gravity
		turn := 120e3*at(0, 0.4) - right*at(0, 4)
		b := (turn - (120e3-right)*at(-0.2, 0.9)) / (at(0.2, 0.9) - at(-0.2, 0.9))
		for k, f := range [2]float64{120e3 - right - b, b} {
			least[k], most[k] = math.Min(least[k], f), math.Max(most[k], f)
		}
	}
	require.Greater(t, most[0]-least[0], 20e3)
	for i, p := range s.Reactions[:4] {
		require.InDelta(t, least[i/2]/2, p.Static.Least, 1e-6, "lift point %d", i+1)
		require.InDelta(t, most[i/2]/2, p.Static.Most, 1e-6, "lift point %d", i+1)
	}
	for _, p := range s.Reactions[4:] {
		require.InDelta(t, right/2, p.Nominal, 1e-6)
	}
}

// However high its hook, an element whose slings do not lie side by side turns over
// when its lift points are below its centre of gravity, at z = 0.4 m.
func TestAHighHookDoesNotHoldALowLiftPoint(t *testing.T) {
	for _, z := range []float64{0.1, 0.399, 0.401, 0.9} {
		one := append(stages.Slings(stages.Hook{X: 2, Z: 7}, stages.Support{X: 2, Z: z}), stages.Slings(stages.Hook{X: 10, Z: 7}, stages.Support{X: 10, Z: z})...)
		along := append(stages.Slings(stages.Hook{X: 2, Z: 7}, stages.Support{X: 1, Z: z}, stages.Support{X: 3, Z: z}), stages.Slings(stages.Hook{X: 10, Z: 7}, stages.Support{X: 9, Z: z}, stages.Support{X: 11, Z: z})...)
		beside := append(pairOfSlings(2, 0.2, z, 7), pairOfSlings(10, 0.2, z, 7)...)
		want := stages.Pass
		if z < 0.4 {
			want = stages.Fail
		}
		for _, on := range [][]stages.Support{one, along} {
			c := check(t, run(t, block(), hung(stages.Lift{Dynamic: loads.AtRest(), Age: 28, On: on})).Stages[1].Situations[0], limits.Roll)
			require.Equal(t, want, c.State, "lift points at z = %g m", z)
			require.InDelta(t, z-0.4, c.Demand.Value, 1e-12)
		}
		c := check(t, run(t, block(), hung(stages.Lift{Dynamic: loads.AtRest(), Age: 28, On: beside})).Stages[1].Situations[0], limits.Roll)
		require.Equal(t, stages.Pass, c.State, "slings side by side hold it at their hooks")
		require.InDelta(t, 7-0.4, c.Demand.Value, 1e-12)
		// One hook of each kind: the axis runs from the lift point to the hook.
		mixed := append(stages.Slings(stages.Hook{X: 2, Z: 7}, stages.Support{X: 2, Z: z}), pairOfSlings(10, 0.2, z, 7)...)
		c = check(t, run(t, block(), hung(stages.Lift{Dynamic: loads.AtRest(), Age: 28, On: mixed})).Stages[1].Situations[0], limits.Roll)
		require.InDelta(t, (z+7)/2-0.4, c.Demand.Value, 1e-12)
	}
}

// A hook over the very end hangs over it on a gradient as well, beyond the element
// or not: the forces are those of lift points without slings.
func TestAHookOverTheEndOnAGradient(t *testing.T) {
	e := block()
	e.Bars = nil
	for _, slope := range []float64{0, 0.15, 0.3} {
		bare := []stages.Support{{X: 0.1, Y: -0.2, Z: 0.9}, {X: 0.1, Y: 0.2, Z: 0.9}, {X: 11.7, Y: 0, Z: 0.9}}
		slung := append(pairOfSlings(0.1, 0.2, 0.9, 9), stages.Slings(stages.Hook{X: 11.7, Z: 6}, bare[2])...)
		p := run(t, e, hung(stages.Lift{Dynamic: loads.AtRest(), Age: 28, On: bare, Gradient: slope})).Stages[1].Situations[0]
		q := run(t, e, hung(stages.Lift{Dynamic: loads.AtRest(), Age: 28, On: slung, Gradient: slope})).Stages[1].Situations[0]
		for _, kind := range []limits.Kind{limits.Tension, limits.Compression} {
			require.InEpsilon(t, check(t, p, kind).Demand.Value, check(t, q, kind).Demand.Value, 1e-5, "%s, gradient %g", kind, slope)
		}
		for i := range bare {
			require.InDelta(t, p.Reactions[i].Static.Least, q.Reactions[i].Static.Least, 1e-6)
			require.InDelta(t, p.Reactions[i].Static.Most, q.Reactions[i].Static.Most, 1e-6)
		}
	}
}

// The roll axis runs through the first and the last point along the element, in whatever
// order they are written, at the level that it has at the centre of gravity.
func TestTheRollAxisIsOfTheOutermostPoints(t *testing.T) {
	points := []stages.Support{{X: 1, Z: 0.55}, {X: 5, Z: 2}, {X: 11, Z: 0.85}}
	for _, order := range [][]int{{0, 1, 2}, {2, 1, 0}, {1, 0, 2}, {1, 2, 0}, {0, 2, 1}, {2, 0, 1}} {
		var on []stages.Support
		for _, i := range order {
			on = append(on, points[i])
		}
		c := check(t, run(t, block(), hung(stages.Lift{Dynamic: loads.AtRest(), Age: 28, On: on})).Stages[1].Situations[0], limits.Roll)
		require.InDelta(t, 0.55+0.3*5/10-0.4, c.Demand.Value, 1e-12, "%v", order)
		require.Equal(t, stages.Pass, c.State)
	}
	// Linked points count by their middle.
	linked := append(stages.Equalised("left", stages.Support{X: 0.5, Y: -0.1, Z: 0.4}, stages.Support{X: 1.5, Y: 0.1, Z: 0.6}), stages.Support{X: 11, Z: 0.3})
	c := check(t, run(t, block(), hung(stages.Lift{Dynamic: loads.AtRest(), Age: 28, On: linked})).Stages[1].Situations[0], limits.Roll)
	require.InDelta(t, 0.5-0.2*5/10-0.4, c.Demand.Value, 1e-12)
}
