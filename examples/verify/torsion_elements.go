package main

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/section"
)

// The outlines of recipes/torsion.py and recipes/areas.py, in m: invented.
var (
	iGirder     = symmetric([]float64{.3, 0, .3, .2, .1, .34, .1, 1.4, .4, 1.48, .4, 1.6})
	bulbTee     = symmetric([]float64{.35, 0, .35, .15, .09, .29, .09, 1.34, .14, 1.39, .6, 1.44, .6, 1.5})
	halfBox     = outline(0, 0, 0, .2, -1, .3, -1.2, 1.8, 0, 1.95, 0, 2.2, -1.5, 2.2, -2.6, 2.2, -2.6, 2, -1.5, 1.8, -1.3, .3, -1.3, 0)
	channel     = outline(0, 0, 1, 0, 1, .12, .1, .12, .1, 1.88, 1, 1.88, 1, 2, 0, 2)
	angle       = outline(0, 0, .9, 0, .9, .1, .15, .1, .15, 1.2, 0, 1.2)
	haunchedBox = symmetric([]float64{2.5, 0, 2.5, 2.1, 5, 2.4, 5, 2.6},
		mirrored([]float64{1.85, .25, 2.15, .55, 2.15, 2.1, 1.55, 2.35}))
)

// openRing is eleven of twelve plates round a circle, 0.16 thick, each square to
// its radius of 1; the twelfth, towards −y, is missing.
func openRing() (section.Shape, error) {
	var o section.Outline
	at := func(radius float64, k int) section.Point {
		sin, cos := math.Sincos(float64(-165+30*k) * math.Pi / 180)
		r := radius / math.Cos(math.Pi/12)
		return section.Point{Y: r * cos, Z: r * sin}
	}
	for k := range 12 {
		o = append(o, at(1.08, k))
	}
	for k := 11; k >= 0; k-- {
		o = append(o, at(.92, k))
	}
	return section.New([]section.Outline{o}, nil)
}

// centre is the shear centre from the origin of the drawing.
func centre(poisson float64, part func(section.Point) float64) func(section.Shape, section.Torsion) (float64, error) {
	return func(_ section.Shape, t section.Torsion) (float64, error) {
		c, err := t.ShearCentre(poisson)
		return part(c), err
	}
}

func acrossY(p section.Point) float64 { return p.Y }
func acrossZ(p section.Point) float64 { return p.Z }

func warpingConstant(_ section.Shape, t section.Torsion) (float64, error) {
	return t.WarpingConstant(), nil
}

// measured is a value of a recipe and its own error.
type measured struct{ value, error float64 }

// elements is J, shear centre and warping constant by finite elements.
func elements() []Check {
	const source = "recipes/torsion.py: biquadratic finite elements, numpy 1.24.2, scipy 1.10.1"
	var checks []Check
	for _, s := range []struct {
		name, unit string
		draw       shape
		j, cw      measured
		y, z       [2]measured // at ratio of Poisson 0 and 0.3; none where symmetry gives it
	}{
		{"I-girder", "m", iGirder, measured{0.009152474838, 2.7e-08}, measured{0.004476676937, 3.2e-08},
			[2]measured{}, [2]measured{{0.929801042, 9.5e-07}, {0.9149868684, 1.1e-06}}},
		{"bulb-tee", "m", bulbTee, measured{0.006069641184, 1.5e-08}, measured{0.006003223072, 2.5e-08},
			[2]measured{}, [2]measured{{0.9891368859, 1.3e-07}, {0.9800484995, 1.4e-07}}},
		{"AASHTO Type III", "in", typeIII, measured{17053.65379, 0.032}, measured{2294345.608, 6.8},
			[2]measured{}, [2]measured{{15.90946169, 1.3e-05}, {15.50428038, 1.2e-05}}},
		{"half-box", "m", halfBox, measured{0.05584130881, 2.1e-07}, measured{0.1857069549, 1.1e-06},
			[2]measured{{-1.621041579, 3.8e-06}, {-1.621852545, 3.8e-06}}, [2]measured{{1.721555512, 2.9e-06}, {1.723587256, 2.8e-06}}},
		{"channel", "m", channel, measured{0.001695998697, 7.4e-09}, measured{0.02539167863, 9.5e-08},
			[2]measured{{-0.3174781764, 1.8e-06}, {-0.3174603982, 1.8e-06}}, [2]measured{}},
		{"angle", "m", angle, measured{0.001511538336, 5.5e-09}, measured{0.0001504091052, 4.7e-10},
			[2]measured{{0.07100130984, 6.5e-07}, {0.07018745772, 6.1e-07}}, [2]measured{{0.07234792161, 2e-06}, {0.07385437883, 2.1e-06}}},
		{"open ring", "m", openRing, measured{0.007943744825, 6.7e-09}, measured{0.7068681541, 1.4e-07},
			[2]measured{{1.952208345, 2e-07}, {1.95224183, 2e-07}}, [2]measured{}},
		{"haunched box", "m", haunchedBox, measured{10.63645934, 1.6e-05}, measured{4.153412621, 0.00016},
			[2]measured{}, [2]measured{{1.335140632, 1.7e-06}, {1.324377236, 1.8e-06}}},
	} {
		solve := solved(s.draw)
		row := func(what, unit string, m measured, share float64, reason string, of func(section.Shape, section.Torsion) (float64, error)) {
			if m.value != 0 {
				checks = append(checks, twist(s.name+": "+what, solve, of).from(Library, source).
					is(m.value, unit, m.error+share*math.Abs(m.value), reason+"; and the error of the recipe"))
			}
		}
		row("J", s.unit+"⁴", s.j, 5e-4, settled, constant)
		const near = "0.01 % of the distance from the origin: what is left of a refinement that stops at 0.05 % of J"
		for i, poisson := range []float64{0, .3} {
			row(fmt.Sprintf("shear centre with ν = %g, y", poisson), s.unit, s.y[i], 1e-4, near, centre(poisson, acrossY))
			row(fmt.Sprintf("shear centre with ν = %g, z", poisson), s.unit, s.z[i], 1e-4, near, centre(poisson, acrossZ))
		}
		row("warping constant", s.unit+"⁶", s.cw, 5e-4, settled, warpingConstant)
	}
	return checks
}
