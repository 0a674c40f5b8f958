package section

import "fmt"

// VoidedSlab is a rectangular slab with a row of circular voids, symmetric about
// y = 0, with z = 0 at the soffit, each dimension up to 200 m.
type VoidedSlab struct {
	Width        float64 // m
	Depth        float64 // m
	Voids        int     // how many
	VoidDiameter float64 // m
	VoidSpacing  float64 // between the centres of neighbours, m
	VoidLevel    float64 // z of their centres, m; zero: mid-depth
	Keyway       Keyway  // in both sides; zero for none
	ChordError   float64 // permissible distance of the polygons of the voids from the circle, m; zero: 0.5 % of the diameter
}

// defaultChordError, as a share of the diameter, is finer than void formers keep
// their place.
const defaultChordError = 0.005

// mostVoids keeps nonsense out; no slab has as many.
const mostVoids = 100

// Shape draws the slab, the voids as polygons of the circle's exact area; see
// [Circle]. The error wraps [ErrShape] and names the dimension or the void that
// does not fit.
func (v VoidedSlab) Shape() (Shape, error) {
	if err := firstOf(
		positive("VoidedSlab", dimension{"Width", v.Width}, dimension{"Depth", v.Depth}),
		notNegative("VoidedSlab", dimension{"VoidDiameter", v.VoidDiameter}, dimension{"VoidSpacing", v.VoidSpacing},
			dimension{"VoidLevel", v.VoidLevel}, dimension{"ChordError", v.ChordError}),
		v.Keyway.check("VoidedSlab", "Keyway", 0, v.Depth),
	); err != nil {
		return Shape{}, err
	}
	if v.Voids < 0 || v.Voids > mostVoids {
		return Shape{}, fmt.Errorf("%w: VoidedSlab.Voids = %d: must be 0 to %d", ErrShape, v.Voids, mostVoids)
	}
	half := v.Width / 2
	outer := Outline{{-half, 0}, {half, 0}}
	outer = append(outer, v.Keyway.cut(half, 0, v.Depth, -1)...)
	outer = append(outer, Point{half, v.Depth}, Point{-half, v.Depth})
	outer = append(outer, reversed(v.Keyway.cut(-half, 0, v.Depth, 1))...).unrepeated()
	voids, err := v.voids()
	if err != nil {
		return Shape{}, err
	}
	return New([]Outline{outer}, voids)
}

func (v VoidedSlab) voids() ([]Outline, error) {
	if v.Voids > 1 {
		if err := positive("VoidedSlab", dimension{"VoidSpacing", v.VoidSpacing}); err != nil {
			return nil, err
		}
	}
	if v.VoidLevel == 0 {
		v.VoidLevel = v.Depth / 2
	}
	if v.ChordError == 0 {
		v.ChordError = defaultChordError * v.VoidDiameter
	}
	voids := make([]Outline, v.Voids)
	for i := range voids {
		centre := Point{(float64(i) - float64(v.Voids-1)/2) * v.VoidSpacing, v.VoidLevel}
		if v.Voids == 1 {
			centre.Y = 0
		}
		var err error
		if voids[i], err = Circle(centre, v.VoidDiameter, v.ChordError); err != nil {
			return nil, fmt.Errorf("void %d: %w", i+1, err)
		}
	}
	return voids, nil
}
