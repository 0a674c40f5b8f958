package main

import (
	"math"

	"github.com/tempstage/tempstage/loads/tendon"
)

// drawIn is the slip of the wedges of straight tendons with wobble: along s the
// stress falls as σ0·exp(−c·s), c = μ·k, and every case has a closed form.
func drawIn() []Check {
	const mirrored = "mirrored exponential: E·Δ = (σ0/c)(1 − u)², u = exp(−c·d)"
	const uniform = "E·Δ/L without friction"
	const whole = "E·Δ = ∫(σ0·exp(−c·s) − σa·exp(c·s)) ds over the tendon"
	const stress, modulus, slip, c = 1395e6, 195e9, 0.006, 0.0025
	u := 1 - math.Sqrt(c*modulus*slip/stress)
	// anchor is the stress at the stressed anchor of a tendon too short for the slip.
	anchor := func(length, slip float64) float64 {
		return (stress*-math.Expm1(-c*length) - c*modulus*slip) / math.Expm1(c*length)
	}
	exactly := func(name, source string, length float64, ends tendon.Ends, friction bool, slip float64, read func(*tendon.Force) float64, value float64, unit string) Check {
		return Check{Name: name, Package: "loads/tendon", Ours: func() (float64, error) {
			f, err := level(length, c, friction).Jack(tendon.Jacking{Tendons: []string{"S"}, Stress: stress, Ends: ends, DrawIn: slip})
			if err != nil {
				return 0, err
			}
			return read(f), nil
		}}.from(ClosedForm, source).is(value, unit, same(value), floatRounding)
	}
	at := func(x float64) func(*tendon.Force) float64 {
		return func(f *tendon.Force) float64 { return f.At(x) / f.Tendon.Area() / 1e6 }
	}
	reach := func(f *tendon.Force) float64 { left, right := f.DrawInReach(); return max(left, right) }
	return []Check{
		exactly("draw-in 6 mm, 1395 MPa, c = 0.0025/m, 44 m: reach", mirrored, 44, tendon.LeftEnd, true, slip, reach, -math.Log(u)/c, "m"),
		exactly("draw-in 6 mm, 1395 MPa, c = 0.0025/m, 44 m: stress at the anchor", mirrored, 44, tendon.LeftEnd, true, slip, at(0), 1395*u*u, "MPa"),
		exactly("draw-in 6 mm from the right end: stress at its anchor", mirrored, 44, tendon.RightEnd, true, slip, at(44), 1395*u*u, "MPa"),
		exactly("draw-in 6 mm, beyond its length: friction alone", mirrored, 44, tendon.LeftEnd, true, slip, at(30), 1395*math.Exp(-c*30), "MPa"),
		exactly("draw-in 6 mm at both ends of 44 m: stress at the anchors", mirrored, 44, tendon.BothEnds, true, slip, at(44), 1395*u*u, "MPa"),
		exactly("draw-in 6 mm, 12 m tendon: stress at the stressed anchor", whole, 12, tendon.LeftEnd, true, slip, at(0), anchor(12, slip)/1e6, "MPa"),
		exactly("draw-in 6 mm, 12 m tendon: stress at the dead end", whole, 12, tendon.LeftEnd, true, slip, at(12), anchor(12, slip)*math.Exp(c*12)/1e6, "MPa"),
		exactly("draw-in 6 mm at both ends of 24 m: stress at mid-length", whole, 24, tendon.BothEnds, true, slip, at(12), anchor(12, slip)*math.Exp(c*12)/1e6, "MPa"),
		exactly("draw-in 6 mm, 30 m, no friction: uniform loss", uniform, 30, tendon.LeftEnd, false, slip, at(21), 1395-195e3*slip/30, "MPa"),
		exactly("draw-in 6 mm at both ends, 30 m, no friction: twice the loss", uniform, 30, tendon.BothEnds, false, slip, at(11), 1395-2*195e3*slip/30, "MPa"),
	}
}

// level is a straight tendon whose stress falls by c per metre.
func level(length, c float64, friction bool) tendon.Tendon {
	strand := tendon.Y1860S7x157
	strand.Modulus = 195e9
	t := tendon.Tendon{
		Mark: "S", Strand: strand, Strands: 12, Duct: 0.09, NoFriction: !friction,
		Elevation: tendon.Level(0, length, 0.5), Plan: tendon.Level(0, length, 0),
		Approval: tendon.Approval{MeanStrength: 28e6, AnchorSpacing: 0.35, EdgeDistance: 0.2},
	}
	if friction {
		t.Friction, t.Wobble = 0.2, c/0.2
	}
	return t
}

// linearDrawIn is the draw-in on a straight line of losses.
func linearDrawIn() []Check {
	reach := func(stiffness, slip, fall float64) func() (float64, error) {
		return func() (float64, error) {
			x, _, err := tendon.LinearDrawIn(stiffness, slip, fall)
			return x, err
		}
	}
	loss := func(stiffness, slip, fall float64) func() (float64, error) {
		return func() (float64, error) {
			_, l, err := tendon.LinearDrawIn(stiffness, slip, fall)
			return l, err
		}
	}
	const source = "straight line of losses: x = √(E·Δ/p), 2·p·x at the anchor"
	const fall = 1395e6 * 0.0025 // Pa/m
	x := math.Sqrt(195e9 * 0.006 / fall)
	return []Check{
		asked("slip 6 mm, 195 GPa, losses of 3.4875 MPa/m: reach", reach(195e9, 0.006, fall)).
			from(ClosedForm, source).is(x, "m", same(x), floatRounding),
		asked("slip 6 mm, 195 GPa, losses of 3.4875 MPa/m: loss at the anchor", times(1e-6, loss(195e9, 0.006, fall))).
			from(ClosedForm, source).is(2*fall*x/1e6, "MPa", same(2*fall*x/1e6), floatRounding),
		asked("slip 5 mm, EA 546 MN, losses of 16 kN/m: reach", reach(546e6, 0.005, 16e3)).
			from(ClosedForm, source).is(math.Sqrt(546e6*0.005/16e3), "m", same(13), floatRounding),
	}
}
