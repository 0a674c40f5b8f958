package main

import (
	"math"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// pickPoints is the moments of a uniform member suspended from or laid on points chosen
// along it.
func pickPoints() []Check {
	const handbook = "PCI Design Handbook, pick-point coefficients"
	own := line(loads.Uniform(0, 1, 1))
	balanced := (math.Sqrt2 - 1) / 2
	least := (3 - 2*math.Sqrt2) / 8
	tilted := 1 - 1/math.Sqrt2
	return []Check{
		exactly("two points at 0.2071L: (3 − 2√2)wL²/8 sagging", twoPicks(balanced), own, least, "wL²", mostMoment),
		exactly("two points at 0.2071L: (3 − 2√2)wL²/8 hogging", twoPicks(balanced), own, -least, "wL²", leastMoment),
		printed("two points at 0.207L", handbook, Recalled, twoPicks(.207), own, -.0214, .5e-4, "wL²", leastMoment),
		exactly("two points at L/5: −wL²/50", twoPicks(.2), own, -1./50, "wL²", leastMoment),
		exactly("two points at L/5: wL²/40", twoPicks(.2), own, 1./40, "wL²", mostMoment),
		exactly("two points at L/4: −wL²/32", twoPicks(.25), own, -1./32, "wL²", leastMoment),
		exactly("two points at L/4: nothing at the middle", twoPicks(.25), own, 0, "wL²", moment(.5)),
		exactly("one point at 0.2929L, other end on the ground: sagging", onePick(tilted), own, tilted*tilted/2, "wL²", mostMoment),
		exactly("one point at 0.2929L, other end on the ground: hogging", onePick(tilted), own, -tilted*tilted/2, "wL²", leastMoment),
		exactly("one point at 0.2929L: hook load wL/√2", onePick(tilted), own, 1/math.Sqrt2, "wL", reaction(0)),
		printed("one point at 0.293L, other end on the ground", handbook, Recalled, onePick(.293), own, .0429, .5e-4, "wL²", mostMoment),
		equalMoments("one point, other end on the ground: place of equal moments", handbook, onePick, .293),
		exactly("one point at 0.3L: −w(0.3L)²/2", onePick(.3), own, -.045, "wL²", leastMoment),
		exactly("one point at L/3: −wL²/18", onePick(1./3), own, -1./18, "wL²", leastMoment),
		exactly("one point at L/4: wL²/18", onePick(.25), own, 1./18, "wL²", mostMoment),
	}
}

// twoPicks is a member suspended at a from either end.
func twoPicks(a float64) beam.Layout {
	return uniformBeam(1, beam.Support{At: a}, beam.Support{At: 1 - a})
}

// onePick is a member suspended at a from one end and on the ground at the other.
func onePick(a float64) beam.Layout {
	return uniformBeam(1, beam.Support{At: a}, beam.Support{At: 1})
}

// equalMoments is the place of a pick point at which the largest sagging and
// hogging moments are equal: nearer to the end the sagging one is larger.
func equalMoments(name, source string, hung func(float64) beam.Layout, value float64) Check {
	excess := func(a float64) (float64, error) {
		return ours(hung(a), line(loads.Uniform(0, 1, 1)), func(r *beam.Response) float64 { return mostMoment(r) + leastMoment(r) })()
	}
	return Check{
		Name: name, Package: "beam", Source: source, Kind: Recalled,
		Value: value, Unit: "L", Tolerance: .5e-3, Reason: printRounding,
		Ours: func() (float64, error) {
			near, far := .1, .4
			for range 50 {
				middle := (near + far) / 2
				e, err := excess(middle)
				if err != nil {
					return 0, err
				}
				if e > 0 {
					near = middle
				} else {
					far = middle
				}
			}
			return (near + far) / 2, nil
		},
	}
}
