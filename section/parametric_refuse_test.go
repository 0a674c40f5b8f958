package section_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"github.com/tempstage/tempstage/section"
)

// drawn is a parametric shape.
type drawn interface {
	Shape() (section.Shape, error)
}

func changed[S drawn](s S, f func(*S)) drawn { f(&s); return s }

func TestParametricShapesRefuse(t *testing.T) {
	slab := section.VoidedSlab{Width: 6, Depth: 0.9, Voids: 5, VoidDiameter: 0.55, VoidSpacing: 1.1}
	for words, shape := range map[string]drawn{
		"Box.LeftWebThickness = -1":        changed(usual, func(b *section.Box) { b.LeftWebThickness = -1 }),
		"HalfBeam.Depth = NaN":             changed(half, func(h *section.HalfBeam) { h.Depth = math.NaN() }),
		"HalfBeam.InnerWall = -1":          changed(half, func(h *section.HalfBeam) { h.InnerWall = -1 }),
		"HalfBeam.RootWidth = 5":           changed(half, func(h *section.HalfBeam) { h.RootWidth = 5 }),
		"HalfBeam.CantileverTip = 0.4":     changed(half, func(h *section.HalfBeam) { h.CantileverTip = 0.4 }),
		"HalfBeam.CantileverRoot = 1.7":    changed(half, func(h *section.HalfBeam) { h.CantileverRoot = 1.7 }),
		"HalfBeam.TopSlab + BottomSlab":    changed(half, func(h *section.HalfBeam) { h.TopSlab = 1.7 }),
		"HalfBeam.TopHaunch":               changed(half, func(h *section.HalfBeam) { h.TopHaunch.Width = 0 }),
		"HalfBeam.TopInner = 2.4":          changed(half, func(h *section.HalfBeam) { h.TopInner = 2.4 }),
		"HalfBeam.TopInner = 0.3 m: must":  changed(half, func(h *section.HalfBeam) { h.InnerWall, h.BottomInner = 0.1, 0.2 }),
		"HalfBeam.BottomInner + InnerWall": changed(half, func(h *section.HalfBeam) { h.InnerWall = 1.5 }),
		"both slabs":                       changed(half, func(h *section.HalfBeam) { h.InnerWall, h.BottomSlab = 0.1, 0 }),
		"at least one slab":                changed(half, func(h *section.HalfBeam) { h.TopSlab, h.BottomSlab = 0, 0 }),
		"Trough.Depth = 0":                 changed(trough, func(u *section.Trough) { u.Depth = 0 }),
		"Trough.Lip.Inner = -1":            changed(trough, func(u *section.Trough) { u.Lip.Inner = -1 }),
		"Trough.Lip.Inner = 2":             changed(trough, func(u *section.Trough) { u.Lip.Inner = 2 }),
		"Trough.WebThickness = 0.9":        changed(trough, func(u *section.Trough) { u.WebThickness = 0.9 }),
		"Trough.BottomHaunch.Width":        changed(trough, func(u *section.Trough) { u.BottomHaunch.Width = 2 }),
		"Trough.BottomSlab + ":             changed(trough, func(u *section.Trough) { u.BottomSlab = 2 }),
		"IGirder.Top.Width = +Inf":         changed(girder, func(g *section.IGirder) { g.Top.Width = math.Inf(1) }),
		"IGirder.Top.Taper = -1":           changed(girder, func(g *section.IGirder) { g.Top.Taper = -1 }),
		"IGirder.Top.Fillet":               changed(girder, func(g *section.IGirder) { g.Top.Fillet.Width = 0 }),
		"IGirder.WebThickness + 2·Bottom":  changed(girder, func(g *section.IGirder) { g.Bottom.Width = 0.1 }),
		"IGirder.Top.Edge + Taper":         changed(girder, func(g *section.IGirder) { g.Depth = 0.3 }),
		"DoubleTee.Slab = 0":               changed(tee, func(d *section.DoubleTee) { d.Slab = 0 }),
		"DoubleTee.Fillet.Height":          changed(tee, func(d *section.DoubleTee) { d.Fillet.Height = 1 }),
		"DoubleTee.StemTop + ":             changed(tee, func(d *section.DoubleTee) { d.Fillet.Width = 1 }),
		"DoubleTee.Spacing + ":             changed(tee, func(d *section.DoubleTee) { d.Spacing = 2.3 }),
		"VoidedSlab.Width":                 changed(slab, func(v *section.VoidedSlab) { v.Width = -1 }),
		"VoidedSlab.Voids = 1000":          changed(slab, func(v *section.VoidedSlab) { v.Voids = 1000 }),
		"VoidedSlab.VoidSpacing":           changed(slab, func(v *section.VoidedSlab) { v.VoidSpacing = math.NaN() }),
		"void 1: section: circle":          changed(slab, func(v *section.VoidedSlab) { v.VoidDiameter = 0 }),
		"void outline 2 crosses":           changed(slab, func(v *section.VoidedSlab) { v.VoidSpacing = 0.4 }),
		"void 1: section: chord error":     changed(slab, func(v *section.VoidedSlab) { v.ChordError = 1 }),
		"at most 1000 chords":              changed(slab, func(v *section.VoidedSlab) { v.ChordError = 1e-9 }),
	} {
		_, err := shape.Shape()
		require.ErrorIs(t, err, section.ErrShape, words)
		require.ErrorContains(t, err, words)
		require.ErrorContains(t, err, "must be")
	}
	_, err := section.RoundedRectangle(section.Point{}, 1, 1, 0.6, 0.01)
	require.ErrorContains(t, err, "twice the radius")
	_, err = section.RoundedRectangle(section.Point{}, 1, 1, 0.2, 0)
	require.ErrorContains(t, err, "chord error")
}

func FuzzParametricShapes(f *testing.F) {
	f.Add(1.8, 4.5, 2.6, 2.2, 0.3, 0.4, 0.22, 0.2, 0.3, 0.35, 0.18, 0.1)
	f.Fuzz(func(t *testing.T, a, b, c, d, e, g, h, i, j, k, l, m float64) {
		for _, shape := range []drawn{
			section.HalfBeam{Depth: a, TopWidth: b, RootWidth: c, BottomWidth: d, TopInner: e, BottomInner: g, TopSlab: h, BottomSlab: i,
				WebThickness: j, CantileverRoot: k, CantileverTip: l, TopHaunch: section.Haunch{Width: m, Height: m}, InnerWall: m},
			section.Box{Depth: a, TopWidth: b, RootWidth: c, BottomWidth: d, TopSlab: e, BottomSlab: g, WebThickness: h,
				CantileverRoot: i, CantileverTip: j, BottomHaunch: section.Haunch{Width: k, Height: l}, CrossFall: m},
			section.Trough{Depth: a, TopWidth: b, BottomWidth: c, WebThickness: d, BottomSlab: e, Lip: section.Lip{Outer: g, Inner: h, Thickness: i}},
			section.IGirder{Depth: a, WebThickness: j, Top: section.Flange{Width: b, Edge: e, Taper: g}, Bottom: section.Flange{Width: c, Edge: h, Fillet: section.Haunch{Width: k, Height: l}}},
			section.DoubleTee{Width: b, Slab: e, StemDepth: a, StemTop: g, StemBottom: h, Spacing: c},
			section.VoidedSlab{Width: b, Depth: a, Voids: 3, VoidDiameter: e, VoidSpacing: c, ChordError: m},
		} {
			drawn, err := shape.Shape()
			if err != nil {
				require.ErrorIs(t, err, section.ErrShape)
				continue
			}
			p := drawn.Properties()
			require.Positive(t, p.Area)
			require.False(t, math.IsNaN(p.SecondMomentY+p.SecondMomentZ+p.ProductMoment))
		}
	})
}

func FuzzJoined(f *testing.F) {
	f.Add(0.0, 0.0, 2.0, 0.0, 2.0, 1.0, 0.0, 1.0)
	f.Fuzz(func(t *testing.T, a, b, c, d, e, g, h, i float64) {
		one, err := section.New([]section.Outline{{{Y: a, Z: b}, {Y: c, Z: d}, {Y: e, Z: g}}}, nil)
		if err != nil {
			return
		}
		other, err := section.New([]section.Outline{{{Y: a, Z: b}, {Y: e, Z: g}, {Y: h, Z: i}}}, nil)
		if err != nil {
			return
		}
		joined, err := section.Joined(one, other)
		if err != nil {
			require.ErrorIs(t, err, section.ErrShape)
			return
		}
		p := joined.Properties()
		tolerance := 1e-5 * (p.Top + p.Bottom + p.Left + p.Right) * p.OuterPerimeter
		require.InDelta(t, one.Properties().Area+other.Properties().Area, p.Area, tolerance)
	})
}
