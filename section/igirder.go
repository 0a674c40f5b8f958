package section

// Flange is the head or the foot of an I-girder, each dimension up to 200 m.
type Flange struct {
	Width   float64 // m
	Edge    float64 // thickness at the free edge, m
	Taper   float64 // increase of thickness up to the fillet or the web, m; zero: constant
	Chamfer Haunch  // of the outer corner, Width along the level face, Height up the edge; zero for none
	Fillet  Haunch  // triangle between the flange and each web face; zero for none
}

// IGirder is an I-girder or, with a wide top flange, a bulb-tee. It is symmetric
// about y = 0, z = 0 is the soffit; each dimension is up to 200 m.
type IGirder struct {
	Depth        float64 // overall, m
	WebThickness float64 // m
	Top, Bottom  Flange  // head and foot
}

// Shape draws the girder. The error wraps [ErrShape] and names the dimension,
// its value and what it must be: flanges at least as wide as web and fillets,
// and that leave a web between them.
func (g IGirder) Shape() (Shape, error) {
	if err := g.check(); err != nil {
		return Shape{}, err
	}
	half := g.Bottom.half(g.WebThickness)
	for _, p := range reversed(g.Top.half(g.WebThickness)) {
		half = append(half, Point{p.Y, g.Depth - p.Z})
	}
	return New([]Outline{around(half, half)}, nil)
}

// half is half of a flange as a foot, from its face at z = 0 to the web.
func (f Flange) half(web float64) []Point {
	slope := f.Edge + f.Taper
	return Outline{
		{f.Width/2 - f.Chamfer.Width, 0}, {f.Width / 2, f.Chamfer.Height}, {f.Width / 2, f.Edge},
		{web/2 + f.Fillet.Width, slope}, {web / 2, slope + f.Fillet.Height},
	}.unrepeated()
}

func (g IGirder) check() error {
	if err := firstOf(
		positive("IGirder", dimension{"Depth", g.Depth}, dimension{"WebThickness", g.WebThickness},
			dimension{"Top.Width", g.Top.Width}, dimension{"Top.Edge", g.Top.Edge},
			dimension{"Bottom.Width", g.Bottom.Width}, dimension{"Bottom.Edge", g.Bottom.Edge}),
		notNegative("IGirder", dimension{"Top.Taper", g.Top.Taper}, dimension{"Bottom.Taper", g.Bottom.Taper}),
		g.Top.Fillet.check("IGirder", "Top.Fillet"),
		g.Bottom.Fillet.check("IGirder", "Bottom.Fillet"),
		checkChamfer(g.Top.Chamfer, "IGirder", "Top.Chamfer", g.Top.Width/2, g.Top.Edge),
		checkChamfer(g.Bottom.Chamfer, "IGirder", "Bottom.Chamfer", g.Bottom.Width/2, g.Bottom.Edge),
	); err != nil {
		return err
	}
	return fit("IGirder",
		atMost{dimension{"WebThickness + 2·Top.Fillet.Width", g.WebThickness + 2*g.Top.Fillet.Width}, g.Top.Width},
		atMost{dimension{"WebThickness + 2·Bottom.Fillet.Width", g.WebThickness + 2*g.Bottom.Fillet.Width}, g.Bottom.Width},
		atMost{dimension{"Top.Edge + Taper + Fillet.Height with those of Bottom", g.Top.depth() + g.Bottom.depth()}, g.Depth},
	)
}

func (f Flange) depth() float64 { return f.Edge + f.Taper + f.Fillet.Height }
