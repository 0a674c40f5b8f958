package section

import (
	"fmt"
	"math"
)

// Inclusion is a small round area in a section: an empty duct or bonded steel.
type Inclusion struct {
	At           Point   // centre, m
	Area         float64 // m², positive
	ModularRatio float64 // its modulus over the concrete's, 0.01 to 300; 0 for a hole
}

// Ratios of moduli that are meant: of foam to concrete, and of steel of 300 GPa to
// concrete of 1 GPa.
const (
	leastRatio = 0.01
	mostRatio  = 300
)

func sensibleRatio(ratio float64) bool { return ratio >= leastRatio && ratio <= mostRatio }

// Duct is a hole of the given diameter (m).
func Duct(at Point, diameter float64) Inclusion {
	return Inclusion{At: at, Area: math.Pi * diameter * diameter / 4}
}

// BondedSteel is steel of the given area (m²) with modularRatio = Es/Ec, 0.01 to 300;
// the concrete that it replaces is deducted.
func BondedSteel(at Point, area, modularRatio float64) Inclusion {
	return Inclusion{At: at, Area: area, ModularRatio: modularRatio}
}

// With is the properties with the inclusions: net with [Duct], transformed with
// [BondedSteel]. Each counts as its area times (ModularRatio − 1) at its
// centre, with the second moment of a circle about its own. Fibre distances
// follow the shifted centroid, perimeters stay. The error wraps [ErrShape] when
// an area or a ratio is out of range, or its circle is not in the concrete.
func (s Shape) With(inclusions ...Inclusion) (Properties, error) {
	for i, c := range inclusions {
		if !(c.Area > 0) || math.IsInf(c.Area, 0) {
			return Properties{}, fmt.Errorf("%w: inclusion %d: Area = %g m²: must be finite and positive", ErrShape, i+1, c.Area)
		}
		if c.ModularRatio != 0 && !sensibleRatio(c.ModularRatio) {
			return Properties{}, fmt.Errorf("%w: inclusion %d: ModularRatio = %g: must be %g to %d, or 0 for a hole", ErrShape, i+1, c.ModularRatio, leastRatio, mostRatio)
		}
		radius := math.Sqrt(c.Area / math.Pi)
		if clearance := s.Clearance(c.At); !(clearance >= radius) {
			return Properties{}, fmt.Errorf("%w: inclusion %d of radius %.4g m at y = %g m, z = %g m: %.4g m from the edge of the concrete: must be at least its radius",
				ErrShape, i+1, radius, c.At.Y, c.At.Z, clearance)
		}
	}
	return s.Properties().With(inclusions...), nil
}

// With is the properties with inclusions that must be in the concrete; [Shape.With]
// checks that.
func (p Properties) With(inclusions ...Inclusion) Properties {
	area, firstY, firstZ := p.Area, 0.0, 0.0
	secondY, secondZ, product := p.SecondMomentY, p.SecondMomentZ, p.ProductMoment
	for _, c := range inclusions {
		weight := c.Area * (c.ModularRatio - 1)
		own := weight * c.Area / (4 * math.Pi) // πr⁴/4 = A²/4π
		d := c.At.minus(p.Centroid)
		area += weight
		firstY += weight * d.Z
		firstZ += weight * d.Y
		secondY += own + weight*d.Z*d.Z
		secondZ += own + weight*d.Y*d.Y
		product += weight * d.Y * d.Z
	}
	y, z := firstZ/area, firstY/area
	p.Area = area
	p.Centroid = Point{p.Centroid.Y + y, p.Centroid.Z + z}
	p.SecondMomentY = secondY - area*z*z
	p.SecondMomentZ = secondZ - area*y*y
	p.ProductMoment = product - area*y*z
	p.Top, p.Bottom = p.Top-z, p.Bottom+z
	p.Left, p.Right = p.Left-y, p.Right+y
	return p
}
