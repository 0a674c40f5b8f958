package main

import (
	"math"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// equalisedPicks is the moments of a uniform member on rolling blocks, which give
// each of three or four points the same force, and of panels lifted at four and eight
// points.
func equalisedPicks() []Check {
	const handbook = "PCI Design Handbook, pick-point coefficients"
	const panels = "PCI Design Handbook, moments of flat panels at four and eight pick points"
	own := line(loads.Uniform(0, 1, 1))
	least := (3 - 2*math.Sqrt2) / 32
	outer, tilted := (math.Sqrt2-1)/4, 1-1/math.Sqrt2
	third := (math.Sqrt2 - 1) / 3 // a² + 2a/3 = 1/9
	middle := uniformBeam(1, beam.Support{At: .5, Fixed: true})
	return []Check{
		printed("four points on rolling blocks, 0.104L from the ends and 0.292L apart: hogging", handbook, Recalled, twoPicks(.104), fourPicks(.396, 1), -.0054, .5e-4, "wL²", leastMoment),
		exactly("four points on rolling blocks at 0.104L and 0.396L: −1/32 + (1/4 − 0.104)/4 at L/4", twoPicks(.104), fourPicks(.396, 1), -1./32+.146/4, "wL²", mostMoment),
		exactly("four points on rolling blocks at 0.1036L and 0.3964L: (3 − 2√2)wL²/32 hogging", twoPicks(outer), fourPicks(.5-outer, 1), -least, "wL²", leastMoment),
		exactly("four points on rolling blocks at 0.1036L and 0.3964L: (3 − 2√2)wL²/32 sagging", twoPicks(outer), fourPicks(.5-outer, 1), least, "wL²", mostMoment),
		exactly("four points on rolling blocks at 0.104L and 0.396L: nothing at the middle", twoPicks(.104), fourPicks(.396, 1), 0, "wL²", moment(.5)),
		exactly("three points at L/6 and the middle on rolling blocks: −wL²/72", twoPicks(1./6), threePicks(), -1./72, "wL²", leastMoment),
		exactly("three points at L/6 and the middle on rolling blocks: nothing at L/3", twoPicks(1./6), threePicks(), 0, "wL²", moment(1./3)),
		exactly("three points at (√2 − 1)L/3 and the middle on rolling blocks: (3 − 2√2)wL²/18 hogging", twoPicks(third), threePicks(), -16*least/9, "wL²", leastMoment),
		exactly("three points at (√2 − 1)L/3 and the middle on rolling blocks: (3 − 2√2)wL²/18 sagging", twoPicks(third), threePicks(), 16*least/9, "wL²", mostMoment),
		exactly("one point at the middle: −wL²/8", middle, own, -1./8, "wL²", leastMoment),
		exactly("one point at 0.2929L, other end on the ground: (1 − 1/√2)wL on the ground", onePick(tilted), own, tilted, "wL", reaction(1)),
		printed("panel at four points: 0.0107·w·a²·b in each half of its width", panels, Recalled, twoPicks(.207), line(loads.Uniform(0, 1, .5)), -.0107, .5e-4, "wa²b", leastMoment),
		printed("panel at eight points: 0.0054·w·a²·b in each quarter of its width", panels, Recalled, twoPicks(.207), line(loads.Uniform(0, 1, .25)), -.0054, .5e-4, "wa²b", leastMoment),
		printed("panel at eight points, 0.104b from the edges and 0.292b apart: 0.0027·w·a·b² in each half of its length", panels, Recalled, twoPicks(.104), fourPicks(.396, .5), -.0027, .5e-4, "wab²", leastMoment),
	}
}

// pilePicks is the moments of a pile as a fraction of its weight times its length.
func pilePicks() []Check {
	own := line(loads.Uniform(0, 1, 1))
	row := func(name string, layout beam.Layout, divisor float64, read reading) Check {
		c := printed(name, "Tomlinson, Pile Design and Construction Practice, Table 7.1", Recalled, layout, own, 1/divisor, 1/(divisor-.5)-1/divisor, "WL", read)
		c.Reason = "half a unit of the divisor"
		return c
	}
	hogging := func(r *beam.Response) float64 { return -leastMoment(r) }
	return []Check{
		row("pile at two points, L/5 from the ends: WL/40", twoPicks(.2), 40, mostMoment),
		row("pile at two points, L/4 from the ends: WL/32", twoPicks(.25), 32, hogging),
		row("pile at 0.3L from one end, other end on the ground: WL/22", onePick(.3), 22, hogging),
		row("pile at L/3 from one end, other end on the ground: WL/18", onePick(1./3), 18, hogging),
		row("pile at L/4 from one end, other end on the ground: WL/18", onePick(.25), 18, mostMoment),
		row("pile at both ends: WL/8", twoPicks(0), 8, mostMoment),
		row("pile at its middle: WL/8", uniformBeam(1, beam.Support{At: .5, Fixed: true}), 8, hogging),
	}
}

// fourPicks is a load w on all of a member with the forces of the inner two of four points
// on rolling blocks, each a quarter of the weight, upwards.
func fourPicks(inner, w float64) loads.Set {
	set := line(loads.Uniform(0, 1, w))
	set.Points = []loads.Point{{At: inner, Force: -w / 4}, {At: 1 - inner, Force: -w / 4}}
	return set
}

// threePicks is the same with the middle one of three points, a third of the weight.
func threePicks() loads.Set {
	set := line(loads.Uniform(0, 1, 1))
	set.Points = []loads.Point{{At: .5, Force: -1. / 3}}
	return set
}
