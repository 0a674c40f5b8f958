package main

import (
	"fmt"

	"github.com/tempstage/tempstage/section"
)

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

// warping is the warping constant.
func warping(_ section.Shape, t section.Torsion) (float64, error) { return t.WarpingConstant(), nil }

func shearCentres() []Check {
	const (
		pilkey = "Pilkey, Analysis and Design of Elastic Beams (2002), "
		mesh   = "0.05 %: the published value is of a coarse mesh"
	)
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
			twist(name+"y", angle, centre(row.poisson, acrossY)).from(Published, pilkey+"Ex. 6.7").is(row.y, "m", 5e-4*-row.y, mesh),
			twist(name+"z", angle, centre(row.poisson, acrossZ)).from(Published, pilkey+"Ex. 6.7").is(row.z, "m", 5e-4*-row.z, mesh))
	}
	thick := solved(outline(-.375, -.375, 5.625, -.375, 5.625, .375, .375, .375, .375, 7.625, -.375, 7.625))
	fromCrossing := func(part func(section.Point) float64) func(section.Shape, section.Torsion) (float64, error) {
		return func(_ section.Shape, t section.Torsion) (float64, error) {
			c, err := t.ShearCentre(0)
			return part(c), err
		}
	}
	const near = "0.001 in: the published value is of a coarse mesh"
	return append(checks,
		twist("channel, shear centre", channel(), centre(0, acrossY)).from(Published, pilkey+"Ex. 6.2").
			is(-0.62056, "m", 0.0005, "0.08 % of the distance: the published value is of a coarse mesh"),
		twist("thick angle, shear centre, y", thick, fromCrossing(acrossY)).from(Published, pilkey+"Ex. B.3").is(0.00313, "in", 0.001, near),
		twist("thick angle, shear centre, z", thick, fromCrossing(acrossZ)).from(Published, pilkey+"Ex. B.3").is(0.05735, "in", 0.001, near))
}

// concreteBeams are the standard beams on their true outline.
func concreteBeams() []Check {
	const (
		journal  = "Brice and Pickings, PCI Journal, May-June 2021, Table A.1"
		coarse   = "3 %: the published values are of a coarse finite-difference mesh, 1.7 to 2.4 % low"
		elements = "warping function of the same outline by finite elements"
		mesh     = "0.1 %: mesh of the finite elements"
		bracket  = "upper and lower bound of J by finite elements (displacement and stress function), their mean"
		bounded  = "0.05 %: refinement stops when J changes by less"
	)
	one, two, three, four, six := solved(typeI), solved(typeII), solved(typeIII), solved(typeIV), solved(typeVI)
	bulb := solved(bulb72)
	return []Check{
		twist("AASHTO Type I, J", one, constant).from(Published, journal).is(4592, "in⁴", 0.03*4592, coarse),
		twist("AASHTO Type II, J", two, constant).from(Published, journal).is(7621, "in⁴", 0.03*7621, coarse),
		twist("AASHTO Type III, J", three, constant).from(Published, journal).is(16734, "in⁴", 0.03*16734, coarse),
		twist("AASHTO Type IV, J", four, constant).from(Published, journal).is(32334, "in⁴", 0.03*32334, coarse),
		twist("AASHTO Type I, J between bounds", one, constant).from(Library, bracket).is(4706.25, "in⁴", 2.4, bounded),
		twist("AASHTO Type II, J between bounds", two, constant).from(Library, bracket).is(7788.75, "in⁴", 3.9, bounded),
		twist("AASHTO Type III, J between bounds", three, constant).from(Library, bracket).is(17053.6, "in⁴", 8.5, bounded),
		twist("AASHTO Type IV, J between bounds", four, constant).from(Library, bracket).is(32878.15, "in⁴", 16.5, bounded),
		twist("AASHTO Type VI, J between bounds", six, constant).from(Library, bracket).is(40080.95, "in⁴", 20, bounded),
		twist("bulb-tee BT-72, J between bounds", bulb, constant).from(Library, bracket).is(12243, "in⁴", 8+6, bounded+" and half the width of the bracket"),
		twist("AASHTO Type IV, shear centre", four, centre(0, acrossZ)).from(Library, elements).is(-4.537, "in", 0.005, "0.01 % of the depth"),
		twist("AASHTO Type VI, shear centre", six, centre(0, acrossZ)).from(Library, elements).is(9.479, "in", 0.005, "0.01 % of the depth"),
		twist("AASHTO Type I, Cw", one, warping).from(Library, elements).is(2.0735e5, "in⁶", 1e-3*2.0735e5, mesh),
		twist("AASHTO Type II, Cw", two, warping).from(Library, elements).is(5.4531e5, "in⁶", 1e-3*5.4531e5, mesh),
		twist("AASHTO Type III, Cw", three, warping).from(Library, elements).is(2.2943e6, "in⁶", 1e-3*2.2943e6, mesh),
		twist("AASHTO Type IV, Cw", four, warping).from(Library, elements).is(7.2297e6, "in⁶", 1e-3*7.2297e6, mesh),
		twist("AASHTO Type VI, Cw", six, warping).from(Library, elements).is(4.5160e7, "in⁶", 1e-3*4.5160e7, mesh),
		twist("bulb-tee BT-72, Cw", bulb, warping).from(Library, elements).is(3.063e7, "in⁶", 1e-3*3.063e7, mesh),
		twist("AASHTO Type I, shear centre", one, centre(0, acrossZ)).from(Library, elements).is(-2.376, "in", 0.003, "0.01 % of the depth"),
		twist("AASHTO Type II, shear centre", two, centre(0, acrossZ)).from(Library, elements).is(-4.067, "in", 0.004, "0.01 % of the depth"),
		twist("AASHTO Type III, shear centre", three, centre(0, acrossZ)).from(Library, elements).is(-4.364, "in", 0.005, "0.01 % of the depth"),
		twist("bulb-tee BT-72, shear centre", bulb, centre(0, acrossZ)).from(Library, elements).is(12.82, "in", 0.01, "0.01 % of the depth"),
	}
}
