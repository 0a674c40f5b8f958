package main

import (
	"math"

	"github.com/tempstage/tempstage/loads/rigging"
)

// outriggers are the forces below a crane on four supports, and the pressure below its
// floats and mats.
func outriggers() []Check {
	force := func(leg int, load, radius float64) func() (float64, error) {
		return func() (float64, error) {
			o := rigging.Outriggers{Along: 8, Across: 7, Carrier: 300e3, Upper: 500e3, UpperRadius: -1.2, Load: load, Radius: radius}
			r, err := o.At(math.Pi / 4)
			return r.Forces[leg] / 1e3, err
		}
	}
	arm := (400*7 - 500*1.2) / math.Sqrt2
	far := (400*11 - 500*1.2) / math.Sqrt2
	rows := []Check{
		closedRow("four outriggers, boom over a corner: V/4 + Ml/(2·8) + Mt/(2·7)", "loads/rigging", "kN", 1200./4+arm/16+arm/14, force(0, 400e3, 7)),
		closedRow("four outriggers, boom over a corner, one lifts: Ml/8 + Mt/7 below the boom", "loads/rigging", "kN", far/8+far/7, force(0, 400e3, 11)),
		closedRow("four outriggers, boom over a corner, one lifts: V/2 − Mt/7 at the front right", "loads/rigging", "kN", 600-far/7, force(1, 400e3, 11)),
		closedRow("four outriggers, boom over a corner, one lifts: nothing at the opposite one", "loads/rigging", "kN", 0, force(2, 400e3, 11)),
	}
	// Ml = Gc·0.8 − (Gu + F)·0.5 + arm, slewing axis 0.5 m behind the middle of the supports.
	ahead := func() (float64, error) {
		o := rigging.Outriggers{Along: 8, Across: 7, Ahead: -.5, Carrier: 300e3, CarrierAt: .8, Upper: 500e3, UpperRadius: -1.2, Load: 400e3, Radius: 7}
		r, err := o.At(math.Pi / 4)
		return r.Forces[0] / 1e3, err
	}
	rows = append(rows, closedRow("four outriggers, boom over a corner, slewing axis 0.5 m behind the middle, carrier 0.8 m before it", "loads/rigging", "kN", 300+(300*.8-900*.5+arm)/16+arm/14, ahead))
	float := math.Sqrt(math.Pi/4) * 24 * .0254 // side of the square of the same area
	const psi = 4.4482216152605 / .0254 / .0254
	below := func(m rigging.Mat, unit float64) func() (float64, error) {
		return func() (float64, error) {
			m.Bending, m.Ground = 1e9, 2e6
			r, err := m.Solve()
			return r.Pressure / unit, err
		}
	}
	side := math.Sqrt(.65 * 80 * tonne / 200e3)
	return append(rows,
		Check{Name: "186,000 lb on one float of 24 in diameter: pressure", Package: "loads/rigging", Ours: below(rigging.Mat{Length: float, Width: float, Foot: float, Force: 186000 * 4.4482216152605}, psi)}.
			from(Recalled, "technical note Mobile crane outriggers; its page was not noted").is(411, "psi", .5, lastDigit),
		Check{Name: "48 + 5.2 + 0.15 t on four mats of 1 m²: pressure", Package: "loads/rigging", Ours: below(rigging.Mat{Length: 1, Width: 1, Foot: 1, Force: 53.35 / 4 * tonne}, tonne)}.
			from(Recalled, "article on ground bearing in a journal of operations engineers; its page was not noted").is(13.34, "t/m²", .005, lastDigit),
		closedRow("0.65 of a crane of 60 t with 20 t on a square of √(F/p): pressure", "loads/rigging", "kPa", 200, below(rigging.Mat{Length: side, Width: side, Foot: side, Force: .65 * 80 * tonne}, 1e3)),
		// The part beyond the foot bends the mat by p·b·c²/2: with q = 2·40/300, c = q + √(q² + 0.6·q).
		closedRow("mat 3 m × 1 m that bears 40 kN·m, 300 kN on a foot of 0.6 m: length that it spreads over", "loads/rigging", "m", .6+2*(80./300+math.Sqrt(80./300*(80./300+.6))), func() (float64, error) {
			r, err := rigging.Mat{Length: 3, Width: 1, Foot: .6, Force: 300e3, Bending: 40e3, Ground: 300e3}.Solve()
			return r.Effective, err
		}),
		closedRow("mat 3 m × 1 m of 9 kN, 300 kN on all of it: F/A + G/A", "loads/rigging", "kPa", 103, below(rigging.Mat{Length: 3, Width: 1, Foot: 3, Force: 300e3, Weight: 9e3}, 1e3)))
}

// tracks are the ground pressure below a crawler: 600 kN with an upper part of 900 kN,
// 1.5 m on the side of the counterweight, and 300 kN; tracks 7 m × 0.9 m, 5 m apart.
func tracks() []Check {
	pressed := func(radius, slew float64, read func(rigging.Tracked) float64) func() (float64, error) {
		return func() (float64, error) {
			r, err := rigging.Tracks{Length: 7, Shoe: .9, Gauge: 5, Carrier: 600e3, Upper: 900e3, UpperRadius: -1.5, Load: 300e3, Radius: radius}.At(slew)
			return read(r), err
		}
	}
	most := func(r rigging.Tracked) float64 { return r.Left.Most / 1e3 }
	near, far := (300*9-900*1.5)/1800., (300*14-900*1.5)/1800.
	const ahead, across = "crawler, 1,800 kN on tracks 7 m × 0.9 m, load ahead at ", "crawler, 1,800 kN on tracks 5 m apart, load to the left at "
	return []Check{
		closedRow(ahead+"9 m: 900/(0.9·7)·(1 + 6e/7)", "loads/rigging", "kPa", 900/(.9*7)*(1+6*near/7), pressed(9, 0, most)),
		closedRow(ahead+"9 m: 900/(0.9·7)·(1 − 6e/7)", "loads/rigging", "kPa", 900/(.9*7)*(1-6*near/7), pressed(9, 0, func(r rigging.Tracked) float64 { return r.Right.Least / 1e3 })),
		closedRow(ahead+"14 m: 3·(7/2 − e) presses", "loads/rigging", "m", 3*(3.5-far), pressed(14, 0, func(r rigging.Tracked) float64 { return r.Left.Contact })),
		closedRow(ahead+"14 m: 2·900/(0.9·3·(7/2 − e))", "loads/rigging", "kPa", 2*900/(.9*3*(3.5-far)), pressed(14, 0, most)),
		closedRow(across+"9 m: V·(1/2 + e/5) on the left", "loads/rigging", "kN", 1800*(.5+near/5), pressed(9, math.Pi/2, func(r rigging.Tracked) float64 { return r.Left.Force / 1e3 })),
		closedRow(across+"9 m: V·(1/2 − e/5) on the right", "loads/rigging", "kN", 1800*(.5-near/5), pressed(9, math.Pi/2, func(r rigging.Tracked) float64 { return r.Right.Force / 1e3 })),
	}
}
