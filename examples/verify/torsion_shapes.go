package main

import (
	"math"

	"github.com/tempstage/tempstage/section"
)

const settled = "0.05 %: refinement stops when J changes by less"

// solidShapes is J of shapes that have a closed form and are not rectangles.
func solidShapes() []Check {
	triangle := solved(outline(0, 0, 1, 0, 0.5, math.Sqrt(3)/2))
	circle := solved(func() (section.Shape, error) {
		o, err := section.Circle(section.Point{}, 2, 0.0005)
		if err != nil {
			return section.Shape{}, err
		}
		return section.New([]section.Outline{o}, nil)
	})
	flat := math.Pi * 0.9 * 0.9 * 0.9 * 0.5 * 0.5 * 0.5 / (0.9*0.9 + 0.5*0.5)
	hollow := math.Pi / 2 * (0.6*0.6*0.6*0.6 - 0.5*0.5*0.5*0.5)
	return []Check{
		twist("equilateral triangle of side 1, J", triangle, constant).from(ClosedForm, "Saint-Venant: J = √3·a⁴/80").
			is(math.Sqrt(3)/80, "m⁴", 5e-4*math.Sqrt(3)/80, settled),
		twist("circle of radius 1, J", circle, constant).from(ClosedForm, "J = π·r⁴/2").
			is(math.Pi/2, "m⁴", 5e-4*math.Pi/2, settled+"; a polygon of the same area"),
		twist("ellipse with semi-axes 0.9 and 0.5, J", ellipse(0.9, 0.5), constant).from(ClosedForm, "Saint-Venant: J = π·a³b³/(a² + b²)").
			is(flat, "m⁴", 1e-5*flat, "0.001 %: a polygon of 180 chords and the same area"),
		twist("tube of diameter 1.2 and wall 0.1, J", tube(1.2, 0.1), constant).from(ClosedForm, "J = π(R⁴ − r⁴)/2").
			is(hollow, "m⁴", 5e-4*hollow, settled+"; polygons for the circles"),
	}
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
