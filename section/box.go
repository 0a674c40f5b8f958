package section

import (
	"fmt"
	"math"
)

// Haunch is a triangle that thickens the inner corner between web and slab.
type Haunch struct {
	Width  float64 // along the slab, m
	Height float64 // down or up the web, m
}

// Box is a symmetric single-cell box girder by its trade dimensions, in metres.
// Its drawing has y = 0 on the axis of symmetry and z = 0 at the soffit.
//
//	|<---------- TopWidth ----------->|
//	 _________________________________   z = Depth
//	|____       TopSlab          _____|  CantileverTip
//	     ‾‾‾\  ┌──────────────┐ /‾‾‾     CantileverRoot
//	         \ \              / /
//	          \ \            / /         WebThickness, square to the web
//	           \ └──────────┘ /
//	            \____________/           BottomSlab, z = 0
//	            |BottomWidth |
//
// RootWidth is between the outer web faces where the cantilever slabs spring.
type Box struct {
	Depth          float64 // overall, m
	TopWidth       float64 // over the cantilever slabs, m
	RootWidth      float64 // between the outer web faces under the cantilever roots, m
	BottomWidth    float64 // between the outer web faces at the soffit, m
	TopSlab        float64 // thickness between the webs, m
	BottomSlab     float64 // thickness between the webs, m
	WebThickness   float64 // each web, square to its faces, m
	CantileverRoot float64 // cantilever slab thickness at the web, m
	CantileverTip  float64 // cantilever slab thickness at the free edge, m
	TopHaunch      Haunch  // inner corners at the top slab; zero for none
	BottomHaunch   Haunch  // inner corners at the bottom slab; zero for none
}

// Shape draws the box. The error wraps [ErrShape] and names the dimension, its
// value and what is allowed: every dimension finite and positive (haunches may
// be zero), walls and haunches that fit in the box.
func (b Box) Shape() (Shape, error) {
	if err := b.check(); err != nil {
		return Shape{}, err
	}
	rootLevel := b.Depth - b.CantileverRoot
	outer := []Point{ // right half (y < 0) from the soffit up; the left half mirrors it
		{-b.BottomWidth / 2, 0},
		{-b.RootWidth / 2, rootLevel},
		{-b.TopWidth / 2, b.Depth - b.CantileverTip},
		{-b.TopWidth / 2, b.Depth},
	}
	if b.TopWidth == b.RootWidth { // no cantilevers: the web face runs to the top corner
		outer = []Point{outer[0], outer[1], outer[3]}
	}
	top, bottom := b.Depth-b.TopSlab, b.BottomSlab
	inner := []Point{{-b.innerFace(bottom), bottom}}
	if b.BottomHaunch.Width > 0 {
		up := bottom + b.BottomHaunch.Height
		inner = []Point{{-b.innerFace(bottom) + b.BottomHaunch.Width, bottom}, {-b.innerFace(up), up}}
	}
	if b.TopHaunch.Width > 0 {
		down := top - b.TopHaunch.Height
		inner = append(inner, Point{-b.innerFace(down), down}, Point{-b.innerFace(top) + b.TopHaunch.Width, top})
	} else {
		inner = append(inner, Point{-b.innerFace(top), top})
	}
	return New([]Outline{mirrored(outer)}, []Outline{mirrored(inner)})
}

// innerFace is the distance from the axis to the inner web face at level z.
func (b Box) innerFace(z float64) float64 {
	slope := (b.RootWidth - b.BottomWidth) / 2 / (b.Depth - b.CantileverRoot)
	return b.BottomWidth/2 + slope*z - b.WebThickness*math.Hypot(1, slope)
}

// WebCentre is the distance from the axis to the middle of a web at level z (m),
// where a tendon in the web runs.
func (b Box) WebCentre(z float64) float64 {
	slope := (b.RootWidth - b.BottomWidth) / 2 / (b.Depth - b.CantileverRoot)
	return b.BottomWidth/2 + slope*z - b.WebThickness/2*math.Hypot(1, slope)
}

// mirrored closes a half outline with its image at +y.
func mirrored(half []Point) Outline {
	outline := append(Outline{}, half...)
	for i := len(half) - 1; i >= 0; i-- {
		outline = append(outline, Point{-half[i].Y, half[i].Z})
	}
	return outline
}

func (b Box) check() error {
	for _, d := range []struct {
		name  string
		value float64
	}{
		{"Depth", b.Depth}, {"TopWidth", b.TopWidth}, {"RootWidth", b.RootWidth}, {"BottomWidth", b.BottomWidth},
		{"TopSlab", b.TopSlab}, {"BottomSlab", b.BottomSlab}, {"WebThickness", b.WebThickness},
		{"CantileverRoot", b.CantileverRoot}, {"CantileverTip", b.CantileverTip},
	} {
		if !(d.value > 0 && d.value <= largestCoordinate) {
			return fmt.Errorf("%w: Box.%s = %g m: allowed finite and positive", ErrShape, d.name, d.value)
		}
	}
	for _, h := range []struct {
		name string
		Haunch
	}{{"TopHaunch", b.TopHaunch}, {"BottomHaunch", b.BottomHaunch}} {
		if !(h.Width >= 0 && h.Height >= 0 && (h.Width > 0) == (h.Height > 0)) || math.IsInf(h.Width+h.Height, 0) {
			return fmt.Errorf("%w: Box.%s = %g × %g m: allowed both positive or both zero", ErrShape, h.name, h.Width, h.Height)
		}
	}
	return b.fits()
}

// fits checks that the walls leave a void and do not leave the box.
func (b Box) fits() error {
	if b.TopSlab+b.BottomSlab < b.Depth && math.Min(b.innerFace(b.BottomSlab), b.innerFace(b.Depth-b.TopSlab)) <= 0 {
		return fmt.Errorf("%w: Box.WebThickness = %.4g m: the webs meet: allowed a void between them", ErrShape, b.WebThickness)
	}
	clear := b.Depth - b.TopSlab - b.BottomSlab
	for _, r := range []struct {
		name           string
		value, allowed float64
	}{
		{"RootWidth", b.RootWidth, b.TopWidth},
		{"CantileverRoot", b.CantileverRoot, b.Depth - b.BottomSlab},
		{"CantileverTip", b.CantileverTip, b.CantileverRoot},
		{"TopSlab + BottomSlab", b.TopSlab + b.BottomSlab, b.Depth},
		{"TopHaunch.Height + BottomHaunch.Height", b.TopHaunch.Height + b.BottomHaunch.Height, clear},
		{"TopHaunch.Width", b.TopHaunch.Width, b.innerFace(b.Depth - b.TopSlab)},
		{"BottomHaunch.Width", b.BottomHaunch.Width, b.innerFace(b.BottomSlab)},
	} {
		if r.value > r.allowed {
			return fmt.Errorf("%w: Box.%s = %.4g m: allowed at most %.4g m in this box", ErrShape, r.name, r.value, r.allowed)
		}
	}
	return nil
}
