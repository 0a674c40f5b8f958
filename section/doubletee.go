package section

import "math"

// DoubleTee is a slab on two tapering stems, symmetric about y = 0, with z = 0
// at the foot of the stems, each dimension up to 200 m.
type DoubleTee struct {
	Width      float64 // of the slab, m
	Slab       float64 // thickness of the slab, m
	StemDepth  float64 // under the slab, m
	StemTop    float64 // thickness of a stem under the slab, without fillets, m
	StemBottom float64 // thickness of a stem at its foot, m
	Spacing    float64 // between the middles of the stems, m
	Keyway     Keyway  // in both edges of the slab; zero for none
	Fillet     Haunch  // between the slab and each stem face; zero for none
}

// Shape draws the double tee. The error wraps [ErrShape] and names the
// dimension, its value and what it must be: stems apart and under the slab.
func (d DoubleTee) Shape() (Shape, error) {
	if err := d.check(); err != nil {
		return Shape{}, err
	}
	c, top, foot := d.Spacing/2, d.StemTop/2, d.StemBottom/2
	faceAt := foot + (top-foot)*(d.StemDepth-d.Fillet.Height)/d.StemDepth
	low := d.StemDepth - d.Fillet.Height
	half := []Point{
		{c - top - d.Fillet.Width, d.StemDepth}, {c - faceAt, low}, {c - foot, 0},
		{c + foot, 0}, {c + faceAt, low}, {c + top + d.Fillet.Width, d.StemDepth},
		{d.Width / 2, d.StemDepth},
	}
	half = append(half, d.Keyway.cut(d.Width/2, d.StemDepth, d.StemDepth+d.Slab, -1)...)
	half = append(half, Point{d.Width / 2, d.StemDepth + d.Slab})
	return New([]Outline{around(half, half)}, nil)
}

func (d DoubleTee) check() error {
	if err := firstOf(
		positive("DoubleTee", dimension{"Width", d.Width}, dimension{"Slab", d.Slab}, dimension{"StemDepth", d.StemDepth},
			dimension{"StemTop", d.StemTop}, dimension{"StemBottom", d.StemBottom}, dimension{"Spacing", d.Spacing}),
		d.Fillet.check("DoubleTee", "Fillet"),
		d.Keyway.check("DoubleTee", "Keyway", d.StemDepth, d.StemDepth+d.Slab),
	); err != nil {
		return err
	}
	head := d.StemTop + 2*d.Fillet.Width
	return fit("DoubleTee",
		atMost{dimension{"Fillet.Height", d.Fillet.Height}, d.StemDepth},
		atMost{dimension{"StemTop + 2·Fillet.Width", head}, d.Spacing},
		atMost{dimension{"StemBottom", d.StemBottom}, d.Spacing},
		atMost{dimension{"Spacing + StemTop + 2·Fillet.Width", d.Spacing + math.Max(head, d.StemBottom)}, d.Width},
	)
}
