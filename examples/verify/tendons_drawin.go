package main

import (
	"fmt"
	"math"

	"github.com/tempstage/tempstage/loads/tendon"
)

// drawIn is the slip of the wedges of straight tendons with wobble: along s the
// stress falls as σ0·exp(−c·s), c = μ·k, and every case has a closed form.
func drawIn() []Check {
	const mirrored = "mirrored exponential: E·Δ = (σ0/c)(1 − u)², u = exp(−c·d)"
	const uniform = "E·Δ/L without friction"
	const whole = "E·Δ = ∫(σ0·exp(−c·s) − σa·exp(c·s)) ds over the tendon"
	const stress, modulus, slip, c = 1455e6, 190e9, 0.006, 0.00308
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
		exactly("draw-in 6 mm, 1455 MPa, c = 0.00308/m, 43 m: length felt", mirrored, 43, tendon.LeftEnd, true, slip, reach, -math.Log(u)/c, "m"),
		exactly("draw-in 6 mm, 1455 MPa, c = 0.00308/m, 43 m: stress at the anchor", mirrored, 43, tendon.LeftEnd, true, slip, at(0), 1455*u*u, "MPa"),
		exactly("draw-in 6 mm from the right end: stress at its anchor", mirrored, 43, tendon.RightEnd, true, slip, at(43), 1455*u*u, "MPa"),
		exactly("draw-in 6 mm, beyond its length: friction alone", mirrored, 43, tendon.LeftEnd, true, slip, at(30), 1455*math.Exp(-c*30), "MPa"),
		exactly("draw-in 6 mm at both ends of 43 m: stress at the anchors", mirrored, 43, tendon.BothEnds, true, slip, at(43), 1455*u*u, "MPa"),
		exactly("draw-in 6 mm, 12 m tendon: stress at the stressed anchor", whole, 12, tendon.LeftEnd, true, slip, at(0), anchor(12, slip)/1e6, "MPa"),
		exactly("draw-in 6 mm, 12 m tendon: stress at the dead end", whole, 12, tendon.LeftEnd, true, slip, at(12), anchor(12, slip)*math.Exp(c*12)/1e6, "MPa"),
		exactly("draw-in 6 mm at both ends of 24 m: stress at mid-length", whole, 24, tendon.BothEnds, true, slip, at(12), anchor(12, slip)*math.Exp(c*12)/1e6, "MPa"),
		exactly("draw-in 6 mm, 30 m, no friction: uniform loss", uniform, 30, tendon.LeftEnd, false, slip, at(21), 1455-190e3*slip/30, "MPa"),
		exactly("draw-in 6 mm at both ends, 30 m, no friction: twice the loss", uniform, 30, tendon.BothEnds, false, slip, at(11), 1455-2*190e3*slip/30, "MPa"),
	}
}

// level is a straight tendon whose stress falls by c per metre.
func level(length, c float64, friction bool) tendon.Tendon {
	strand := tendon.Y1860S7x157
	strand.Modulus = 190e9
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
	const hurst = "Hurst, Prestressed Concrete Design, Example 4.3, with its p = 15.82 kN/m"
	const fall = 1455e6 * 0.00308 // Pa/m
	rows := []Check{
		asked("slip 6 mm, 1455 MPa, k = 0.00308/m: length felt", reach(190e9, 0.006, fall)).
			from(Published, enit).is(15.95, "m", 0.005, lastDigit),
		asked("2850 mm², slip 5 mm, 15.82 kN/m: length felt", reach(195e9*2850e-6, 0.005, 15.82e3)).
			from(Recalled, hurst).is(13.25, "m", 0.005, lastDigit),
		asked("2850 mm², slip 5 mm, 15.82 kN/m: loss at the anchor in kN", func() (float64, error) {
			l, err := loss(195e9*2850e-6, 0.005, 15.82e3)()
			return l / 1e3, err
		}).from(Recalled, hurst).is(419, "kN", 0.5, lastDigit),
	}
	// The printed table takes k·d as 0.05: on the exponential curve that is the
	// reach of a slip of (σ0/(k·E))(1 − exp(−0.05))² = 5.91 mm.
	slip := 1455e6 / (0.00308 * 190e9) * math.Pow(-math.Expm1(-0.05), 2)
	for _, p := range []struct{ x, printed float64 }{{0, 138.46}, {5.375, 92.59}, {10.75, 46.75}} {
		rows = append(rows, asked(fmt.Sprintf("slip felt over k·d = 0.05, 1455 MPa: loss at x = %g m", p.x), func() (float64, error) {
			f, err := level(43, 0.00308, true).Jack(tendon.Jacking{Tendons: []string{"S"}, Stress: 1455e6, Ends: tendon.LeftEnd, DrawIn: slip})
			if err != nil {
				return 0, err
			}
			return (f.AtJack(p.x) - f.At(p.x)) / f.Tendon.Area() / 1e6, nil
		}).from(Published, enit+"; printed input is 6 mm, the row feeds 5.91 mm worked back from the printed k·d = 0.05").is(p.printed, "MPa", 0.01, "the source cuts the third decimal off"))
	}
	return rows
}
