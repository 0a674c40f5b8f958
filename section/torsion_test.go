package section_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

func polygon(t testing.TB, pairs ...float64) section.Shape {
	t.Helper()
	var o section.Outline
	for i := 0; i < len(pairs); i += 2 {
		o = append(o, section.Point{Y: pairs[i], Z: pairs[i+1]})
	}
	return shapeOf(t, []section.Outline{o})
}

func torsionOf(t testing.TB, shape section.Shape) section.Torsion {
	t.Helper()
	torsion, err := shape.Torsion()
	require.NoError(t, err)
	return torsion
}

func centreOf(t testing.TB, shape section.Shape, poisson float64) section.Point {
	t.Helper()
	centre, err := torsionOf(t, shape).ShearCentre(poisson)
	require.NoError(t, err)
	return centre
}

// turnedBy turns a shape about the origin, scales it and moves it.
func turnedBy(t testing.TB, shape section.Shape, angle, scale float64, by section.Point) section.Shape {
	t.Helper()
	sin, cos := math.Sincos(angle)
	turn := func(outlines []section.Outline) []section.Outline {
		for _, o := range outlines {
			for i, p := range o {
				o[i] = section.Point{Y: scale*(p.Y*cos-p.Z*sin) + by.Y, Z: scale*(p.Y*sin+p.Z*cos) + by.Z}
			}
		}
		return outlines
	}
	return shapeOf(t, turn(shape.Solids()), turn(shape.Voids())...)
}

func TestTorsionDoesNotDependOnHowTheShapeIsDrawn(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 8))
	open, err := half.Shape()
	require.NoError(t, err)
	for _, shape := range []section.Shape{open, hollow(t), polygon(t, 0, 0, 2, 0, 2, 0.3, 0.2, 0.3, 0.2, 1.5, 0, 1.5)} {
		want, c := torsionOf(t, shape), centreOf(t, shape, 0.2)
		angle, scale, by := random.Float64()*3, 0.2+3*random.Float64(), section.Point{Y: random.Float64() * 9, Z: -4}
		drawn := turnedBy(t, shape, angle, scale, by)
		got, g := torsionOf(t, drawn), centreOf(t, drawn, 0.2)
		require.InEpsilon(t, want.Constant*math.Pow(scale, 4), got.Constant, 1e-6)
		sin, cos := math.Sincos(angle)
		require.InDelta(t, scale*(c.Y*cos-c.Z*sin)+by.Y, g.Y, 1e-5)
		require.InDelta(t, scale*(c.Y*sin+c.Z*cos)+by.Z, g.Z, 1e-5)
		image := shape.Mirrored()
		require.InEpsilon(t, want.Constant, torsionOf(t, image).Constant, 1e-4)
		require.InDelta(t, -c.Y, centreOf(t, image, 0.2).Y, 1e-4)
	}
}

func TestShearCentreLiesOnAxesOfSymmetry(t *testing.T) {
	box, err := usual.Shape()
	require.NoError(t, err)
	require.InDelta(t, 0, centreOf(t, box, 0.2).Y, 1e-6)
	beam, err := girder.Shape()
	require.NoError(t, err)
	require.InDelta(t, 0, centreOf(t, beam, 0).Y, 1e-6)
	c := centreOf(t, hollow(t), 0.5)
	require.InDelta(t, 0, c.Y, 1e-6)
	require.InDelta(t, 1.5, c.Z, 1e-6)
	square := centreOf(t, polygon(t, 0, 0, 1, 0, 1, 1, 0, 1), 0.3)
	require.InDelta(t, 0.5, square.Y, 1e-9)
	require.InDelta(t, 0.5, square.Z, 1e-9)
}

func TestJLiesBetweenWhatItMust(t *testing.T) {
	box, err := usual.Shape()
	require.NoError(t, err)
	j := torsionOf(t, box).Constant
	bredt, err := usual.Bredt()
	require.NoError(t, err)
	require.Greater(t, j, bredt, "haunches, cantilevers and thick walls add to the thin cell")
	require.Less(t, j, 1.15*bredt)
	p := box.Properties()
	require.Less(t, j, p.SecondMomentY+p.SecondMomentZ, "J is at most the polar moment")
	require.Less(t, torsionOf(t, hollow(t)).Constant, torsionOf(t, hollow(t).Filled()).Constant, "a void takes away")
}

func TestTorsionConverges(t *testing.T) {
	box, err := usual.Shape()
	require.NoError(t, err)
	torsion := torsionOf(t, box)
	require.LessOrEqual(t, torsion.Change, 0.0005)
	require.Positive(t, torsion.Nodes)
	// The same solution with 1,700 nodes: a value from our own refinement.
	require.InEpsilon(t, 7.49217, torsion.Constant, 5e-4)
}

// A strip 250 thicknesses long takes 1100 nodes, twice as many are too many: J
// then comes with the change that is left, to within 0.4 %.
func TestTorsionIsContentWithLessWhenNodesRunOut(t *testing.T) {
	torsion := torsionOf(t, plain(t, 1, 250))
	require.Greater(t, torsion.Change, 0.0015)
	require.Less(t, torsion.Change, 0.004)
	require.InEpsilon(t, (250-0.6302)/3, torsion.Constant, torsion.Change, "Saint-Venant's series for b ≫ t: t³·(b − 0.6302·t)/3")
}

// toothed is a block with square teeth on it, four corners each.
func toothed(t *testing.T, teeth int) section.Shape {
	width := 0.2 * float64(teeth)
	o := section.Outline{{Y: 0, Z: -1}, {Y: width, Z: -1}}
	for i := range teeth {
		y := width - 0.2*float64(i)
		o = append(o, section.Point{Y: y, Z: 0.1}, section.Point{Y: y - 0.1, Z: 0.1}, section.Point{Y: y - 0.1}, section.Point{Y: y - 0.2})
	}
	return shapeOf(t, []section.Outline{o})
}

func TestTorsionRefuses(t *testing.T) {
	two := shapeOf(t, []section.Outline{rectangle(0, 0, 1, 1), rectangle(2, 0, 1, 1)})
	for words, shape := range map[string]section.Shape{
		"2 solid outlines": two,
		"0 solid outlines": {},
		"not settled":      plain(t, 1, 320),
		"with 4 corners: takes 1064 boundary nodes, and halving every element more than 1800": plain(t, 1, 500),
		"with 500 corners": ellipse(t, 1, 1, 500),
		"with 82 corners: takes 1322 boundary nodes, and halving every element more than 1800: must be up to about 40 corners that turn more than 0.5 rad (has 82)": toothed(t, 20),
		"with 122 corners: its coarsest division takes more than 1800 boundary nodes":                                                                               toothed(t, 30),
		"with 1000 corners: its coarsest division": ellipse(t, 1, 1, 1000),
	} {
		_, err := shape.Torsion()
		require.ErrorIs(t, err, section.ErrShape)
		require.ErrorContains(t, err, words)
		require.ErrorContains(t, err, "must be")
	}
	torsion := torsionOf(t, hollow(t))
	for _, poisson := range []float64{-0.1, 0.6, math.NaN()} {
		_, err := torsion.ShearCentre(poisson)
		require.ErrorIs(t, err, section.ErrShape)
	}
	_, err := section.Torsion{}.ShearCentre(0)
	require.ErrorIs(t, err, section.ErrShape)
}

func TestEdgeShear(t *testing.T) {
	angle := polygon(t, 0, 0, 2, 0, 2, 0.3, 0.3, 0.3, 0.3, 1.5, 0, 1.5)
	torsion := torsionOf(t, angle)
	before := 0.0
	for _, radius := range []float64{0.3, 0.1, 0.03, 0.01} {
		e, err := torsion.LargestEdgeShear(radius)
		require.NoError(t, err)
		require.GreaterOrEqual(t, math.Abs(e.Stress), before)
		require.GreaterOrEqual(t, math.Hypot(e.At.Y-0.3, e.At.Z-0.3), radius)
		before = math.Abs(e.Stress)
	}
	// Far from corners and ends a leg is a thin strip: τ = T·t/J.
	e, err := torsion.EdgeShear(section.Point{Y: 1.2, Z: 0})
	require.NoError(t, err)
	require.InEpsilon(t, 0.3/torsion.Constant, e.Stress, 5e-3)
	opposite, err := torsion.EdgeShear(section.Point{Y: 1.2, Z: 0.3})
	require.NoError(t, err)
	require.InEpsilon(t, 0.3/torsion.Constant, opposite.Stress, 5e-3, "the same on both faces, seen along the outline")
	_, err = torsion.EdgeShear(section.Point{Y: 1.2, Z: 0.15})
	require.ErrorContains(t, err, "away from any outline")
	_, err = torsion.EdgeShear(section.Point{Y: math.NaN()})
	require.ErrorIs(t, err, section.ErrShape)
	for _, radius := range []float64{0, -1, math.NaN(), math.Inf(1), 100} {
		_, err = torsion.LargestEdgeShear(radius)
		require.ErrorIs(t, err, section.ErrShape)
	}
	square := torsionOf(t, plain(t, 1, 1))
	_, err = square.LargestEdgeShear(0)
	require.NoError(t, err, "no re-entrant corner, no radius")
}

func FuzzTorsion(f *testing.F) {
	f.Add(0.0, 0.0, 4.0, 0.0, 4.0, 2.0, 0.0, 2.0)
	f.Fuzz(func(t *testing.T, a, b, c, d, e, g, h, i float64) {
		shape, err := section.New([]section.Outline{{{Y: a, Z: b}, {Y: c, Z: d}, {Y: e, Z: g}, {Y: h, Z: i}}}, nil)
		if err != nil {
			return
		}
		torsion, err := shape.Torsion()
		if err != nil {
			require.ErrorIs(t, err, section.ErrShape)
			return
		}
		p := shape.Properties()
		require.Positive(t, torsion.Constant)
		require.Less(t, torsion.Constant, 1.01*(p.SecondMomentY+p.SecondMomentZ))
		centre, err := torsion.ShearCentre(0.2)
		require.NoError(t, err)
		require.False(t, math.IsNaN(centre.Y+centre.Z) || math.IsInf(centre.Y+centre.Z, 0))
	})
}

func BenchmarkTorsion(b *testing.B) {
	box, err := usual.Shape()
	require.NoError(b, err)
	open, err := half.Shape()
	require.NoError(b, err)
	for name, shape := range map[string]section.Shape{"haunched box": box, "half beam": open} {
		solids, voids := shape.Solids(), shape.Voids()
		b.Run(name, func(b *testing.B) {
			for b.Loop() { // a Shape keeps its Torsion: each is a new one
				if _, err := shapeOf(b, solids, voids...).Torsion(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
