package main

import (
	"math"

	"github.com/tempstage/tempstage/section"
)

func thinWalls() []Check {
	return []Check{
		hollowFormula("hot-finished 300 × 200 × 10, It by the standard's formula", 30, 20, 1, 1.25).
			from(Recalled, "EN 10210-2, table of hollow sections").is(12908, "cm⁴", 0.5, lastDigit),
		bredtWalls(),
	}
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

// wallShears compare the boundary-element stress with the general formula done on the
// two rectangles of [angle], and a cell against Bredt's flow.
func wallShears() []Check {
	const general = "shear flow by the general formula with Iyz, 0.9 × 0.1 about (0.45, 0.05) and 0.15 × 1.1 about (0.075, 0.65); cut off "
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
	solve := solved(angle)
	upright, level := angleFlow(forces, 0.15*0.7, 0.075, 0.85), angleFlow(forces, 0.3*0.1, 0.75, 0.05)
	const points = "0.001 %: Gauss points across the wall of a boundary-element solution"
	flow := (0.6*0.6 - 0.5*0.5) / 2 / (math.Pi / 2 * (0.6*0.6*0.6*0.6 - 0.5*0.5*0.5*0.5))
	return []Check{
		twist("angle 0.9 × 1.2, flow across the upright leg at 0.5", solve, across(section.Point{Y: 0.06, Z: 0.5})).
			from(ClosedForm, general+"0.15 × 0.7 about (0.075, 0.85)").is(upright, "N/m", 1e-5*upright, points),
		twist("angle 0.9 × 1.2, flow across the level leg at 0.6", solve, across(section.Point{Y: 0.6, Z: 0.04})).
			from(ClosedForm, general+"0.3 × 0.1 about (0.75, 0.05)").is(level, "N/m", 1e-5*level, points),
		twist("tube of diameter 1.2 and wall 0.1, flow under torque", tube(1.2, 0.1), func(s section.Shape, t section.Torsion) (float64, error) {
			cut, err := s.Across(section.Point{Y: 0.55})
			if err != nil {
				return 0, err
			}
			w, err := t.WallShear(cut, section.Forces{T: 1})
			return math.Abs(w.Flow), err
		}).from(ClosedForm, "τ = T·r/Ip integrated over the wall").is(flow, "1/m²", 5e-4*flow, "0.05 %: a polygon for the circle"),
	}
}

// angleFlow is the flow across a leg of [angle] that parts an area with its
// centroid at y, z from the rest, summed by hand over its two rectangles.
func angleFlow(f section.Forces, area, y, z float64) float64 {
	const (
		level, upright = 0.9 * 0.1, 0.15 * 1.1
		cy             = (level*0.45 + upright*0.075) / (level + upright)
		cz             = (level*0.05 + upright*0.65) / (level + upright)
		iy             = level*0.01/12 + level*(0.05-cz)*(0.05-cz) + upright*1.21/12 + upright*(0.65-cz)*(0.65-cz)
		iz             = level*0.81/12 + level*(0.45-cy)*(0.45-cy) + upright*0.0225/12 + upright*(0.075-cy)*(0.075-cy)
		iyz            = level*(0.45-cy)*(0.05-cz) + upright*(0.075-cy)*(0.65-cz)
	)
	sy, sz := area*(z-cz), area*(y-cy)
	return math.Abs((f.Vz*iz-f.Vy*iyz)*sy+(f.Vy*iy-f.Vz*iyz)*sz) / (iy*iz - iyz*iyz)
}
