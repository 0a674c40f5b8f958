package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

func areaOf(t *testing.T, shape drawn) float64 {
	t.Helper()
	s, err := shape.Shape()
	require.NoError(t, err)
	return s.Properties().Area
}

// A knee at half the cantilever's reach, thinner than the straight line by d there,
// takes a triangle reach·d/2 off.
func TestTwoSlopeCantilevers(t *testing.T) {
	const reach = (9.2 - 5.2) / 2 // of the box, from 0.4 m to 0.2 m: 0.3 m half-way
	knee := section.Knee{Out: reach / 2, Thickness: 0.25}
	require.InDelta(t, areaOf(t, usual)-2*reach*0.05/2, areaOf(t, changed(usual, func(b *section.Box) { b.CantileverKnee = knee })), 1e-12)
	// The half beam's reaches from 2.6 m to 4.5 m, 0.35 m to 0.18 m thick.
	line := 0.35 - 0.17*0.5/1.9
	require.InDelta(t, areaOf(t, half)-1.9*(line-0.22)/2,
		areaOf(t, changed(half, func(h *section.HalfBeam) { h.CantileverKnee = section.Knee{Out: 0.5, Thickness: 0.22} })), 1e-12)
	fallen, err := changed(usual, func(b *section.Box) { b.CantileverKnee, b.CrossFall = knee, 0.03 }).Shape()
	require.NoError(t, err)
	u := 5.2/2 + reach/2
	require.InDelta(t, 0, fallen.Clearance(at(u, 2.3+0.03*u-0.25)), 1e-12, "under the deck, wherever it falls")
}

// A chamfer takes a triangle off each outer corner, on sloping webs too: its height
// is upright, its width level.
func TestChamfers(t *testing.T) {
	chamfer := section.Haunch{Width: 0.1, Height: 0.06}
	for name, c := range map[string]struct {
		with, without drawn
		corners       float64
	}{
		"box":    {changed(usual, func(b *section.Box) { b.BottomChamfer = chamfer }), usual, 2},
		"half":   {changed(half, func(h *section.HalfBeam) { h.BottomChamfer = chamfer }), half, 1},
		"trough": {changed(trough, func(u *section.Trough) { u.BottomChamfer = chamfer }), trough, 2},
		"bare": {changed(trough, func(u *section.Trough) { u.BottomChamfer, u.Lip = chamfer, section.Lip{} }),
			changed(trough, func(u *section.Trough) { u.Lip = section.Lip{} }), 2},
		"girder": {changed(girder, func(g *section.IGirder) { g.Bottom.Chamfer, g.Top.Chamfer = chamfer, chamfer }), girder, 4},
	} {
		require.InDelta(t, areaOf(t, c.without)-c.corners*0.1*0.06/2, areaOf(t, c.with), 1e-12, name)
	}
}

// A keyway takes its trapezium out of each edge it is in, at its level.
func TestKeyways(t *testing.T) {
	key := section.Keyway{Depth: 0.03, Mouth: 0.1, Base: 0.06}
	groove := 0.03 * (0.1 + 0.06) / 2
	both := func(h *section.HalfBeam) { h.TopKeyway, h.BottomKeyway = key, key }
	closed := changed(half, func(h *section.HalfBeam) { h.InnerWall, h.TopInner = 0.15, 0.4 }).(section.HalfBeam)
	stepped := changed(closed, func(h *section.HalfBeam) { h.TopInner = 0.35 }).(section.HalfBeam)
	slab := section.VoidedSlab{Width: 1.2, Depth: 0.4, Voids: 3, VoidDiameter: 0.2, VoidSpacing: 0.35}
	for name, c := range map[string]struct{ with, without drawn }{
		"open":    {changed(half, both), half},
		"closed":  {changed(closed, both), closed},
		"stepped": {changed(stepped, both), stepped},
		"slab":    {changed(slab, func(v *section.VoidedSlab) { v.Keyway = key }), slab},
		"tee": {changed(tee, func(d *section.DoubleTee) { d.Slab, d.Keyway = 0.12, key }),
			changed(tee, func(d *section.DoubleTee) { d.Slab = 0.12 })},
	} {
		require.InDelta(t, areaOf(t, c.without)-2*groove, areaOf(t, c.with), 1e-12, name)
	}
	high, err := changed(slab, func(v *section.VoidedSlab) { v.Keyway = section.Keyway{Depth: 0.05, Mouth: 0.12, Level: 0.3} }).Shape()
	require.NoError(t, err)
	require.InDelta(t, 0, high.Clearance(at(0.55, 0.3)), 1e-12, "a V at its level")
	require.InDelta(t, 0, high.Clearance(at(-0.6, 0.36)), 1e-12)
	require.Len(t, high.Solids()[0], 4+2*3)
	p := high.Properties()
	require.InDelta(t, 0, p.Centroid.Y, 1e-12)
}

// Each web has its own haunches: a triangle more or less is width·height/2.
func TestHaunchesOfEachWeb(t *testing.T) {
	whole := areaOf(t, usual)
	with := changed(usual, func(b *section.Box) { b.LeftTopHaunch = &section.Haunch{Width: 0.9, Height: 0.3} })
	require.InDelta(t, whole+(0.9*0.3-0.6*0.2)/2, areaOf(t, with), 1e-12)
	shape, err := with.Shape()
	require.NoError(t, err)
	require.Positive(t, shape.Properties().Centroid.Y, "the left web is at +y")
	none := changed(usual, func(b *section.Box) { b.LeftBottomHaunch = new(section.Haunch) })
	require.InDelta(t, whole-0.3*0.2/2, areaOf(t, none), 1e-12, "none at the left web")
	same := changed(usual, func(b *section.Box) { b.LeftTopHaunch, b.LeftBottomHaunch = &b.TopHaunch, &b.BottomHaunch })
	require.InDelta(t, whole, areaOf(t, same), 1e-12)
}

func TestDetailsRefuse(t *testing.T) {
	slab := section.VoidedSlab{Width: 1.2, Depth: 0.4}
	for words, shape := range map[string]drawn{
		"Box.CantileverKnee.Out = 2 m: must be less": changed(usual, func(b *section.Box) { b.CantileverKnee = section.Knee{Out: 2, Thickness: 0.3} }),
		"Box.CantileverKnee.Thickness = 0.41 m":      changed(usual, func(b *section.Box) { b.CantileverKnee = section.Knee{Out: 1, Thickness: 0.41} }),
		"Box.CantileverKnee.Thickness = 0 m":         changed(usual, func(b *section.Box) { b.CantileverKnee = section.Knee{Out: 1} }),
		"HalfBeam.CantileverKnee.Thickness = 0.17 m": changed(half, func(h *section.HalfBeam) { h.CantileverKnee = section.Knee{Out: 1, Thickness: 0.17} }),
		"Box.BottomChamfer = 0.1 × 0 m":              changed(usual, func(b *section.Box) { b.BottomChamfer.Width = 0.1 }),
		"Box.BottomChamfer = 2.2 × 0.1 m: must be":   changed(usual, func(b *section.Box) { b.BottomChamfer = section.Haunch{Width: 2.2, Height: 0.1} }),
		"crosses or touches":                         changed(usual, func(b *section.Box) { b.BottomChamfer = section.Haunch{Width: 1, Height: 1} }),
		"Bottom.Chamfer = 0.1 × 0.16 m":              changed(girder, func(g *section.IGirder) { g.Bottom.Chamfer = section.Haunch{Width: 0.1, Height: 0.16} }),
		"Box.LeftTopHaunch = 0 × 0.1 m":              changed(usual, func(b *section.Box) { b.LeftTopHaunch = &section.Haunch{Height: 0.1} }),
		"Box.TopHaunch.Width = 3":                    changed(usual, func(b *section.Box) { b.LeftTopHaunch = &section.Haunch{Width: 3, Height: 0.1} }),
		"HalfBeam.TopKeyway.Mouth = 0 m":             changed(half, func(h *section.HalfBeam) { h.TopKeyway = section.Keyway{Depth: 0.1} }),
		"BottomKeyway.Base = 0.11 m":                 changed(half, func(h *section.HalfBeam) { h.BottomKeyway = section.Keyway{Depth: 0.1, Mouth: 0.1, Base: 0.11} }),
		"from z = 1.46 m to 1.64 m: must be within":  changed(half, func(h *section.HalfBeam) { h.TopKeyway = section.Keyway{Depth: 0.1, Mouth: 0.18, Level: 1.55} }),
		"within the face from 0 m to 0 m":            changed(half, func(h *section.HalfBeam) { h.BottomSlab, h.BottomKeyway = 0, section.Keyway{Depth: 0.1, Mouth: 0.1} }),
		"VoidedSlab.Keyway from z = 0 m to 0.4 m":    changed(slab, func(v *section.VoidedSlab) { v.Keyway = section.Keyway{Depth: 0.1, Mouth: 0.4} }),
		"Keyway.Level":                               changed(slab, func(v *section.VoidedSlab) { v.Keyway = section.Keyway{Depth: 0.1, Mouth: 0.1, Level: math.NaN()} }),
	} {
		_, err := shape.Shape()
		require.ErrorIs(t, err, section.ErrShape, words)
		if words == "Keyway.Level" {
			words = "from z = NaN m"
		}
		require.ErrorContains(t, err, words)
		require.Regexp(t, "must", err.Error())
	}
}
