package main

import (
	"math"

	"github.com/tempstage/tempstage/section"
)

func thinWalls() []Check {
	const (
		table    = "EN 10219-2:2006, a dealer's table of its sections"
		hotTable = "EN 10210-2, table of hollow sections"
	)
	var checks []Check
	for _, h := range []struct {
		name                    string
		depth, width, thickness float64 // cm
		it                      float64
	}{
		{"40 × 20 × 3", 4, 2, .3, 4.57}, {"50 × 30 × 3", 5, 3, .3, 13.53},
		{"50 × 30 × 4", 5, 3, .4, 16.53}, {"60 × 40 × 2", 6, 4, .2, 20.70},
	} {
		checks = append(checks,
			twist("hollow section "+h.name+", It", solved(hollowSection(h.depth, h.width, h.thickness, 2*h.thickness, h.thickness, 3e-3)), constant).
				from(Published, table).is(h.it, "cm⁴", 0.005*h.it, "0.5 %: the standard's formula is one for thin walls"),
			hollowFormula("hollow section "+h.name+", It by the standard's formula", h.depth, h.width, h.thickness, 1.5*h.thickness).
				from(Published, table).is(h.it, "cm⁴", 0.005, lastDigit))
	}
	checks = append(checks,
		hollowFormula("hot-finished 300 × 200 × 10, It by the standard's formula", 30, 20, 1, 1.25).
			from(Recalled, hotTable).is(12908, "cm⁴", 0.5, lastDigit),
		twist("elliptic tube, J", solved(ellipseTube(8, 5, 1, 180)), constant).from(Published, pilkey+"Ex. B.1"+quoted).
			is(1537.38165, "length⁴", 5e-4*1537.4, "0.05 %: refinement stops when J changes by less"))
	checks = append(checks, bredtWalls())
	return append(checks, slitTube()...)
}

// hollowFormula is It = t³h/3 + 2K·A with K = 2A·t/h of EN 10210-2 and EN 10219-2: A
// and h are the area and the length of the middle line, with round corners.
func hollowFormula(name string, depth, width, thickness, radius float64) Check {
	return Check{Name: name, Package: "section", Ours: func() (float64, error) {
		middle, err := section.RoundedRectangle(section.Point{}, width-thickness, depth-thickness, radius, 1e-4*radius)
		if err != nil {
			return 0, err
		}
		cell, err := section.Bredt(middle, thickness)
		if err != nil {
			return 0, err
		}
		around, err := section.New([]section.Outline{middle}, nil)
		if err != nil {
			return 0, err
		}
		wall, err := section.ThinWalled(section.Strip{Length: around.Properties().OuterPerimeter, Thickness: thickness})
		return cell + wall, err
	}}
}

// bredtWalls is Bredt's formula with walls of different thickness.
func bredtWalls() Check {
	middle := section.Outline{{Y: 0, Z: 0}, {Y: 43, Z: 0}, {Y: 43, Z: 36.5}, {Y: 0, Z: 36.5}}
	value := 4 * 43 * 43 * 36.5 * 36.5 / (2*43/5.5 + 2*36.5/5.0)
	return Check{Name: "walls of BIV-48 by Bredt, J", Package: "section", Ours: func() (float64, error) {
		return section.Bredt(middle, 5.5, 5, 5.5, 5)
	}}.from(ClosedForm, "Bredt (1896), J = 4·A²/Σ(s/t)").is(value, "in⁴", same(value), "exact")
}

// slitTube is a round wall of radius 8 and thickness 1.25 with a slit of 0.002
// rad at −y: polygons of 90 chords and the area of the round wall.
func slitTube() []Check {
	const (
		slit   = 0.001
		chords = 90
		step   = 2 * (math.Pi - slit) / chords
	)
	draw := func() (section.Shape, error) {
		grow := math.Sqrt(step / math.Sin(step))
		var o section.Outline
		for i := range chords + 1 {
			sin, cos := math.Sincos(-math.Pi + slit + step*float64(i))
			o = append(o, section.Point{Y: grow * 8.625 * cos, Z: grow * 8.625 * sin})
		}
		for i := chords; i >= 0; i-- {
			sin, cos := math.Sincos(-math.Pi + slit + step*float64(i))
			o = append(o, section.Point{Y: grow * 7.375 * cos, Z: grow * 7.375 * sin})
		}
		return section.New([]section.Outline{o}, nil)
	}
	tube := solved(draw)
	const (
		source = pilkey + "Ex. B.4" + quoted
		mesh   = "0.3 %: the published value depends on its mesh"
	)
	return []Check{
		property("slit tube of radius 8 and wall 1.25, I about the axis through the slit", draw, iy).
			from(Published, source).is(2022.889, "length⁴", 0.01, "5e-6: polygon and slit"),
		twist("slit tube of radius 8 and wall 1.25, J", tube, constant).
			from(Published, source).is(32.23967, "length⁴", 3e-3*32.24, mesh),
		twist("slit tube of radius 8 and wall 1.25, shear centre from the centre", tube, func(_ section.Shape, t section.Torsion) (float64, error) {
			c, err := t.ShearCentre(0)
			return c.Y, err
		}).from(Published, source+"; printed 23.903 from a point 8 from the centre").is(15.903, "length", 0.002, "0.013 % of the distance: polygon, slit and the published mesh"),
		twist("slit tube of radius 8 and wall 1.25, Cw", tube, func(_ section.Shape, t section.Torsion) (float64, error) {
			return t.WarpingConstant(), nil
		}).from(Published, source).is(331651, "length⁶", 3e-3*331651, mesh),
	}
}

// wallShears hold the boundary-element stress against the general formula done
// on two rectangles, and a cell against Bredt's flow.
func wallShears() []Check {
	const general = "shear flow by the general formula with Iyz, 10.5 × 1 about (5.25, 0.5) and 1 × 14.5 about (0.5, 8.25); cut off "
	forces := section.Forces{Vy: 30e3, Vz: 100e3}
	across := func(at section.Point) func(section.Shape, section.Torsion) (float64, error) {
		return func(s section.Shape, t section.Torsion) (float64, error) {
			cut, err := s.Across(at)
			if err != nil {
				return 0, err
			}
			f := forces
			f.T = -t.AboutShearCentre(forces) // through the shear centre
			w, err := t.WallShear(cut, f)
			return math.Abs(w.Flow), err
		}
	}
	upright, level := angleFlow(forces, 9.5, 0.5, 10.75), angleFlow(forces, 3.5, 8.75, 0.5)
	const points = "0.001 %: Gauss points across the wall of a boundary-element solution"
	return []Check{
		twist("angle 10.5 × 15.5 × 1, flow across the upright leg at 6", angle(15.5), across(section.Point{Y: 0.4, Z: 6})).
			from(ClosedForm, general+"1 × 9.5 about (0.5, 10.75)").is(upright, "N/m", 1e-5*upright, points),
		twist("angle 10.5 × 15.5 × 1, flow across the level leg at 7", angle(15.5), across(section.Point{Y: 7, Z: 0.4})).
			from(ClosedForm, general+"3.5 × 1 about (8.75, 0.5)").is(level, "N/m", 1e-5*level, points),
		twist("tube of diameter 8 and wall 1/4, flow under torque", tube(8, 0.25), func(s section.Shape, t section.Torsion) (float64, error) {
			cut, err := s.Across(section.Point{Y: 3.9})
			if err != nil {
				return 0, err
			}
			w, err := t.WallShear(cut, section.Forces{T: 1})
			return math.Abs(w.Flow), err
		}).from(ClosedForm, "τ = T·r/Ip integrated over the wall").
			is((4*4-3.75*3.75)/2/(math.Pi/2*(256-3.75*3.75*3.75*3.75)), "1/m²", 5e-4*0.0106, "0.05 %: a polygon for the circle"),
	}
}

// angleFlow is the flow across a leg of the angle 10.5 × 15.5 × 1 that parts an
// area with its centroid at y, z from the rest, summed by hand over the two
// rectangles of the angle.
func angleFlow(f section.Forces, area, y, z float64) float64 {
	const (
		cy  = (10.5*5.25 + 14.5*0.5) / 25
		cz  = (10.5*0.5 + 14.5*8.25) / 25
		iy  = 10.5/12. + 10.5*(0.5-cz)*(0.5-cz) + 14.5*14.5*14.5/12 + 14.5*(8.25-cz)*(8.25-cz)
		iz  = 10.5*10.5*10.5/12 + 10.5*(5.25-cy)*(5.25-cy) + 14.5/12. + 14.5*(0.5-cy)*(0.5-cy)
		iyz = 10.5*(5.25-cy)*(0.5-cz) + 14.5*(0.5-cy)*(8.25-cz)
	)
	sy, sz := area*(z-cz), area*(y-cy)
	return math.Abs((f.Vz*iz-f.Vy*iyz)*sy+(f.Vy*iy-f.Vz*iyz)*sz) / (iy*iz - iyz*iyz)
}
