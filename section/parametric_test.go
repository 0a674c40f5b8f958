package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

var half = section.HalfBeam{
	Depth: 1.8, TopWidth: 4.5, RootWidth: 2.6, BottomWidth: 2.2, TopInner: 0.3, BottomInner: 0.4,
	TopSlab: 0.22, BottomSlab: 0.2, WebThickness: 0.3, CantileverRoot: 0.35, CantileverTip: 0.18,
	TopHaunch: section.Haunch{Width: 0.4, Height: 0.15}, BottomHaunch: section.Haunch{Width: 0.2, Height: 0.1},
}

var trough = section.Trough{
	Depth: 1.6, TopWidth: 2.4, BottomWidth: 1.4, WebThickness: 0.2, BottomSlab: 0.25,
	BottomHaunch: section.Haunch{Width: 0.1, Height: 0.1}, Lip: section.Lip{Outer: 0.2, Inner: 0.15, Thickness: 0.15},
}

var girder = section.IGirder{
	Depth: 1.8288, WebThickness: 0.1524,
	Top:    section.Flange{Width: 1.0668, Edge: 0.0889, Taper: 0.0508, Fillet: section.Haunch{Width: 0.0508, Height: 0.0508}},
	Bottom: section.Flange{Width: 0.6604, Edge: 0.1524, Taper: 0.1143},
}

var tee = section.DoubleTee{
	Width: 2.4, Slab: 0.05, StemDepth: 0.56, StemTop: 0.146, StemBottom: 0.095, Spacing: 1.2,
	Fillet: section.Haunch{Width: 0.03, Height: 0.03},
}

func TestUnequalWebs(t *testing.T) {
	box := usual
	box.LeftWebThickness = 0.45
	shape, err := box.Shape()
	require.NoError(t, err)
	require.InDelta(t, 0.225, shape.Clearance(section.Point{Y: box.LeftWebCentre(1), Z: 1}), 1e-12)
	require.InDelta(t, 0.16, shape.Clearance(section.Point{Y: -box.WebCentre(1), Z: 1}), 1e-12)
	equal, err := usual.Shape()
	require.NoError(t, err)
	p, q := shape.Properties(), equal.Properties()
	height := usual.Depth - usual.TopSlab - usual.BottomSlab
	require.InDelta(t, 0.13*height*math.Hypot(1, 0.4/1.9), p.Area-q.Area, 1e-12)
	require.Positive(t, p.Centroid.Y)
	require.NotZero(t, p.ProductMoment)
	box.LeftWebThickness = 3
	_, err = box.Shape()
	require.ErrorContains(t, err, "the webs meet")
}

func TestCrossFall(t *testing.T) {
	box := usual
	box.CrossFall = 0.04
	shape, err := box.Shape()
	require.NoError(t, err)
	p := shape.Properties()
	require.InDelta(t, 2.3+0.04*4.6, p.Centroid.Z+p.Top, 1e-12, "the left edge is the high one")
	require.InDelta(t, 0, p.Centroid.Z-p.Bottom, 1e-12)
	// The wall thicknesses stay: top slab measured upright, webs square.
	require.InDelta(t, 0.24/2*math.Cos(math.Atan(0.04)), shape.Clearance(section.Point{Y: 0, Z: 2.3 - 0.12}), 1e-12)
	require.InDelta(t, 0.16, shape.Clearance(section.Point{Y: box.LeftWebCentre(1), Z: 1}), 1e-12)
	require.InDelta(t, 0.16, shape.Clearance(section.Point{Y: -box.WebCentre(1), Z: 1}), 1e-12)
	box.CrossFall = -0.04
	other, err := box.Shape()
	require.NoError(t, err)
	require.InDelta(t, p.SecondMomentY, other.Mirrored().Properties().SecondMomentY, 1e-12)
	require.InDelta(t, p.ProductMoment, other.Mirrored().Properties().ProductMoment, 1e-12)
	for _, fall := range []float64{0.3, math.NaN()} {
		box.CrossFall = fall
		_, err = box.Shape()
		require.ErrorContains(t, err, "Box.CrossFall")
	}
}

func TestHalfBeamIsHalfOfTheBox(t *testing.T) {
	box := usual
	open := section.HalfBeam{
		Depth: box.Depth, TopWidth: box.TopWidth / 2, RootWidth: box.RootWidth / 2, BottomWidth: box.BottomWidth / 2,
		TopSlab: box.TopSlab, BottomSlab: box.BottomSlab, WebThickness: box.WebThickness,
		CantileverRoot: box.CantileverRoot, CantileverTip: box.CantileverTip, TopHaunch: box.TopHaunch, BottomHaunch: box.BottomHaunch,
	}
	left, err := open.Shape()
	require.NoError(t, err)
	whole, err := box.Shape()
	require.NoError(t, err)
	joined, err := section.Joined(left, left.Mirrored())
	require.NoError(t, err)
	require.Len(t, joined.Voids(), 1)
	require.Len(t, joined.Corners(), len(whole.Corners()))
	requireSame(t, whole.Properties(), joined.Properties(), 1e-12)
	require.InDelta(t, 0.16, left.Clearance(section.Point{Y: open.WebCentre(1), Z: 1}), 1e-12)
}

func requireSame(t *testing.T, want, got section.Properties, tolerance float64) {
	t.Helper()
	require.InDelta(t, want.Area, got.Area, tolerance)
	require.InDelta(t, want.Centroid.Y, got.Centroid.Y, tolerance)
	require.InDelta(t, want.Centroid.Z, got.Centroid.Z, tolerance)
	require.InDelta(t, want.SecondMomentY, got.SecondMomentY, tolerance)
	require.InDelta(t, want.SecondMomentZ, got.SecondMomentZ, tolerance)
	require.InDelta(t, want.ProductMoment, got.ProductMoment, tolerance)
	require.InDelta(t, want.Top, got.Top, tolerance)
	require.InDelta(t, want.Right, got.Right, tolerance)
	require.InDelta(t, want.OuterPerimeter, got.OuterPerimeter, tolerance)
	require.InDelta(t, want.InnerPerimeter, got.InnerPerimeter, tolerance)
}

func TestTwoHalvesAndTheirStitchesMakeADeck(t *testing.T) {
	left, err := half.Shape()
	require.NoError(t, err)
	top := shapeOf(t, []section.Outline{rectangle(-0.3, 1.58, 0.6, 0.22)})
	floor := shapeOf(t, []section.Outline{rectangle(-0.4, 0, 0.8, 0.2)})
	deck, err := section.Joined(left, top, floor, left.Mirrored())
	require.NoError(t, err)
	require.Len(t, deck.Solids(), 1)
	require.Len(t, deck.Voids(), 1)
	p := deck.Properties()
	require.InDelta(t, 2*left.Properties().Area+0.6*0.22+0.8*0.2, p.Area, 1e-12)
	require.InDelta(t, 0, p.Centroid.Y, 1e-12)
	require.InDelta(t, 0, p.ProductMoment, 1e-12)

	lower := shapeOf(t, []section.Outline{rectangle(-0.4, 0, 0.79, 0.2)})
	_, err = section.Joined(left, lower)
	require.ErrorIs(t, err, section.ErrShape)
	require.ErrorContains(t, err, "does not meet")
	_, err = section.Joined(left, shapeOf(t, []section.Outline{rectangle(-0.4, 0, 0.9, 0.2)}))
	require.ErrorIs(t, err, section.ErrShape, "overlap")
	_, err = section.Joined(left, left)
	require.ErrorContains(t, err, "overlap")
	_, err = section.Joined()
	require.ErrorContains(t, err, "no parts")
	_, err = section.Joined(left, section.Shape{})
	require.ErrorContains(t, err, "part 2 is empty")
	_, err = section.Joined(plain(t, 4, 3), plain(t, 1, 1))
	require.ErrorContains(t, err, "overlap")
}

func TestClosedHalfBeam(t *testing.T) {
	open, err := half.Shape()
	require.NoError(t, err)
	closed := half
	closed.InnerWall = 0.12
	shape, err := closed.Shape()
	require.NoError(t, err)
	require.Len(t, shape.Voids(), 1)
	require.InDelta(t, open.Properties().Area+0.12*(1.8-0.42), shape.Properties().Area, 1e-12)
	closed.BottomInner = closed.TopInner
	_, err = closed.Shape()
	require.NoError(t, err)
}

func TestTroughHalfAndInvertedL(t *testing.T) {
	u := half
	u.TopSlab, u.TopHaunch = 0, section.Haunch{}
	shape, err := u.Shape()
	require.NoError(t, err)
	require.Len(t, shape.Chords(1.7), 1)
	require.Len(t, shape.Chords(0.1), 1)
	l := half
	l.BottomSlab, l.BottomHaunch = 0, section.Haunch{}
	shape, err = l.Shape()
	require.NoError(t, err)
	web := 0.3 * math.Hypot(1, 0.4/1.45)
	require.InDelta(t, web, shape.Chords(0.05)[0].To-shape.Chords(0.05)[0].From, 1e-12)
}

func TestTroughDimensions(t *testing.T) {
	shape, err := trough.Shape()
	require.NoError(t, err)
	p := shape.Properties()
	require.InDelta(t, 0, p.ProductMoment, 1e-12)
	require.InDelta(t, 0.1, shape.Clearance(section.Point{Y: trough.WebCentre(0.8), Z: 0.8}), 1e-12)
	slope := 0.5 / 1.6
	inner := func(z float64) float64 { return 0.7 + slope*z - 0.2*math.Hypot(1, slope) }
	outline := (1.4 + 2*(0.7+slope*1.45)) / 2 * 1.45
	cavity := (inner(0.25)+inner(1.45))*1.2 - 0.1*0.1
	lips := 2 * 0.15 * (0.2 + 0.15 + 0.2*math.Hypot(1, slope))
	require.InDelta(t, outline-cavity+lips, p.Area, 1e-12)
	bare := trough
	bare.Lip = section.Lip{}
	_, err = bare.Shape()
	require.NoError(t, err)
}

func TestIGirderAndDoubleTee(t *testing.T) {
	shape, err := girder.Shape()
	require.NoError(t, err)
	require.InDelta(t, 767*0.0254*0.0254, shape.Properties().Area, 1e-12)
	require.InDelta(t, 0.0762, shape.Clearance(section.Point{Y: 0, Z: 0.9}), 1e-12)
	beam := section.IGirder{Depth: 1, WebThickness: 0.4, Top: section.Flange{Width: 0.4, Edge: 0.1}, Bottom: section.Flange{Width: 0.4, Edge: 0.1}}
	shape, err = beam.Shape()
	require.NoError(t, err, "a rectangular beam")
	require.InDelta(t, 0.4, shape.Properties().Area, 1e-12)

	shape, err = tee.Shape()
	require.NoError(t, err)
	stems := 2 * 0.56 * (0.146 + 0.095) / 2
	face := (0.146 - 0.095) / 2 / 0.56 * 0.03 // the stem's face leans out under the fillet
	require.InDelta(t, 2.4*0.05+stems+4*(0.03*(0.03+face)-face*0.03)/2, shape.Properties().Area, 1e-12)
}

func TestVoidedSlabHasTheAreaOfCircles(t *testing.T) {
	slab := section.VoidedSlab{Width: 6, Depth: 0.9, Voids: 5, VoidDiameter: 0.55, VoidSpacing: 1.1}
	shape, err := slab.Shape()
	require.NoError(t, err)
	p := shape.Properties()
	circle := math.Pi * 0.55 * 0.55 / 4
	require.InDelta(t, 6*0.9-5*circle, p.Area, 1e-12)
	require.InDelta(t, 6*0.9*0.9*0.9/12-5*math.Pi*math.Pow(0.55, 4)/64, p.SecondMomentY, 1e-6)
	requireChordError(t, shape, 0.005*0.55) // the default
	slab.ChordError = 0.001
	shape, err = slab.Shape()
	require.NoError(t, err)
	requireChordError(t, shape, 0.001)
	slab.VoidLevel = 0.3
	shape, err = slab.Shape()
	require.NoError(t, err)
	require.Greater(t, shape.Properties().Centroid.Z, 0.45)
	solid, err := section.VoidedSlab{Width: 6, Depth: 0.9}.Shape()
	require.NoError(t, err)
	require.InDelta(t, 5.4, solid.Properties().Area, 1e-12)
}

// requireChordError checks corners and middles of chords of circular voids of
// diameter 0.55 at z = 0.45 and multiples of 1.1 along y.
func requireChordError(t *testing.T, shape section.Shape, allowed float64) {
	t.Helper()
	for _, void := range shape.Voids() {
		for i, a := range void {
			b := void[(i+1)%len(void)]
			centre := math.Round(a.Y/1.1) * 1.1
			require.InDelta(t, 0.275, math.Hypot(a.Y-centre, a.Z-0.45), allowed)
			require.InDelta(t, 0.275, math.Hypot((a.Y+b.Y)/2-centre, (a.Z+b.Z)/2-0.45), allowed)
		}
	}
}

func TestRoundedRectangle(t *testing.T) {
	outline, err := section.RoundedRectangle(section.Point{Y: 1, Z: 2}, 4, 2, 0.5, 1e-5)
	require.NoError(t, err)
	p := shapeOf(t, []section.Outline{outline}).Properties()
	require.InDelta(t, 8-(4-math.Pi)*0.25, p.Area, 4e-5)
	require.InDelta(t, 1, p.Centroid.Y, 1e-9)
	require.InDelta(t, 2, p.Centroid.Z, 1e-9)
	require.InDelta(t, 2, p.Left, 1e-9)
}

func TestTransformedDeckOnGirder(t *testing.T) {
	beam := plain(t, 0.4, 1)
	slab, err := plain(t, 2, 0.2).Moved(section.Point{Z: 1})
	require.NoError(t, err)
	p, err := section.Transformed(section.Piece{Shape: beam, ModularRatio: 1}, section.Piece{Shape: slab, ModularRatio: 0.5})
	require.NoError(t, err)
	area, slabArea := 0.4, 0.5*0.4
	z := (area*0.5 + slabArea*1.1) / (area + slabArea)
	require.InDelta(t, area+slabArea, p.Area, 1e-12)
	require.InDelta(t, z, p.Centroid.Z, 1e-12)
	second := 0.4/12 + area*(z-0.5)*(z-0.5) + 0.5*2*0.008/12 + slabArea*(1.1-z)*(1.1-z)
	require.InDelta(t, second, p.SecondMomentY, 1e-12)
	require.InDelta(t, 1.2-z, p.Top, 1e-12)
	require.InDelta(t, 1, p.Left, 1e-12)
	require.InDelta(t, 2*(2+1.2), p.OuterPerimeter, 1e-12)
	equal, err := section.Transformed(section.Piece{Shape: beam, ModularRatio: 1}, section.Piece{Shape: slab, ModularRatio: 1})
	require.NoError(t, err)
	joined, err := section.Joined(beam, slab)
	require.NoError(t, err)
	requireSame(t, joined.Properties(), equal, 1e-12)
	for _, ratio := range []float64{0, -1, math.NaN(), math.Inf(1)} {
		_, err = section.Transformed(section.Piece{Shape: beam, ModularRatio: ratio})
		require.ErrorContains(t, err, "ModularRatio")
	}
	_, err = section.Transformed(section.Piece{Shape: beam, ModularRatio: 1}, section.Piece{Shape: beam, ModularRatio: 1})
	require.ErrorIs(t, err, section.ErrShape)
}

func TestMovedAndMirrored(t *testing.T) {
	shape, err := half.Shape()
	require.NoError(t, err)
	p := shape.Properties()
	image := shape.Mirrored().Properties()
	require.InDelta(t, -p.Centroid.Y, image.Centroid.Y, 1e-12)
	require.InDelta(t, -p.ProductMoment, image.ProductMoment, 1e-12)
	require.InDelta(t, p.Left, image.Right, 1e-12)
	moved, err := shape.Moved(section.Point{Y: 3, Z: -2})
	require.NoError(t, err)
	require.InDelta(t, p.Centroid.Y+3, moved.Properties().Centroid.Y, 1e-12)
	require.InDelta(t, p.SecondMomentY, moved.Properties().SecondMomentY, 1e-12)
	for _, by := range []section.Point{{Y: 1e9}, {Z: math.NaN()}} {
		_, err = shape.Moved(by)
		require.ErrorIs(t, err, section.ErrShape)
	}
}
