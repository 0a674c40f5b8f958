package main

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section"
)

// solidShapes is J of shapes that are not rectangles.
func solidShapes() []Check {
	const settled = "0.05 %: refinement stops when J changes by less"
	triangle := solved(outline(0, 0, 1, 0, 0.5, math.Sqrt(3)/2))
	circle := solved(func() (section.Shape, error) {
		o, err := section.Circle(section.Point{}, 2, 0.0005)
		if err != nil {
			return section.Shape{}, err
		}
		return section.New([]section.Outline{o}, nil)
	})
	return []Check{
		twist("equilateral triangle of side 1, J", triangle, constant).from(ClosedForm, pilkey+"Ex. 5.6").
			is(math.Sqrt(3)/80, "length⁴", 5e-4*math.Sqrt(3)/80, settled),
		twist("circle of radius 1, J", circle, constant).from(ClosedForm, "J = π·r⁴/2").
			is(math.Pi/2, "m⁴", 5e-4*math.Pi/2, settled+"; a polygon of the same area"),
		twist("ellipse with semi-axes 75 and 50, J", ellipse(75, 50), constant).from(ClosedForm, pilkey+"Ex. 5.3").
			is(math.Pi*75*75*75*50*50*50/(75*75+50*50), "length⁴", 1e-5*2.039e7, "0.001 %: a polygon of 180 chords and the same area"),
		twist("tube of diameter 8 and wall 1/4, J", tube(8, 0.25), constant).from(Published, pilkey+"Ex. 5.7"+quoted).
			is(91.49, "length⁴", 0.005+5e-4*91.49, "half of the last printed digit and 0.05 % for the refinement"),
		twist("thin angle, J", solved(outline(-.05, -2, .05, -2, .05, -.05, 1, -.05, 1, .05, -.05, .05)), constant).from(Published, pilkey+"Ex. 5.14"+quoted).
			is(0.00099, "length⁴", 0.000005, lastDigit),
		twist("channel, J", channel(), constant).from(Published, pilkey+"Ex. 6.2"+quoted).is(0.00133, "length⁴", 0.000005, lastDigit),
		twist("angle 10.5 × 10.5 × 1, J", angle(10.5), constant).from(Published, pilkey+"Ex. 6.7"+quoted).
			is(6.539189, "length⁴", 3e-3*6.539, "0.3 %: the published value is of a coarse mesh, 0.15 % high"),
		twist("angle 10.5 × 15.5 × 1, J", angle(15.5), constant).from(Published, pilkey+"Ex. 6.7"+quoted).
			is(8.211705, "length⁴", 3e-3*8.2117, "0.3 %: the published value is of a coarse mesh, 0.2 % high"),
	}
}

// centre is the shear centre from the centroid.
func centre(poisson float64, part func(section.Point) float64) func(section.Shape, section.Torsion) (float64, error) {
	return func(s section.Shape, t section.Torsion) (float64, error) {
		c, err := t.ShearCentre(poisson)
		g := s.Properties().Centroid
		return part(section.Point{Y: c.Y - g.Y, Z: c.Z - g.Z}), err
	}
}

func acrossY(p section.Point) float64 { return p.Y }
func acrossZ(p section.Point) float64 { return p.Z }

func shearCentres() []Check {
	const mesh = "0.05 %: the published value is of a coarse mesh"
	angles := map[float64]solution{10.5: angle(10.5), 15.5: angle(15.5)}
	var checks []Check
	for _, row := range []struct {
		depth, poisson, y, z float64
	}{
		{10.5, 0, -2.464750, -2.464750}, {10.5, 0.3, -2.464971, -2.464971},
		{15.5, 0, -1.997641, -4.423925}, {15.5, 0.3, -1.997605, -4.424391},
	} {
		name, angle := fmt.Sprintf("angle 10.5 × %g × 1, shear centre with ν = %g, ", row.depth, row.poisson), angles[row.depth]
		checks = append(checks,
			twist(name+"y", angle, centre(row.poisson, acrossY)).from(Published, pilkey+"Ex. 6.7"+quoted).is(row.y, "length", 5e-4*-row.y, mesh),
			twist(name+"z", angle, centre(row.poisson, acrossZ)).from(Published, pilkey+"Ex. 6.7"+quoted).is(row.z, "length", 5e-4*-row.z, mesh))
	}
	thick := solved(outline(-.375, -.375, 5.625, -.375, 5.625, .375, .375, .375, .375, 7.625, -.375, 7.625))
	fromCrossing := func(part func(section.Point) float64) func(section.Shape, section.Torsion) (float64, error) {
		return func(_ section.Shape, t section.Torsion) (float64, error) {
			c, err := t.ShearCentre(0)
			return part(c), err
		}
	}
	const near = "0.07 % of the wall: the published value is of a coarse mesh"
	return append(checks,
		twist("channel, shear centre", channel(), centre(0, acrossY)).from(Published, pilkey+"Ex. 6.2"+quoted).
			is(-0.62056, "length", 1e-4, "0.016 % of the distance: the published value is of a coarse mesh"),
		twist("thick angle, shear centre, y", thick, fromCrossing(acrossY)).from(Published, pilkey+"Ex. B.3"+quoted).is(0.00313, "length", 5e-4, near),
		twist("thick angle, shear centre, z", thick, fromCrossing(acrossZ)).from(Published, pilkey+"Ex. B.3"+quoted).is(0.05735, "length", 5e-4, near))
}

// concreteBeams are the standard beams on their true outline.
func concreteBeams() []Check {
	const (
		journal = "Brice and Pickings, PCI Journal, May-June 2021, Table A.1"
		coarse  = "2.5 %: the published values are of a coarse finite-difference mesh, 1.7 to 2.5 % under ours"
	)
	var checks []Check
	for _, beam := range []struct {
		name string
		draw shape
		j    float64
	}{{"I", typeI, 4592}, {"II", typeII, 7621}, {"III", typeIII, 16734}, {"IV", typeIV, 32334}} {
		checks = append(checks, twist("AASHTO Type "+beam.name+", J", solved(beam.draw), constant).
			from(Published, journal).is(beam.j, "in⁴", 0.025*beam.j, coarse))
	}
	return checks
}

// channel and angle are those of [pilkey].
func channel() solution {
	return solved(outline(-.05, -2.05, 1, -2.05, 1, -1.95, .05, -1.95, .05, -.05, 1, -.05, 1, .05, -.05, .05))
}

func angle(depth float64) solution {
	return solved(outline(0, 0, 10.5, 0, 10.5, 1, 1, 1, 1, depth, 0, depth))
}

func ellipse(a, b float64) solution {
	return solved(func() (section.Shape, error) {
		const step = 2 * math.Pi / 180
		grow := math.Sqrt(step / math.Sin(step)) // to the area of the ellipse
		var o section.Outline
		for i := range 180 {
			sin, cos := math.Sincos(step * float64(i))
			o = append(o, section.Point{Y: grow * a * cos, Z: grow * b * sin})
		}
		return section.New([]section.Outline{o}, nil)
	})
}

func tube(diameter, wall float64) solution {
	return solved(func() (section.Shape, error) {
		outer, err := section.Circle(section.Point{}, diameter, diameter/2000)
		if err != nil {
			return section.Shape{}, err
		}
		inner, err := section.Circle(section.Point{}, diameter-2*wall, diameter/2000)
		if err != nil {
			return section.Shape{}, err
		}
		return section.New([]section.Outline{outer}, []section.Outline{inner})
	})
}
