package section_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// begunElsewhere is a shape whose outlines each begin at a random corner.
func begunElsewhere(t testing.TB, shape section.Shape, random *rand.Rand) section.Shape {
	t.Helper()
	later := func(outlines []section.Outline) []section.Outline {
		for k, o := range outlines {
			outlines[k] = begunLater(o, random.IntN(len(o)))
		}
		return outlines
	}
	return shapeOf(t, later(shape.Solids()), later(shape.Voids())...)
}

// orderShapes are those of wallShapes and some in which circles touch three faces or
// more at once.
func orderShapes(t testing.TB) map[string]section.Shape {
	shapes := wallShapes(t)
	shapes["narrow rectangle"] = plain(t, 0.3, 1)
	shapes["triangle"] = polygon(t, 0, 0, 2, 0, 1, 1.7)
	shapes["tee"] = polygon(t, -0.1, 0, 0.1, 0, 0.1, 1, 0.8, 1, 0.8, 1.2, -0.8, 1.2, -0.8, 1, -0.1, 1)
	shapes["cross"] = polygon(t, -0.1, -1, 0.1, -1, 0.1, -0.1, 1, -0.1, 1, 0.1, 0.1, 0.1, 0.1, 1, -0.1, 1, -0.1, 0.1, -1, 0.1, -1, -0.1, -0.1, -0.1)
	shapes["void round a column"] = shapeOf(t, []section.Outline{rectangle(-2, 0, 4, 3)}, section.Outline{{Y: -1.6, Z: 0.3}, {Y: 1.6, Z: 0.3}, {Y: 1.6, Z: 2.6}, {Y: 0.5, Z: 2.6}, {Y: 0.5, Z: 0.8}, {Y: -0.5, Z: 0.8}, {Y: -0.5, Z: 2.6}, {Y: -1.6, Z: 2.6}})
	shapes["tube"] = shapeOf(t, ellipse(t, 1, 1, 32).Solids(), ellipse(t, 0.8, 0.8, 32).Solids()...)
	shapes["oval tube"] = shapeOf(t, ellipse(t, 1, 1.5, 32).Solids(), ellipse(t, 0.8, 1.2, 40).Solids()...)
	shapes["zed"] = polygon(t, 0, 0, 1.2, 0, 1.2, 1.5, 2, 1.5, 2, 1.8, 0.9, 1.8, 0.9, 0.3, 0, 0.3)
	return shapes
}

// Walls do not depend on the corner at which an outline begins.
func TestWallsDoNotDependOnTheFirstCorner(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 10))
	for name, shape := range orderShapes(t) {
		t.Run(name, func(t *testing.T) {
			walls, p := wallsOf(t, shape), shape.Properties()
			for range 5 {
				requireSameWalls(t, walls, wallsOf(t, begunElsewhere(t, shape, random)), p.Top+p.Bottom, func(p section.Point) section.Point { return p }, 1)
			}
		})
	}
}

// Nor on left and right.
func TestWallsOfTheMirrorImage(t *testing.T) {
	for name, shape := range orderShapes(t) {
		t.Run(name, func(t *testing.T) {
			p := shape.Properties()
			mirror := func(p section.Point) section.Point { return section.Point{Y: -p.Y, Z: p.Z} }
			requireSameWalls(t, wallsOf(t, shape), wallsOf(t, shape.Mirrored()), p.Top+p.Bottom, mirror, -1)
		})
	}
}

// The shear centre of a section with two axes is its centroid.
func TestShearCentreOnTheAxes(t *testing.T) {
	for name, shape := range orderShapes(t) {
		p := shape.Properties()
		walls := wallsOf(t, shape)
		switch name {
		case "narrow rectangle", "rectangle", "square", "hollow", "cross":
			require.InDelta(t, p.Centroid.Z, walls.ShearCentre.Z, 1e-9*(p.Top+p.Bottom), name)
			fallthrough
		case "triangle", "tee", "box", "trough", "girder", "double tee", "two cells", "voided slab":
			require.InDelta(t, p.Centroid.Y, walls.ShearCentre.Y, 1e-9*(p.Top+p.Bottom), name)
		}
	}
}

// requireSameWalls compares walls with those of a shape that was moved; hand is −1
// where left and right change places.
func requireSameWalls(t *testing.T, want, got section.Walls, depth float64, moved func(section.Point) section.Point, hand float64) {
	t.Helper()
	require.InEpsilon(t, want.Constant, got.Constant, 1e-9)
	require.Len(t, got.Cuts, len(want.Cuts))
	centre := moved(want.ShearCentre)
	require.InDelta(t, centre.Y, got.ShearCentre.Y, 1e-9*depth)
	require.InDelta(t, centre.Z, got.ShearCentre.Z, 1e-9*depth)
	for _, cut := range want.Cuts {
		ends := [2]section.Point{moved(cut.From), moved(cut.To)}
		if hand < 0 {
			slices.Reverse(ends[:])
		}
		same, err := got.Across(section.Cut{From: ends[0], To: ends[1]})
		require.NoError(t, err)
		scale := 1e-9 * max(1, math.Abs(cut.Z)*depth, math.Abs(cut.Y)*depth)
		require.InDelta(t, hand*cut.Y*depth, same.Y*depth, scale)
		require.InDelta(t, cut.Z*depth, same.Z*depth, scale)
		require.True(t, slices.ContainsFunc(got.Cuts, func(c section.WallCut) bool {
			there, back := straight(ends[0], c.From)+straight(ends[1], c.To), straight(ends[0], c.To)+straight(ends[1], c.From)
			return math.Min(there, back) < 1e-7*depth
		}), "the cut from %v to %v is chosen in both", ends[0], ends[1])
		require.InEpsilon(t, 1+math.Abs(cut.T)*depth*depth, 1+math.Abs(same.T)*depth*depth, 1e-9)
	}
	requireMirroredWarping(t, want, got, depth, moved, hand)
}

func requireMirroredWarping(t *testing.T, want, got section.Walls, depth float64, moved func(section.Point) section.Point, hand float64) {
	t.Helper()
	if want.Cells > 0 {
		return
	}
	warping, err := want.Warping()
	require.NoError(t, err)
	other, err := got.Warping()
	require.NoError(t, err)
	require.InDelta(t, warping.Constant, other.Constant, 1e-9*math.Pow(depth, 6))
	for _, cut := range want.Cuts {
		require.InDelta(t, hand*warping.At(cut.From), other.At(moved(cut.From)), 1e-9*depth*depth)
	}
}

// The same of random shapes, begun anywhere, mirrored and turned by a right angle,
// with idle corners or without.
func TestWallsOfRandomShapesDoNotDependOnTheirDrawing(t *testing.T) {
	random := rand.New(rand.NewPCG(16, 21))
	looked := 0
	for looked < 40 {
		shape, err := randomParametric(random)
		if err != nil {
			continue
		}
		looked++
		walls, p := wallsOf(t, shape), shape.Properties()
		depth := p.Top + p.Bottom
		drawn, _ := withIdle(t, begunElsewhere(t, shape, random), random)
		requireSameWalls(t, walls, wallsOf(t, drawn), depth, func(p section.Point) section.Point { return p }, 1)
		mirror := func(p section.Point) section.Point { return section.Point{Y: -p.Y, Z: p.Z} }
		requireSameWalls(t, walls, wallsOf(t, drawn.Mirrored()), depth, mirror, -1)
		turned := wallsOf(t, turnedBy(t, shape, math.Pi/2, 1, section.Point{}))
		require.InEpsilon(t, walls.Constant, turned.Constant, 1e-9)
		require.InDelta(t, -walls.ShearCentre.Z, turned.ShearCentre.Y, 1e-9*depth)
		require.InDelta(t, walls.ShearCentre.Y, turned.ShearCentre.Z, 1e-9*depth)
	}
}
