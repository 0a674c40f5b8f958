package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

func band(fromY, fromZ, toY, toZ float64) section.Band {
	return section.Band{From: section.Point{Y: fromY, Z: fromZ}, To: section.Point{Y: toY, Z: toZ}}
}

func TestWithoutTheOuterPartsOfAFlange(t *testing.T) {
	tee := polygon(t, -0.2, 0, 0.2, 0, 0.2, 1, 2, 1, 2, 1.2, -2, 1.2, -2, 1, -0.2, 1)
	narrow := polygon(t, -0.2, 0, 0.2, 0, 0.2, 1, 1.1, 1, 1.1, 1.2, -1.1, 1.2, -1.1, 1, -0.2, 1)
	got, err := tee.Without(band(1.1, 0, 5, 3), band(-5, 0, -1.1, 3))
	require.NoError(t, err)
	want := narrow.Properties()
	require.InDelta(t, want.Area, got.Area, 1e-12)
	require.InDelta(t, want.Centroid.Z, got.Centroid.Z, 1e-12)
	require.InDelta(t, want.SecondMomentY, got.SecondMomentY, 1e-12)
	require.InDelta(t, want.SecondMomentZ, got.SecondMomentZ, 1e-12)
	require.InDelta(t, want.Top, got.Top, 1e-12)
	require.InDelta(t, 2, got.Left, 1e-12, "corners of the whole shape")
	whole, err := tee.Without()
	require.NoError(t, err)
	requireSame(t, tee.Properties(), whole, 0)
	outside, err := tee.Without(band(7, 7, 8, 8))
	require.NoError(t, err)
	requireSame(t, tee.Properties(), outside, 0)
}

func TestWithoutAPieceOfAHollowShape(t *testing.T) {
	shape := hollow(t)
	got, err := shape.Without(band(-2, 1, 0, 2)) // a stretch of the left wall only
	require.NoError(t, err)
	require.InDelta(t, 4-0.5, got.Area, 1e-12)
	require.InDelta(t, 0.5*0.75/3.5, got.Centroid.Y, 1e-12)
	require.InDelta(t, 1.5, got.Centroid.Z, 1e-12)
	require.InDelta(t, shape.Properties().SecondMomentY-0.5/12, got.SecondMomentY, 1e-12)
	require.InDelta(t, 0, got.ProductMoment, 1e-12)
}

func TestWithoutRefuses(t *testing.T) {
	shape := hollow(t)
	for words, bands := range map[string][]section.Band{
		"band 1 from":             {band(1, 0, 1, 1)},
		"band 2 from":             {band(0, 0, 1, 1), band(2, math.NaN(), 3, 1)},
		"To above":                {band(0, 0, 1, math.Inf(1))},
		"band 2 overlaps band 1":  {band(0, 0, 1, 1), band(0.5, 0.5, 2, 2)},
		"outside the bands: must": {band(-2, -1, 2, 4)},
	} {
		_, err := shape.Without(bands...)
		require.ErrorIs(t, err, section.ErrShape)
		require.ErrorContains(t, err, words)
		require.ErrorContains(t, err, "must be")
	}
}
