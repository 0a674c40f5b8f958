package section_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// withIdle is a shape with up to three more corners on each edge, straight between
// its ends, and the places that its own corners have among them.
func withIdle(t testing.TB, shape section.Shape, random *rand.Rand) (drawn section.Shape, own []int) {
	t.Helper()
	count := 0
	with := func(outlines []section.Outline) []section.Outline {
		var list []section.Outline
		for _, o := range outlines {
			var more section.Outline
			for i, p := range o {
				own = append(own, count)
				more, count = append(more, p), count+1
				q, part := o[(i+1)%len(o)], 0.0
				for range random.IntN(4) {
					part += 0.05 + 0.25*random.Float64()
					more, count = append(more, section.Point{Y: p.Y + part*(q.Y-p.Y), Z: p.Z + part*(q.Z-p.Z)}), count+1
				}
			}
			list = append(list, more)
		}
		return list
	}
	return shapeOf(t, with(shape.Solids()), with(shape.Voids())...), own
}

// requireSameCut compares two cuts and what flows across them, to a share of the
// largest flow.
func requireSameCut(t *testing.T, want, got section.WallCut, depth float64) {
	t.Helper()
	require.Equal(t, want.Open, got.Open)
	for i, value := range [8]float64{want.From.Y, want.From.Z, want.To.Y, want.To.Z, want.Y * depth, want.Z * depth, want.T * depth * depth, want.Face * depth * depth * depth} {
		other := [8]float64{got.From.Y, got.From.Z, got.To.Y, got.To.Z, got.Y * depth, got.Z * depth, got.T * depth * depth, got.Face * depth * depth * depth}[i]
		require.InDelta(t, value, other, 1e-9*max(1, want.Face*depth*depth*depth))
	}
}

// Corners that lie straight between their neighbours change nothing of the walls:
// thickness, J, shear centre, flow, ω, and the flow where the section changes.
func TestIdleCornersDoNotChangeTheWalls(t *testing.T) {
	random := rand.New(rand.NewPCG(10, 16))
	for name, shape := range wallShapes(t) {
		t.Run(name, func(t *testing.T) {
			want, p := wallsOf(t, shape), shape.Properties()
			depth := p.Top + p.Bottom
			for range 4 {
				drawn, own := withIdle(t, shape, random)
				walls := wallsOf(t, drawn)
				require.InEpsilon(t, want.Constant, walls.Constant, 1e-9)
				require.InDelta(t, want.ShearCentre.Y, walls.ShearCentre.Y, 1e-9*depth)
				require.InDelta(t, want.ShearCentre.Z, walls.ShearCentre.Z, 1e-9*depth)
				require.Len(t, walls.Cuts, len(want.Cuts))
				for i, cut := range want.Cuts {
					requireSameCut(t, cut, walls.Cuts[i], depth)
					middle := section.Point{Y: (cut.From.Y + cut.To.Y) / 2, Z: (cut.From.Z + cut.To.Z) / 2}
					one, ok := want.At(middle)
					other, also := walls.At(middle)
					require.Equal(t, ok, also)
					requireSameCut(t, one, other, depth)
				}
				requireSameWarping(t, want, walls, own)
			}
		})
	}
}

func requireSameWarping(t *testing.T, want, got section.Walls, own []int) {
	t.Helper()
	if want.Cells > 0 {
		return
	}
	warping, err := want.Warping()
	require.NoError(t, err)
	other, err := got.Warping()
	require.NoError(t, err)
	require.InDelta(t, warping.Constant, other.Constant, 1e-9*math.Pow(want.Constant, 1.5))
	for i, ω := range warping.Corners {
		require.InDelta(t, ω, other.Corners[own[i]], 1e-9)
	}
}

// A corner that lies idle has the ω of its place on the edge.
func TestWarpingAtIdleCorners(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 21))
	shape, err := half.Shape()
	require.NoError(t, err)
	drawn, _ := withIdle(t, shape, random)
	s := sectorialOf(t, drawn)
	corners := drawn.Corners()
	require.Len(t, s.Corners, len(corners))
	for i, p := range corners {
		require.InDelta(t, sectorialOf(t, shape).At(p), s.Corners[i], 1e-8)
	}
}

// The exact solution does not see idle corners either.
func TestIdleCornersDoNotChangeTheExactSolution(t *testing.T) {
	random := rand.New(rand.NewPCG(21, 10))
	for _, name := range []string{"square", "box", "half beam"} {
		shape := wallShapes(t)[name]
		drawn, own := withIdle(t, shape, random)
		want, got := torsionOf(t, shape), torsionOf(t, drawn)
		require.InEpsilon(t, want.Constant, got.Constant, 1e-9, name)
		require.InEpsilon(t, want.WarpingConstant(), got.WarpingConstant(), 1e-7, name)
		c, d := centreOf(t, shape, 0.2), centreOf(t, drawn, 0.2)
		require.InDelta(t, c.Y, d.Y, 1e-9, name)
		require.InDelta(t, c.Z, d.Z, 1e-9, name)
		for i, ω := range want.Warping() {
			require.InDelta(t, ω, got.Warping()[own[i]], 1e-9, name)
		}
		for _, o := range shape.Solids() {
			for i, p := range o {
				q := o[(i+1)%len(o)]
				middle := section.Point{Y: 0.4*p.Y + 0.6*q.Y, Z: 0.4*p.Z + 0.6*q.Z}
				one, two := edgeShearOf(t, shape, middle.Y, middle.Z), edgeShearOf(t, drawn, middle.Y, middle.Z)
				require.InDelta(t, one.Stress, two.Stress, 1e-8, name)
				require.InDelta(t, one.Y, two.Y, 1e-8, name)
				require.InDelta(t, one.Z, two.Z, 1e-8, name)
			}
		}
	}
}

// Where the section changes, corners that lie idle all the way do not count, though
// they keep their height while the web grows.
func TestIdleCornersDoNotChangeTheFlowBetweenTwoSections(t *testing.T) {
	at := func(depth float64, idle, closed bool) section.Shape {
		web := func(o section.Outline, heights ...float64) section.Outline {
			if !idle {
				return o
			}
			more := append(section.Outline{}, o[:2]...)
			for _, z := range heights {
				more = append(more, section.Point{Y: o[1].Y + (z-o[1].Z)/(o[2].Z-o[1].Z)*(o[2].Y-o[1].Y), Z: z})
			}
			return append(more, o[2:]...)
		}
		outer := web(section.Outline{{Y: -1, Z: 0}, {Y: 1, Z: 0}, {Y: 1.4, Z: depth}, {Y: -1.4, Z: depth}}, 0.3, 0.7)
		if closed {
			return shapeOf(t, []section.Outline{outer}, web(section.Outline{{Y: -0.7, Z: 0.2}, {Y: 0.7, Z: 0.2}, {Y: 1, Z: depth - 0.2}, {Y: -1, Z: depth - 0.2}}, 0.5))
		}
		return shapeOf(t, []section.Outline{append(outer[:len(outer)-1:len(outer)-1], section.Point{Y: 1.1, Z: depth}, section.Point{Y: 0.7, Z: 0.2}, section.Point{Y: -0.7, Z: 0.2}, section.Point{Y: -1.1, Z: depth}, section.Point{Y: -1.4, Z: depth})})
	}
	for _, closed := range []bool{true, false} {
		change := func(idle bool) section.Change {
			return section.Change{Distance: 2e-3, Before: at(1.6, idle, closed), After: at(1.6002, idle, closed), From: section.Forces{N: -1e6, My: 2e6, Mz: 1e5}, To: section.Forces{N: -1e6, My: 2.002e6, Mz: 1.1e5}}
		}
		walls := wallsOf(t, at(1.6001, false, closed))
		want, err := walls.Between(change(false))
		require.NoError(t, err)
		got, err := wallsOf(t, at(1.6001, true, closed)).Between(change(true), walls.Cuts...)
		require.NoError(t, err)
		for i := range want {
			require.InDelta(t, want[i], got[i], 1e-9*1e6/change(false).Distance)
		}
	}
}

// A corner that lies idle half-way only, where the edge bends from in to out, keeps
// its place in the change: N beyond the cut changes with the area there.
func TestCornerIdleHalfWayCounts(t *testing.T) {
	at := func(out float64) section.Shape {
		return shapeOf(t, []section.Outline{{{Y: 0, Z: 0}, {Y: 1, Z: 0}, {Y: 1 + out, Z: 0.6}, {Y: 1, Z: 2}, {Y: 0, Z: 2}}})
	}
	const out, level, force = 1e-4, 1.0, -1e6
	walls := wallsOf(t, at(0))
	cut, err := walls.Across(section.Cut{From: section.Point{Y: 0, Z: level}, To: section.Point{Y: 1, Z: level}})
	require.NoError(t, err)
	flows, err := walls.Between(section.Change{Distance: 1e-3, Before: at(-out), After: at(out), From: section.Forces{N: force}, To: section.Forces{N: force}}, cut)
	require.NoError(t, err)
	beyond := func(s section.Shape) float64 { return force * s.Above(level).Area / s.Properties().Area }
	change := beyond(at(out)) - beyond(at(-out))
	require.Greater(t, math.Abs(change), 1.0)
	require.InEpsilon(t, math.Abs(change), math.Abs(flows[0]*1e-3), 1e-6)
}
