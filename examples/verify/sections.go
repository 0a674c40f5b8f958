package main

import (
	"math"
	"sync"

	"github.com/tempstage/tempstage/section"
)

// sections is every check of the exact polygon sums, in the units of the
// source: the library takes any unit of length.
func sections() []Check {
	var checks []Check
	for _, list := range [][]Check{iBeams(), boxBeams(), doubleTees(), angles(), ellipticTube(), hollowSections()} {
		checks = append(checks, list...)
	}
	return checks
}

// shape draws a section.
type shape func() (section.Shape, error)

// property is a row that compares one property of a shape.
func property(name string, draw shape, of func(section.Properties) float64) Check {
	return Check{Name: name, Package: "section", Ours: func() (float64, error) {
		s, err := draw()
		if err != nil {
			return 0, err
		}
		return of(s.Properties()), nil
	}}
}

// from fills in where the value of a row comes from.
func (c Check) from(kind Kind, source string) Check {
	c.Kind, c.Source = kind, source
	return c
}

// is fills in the value of a row and how near ours must be.
func (c Check) is(value float64, unit string, tolerance float64, reason string) Check {
	c.Value, c.Unit, c.Tolerance, c.Reason = value, unit, tolerance, reason
	return c
}

const lastDigit = "half of the last printed digit"

// The book's examples were read where another publication quotes them.
const (
	pilkey = "Pilkey, Analysis and Design of Elastic Beams (2002), "
	quoted = ", as quoted in a public validation set"
)

func area(p section.Properties) float64   { return p.Area }
func bottom(p section.Properties) float64 { return p.Bottom }
func iy(p section.Properties) float64     { return p.SecondMomentY }
func iz(p section.Properties) float64     { return p.SecondMomentZ }
func iyz(p section.Properties) float64    { return p.ProductMoment }

// symmetric mirrors a right half, given as pairs (x, y) from the centre-line of
// the soffit upwards, and takes the voids out.
func symmetric(half []float64, voids ...section.Outline) shape {
	return func() (section.Shape, error) {
		return section.New([]section.Outline{mirrored(half)}, voids)
	}
}

func mirrored(half []float64) section.Outline {
	var o section.Outline
	for i := 0; i < len(half); i += 2 {
		o = append(o, section.Point{Y: half[i], Z: half[i+1]})
	}
	for i := len(half) - 2; i >= 0; i -= 2 {
		o = append(o, section.Point{Y: -half[i], Z: half[i+1]})
	}
	return o
}

// outline is a polygon given as pairs (y, z).
func outline(pairs ...float64) shape {
	return func() (section.Shape, error) {
		var o section.Outline
		for i := 0; i < len(pairs); i += 2 {
			o = append(o, section.Point{Y: pairs[i], Z: pairs[i+1]})
		}
		return section.New([]section.Outline{o}, nil)
	}
}

// angles are the unsymmetric shapes.
func angles() []Check {
	const (
		one = pilkey + "Ex. 1.1" + quoted
		b3  = pilkey + "Ex. B.3" + quoted
	)
	major := func(p section.Properties) float64 { return p.Principal().Major }
	minor := func(p section.Properties) float64 { return p.Principal().Minor }
	y := func(p section.Properties) float64 { return p.Centroid.Y }
	z := func(p section.Properties) float64 { return p.Centroid.Z }
	angle := outline(-.05, -2, .05, -2, .05, -.05, 1, -.05, 1, .05, -.05, .05)
	thick := outline(-.375, -.375, 5.625, -.375, 5.625, .375, .375, .375, .375, 7.625, -.375, 7.625)
	return []Check{
		property("thin angle, A", angle, area).from(Published, one).is(.3, "length²", same(.3), "exact"),
		property("thin angle, yc", angle, y).from(Published, one).is(.1663, "length", 5.1e-5, lastDigit+", a tie"),
		property("thin angle, zc", angle, z).from(Published, one).is(-.6663, "length", 5.1e-5, lastDigit+", a tie"),
		property("thin angle, Iy", angle, iy).from(Published, one).is(.1336, "length⁴", 5e-5, lastDigit),
		property("thin angle, Iz", angle, iz).from(Published, one).is(.0252, "length⁴", 5e-5, lastDigit),
		property("thin angle, Iyz", angle, iyz).from(Published, one).is(.0332, "length⁴", 5e-5, lastDigit),
		property("thin angle, larger principal moment", angle, major).from(Published, one).is(.1430, "length⁴", 5e-5, lastDigit),
		property("thin angle, smaller principal moment", angle, minor).from(Published, one).is(.0158, "length⁴", 5e-5, lastDigit),
		property("thick angle, A", thick, area).from(Published, b3).is(9.9375, "length²", same(9.9375), "exact"),
		property("thick angle, yc", thick, y).from(Published, b3).is(1.18868, "length", 5e-6, lastDigit),
		property("thick angle, zc", thick, z).from(Published, b3).is(2.18868, "length", 5e-6, lastDigit),
		property("thick angle, Iy", thick, iy).from(Published, b3).is(63.42455, "length⁴", 5e-6, lastDigit),
		property("thick angle, Iz", thick, iz).from(Published, b3).is(30.72142, "length⁴", 5e-6, lastDigit),
		property("thick angle, Iyz", thick, iyz).from(Published, b3).is(-25.85377, "length⁴", 5e-6, lastDigit),
		property("thick angle, larger principal moment", thick, major).from(Published, b3).is(77.66369, "length⁴", 5e-6, lastDigit),
		property("thick angle, smaller principal moment", thick, minor).from(Published, b3).is(16.48228, "length⁴", 5e-6, lastDigit),
		property("thick angle, direction of the major axis", thick, func(p section.Properties) float64 {
			return p.Principal().Angle * 180 / math.Pi
		}).from(Published, b3).is(28.844, "°", 5e-4, lastDigit),
	}
}

// ellipticTube has a middle line with semi-axes 8 and 5 and a wall of 1.
func ellipticTube() []Check {
	const (
		source = pilkey + "Ex. B.1" + quoted
		reason = "0.001 %: polygons of 2000 chords"
	)
	tube := sync.OnceValues(ellipseTube(8, 5, 1, 2000)) // drawn once for three rows
	return []Check{
		property("elliptic tube, A", tube, area).from(Published, source).is(41.38626, "length²", 1e-5*41.386, reason),
		property("elliptic tube, Iy", tube, iy).from(Published, source).is(580.42697, "length⁴", 1e-5*580.4, reason),
		property("elliptic tube, Iz", tube, iz).from(Published, source).is(1180.33120, "length⁴", 1e-5*1180.3, reason),
	}
}

// ellipseTube has its faces half a thickness square to the middle line.
func ellipseTube(a, b, thickness float64, chords int) shape {
	face := func(off float64) section.Outline {
		var o section.Outline
		for i := range chords {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(chords))
			normal := math.Hypot(b*cos, a*sin)
			o = append(o, section.Point{Y: a*cos + off*b*cos/normal, Z: b*sin + off*a*sin/normal})
		}
		return o
	}
	return func() (section.Shape, error) {
		return section.New([]section.Outline{face(thickness / 2)}, []section.Outline{face(-thickness / 2)})
	}
}

// hollowSections are rectangular hollow sections with round corners.
func hollowSections() []Check {
	const source = "EN 10219-2:2006, a dealer's table of its sections"
	var checks []Check
	for _, h := range []struct {
		name                    string
		depth, width, thickness float64 // cm
		area, iy, iz            float64
	}{
		{"40 × 20 × 3", 4, 2, .3, 3.01, 5.21, 1.68}, {"50 × 30 × 3", 5, 3, .3, 4.21, 12.83, 5.70},
		{"50 × 30 × 4", 5, 3, .4, 5.35, 15.25, 6.69}, {"60 × 40 × 2", 6, 4, .2, 3.74, 18.41, 9.83},
	} {
		drawn := hollowSection(h.depth, h.width, h.thickness, 2*h.thickness, h.thickness, 1e-4)
		reason := lastDigit + "; round corners drawn with 56 chords each"
		checks = append(checks,
			property("hollow section "+h.name+", A", drawn, area).from(Published, source).is(h.area, "cm²", 0.005, reason),
			property("hollow section "+h.name+", Iy", drawn, iy).from(Published, source).is(h.iy, "cm⁴", 0.005, reason),
			property("hollow section "+h.name+", Iz", drawn, iz).from(Published, source).is(h.iz, "cm⁴", 0.005, reason))
	}
	return append(checks, property("hot-finished 300 × 200 × 10, A", hollowSection(30, 20, 1, 1.5, 1, 1e-4), area).
		from(Recalled, "EN 10210-2, table of hollow sections").is(94.9, "cm²", 0.05, lastDigit))
}

// hollowSection has round corners outside and inside, whose chords rise by the
// given share of their radius.
func hollowSection(depth, width, thickness, radius, inner, rise float64) shape {
	return func() (section.Shape, error) {
		outer, err := section.RoundedRectangle(section.Point{}, width, depth, radius, rise*radius)
		if err != nil {
			return section.Shape{}, err
		}
		void, err := section.RoundedRectangle(section.Point{}, width-2*thickness, depth-2*thickness, inner, rise*inner)
		if err != nil {
			return section.Shape{}, err
		}
		return section.New([]section.Outline{outer}, []section.Outline{void})
	}
}
