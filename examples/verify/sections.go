package main

import (
	"math"

	"github.com/tempstage/tempstage/section"
)

// sections is every check of the exact polygon sums, in the units of the
// source: the library takes any unit of length.
func sections() []Check {
	var checks []Check
	for _, list := range [][]Check{iBeams(), boxBeams(), doubleTees(), invented(), hollowSections()} {
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

// invented is outlines with every property that the library gives.
func invented() []Check {
	const (
		source = "recipes/areas.py: trapezoids in fractions and Green's theorem in numpy 1.24.2"
		exact  = "exact sums: rounding of float64 arithmetic"
	)
	var checks []Check
	for _, s := range []struct {
		name   string
		draw   shape
		values [10]float64
	}{
		{"bulb-tee", bulbTee, [10]float64{0.4761, 0, 0.73244626479031, 0.142707002583608, 0.017172585, 0, 0.185924445465204, 0.194836139446302, 0.142707002583608, 0.017172585}},
		{"half-box", halfBox, [10]float64{1.63, -1.14703476482618, 1.36554192229039, 1.03134377130198, 0.540610668029993, -0.260808452624404, 1.23594437977372, 0.755263353300886, 1.14406351320718, 0.427890926124786}},
		{"angle", angle, [10]float64{0.255, 0.207352941176471, 0.438235294117647, 0.0376772058823529, 0.0145737132352941, -0.0131029411764706, 0.0494604247104247, 0.0859748322147651, 0.0435934276890104, 0.00865749142863667}},
	} {
		for i, of := range []struct {
			name, unit string
			read       func(section.Properties) float64
		}{
			{"A", "m²", area}, {"yc", "m", func(p section.Properties) float64 { return p.Centroid.Y }},
			{"zc", "m", func(p section.Properties) float64 { return p.Centroid.Z }},
			{"Iy", "m⁴", iy}, {"Iz", "m⁴", iz}, {"Iyz", "m⁴", iyz},
			{"top modulus", "m³", section.Properties.TopModulus}, {"bottom modulus", "m³", section.Properties.BottomModulus},
			{"larger principal moment", "m⁴", func(p section.Properties) float64 { return p.Principal().Major }},
			{"smaller principal moment", "m⁴", func(p section.Properties) float64 { return p.Principal().Minor }},
		} {
			tolerance := max(same(s.values[i]), 1e-15) // 0 by symmetry
			checks = append(checks, property(s.name+": "+of.name, s.draw, of.read).from(ClosedForm, source).is(s.values[i], of.unit, tolerance, exact))
		}
	}
	return checks
}

// hollowSections are rectangular hollow sections with round corners.
func hollowSections() []Check {
	const (
		depth, width, wall, radius, inner, rise = 0.40, 0.25, 0.02, 0.04, 0.02, 1e-4

		source = "rectangles less four spandrels each: (1 − π/4)r² about 0.2234r from the edge, (1 − 5π/16)r⁴ about the edge"
		chords = "what chords that rise by 1e-4 of their radius may cut off: 2/3 of the rise over the arcs"
	)
	a, y, z := rounded(width, depth, radius)
	voidA, voidY, voidZ := rounded(width-2*wall, depth-2*wall, inner)
	cut := 2. / 3 * rise * 2 * math.Pi * (radius*radius + inner*inner)
	drawn := hollowSection(depth, width, wall, radius, inner, rise)
	const name = "hollow section 0.40 × 0.25 × 0.02, radius 0.04: "
	return []Check{
		property(name+"A", drawn, area).from(ClosedForm, source).is(a-voidA, "m²", cut, chords),
		property(name+"Iy", drawn, iy).from(ClosedForm, source).is(y-voidY, "m⁴", cut*depth*depth/4, chords+", at half of the depth"),
		property(name+"Iz", drawn, iz).from(ClosedForm, source).is(z-voidZ, "m⁴", cut*width*width/4, chords+", at half of the width"),
		property("hot-finished 300 × 200 × 10, A", hollowSection(30, 20, 1, 1.5, 1, 1e-4), area).
			from(Recalled, "EN 10210-2, table of hollow sections").is(94.9, "cm²", 0.05, lastDigit),
	}
}

// rounded is area and second moments of a rectangle with round corners.
func rounded(width, depth, radius float64) (a, y, z float64) {
	spandrel := (1 - math.Pi/4) * radius * radius
	from := (10 - 3*math.Pi) / (12 - 3*math.Pi) * radius // of its centroid from the edges
	own := (1-5*math.Pi/16)*radius*radius*radius*radius - spandrel*from*from
	about := func(width, depth float64) float64 {
		return width*depth*depth*depth/12 - 4*(own+spandrel*(depth/2-from)*(depth/2-from))
	}
	return width*depth - 4*spandrel, about(width, depth), about(depth, width)
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
