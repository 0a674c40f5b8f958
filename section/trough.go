package section

import "fmt"

// Lip is a flange at the head of a trough's web, each dimension up to 200 m.
type Lip struct {
	Outer     float64 // beyond the web's outer face, m; zero for none
	Inner     float64 // beyond the web's inner face, m; zero for none
	Thickness float64 // m; zero for no lip
}

// Trough is an open U-beam, symmetric about y = 0, with z = 0 at the soffit, each
// dimension up to 200 m.
type Trough struct {
	Depth         float64 // overall, m
	TopWidth      float64 // between the outer web faces at z = Depth, m
	BottomWidth   float64 // between the outer web faces at the soffit, m
	WebThickness  float64 // each web, square to its faces, m
	BottomSlab    float64 // thickness between the webs, m
	BottomHaunch  Haunch  // inner corners at the bottom slab; zero for none
	BottomChamfer Haunch  // of the outer corners at the soffit; zero for none
	Lip           Lip     // at the head of each web; zero for none
}

// Shape draws the trough. The error wraps [ErrShape] and names the dimension,
// its value and what it must be: webs, haunches and lips that leave an opening.
func (t Trough) Shape() (Shape, error) {
	if err := t.check(); err != nil {
		return Shape{}, err
	}
	w := t.web()
	under := t.Depth - t.Lip.Thickness
	half := []Point{
		{w.outer(under), under}, {w.outer(under) + t.Lip.Outer, under}, {w.outer(under) + t.Lip.Outer, t.Depth},
		{w.inner(under) - t.Lip.Inner, t.Depth}, {w.inner(under) - t.Lip.Inner, under}, {w.inner(under), under},
	}
	if t.Lip.Thickness == 0 {
		half = []Point{{w.outer(t.Depth), t.Depth}, {w.inner(t.Depth), t.Depth}}
	}
	half = append(w.chamfered(t.BottomChamfer), half...)
	half = append(half, reversed(w.floor(t.BottomSlab, t.BottomHaunch))...)
	return New([]Outline{around(half, half)}, nil)
}

// WebCentre is the distance from the axis to the middle of a web at level z (m);
// for dimensions that Shape accepts.
func (t Trough) WebCentre(z float64) float64 { return t.web().centre(z) }

func (t Trough) web() web {
	return web{foot: t.BottomWidth / 2, slope: (t.TopWidth - t.BottomWidth) / 2 / t.Depth, thickness: t.WebThickness}
}

func (t Trough) check() error {
	if err := firstOf(
		positive("Trough", dimension{"Depth", t.Depth}, dimension{"TopWidth", t.TopWidth}, dimension{"BottomWidth", t.BottomWidth},
			dimension{"WebThickness", t.WebThickness}, dimension{"BottomSlab", t.BottomSlab}),
		notNegative("Trough", dimension{"Lip.Outer", t.Lip.Outer}, dimension{"Lip.Inner", t.Lip.Inner}, dimension{"Lip.Thickness", t.Lip.Thickness}),
		t.BottomHaunch.check("Trough", "BottomHaunch"),
		checkChamfer(t.BottomChamfer, "Trough", "BottomChamfer", t.BottomWidth/2, t.Depth-t.Lip.Thickness),
	); err != nil {
		return err
	}
	if t.Lip.Thickness == 0 && t.Lip.Outer+t.Lip.Inner > 0 {
		return fmt.Errorf("%w: Trough.Lip.Thickness = 0 m with Outer = %g m, Inner = %g m: must be positive", ErrShape, t.Lip.Outer, t.Lip.Inner)
	}
	w := t.web()
	return fit("Trough",
		atMost{dimension{"BottomSlab + BottomHaunch.Height + Lip.Thickness", t.BottomSlab + t.BottomHaunch.Height + t.Lip.Thickness}, t.Depth},
		atMost{dimension{"WebThickness", t.WebThickness}, t.WebThickness + min(w.inner(t.BottomSlab), w.inner(t.Depth))},
		atMost{dimension{"BottomHaunch.Width", t.BottomHaunch.Width}, w.inner(t.BottomSlab)},
		atMost{dimension{"Lip.Inner", t.Lip.Inner}, w.inner(t.Depth - t.Lip.Thickness)},
	)
}
