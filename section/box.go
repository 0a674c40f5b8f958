package section

import (
	"fmt"
	"math"
)

// Haunch is a triangle that thickens the inner corner between web and slab, its sides
// both zero or both up to 200 m.
type Haunch struct {
	Width  float64 // along the slab, m
	Height float64 // down or up the web, m
}

// orElse is the haunch, or another where none is given.
func (h *Haunch) orElse(other Haunch) Haunch {
	if h == nil {
		return other
	}
	return *h
}

// Box is a single-cell box girder by its trade dimensions, in metres, each up to 200. Its
// drawing has y = 0 on the axis of its outer faces and z = 0 at the soffit.
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
// With a CrossFall, Depth and the slab thicknesses are those on the axis.
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

	CantileverKnee Knee   // in the lower face of each cantilever; zero: one slope
	BottomChamfer  Haunch // of the outer corners at the soffit; zero for none

	LeftWebThickness float64 // of the web at +y, square to its faces, m; zero: as WebThickness
	LeftTopHaunch    *Haunch // at the web at +y; nil: as TopHaunch
	LeftBottomHaunch *Haunch // at the web at +y; nil: as BottomHaunch
	CrossFall        float64 // rise of both faces of the deck for each metre to the left (+y), up to ±0.25, the soffit staying level; zero: level deck
}

// steepest is the largest cross-fall of a deck that is taken as meant.
const steepest = 0.25

// Shape draws the box. The error wraps [ErrShape] and names the dimension, its
// value and what it must be: every dimension finite and positive (haunches,
// chamfers and knees may be zero), walls and haunches that fit in the box, a cross-fall within ±0.25.
func (b Box) Shape() (Shape, error) {
	if err := b.check(); err != nil {
		return Shape{}, err
	}
	right, left := b.side(-1), b.side(1)
	if err := firstOf(right.fits(), left.fits()); err != nil {
		return Shape{}, err
	}
	return New([]Outline{around(right.outside(), left.outside())}, []Outline{around(right.inside(), left.inside())})
}

// WebCentre is the distance from the axis to the middle of the right web at level z
// (m), the place of a tendon in the web; for dimensions that Shape accepts.
func (b Box) WebCentre(z float64) float64 { return b.side(-1).web.centre(z) }

// LeftWebCentre is the distance from the axis to the middle of the left web, at
// +y, at level z (m); for dimensions that Shape accepts.
func (b Box) LeftWebCentre(z float64) float64 { return b.side(1).web.centre(z) }

func (b Box) check() error {
	if err := firstOf(
		positive("Box", dimension{"Depth", b.Depth}, dimension{"TopWidth", b.TopWidth}, dimension{"RootWidth", b.RootWidth},
			dimension{"BottomWidth", b.BottomWidth}, dimension{"TopSlab", b.TopSlab}, dimension{"BottomSlab", b.BottomSlab},
			dimension{"WebThickness", b.WebThickness}, dimension{"CantileverRoot", b.CantileverRoot}, dimension{"CantileverTip", b.CantileverTip}),
		notNegative("Box", dimension{"LeftWebThickness", b.LeftWebThickness}),
		b.TopHaunch.check("Box", "TopHaunch"),
		b.BottomHaunch.check("Box", "BottomHaunch"),
		b.LeftTopHaunch.orElse(Haunch{}).check("Box", "LeftTopHaunch"),
		b.LeftBottomHaunch.orElse(Haunch{}).check("Box", "LeftBottomHaunch"),
		checkChamfer(b.BottomChamfer, "Box", "BottomChamfer", b.BottomWidth/2, b.Depth-b.CantileverRoot),
		b.CantileverKnee.check("Box", (b.TopWidth-b.RootWidth)/2, b.CantileverRoot, b.CantileverTip),
	); err != nil {
		return err
	}
	if !(math.Abs(b.CrossFall) <= steepest) {
		return fmt.Errorf("%w: Box.CrossFall = %g: must be within ±%g", ErrShape, b.CrossFall, steepest)
	}
	return nil
}

// boxSide is one half of a box, measured outwards from the axis.
type boxSide struct {
	Box
	web  web
	rise float64 // of the deck, for each metre outwards
}

// side is the half at negative y for sign −1, at positive y for sign 1.
func (b Box) side(sign float64) boxSide {
	s := boxSide{Box: b, rise: sign * b.CrossFall}
	s.web = web{
		foot:      b.BottomWidth / 2,
		slope:     (b.RootWidth - b.BottomWidth) / 2 / s.root().Z,
		thickness: b.WebThickness,
	}
	if sign > 0 {
		if b.LeftWebThickness > 0 {
			s.web.thickness = b.LeftWebThickness
		}
		s.TopHaunch, s.BottomHaunch = b.LeftTopHaunch.orElse(b.TopHaunch), b.LeftBottomHaunch.orElse(b.BottomHaunch)
	}
	return s
}

// deck is a place on the deck or a depth below it.
func (s boxSide) deck(u, below float64) Point { return Point{u, s.Depth + s.rise*u - below} }

func (s boxSide) root() Point { return s.deck(s.RootWidth/2, s.CantileverRoot) }

// outside is the outer face from the soffit up.
func (s boxSide) outside() []Point {
	edge, face := s.TopWidth/2, append(s.web.chamfered(s.BottomChamfer), s.root())
	if s.TopWidth == s.RootWidth { // no cantilever: the web face runs to the top corner
		return append(face, s.deck(edge, 0))
	}
	if s.CantileverKnee.Out > 0 {
		face = append(face, s.deck(s.RootWidth/2+s.CantileverKnee.Out, s.CantileverKnee.Thickness))
	}
	return append(face, s.deck(edge, s.CantileverTip), s.deck(edge, 0))
}

// inside is the face of the void from the bottom slab up.
func (s boxSide) inside() []Point {
	return append(s.web.floor(s.BottomSlab, s.BottomHaunch), s.web.ceiling(s.Depth-s.TopSlab, s.rise, s.TopHaunch)...)
}

// fits checks that the walls leave a void and do not leave the box.
func (s boxSide) fits() error {
	if !(s.root().Z > s.BottomSlab) {
		return fit("Box", atMost{dimension{"CantileverRoot", s.CantileverRoot}, s.root().Z + s.CantileverRoot - s.BottomSlab})
	}
	top := s.web.under(s.Depth-s.TopSlab, s.rise)
	if s.TopSlab+s.BottomSlab < s.Depth && math.Min(s.web.inner(s.BottomSlab), top.Y) <= 0 {
		return fmt.Errorf("%w: Box.WebThickness = %.4g m: the webs meet: must be a void between them", ErrShape, s.web.thickness)
	}
	return fit("Box",
		atMost{dimension{"RootWidth", s.RootWidth}, s.TopWidth},
		atMost{dimension{"CantileverTip", s.CantileverTip}, s.CantileverRoot},
		atMost{dimension{"TopSlab + BottomSlab", s.TopSlab + s.BottomSlab}, s.Depth},
		atMost{dimension{"TopHaunch.Height + BottomHaunch.Height", s.TopHaunch.Height + s.BottomHaunch.Height}, top.Z - s.BottomSlab},
		atMost{dimension{"TopHaunch.Width", s.TopHaunch.Width}, top.Y},
		atMost{dimension{"BottomHaunch.Width", s.BottomHaunch.Width}, s.web.inner(s.BottomSlab)},
	)
}
