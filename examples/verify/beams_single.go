package main

import (
	"math"

	"github.com/tempstage/tempstage/beam"
	"github.com/tempstage/tempstage/loads"
)

// singleSpans is closed forms of one span.
func singleSpans() []Check {
	simple := uniformBeam(1, beam.Support{At: 0}, beam.Support{At: 1})
	propped := uniformBeam(1, beam.Support{At: 0, Fixed: true}, beam.Support{At: 1})
	fixed := uniformBeam(1, beam.Support{At: 0, Fixed: true}, beam.Support{At: 1, Fixed: true})
	all := line(loads.Uniform(0, 1, 1))
	rising, falling := line(loads.Trapezoid(0, 1, 0, 1)), line(loads.Trapezoid(0, 1, 1, 0))
	steep := line(loads.Trapezoid(0, 1, 1, 3))
	tent := loads.Set{Lines: []loads.Line{loads.Trapezoid(0, .5, 0, 1), loads.Trapezoid(.5, 1, 1, 0)}}
	ramps := loads.Set{Lines: []loads.Line{
		loads.Trapezoid(0, .25, 0, 1), loads.Uniform(.25, .75, 1), loads.Trapezoid(.75, 1, 1, 0)}}
	x := (math.Sqrt(13./3) - 1) / 2
	sag := math.Sqrt(1 - math.Sqrt(8./15)) // where the simple span under a triangle sags most
	fromProp := (1 + math.Sqrt(33)) / 16   // the same of the propped cantilever, from the prop
	const fromClamp = 0.5975375921504067   // root of 10x³ − 27x + 14
	fromLeft := (math.Sqrt(105) - 5) / 10  // the same of the fixed span under a triangle
	return []Check{
		exactly("simple span, udl: wL²/8", simple, all, 1./8, "wL²", mostMoment),
		exactly("simple span, udl: 5wL⁴/384", simple, all, -5./384, "wL⁴/EI", leastDeflection),
		exactly("simple span, load 0 to w: left reaction wL/6", simple, rising, 1./6, "wL", reaction(0)),
		exactly("simple span, load 0 to w: wL²/(9√3)", simple, rising, 1/(9*math.Sqrt(3)), "wL²", mostMoment),
		exactly("simple span, load 0 to w: largest moment at L/√3", simple, rising, 1/math.Sqrt(3), "L", mostMomentAt),
		exactly("simple span, load 0 to w: x(3x⁴ − 10x² + 7)wL⁴/360 at x² = 1 − √(8/15)", simple, rising,
			-sag*(3*math.Pow(sag, 4)-10*sag*sag+7)/360, "wL⁴/EI", leastDeflection),
		exactly("simple span, tent load: wL²/12", simple, tent, 1./12, "wL²", mostMoment),
		exactly("simple span, tent load: wL⁴/120", simple, tent, -1./120, "wL⁴/EI", leastDeflection),
		exactly("simple span, ramps of L/4: (3 − 4b²)wL²/24", simple, ramps, (3-4./16)/24, "wL²", mostMoment),
		exactly("simple span, ramps of L/4: (5 − 4b²)²wL⁴/1920", simple, ramps, -(5-4./16)*(5-4./16)/1920, "wL⁴/EI", leastDeflection),
		exactly("simple span, load w to 3w: right reaction 7wL/6", simple, steep, 7./6, "wL", reaction(1)),
		exactly("simple span, load w to 3w: 5x/6 − x²/2 − x³/3 at 0 = 5/6 − x − x²", simple, steep,
			x*(5./6-x/2-x*x/3), "wL²", mostMoment),
		exactly("simple span, load w to 3w: 10wL⁴/384 at the middle", simple, steep, -10./384, "wL⁴/EI", deflection(.5)),
		exactly("propped cantilever, udl: −wL²/8 at the clamp", propped, all, -1./8, "wL²", leastMoment),
		exactly("propped cantilever, udl: 9wL²/128", propped, all, 9./128, "wL²", mostMoment),
		exactly("propped cantilever, udl: largest moment at 5L/8", propped, all, 5./8, "L", mostMomentAt),
		exactly("propped cantilever, udl: (x − 3x³ + 2x⁴)wL⁴/48 at x = (1 + √33)/16 from the prop", propped, all,
			-(fromProp-3*math.Pow(fromProp, 3)+2*math.Pow(fromProp, 4))/48, "wL⁴/EI", leastDeflection),
		exactly("propped cantilever, point at middle: −3PL/16", propped, point(.5), -3./16, "PL", leastMoment),
		exactly("propped cantilever, point at middle: 5PL/32", propped, point(.5), 5./32, "PL", mostMoment),
		exactly("propped cantilever, point at middle: PL³/(48√5)", propped, point(.5), -1/(48*math.Sqrt(5)), "PL³/EI", leastDeflection),
		exactly("propped cantilever, load w at clamp to 0: −wL²/15", propped, falling, -1./15, "wL²", leastMoment),
		exactly("propped cantilever, load w at clamp to 0: prop wL/10", propped, falling, .1, "wL", reaction(1)),
		exactly("propped cantilever, load w at clamp to 0: wL²/(15√5)", propped, falling, 1/(15*math.Sqrt(5)), "wL²", mostMoment),
		exactly("propped cantilever, load 0 at clamp to w: −7wL²/120", propped, rising, -7./120, "wL²", leastMoment),
		exactly("propped cantilever, load 0 at clamp to w: x²(7 − 9x + 2x³)wL⁴/240 at 10x³ − 27x + 14 = 0", propped, rising,
			-fromClamp*fromClamp*(7-9*fromClamp+2*fromClamp*fromClamp*fromClamp)/240, "wL⁴/EI", leastDeflection),
		exactly("fixed span, udl: −wL²/12", fixed, all, -1./12, "wL²", leastMoment),
		exactly("fixed span, udl: wL²/24", fixed, all, 1./24, "wL²", mostMoment),
		exactly("fixed span, udl: wL⁴/384", fixed, all, -1./384, "wL⁴/EI", leastDeflection),
		exactly("fixed span, load 0 to w: −wL²/20 at the right", fixed, rising, -1./20, "wL²", leastMoment),
		exactly("fixed span, load 0 to w: −wL²/30 at the left", fixed, rising, -1./30, "wL²", moment(0)),
		exactly("fixed span, load 0 to w: x²(1 − x)²(2 + x)wL⁴/120 at x = (√105 − 5)/10", fixed, rising,
			-math.Pow(fromLeft*(1-fromLeft), 2)*(2+fromLeft)/120, "wL⁴/EI", leastDeflection),
		exactly("fixed span, load w to 3w: left reaction 0.8wL", fixed, steep, .8, "wL", reaction(0)),
		exactly("fixed span, load w to 3w: −11wL²/60 at the right", fixed, steep, -11./60, "wL²", leastMoment),
		exactly("fixed span, point at 0.3L: −Pab²/L²", fixed, point(.3), -.3*.7*.7, "PL", leastMoment),
		exactly("fixed span, point at 0.3L: 2Pa²b²/L³", fixed, point(.3), 2*.3*.3*.7*.7, "PL", mostMoment),
		exactly("fixed span, point at 0.3L: 2Pa²b³/(3(3b + a)²)", fixed, point(.3), -2*.3*.3*.7*.7*.7/(3*2.4*2.4), "PL³/EI", leastDeflection),
	}
}

// overhangs is closed forms of beams that reach beyond their supports.
func overhangs() []Check {
	over := uniformBeam(1.4, beam.Support{At: 0}, beam.Support{At: 1})
	cantilever := uniformBeam(1, beam.Support{At: 0, Fixed: true})
	all := line(loads.Uniform(0, 1.4, 1))
	return []Check{
		exactly("span L with overhang 0.4L, udl: left reaction (L² − a²)w/2L", over, all, (1-.16)/2, "wL", reaction(0)),
		exactly("span L with overhang 0.4L, udl: right reaction (L + a)²w/2L", over, all, 1.4*1.4/2, "wL", reaction(1)),
		exactly("span L with overhang 0.4L, udl: span moment R²/2w", over, all, .42*.42/2, "wL²", mostMoment),
		exactly("span L with overhang 0.4L, udl: −wa²/2 at the support", over, all, -.08, "wL²", leastMoment),
		exactly("span L with overhang 0.4L, udl: tip wa(L³ − 4a²L − 3a³)/24 up", over, all,
			.4*(1-4*.16-3*.064)/24, "wL⁴/EI", deflection(1.4)),
		exactly("cantilever, udl: −wL²/2 at the clamp", cantilever, line(loads.Uniform(0, 1, 1)), -.5, "wL²", leastMoment),
		exactly("cantilever, udl: wL⁴/8 at the tip", cantilever, line(loads.Uniform(0, 1, 1)), -1./8, "wL⁴/EI", leastDeflection),
		exactly("cantilever, point at the tip: PL³/3", cantilever, point(1), -1./3, "PL³/EI", deflection(1)),
	}
}
