package ledger_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
	"github.com/tempstage/tempstage/stages/internal/ledger"
)

// A web 0.4 × 1.6 m with a tendon at mid-depth under a shear that grows from the left
// anchor: within its spread a wall is pressed, before it is not.
func TestWallsWithinTheSpread(t *testing.T) {
	const b, h, force, length = 0.4, 1.6, 6e6, 12.0
	shape := rectangle(t, b, h, 0, 0)
	walls, err := shape.Walls()
	require.NoError(t, err)
	for _, every := range []float64{12, 0.05} {
		l := one(length, shape, straight(t, point{0, 0, h / 2}, point{length, 0, h / 2}, 1e-3, 0))
		for x := every; x < 2; x += every {
			l.Girder.Breaks = append(l.Girder.Breaks, x)
		}
		on := state(l, 0)
		jack(l, on, force, 0)
		require.NoError(t, l.MakeGrid())
		v := func(x float64) float64 { return 9e5 * x * math.Pow(1-x/12, 8) } // largest at 1.33 m
		s := situation(l, plain(on, &law{func(x float64) section.Forces {
			return section.Forces{Vz: v(x), T: -v(x) * walls.ShearCentre.Y}
		}}))
		w := wall(t, l, s, true)
		// Beyond the spread: σ/2 + √(σ²/4 + τ²) with σ = −P/A; before it τ alone, up to where the way
		// √((b/2)² + Δz²) to the end of a cut is gone by 2/3.
		sigma := -force / (b * h)
		exact := 0.0
		for _, cut := range walls.Cuts {
			for _, end := range []section.Point{cut.From, cut.To} {
				reach := 1.5 * math.Hypot(end.Y, end.Z-h/2)
				exact = math.Max(exact, math.Abs(v(reach)*cut.Z)/cut.Thickness())
				for x := reach; x < length; x += 0.01 {
					tau := math.Abs(v(x)*cut.Z) / cut.Thickness()
					exact = math.Max(exact, sigma/2+math.Hypot(sigma/2, tau))
				}
			}
		}
		require.LessOrEqual(t, w.Value, exact*(1+1e-6), "no more than at the same section")
		require.Equal(t, []ledger.ApartAt{{Tendon: 0, Factor: 0}}, w.Apart)
		require.Zero(t, w.Normal)
		require.InEpsilon(t, exact, w.Value, 1e-6)
		require.InDelta(t, 0.3, w.X, 1e-3, "1.5 times half the width")
	}
}

// The normal stress at a wall is that of its own end, with the tendon where it has
// reached it: Mohr's circle at the ends of every cut, V acting over a length only.
func TestWallsPressedByWhatHasReachedThem(t *testing.T) {
	const b, h, force, length, v = 0.4, 1.6, 1e6, 12.0, 3e5
	shape := rectangle(t, b, h, 0, 0)
	walls, err := shape.Walls()
	require.NoError(t, err)
	f := centred(t, shape, section.Forces{Vz: v})
	pressed := 0
	for _, c := range [][2]float64{{0, 0.25}, {0.35, 0.7}, {0.35, 0.95}, {5, 6}, {11.75, 12}, {11.3, 11.65}, {1.3, 10.7}} {
		l := one(length, shape, straight(t, point{0, 0, h / 2}, point{length, 0, h / 2}, 1e-3, 0))
		l.Girder.Breaks = c[:]
		on := state(l, 0)
		jack(l, on, force, 0)
		require.NoError(t, l.MakeGrid())
		s := situation(l, plain(on, &law{func(x float64) section.Forces {
			if x < c[0] || x > c[1] {
				return section.Forces{}
			}
			return f
		}}))
		want, normal := 0.0, 0.0
		for _, cut := range walls.Cuts {
			for _, end := range []section.Point{cut.From, cut.To} {
				reach, sigma := 1.5*math.Hypot(end.Y, end.Z-h/2), -force/(b*h)
				if c[0] < reach || c[1] > 6 && length-c[1] < reach {
					sigma = 0 // somewhere on the length
				}
				tau := v * math.Abs(cut.Z) / cut.Thickness()
				if p := sigma/2 + math.Hypot(sigma/2, tau); p > want {
					want, normal = p, sigma
				}
			}
		}
		w := wall(t, l, s, true)
		require.InEpsilon(t, want, w.Value, 1e-6, "from %g to %g", c[0], c[1])
		require.InDelta(t, normal, w.Normal, 1)
		require.Equal(t, normal == 0, len(w.Apart) == 1)
		if normal != 0 {
			pressed++
		}
	}
	require.GreaterOrEqual(t, pressed, 2)
}
