package main

import (
	"math"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

const mpmath = "recipes/stiffness.py: mpmath 1.2.1, 30 digits; "

// byLibrary is a value computed with a general-purpose numerical library.
func byLibrary(name, recipe string, layout beam.Layout, set loads.Set, value float64, unit string, read reading) Check {
	return Check{
		Name: name, Package: "beam", Source: mpmath + recipe, Kind: Library,
		Value: value, Unit: unit, Tolerance: same(value), Reason: "computed to 30 digits: a varying stiffness is fitted to 1e-11",
		Ours: ours(layout, set, read),
	}
}

// varying is a beam of the given length whose EI follows a law.
func varying(length float64, law func(float64) float64, supports ...beam.Support) beam.Layout {
	return beam.Layout{Length: length, Stiffness: []beam.Stretch{{BendingAt: law}}, Supports: supports}
}

// stepped is a beam with EI first up to a place and then another.
func stepped(length, first, to, then float64, supports ...beam.Support) beam.Layout {
	layout := uniformBeam(length, supports...)
	layout.Stiffness = []beam.Stretch{{To: to, BendingStiffness: first}, {BendingStiffness: then}}
	return layout
}

func cube(depth float64) float64 { return depth * depth * depth }

// stiffnesses is beams whose stiffness varies or whose supports give way.
func stiffnesses() []Check {
	udl := func(length float64) loads.Set { return line(loads.Uniform(0, length, 1)) }
	haunched := varying(1, func(x float64) float64 { return cube(1 + (2*x-1)*(2*x-1)) }, beam.Support{At: 0}, beam.Support{At: 1})
	deepFixed := varying(1, func(x float64) float64 { return cube(1 + (1-x)*(1-x)) }, beam.Support{At: 0, Fixed: true}, beam.Support{At: 1})
	growing := varying(1, func(x float64) float64 { return math.Exp(2 * x) },
		beam.Support{At: 0, Fixed: true}, beam.Support{At: 1, Fixed: true})
	sine := varying(2, func(x float64) float64 { return 1 + math.Sin(math.Pi*x/2) }, beam.Support{At: 0}, beam.Support{At: 1}, beam.Support{At: 2})
	thick := uniformBeam(1, beam.Support{At: 0}, beam.Support{At: 1})
	thick.Stiffness = []beam.Stretch{{To: .25, BendingStiffness: 1}, {To: .75, BendingStiffness: 3}, {BendingStiffness: 1}}
	springs := stepped(2, 1, .6, 4, beam.Support{At: 0, Stiffness: 100}, beam.Support{At: 1, Stiffness: 100}, beam.Support{At: 2, Stiffness: 100})
	unlike := stepped(2, 1, 1, 2, beam.Support{At: 0}, beam.Support{At: 1}, beam.Support{At: 2})
	five := uniformBeam(4)
	for i := range 5 {
		five.Supports = append(five.Supports, beam.Support{At: float64(i), Stiffness: 50})
	}
	cantilever := beam.Layout{Length: 1, Supports: []beam.Support{{At: 0, Fixed: true}}, Stiffness: []beam.Stretch{{
		BendingAt: func(x float64) float64 { return cube(2 - x) },
		ShearAt:   func(x float64) float64 { return 10 * (2 - x) },
	}}}
	soft := uniformBeam(1, beam.Support{At: 0, Fixed: true}, beam.Support{At: 1})
	soft.Stiffness[0].ShearStiffness = 20
	const force = "force method, middle reaction ∫f·M0·m/∫f·m² with M0 = x(2 − x)/2, m = min(x, 2 − x)/2"
	return []Check{
		byLibrary("simple span haunched as EI(1 + (2x/L − 1)²)³, udl: middle", "∫ f·M0·m, M0 = x(1 − x)/2, m = min(x, 1 − x)/2",
			haunched, udl(1), -.0100421731515425649, "wL⁴/EI", deflection(.5)),
		byLibrary("simple span haunched as EI(1 + (2x/L − 1)²)³, udl: end slope", "∫ f·M0·(1 − x)",
			haunched, udl(1), -.0278968463030851298, "wL³/EI", func(r *beam.Response) float64 { return r.Slope(0) }),
		byLibrary("fixed span, EI·exp(2x/L), udl: left moment", "M and V at the left from rotation and rise zero at the right",
			growing, udl(1), -.0551700641846759415, "wL²", moment(0)),
		byLibrary("fixed span, EI·exp(2x/L), udl: right moment", "M and V at the left from rotation and rise zero at the right",
			growing, udl(1), -.122389694837581651, "wL²", moment(1)),
		byLibrary("two spans L, EI(1 + sin(πx/2L)), udl: middle reaction", force+", f = 1/EI",
			sine, udl(2), 1.26749283669301351, "wL", reaction(1)),
		byLibrary("simple span, EI – 3EI – EI to L/4, 3L/4 and L, point: middle", "∫ f·(min(x, 1 − x)/2)²",
			thick, point(.5), -.00868055555555555556, "PL³/EI", deflection(.5)),
		byLibrary("two spans L on springs k = 100EI/L³, EI to 0.6L then 4EI, udl: middle reaction", force+", plus 1/k above and 3/(2k) below",
			springs, udl(2), 1.18301662707838479, "wL", reaction(1)),
		byLibrary("two spans L, EI then 2EI, point at 0.4L: middle reaction", "force method on the span of 2 as above, M0 of the point",
			unlike, point(.4), .624, "P", reaction(1)),
		byLibrary("five springs k = 50EI/L³ at distance L, point at 1.5L: second", "flexibility matrix of the three inner springs on a span of 4 with end springs, lu_solve",
			five, point(1.5), .560492171417877862, "P", reaction(1)),
		byLibrary("five springs k = 50EI/L³ at distance L, point at 1.5L: third", "flexibility matrix of the three inner springs on a span of 4 with end springs, lu_solve",
			five, point(1.5), .554555236728837877, "P", reaction(2)),
		byLibrary("cantilever, EI(2 − x/L)³, GA = 10(2 − x/L)EI/L², point at the tip", "∫ (1 − x)²/EI + ∫ 1/GA",
			cantilever, point(1), -.13746189861593984, "PL³/EI", deflection(1)),
		exactly("propped cantilever with g = GA·L²/EI = 20, udl: prop (1/8 + 1/2g)/(1/3 + 1/g)", soft, udl(1), (1./8+1./40)/(1./3+1./20), "wL", reaction(1)),
		exactly("propped cantilever, EI(1 + (1 − x/L)²)³, udl: prop 1/π", deepFixed, udl(1), 1/math.Pi, "wL", reaction(1)),
	}
}
