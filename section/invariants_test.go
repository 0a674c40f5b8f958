package section_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// skyline is a random outline between a lower and an upper chain of corners at
// common places y, so that an upright cut at any of them parts it in two.
type skyline struct{ y, lower, upper []float64 }

func randomSkyline(random *rand.Rand) skyline {
	n := 3 + random.IntN(8)
	var s skyline
	y := random.Float64()
	for range n {
		y += 0.1 + random.Float64()
		low := random.Float64()
		s.y, s.lower, s.upper = append(s.y, y), append(s.lower, low), append(s.upper, low+0.1+2*random.Float64())
	}
	return s
}

// outline is the part between two of its places.
func (s skyline) outline(from, to int) section.Outline {
	var o section.Outline
	for i := from; i <= to; i++ {
		o = append(o, section.Point{Y: s.y[i], Z: s.lower[i]})
	}
	for i := to; i >= from; i-- {
		o = append(o, section.Point{Y: s.y[i], Z: s.upper[i]})
	}
	return o
}

func TestInvariantsOfRandomShapes(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 4))
	for range 200 {
		skyline := randomSkyline(random)
		shape := shapeOf(t, []section.Outline{skyline.outline(0, len(skyline.y)-1)})
		p := shape.Properties()

		moved, err := shape.Moved(section.Point{Y: -70, Z: 30})
		require.NoError(t, err)
		q := moved.Properties()
		require.InEpsilon(t, p.SecondMomentZ, q.SecondMomentZ, 1e-9)
		require.InDelta(t, p.ProductMoment, q.ProductMoment, 1e-9*(p.SecondMomentY+p.SecondMomentZ))
		require.InDelta(t, p.Centroid.Y-70, q.Centroid.Y, 1e-10)

		back := shape.Mirrored().Mirrored()
		requireSame(t, p, back.Properties(), 1e-12)

		angle, scale := random.Float64()*math.Pi, 0.1+random.Float64()*5
		turned := turnedBy(t, shape, angle, scale, section.Point{}).Properties()
		require.InEpsilon(t, p.Area*scale*scale, turned.Area, 1e-10)
		require.InEpsilon(t, p.Principal().Major*math.Pow(scale, 4), turned.Principal().Major, 1e-9)
		require.InEpsilon(t, p.Principal().Minor*math.Pow(scale, 4), turned.Principal().Minor, 1e-8)
		require.InDelta(t, 0, math.Sin(p.Principal().Angle+angle-turned.Principal().Angle), 1e-6)
		require.InEpsilon(t, p.OuterPerimeter*scale, turned.OuterPerimeter, 1e-10)
	}
}

func TestSplittingInTwoAndAdding(t *testing.T) {
	random := rand.New(rand.NewPCG(2, 9))
	for range 200 {
		skyline := randomSkyline(random)
		last := len(skyline.y) - 1
		cut := 1 + random.IntN(last-1)
		whole := shapeOf(t, []section.Outline{skyline.outline(0, last)})
		left := shapeOf(t, []section.Outline{skyline.outline(0, cut)})
		right := shapeOf(t, []section.Outline{skyline.outline(cut, last)})
		joined, err := section.Joined(left, right)
		require.NoError(t, err)
		requireSame(t, whole.Properties(), joined.Properties(), 1e-9)
		added, err := section.Transformed(section.Piece{Shape: left, ModularRatio: 1}, section.Piece{Shape: right, ModularRatio: 1})
		require.NoError(t, err)
		requireSame(t, whole.Properties(), added, 1e-9)
		beyond := whole.Beyond(section.Point{Y: 1}, skyline.y[cut])
		require.InDelta(t, right.Properties().Area, beyond.Area, 1e-9)
	}
}

func TestWarpingConstant(t *testing.T) {
	angle := torsionOf(t, polygon(t, 0, 0, 2, 0, 2, 0.3, 0.2, 0.3, 0.2, 1.5, 0, 1.5)).WarpingConstant()
	image := torsionOf(t, polygon(t, 0, 0, 2, 0, 2, 0.3, 0.2, 0.3, 0.2, 1.5, 0, 1.5).Mirrored()).WarpingConstant()
	require.InEpsilon(t, angle, image, 1e-3)
	double := torsionOf(t, polygon(t, 0, 0, 4, 0, 4, 0.6, 0.4, 0.6, 0.4, 3, 0, 3)).WarpingConstant()
	require.InEpsilon(t, 64*angle, double, 1e-6, "m⁶")
	circle, err := section.Circle(section.Point{Y: 3}, 2, 0.002)
	require.NoError(t, err)
	require.InDelta(t, 0, torsionOf(t, shapeOf(t, []section.Outline{circle})).WarpingConstant(), 1e-6, "round shapes do not warp")
	require.Zero(t, section.Torsion{}.WarpingConstant())
}
