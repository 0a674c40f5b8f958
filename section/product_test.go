package section_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// An inclusion left of and above the centroid adds to Iyz with its own sign: a
// rectangle of 2 × 1 m, in it weight·d_y·d_z less what the shifted centroid takes.
func TestInclusionAddsToTheProductMomentWithItsSign(t *testing.T) {
	shape := plain(t, 2, 1)
	for _, c := range []struct{ y, z, ratio float64 }{
		{0.6, 0.8, 7}, {-0.6, 0.8, 7}, {0.6, 0.2, 7}, {0.6, 0.8, 0}, {-0.6, 0.2, 0},
	} {
		const area = 0.01
		weight := area * (c.ratio - 1)
		p, err := shape.With(section.BondedSteel(at(c.y, c.z), area, c.ratio))
		require.NoError(t, err)
		dy, dz := c.y, c.z-0.5
		// Two masses a distance d apart: m·M/(m + M)·d_y·d_z.
		require.InDelta(t, weight*2/(2+weight)*dy*dz, p.ProductMoment, 1e-15, "%v", c)
		require.InDelta(t, weight*dy/(2+weight), p.Centroid.Y, 1e-15)
	}
	// Two on one diagonal do not shift the centroid and add up; with the rectangle's
	// own product moment they change that of an angle likewise.
	p, err := shape.With(section.Duct(at(0.6, 0.8), 0.1), section.Duct(at(-0.6, 0.2), 0.1))
	require.NoError(t, err)
	require.InDelta(t, -2*0.6*0.3*section.Duct(at(0, 0), 0.1).Area, p.ProductMoment, 1e-15)
}

// Without the end of its flange an L is the L with a shorter flange, Iyz and all.
func TestEffectiveWidthOfAnAngleKeepsTheProductMoment(t *testing.T) {
	long := polygon(t, 0, 0, 3, 0, 3, 0.2, 0.4, 0.2, 0.4, 1.5, 0, 1.5)
	short := polygon(t, 0, 0, 2.1, 0, 2.1, 0.2, 0.4, 0.2, 0.4, 1.5, 0, 1.5).Properties()
	require.Less(t, short.ProductMoment, -0.1, "the flange lies to the left and low, the web to the right and high")
	got, err := long.Without(section.Band{From: at(2.1, -1), To: at(3.5, 0.5)})
	require.NoError(t, err)
	require.InDelta(t, short.ProductMoment, got.ProductMoment, 1e-14)
	require.InDelta(t, short.SecondMomentY, got.SecondMomentY, 1e-14)
	require.InDelta(t, short.SecondMomentZ, got.SecondMomentZ, 1e-14)
	image, err := long.Mirrored().Without(section.Band{From: at(-3.5, -1), To: at(-2.1, 0.5)})
	require.NoError(t, err)
	require.InDelta(t, -short.ProductMoment, image.ProductMoment, 1e-14)
	// A slanted part has a product moment of its own: a triangle b·h off an end.
	const b, h = 0.9, 0.2
	slanted := polygon(t, 0, 0, 3, 0, 2.1, 0.2, 0.4, 0.2, 0.4, 1.5, 0, 1.5)
	got, err = slanted.Without(section.Band{From: at(2.1, -1), To: at(3.5, 0.5)})
	require.NoError(t, err)
	require.InDelta(t, short.ProductMoment, got.ProductMoment, 1e-14)
	require.InDelta(t, -b*b*h*h/72, polygon(t, 0, 0, b, 0, 0, h).Properties().ProductMoment, 1e-15)
}
