package main

import (
	"math"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// pickPoints is the moments of a uniform member hung or laid on points chosen
// along it.
func pickPoints() []Check {
	const handbook = "PCI Design Handbook, pick-point coefficients"
	const tomlinson = "Tomlinson, Pile Design and Construction Practice, Table 7.1"
	own := line(loads.Uniform(0, 1, 1))
	two := func(a float64) beam.Layout { return uniformBeam(1, beam.Support{At: a}, beam.Support{At: 1 - a}) }
	one := func(a float64) beam.Layout { return uniformBeam(1, beam.Support{At: a}, beam.Support{At: 1}) }
	balanced := (math.Sqrt2 - 1) / 2
	least := (3 - 2*math.Sqrt2) / 8
	tilted := 1 - 1/math.Sqrt2
	return []Check{
		exactly("two points at 0.2071L: (3 − 2√2)wL²/8 sagging", two(balanced), own, least, "wL²", mostMoment),
		exactly("two points at 0.2071L: (3 − 2√2)wL²/8 hogging", two(balanced), own, -least, "wL²", leastMoment),
		printed("two points at 0.207L (exactly 0.2071)", handbook, Remembered, two(balanced), own, .0214, .5e-4, "wL²", mostMoment),
		exactly("two points at L/5: −wL²/50", two(.2), own, -1./50, "wL²", leastMoment),
		exactly("two points at L/5: wL²/40", two(.2), own, 1./40, "wL²", mostMoment),
		printed("two points at L/5: WL/40", tomlinson, Remembered, two(.2), own, .0250, .5e-4, "wL²", mostMoment),
		exactly("two points at L/4: −wL²/32", two(.25), own, -1./32, "wL²", leastMoment),
		exactly("two points at L/4: nothing at the middle", two(.25), own, 0, "wL²", moment(.5)),
		exactly("two points at the ends: wL²/8", two(0), own, 1./8, "wL²", mostMoment),
		exactly("one point at 0.2929L, other end on the ground: sagging", one(tilted), own, tilted*tilted/2, "wL²", mostMoment),
		exactly("one point at 0.2929L, other end on the ground: hogging", one(tilted), own, -tilted*tilted/2, "wL²", leastMoment),
		exactly("one point at 0.2929L: hook load wL/√2", one(tilted), own, 1/math.Sqrt2, "wL", reaction(0)),
		printed("one point at 0.293L, other end on the ground", handbook, Remembered, one(.293), own, .0429, .5e-4, "wL²", mostMoment),
		printed("one point at 0.3L: WL/22", tomlinson, Remembered, one(.3), own, -1./22, .5e-3, "wL²", leastMoment),
		printed("one point at L/3: WL/18", tomlinson, Remembered, one(1./3), own, -1./18, .5e-3, "wL²", leastMoment),
		printed("one point at L/4: WL/18", tomlinson, Remembered, one(.25), own, 1./18, .5e-3, "wL²", mostMoment),
	}
}
