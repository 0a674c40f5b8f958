package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

func shaped(t testing.TB, corners ...section.Point) section.Shape {
	t.Helper()
	s, err := section.New([]section.Outline{corners}, nil)
	require.NoError(t, err)
	return s
}

// unlikeParts are a web, a table beside its top with a sloping soffit, and a strip on
// both, of unlike moduli.
func unlikeParts(t testing.TB) []section.Piece {
	web := shaped(t, section.Point{Y: 0.1}, section.Point{Y: 0.5, Z: 0.1}, section.Point{Y: 0.4, Z: 1.2}, section.Point{Y: 0.1, Z: 1.2})
	table := shaped(t, section.Point{Y: -0.8, Z: 1.05}, section.Point{Y: 0.1, Z: 0.9}, section.Point{Y: 0.1, Z: 1.2}, section.Point{Y: -0.8, Z: 1.2})
	strip := shaped(t, section.Point{Y: -0.5, Z: 1.2}, section.Point{Y: 0.4, Z: 1.2}, section.Point{Y: 0.9, Z: 1.3}, section.Point{Y: 0.3, Z: 1.5}, section.Point{Y: -0.5, Z: 1.4})
	return []section.Piece{{Shape: web, ModularRatio: 1}, {Shape: table, ModularRatio: 0.7}, {Shape: strip, ModularRatio: 1.6}}
}

// The flow across a cut through the whole of an open section is the weighted first moment
// of what is beyond it.
func TestTransformedWallsAreInEquilibrium(t *testing.T) {
	pieces := unlikeParts(t)
	p, err := section.Transformed(pieces...)
	require.NoError(t, err)
	w, err := section.TransformedWalls(pieces...)
	require.NoError(t, err)
	plain, err := section.Joined(pieces[0].Shape, pieces[1].Shape, pieces[2].Shape)
	require.NoError(t, err)
	same, err := plain.Walls()
	require.NoError(t, err)
	far := 0.0
	for _, c := range []struct {
		from, to, normal section.Point
	}{
		{section.Point{Y: 0.1, Z: 0.5}, section.Point{Y: 0.5 - 0.1*0.4/1.1, Z: 0.5}, section.Point{Z: 1}},
		{section.Point{Y: -0.7, Z: 1.05 - 0.1*0.15/0.9}, section.Point{Y: -0.7, Z: 1.2}, section.Point{Y: 1}},
		{section.Point{Y: 0.1, Z: 0.3}, section.Point{Y: 0.5 - 0.2*0.1/1.1 - 0.1*0.1/1.1, Z: 0.3 + 0.1}, section.Point{}},
		{section.Point{Y: 0.7, Z: 1.2 + 0.1*0.3/0.5}, section.Point{Y: 0.7, Z: 1.3 + 0.2/3}, section.Point{Y: 1}},
	} {
		cut, err := w.Across(section.Cut{From: c.from, To: c.to})
		require.NoError(t, err)
		way := section.Point{Y: c.to.Y - c.from.Y, Z: c.to.Z - c.from.Z}
		left := section.Point{Y: -way.Z, Z: way.Y} // towards the left of the cut
		offset := left.Y*c.from.Y + left.Z*c.from.Z
		var beyond section.Part // on the right
		for _, piece := range pieces {
			part := piece.Shape.Beyond(section.Point{Y: -left.Y, Z: -left.Z}, -offset)
			beyond.Area += piece.ModularRatio * part.Area
			beyond.FirstMomentY += piece.ModularRatio * part.FirstMomentY
			beyond.FirstMomentZ += piece.ModularRatio * part.FirstMomentZ
		}
		for _, f := range []section.Forces{{Vz: 1}, {Vy: 1}} {
			got := f.Vy*cut.Y + f.Vz*cut.Z
			require.InDelta(t, p.ShearFlow(beyond, f), got, 1e-9, "from %v", c.from)
		}
		other, err := same.Across(section.Cut{From: c.from, To: c.to})
		require.NoError(t, err)
		far = math.Max(far, math.Abs(other.Z/cut.Z-1))
	}
	require.Greater(t, far, 0.05, "the moduli count")
}

// Two parts on each other: by hand.
func TestTransformedWallsOfTwoRectangles(t *testing.T) {
	low := shaped(t, section.Point{}, section.Point{Y: 0.3}, section.Point{Y: 0.3, Z: 0.8}, section.Point{Z: 0.8})
	top := shaped(t, section.Point{Z: 0.8}, section.Point{Y: 0.3, Z: 0.8}, section.Point{Y: 0.3, Z: 1.2}, section.Point{Z: 1.2})
	w, err := section.TransformedWalls(section.Piece{Shape: low, ModularRatio: 1}, section.Piece{Shape: top, ModularRatio: 0.5})
	require.NoError(t, err)
	cut, err := w.Across(section.Cut{From: section.Point{Z: 0.8}, To: section.Point{Y: 0.3, Z: 0.8}})
	require.NoError(t, err)
	z := (0.8*0.4 + 0.5*0.4*1.0) / (0.8 + 0.5*0.4)
	i := 0.3 * (0.8*0.8*0.8/12 + 0.8*(z-0.4)*(z-0.4) + 0.5*(0.4*0.4*0.4/12+0.4*(1-z)*(1-z)))
	require.InEpsilon(t, 0.5*0.3*0.4*(1-z)/i, math.Abs(cut.Z), 1e-12)
	require.InDelta(t, 0.15, w.ShearCentre.Y, 1e-9)
}

// With one ratio it is the joined outline; a box of parts of one ratio that is not 1 has
// the same flows.
func TestTransformedWallsOfOneModulus(t *testing.T) {
	u := shaped(t, section.Point{}, section.Point{Y: 2}, section.Point{Y: 2, Z: 1.5}, section.Point{Y: 1.7, Z: 1.5}, section.Point{Y: 1.7, Z: 0.3}, section.Point{Y: 0.4, Z: 0.3}, section.Point{Y: 0.4, Z: 1.5}, section.Point{Z: 1.5})
	lid := shaped(t, section.Point{Z: 1.5}, section.Point{Y: 2.2, Z: 1.5}, section.Point{Y: 2.2, Z: 1.75}, section.Point{Y: -0.5, Z: 1.75}, section.Point{Y: -0.5, Z: 1.5})
	whole, err := section.Joined(u, lid)
	require.NoError(t, err)
	want, err := whole.Walls()
	require.NoError(t, err)
	for _, ratio := range []float64{1, 2} {
		got, err := section.TransformedWalls(section.Piece{Shape: u, ModularRatio: ratio}, section.Piece{Shape: lid, ModularRatio: ratio})
		require.NoError(t, err)
		require.InEpsilon(t, ratio*want.Constant, got.Constant, 1e-9)
		require.InDelta(t, want.ShearCentre.Y, got.ShearCentre.Y, 1e-9)
		require.InDelta(t, want.ShearCentre.Z, got.ShearCentre.Z, 1e-9)
		for _, c := range want.Cuts {
			cut, err := got.Across(c.Cut)
			require.NoError(t, err)
			require.InDelta(t, c.Y, cut.Y, 1e-9)
			require.InDelta(t, c.Z, cut.Z, 1e-9)
			require.InDelta(t, c.T, cut.T, 1e-9)
		}
	}
}

// In a box of unlike parts V passes its walls, and T goes round by Bredt.
func TestTransformedWallsOfABox(t *testing.T) {
	u := shaped(t, section.Point{}, section.Point{Y: 2}, section.Point{Y: 2, Z: 1.5}, section.Point{Y: 1.7, Z: 1.5}, section.Point{Y: 1.7, Z: 0.3}, section.Point{Y: 0.3, Z: 0.3}, section.Point{Y: 0.3, Z: 1.5}, section.Point{Z: 1.5})
	lid := shaped(t, section.Point{Z: 1.5}, section.Point{Y: 2, Z: 1.5}, section.Point{Y: 2, Z: 1.7}, section.Point{Z: 1.7})
	pieces := []section.Piece{{Shape: u, ModularRatio: 1}, {Shape: lid, ModularRatio: 0.6}}
	p, err := section.Transformed(pieces...)
	require.NoError(t, err)
	w, err := section.TransformedWalls(pieces...)
	require.NoError(t, err)
	left, err := w.Across(section.Cut{From: section.Point{Z: 1}, To: section.Point{Y: 0.3, Z: 1}})
	require.NoError(t, err)
	right, err := w.Across(section.Cut{From: section.Point{Y: 1.7, Z: 1}, To: section.Point{Y: 2, Z: 1}})
	require.NoError(t, err)
	below := u.Beyond(section.Point{Z: -1}, -1)
	require.InDelta(t, math.Abs(p.ShearFlow(below, section.Forces{Vz: 1})), math.Abs(left.Z+right.Z), 1e-9)
	require.InDelta(t, left.Z, right.Z, 1e-9, "symmetric")
	require.InDelta(t, 1, w.ShearCentre.Y, 1e-9)
	require.InDelta(t, left.T, -right.T, 1e-9)
	stitched, err := section.Joined(u, lid)
	require.NoError(t, err)
	plain, err := stitched.Walls()
	require.NoError(t, err)
	even, err := plain.Across(section.Cut{From: section.Point{Z: 1}, To: section.Point{Y: 0.3, Z: 1}})
	require.NoError(t, err)
	require.InEpsilon(t, even.T, left.T, 0.03, "T over twice the area but for what the walls alone carry")
}

// What the flows of even walls are found from does not know of moduli: refused.
func TestTransformedWallsRefuse(t *testing.T) {
	w, err := section.TransformedWalls(unlikeParts(t)...)
	require.NoError(t, err)
	_, err = w.Warping()
	require.ErrorIs(t, err, section.ErrShape)
	require.ErrorContains(t, err, "transformed")
	_, err = w.Between(section.Change{Distance: 1})
	require.ErrorContains(t, err, "transformed")
	far := shaped(t, section.Point{Y: 5}, section.Point{Y: 6}, section.Point{Y: 6, Z: 1})
	_, err = section.TransformedWalls(append(unlikeParts(t), section.Piece{Shape: far, ModularRatio: 1})...)
	require.ErrorContains(t, err, "does not meet")
	_, err = section.TransformedWalls(section.Piece{Shape: far})
	require.ErrorContains(t, err, "ModularRatio")
}
