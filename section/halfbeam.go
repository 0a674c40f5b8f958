package section

import "fmt"

// HalfBeam is the half of a box or of a trough with one web, an outer cantilever
// and inner slab edges for the longitudinal stitch. All widths are measured from
// the axis of the joined deck (y = 0), z = 0 is the soffit; each dimension is up to
// 200 m. It is drawn on the left (+y); [Shape.Mirrored] is its partner.
//
//	TopWidth  RootWidth         TopInner  axis
//	   |__________|_________________|  .   z = Depth
//	   |____      ____ TopSlab _____|  .
//	        ‾‾\  \/                    .
//	           \ \ WebThickness        .
//	            \ \________________    .
//	             \_________________|   .   z = 0
//	       BottomWidth      BottomInner
//
// A trough half has TopSlab 0, an inverted L has BottomSlab 0, a closed half has
// an InnerWall.
type HalfBeam struct {
	Depth          float64 // overall, m
	TopWidth       float64 // axis to the free edge of the cantilever, m
	RootWidth      float64 // axis to the outer web face under the cantilever root, m
	BottomWidth    float64 // axis to the outer web face at the soffit, m
	TopInner       float64 // axis to the inner edge of the top slab, m
	BottomInner    float64 // axis to the inner edge of the bottom slab, m
	TopSlab        float64 // thickness inside the web, m; zero for no slab there
	BottomSlab     float64 // thickness inside the web, m; zero for no slab there
	WebThickness   float64 // square to the web's faces, m
	CantileverRoot float64 // cantilever slab thickness at the web, m
	CantileverTip  float64 // cantilever slab thickness at the free edge, m
	TopHaunch      Haunch  // between web and top slab; zero for none
	BottomHaunch   Haunch  // between web and bottom slab; zero for none
	CantileverKnee Knee    // in the lower face of the cantilever; zero: one slope
	BottomChamfer  Haunch  // of the outer corner at the soffit; zero for none
	TopKeyway      Keyway  // in the inner edge of the top slab; zero for none
	BottomKeyway   Keyway  // in the inner edge of the bottom slab; zero for none
	InnerWall      float64 // thickness of an upright wall over the bottom slab's inner edge that closes the cell, m; zero: open
}

// Shape draws the half beam. The error wraps [ErrShape] and names the dimension,
// its value and what it must be; a closed half needs both slabs and a top slab
// that reaches at least as far in as the bottom slab.
func (h HalfBeam) Shape() (Shape, error) {
	if err := h.check(); err != nil {
		return Shape{}, err
	}
	outside := append(h.web().chamfered(h.BottomChamfer), Point{h.RootWidth, h.rootLevel()})
	if h.TopWidth > h.RootWidth {
		if h.CantileverKnee.Out > 0 {
			outside = append(outside, Point{h.RootWidth + h.CantileverKnee.Out, h.Depth - h.CantileverKnee.Thickness})
		}
		outside = append(outside, Point{h.TopWidth, h.Depth - h.CantileverTip})
	}
	outside = append(outside, Point{h.TopWidth, h.Depth})
	if h.InnerWall > 0 {
		outer := Outline(append(outside, h.stitchFace()...)).unrepeated()
		wall := h.BottomInner + h.InnerWall
		cell := append(h.floor(), h.ceiling()...)
		cell = append(cell, Point{wall, h.Depth - h.TopSlab}, Point{wall, h.BottomSlab})
		return New([]Outline{outer}, []Outline{cell})
	}
	return New([]Outline{Outline(append(outside, h.inside()...)).unrepeated()}, nil)
}

// WebCentre is the y of the middle of the web at level z (m), the place of a tendon in
// the web; for dimensions that Shape accepts.
func (h HalfBeam) WebCentre(z float64) float64 { return h.web().centre(z) }

func (h HalfBeam) rootLevel() float64 { return h.Depth - h.CantileverRoot }

func (h HalfBeam) web() web {
	return web{foot: h.BottomWidth, slope: (h.RootWidth - h.BottomWidth) / h.rootLevel(), thickness: h.WebThickness}
}

func (h HalfBeam) floor() []Point { return h.web().floor(h.BottomSlab, h.BottomHaunch) }

func (h HalfBeam) ceiling() []Point { return h.web().ceiling(h.Depth-h.TopSlab, 0, h.TopHaunch) }

// stitchFace is the inner side of a closed half, from the top down.
func (h HalfBeam) stitchFace() []Point {
	under, face := h.Depth-h.TopSlab, h.topEdge()
	if h.TopInner != h.BottomInner {
		face = append(face, Point{h.TopInner, under}, Point{h.BottomInner, under})
	}
	return append(face, h.bottomEdge()...)
}

// inside is the inner side of an open half, from the top down.
func (h HalfBeam) inside() []Point {
	var side []Point
	if h.TopSlab > 0 {
		side = append(h.topEdge(), Point{h.TopInner, h.Depth - h.TopSlab})
		side = append(side, reversed(h.ceiling())...)
	} else {
		side = append(side, Point{h.web().inner(h.Depth), h.Depth})
	}
	if h.BottomSlab > 0 {
		side = append(side, reversed(h.floor())...)
		return append(append(side, Point{h.BottomInner, h.BottomSlab}), h.bottomEdge()...)
	}
	return append(side, Point{h.web().inner(0), 0})
}

// topEdge is the inner edge of the top slab from its top, with its keyway.
func (h HalfBeam) topEdge() []Point {
	return append([]Point{{h.TopInner, h.Depth}}, reversed(h.TopKeyway.cut(h.TopInner, h.Depth-h.TopSlab, h.Depth, 1))...)
}

// bottomEdge is the inner edge of the bottom slab with its keyway, down to the soffit.
func (h HalfBeam) bottomEdge() []Point {
	return append(reversed(h.BottomKeyway.cut(h.BottomInner, 0, h.BottomSlab, 1)), Point{h.BottomInner, 0})
}

func reversed(points []Point) []Point {
	back := make([]Point, 0, len(points))
	for i := len(points) - 1; i >= 0; i-- {
		back = append(back, points[i])
	}
	return back
}

func (h HalfBeam) check() error {
	if err := firstOf(
		positive("HalfBeam", dimension{"Depth", h.Depth}, dimension{"TopWidth", h.TopWidth}, dimension{"RootWidth", h.RootWidth},
			dimension{"BottomWidth", h.BottomWidth}, dimension{"WebThickness", h.WebThickness},
			dimension{"CantileverRoot", h.CantileverRoot}, dimension{"CantileverTip", h.CantileverTip}),
		notNegative("HalfBeam", dimension{"TopInner", h.TopInner}, dimension{"BottomInner", h.BottomInner},
			dimension{"TopSlab", h.TopSlab}, dimension{"BottomSlab", h.BottomSlab}, dimension{"InnerWall", h.InnerWall}),
		h.TopHaunch.check("HalfBeam", "TopHaunch"),
		h.BottomHaunch.check("HalfBeam", "BottomHaunch"),
		checkChamfer(h.BottomChamfer, "HalfBeam", "BottomChamfer", h.BottomWidth, h.Depth-h.CantileverRoot),
		h.CantileverKnee.check("HalfBeam", h.TopWidth-h.RootWidth, h.CantileverRoot, h.CantileverTip),
		h.TopKeyway.check("HalfBeam", "TopKeyway", h.Depth-h.TopSlab, h.Depth),
		h.BottomKeyway.check("HalfBeam", "BottomKeyway", 0, h.BottomSlab),
		fit("HalfBeam",
			atMost{dimension{"RootWidth", h.RootWidth}, h.TopWidth},
			atMost{dimension{"CantileverTip", h.CantileverTip}, h.CantileverRoot},
			atMost{dimension{"TopSlab + BottomSlab", h.TopSlab + h.BottomSlab}, h.Depth}),
	); err != nil {
		return err
	}
	if !(h.rootLevel() > h.BottomSlab) {
		return fit("HalfBeam", atMost{dimension{"CantileverRoot", h.CantileverRoot}, h.Depth - h.BottomSlab})
	}
	if h.TopSlab == 0 && h.BottomSlab == 0 {
		return fmt.Errorf("%w: HalfBeam.TopSlab and BottomSlab both 0 m: must be at least one slab to stitch", ErrShape)
	}
	return h.fits()
}

// fits checks the inner edges against the web and its haunches.
func (h HalfBeam) fits() error {
	w := h.web()
	if h.InnerWall > 0 {
		if h.TopSlab == 0 || h.BottomSlab == 0 {
			return fmt.Errorf("%w: HalfBeam.InnerWall = %.4g m with TopSlab = %g m and BottomSlab = %g m: must be with both slabs", ErrShape, h.InnerWall, h.TopSlab, h.BottomSlab)
		}
		if err := fit("HalfBeam", atMost{dimension{"TopInner", h.TopInner}, h.BottomInner}); err != nil {
			return err
		}
	}
	if h.TopSlab > 0 {
		if err := fit("HalfBeam", atMost{dimension{"TopInner", h.TopInner}, w.inner(h.Depth-h.TopSlab) - h.TopHaunch.Width}); err != nil {
			return err
		}
	}
	if h.BottomSlab > 0 {
		return fit("HalfBeam", atMost{dimension{"BottomInner + InnerWall", h.BottomInner + h.InnerWall}, w.inner(h.BottomSlab) - h.BottomHaunch.Width})
	}
	return nil
}
